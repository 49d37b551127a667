"""Rounded and bulging bases of stored vessels, what the ruler leaves open, the air pressure."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from scipy.integrate import quad

from wickbench.app import vessels
from wickbench.app.air_pressure import air_pressure, pressure_text
from wickbench.app.measures import measure
from wickbench.app.settings import Settings
from wickbench.app.shelf import Shelf
from wickbench.app.texts import Texts
from wickbench.app.vessel_drawing import inner_side
from wickbench.app.vessel_results import how_measured
from wickbench.app.vessel_shape import ruler_doubt_ml
from wickbench.domain.catalog import Vessel, WeighingRow
from wickbench.domain.findings import Rank
from wickbench.domain.shapes import straight
from wickbench.domain.statistics import student_t

TEXTS, SEA, EMPTY = Texts("en"), Settings({}), Shelf()
ROWS = tuple(
    WeighingRow(id=n, vessel_no=n, empty_g=210.0, filled_g=210.0 + g, water_c=22.0)
    for n, g in enumerate((253.4, 255.2, 252.8), 1)
)
JAR = Vessel(
    id=1, name="Tumbler", height_mm=80.0, fill_mm=66.0, diameters=((0.0, 70.0), (80.0, 70.0))
)


def keys(made: Vessel, settings: Settings = SEA) -> list[str]:
    return [one.key for one in vessels.view_vessel(made, EMPTY, settings, TEXTS).findings]


def test_the_rounding_of_a_stored_vessel_counts() -> None:
    found = measure(replace(JAR, base_fillet_mm=10.0), EMPTY, SEA)

    def area(z: float) -> float:
        wall = 35.0 if z >= 10.0 else 25.0 + math.sqrt(100.0 - (10.0 - z) ** 2)
        return math.pi * wall**2 / 1000

    # By scipy's quadrature of the solid of revolution.
    assert found.line_ml == pytest.approx(quad(area, 0, 66, points=[10])[0], rel=1e-6)
    assert found.line_from == "shape"


def test_the_push_up_of_a_stored_vessel_counts() -> None:
    flat, pushed = (measure(replace(JAR, push_up_mm=up), EMPTY, SEA).line_ml for up in (None, 12.0))
    assert flat is not None
    # Spherical cap πh(3a² + h²)/6, h 12 mm on a rim of 35 mm (textbook formula).
    cap_ml = math.pi * 12 * (3 * 35**2 + 12**2) / 6 / 1000
    assert pushed == pytest.approx(flat - cap_ml)


def test_the_drawing_shows_rounding_and_bulge() -> None:
    made = replace(JAR, base_fillet_mm=10.0, push_up_mm=6.0)
    view = vessels.view_vessel(made, EMPTY, SEA, TEXTS)
    assert view.measures.profile is not None
    side = inner_side(view.measures.profile, 66.0)
    assert side[0] == pytest.approx((0.0, 6.0))
    assert side[-1] == pytest.approx((35.0, 66.0))
    assert min(y for _, y in side) == pytest.approx(0.0, abs=1e-9)
    assert any(y == pytest.approx(10.0) and x == pytest.approx(35.0) for x, y in side)
    assert all(x <= 35.0 + 1e-9 for x, _ in side)
    assert view.drawing is not None
    wick = next(line for line in view.drawing.of("wick") if line.points[0][0] == 0.0)
    assert wick.points[0][1] == pytest.approx(6.0)


@pytest.mark.parametrize(
    ("base", "field"),
    [
        ({"base_fillet_mm": 36.0}, "base_fillet_mm"),
        ({"push_up_mm": 40.0}, "push_up_mm"),
        ({"base_fillet_mm": 10.0, "push_up_mm": 30.0}, "push_up_mm"),
        ({"fill_mm": 90.0}, "fill_mm"),
    ],
)
def test_what_does_not_fit_is_told_beside_its_field(base: dict[str, float], field: str) -> None:
    view = vessels.view_vessel(replace(JAR, **base), EMPTY, SEA, TEXTS)  # type: ignore[arg-type]
    assert set(view.beside_fields) == {field}
    assert view.beside_fields[field].rank is Rank.STOPS
    assert TEXTS.say(view.beside_fields[field])
    # The rest stays to be seen.
    assert view.drawing is not None


def test_a_disagreement_beyond_ruler_and_scale_is_told_and_scaled() -> None:
    # The water says 254.6 mL; 70 mm would hold 254.0 mL to 66 mm, 72 mm 268.7 mL.
    near = replace(JAR, weighings=ROWS)
    assert not {"vessel.shape-disagrees", "vessel.shape-holds-more"} & set(keys(near))
    far = replace(near, diameters=((0.0, 76.0), (80.0, 76.0)))
    assert "vessel.shape-holds-more" in keys(far)
    narrow = replace(near, diameters=((0.0, 64.0), (80.0, 64.0)))
    assert "vessel.shape-disagrees" in keys(narrow)
    for made in (near, far, narrow):
        found = measure(made, EMPTY, SEA)
        assert found.profile is not None
        assert found.line is not None
        assert found.profile.volume_ml(66.0) == pytest.approx(found.line.volume_ml)


def test_what_the_ruler_leaves_open_by_the_uncertainties_library() -> None:
    from uncertainties import ufloat

    # Diameter and height each ± 1 mm, rectangular: u = 1/√3 (JCGM 100:2008, 4.3.7); twice u.
    wide, high = (ufloat(value, 1 / math.sqrt(3)) for value in (70.0, 66.0))
    reference = math.pi / 4 * wide**2 * high / 1000
    assert ruler_doubt_ml(straight(70, 80), 66.0) == pytest.approx(2 * reference.std_dev, rel=1e-6)


def test_an_assumed_shape_has_its_base_and_holds_what_was_weighed() -> None:
    made = replace(JAR, diameters=(), weighings=ROWS, base_fillet_mm=8.0, push_up_mm=3.0)
    found = measure(made, EMPTY, SEA)
    assert found.profile_from == "assumed"
    assert found.profile is not None
    assert found.line is not None
    assert found.profile.volume_ml(66.0) == pytest.approx(found.line.volume_ml)
    assert found.profile.push_up_mm == 3.0


# -- air -------------------------------------------------------------------------------------------
def test_the_pressure_entered_goes_before_the_altitude() -> None:
    high = Settings({"altitude_m": 1949.0})
    # ISO 2533: 800 hPa stand at 1949 m.
    assert air_pressure(high).hectopascal == pytest.approx(800.0, abs=0.1)
    assert not air_pressure(high).entered
    both = Settings({"altitude_m": 1949.0, "air_pressure_hpa": 1013.25})
    assert air_pressure(both).hectopascal == 1013.25
    at_sea, entered = (measure(replace(JAR, weighings=ROWS), EMPTY, one) for one in (SEA, both))
    assert at_sea.line is not None
    assert entered.line is not None
    assert entered.line.volume_ml == at_sea.line.volume_ml
    doubts = [dict(one.contributions)["pressure"] for one in (at_sea.line, entered.line)]
    assert doubts[1] < doubts[0]


def test_the_screen_says_where_the_pressure_comes_from() -> None:
    assert "0 m above the sea" in pressure_text(SEA, TEXTS)
    assert "987 hPa, as entered" in pressure_text(Settings({"air_pressure_hpa": 987.0}), TEXTS)


def test_effective_degrees_and_their_factor_are_told() -> None:
    found = measure(replace(JAR, weighings=ROWS), EMPTY, SEA).line
    assert found is not None
    # JCGM 100:2008, G.4.1 by hand: only the jars' scatter has finite degrees, n − 1 = 2.
    u_jars = dict(found.contributions)["vessels"]
    by_hand = found.standard_uncertainty_ml**4 / (u_jars**4 / 2)
    assert found.effective_degrees == pytest.approx(by_hand)
    said = " ".join(how_measured(found, TEXTS, SEA))
    assert f"= {math.floor(by_hand)} (Welch–Satterthwaite, JCGM 100:2008, G.4.1)" in said
    assert f"k = {student_t(0.975, by_hand):.2f}" in said
    assert "ISO 8655-6" in said
    assert "ISO 4787" in said
