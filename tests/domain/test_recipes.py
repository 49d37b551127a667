"""Loads and amounts against tables worked out by hand and against exact fractions."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.errors import OutOfRange
from wickbench.domain.recipes import (
    Load,
    Recipe,
    Role,
    actual_load,
    mix_amounts,
    mix_parts,
    oil_shares,
    share_percents,
)

# Ounces of oil per pound of wax (16 oz, NIST SP 811): percent of wax, percent of total.
OUNCES_PER_POUND = [
    (0.50, 3.125, 3.0303),
    (0.75, 4.6875, 4.4776),
    (0.80, 5.000, 4.7619),
    (1.00, 6.250, 5.8824),
    (1.20, 7.500, 6.9767),
    (1.25, 7.8125, 7.2464),
    (1.50, 9.375, 8.5714),
    (1.60, 10.000, 9.0909),
    (2.00, 12.500, 11.1111),
]
# percent, read as of wax: of total; read as of total: of wax (p = w/(1+w), w = p/(1-p)).
BASES = [
    (3, 2.9126, 3.0928),
    (4, 3.8462, 4.1667),
    (5, 4.7619, 5.2632),
    (6, 5.6604, 6.3830),
    (7, 6.5421, 7.5269),
    (8, 7.4074, 8.6957),
    (9, 8.2569, 9.8901),
    (10, 9.0909, 11.1111),
    (12, 10.7143, 13.6364),
]
# 2000 g of mix: percent, basis, wax, oil (W = M / (1 + w)).
BATCHES = [
    (6, "wax", 1886.79, 113.21),
    (6, "total", 1880.00, 120.00),
    (8, "wax", 1851.85, 148.15),
    (8, "total", 1840.00, 160.00),
    (10, "wax", 1818.18, 181.82),
    (10, "total", 1800.00, 200.00),
]

percents = st.integers(0, 99_000).map(lambda thousandths: thousandths / 1000)
parts = st.dictionaries(st.integers(0, 9), st.floats(0.01, 100.0), min_size=1, max_size=4)


@pytest.mark.parametrize(("ounces", "of_wax", "of_total"), OUNCES_PER_POUND)
def test_ounces_per_pound(ounces: float, of_wax: float, of_total: float) -> None:
    load = Load(100 * ounces / 16, "of wax")
    assert load.of_wax == pytest.approx(of_wax, abs=1e-9)
    assert load.of_total == pytest.approx(of_total, abs=5e-5)


@pytest.mark.parametrize(("percent", "to_total", "to_wax"), BASES)
def test_both_bases(percent: float, to_total: float, to_wax: float) -> None:
    assert Load(percent, "wax").of_total == pytest.approx(to_total, abs=5e-5)
    assert Load(percent, "of total").of_wax == pytest.approx(to_wax, abs=5e-5)


@given(percents, st.sampled_from(["wax", "total"]))
def test_the_basis_goes_there_and_back(percent: float, basis: str) -> None:
    load = Load(percent, basis)
    assert Load(load.of_total, "total").of_wax == pytest.approx(load.of_wax, rel=1e-9)
    assert load.of_wax >= load.of_total


@pytest.mark.parametrize(
    ("percent", "basis", "key"),
    [
        (-1, "wax", "recipe.load-negative"),
        (math.nan, "wax", "recipe.load-negative"),
        (math.inf, "wax", "recipe.load-negative"),
        (100, "total", "recipe.load-whole"),
        (101, "of total", "recipe.load-whole"),
        (8, "", "recipe.load-basis"),
        (8, "oil", "recipe.load-basis"),
    ],
)
def test_senseless_loads_are_refused(percent: float, basis: str, key: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        Load(percent, basis)
    assert refused.value.key == key


@pytest.mark.parametrize(("percent", "basis", "wax_g", "oil_g"), BATCHES)
def test_a_batch_of_two_kilograms(percent: float, basis: str, wax_g: float, oil_g: float) -> None:
    recipe = Recipe(wax={"soy": 1}, fragrance={"fig": 3}, load=Load(percent, basis))
    amounts = mix_amounts(recipe, 2000)
    assert amounts["soy"] == pytest.approx(wax_g, abs=0.005)
    assert amounts["fig"] == pytest.approx(oil_g, abs=0.005)


def test_additives_and_dye_are_percent_of_wax() -> None:
    """W = M / (1 + w + sum a): exact fractions by the standard library."""
    recipe = Recipe(
        wax={"soy": 3, "coconut": 1},
        fragrance={"fig": 7, "cedar": 3},
        load=Load(10, "wax"),
        dye={"plum": 0.25},
        additives={"stearin": 5},
    )
    wax = Fraction(1000) / (1 + Fraction(10, 100) + Fraction(1, 400) + Fraction(5, 100))
    expected = {
        "soy": wax * Fraction(3, 4),
        "coconut": wax / 4,
        "plum": wax / 400,
        "stearin": wax / 20,
        "fig": wax / 10 * Fraction(7, 10),
        "cedar": wax / 10 * Fraction(3, 10),
    }
    amounts = mix_amounts(recipe, 1000)
    assert list(amounts) == list(expected)
    for material, mass in expected.items():
        assert amounts[material] == pytest.approx(float(mass), rel=1e-12)


def test_a_load_of_total_stays_of_total_beside_additives() -> None:
    recipe = Recipe(
        wax={"soy": 1}, fragrance={"fig": 1}, load=Load(6, "total"), additives={"stearin": 10}
    )
    amounts = mix_amounts(recipe, 1000)
    assert amounts["fig"] == pytest.approx(60, rel=1e-12)
    assert amounts["stearin"] == pytest.approx(amounts["soy"] / 10, rel=1e-12)
    assert actual_load(recipe).of_wax == pytest.approx(100 * 60 / amounts["soy"], rel=1e-12)
    assert oil_shares(recipe)["fig"] == pytest.approx(6)


@given(parts, parts, percents, st.sampled_from(["wax", "total"]), st.floats(0.1, 1e5))
def test_amounts_close_to_the_total(
    wax: dict[int, float], oils: dict[int, float], percent: float, basis: str, total_g: float
) -> None:
    recipe = Recipe(
        wax=wax,
        fragrance={key + 100: amount for key, amount in oils.items()},
        load=Load(percent, basis),
        dye={"dye": 0.2},
        additives={"uv": 0.5},
    )
    amounts = mix_amounts(recipe, total_g)
    assert math.fsum(amounts.values()) == pytest.approx(total_g, rel=1e-14)
    assert min(amounts.values()) >= 0
    wax_g = math.fsum(amounts[key] for key in wax)
    oil_g = math.fsum(mass for key, mass in amounts.items() if isinstance(key, int) and key >= 100)
    whole = wax_g if basis == "wax" else total_g
    assert oil_g == pytest.approx(percent / 100 * whole, rel=1e-9, abs=1e-9)


@given(parts, st.floats(0.001, 1000.0))
def test_only_the_ratio_of_parts_counts(wax: dict[int, float], factor: float) -> None:
    scaled = {key: amount * factor for key, amount in wax.items()}
    one, other = mix_amounts(Recipe(wax=wax), 500), mix_amounts(Recipe(wax=scaled), 500)
    assert one == pytest.approx(other, rel=1e-9)


def test_a_material_in_two_roles_is_weighed_once() -> None:
    recipe = Recipe(wax={"soy": 9, "stearin": 1}, additives={"stearin": 10})
    amounts = mix_amounts(recipe, 1100)
    assert amounts == pytest.approx({"soy": 900, "stearin": 200})
    assert [part.role for part in mix_parts(recipe)] == [Role.WAX, Role.WAX, Role.ADDITIVE]


def test_parts_of_zero_are_not_weighed() -> None:
    recipe = Recipe(
        wax={"soy": 1, "palm": 0},
        fragrance={"fig": 1, "rose": 0},
        load=Load(8),
        dye={"plum": 0},
        additives={"uv": 0},
    )
    assert list(mix_amounts(recipe, 100)) == ["soy", "fig"]


def test_without_oil_the_load_has_no_effect() -> None:
    assert mix_amounts(Recipe(wax={"soy": 1}, load=Load(8)), 100) == {"soy": 100}
    assert mix_amounts(Recipe(wax={"soy": 1}, fragrance={"fig": 1}), 100) == {"soy": 100}
    assert mix_amounts(Recipe(wax={"soy": 1}), 0) == {"soy": 0}


@pytest.mark.parametrize(
    ("fields", "key"),
    [
        ({}, "recipe.no-wax"),
        ({"wax": {"soy": 0}}, "recipe.no-wax"),
        ({"wax": {"soy": -1}}, "recipe.number"),
        ({"wax": {"soy": math.nan}}, "recipe.number"),
        ({"wax": {"soy": 1}, "dye": {"plum": -0.1}}, "recipe.number"),
        ({"wax": {"soy": 1}, "pour_c": math.inf}, "recipe.number"),
        ({"wax": {"soy": 1}, "heat_to_c": -300.0}, "recipe.number"),
        ({"wax": {"soy": 1}, "cure_days": -1}, "recipe.number"),
    ],
)
def test_senseless_recipes_are_refused(fields: dict[str, object], key: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        mix_amounts(Recipe(**fields), 100)  # type: ignore[arg-type]  # senseless on purpose
    assert refused.value.key == key


@pytest.mark.parametrize("total_g", [-1.0, math.nan, math.inf])
def test_senseless_totals_are_refused(total_g: float) -> None:
    with pytest.raises(OutOfRange):
        mix_amounts(Recipe(wax={"soy": 1}), total_g)


def test_a_recipe_does_not_change_with_the_mapping_it_was_made_from() -> None:
    wax = {"soy": 1.0}
    recipe = Recipe(wax=wax)
    wax["beeswax"] = 1.0
    assert mix_amounts(recipe, 10) == {"soy": 10}


def test_thirds_are_shown_as_a_whole() -> None:
    assert share_percents({"a": 1, "b": 1, "c": 1}) == {"a": 33.4, "b": 33.3, "c": 33.3}
    assert share_percents({"a": 2, "b": 1}, digits=0) == {"a": 67, "b": 33}
    assert share_percents({}) == {}
    assert share_percents({"a": 0}) == {"a": 0}


@given(parts, st.integers(0, 3))
def test_percentages_sum_to_a_hundred(amounts: dict[int, float], digits: int) -> None:
    shown = share_percents(amounts, digits=digits)
    assert sum(Fraction(str(value)) for value in shown.values()) == 100
    whole = sum(amounts.values())
    for key, value in shown.items():
        assert abs(value - 100 * amounts[key] / whole) < 10**-digits * (1 + 1e-9)
