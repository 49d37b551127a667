"""How long to cut a wick, against hand-reckoned lengths and what holds for every candle."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.errors import OutOfRange
from wickbench.domain.shapes import Profile
from wickbench.domain.shrinkage import set_level_mm, set_level_range_mm
from wickbench.domain.wick_cut import cut_length_mm, cut_range_mm

CONE = Profile(((0, 60), (90, 76)))


def test_a_wick_stands_its_trim_above_the_set_wax() -> None:
    # Level once set of a 60→76 mm cone of 90 mm filled hot to 70 mm with soy 0.870 → 0.900 g/mL:
    # 68.0351 mm (frusta, checked by quadrature); 6 mm above the wax: common practice, no source.
    level = set_level_mm(CONE, 70.0, 0.870, 0.900)
    assert cut_length_mm(level, 6.0) == pytest.approx(74.0351, abs=1e-4)
    assert cut_length_mm(level, 6.0, stands_at_mm=4.0) == pytest.approx(70.0351, abs=1e-4)


def test_a_range_of_levels_is_a_range_of_lengths() -> None:
    levels = set_level_range_mm(CONE, 70.0, (0.855, 0.885), (0.89, 0.97))
    shortest, longest = cut_range_mm(levels, 6.0)
    assert (shortest, longest) == (levels[0] + 6.0, levels[1] + 6.0)
    assert shortest < cut_length_mm(set_level_mm(CONE, 70.0, 0.870, 0.900), 6.0) < longest


@given(st.floats(5, 300), st.floats(0, 20), st.floats(0, 4))
def test_foot_and_cut_and_nothing_else_reach_the_tip(
    level: float, trim: float, foot: float
) -> None:
    cut = cut_length_mm(level, trim, stands_at_mm=foot)
    assert foot + cut == pytest.approx(level + trim)


@pytest.mark.parametrize(
    ("level", "trim", "foot", "key"),
    [
        (-1.0, 6.0, 0.0, "wick-cut.level"),
        (math.nan, 6.0, 0.0, "wick-cut.level"),
        (60.0, -1.0, 0.0, "wick-cut.trim"),
        (60.0, 60.0, 0.0, "wick-cut.trim"),
        (60.0, 6.0, math.inf, "wick-cut.foot"),
        (60.0, 6.0, -2.0, "wick-cut.foot"),
        (60.0, 6.0, 60.0, "wick-cut.foot-above-wax"),
        (0.0, 6.0, 0.0, "wick-cut.foot-above-wax"),
    ],
)
def test_lengths_that_no_candle_has_are_refused(
    level: float, trim: float, foot: float, key: str
) -> None:
    with pytest.raises(OutOfRange) as refused:
        cut_length_mm(level, trim, stands_at_mm=foot)
    assert refused.value.key == key


def test_a_range_upside_down_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"wick-cut\.level"):
        cut_range_mm((70.0, 60.0), 6.0)
