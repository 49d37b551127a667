"""What is odd about a plan is said, and the plan stands all the same."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from domain.plan_cases import (
    DYED,
    FACTS,
    FIG,
    FIG_SOY,
    KITCHEN,
    SOY,
    closes,
    inputs,
    keys,
    tins,
    tumblers,
)
from wickbench.domain.equipment import HeatSource, Pot, Scale
from wickbench.domain.findings import Rank
from wickbench.domain.plan import plan_pour
from wickbench.domain.recipe_checks import OilFacts
from wickbench.domain.recipes import Load, Recipe


def test_a_vessel_larger_than_the_pot_stops() -> None:
    plan = plan_pour(inputs(tumblers(2, fill_ml=4200)))
    assert keys(plan, Rank.STOPS) == ["plan.vessel-over-pot"]
    closes(plan)
    assert plan.candles == 2


def test_more_than_all_pots_hold_is_poured_in_turns() -> None:
    plan = plan_pour(inputs(tumblers(60)))
    closes(plan)
    assert len(plan.pots) == 4
    assert keys(plan, Rank.STOPS) == []
    (again,) = (said for said in plan.findings if said.key == "plan.pot-again")
    assert again.data == {"name": "pitcher", "times": 4}


def test_without_pots_or_scales_amounts_are_still_shown() -> None:
    plan = plan_pour(inputs(tumblers(60), pots=(), scales=()))
    closes(plan)
    assert keys(plan, Rank.STOPS) == ["plan.no-pot", "plan.no-scale"]
    (pot,) = plan.pots
    assert (pot.pot, pot.fill_ratio, pot.weigh[0].scale) == (None, None, None)
    assert pot.total_g > 10_000


def test_extra_larger_than_the_pot_stops() -> None:
    plan = plan_pour(inputs(tumblers(2), extra_g=5000))
    assert "plan.extra-over-pot" in keys(plan, Rank.STOPS)
    closes(plan)


def test_a_pot_heavier_than_the_scale() -> None:
    heavy = Pot("cauldron", 5000, 5200)
    plan = plan_pour(inputs(tumblers(4), pots=(heavy,)))
    assert keys(plan) == ["plan.pot-over-scale"]
    assert not plan.pots[0].weigh[0].in_pot


def test_four_kilograms_and_the_pot_on_a_five_kilogram_scale() -> None:
    big = Pot("melter", 6000, 1200)
    plan = plan_pour(inputs(tumblers(18), pots=(big,)))
    assert plan.pots[0].total_g + big.empty_g > KITCHEN.maximum_g
    assert keys(plan) == ["plan.pot-and-mix-over-scale"]
    assert plan.pots[0].weigh[0].portions == 1
    light = plan_pour(inputs(tumblers(9), pots=(big,)))
    assert keys(light) == []
    assert light.pots[0].weigh[0].in_pot


def test_wax_in_portions() -> None:
    plan = plan_pour(inputs(tumblers(9), scales=(Scale("letter", 500, 1),)))
    wax = plan.pots[0].weigh[0]
    assert wax.portions == math.ceil(plan.pots[0].total_g / 490)


def test_an_oil_heavier_than_the_fine_scale_goes_on_the_next() -> None:
    plan = plan_pour(inputs(tumblers(14, replace(FIG_SOY, fragrance={"fig": 1}))))
    oil = plan.pots[0].weigh[1]
    assert oil.exact_g > 200
    assert oil.scale is KITCHEN
    assert oil.weigh_g == round(oil.exact_g)


def test_a_shade_of_dye_is_a_note_and_names_its_pot() -> None:
    """2.9 g on a scale that reads to 0.1 g: 3.4 %, more than 3 and less than 10 %."""
    plan = plan_pour(inputs(tumblers(1), tumblers(28, DYED, key="d", recipe_key=2)))
    said = [one for one in plan.findings if one.key == "plan.dye-too-little-to-weigh"]
    assert [one.about[:2] for one in said if one.rank is Rank.NOTE] == [("pot", 1), ("pot", 2)]


def test_a_small_scale_without_a_pot() -> None:
    plan = plan_pour(inputs(tumblers(9), pots=(), scales=(Scale("letter", 500, 1),)))
    assert keys(plan) == ["plan.no-pot"]
    assert plan.pots[0].weigh[0].portions > 1


def test_dye_on_a_kitchen_scale() -> None:
    """3 g on a scale that reads to 1 g is off by up to a third."""
    plan = plan_pour(inputs(tumblers(14, DYED), scales=(KITCHEN,)))
    assert "plan.dye-too-little-to-weigh" in keys(plan)
    fine = plan_pour(inputs(tumblers(14, DYED), scales=(KITCHEN, Scale("pocket", 100, 0.01))))
    assert "plan.dye-too-little-to-weigh" not in keys(fine, Rank.NOTE)


def test_an_oil_without_density_is_estimated_and_said() -> None:
    facts = replace(FACTS, oils={"fig": OilFacts(name="Fig"), "cedar": FIG})
    plan = plan_pour(inputs(tumblers(), facts=facts))
    (said,) = (one for one in plan.findings if one.key == "plan.oil-no-density")
    assert said.data["name"] == "Fig"
    known = plan_pour(inputs(tumblers()))
    assert plan.lines[0].exact_g == known.lines[0].exact_g


def test_estimated_wax_is_a_note_once() -> None:
    facts = replace(FACTS, waxes={"soy": replace(SOY, density_is_estimate=True)})
    plan = plan_pour(inputs(tumblers(), tins(2, recipe_key=2), facts=facts))
    assert keys(plan, Rank.NOTE).count("plan.wax-estimate") == 1
    assert keys(plan) == []
    unknown = replace(FACTS, waxes={"soy": replace(SOY, liquid_70_g_per_ml=None)})
    assert keys(plan_pour(inputs(tumblers(), facts=unknown))) == ["plan.wax-no-density"]


def test_a_recipes_findings_are_the_plans() -> None:
    facts = replace(FACTS, heat=HeatSource(open_flame=True))
    hot = replace(FIG_SOY, load=Load(13), add_c=82.0)
    plan = plan_pour(inputs(tumblers(2, hot), facts=facts))
    assert keys(plan) == [
        "recipe.over-wax-limit-of-wax",
        "recipe.flash-over-flame",
        "recipe.flash-over-flame",
    ]
    assert plan.findings[0].about == ("recipe", 1, "wax", "soy")


def test_lines_that_cannot_be_planned_are_said_and_left_out() -> None:
    plan = plan_pour(
        inputs(
            tumblers(3, fill_ml=None),
            tins(3, fill_to="net", net_g=None),
            tins(2, key="ok"),
            tins(0, key="none"),
            tins(4, Recipe(), key="empty", recipe_key=9),
        )
    )
    closes(plan)
    said = {one.key: one.about for one in plan.findings if one.rank is Rank.STOPS}
    assert said == {
        "plan.no-fill-line": ("line", "t"),
        "plan.no-net": ("line", "n"),
        "recipe.no-wax": ("recipe", 9),
    }
    assert [line.line_key for line in plan.lines] == ["ok"]
    assert plan.candles == 2


def test_net_weight_against_the_declared_one() -> None:
    plan = plan_pour(inputs(tumblers(1, declared_net_g=220), tins(1, declared_net_g=200)))
    over, short = plan.lines
    assert over.over_declared_g == pytest.approx(over.each_g - 220)
    assert short.over_declared_g is not None
    assert short.over_declared_g < 0
    assert keys(plan) == ["plan.below-declared"]


def test_a_net_weight_above_the_line() -> None:
    line = tumblers(1, fill_to="net", net_g=240)
    assert keys(plan_pour(inputs(line))) == ["plan.net-above-line"]
