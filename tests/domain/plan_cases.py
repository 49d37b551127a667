"""A small bench for the tests of plans: two scales, a pitcher, a soy wax, two oils."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from wickbench.domain.equipment import Pot, Scale
from wickbench.domain.findings import Rank
from wickbench.domain.plan import PlanInputs, PlanLine, PourPlan
from wickbench.domain.recipe_checks import Facts, OilFacts, WaxFacts
from wickbench.domain.recipes import Load, Recipe

KITCHEN, FINE = Scale("kitchen", 5000, 1), Scale("fine", 200, 0.1)
PITCHER = Pot("pitcher", 5000, 900)
SOY = WaxFacts(name="Orchard soy", liquid_70_g_per_ml=0.87, max_load=Load(12))
FIG = OilFacts(name="Fig", density_g_per_ml=0.97, flash_c=80, ifra_percent=100)
FACTS = Facts(waxes={"soy": SOY}, oils={"fig": FIG, "cedar": FIG}, names={"plum": "Plum dye"})
FIG_SOY = Recipe(wax={"soy": 1}, fragrance={"fig": 7, "cedar": 3}, load=Load(8), pour_c=57)
DYED = replace(FIG_SOY, dye={"plum": 0.1})


def inputs(*lines: PlanLine, **fields: object) -> PlanInputs:
    defaults: dict[str, object] = {"pots": (PITCHER,), "scales": (KITCHEN, FINE), "facts": FACTS}
    return PlanInputs(lines=lines, **(defaults | fields))  # type: ignore[arg-type]


def tumblers(count: int = 18, recipe: Recipe = FIG_SOY, **fields: object) -> PlanLine:
    defaults: dict[str, object] = {"key": "t", "recipe_key": 1, "vessel_name": "tumbler"}
    given = {"fill_ml": 254.0} | defaults | fields
    return PlanLine(recipe=recipe, count=count, **given)  # type: ignore[arg-type]


def tins(count: int = 12, recipe: Recipe = FIG_SOY, **fields: object) -> PlanLine:
    return tumblers(
        count, recipe, **({"key": "n", "vessel_name": "tin", "fill_ml": 205.0} | fields)
    )


def keys(plan: PourPlan, least: Rank = Rank.WATCH) -> list[str]:
    return [said.key for said in plan.findings if said.rank >= least]


def closes(plan: PourPlan) -> None:
    """Whole milligrams: what is weighed = what is filled + what is left, pot by pot and in all."""
    for pot in plan.pots:
        weighed = sum(round(line.weigh_g * 1000) for line in pot.weigh)
        filled = sum(round(fill.each_g * 1000) * fill.count for fill in pot.fills)
        assert weighed == round(pot.total_g * 1000)
        assert weighed == filled + round(pot.leftover_g * 1000)
        assert pot.leftover_g >= 0
    assert round(plan.total_g * 1000) == sum(round(pot.total_g * 1000) for pot in plan.pots)
    assert plan.total_g == pytest.approx(plan.filled_g + plan.leftover_g, abs=1e-6)
    assert plan.filled_g == pytest.approx(math.fsum(line.all_g for line in plan.lines), abs=1e-6)
