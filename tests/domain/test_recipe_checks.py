"""What is said about a recipe, and what is not."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.equipment import HeatSource
from wickbench.domain.findings import Rank
from wickbench.domain.recipe_checks import (
    Checked,
    Facts,
    OilFacts,
    WaxFacts,
    oil_checks,
    recipe_findings,
)
from wickbench.domain.recipes import Load, Recipe

SOY = WaxFacts(name="Orchard soy", max_load=Load(10, "wax"), flash_c=220, heat_to_c=85)


def _keys(recipe: Recipe, facts: Facts, least: Rank = Rank.NOTE) -> list[str]:
    return [said.key for said in recipe_findings(recipe, facts) if said.rank >= least]


def _facts(oil: OilFacts, heat: HeatSource | None = None, wax: WaxFacts = SOY) -> Facts:
    return Facts(waxes={"soy": wax}, oils={"fig": oil}, heat=heat or HeatSource())


def _recipe(percent: float = 8, basis: str = "wax", **fields: float) -> Recipe:
    temperatures = {"heat_to_c": 82.0, "add_c": 78.0, "pour_c": 57.0} | fields
    return Recipe(
        wax={"soy": 1},
        fragrance={"fig": 1},
        load=Load(percent, basis),
        heat_to_c=temperatures["heat_to_c"],
        add_c=temperatures["add_c"],
        pour_c=temperatures["pour_c"],
    )


def test_an_ordinary_recipe_raises_no_alarm() -> None:
    """Oils flash at 60-95 °C and are added at 75-85 °C (common practice, no source)."""
    for flash_c in (61, 65, 75, 95):
        oil = OilFacts(name="Fig", flash_c=flash_c, ifra_percent=100, density_g_per_ml=0.97)
        assert _keys(_recipe(), _facts(oil)) == []


@pytest.mark.parametrize(
    ("flash_c", "heat", "key"),
    [
        (60, HeatSource(), "recipe.flash-low"),
        (48, HeatSource(), "recipe.flash-low"),
        (70, HeatSource(open_flame=True), "recipe.flash-over-flame"),
        (78, HeatSource(open_flame=True), "recipe.flash-over-flame"),
        (80, HeatSource(pot_stays_on=True), "recipe.flash-on-heat"),
        (80, HeatSource(open_flame=True, pot_stays_on=True), "recipe.flash-over-flame"),
        (55, HeatSource(open_flame=True), "recipe.flash-over-flame"),
        (82, HeatSource(pot_stays_on=True), "recipe.flash-on-heat"),
    ],
)
def test_flash_points_warn_where_they_matter(flash_c: float, heat: HeatSource, key: str) -> None:
    oil = OilFacts(name="Fig", flash_c=flash_c, ifra_percent=100)
    assert _keys(_recipe(), _facts(oil, heat)) == [key]
    assert recipe_findings(_recipe(), _facts(oil, heat))[0].rank is Rank.WATCH


@pytest.mark.parametrize(
    ("flash_c", "heat"),
    [(95, HeatSource(open_flame=True)), (90, HeatSource(pot_stays_on=True))],
)
def test_below_its_flash_point_an_oil_is_no_warning(flash_c: float, heat: HeatSource) -> None:
    assert _keys(_recipe(), _facts(OilFacts(flash_c=flash_c, ifra_percent=100), heat)) == []


def test_a_flame_with_unknown_temperatures_is_a_warning() -> None:
    recipe = Recipe(wax={"soy": 1}, fragrance={"fig": 1}, load=Load(8))
    facts = _facts(OilFacts(flash_c=90, ifra_percent=100), HeatSource(open_flame=True))
    assert _keys(recipe, facts) == ["recipe.flash-over-flame"]
    unknown = _facts(OilFacts(ifra_percent=100), HeatSource(open_flame=True))
    assert _keys(recipe, unknown) == ["recipe.flash-unknown"]


@pytest.mark.parametrize(
    ("load", "limit", "over"),
    [
        (Load(6.38, "wax"), Load(6, "total"), False),
        (Load(6.39, "wax"), Load(6, "total"), True),
        (Load(5.66, "total"), Load(6, "wax"), False),
        (Load(5.67, "total"), Load(6, "wax"), True),
        (Load(6, "total"), Load(6, "wax"), True),
        (Load(6, "wax"), Load(6, "wax"), False),
    ],
)
def test_the_waxs_limit_keeps_its_basis(load: Load, limit: Load, over: bool) -> None:  # noqa: FBT001
    """6 % of total = 6.3830 % of wax; 6 % of wax = 5.6604 % of total: p = w/(1+w)."""
    recipe = Recipe(wax={"soy": 1}, fragrance={"fig": 1}, load=load)
    facts = _facts(OilFacts(ifra_percent=100), wax=WaxFacts(max_load=limit))
    assert _keys(recipe, facts) == ([f"recipe.over-wax-limit-of-{limit.basis}"] if over else [])


def test_the_strictest_wax_of_a_blend_decides() -> None:
    recipe = Recipe(wax={"a": 9, "b": 1, "c": 0}, fragrance={"fig": 1}, load=Load(8, "wax"))
    waxes = {
        "a": WaxFacts(name="A", max_load=Load(12, "wax")),
        "b": WaxFacts(name="B", max_load=Load(7, "total")),
        "c": WaxFacts(name="C", max_load=Load(1, "wax")),
    }
    facts = Facts(waxes=waxes, oils={"fig": OilFacts(ifra_percent=100)})
    (said,) = recipe_findings(recipe, facts)
    assert said.data == {
        "name": "B",
        "load_percent": pytest.approx(7.4074, abs=5e-5),
        "limit_percent": 7,
    }
    silent = Facts(waxes={"a": WaxFacts(), "b": WaxFacts()}, oils=facts.oils)
    assert _keys(recipe, silent) == ["recipe.wax-limit-unknown"]


@pytest.mark.parametrize(
    ("limit", "state"),
    [
        (100, Checked.NO_LIMIT),
        (7.5, Checked.WITHIN),
        (7.4, Checked.OVER),
        (0, Checked.NOT_ALLOWED),
        (None, Checked.UNKNOWN),
    ],
)
def test_certificates_are_percent_of_the_finished_product(
    limit: float | None, state: Checked
) -> None:
    """8 % of wax is 7.4074 % of the finished candle."""
    (check,) = oil_checks(_recipe(), _facts(OilFacts(ifra_percent=limit)))
    assert (check.state, check.limit_percent) == (state, limit)
    assert check.share_percent == pytest.approx(7.4074, abs=5e-5)


def test_each_oil_of_a_blend_has_its_own_limit() -> None:
    recipe = Recipe(wax={"soy": 1}, fragrance={"fig": 3, "clove": 1}, load=Load(8, "total"))
    oils = {
        "fig": OilFacts(name="Fig", ifra_percent=6.1),
        "clove": OilFacts(name="Clove", ifra_percent=1.9),
    }
    (said,) = recipe_findings(recipe, Facts(waxes={"soy": SOY}, oils=oils))
    assert (said.rank, said.key) == (Rank.STOPS, "recipe.oil-over-certificate")
    assert said.data["name"] == "Clove"
    assert said.data["share_percent"] == pytest.approx(2)


def test_names_are_found_whatever_the_material_is() -> None:
    facts = Facts(waxes={1: SOY}, oils={2: OilFacts(name="Fig")}, names={3: "Plum dye"})
    assert [facts.name(key) for key in (1, 2, 3, 4)] == ["Orchard soy", "Fig", "Plum dye", "4"]
    assert (facts.wax(9).name, facts.oil(9).name) == ("9", "9")


def test_nonsense_is_said() -> None:
    oil = OilFacts(name="Fig", ifra_percent=100)
    assert _keys(Recipe(), Facts()) == ["recipe.no-wax"]
    assert _keys(_recipe(heat_to_c=50, add_c=50), _facts(oil)) == ["recipe.heat-below-pour"]
    assert _keys(_recipe(add_c=90), _facts(oil)) == ["recipe.add-above-heat"]
    assert _keys(_recipe(heat_to_c=220), _facts(oil)) == ["recipe.heat-over-wax-flash"]
    assert _keys(_recipe(heat_to_c=100), _facts(oil)) == ["recipe.hotter-than-wax-wants"]
    bare = Recipe(wax={"soy": 1}, load=Load(5))
    assert _keys(bare, _facts(oil)) == ["recipe.load-without-oil"]
    oily = Recipe(wax={"soy": 1}, fragrance={"fig": 1})
    assert _keys(oily, _facts(oil)) == ["recipe.oil-without-load"]


@given(st.floats(0.1, 30), st.floats(0.1, 30), st.sampled_from(["wax", "total"]))
def test_more_oil_never_mends_a_finding(one: float, other: float, basis: str) -> None:
    facts = _facts(OilFacts(ifra_percent=9))
    low, high = sorted((one, other))
    few = _keys(_recipe(low, basis), facts, Rank.WATCH)
    assert set(few) <= set(_keys(_recipe(high, basis), facts, Rank.WATCH))
