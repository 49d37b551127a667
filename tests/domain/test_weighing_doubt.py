"""What a scale can tell of an amount: steps, loads and what would help."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from domain.plan_cases import DYED, FIG_SOY, inputs, tumblers
from wickbench.domain.equipment import Pot, Scale, is_too_coarse
from wickbench.domain.errors import OutOfRange
from wickbench.domain.plan import plan_pour
from wickbench.domain.recipes import Load, Recipe
from wickbench.domain.weighing_doubt import (
    Reading,
    coarse_findings,
    least_weighable_g,
    load_doubt,
    reading_uncertainty_g,
    step_needed_g,
)

KITCHEN, TENTH = Scale("Kitchen", 5000, 1), Scale("Tenth", 500, 0.1)


@pytest.mark.parametrize("step_g", [0.01, 0.1, 1.0, 5.0, 2.8349523125])
def test_a_reading_is_uniform_within_half_a_step(step_g: float) -> None:
    """JCGM 100:2008, 4.3.7: half-width a gives a/√3; twice with tare: 0.2887 d and 0.4082 d."""
    once = step_g / 2 / math.sqrt(3)
    assert reading_uncertainty_g(step_g, tared=False) == pytest.approx(once)
    assert reading_uncertainty_g(step_g) == pytest.approx(math.hypot(once, once))
    assert Reading(100.0, step_g, goes=3).standard_uncertainty_g == pytest.approx(
        math.sqrt(6) * once
    )


@pytest.mark.parametrize("step_g", [0.0, -1.0, math.nan, math.inf])
def test_a_step_that_cannot_be_is_refused(step_g: float) -> None:
    with pytest.raises(OutOfRange):
        reading_uncertainty_g(step_g)


@given(
    waxes=st.lists(st.tuples(st.floats(50, 3000), st.floats(0.01, 5)), min_size=1, max_size=3),
    oils=st.lists(st.tuples(st.floats(5, 300), st.floats(0.01, 2)), min_size=1, max_size=3),
)
def test_the_doubt_of_a_load_is_that_of_another_library(
    waxes: list[tuple[float, float]], oils: list[tuple[float, float]]
) -> None:
    """The uncertainties package propagates to first order, as JCGM 100:2008, 5.1.2."""
    found = load_doubt([Reading(*one) for one in waxes], [Reading(*one) for one in oils])
    wax = sum(ufloat(mass, step / math.sqrt(6)) for mass, step in waxes)
    oil = sum(ufloat(mass, step / math.sqrt(6)) for mass, step in oils)
    assert found is not None
    expected = (100 * oil / wax).std_dev
    assert found.standard_uncertainty_percent == pytest.approx(expected, rel=1e-9)


def test_the_worst_case_is_never_passed_by_drawing_lots() -> None:
    """JCGM 101:2008: two waxes and two oils, each with a tare of its own."""
    lots = random.Random(11)  # noqa: S311 - lots, not secrets

    def weighed(true_g: float, step_g: float) -> float:
        half = step_g / 2
        return true_g + lots.uniform(-half, half) - lots.uniform(-half, half)

    waxes, oils = [Reading(300, 1), Reading(200, 1)], [Reading(30, 0.5), Reading(10, 0.1)]
    found = load_doubt(waxes, oils)
    assert found is not None
    loads = [
        100
        * sum(weighed(one.mass_g, one.step_g) for one in oils)
        / sum(weighed(one.mass_g, one.step_g) for one in waxes)
        for _ in range(20_000)
    ]
    assert 8 - found.below_percent < min(loads)
    assert max(loads) < 8 + found.above_percent
    mean = math.fsum(loads) / len(loads)
    spread = math.sqrt(math.fsum((load - mean) ** 2 for load in loads) / (len(loads) - 1))
    assert found.standard_uncertainty_percent == pytest.approx(spread, rel=0.03)


def test_no_doubt_is_told_where_nothing_can_be_said() -> None:
    assert load_doubt([Reading(500, 1)], []) is None
    assert load_doubt([Reading(0.5, 1)], [Reading(40, 1)]) is None


@given(st.floats(0.01, 5))
def test_the_least_amount_is_the_first_whole_step_that_is_not_too_coarse(step_g: float) -> None:
    """One step is 3 % at most: common practice, no source; 100/3 steps are 33 and a third."""
    scale = Scale("s", 5000, step_g)
    assert not is_too_coarse(scale, least_weighable_g(step_g))
    assert is_too_coarse(scale, least_weighable_g(step_g) - step_g)


@given(st.floats(0.05, 3000))
def test_the_step_that_is_needed_is_fine_enough(mass_g: float) -> None:
    step_g = step_needed_g(mass_g)
    assert step_g is not None
    assert step_g / mass_g <= 0.03


def test_nothing_in_the_shops_weighs_a_speck() -> None:
    assert step_needed_g(0.01) is None


def small(recipe: Recipe, *scales: Scale) -> dict[str, object]:
    """The finding about the first thing too little, for one tumbler."""
    plan = plan_pour(inputs(tumblers(1, recipe), scales=scales or (KITCHEN,)))
    found = [one for one in plan.findings if one.key.endswith(("too-little-to-weigh", "-the-step"))]
    return {"key": found[0].key, **found[0].data}


def test_a_small_pour_says_between_which_loads_it_may_lie() -> None:
    """By arithmetic: (oil − 1)/(wax + 1) and (oil + 1)/(wax − 1), a whole step each."""
    recipe = Recipe(wax={"soy": 1}, fragrance={"fig": 1}, load=Load(8, "wax"))
    plan = plan_pour(inputs(tumblers(1, recipe), scales=(KITCHEN,)))
    wax, oil = (line.weigh_g for line in plan.pots[0].weigh)
    said = small(recipe)
    assert said["key"] == "plan.oil-too-little-to-weigh"
    assert said["low_percent"] == pytest.approx(100 * (oil - 1) / (wax + 1), abs=0.051)
    assert said["high_percent"] == pytest.approx(100 * (oil + 1) / (wax - 1), abs=0.051)
    assert (said["least_g"], said["finer_g"]) == (34, 0.1)


def test_a_blend_is_mixed_in_a_bottle_and_a_dye_melted_into_wax() -> None:
    blend = Recipe(wax={"soy": 1}, fragrance={"fig": 1, "cedar": 1}, load=Load(8, "wax"))
    assert small(blend)["key"] == "plan.oil-of-blend-too-little-to-weigh"
    assert small(DYED, TENTH)["key"] == "plan.dye-too-little-to-weigh"


def test_a_speck_is_less_than_the_step_of_a_kitchen_scale() -> None:
    """0.1 % of some 200 g of wax is 0.2 g, and the scale reads to 1 g."""
    dyed = Recipe(wax={"soy": 1}, dye={"plum": 0.1})
    said = small(dyed)
    assert said["key"] == "plan.less-than-the-step"
    assert said["finer_g"] == 0.001  # 0.2 g by 34 is 0.006 g, and the next in the shops is finer


def test_a_fine_scale_ends_it() -> None:
    plan = plan_pour(inputs(tumblers(1, FIG_SOY), scales=(KITCHEN, TENTH)))
    assert coarse_findings(plan.pots[0].weigh) == []


def test_a_heavy_pot_is_left_off_the_scale() -> None:
    """The mix goes on it in a bowl, and the step for the wax is that scale's."""
    pot = Pot("Iron melter", 6000, empty_g=5200)
    plan = plan_pour(inputs(tumblers(9), pots=(pot,), scales=(KITCHEN, TENTH)))
    assert "plan.pot-over-scale" in [one.key for one in plan.findings]
    wax = plan.pots[0].weigh[0]
    assert (wax.in_pot, wax.scale) == (False, KITCHEN)
