"""What the shelf lacks, and the arithmetic that mends it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.findings import Rank
from wickbench.domain.shortages import LineUse, shortage_finding, shortages

TUMBLERS = LineUse(line_key="t", name="tumbler", count=18, each={"oil": 16.5, "jar": 1})
TINS = LineUse(line_key="n", name="tin", count=12, each={"oil": 13.3})


def test_what_was_never_counted_is_never_short() -> None:
    assert shortages({"oil": 456, "jar": 18}, {"oil": None}, [TUMBLERS, TINS]) == ()


def test_forty_one_grams_short() -> None:
    """41 / 16.5 = 2.48 → 3 tumblers; 41 / 13.3 = 3.08 → 4 tins."""
    (oil,) = shortages({"oil": 456}, {"oil": 415}, [TINS, TUMBLERS])
    assert (oil.need, oil.have, oil.short) == (456, 415, 41)
    assert [(mend.line_key, mend.fewer) for mend in oil.mends] == [("t", 3), ("n", 4)]


def test_exactly_enough_is_enough() -> None:
    assert shortages({"oil": 0.1 + 0.2}, {"oil": 0.3}, [TINS]) == ()
    (jars,) = shortages({"jar": 18}, {"jar": 15}, [TUMBLERS])
    assert jars.mends[0].fewer == 3


def test_when_no_line_alone_mends_it() -> None:
    (oil,) = shortages({"oil": 456}, {"oil": 0}, [TINS, TUMBLERS])
    assert oil.mends == ()
    said = shortage_finding(oil, "Fig", in_grams=True)
    assert (said.rank, said.key) == (Rank.STOPS, "plan.short-mass")
    assert said.data == {"name": "Fig", "short_g": 456, "need_g": 456, "have_g": 0}


def test_pieces_are_said_as_pieces() -> None:
    (jars,) = shortages({"jar": 18}, {"jar": 15}, [TUMBLERS])
    said = shortage_finding(jars, "Amber tumbler", in_grams=False)
    assert said.key == "plan.short-pieces-or-fewer"
    assert said.data["short"] == 3
    assert said.data["fewer"] == 3


@given(
    st.lists(st.tuples(st.integers(1, 50), st.floats(0.1, 50)), min_size=1, max_size=5),
    st.floats(0, 1),
)
def test_the_fewest_that_mend_it(uses: list[tuple[int, float]], part: float) -> None:
    lines = [
        LineUse(line_key=key, name="", count=count, each={"oil": each})
        for key, (count, each) in enumerate(uses)
    ]
    need = sum(count * each for count, each in uses)
    for short in shortages({"oil": need}, {"oil": need * part}, lines):
        for mend in short.mends:
            each = uses[mend.line_key][1]  # type: ignore[call-overload]  # keys are places here
            assert mend.fewer * each >= short.short - 1e-4
            assert (mend.fewer - 1) * each < short.short
            assert mend.fewer <= uses[mend.line_key][0]  # type: ignore[call-overload]  # as above
        assert list(short.mends) == sorted(short.mends, key=lambda mend: mend.fewer)
        if len(lines) == 1:
            assert len(short.mends) == 1
            assert short.short == pytest.approx(need * (1 - part))
