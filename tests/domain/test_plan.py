"""The pour plan: everything closes and nothing is overfilled."""

from __future__ import annotations

import math
import time
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from domain.plan_cases import (
    DYED,
    FIG_SOY,
    FINE,
    KITCHEN,
    PITCHER,
    SOY,
    closes,
    inputs,
    keys,
    tins,
    tumblers,
)
from wickbench.domain.catalog import Price
from wickbench.domain.densities import liquid_density, mix_density, oil_density
from wickbench.domain.equipment import Pot, Scale
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Rank
from wickbench.domain.plan import PlanInputs, PlanLine, PourPlan, plan_pour
from wickbench.domain.recipe_checks import Facts, OilFacts
from wickbench.domain.recipes import Load, Recipe, Role, mix_amounts

OUNCE_G = 28.349523125  # NIST SP 811, appendix B.8
POUND_G = 453.59237


def test_two_ounces_over() -> None:
    """Four vessels of 9 oz from 2¼ lb of wax at one ounce of oil per pound leave about two ounces.

    Common practice, no source.
    """
    recipe = Recipe(wax={"soy": 1}, fragrance={"fig": 1}, load=Load(100 / 16, "wax"))
    wax_g = 2.25 * POUND_G
    total_g = wax_g * 17 / 16
    assert mix_amounts(recipe, total_g)["soy"] == pytest.approx(wax_g)
    line = tumblers(4, recipe, fill_to="net", net_g=9 * OUNCE_G, fill_ml=None)
    plan = plan_pour(inputs(line, extra_g=total_g - 36 * OUNCE_G))
    closes(plan)
    (pot,) = plan.pots
    assert pot.weigh[0].weigh_g == pytest.approx(wax_g, abs=1)
    assert pot.weigh[1].weigh_g == pytest.approx(2.25 * OUNCE_G, abs=0.1)
    assert 2.0 <= plan.leftover_g / OUNCE_G <= 2.5


def test_mix_in_a_vessel_is_line_times_hot_density() -> None:
    """Ideal volume additivity 1/ρ = Σ w/ρ, worked out here once more."""
    plan = plan_pour(inputs(tumblers()))
    hot = 1 / ((1 / 1.08) / liquid_density(0.87, 57) + (0.08 / 1.08) / oil_density(0.97, 57))
    (line,) = plan.lines
    assert line.exact_g == pytest.approx(254 * hot)
    assert line.each_g == pytest.approx(line.exact_g, abs=0.05)
    assert line.each_ml == pytest.approx(254, abs=0.06)


def test_worked_vessel() -> None:
    """237.60 mL, 8 % of total, 0.870 and 0.955 g/mL when hot: 208.194 g, worked out by hand."""
    recipe = Recipe(wax={"soy": 1}, fragrance={"fig": 1}, load=Load(8, "total"), pour_c=70)
    oil = OilFacts(name="Fig", density_g_per_ml=0.955 * (1 + 0.0008 * 50))
    facts = Facts(waxes={"soy": SOY}, oils={"fig": oil})
    plan = plan_pour(inputs(tumblers(1, recipe, fill_ml=237.6), facts=facts))
    assert plan.lines[0].exact_g == pytest.approx(208.194, abs=0.001)
    assert mix_density([(0.870, 0.92), (0.955, 0.08)]) == pytest.approx(0.876239, abs=1e-6)


def test_eighteen_tumblers_and_twelve_tins() -> None:
    plan = plan_pour(inputs(tumblers(), tins(), extra_g=30))
    closes(plan)
    assert plan.candles == 30
    assert [pot.of for pot in plan.pots] == [2, 2]
    filled = [[(fill.line_key, fill.count) for fill in pot.fills] for pot in plan.pots]
    assert filled == [[("t", 14)], [("t", 4), ("n", 12)]]
    for pot in plan.pots:
        assert pot.leftover_g == pytest.approx(30, abs=1)
        assert pot.fill_ratio is not None
        assert pot.fill_ratio <= 1
        assert pot.load.of_wax == pytest.approx(8, abs=0.01)
        assert [line.scale for line in pot.weigh] == [KITCHEN, FINE, FINE]
        assert [line.role for line in pot.weigh] == [Role.WAX, Role.FRAGRANCE, Role.FRAGRANCE]


def test_extra_in_every_pot_and_in_percent() -> None:
    """20 vessels of 208.2 g, 3 % and 15 g beyond: 4303.92 g, worked out by hand."""
    line = tumblers(20, fill_to="net", net_g=208.2)
    plan = plan_pour(inputs(line, extra_g=15, extra_percent=3, pots=(Pot("melter", 9000),)))
    (pot,) = plan.pots
    assert sum(weighed.exact_g for weighed in pot.weigh) == pytest.approx(4303.92)
    assert pot.extra_g == pytest.approx(139.92)


def test_one_recipe_per_pot() -> None:
    other = replace(FIG_SOY, load=Load(6))
    plan = plan_pour(inputs(tumblers(2), tins(2, other, recipe_key=2), tins(1, key="x")))
    closes(plan)
    assert [(pot.recipe_key, pot.recipe_index, pot.number) for pot in plan.pots] == [
        (1, 0, 1),
        (2, 1, 1),
    ]
    assert [line.line_key for line in plan.lines] == ["t", "n", "x"]


def test_a_mix_without_scent_has_no_load_to_be_off() -> None:
    plain, scented = (
        plan_pour(inputs(tumblers(2, recipe))).pots[0]
        for recipe in (replace(FIG_SOY, fragrance={}, load=None), FIG_SOY)
    )
    assert (plain.load.of_wax, plain.reach) == (0, None)
    assert scented.reach is not None
    assert scented.reach.above_percent > scented.reach.standard_uncertainty_percent > 0


def test_the_smallest_pot_that_is_safe() -> None:
    small = Pot("jug", 1000, 200)
    plan = plan_pour(inputs(tumblers(2), pots=(PITCHER, small)))
    assert plan.pots[0].pot is small
    plan = plan_pour(inputs(tumblers(4), pots=(small, PITCHER)))
    assert plan.pots[0].pot is PITCHER


fills = st.lists(
    st.tuples(st.integers(1, 30), st.floats(20, 600), st.sampled_from(["line", "net"])),
    min_size=1,
    max_size=4,
)
benches = st.tuples(st.sampled_from([0.1, 0.5, 1.0, 2.0, 5.0]), st.floats(0, 200), st.floats(0, 10))


@settings(max_examples=40)
@given(fills, benches, st.floats(0.5, 15), st.sampled_from(["wax", "total"]))
def test_mass_is_conserved_from_plan_to_vessels(
    vessels: list[tuple[int, float, str]],
    bench: tuple[float, float, float],
    percent: float,
    basis: str,
) -> None:
    step_g, extra_g, extra_percent = bench
    recipe = replace(DYED, load=Load(percent, basis))
    lines = [
        tumblers(count, recipe, key=key, fill_ml=amount, net_g=amount, fill_to=fill_to)
        for key, (count, amount, fill_to) in enumerate(vessels)
    ]
    scales = (Scale("bench", 20_000, step_g), FINE)
    plan = plan_pour(inputs(*lines, scales=scales, extra_g=extra_g, extra_percent=extra_percent))
    closes(plan)
    for key, (count, amount, fill_to) in enumerate(vessels):
        made = [fill for pot in plan.pots for fill in pot.fills if fill.line_key == key]
        assert sum(fill.count for fill in made) == count
        if fill_to == "net":
            assert all(amount - 1e-6 <= fill.each_g < amount + 0.1 for fill in made)
    for pot in plan.pots:
        assert pot.fill_ratio is not None
        assert pot.fill_ratio <= 1 + 1e-9
        for line in pot.weigh:
            assert round(line.weigh_g * 1000) % round(line.step_g * 1000) == 0


@given(st.integers(1, 60), st.integers(0, 60))
def test_more_candles_never_need_less(count: int, more: int) -> None:
    one, other = (plan_pour(inputs(tumblers(n), extra_g=20)) for n in (count, count + more))
    assert len(one.pots) <= len(other.pots)
    assert one.total_g <= other.total_g + 1


@pytest.mark.parametrize("count", range(1, 40))
def test_rounding_to_a_coarse_scale_never_overfills(count: int) -> None:
    plan = plan_pour(inputs(tumblers(count), scales=(Scale("spring", 10_000, 50),)))
    assert all(pot.volume_ml <= PITCHER.safe_ml for pot in plan.pots)
    closes(plan)


def test_rounding_never_leaves_a_vessel_short() -> None:
    coarse = (Scale("spring", 10_000, 50),)
    plan = plan_pour(inputs(tumblers(3), scales=coarse))
    closes(plan)
    assert plan.leftover_g < 50 + 1e-9


def test_an_empty_plan_is_empty() -> None:
    assert plan_pour(PlanInputs()) == PourPlan()


def test_cost_of_one_candle() -> None:
    """Wax 6.00 for 1 kg, oil 50.00 for 1 kg, vessel 1.70, two wicks of 0.25, lid without price."""
    recipe = Recipe(wax={"soy": 1}, fragrance={"fig": 1}, load=Load(25, "total"))
    line = tumblers(2, recipe, fill_to="net", net_g=200.0, items={"jar": 1, "wick": 2, "lid": 1})
    prices = {
        "soy": Price(60_000, 1_000_000),
        "fig": Price(500_000, 1_000_000),
        "jar": Price(17_000 * 12, 12),
        "wick": Price(2_500, 1),
    }
    (mix,) = plan_pour(inputs(line, prices=prices)).lines
    assert mix.cost_e4 == round(0.150 * 60_000 + 0.050 * 500_000 + 17_000 + 2 * 2_500)
    assert mix.unpriced == ("lid",)


def test_needs_and_shortages() -> None:
    """What is weighed and what is put in; 41 g of oil short is 41 / (oil in a candle) fewer."""
    recipe = replace(FIG_SOY, fragrance={"fig": 1})
    lines = (tumblers(18, recipe, items={"jar": 1}), tins(12, recipe, items={"tin": 1}))
    plan = plan_pour(inputs(*lines, extra_g=30))
    oil_g = sum(line.weigh_g for pot in plan.pots for line in pot.weigh if line.material == "fig")
    assert plan.needs["fig"] == pytest.approx(oil_g)
    assert (plan.needs["jar"], plan.needs["tin"]) == (18, 12)
    stock = {"fig": oil_g - 41, "jar": 16, "tin": 12, "soy": None}
    short = plan_pour(inputs(*lines, extra_g=30, stock=stock))
    oil, jars = short.shortages
    assert (oil.material, oil.short) == ("fig", pytest.approx(41))
    each = plan.lines[0].each_g * 0.08 / 1.08
    assert oil.mends[0].fewer == math.ceil(41 / each)
    assert (jars.material, jars.short, jars.mends[0].fewer) == ("jar", 2, 2)
    assert keys(short, Rank.STOPS) == ["plan.short-mass-or-fewer", "plan.short-pieces-or-fewer"]
    fewer = replace(lines[0], count=18 - oil.mends[0].fewer)
    mended = plan_pour(inputs(fewer, lines[1], extra_g=30, stock=stock))
    assert "fig" not in [one.material for one in mended.shortages]


def test_extra_in_percent_falls_with_the_candles() -> None:
    """With a quarter extra, one candle less saves 1.25 times its oil."""
    recipe = replace(FIG_SOY, fragrance={"fig": 1}, load=Load(25, "total"))
    line = tumblers(10, recipe, fill_to="net", net_g=200)
    plan = plan_pour(inputs(line, extra_percent=25, stock={"fig": 625 - 125}))
    (oil,) = plan.shortages
    assert (oil.need, oil.short) == (625, 125)
    assert oil.mends[0].fewer == 2


@pytest.mark.parametrize(
    "fields", [{"count": -1}, {"count": 1.5}, {"fill_to": "brim"}, {"net_g": math.nan}]
)
def test_senseless_lines_are_refused(fields: dict[str, object]) -> None:
    line = {"key": 1, "recipe_key": 1, "recipe": FIG_SOY, "count": 1} | fields
    with pytest.raises(OutOfRange):
        PlanLine(**line)  # type: ignore[arg-type]  # senseless on purpose


@pytest.mark.parametrize("fields", [{"extra_g": -1.0}, {"extra_percent": math.inf}])
def test_senseless_extra_is_refused(fields: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        PlanInputs(**fields)  # type: ignore[arg-type]  # senseless on purpose


def test_two_hundred_vessels_while_typing() -> None:
    """Ten recipes, forty lines; the best of several goes, because the machine is shared."""
    recipes = [replace(DYED, pour_c=50.0 + place) for place in range(10)]
    lines = [
        tumblers(5, recipes[place // 4], key=place, recipe_key=place // 4, fill_ml=90.0 + 7 * place)
        for place in range(40)
    ]
    took = []
    for extra_g in (30, 31, 32, 33, 34):
        started = time.perf_counter()
        plan = plan_pour(inputs(*lines, extra_g=float(extra_g)))
        took.append(time.perf_counter() - started)
        assert plan.candles == 200
    assert min(took) < 0.05
