"""How much mix a vessel takes: by its fill line and the density of the hot mix, or by weight."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.densities import liquid_density, mix_density, oil_density
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.plan_values import LineMix, PlanLine
from wickbench.domain.recipes import Part, Recipe, Role, mix_parts
from wickbench.domain.rounding import steps

if TYPE_CHECKING:
    from wickbench.domain.recipe_checks import Facts

USUAL_POUR_C = 70.0
USUAL_WAX_G_PER_ML = 0.86
USUAL_OIL_G_PER_ML = 0.97
"""Between the classes of wax, and for finished oils: defaults, not measurements."""

FILL_STEP_MG = 100
"""Mix for a vessel is planned in tenths of a gram: what is poured is weighed no finer."""

_SLACK_G = 0.05


@dataclass(frozen=True, slots=True)
class RecipeMix:
    """A recipe that can be mixed.

    Attributes:
        recipe: the recipe version.
        parts: every material with its share of the mix.
        density_g_per_ml: of the liquid mix at pouring temperature.
    """

    recipe: Recipe
    parts: tuple[Part, ...]
    density_g_per_ml: float


def recipe_mix(recipe: Recipe, facts: Facts) -> tuple[RecipeMix | None, list[Finding]]:
    """The mix and its density at pouring temperature; None when the recipe has no wax.

    Densities that nobody knows are replaced by usual ones, and a finding says so.
    """
    try:
        parts = mix_parts(recipe)
        findings: list[Finding] = []
        density = _density(parts, recipe, facts, findings)
    except OutOfRange as refused:
        if refused.key == "recipe.no-wax":
            return None, []
        return None, [Finding(Rank.STOPS, refused.key, refused.data)]
    return RecipeMix(recipe, parts, density), findings


def _density(
    parts: tuple[Part, ...], recipe: Recipe, facts: Facts, findings: list[Finding]
) -> float:
    """Dye and additives count with the wax: at their usual shares that changes nothing."""
    pour_c = USUAL_POUR_C if recipe.pour_c is None else recipe.pour_c
    pairs: list[tuple[float, float]] = []
    for part in parts:
        if part.role is Role.WAX:
            at_70 = _wax_density(part, facts, findings)
            pairs.append((liquid_density(at_70, pour_c), part.share))
        elif part.role is Role.FRAGRANCE:
            at_20 = _oil_density(part, facts, findings)
            pairs.append((oil_density(at_20, pour_c), part.share))
    return mix_density(pairs)


def _wax_density(part: Part, facts: Facts, findings: list[Finding]) -> float:
    wax = facts.wax(part.material)
    about = ("material", part.material)
    if wax.liquid_70_g_per_ml is None:
        data = {"name": wax.name, "density": USUAL_WAX_G_PER_ML}
        findings.append(Finding(Rank.WATCH, "plan.wax-no-density", data, about))
        return USUAL_WAX_G_PER_ML
    if wax.density_is_estimate:
        findings.append(Finding(Rank.NOTE, "plan.wax-estimate", {"name": wax.name}, about))
    return wax.liquid_70_g_per_ml


def _oil_density(part: Part, facts: Facts, findings: list[Finding]) -> float:
    oil = facts.oil(part.material)
    if oil.density_g_per_ml is not None:
        return oil.density_g_per_ml
    data = {"name": oil.name, "density": USUAL_OIL_G_PER_ML}
    about = ("material", part.material)
    findings.append(Finding(Rank.NOTE, "plan.oil-no-density", data, about))
    return USUAL_OIL_G_PER_ML


def mix_of_line(line: PlanLine, mix: RecipeMix) -> tuple[LineMix | None, list[Finding]]:
    """Mix for each vessel of a line; None, with a finding, when its fill is not known.

    To the line the nearest tenth of a gram, to a net weight never below it.
    """
    exact_g = _exact_g(line, mix)
    if exact_g is None or exact_g <= 0:
        key = "plan.no-fill-line" if line.fill_to == "line" else "plan.no-net"
        return None, [Finding(Rank.STOPS, key, {"vessel": line.vessel_name})]
    if line.fill_to == "net":
        each_mg = math.ceil(exact_g * 1000 / FILL_STEP_MG - 1e-6) * FILL_STEP_MG
    else:
        each_mg = max(1, steps(exact_g * 1000, FILL_STEP_MG)) * FILL_STEP_MG
    each_g = each_mg / 1000
    declared = line.declared_net_g
    line_mix = LineMix(
        line_key=line.key,
        each_g=each_g,
        exact_g=exact_g,
        each_ml=each_g / mix.density_g_per_ml,
        all_g=each_mg * line.count / 1000,
        over_declared_g=None if declared is None else each_g - declared,
        cost_e4=0,
        unpriced=(),
    )
    return line_mix, _fill_findings(line, line_mix)


def _exact_g(line: PlanLine, mix: RecipeMix) -> float | None:
    if line.fill_to == "net":
        return line.net_g
    return None if line.fill_ml is None else line.fill_ml * mix.density_g_per_ml


def _fill_findings(line: PlanLine, line_mix: LineMix) -> list[Finding]:
    found = []
    over_g = line_mix.over_declared_g
    if over_g is not None and over_g < -_SLACK_G:
        data = {
            "vessel": line.vessel_name,
            "each_g": line_mix.each_g,
            "declared_g": line.declared_net_g,
            "short_g": -over_g,
        }
        found.append(Finding(Rank.WATCH, "plan.below-declared", data))
    if (
        line.fill_to == "net"
        and line.fill_ml is not None
        and line_mix.each_ml > line.fill_ml * 1.001
    ):
        data = {
            "vessel": line.vessel_name,
            "each_ml": line_mix.each_ml,
            "line_ml": line.fill_ml,
        }
        found.append(Finding(Rank.WATCH, "plan.net-above-line", data))
    return found
