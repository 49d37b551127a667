"""Recipes on the shelf as mixes: densities by volume additivity, estimates marked, gaps filled."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app.mixes import (
    densities_or_none,
    facts_of,
    main_wax,
    mix_densities,
    recipe_of,
    temperatures,
    wax_liquid,
    wax_set,
)
from wickbench.app.shelf import Shelf
from wickbench.domain.catalog import Fragrance, Material, RecipePart, RecipeVersion, Wax
from wickbench.domain.recipes import Load

SOY = Wax(
    wax_class="soy",
    liquid_g_per_ml=0.870,
    liquid_measured=True,
    set_g_per_ml=0.900,
    set_measured=True,
)
OIL = Fragrance(density_g_per_ml=0.97)


def material(key: int, kind: str, details: Wax | Fragrance) -> Material:
    return Material(id=key, kind=kind, name=f"{kind} {key}", details=details)


def shelf(wax: Wax = SOY, oil: Fragrance = OIL, *more: Material) -> Shelf:
    things = (material(1, "wax", wax), material(2, "fragrance", oil), *more)
    return Shelf(materials={thing.id: thing for thing in things})


def version(*extra: RecipePart, **values: object) -> RecipeVersion:
    parts = (
        RecipePart(id=1, role="wax", item_id=1, parts=1.0),
        RecipePart(id=2, role="fragrance", item_id=2, parts=1.0),
        *extra,
    )
    known: dict[str, object] = {"load": Load(8.0, "total"), "pour_c": 70.0, "parts": parts}
    return RecipeVersion(id=1, recipe_id=1, name="Bramble", **(known | values))  # type: ignore[arg-type]


def test_a_mix_by_volume_additivity() -> None:
    # Worked by hand: 1/(0.92/0.900 + 0.08/0.970); set at 20 °C the oil keeps its own density.
    found = mix_densities(version(), shelf())
    assert found.set.g_per_ml == pytest.approx(0.905226, abs=5e-7)
    # Expansion of oils 0.0008 per °C (common practice, no source): about 0.93 at 70 °C.
    hot_oil = 0.97 / (1 + 0.0008 * 50)
    assert found.hot.g_per_ml == pytest.approx(1 / (0.92 / 0.870 + 0.08 / hot_oil), abs=1e-9)
    assert (found.hot.estimate, found.set.estimate) == (False, False)
    assert found.hot.low == found.hot.high == pytest.approx(found.hot.g_per_ml)


@given(st.floats(0.5, 12.0), st.floats(0.88, 1.10), st.floats(0.75, 0.95), st.floats(45.0, 95.0))
def test_mass_and_volume_add_up_in_any_mix(
    load: float, oil_density: float, wax_density: float, pour_c: float
) -> None:
    """Masses of wax and oil in a litre of mix fill a litre when their own volumes are added."""
    wax = replace(SOY, liquid_g_per_ml=wax_density)
    things = shelf(wax, Fragrance(density_g_per_ml=oil_density))
    mix = mix_densities(version(load=Load(load, "wax"), pour_c=pour_c), things)
    wax_g = 1000 * mix.hot.g_per_ml / (1 + load / 100)
    oil_g = wax_g * load / 100
    wax_ml = wax_g / (wax_density - 0.00066 * (pour_c - 70))
    oil_ml = oil_g * (1 + 0.0008 * (pour_c - 20)) / oil_density
    assert wax_ml + oil_ml == pytest.approx(1000, rel=1e-9)


def test_what_nobody_measured_is_marked_and_spans_its_class() -> None:
    found = mix_densities(version(load=None), shelf(Wax(wax_class="paraffin")))
    # Ranges of container paraffin: estimates of the class, no source.
    assert (found.hot.low, found.hot.high) == pytest.approx((0.75, 0.79))
    assert (found.set.low, found.set.high) == pytest.approx((0.88, 0.92))
    assert found.hot.estimate
    assert found.set.estimate


@pytest.mark.parametrize("measured", [True, False])
def test_an_own_density_is_taken_and_only_a_measured_one_is_sure(measured: bool) -> None:  # noqa: FBT001 - a case
    wax = Wax(wax_class="soy", liquid_g_per_ml=0.86, liquid_measured=measured)
    found = wax_liquid(wax, 70.0)
    assert found.g_per_ml == 0.86
    assert found.estimate is not measured
    assert (found.low == found.high) is measured
    assert found.low <= 0.86 <= found.high


def test_an_own_density_outside_its_class_widens_the_range() -> None:
    found = wax_set(Wax(wax_class="soy", set_g_per_ml=0.99))
    assert found.high == 0.99
    assert found.low < 0.99


def test_measured_without_a_number_is_an_estimate() -> None:
    assert wax_liquid(Wax(wax_class="soy", liquid_measured=True), 70.0).estimate
    assert wax_set(Wax(wax_class="soy", set_measured=True)).estimate


def test_an_oil_without_a_density_makes_the_mix_an_estimate() -> None:
    found = mix_densities(version(), shelf(SOY, Fragrance()))
    assert found.hot.estimate
    # Finished oils lie between 0.88 and 1.10 g/mL (common practice, no source).
    assert found.set.low == pytest.approx(1 / (0.92 / 0.9 + 0.08 / 0.88))
    assert found.set.high == pytest.approx(1 / (0.92 / 0.9 + 0.08 / 1.10))


def test_a_recipe_takes_only_what_is_filled_in() -> None:
    made = version(
        RecipePart(id=3, role="fragrance", item_id=2, parts=2.0),
        RecipePart(id=4, role="dye", item_id=None, of_wax_percent=0.2),
        RecipePart(id=5, role="additive", item_id=9),
        RecipePart(id=6, role="dye", item_id=8, of_wax_percent=0.1),
        stir_min=2,
        cure_days=14,
    )
    recipe = recipe_of(made, shelf())
    assert recipe.wax == {1: 1.0}
    assert recipe.fragrance == {2: 3.0}
    assert recipe.dye == {8: 0.1}
    assert recipe.additives == {}
    assert (recipe.stir_min, recipe.cure_days, recipe.pour_c) == (2, 14, 70.0)


def test_temperatures_come_from_the_version_then_its_wax_then_the_class() -> None:
    wax = replace(SOY, heat_to_c=83.0, add_oil_c=79.0)
    found = temperatures(version(pour_c=None, heat_to_c=85.0), shelf(wax))
    # Middle of 49 to 63 °C, the usual pour window of container soy (common practice, no source).
    assert found == {"heat_to_c": 85.0, "add_oil_c": 79.0, "pour_c": 56.0}


def test_the_main_wax_has_most_parts() -> None:
    other = Wax(wax_class="beeswax")
    things = shelf(SOY, OIL, material(3, "wax", other))
    made = version(RecipePart(id=3, role="wax", item_id=3, parts=3.0))
    assert main_wax(made, things) is other
    assert main_wax(version(), things) is things.materials[1].details
    assert main_wax(replace(made, parts=()), things) is None


def test_a_version_without_wax_has_no_density_yet() -> None:
    assert densities_or_none(None, shelf()) is None
    assert densities_or_none(version(parts=()), shelf()) is None
    assert densities_or_none(version(), shelf()) is not None


def test_facts_carry_names_limits_and_the_heat() -> None:
    wax = replace(SOY, max_load=Load(10.0, "wax"), flash_c=220.0)
    oil = Fragrance(density_g_per_ml=0.98, flash_c=64.0, ifra_12_percent=7.5)
    source = {"name": "Hotplate", "open_flame": 0, "left_on_heat": 1}
    facts = facts_of(shelf(wax, oil), source)
    assert facts.waxes[1].max_load == Load(10.0, "wax")
    assert facts.waxes[1].density_is_estimate is False
    assert facts.oils[2].flash_c == 64.0
    assert facts.oils[2].ifra_percent == 7.5
    assert facts.names[2] == "fragrance 2"
    assert (facts.heat.name, facts.heat.open_flame, facts.heat.pot_stays_on) == (
        "Hotplate",
        False,
        True,
    )
