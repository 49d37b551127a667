"""Leftovers: by hand-worked balances, a linear solver, and masses that must be conserved."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import linprog

from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Rank
from wickbench.domain.leftover_layers import layered
from wickbench.domain.leftovers import Leftover, Reworked, work_in
from wickbench.domain.pours import blend_leftover
from wickbench.domain.recipe_checks import Facts, OilFacts
from wickbench.domain.recipes import Load, Recipe, Role, actual_load, mix_amounts, oil_shares

FACTS = Facts(
    oils={
        "fig": OilFacts(name="Fig", ifra_percent=12.0),
        "clove": OilFacts(name="Clove", ifra_percent=2.0),
        "sea": OilFacts(name="Sea", ifra_percent=100.0),
        "moss": OilFacts(name="Moss"),
        "musk": OilFacts(name="Musk", ifra_percent=0.0),
    },
    names={"soy": "Soy", "palm": "Palm"},
)


def scented(percent: float, basis: str = "total", **oils: float) -> Recipe:
    return Recipe(wax={"soy": 1}, fragrance=oils or {"fig": 1}, load=Load(percent, basis))


def added(made: Reworked) -> dict[str, float]:
    return {amount.material: amount.mass_g for amount in made.add}


def held(made: Reworked) -> dict[str, float]:
    return {amount.material: amount.mass_g for amount in made.holds}


def test_a_leftover_of_a_weaker_batch() -> None:
    """oil = p M − q m, by hand: 1500 g at 8 % with 300 g at 6 %."""
    made = work_in([Leftover(scented(6), 300)], scented(8), 1500)
    assert added(made) == pytest.approx({"soy": 1098, "fig": 102})
    assert held(made) == pytest.approx({"soy": 1380, "fig": 120})
    assert not made.own_kind


def test_a_leftover_that_states_its_load_of_wax() -> None:
    """6 % of wax is 5.6604 % of total: 102 + 300·(0.06 − 0.056604) g of oil, by hand."""
    made = work_in([Leftover(scented(6, "wax"), 300)], scented(8), 1500)
    assert added(made)["fig"] == pytest.approx(120 - 300 * 0.056604, abs=1e-3)


def test_too_rich_a_leftover_is_refused_with_the_way_out() -> None:
    """1000 g at 5 % with 800 g at 10 %: 30 g of oil too many; 500 g of it would do, by hand."""
    with pytest.raises(OutOfRange) as refused:
        work_in([Leftover(scented(10), 800)], scented(5), 1000, FACTS)
    assert refused.value.key == "leftovers.too-much"
    assert refused.value.data["name"] == "Fig"
    assert refused.value.data["over_g"] == pytest.approx(30)
    assert refused.value.data["most_g"] == pytest.approx(500)
    assert refused.value.data["least_g"] == pytest.approx(1600)


def test_a_leftover_of_another_scent_takes_the_place_of_its_oil() -> None:
    """By hand: 80 g of oil wanted, 10 g of clove come along, so 70 g of fig are added."""
    made = work_in([Leftover(scented(5, clove=1), 200)], scented(8), 1000, FACTS)
    assert added(made) == pytest.approx({"soy": 1000 - 200 - 70, "fig": 70})
    assert oil_shares(made.recipe) == pytest.approx({"fig": 7, "clove": 1})
    assert made.foreign == ("clove",)
    assert [one.key for one in made.findings if one.rank is Rank.WATCH] == ["leftovers.own-kind"]


def test_limits_are_held_against_each_oil_of_the_result() -> None:
    """By hand: 400 g at 10 % are 40 g of clove in 1000 g: 4 %, its certificate allows 2 %."""
    made = work_in([Leftover(scented(10, clove=1), 400)], scented(8), 1000, FACTS)
    first = made.findings[0]
    assert (first.rank, first.key) == (Rank.STOPS, "leftovers.oil-over")
    assert first.data == {
        "name": "Clove",
        "share_percent": pytest.approx(4),
        "limit_percent": 2.0,
    }


def test_a_blend_of_oils_is_brought_back_to_its_proportions() -> None:
    """By hand: 80 g wanted, 60 fig and 20 sea; the leftover has 10 of each."""
    made = work_in(
        [Leftover(scented(10, fig=1, sea=1), 200)], scented(8, fig=3, sea=1), 1000, FACTS
    )
    assert added(made) == pytest.approx({"soy": 740, "fig": 50, "sea": 10})


def test_a_blend_of_waxes_with_dye_and_additive() -> None:
    """By hand: of wax 10 % oil, 1 % dye, 4 % stearin: 1150 g hold 1000 g wax, 600 and 400."""
    recipe = Recipe(
        wax={"soy": 3, "palm": 2},
        fragrance={"fig": 1},
        load=Load(10),
        dye={"red": 1},
        additives={"stearin": 4},
    )
    plain = Recipe(wax={"soy": 1}, dye={"red": 2})
    made = work_in([Leftover(plain, 102)], recipe, 1150)
    expected = {"soy": 500, "palm": 400, "red": 8, "stearin": 40, "fig": 100}
    assert added(made) == pytest.approx(expected)
    assert [amount.role for amount in made.add] == sorted(
        (amount.role for amount in made.add), key=list(Role).index
    )


def test_a_foreign_dye_takes_room_and_the_load_is_kept() -> None:
    blue = Recipe(wax={"soy": 1}, dye={"blue": 1})
    made = work_in([Leftover(blue, 101)], scented(8, "wax"), 1000)
    assert actual_load(made.recipe).of_wax == pytest.approx(8)
    assert held(made)["blue"] == pytest.approx(1)
    assert math.fsum(held(made).values()) == pytest.approx(1000)
    assert made.foreign == ("blue",)


def test_scented_mix_has_no_place_in_an_unscented_recipe() -> None:
    with pytest.raises(OutOfRange) as refused:
        work_in([Leftover(scented(5), 100)], Recipe(wax={"soy": 1}), 1000)
    assert refused.value.key == "leftovers.no-place"


@pytest.mark.parametrize(
    ("leftover", "key"),
    [
        (Leftover(scented(30, clove=1), 900), "leftovers.other-oil"),
        (Leftover(Recipe(wax={"palm": 1}), 950), "leftovers.other-wax"),
        (Leftover(scented(8), 1200), "pour.leftover-larger"),
    ],
)
def test_leftovers_that_do_not_fit(leftover: Leftover, key: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        work_in([leftover], scented(8), 1000)
    assert refused.value.key == key


def test_senseless_leftovers_are_refused() -> None:
    for mass_g in (-1.0, math.nan, math.inf):
        with pytest.raises(OutOfRange):
            Leftover(scented(8), mass_g)
    with pytest.raises(OutOfRange):
        Leftover(Recipe(), 10)
    with pytest.raises(OutOfRange):
        work_in([], scented(8), math.nan)
    with pytest.raises(OutOfRange):
        work_in([], Recipe(), 100)


def test_without_leftovers_the_recipe_is_mixed_as_ever() -> None:
    made = work_in([], scented(8), 500)
    assert added(made) == pytest.approx(mix_amounts(scented(8), 500))


parts = st.dictionaries(st.sampled_from("abc"), st.floats(0.1, 5), min_size=1, max_size=3)
recipes = st.builds(
    Recipe,
    wax=parts.map(lambda given: {f"wax {key}": part for key, part in given.items()}),
    fragrance=parts.map(lambda given: {f"oil {key}": part for key, part in given.items()}),
    load=st.builds(Load, st.floats(1, 12), st.sampled_from(["wax", "total"])),
    dye=st.dictionaries(st.sampled_from(["red", "blue"]), st.floats(0.01, 0.5), max_size=2),
    additives=st.dictionaries(st.sampled_from(["hardener"]), st.floats(0.5, 5), max_size=1),
)
piles = st.lists(st.builds(Leftover, recipes, st.floats(1, 400)), max_size=3)


@given(piles, recipes, st.floats(1000, 5000))
def test_mass_is_conserved_and_the_load_is_met(
    pile: list[Leftover], recipe: Recipe, total_g: float
) -> None:
    try:
        made = work_in(pile, recipe, total_g)
    except OutOfRange:
        assume(False)
    holds, new = held(made), added(made)
    assert math.fsum(holds.values()) == pytest.approx(total_g)
    assert math.fsum(new.values()) + sum(one.mass_g for one in pile) == pytest.approx(total_g)
    for material in holds:
        brought = math.fsum(mix_amounts(one.recipe, one.mass_g).get(material, 0) for one in pile)
        assert holds[material] == pytest.approx(new.get(material, 0) + brought, abs=1e-6)
    assert recipe.load is not None
    kept = actual_load(made.recipe).of_wax
    if recipe.load.basis == "wax":
        assert kept == pytest.approx(recipe.load.percent)
    else:
        assert sum(oil_shares(made.recipe).values()) == pytest.approx(recipe.load.percent)
    assert mix_amounts(made.recipe, total_g) == pytest.approx(holds, rel=1e-6, abs=1e-6)


@given(recipes, recipes, st.floats(10, 900))
def test_what_may_be_used_at_most_fits_and_more_does_not(
    old: Recipe, recipe: Recipe, mass_g: float
) -> None:
    try:
        work_in([Leftover(old, mass_g)], recipe, 1000)
    except OutOfRange as refused:
        assume(refused.key != "leftovers.no-place")
        most_g, least_g = float(str(refused.data["most_g"])), float(str(refused.data["least_g"]))
    else:
        return
    work_in([Leftover(old, most_g)], recipe, 1000)
    work_in([Leftover(old, mass_g)], recipe, least_g)
    with pytest.raises(OutOfRange):
        work_in([Leftover(old, most_g * 1.001 + 0.001)], recipe, 1000)
    with pytest.raises(OutOfRange):
        work_in([Leftover(old, mass_g)], recipe, least_g * 0.999)


@given(st.floats(0, 30), st.floats(0.1, 15), st.floats(1, 999))
def test_one_wax_and_one_oil_agree_with_the_plain_balance(
    old: float, new: float, mass_g: float
) -> None:
    most_g = 1000 * new / old if old else math.inf
    assume(abs(mass_g - most_g) > 1e-6 and mass_g * (100 - old) < 1000 * (100 - new))
    if mass_g > most_g:
        with pytest.raises(OutOfRange) as refused:
            work_in([Leftover(scented(old), mass_g)], scented(new), 1000)
        assert refused.value.data["most_g"] == pytest.approx(most_g)
        return
    wax_g, oil_g = blend_leftover(1000, new, mass_g, old)
    made = added(work_in([Leftover(scented(old), mass_g)], scented(new), 1000))
    assert made.get("soy", 0) == pytest.approx(wax_g, abs=1e-6)
    assert made.get("fig", 0) == pytest.approx(oil_g, abs=1e-6)


@given(st.floats(0.2, 0.8), st.floats(0.2, 0.8), st.floats(10, 800))
def test_most_of_a_two_oil_leftover_against_a_linear_programme(
    old_share: float, new_share: float, mass_g: float
) -> None:
    """Largest m with p β_i M ≥ q γ_i m and wax left, by ``scipy.optimize.linprog``."""
    old = scented(10, fig=old_share, sea=1 - old_share)
    new = scented(8, fig=new_share, sea=1 - new_share)
    rows = [[0.1 * old_share], [0.1 * (1 - old_share)], [0.9]]
    limits = [80 * new_share, 80 * (1 - new_share), 920]
    most_g = linprog([-1], A_ub=rows, b_ub=limits).x[0]
    assume(abs(mass_g - most_g) > 1e-3)
    if mass_g < most_g:
        work_in([Leftover(old, mass_g)], new, 1000)
        return
    with pytest.raises(OutOfRange) as refused:
        work_in([Leftover(old, mass_g)], new, 1000)
    assert refused.value.data["most_g"] == pytest.approx(most_g)


def test_layers_are_for_sale_only_when_every_limit_holds() -> None:
    """By hand: 100 g with 10 % fig, 100 g with 8 % sea: 5 and 4 % of the vessel."""
    jar = layered([Leftover(scented(10), 100), Leftover(scented(8, sea=1), 100)], FACTS)
    assert oil_shares(jar.recipe) == pytest.approx({"fig": 5, "sea": 4})
    assert jar.for_sale
    assert [one.key for one in jar.findings] == ["leftovers.layers-untested"]


@pytest.mark.parametrize(
    ("oil", "key"),
    [
        ("clove", "leftovers.oil-over"),
        ("moss", "leftovers.oil-unknown"),
        ("musk", "leftovers.oil-not-allowed"),
    ],
)
def test_the_oil_that_keeps_layers_from_being_sold_is_named(oil: str, key: str) -> None:
    jar = layered([Leftover(scented(10), 100), Leftover(scented(8, **{oil: 1}), 100)], FACTS)
    assert not jar.for_sale
    assert jar.findings[0].key == key
    assert jar.findings[0].data["name"] == oil.capitalize()
    assert len([one for one in jar.findings if "name" in one.data]) == 1, "told once"


def test_a_layer_over_its_limit_in_a_vessel_within_it_is_told() -> None:
    """By hand: 3 % clove in a third of the vessel is 1 % of it; the certificate allows 2 %."""
    jar = layered([Leftover(scented(5), 200), Leftover(scented(3, clove=1), 100)], FACTS)
    assert jar.for_sale
    told = next(one for one in jar.findings if one.key == "leftovers.layer-over")
    assert (told.rank, told.data["layer"]) == (Rank.WATCH, 2)
    assert told.data["share_percent"] == pytest.approx(3)


def test_no_layers_at_all() -> None:
    with pytest.raises(OutOfRange, match=r"leftovers\.no-layer"):
        layered([], FACTS)
