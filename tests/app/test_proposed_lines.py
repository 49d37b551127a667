"""Which stored line a wanted one brings up to date: rules that hold for any pour and any run."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from wickbench.app.label_store import StoredLabel
from wickbench.app.pour_counts import PouredCandles
from wickbench.app.print_runs import RunLine
from wickbench.app.proposed_lines import ProposedLine, pair_lines
from wickbench.domain.labels import LabelDesign

DESIGN = LabelDesign(width_mm=60.0, height_mm=40.0)
POTS = st.one_of(st.none(), st.integers(1, 3))
LOTS = st.sampled_from(("", "A1", "A2"))
FEW = st.integers(1, 3)


def _wanted(label: int, candle: int, lot: str, pot: int | None) -> ProposedLine:
    stored = StoredLabel(id=label, name="", version_id=label, number=1, frozen=False, design=DESIGN)
    candles = PouredCandles(candle_id=candle, count=5, lot_code=lot, pour_pot_id=pot)
    return ProposedLine(label=stored, kind="jar", candles=candles, count=5)


def _stored(key: int, line: ProposedLine, pot: int | None) -> RunLine:
    one = line.candles
    return RunLine(
        id=key, label_id=line.label.id, candle_id=one.candle_id, lot_code=one.lot_code,
        count=5, pour_pot_id=pot,
    )  # fmt: skip


WANTED = st.lists(st.builds(_wanted, FEW, FEW, LOTS, POTS), max_size=6)
STORED = st.lists(st.tuples(st.builds(_wanted, FEW, FEW, LOTS, POTS), POTS), max_size=6)


@given(WANTED, STORED)
def test_no_stored_line_is_taken_twice_and_none_is_lost(
    wanted: list[ProposedLine], kept: list[tuple[ProposedLine, int | None]]
) -> None:
    stored = [_stored(at, line, pot) for at, (line, pot) in enumerate(kept)]
    pairs, left = pair_lines(wanted, stored)
    assert [line for line, _ in pairs] == wanted
    taken = [old.id for _, old in pairs if old is not None]
    assert sorted([*taken, *(old.id for old in left)]) == [old.id for old in stored]
    for line, old in pairs:
        if old is not None:
            assert (old.label_id, old.candle_id) == (line.label.id, line.candles.candle_id)
    # what could still be paired is not left over
    free = {(line.label.id, line.candles.candle_id) for line, old in pairs if old is None}
    assert not free & {(old.label_id, old.candle_id) for old in left}


@given(WANTED, st.randoms(use_true_random=False))
def test_a_run_stored_as_wanted_pairs_each_line_with_its_own(
    wanted: list[ProposedLine], shuffled: object
) -> None:
    lots = {(one.label.id, one.candles.candle_id, one.candles.lot_code): one for one in wanted}
    alone = list(lots.values())
    stored = [_stored(at, line, line.candles.pour_pot_id) for at, line in enumerate(alone)]
    mixed = list(stored)
    shuffled.shuffle(mixed)  # type: ignore[attr-defined]  # a Random
    pots = [one.candles.pour_pot_id for one in alone]
    if len({pot for pot in pots if pot is not None}) < len([pot for pot in pots if pot]):
        return  # two lots from one pot: there its lines are told apart by nothing
    pairs, left = pair_lines(alone, mixed)
    assert left == []
    assert [old.id if old is not None else None for _, old in pairs] == [one.id for one in stored]
