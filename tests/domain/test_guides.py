"""Guides on a label; that a line is kept once and snapped to is common practice, no source."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.arranging import Box, guides_along, guides_through, snap_lines, snapped
from wickbench.domain.errors import OutOfRange
from wickbench.domain.guides import Guide, guide_lines, tidy_guides
from wickbench.domain.labels import LabelDesign

LABEL = LabelDesign(width_mm=62.0, height_mm=36.0, safe_mm=2.0)
PLACES = st.floats(-5.0, 70.0)


def test_a_guide_laid_twice_is_kept_once() -> None:
    twice = [Guide(upright=True, at_mm=12.0), Guide(upright=True, at_mm=12.000001)]
    assert tidy_guides(twice) == (Guide(upright=True, at_mm=12.0),)


def test_level_and_upright_guides_at_one_place_are_two() -> None:
    both = (Guide(upright=False, at_mm=9.0), Guide(upright=True, at_mm=9.0))
    assert guide_lines(tidy_guides(both)) == ((9.0,), (9.0,))


@pytest.mark.parametrize("senseless", [math.nan, math.inf])
def test_a_place_that_is_no_number_is_refused(senseless: float) -> None:
    with pytest.raises(OutOfRange, match=r"label\.measure"):
        Guide(upright=True, at_mm=senseless)


@given(left=PLACES, top=PLACES, w=st.floats(1.0, 30.0), h=st.floats(1.0, 30.0))
def test_a_box_snaps_to_the_guides_laid_along_it(
    left: float, top: float, w: float, h: float
) -> None:
    laid = guides_along(Box(left, top, left + w, top + h))
    beside = Box(left + 0.2, top - 0.2, left + w + 0.2, top + h - 0.2)
    snap = snapped(beside, *snap_lines(LABEL, (), laid), 0.3)
    moved = beside.moved(snap.dx, snap.dy)
    uprights, levels = snap_lines(LABEL, (), laid)
    sides = (moved.left, moved.middle[0], moved.right)
    assert min(abs(x - side) for x in uprights for side in sides) < 1e-6
    ends = (moved.top, moved.middle[1], moved.bottom)
    assert min(abs(y - end) for y in levels for end in ends) < 1e-6


def test_guides_through_the_middle_cross_there() -> None:
    assert guide_lines(guides_through(Box(0.0, 0.0, 62.0, 36.0))) == ((31.0,), (18.0,))
