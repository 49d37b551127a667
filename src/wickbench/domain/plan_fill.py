"""How much mix a vessel takes: by its fill line hot or set, or by weight, in one pour or two."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.mixes import (
    USUAL_OIL_G_PER_ML,
    USUAL_WAX_G_PER_ML,
    MixDensities,
    densities_of,
    fill_until_set,
    later_share,
    later_share_range,
)
from wickbench.domain.plan_values import LineMix, PlanLine
from wickbench.domain.recipes import Part, Recipe, Role, mix_parts
from wickbench.domain.rounding import steps

if TYPE_CHECKING:
    from wickbench.domain.recipe_checks import Facts

USUAL_POUR_C = 70.0

FILL_STEP_MG = 100
"""Mix for a vessel is planned in tenths of a gram: what is poured is weighed no finer."""

_SLACK_G = 0.05
_ABOVE_LINE = 1.001


@dataclass(frozen=True, slots=True)
class RecipeMix:
    """A recipe that can be mixed.

    Attributes:
        recipe: the recipe version.
        parts: every material with its share of the mix.
        densities: of the mix, hot at pouring temperature and set.
        finish: ``"single"``, ``"top_up"`` or ``"second"``: how its chief wax is finished.
    """

    recipe: Recipe
    parts: tuple[Part, ...]
    densities: MixDensities
    finish: str = "single"

    @property
    def density_g_per_ml(self) -> float:
        """Of the liquid mix at pouring temperature."""
        return self.densities.hot.g_per_ml


@dataclass(frozen=True, slots=True)
class _Fill:
    """Grams of mix for one vessel, before rounding."""

    exact_g: float
    low_g: float
    high_g: float
    later: float = 0.0
    later_range: tuple[float, float] = (0.0, 0.0)


def recipe_mix(recipe: Recipe, facts: Facts) -> tuple[RecipeMix | None, list[Finding]]:
    """The mix and its densities; None when the recipe has no wax.

    Densities that nobody knows are replaced by usual ones, and a finding says so.
    """
    pour_c = USUAL_POUR_C if recipe.pour_c is None else recipe.pour_c
    try:
        parts = mix_parts(recipe)
        densities = densities_of(parts, facts, pour_c)
    except OutOfRange as refused:
        if refused.key == "recipe.no-wax":
            return None, []
        return None, [Finding(Rank.STOPS, refused.key, refused.data)]
    findings = [said for part in parts if (said := _about_density(part, facts))]
    return RecipeMix(recipe, parts, densities, _finish(parts, facts)), findings


def _finish(parts: tuple[Part, ...], facts: Facts) -> str:
    """How the wax with the largest share is finished."""
    chief = max(
        (part for part in parts if part.role is Role.WAX), key=lambda part: part.share, default=None
    )
    return facts.wax(chief.material).finish if chief else "single"


def _about_density(part: Part, facts: Facts) -> Finding | None:
    about = ("material", part.material)
    if part.role is Role.WAX:
        wax = facts.wax(part.material)
        if wax.liquid_70_g_per_ml is None:
            data = {"name": wax.name, "density": USUAL_WAX_G_PER_ML}
            return Finding(Rank.WATCH, "plan.wax-no-density", data, about)
        if wax.density_is_estimate:
            return Finding(Rank.NOTE, "plan.wax-estimate", {"name": wax.name}, about)
    elif part.role is Role.FRAGRANCE:
        oil = facts.oil(part.material)
        if oil.density_g_per_ml is None:
            data = {"name": oil.name, "density": USUAL_OIL_G_PER_ML}
            return Finding(Rank.NOTE, "plan.oil-no-density", data, about)
    return None


def mix_of_line(line: PlanLine, mix: RecipeMix) -> tuple[LineMix | None, list[Finding]]:
    """Mix for each vessel of a line; None, with a finding, when its fill is not known.

    To the line the nearest tenth of a gram, to a net weight never below it. Where the wax is
    topped up or poured twice, the later part is in it: the set wax then stands at the line.
    """
    try:
        fill = _fill(line, mix)
    except OutOfRange as refused:
        return None, [Finding(Rank.STOPS, refused.key, refused.data)]
    if fill is None:
        key = "plan.no-net" if line.fill_to == "net" else "plan.no-fill-line"
        return None, [Finding(Rank.STOPS, key, {"vessel": line.vessel_name})]
    line_mix = _line_mix(line, mix, fill)
    return line_mix, [*_fill_findings(line, line_mix, mix), *_until_set(line, line_mix, mix)]


def _line_mix(line: PlanLine, mix: RecipeMix, fill: _Fill) -> LineMix:
    if line.fill_to == "net":
        each_mg = math.ceil(fill.exact_g * 1000 / FILL_STEP_MG - 1e-6) * FILL_STEP_MG
    else:
        each_mg = max(1, steps(fill.exact_g * 1000, FILL_STEP_MG)) * FILL_STEP_MG
    each_g = each_mg / 1000
    declared = line.declared_net_g
    held_mg = min(steps(each_mg * fill.later, FILL_STEP_MG) * FILL_STEP_MG, each_mg)
    return LineMix(
        line_key=line.key,
        each_g=each_g,
        exact_g=fill.exact_g,
        low_g=fill.low_g,
        high_g=fill.high_g,
        held_g=held_mg / 1000,
        held_low_g=fill.low_g * fill.later_range[0],
        held_high_g=fill.high_g * fill.later_range[1],
        each_ml=each_g / mix.density_g_per_ml,
        all_g=each_mg * line.count / 1000,
        over_declared_g=None if declared is None else each_g - declared,
        cost_e4=0,
        unpriced=(),
    )


def _fill(line: PlanLine, mix: RecipeMix) -> _Fill | None:
    """What one vessel takes; None when its line or weight is not known.

    Raises:
        OutOfRange: set wax lighter than liquid, where the fill depends on it.
    """
    known = line.net_g if line.fill_to == "net" else line.fill_ml
    if not known:
        return None
    densities, twice = mix.densities, mix.finish != "single"
    later = later_share(densities) if twice else 0.0
    later_range = later_share_range(densities) if twice else (0.0, 0.0)
    if line.fill_to == "net":
        return _Fill(known, known, known, later, later_range)
    if line.fill_to == "set" or twice:
        full = fill_until_set(known, densities)
        return _Fill(full.mass_g, full.low_g, full.high_g, later, later_range)
    hot = densities.hot
    return _Fill(known * hot.g_per_ml, known * hot.low, known * hot.high)


def _fill_findings(line: PlanLine, line_mix: LineMix, mix: RecipeMix) -> list[Finding]:
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
    first_ml = (line_mix.each_g - line_mix.held_g) / mix.density_g_per_ml
    if line.fill_to == "net" and line.fill_ml is not None and first_ml > line.fill_ml * _ABOVE_LINE:
        data = {
            "vessel": line.vessel_name,
            "each_ml": first_ml,
            "line_ml": line.fill_ml,
        }
        found.append(Finding(Rank.WATCH, "plan.net-above-line", data))
    return found


def _until_set(line: PlanLine, line_mix: LineMix, mix: RecipeMix) -> list[Finding]:
    """What there is to say where the wax is to stand at the line once set."""
    twice = mix.finish != "single"
    if line.fill_to != "set" and not twice:
        return []
    found = [] if twice or line.fill_to != "set" else _at_the_brim(line, mix)
    if not mix.densities.estimate:
        return found
    data: dict[str, object] = {"vessel": line.vessel_name}
    if twice:
        data |= {"low_g": line_mix.held_low_g, "high_g": line_mix.held_high_g}
        return [*found, Finding(Rank.NOTE, "plan.held-range", data)]
    data |= {"low_g": line_mix.low_g, "high_g": line_mix.high_g, "each_g": line_mix.each_g}
    return [*found, Finding(Rank.NOTE, "plan.set-range", data)]


def _at_the_brim(line: PlanLine, mix: RecipeMix) -> list[Finding]:
    """Whether the hot wax stays far enough below the brim."""
    if line.brim_ml is None or line.most_ml is None or line.fill_ml is None:
        return [Finding(Rank.WATCH, "plan.set-brim-unknown", {"vessel": line.vessel_name})]
    full = fill_until_set(line.fill_ml, mix.densities)
    data: dict[str, object] = {
        "vessel": line.vessel_name,
        "hot_ml": full.hot_ml,
        "share_percent": 100 * full.hot_ml / line.brim_ml,
        "brim_ml": line.brim_ml,
        "most_ml": line.most_ml,
    }
    if full.hot_ml > line.most_ml:
        return [Finding(Rank.STOPS, "plan.set-passes-brim", data)]
    if mix.densities.estimate and full.hot_high_ml > line.most_ml:
        data |= {"hot_ml": full.hot_high_ml, "share_percent": 100 * full.hot_high_ml / line.brim_ml}
        return [Finding(Rank.WATCH, "plan.set-may-pass-brim", data)]
    return []
