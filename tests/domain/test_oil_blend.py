"""Fragrance oils as one blend: density by volumes, the first to catch fire."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.oil_blend import OilBlend, oil_blend
from wickbench.domain.recipe_checks import Facts, OilFacts, WaxFacts, recipe_findings
from wickbench.domain.recipes import Load, Recipe

# CRC Handbook by way of the package chemicals: d-limonene 0.841 g/mL and 48 °C closed cup,
# benzyl benzoate 1.112 and 148, dipropylene glycol 1.021 and 118.
LIMONENE = OilFacts(name="Limonene", density_g_per_ml=0.841, flash_c=48)
BENZOATE = OilFacts(name="Benzyl benzoate", density_g_per_ml=1.112, flash_c=148)
OILS = {"limonene": LIMONENE, "benzoate": BENZOATE, "blank": OilFacts(name="Blank")}


def blend(**parts: float) -> OilBlend | None:
    recipe = Recipe(wax={"soy": 1}, fragrance=parts, load=Load(8))
    return oil_blend(recipe, Facts(oils=OILS))


def test_a_blend_by_parts() -> None:
    found = blend(limonene=7, benzoate=3)
    assert found is not None
    # 1 / (0.7/0.841 + 0.3/1.112), worked by hand.
    assert found.density_g_per_ml == pytest.approx(0.907337, abs=1e-6)
    assert found.lowest_flash == ("limonene", 48)
    assert not found.estimate
    assert found.without_flash == ()


def test_an_oil_without_data_makes_an_estimate_and_is_named() -> None:
    found = blend(benzoate=1, blank=1)
    assert found is not None
    assert found.estimate
    assert found.low < found.density_g_per_ml < found.high
    assert found.lowest_flash == ("benzoate", 148)
    assert found.without_flash == ("blank",)


def test_no_oil_is_no_blend() -> None:
    assert blend() is None
    assert blend(limonene=0) is None


@given(st.floats(0.01, 100), st.floats(0.01, 100))
def test_a_blend_lies_between_its_oils_and_parts_are_shares(one: float, other: float) -> None:
    found, doubled = (
        blend(limonene=one, benzoate=other),
        blend(limonene=2 * one, benzoate=2 * other),
    )
    assert found is not None
    assert doubled is not None
    assert 0.841 <= found.density_g_per_ml <= 1.112
    assert found.density_g_per_ml == pytest.approx(doubled.density_g_per_ml)


def test_a_silent_wax_of_a_blend_is_named() -> None:
    recipe = Recipe(wax={"soy": 1, "palm": 1}, fragrance={"limonene": 1}, load=Load(8))
    waxes = {"soy": WaxFacts(name="Soy", max_load=Load(10)), "palm": WaxFacts(name="Palm")}
    found = recipe_findings(recipe, Facts(waxes=waxes, oils=OILS))
    (said,) = [one for one in found if one.key == "recipe.one-wax-limit-unknown"]
    assert said.data == {"name": "Palm"}
