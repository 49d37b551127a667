"""Labels fitted to round walls: against solids in space and rings drawn by hand of the formulas."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import quad

from wickbench.domain.errors import OutOfRange
from wickbench.domain.wrap_fit import (
    CLEARANCE_MM,
    USUAL_OVERLAP_MM,
    Wall,
    WrapSize,
    Zone,
    fit_wrap,
)
from wickbench.domain.wrap_joins import askew_mm, joins_mm

diameters = st.floats(30.0, 200.0)
heights = st.floats(40.0, 250.0)


def zone_of(wall: Wall, low: float = 0.1, high: float = 0.9) -> Zone:
    return Zone(wall, low * wall.height_mm, high * wall.height_mm)


@given(diameters, diameters, heights, st.floats(0.0, 1.0))
def test_a_diameter_lies_on_the_straight_line_between_foot_and_rim(
    bottom: float, top: float, high: float, share: float
) -> None:
    wall = Wall(bottom, top, high)
    between = np.interp(share * high, [0.0, high], [bottom, top])  # numpy's own interpolation
    assert wall.diameter_mm(share * high) == pytest.approx(between, abs=1e-9)


@given(diameters, diameters, heights, st.floats(0.0, 1.0))
def test_the_ring_has_its_middle_where_the_wall_meets_the_axis(
    bottom: float, top: float, high: float, share: float
) -> None:
    """The radius of the ring is the way along the wall to the tip of the cone (Euclid)."""
    assume(abs(top - bottom) > 1.0)
    wall = Wall(bottom, top, high)
    tip = bottom * high / (bottom - top)  # where the line of the wall reaches radius 0
    place = (wall.diameter_mm(share * high) / 2, share * high)
    assert wall.flat_radius_mm(share * high) == pytest.approx(math.dist(place, (0.0, tip)))


def test_a_straight_wall_has_no_ring_and_lets_a_straight_label_be_as_long_as_it_likes() -> None:
    wall = Wall(78.0, 78.0, 53.0)
    assert math.isinf(wall.flat_radius_mm(20.0))
    assert wall.rise_mm(20.0, 245.0) == 0.0
    assert math.isinf(wall.longest_straight_mm(20.0))


@given(diameters, diameters, heights)
def test_the_longest_straight_label_rises_by_just_as_much_as_is_allowed(
    bottom: float, top: float, high: float
) -> None:
    assume(abs(top - bottom) > 1.0)
    wall = Wall(bottom, top, high)
    long = wall.longest_straight_mm(high / 2)
    assert wall.rise_mm(high / 2, long) == pytest.approx(1.0, rel=1e-6)


@given(diameters, diameters, heights, st.floats(0.0, 12.0))
def test_a_fitted_wrap_is_once_round_and_an_overlap_long_and_no_higher_than_the_wall(
    bottom: float, top: float, high: float, overlap: float
) -> None:
    assume(abs(top - bottom) < high)
    zone = zone_of(Wall(bottom, top, high))
    size = fit_wrap(zone, overlap_mm=overlap)
    # Length of the circle in space, summed up by scipy and not by π·d.
    radius = np.interp(zone.middle_mm, [0.0, high], [bottom, top]) / 2
    around, _ = quad(lambda _angle: radius, 0.0, 2 * math.pi)
    assert size.width_mm == pytest.approx(around + overlap, abs=0.051)
    slant = math.dist(
        (zone.wall.diameter_mm(zone.from_mm) / 2, zone.from_mm),
        (zone.wall.diameter_mm(zone.to_mm) / 2, zone.to_mm),
    )
    assert slant - 0.1 - 1e-6 <= size.height_mm <= slant + 1e-6


@given(diameters, diameters, heights, st.floats(0.0, 12.0))
def test_a_fitted_wrap_closes_on_its_wall_without_a_gap_and_not_askew(
    bottom: float, top: float, high: float, overlap: float
) -> None:
    assume(abs(top - bottom) < high)
    zone = zone_of(Wall(bottom, top, high))
    size = fit_wrap(zone, overlap_mm=overlap)
    lower, upper = joins_mm(size, zone)
    narrow, wide = sorted((size.bottom_mm, size.top_mm))
    share = overlap / size.middle_mm  # the overlap is an angle: shorter where the wall is narrow
    assert min(lower, upper) == pytest.approx(share * narrow, abs=0.15)
    assert max(lower, upper) == pytest.approx(share * wide, abs=0.15)
    assert askew_mm(size, zone) == pytest.approx(0.0, abs=0.15)


def test_the_numbers_of_a_tapered_glass_by_hand() -> None:
    """66 to 82 mm over 96 mm: worked out on paper, as a second hand."""
    zone = Zone(Wall(66.0, 82.0, 96.0), 10.0, 88.0).inside(CLEARANCE_MM)
    assert (zone.from_mm, zone.to_mm) == (12.0, 86.0)
    size = fit_wrap(zone)
    assert size.overlap_mm == USUAL_OVERLAP_MM  # 5 mm: common practice, no source
    assert size.width_mm == pytest.approx(math.pi * (66 + 16 * 49 / 96) + 5, abs=0.051)
    assert size.height_mm == pytest.approx(74 * math.sqrt(1 + (8 / 96) ** 2), abs=0.1)
    assert (size.bottom_mm, size.top_mm) == pytest.approx((68.0, 80.33), abs=0.02)


def test_a_wrap_for_a_narrower_vessel_gapes_and_a_straight_one_stands_askew() -> None:
    zone = zone_of(Wall(80.0, 80.0, 100.0))
    narrow = WrapSize(math.pi * 75 + 5, 80.0, 75.0, 75.0, 5.0)
    lower, upper = joins_mm(narrow, zone)
    assert lower == upper == pytest.approx(math.pi * 75 + 5 - math.pi * 80)
    straight = WrapSize(math.pi * 74, 80.0, 74.0, 74.0)
    tapered = Zone(Wall(66.0, 82.0, 100.0), 10.0, 90.0)
    # Too short by π times what the edge is wider than the middle, and too long below.
    low, high = tapered.label_edges_mm(80.0)
    wide = math.pi * 16 * (high - low) / 100
    lower, upper = joins_mm(straight, tapered)
    assert lower - upper == pytest.approx(wide, rel=1e-9)


@pytest.mark.parametrize(
    ("bottom", "top", "high"),
    [(0.0, 80.0, 90.0), (80.0, math.nan, 90.0), (80.0, 80.0, 0.0), (80.0, 1e9, 90.0)],
)
def test_a_wall_that_cannot_be_is_refused(bottom: float, top: float, high: float) -> None:
    with pytest.raises(OutOfRange):
        Wall(bottom, top, high)


def test_a_zone_lower_than_its_clearance_and_senseless_wishes_are_refused() -> None:
    zone = Zone(Wall(80.0, 80.0, 90.0), 10.0, 17.0)
    with pytest.raises(OutOfRange, match=r"wrap\.no-room"):
        zone.inside(2.0)
    for share in (0.0, 1.5, math.nan):
        with pytest.raises(OutOfRange, match=r"wrap\.share"):
            fit_wrap(zone, share=share)
    with pytest.raises(OutOfRange, match=r"wrap\.overlap"):
        fit_wrap(zone, overlap_mm=-1.0)
