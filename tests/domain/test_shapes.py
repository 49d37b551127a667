"""Volumes, levels and wraps against quadrature, root finding and worked values."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from wickbench.domain.errors import OutOfRange
from wickbench.domain.shapes import (
    Profile,
    scaled_to,
    straight,
    straight_label_rise_mm,
    wrap_development,
)
from wickbench.domain.wraps import Sector, longest_straight_label_mm, partial_wrap

CONE = Profile(((0, 60), (90, 76)))
JAR = Profile(((0, 58), (10, 66), (30, 72), (60, 74), (85, 68)))
ROUNDED = straight(70, 80, base_fillet_mm=10)
PUSHED = straight(70, 80, push_up_mm=15)


def by_quadrature(radius_mm: object, top_mm: float, *breaks_mm: float) -> float:
    """Solid of revolution in mL by scipy, from a radius as a function of the height."""
    from scipy.integrate import quad

    def area(height: float) -> float:
        return math.pi * radius_mm(height) ** 2  # type: ignore[operator]

    ends = sorted({0.0, top_mm, *breaks_mm})
    return sum(quad(area, low, high)[0] for low, high in pairwise(ends)) / 1000


def test_a_cylinder_by_quadrature() -> None:
    assert straight(70, 80).volume_ml(80) == pytest.approx(by_quadrature(lambda _: 35, 80))
    # πD²h/4, worked: 307.8761 mL.
    assert straight(70, 80).brim_ml == pytest.approx(307.8761, abs=5e-5)


@pytest.mark.parametrize("level_mm", [1, 30, 59.5, 90])
def test_a_frustum_by_quadrature(level_mm: float) -> None:
    reference = by_quadrature(lambda z: 30 + 8 * z / 90, level_mm)
    assert CONE.volume_ml(level_mm) == pytest.approx(reference)


def test_a_frustum_is_the_textbook_formula() -> None:
    # πh(D1² + D1·D2 + D2²)/12, worked: 328.3593 mL.
    assert CONE.brim_ml == pytest.approx(328.3593, abs=5e-5)


@pytest.mark.parametrize(
    ("level_mm", "volume_ml"), [(10, 30.2326), (30, 105.0653), (60, 230.6348), (85, 329.6735)]
)
def test_a_profile_is_the_sum_of_its_frusta(level_mm: float, volume_ml: float) -> None:
    # Sum of frusta worked by hand.
    assert JAR.volume_ml(level_mm) == pytest.approx(volume_ml, abs=5e-5)


def test_a_profile_by_quadrature() -> None:
    import numpy as np

    heights, diameters = zip(*JAR.points, strict=True)
    reference = by_quadrature(lambda z: np.interp(z, heights, diameters) / 2, 85, *heights)
    assert JAR.brim_ml == pytest.approx(reference)


def rounded_radius(height: float) -> float:
    return 35.0 if height >= 10 else 25 + math.sqrt(100 - (10 - height) ** 2)


@pytest.mark.parametrize("level_mm", [0.5, 4, 10, 11, 80])
def test_a_rounded_base_by_quadrature(level_mm: float) -> None:
    reference = by_quadrature(rounded_radius, level_mm, min(10, level_mm))
    assert ROUNDED.volume_ml(level_mm) == pytest.approx(reference, rel=1e-7)


def test_a_rounded_base_is_the_worked_value() -> None:
    # π[(R-r)²r + (R-r)πr²/2 + 2r³/3], R 35, r 10: 34.0664; sharp it would be 38.4845.
    assert ROUNDED.volume_ml(10) == pytest.approx(34.0664, abs=5e-5)
    assert straight(70, 80).volume_ml(10) == pytest.approx(38.4845, abs=5e-5)
    assert ROUNDED.volume_ml(80) == pytest.approx(303.4579, abs=5e-5)
    assert ROUNDED.height_mm(250) == pytest.approx(66.1092, abs=5e-5)


def test_a_bulging_base_takes_a_spherical_cap() -> None:
    # Cap πh²(3R - h)/3 with R = (35² + 15²)/30.
    sphere = (35**2 + 15**2) / 30
    cap_ml = math.pi * 15**2 * (3 * sphere - 15) / 3 / 1000
    assert PUSHED.brim_ml == pytest.approx(straight(70, 80).brim_ml - cap_ml)


def test_spherical_caps_are_the_textbook_formula() -> None:
    # R 40: h 15 gives 24.7400 mL, the hemisphere 134.0413 mL.
    from wickbench.domain.base_shape import cap_mm3

    assert cap_mm3(40, 15) / 1000 == pytest.approx(24.7400, abs=5e-5)
    assert cap_mm3(40, 40) / 1000 == pytest.approx(134.0413, abs=5e-5)


@pytest.mark.parametrize("level_mm", [2, 9, 15, 40])
def test_a_bulging_base_by_quadrature(level_mm: float) -> None:
    sphere = (35**2 + 15**2) / 30

    def radius(height: float) -> float:
        bulge = sphere**2 - (sphere - 15 + height) ** 2 if height < 15 else 0.0
        return math.sqrt(35**2 - bulge)

    reference = by_quadrature(radius, level_mm, min(15, level_mm))
    assert PUSHED.volume_ml(level_mm) == pytest.approx(reference, rel=1e-6)


# Worked by the cube root formula and checked by scipy's brentq.
LEVELS = [
    (CONE, 100, 32.1983), (CONE, 200, 59.5935), (CONE, 250, 71.9777),
    (JAR, 100, 28.7494), (JAR, 200, 52.8308), (JAR, 300, 77.0542),
]  # fmt: skip


@pytest.mark.parametrize(("profile", "volume_ml", "level_mm"), LEVELS)
def test_levels_are_the_worked_values(profile: Profile, volume_ml: float, level_mm: float) -> None:
    assert profile.height_mm(volume_ml) == pytest.approx(level_mm, abs=5e-5)


@pytest.mark.parametrize("profile", [CONE, JAR, ROUNDED, PUSHED])
@pytest.mark.parametrize("volume_ml", [0.5, 5, 20, 150, 260])
def test_levels_agree_with_root_finding(profile: Profile, volume_ml: float) -> None:
    from scipy.optimize import brentq

    level = brentq(lambda h: profile.volume_ml(h) - volume_ml, 0, profile.top_mm, xtol=1e-12)
    assert profile.height_mm(volume_ml) == pytest.approx(level, abs=1e-6)


def test_a_nearly_straight_wall_loses_no_digits() -> None:
    nearly = Profile(((0, 70), (80, 70 + 1e-9)))
    assert nearly.height_mm(200) == pytest.approx(straight(70, 80).height_mm(200), rel=1e-9)


def test_below_the_lowest_measure_the_wall_goes_straight_down() -> None:
    cut = Profile(((20, 70), (80, 74)))
    assert cut.volume_ml(20) == pytest.approx(straight(70, 80).volume_ml(20))
    assert cut.diameter_mm(5) == 70


def test_one_measure_is_a_straight_vessel() -> None:
    assert Profile(((80, 70),)).brim_ml == pytest.approx(straight(70, 80).brim_ml)


@pytest.mark.parametrize(("level_mm", "diameter_mm"), [(0, 58), (5, 62), (60, 74), (85, 68)])
def test_diameters_lie_on_straight_walls(level_mm: float, diameter_mm: float) -> None:
    assert JAR.diameter_mm(level_mm) == pytest.approx(diameter_mm)


@st.composite
def profiles(draw: st.DrawFn) -> Profile:
    steps = draw(st.lists(st.floats(2, 60), min_size=1, max_size=6))
    wide = draw(st.lists(st.floats(20, 150), min_size=len(steps), max_size=len(steps)))
    heights = [sum(steps[: n + 1]) for n in range(len(steps))]
    points = tuple(zip(heights, wide, strict=True))
    with_base = draw(st.booleans())
    low = min(heights[0], wide[0] / 2) if with_base else 0.0
    fillet = draw(st.floats(0, low * 0.6))
    push = draw(st.floats(0, min(low * 0.3, (wide[0] / 2 - fillet) * 0.3)))
    return Profile(points, base_fillet_mm=fillet, push_up_mm=push)


@given(profiles(), st.floats(0, 1))
def test_height_undoes_volume(profile: Profile, share: float) -> None:
    level = share * profile.top_mm
    assert profile.height_mm(profile.volume_ml(level)) == pytest.approx(level, abs=1e-5)


@given(profiles(), st.floats(0, 1))
def test_volume_undoes_height(profile: Profile, share: float) -> None:
    volume_ml = share * profile.brim_ml
    again = profile.volume_ml(profile.height_mm(volume_ml))
    assert again == pytest.approx(volume_ml, rel=1e-9, abs=1e-9)


@given(profiles(), st.floats(0, 1), st.floats(0, 1))
def test_higher_holds_more(profile: Profile, one: float, other: float) -> None:
    assume(abs(one - other) > 1e-3)
    low, high = sorted((one * profile.top_mm, other * profile.top_mm))
    assert profile.volume_ml(low) < profile.volume_ml(high)


@given(profiles(), st.floats(0.2, 1), st.floats(0.8, 1.25))
def test_a_scaled_profile_holds_what_was_measured(
    profile: Profile, share: float, ratio: float
) -> None:
    level = share * profile.top_mm
    measured_ml = profile.volume_ml(level) * ratio
    scaled = scaled_to(profile, level, measured_ml)
    assert scaled.volume_ml(level) == pytest.approx(measured_ml, rel=1e-9)
    assert scaled.top_mm == profile.top_mm


def test_diameters_scale_with_the_root() -> None:
    # Area goes with the square of the diameter.
    scaled = scaled_to(CONE, 90, CONE.brim_ml * 1.21)
    assert scaled.points[0][1] == pytest.approx(66)
    assert scaled.points[1][1] == pytest.approx(83.6)


@pytest.mark.parametrize("ratio", [0.49, 2.01, 0, -1, math.nan])
def test_a_volume_that_cannot_be_the_same_vessel_is_refused(ratio: float) -> None:
    with pytest.raises(OutOfRange) as caught:
        scaled_to(JAR, 85, JAR.brim_ml * ratio)
    assert caught.value.key == "shape.scaled-too-far"


@pytest.mark.parametrize(
    ("points", "key"),
    [
        ((), "shape.no-points"),
        (((0, 70),), "shape.no-height"),
        (((0, 70), (50, 72), (40, 74)), "shape.folded-back"),
        (((0, 70), (0, 72)), "shape.folded-back"),
        (((-1, 70), (50, 72)), "shape.point-height"),
        (((0, 70), (math.nan, 72)), "shape.point-height"),
        (((0, 70), (5000, 72)), "shape.point-height"),
        (((0, 0), (50, 72)), "shape.point-diameter"),
        (((0, -5), (50, 72)), "shape.point-diameter"),
        (((0, math.inf), (50, 72)), "shape.point-diameter"),
    ],
)
def test_measures_that_cannot_be_are_refused(
    points: tuple[tuple[float, float], ...], key: str
) -> None:
    with pytest.raises(OutOfRange) as caught:
        Profile(points)
    assert caught.value.key == key


def test_the_measure_that_folds_back_is_named() -> None:
    with pytest.raises(OutOfRange) as caught:
        Profile(((0, 70), (50, 72), (40, 74)))
    assert caught.value.data == {"point_no": 3, "below_mm": 50, "height_mm": 40}


@pytest.mark.parametrize("fillet_mm", [-1, 36, math.nan])
def test_a_rounding_that_cannot_be_is_refused(fillet_mm: float) -> None:
    with pytest.raises(OutOfRange) as caught:
        straight(70, 80, base_fillet_mm=fillet_mm)
    assert caught.value.key == "shape.base-fillet"


@pytest.mark.parametrize("push_up_mm", [-1, 26, math.nan])
def test_a_bulge_that_cannot_be_is_refused(push_up_mm: float) -> None:
    with pytest.raises(OutOfRange) as caught:
        straight(70, 80, base_fillet_mm=10, push_up_mm=push_up_mm)
    assert caught.value.key == "shape.push-up"


def test_a_bulge_through_the_wall_is_refused() -> None:
    with pytest.raises(OutOfRange) as caught:
        Profile(((0, 70), (2, 12), (80, 70)), push_up_mm=30)
    assert caught.value.key == "shape.base-does-not-fit"


@pytest.mark.parametrize("level_mm", [-0.1, 85.1, math.nan, math.inf])
def test_levels_outside_the_vessel_are_refused(level_mm: float) -> None:
    for ask in (JAR.volume_ml, JAR.diameter_mm):
        with pytest.raises(OutOfRange) as caught:
            ask(level_mm)
        assert caught.value.key == "shape.height"


@pytest.mark.parametrize("volume_ml", [-1, 330, math.nan, math.inf])
def test_volumes_outside_the_vessel_are_refused(volume_ml: float) -> None:
    with pytest.raises(OutOfRange) as caught:
        JAR.height_mm(volume_ml)
    assert caught.value.key == "shape.more-than-it-holds"


# Worked from s = √(h² + (r2 - r1)²), R_in = s·r1/(r2 - r1), θ = 360(r2 - r1)/s.
WRAPS = [
    ((60, 76, 90), (338.8307, 429.1856, 31.8743), (188.4956, 238.7610), (235.694, 103.378)),
    ((70, 80, 60), (421.4558, 481.6638, 29.8964), (219.9115, 251.3274), (248.486, 74.470)),
]


@pytest.mark.parametrize(("cone", "sector", "arcs", "box"), WRAPS)
def test_a_wrap_is_the_worked_sector(
    cone: tuple[float, float, float],
    sector: tuple[float, float, float],
    arcs: tuple[float, float],
    box: tuple[float, float],
) -> None:
    wrap = wrap_development(*cone)
    found = (wrap.inner_radius_mm, wrap.outer_radius_mm, wrap.angle_deg)
    assert found == pytest.approx(sector, abs=5e-5)
    assert (wrap.inner_arc_mm, wrap.outer_arc_mm) == pytest.approx(arcs, abs=5e-5)
    assert (wrap.width_mm, wrap.height_mm) == pytest.approx(box, abs=5e-4)


cones = st.tuples(st.floats(20, 200), st.floats(20, 200), st.floats(5, 300))


@given(cones)
def test_arcs_go_once_round_and_the_area_is_the_wall(cone: tuple[float, float, float]) -> None:
    bottom, top, height = cone
    assume(abs(top - bottom) > 0.01)
    wrap = wrap_development(*cone)
    assert wrap.inner_arc_mm == pytest.approx(math.pi * min(bottom, top))
    assert wrap.outer_arc_mm == pytest.approx(math.pi * max(bottom, top))
    # Lateral area of a frustum: π(r1 + r2)s.
    lateral = math.pi * (bottom + top) / 2 * math.hypot(height, (top - bottom) / 2)
    turn = math.radians(wrap.angle_deg) / 2
    area = turn * (wrap.outer_radius_mm**2 - wrap.inner_radius_mm**2)
    assert area == pytest.approx(lateral, rel=1e-6)


@given(st.floats(1, 100), st.floats(1, 100), st.floats(1, 359))
def test_the_box_holds_every_point_of_the_sector(inner: float, more: float, angle: float) -> None:
    wrap = Sector(inner, inner + more, angle)
    turns = [math.radians(angle) * (n / 400 - 0.5) for n in range(401)]
    points = [
        (r * math.sin(a), r * math.cos(a))
        for r in (inner, inner + more)
        for a in turns
    ]  # fmt: skip
    across = [x for x, _ in points]
    along = [y for _, y in points]
    assert wrap.width_mm == pytest.approx(max(across) - min(across), rel=1e-3)
    assert wrap.height_mm == pytest.approx(max(along) - min(along), rel=1e-3)


def test_a_cone_standing_on_its_wide_end_has_the_same_wrap() -> None:
    assert wrap_development(76, 60, 90) == wrap_development(60, 76, 90)


def test_a_straight_wall_has_no_sector() -> None:
    with pytest.raises(OutOfRange) as caught:
        wrap_development(70, 70, 90)
    assert caught.value.key == "shape.no-taper"
    # Once round a cylinder of 70 mm: π·70 = 219.911 mm.
    assert caught.value.data["length_mm"] == pytest.approx(219.911, abs=5e-4)


@pytest.mark.parametrize("cone", [(0, 76, 90), (60, -1, 90), (60, 76, 0), (60, 76, math.nan)])
def test_a_cone_that_cannot_be_is_refused(cone: tuple[float, float, float]) -> None:
    with pytest.raises(OutOfRange):
        wrap_development(*cone)


def test_a_partial_wrap_is_the_worked_sector() -> None:
    # ℓ 120 and height 50 on the first cone: R 359.0081 / 409.0081 mm, 17.9046°.
    part = partial_wrap(wrap_development(60, 76, 90), 120, 50)
    found = (part.inner_radius_mm, part.outer_radius_mm, part.angle_deg)
    assert found == pytest.approx((359.0081, 409.0081, 17.9046), abs=5e-5)


@pytest.mark.parametrize("label", [(300, 50), (120, 91), (0, 50), (120, math.nan)])
def test_a_label_larger_than_the_wall_is_refused(label: tuple[float, float]) -> None:
    with pytest.raises(OutOfRange):
        partial_wrap(wrap_development(60, 76, 90), *label)


def test_a_straight_label_rises_by_the_sagitta() -> None:
    # R - √(R² - (ℓ/2)²) for R 384.0081, ℓ 120: 4.716 mm.
    assert straight_label_rise_mm(384.0081, 120) == pytest.approx(4.716, abs=1e-3)


@given(st.floats(10, 5000), st.floats(0.01, 5))
def test_the_longest_label_rises_by_just_that(radius: float, rise: float) -> None:
    longest = longest_straight_label_mm(radius, rise)
    assert straight_label_rise_mm(radius, longest) == pytest.approx(rise, rel=1e-6)


@pytest.mark.parametrize(("radius", "length"), [(0, 10), (50, 101), (50, -1), (math.nan, 10)])
def test_a_straight_label_that_cannot_be_is_refused(radius: float, length: float) -> None:
    with pytest.raises(OutOfRange):
        straight_label_rise_mm(radius, length)
