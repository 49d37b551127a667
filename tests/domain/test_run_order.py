"""Print runs sorted by line, lot and candle; begun sheets in the order that touches the fewest."""

from __future__ import annotations

from collections import Counter
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.errors import OutOfRange
from wickbench.domain.run_order import SORTINGS, RunItem, begun_order, candles_of, run_order
from wickbench.domain.sheet_runs import need_of, place_run, sheets_needed

ITEMS = st.lists(
    st.builds(
        RunItem,
        st.integers(0, 30),
        st.sampled_from([None, 1, 2]),
        st.sampled_from(["", "A1", "A2"]),
    ),
    max_size=6,
)
USED = st.lists(st.frozensets(st.integers(0, 29)), max_size=4)


@given(items=ITEMS, sorted_by=st.sampled_from(SORTINGS), per_sheet=st.integers(1, 30), used=USED)
def test_however_it_is_sorted_no_sticker_is_taken_twice_and_the_fewest_sheets_do(
    items: list[RunItem], sorted_by: str, per_sheet: int, used: list[frozenset[int]]
) -> None:
    counts = [item.count for item in items]
    placed = place_run(counts, per_sheet, used, order=run_order(items, sorted_by))
    spots = [(one.sheet_no, one.index) for one in placed]
    assert spots == sorted(set(spots))
    assert not any(no < len(used) and index in used[no] for no, index in spots)
    taken = Counter(one.entry for one in placed)
    assert [taken[at] for at in range(len(items))] == counts
    for at, count in enumerate(counts):
        assert [one.nth for one in placed if one.entry == at] == list(range(count))
    # The bound: what the begun sheets cannot hold, on sheets filled to the last sticker.
    free = [per_sheet - len([at for at in gone if at < per_sheet]) for gone in used]
    new = -(-max(0, sum(counts) - sum(free)) // per_sheet)
    need = need_of(placed, per_sheet, used)
    assert need.new_sheets == new == sheets_needed(counts, per_sheet, free).new_sheets
    assert need.from_partly_used == min(sum(counts), sum(free))


@given(items=ITEMS, columns=st.integers(1, 5), rows=st.integers(1, 6), used=USED)
def test_lots_and_candles_share_no_row_and_no_sheet_when_that_is_wanted(
    items: list[RunItem], columns: int, rows: int, used: list[frozenset[int]]
) -> None:
    counts = [item.count for item in items]
    for sorted_by in ("lot", "set"):
        order = run_order(items, sorted_by)
        for apart in (columns, columns * rows):
            placed = place_run(counts, columns * rows, used, order=order, apart=apart)
            assert len({(one.sheet_no, one.index) for one in placed}) == sum(counts)
            groups: dict[tuple[int, int], set[int]] = {}
            for one, block in zip(placed, order.blocks, strict=True):
                groups.setdefault((one.sheet_no, one.index // apart), set()).add(block)
            assert all(len(blocks) == 1 for blocks in groups.values())


def test_a_lot_stays_together_and_a_set_goes_candle_by_candle() -> None:
    # Common practice, no source: jar label, lid and caution of a candle are stuck on together.
    jars, lids = RunItem(2, "fir", "A1"), RunItem(2, "fir", "A1")
    other, cautions = RunItem(2, "rose", "B1"), RunItem(4, "fir", "A1")
    items = [jars, other, lids, cautions]
    assert run_order(items).entries == (0, 0, 1, 1, 2, 2, 3, 3, 3, 3)
    assert run_order(items, "lot").entries == (0, 0, 2, 2, 3, 3, 3, 3, 1, 1)
    assert run_order(items, "lot").blocks == (0,) * 8 + (1,) * 2
    assert run_order(items, "set").entries == (0, 2, 3, 3, 0, 2, 3, 3, 1, 1)
    with pytest.raises(OutOfRange):
        run_order(items, "colour")


@pytest.mark.parametrize(
    ("counts", "candles"),
    [([12, 12, 24], 12), ([12, 10], 12), ([24, 12, 10], 12), ([7], 7), ([5, 3], 5), ([0], 0)],
)
def test_how_many_candles_a_group_of_labels_is_for(counts: list[int], candles: int) -> None:
    assert candles_of(counts) == candles


@given(wanted=st.integers(1, 60), free=st.lists(st.integers(0, 24), min_size=1, max_size=6))
def test_as_few_begun_sheets_as_can_hold_a_run_are_taken_and_the_least_is_left(
    wanted: int, free: list[int]
) -> None:
    order = begun_order(wanted, free)
    assert sorted(order) == list(range(len(free)))
    if sum(free) < wanted:
        assert [free[at] for at in order] == sorted(free)
        return
    used = [frozenset(range(free[at], 24)) for at in order]
    touched = {one.sheet_no for one in place_run([wanted], 24, used)}
    # Every choice of sheets tried: the smallest that holds the run, and of these the fullest.
    sizes = [
        (size, sum(chosen))
        for size in range(1, len(free) + 1)
        for chosen in combinations(free, size)
        if sum(chosen) >= wanted
    ]
    assert (len(touched), sum(free[order[at]] for at in touched)) == min(sizes)
