"""Weighings, diameters and levels of a vessel, against the physics of water and solids."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS95
from scipy import integrate

from wickbench.app.measures import Levels, VesselMeasures, complete_weighings, levels, measure
from wickbench.app.mixes import Density, MixDensities
from wickbench.app.settings import Settings
from wickbench.app.shelf import Shelf
from wickbench.app.vessel_shape import diameter_at
from wickbench.app.vessel_weighings import reads_to_g
from wickbench.domain.catalog import Equipment, Vessel, WeighingRow
from wickbench.domain.findings import Rank

EMPTY = Shelf()
SEA = Settings({})


def row(
    key: int, empty: float | None, filled: float | None, water: float | None = 22.0, **more: object
) -> WeighingRow:
    return WeighingRow(
        id=key,
        empty_g=empty,
        filled_g=filled,
        water_c=water,
        vessel_no=more.pop("jar", key),
        **more,  # type: ignore[arg-type]
    )


def vessel(*rows: WeighingRow, **values: object) -> Vessel:
    return Vessel(id=1, name="Tumbler", weighings=rows, **values)  # type: ignore[arg-type]


def look(made: Vessel, shelf: Shelf = EMPTY) -> VesselMeasures:
    return measure(made, shelf, SEA)


def keys(found: VesselMeasures) -> list[str]:
    return [one.key for one in found.findings]


def litres_of_a_gram(celsius: float) -> float:
    """mL that a gram on the scale fills: IAPWS-95 water, CIPM air at 1013.25 hPa and 50 %."""
    water = IAPWS95(T=celsius + 273.15, P=0.101325).rho / 1000
    air = (0.34848 * 1013.25 - 0.009 * 50 * math.exp(0.061 * celsius)) / (273.15 + celsius) / 1000
    return (1 - air / 8.0) / (water - air)


# -- weighings -------------------------------------------------------------------------------------
def test_one_weighing_is_its_water_times_what_a_gram_fills() -> None:
    found = look(vessel(row(1, 212.4, 465.8)))
    assert found.line is not None
    assert found.line.volume_ml == pytest.approx(253.4 * litres_of_a_gram(22.0), abs=0.001)
    assert (found.line_ml, found.line_from) == (found.line.volume_ml, "weighed")
    assert "vessel.one-weighing" in keys(found)


def test_an_impossible_row_is_told_by_its_place_and_the_others_count() -> None:
    good = [row(1, 212.4, 465.8), row(3, 209.8, 465.0)]
    swapped = row(2, 465.0, 210.0)
    found = look(vessel(good[0], swapped, good[1]))
    alone = look(vessel(*good))
    assert found.line == alone.line
    (trouble,) = [one for one in found.findings if one.rank is Rank.STOPS]
    assert trouble.key == "vessel.not-heavier"
    assert trouble.data["weighing_no"] == 2
    assert trouble.about == ("weighing", 2)


@pytest.mark.parametrize(
    ("bad", "key"),
    [
        (row(2, None, 465.0), "vessel.weighing-without-empty"),
        (row(2, 210.0, None), "vessel.weighing-without-water"),
        (row(2, 210.0, 465.0, None), "vessel.weighing-without-temperature"),
    ],
)
def test_a_row_that_is_not_finished_says_what_is_missing(bad: WeighingRow, key: str) -> None:
    made = vessel(row(1, 212.4, 465.8), bad)
    found = look(made)
    assert found.line is not None
    assert found.line.n_weighings == 1
    (told,) = [one for one in found.findings if one.about == ("weighing", 2)]
    assert (told.key, told.rank, told.data["weighing_no"]) == (key, Rank.NOTE, 2)
    assert [each.id for each in complete_weighings(made, "line")] == [1]


def test_nothing_but_nonsense_gives_no_capacity() -> None:
    found = look(vessel(row(1, 300.0, 200.0), row(2, 200.0, 300.0, 95.0)))
    assert found.line is None
    assert found.line_ml is None
    assert {"vessel.not-heavier", "vessel.water-temperature"} <= set(keys(found))


def test_an_odd_weighing_is_named_by_its_row_even_after_a_bad_one() -> None:
    rows = [row(7, 500.0, 100.0)]
    rows += [row(10 + n, 200.0, 454.0 + n / 10) for n in range(5)]
    rows += [row(30, 200.0, 474.0)]
    odd = [one for one in look(vessel(*rows)).findings if one.key == "vessel.odd-weighing"]
    assert [one.about for one in odd] == [("weighing", 30)]
    assert odd[0].data["weighing_no"] == 7


def test_the_next_jar_by_students_interval() -> None:
    # t(0.975, 2) = 4.3027 from a printed table; s of three means; t·s·√(1 + 1/3).
    grams = (253.4, 255.2, 252.8)
    found = look(vessel(*(row(n, 200.0, 200.0 + g) for n, g in enumerate(grams, 1))))
    mean = sum(grams) / 3
    spread = math.sqrt(sum((g - mean) ** 2 for g in grams) / 2) * litres_of_a_gram(22.0)
    assert found.line is not None
    assert found.line.next_vessel_ml == pytest.approx(4.3027 * spread * math.sqrt(4 / 3), rel=1e-4)


def test_air_is_thinner_higher_up() -> None:
    made = vessel(row(1, 0.0, 250.0))
    high = measure(made, EMPTY, Settings({"altitude_m": 1600.0}))
    low = measure(made, EMPTY, SEA)
    assert low.line is not None
    assert high.line is not None
    assert low.line.volume_ml > high.line.volume_ml


def test_the_coarsest_scale_counts_else_the_typed_digits() -> None:
    scales = Equipment(scales=({"id": 1, "step_g": 0.1}, {"id": 2, "step_g": 1.0}))
    shelf = Shelf(equipment=scales)
    fine, coarse = row(1, 200.0, 455.3, scale_id=1), row(2, 200.0, 455.0, scale_id=2)
    assert reads_to_g([fine], shelf) == 0.1
    assert reads_to_g([fine, coarse], shelf) == 1.0
    assert reads_to_g([replace(fine, scale_id=None)], shelf) == 0.1
    assert reads_to_g([row(1, 200.0, 455.0)], shelf) == 1.0


# -- shapes ----------------------------------------------------------------------------------------
def by_quadrature(diameter: object, height: float) -> float:
    area, _ = integrate.quad(lambda h: math.pi / 4 * diameter(h) ** 2, 0, height)  # type: ignore[operator]
    return float(area) / 1000


def test_one_diameter_is_a_cylinder() -> None:
    found = look(vessel(diameters=((10.0, 70.0),), height_mm=80.0, fill_mm=60.0))
    assert found.brim_ml == pytest.approx(by_quadrature(lambda _: 70.0, 80.0))
    assert found.line_ml == pytest.approx(by_quadrature(lambda _: 70.0, 60.0))
    assert (found.brim_from, found.line_from, found.profile_from) == ("shape", "shape", "measured")


def test_two_diameters_are_a_cone_carried_straight_to_the_brim() -> None:
    made = vessel(diameters=((0.0, 60.0), (90.0, 76.0)), height_mm=90.0)
    assert look(made).brim_ml == pytest.approx(by_quadrature(lambda h: 60 + 16 * h / 90, 90.0))
    taller = look(replace(made, height_mm=100.0))
    on_top = by_quadrature(lambda _: 76.0, 10.0)
    assert taller.brim_ml == pytest.approx(328.3593 + on_top, abs=1e-3)


def test_two_diameters_at_one_height_leave_the_rest_standing() -> None:
    points = ((0.0, 60.0), (45.0, 68.0), (45.0, 90.0), (90.0, 76.0))
    found = look(vessel(diameters=points, height_mm=90.0))
    assert keys(found)[0] == "vessel.same-height"
    assert found.brim_ml == pytest.approx(328.3593, abs=1e-3)


def test_a_diameter_above_the_brim_is_told_and_the_wall_ends_at_the_brim() -> None:
    found = look(vessel(diameters=((0.0, 60.0), (90.0, 76.0)), height_mm=45.0))
    assert "vessel.diameter-above-brim" in keys(found)
    assert found.profile is not None
    assert found.profile.points == ((0.0, 60.0), (45.0, 68.0))


def test_the_water_counts_and_the_drawing_follows() -> None:
    made = vessel(
        row(1, 200.0, 455.0), diameters=((0.0, 60.0), (80.0, 70.0)), height_mm=80.0, fill_mm=70.0
    )
    found = look(made)
    assert "vessel.shape-disagrees" in keys(found)
    assert found.line is not None
    assert found.profile is not None
    assert found.profile.volume_ml(70.0) == pytest.approx(found.line.volume_ml)


def test_without_a_ruler_it_is_drawn_straight_from_volume_and_height() -> None:
    found = look(vessel(row(1, 200.0, 455.0), fill_mm=66.0))
    assert found.profile_from == "assumed"
    assert found.line_ml is not None
    assert found.profile is not None
    wide = math.sqrt(4 * found.line_ml * 1000 / math.pi / 66.0)
    assert found.profile.diameter_mm(10.0) == pytest.approx(wide)


def test_the_fill_line_is_found_from_its_weighed_volume() -> None:
    rows = (row(1, 200.0, 455.0),)
    found = look(vessel(*rows, diameters=((0.0, 70.0),), height_mm=90.0))
    assert found.line_ml is not None
    assert found.fill_mm == pytest.approx(found.line_ml * 4000 / math.pi / 70.0**2)


def test_cells_share_the_volume() -> None:
    made = vessel(row(1, 11.0, 96.0, level="brim"), cells=6, diameters=((0.0, 30.0),))
    found = look(replace(made, height_mm=20.0))
    assert found.brim is not None
    assert found.profile is not None
    assert found.profile.brim_ml * 6 == pytest.approx(found.brim.volume_ml)


def test_diameter_between_two_heights_is_on_the_line_between_them() -> None:
    made = vessel(diameters=((0.0, 60.0), (80.0, 80.0)))
    assert [diameter_at(made, h) for h in (0.0, 20.0, 80.0, 95.0)] == [60.0, 65.0, 80.0, 80.0]
    assert diameter_at(made, None) == 80.0
    assert diameter_at(vessel(), 10.0) is None


# -- what does not fit together --------------------------------------------------------------------
def test_the_box_counts_only_while_nothing_else_is_known() -> None:
    only_box = look(vessel(nominal_ml=300.0))
    assert (only_box.brim_ml, only_box.line_ml, only_box.line_from) == (300.0, 300.0, "nominal")
    weighed = look(vessel(row(1, 200.0, 512.0, level="brim"), nominal_ml=300.0))
    assert weighed.brim_from == "weighed"
    assert (weighed.line_ml, weighed.line_from) == (None, "")


def test_a_line_that_holds_more_than_the_brim_is_told() -> None:
    found = look(vessel(row(1, 200.0, 500.0), row(2, 200.0, 480.0, level="brim")))
    assert keys(found)[0] == "vessel.line-over-brim"
    assert found.findings[0].rank is Rank.STOPS


def test_a_line_above_the_brim_is_told() -> None:
    found = look(vessel(diameters=((0.0, 70.0),), height_mm=80.0, fill_mm=85.0))
    assert keys(found) == ["vessel.fill-over-brim"]
    assert found.line_ml is None


def test_nothing_known_is_nothing_said() -> None:
    assert look(vessel()) == VesselMeasures()


# -- levels ----------------------------------------------------------------------------------------
def mix(hot: float, cold: float, *, estimate: bool = False, wide: float = 0.0) -> MixDensities:
    def density(value: float) -> Density:
        low, high = value * (1 - wide), value * (1 + wide)
        return Density(g_per_ml=value, low=low, high=high, estimate=estimate)

    return MixDensities(hot=density(hot), set=density(cold), pour_c=70.0)


def test_a_straight_jar_drops_by_the_ratio_of_densities() -> None:
    # Mass conserved, straight wall: 70 mm × 0.870/0.900 = 67.6667; paraffin 0.770 → 59.8889.
    made = vessel(diameters=((0.0, 70.0),), height_mm=80.0, fill_mm=70.0)
    found = levels(made, look(made), mix(0.870, 0.900))
    assert found is not None
    assert found.set_mm == pytest.approx(67.6667, abs=1e-4)
    assert found.estimate is False
    paraffin = levels(made, look(made), mix(0.770, 0.900))
    assert paraffin is not None
    assert paraffin.set_mm == pytest.approx(59.8889, abs=1e-4)


def test_a_cone_drops_less_than_its_height_says() -> None:
    # Frustum 60 → 76 over 90 mm, filled to 70 mm with soy: 68.0351 mm by mass and quadrature.
    made = vessel(diameters=((0.0, 60.0), (90.0, 76.0)), height_mm=90.0, fill_mm=70.0)
    found = levels(made, look(made), mix(0.870, 0.900))
    assert found is not None
    assert found.set_mm == pytest.approx(68.0351, abs=1e-3)


@given(
    st.floats(40.0, 90.0),
    st.floats(40.0, 110.0),
    st.floats(0.3, 1.0),
    st.floats(0.76, 0.89),
    st.floats(0.89, 0.97),
)
def test_mass_stays_as_wax_sets(
    bottom: float, top: float, share: float, hot: float, cold: float
) -> None:
    fill = 85.0 * share
    made = vessel(diameters=((0.0, bottom), (85.0, top)), height_mm=85.0, fill_mm=fill)
    found = levels(made, look(made), mix(hot, cold, estimate=True, wide=0.01))
    assert isinstance(found, Levels)

    def wide(height: float) -> float:
        return bottom + (top - bottom) * height / 85.0

    hot_g = by_quadrature(wide, fill) * hot
    assert by_quadrature(wide, found.set_mm) * cold == pytest.approx(hot_g, rel=1e-6)
    assert found.set_low_mm <= found.set_mm <= found.set_high_mm <= math.ceil(fill)


def test_levels_wait_for_shape_line_and_mix() -> None:
    made = vessel(diameters=((0.0, 70.0),), height_mm=80.0, fill_mm=70.0)
    assert levels(made, look(made), None) is None
    bare = vessel(fill_mm=70.0)
    assert levels(bare, look(bare), mix(0.87, 0.9)) is None
    over = replace(made, fill_mm=85.0)
    assert levels(over, look(over), mix(0.87, 0.9)) is None
    assert levels(made, look(made), mix(0.95, 0.90)) is None


def test_a_straight_guess_makes_the_level_an_estimate() -> None:
    made = vessel(row(1, 200.0, 455.0), fill_mm=66.0)
    found = levels(made, look(made), mix(0.87, 0.90))
    assert found is not None
    assert found.estimate is True
