"""A mix given by its masses as a recipe, and what keeps such a mix from being sold."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.recipe_checks import Checked, Facts, oil_checks
from wickbench.domain.recipes import Load, Material, Recipe, Role

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

_WHOLE_PERCENT = 100.0
_KEYS = {
    Checked.OVER: "leftovers.oil-over",
    Checked.NOT_ALLOWED: "leftovers.oil-not-allowed",
    Checked.UNKNOWN: "leftovers.oil-unknown",
}


def as_recipe(masses_g: Mapping[tuple[Role, Material], float], like: Recipe) -> Recipe:
    """The recipe by which a mix of these masses would be made.

    Args:
        masses_g: grams by role and material.
        like: gives temperatures, times and name.

    Raises:
        OutOfRange: ``recipe.no-wax`` without wax.
    """
    of_role: dict[Role, dict[Material, float]] = {role: {} for role in Role}
    for (role, material), mass_g in masses_g.items():
        if mass_g > 0:
            of_role[role][material] = mass_g
    wax_g = math.fsum(of_role[Role.WAX].values())
    if wax_g <= 0:
        raise OutOfRange("recipe.no-wax")
    oil_g = math.fsum(of_role[Role.FRAGRANCE].values())
    total_g = math.fsum(mass for masses in of_role.values() for mass in masses.values())
    return replace(
        like,
        wax=of_role[Role.WAX],
        fragrance=of_role[Role.FRAGRANCE],
        load=Load(_WHOLE_PERCENT * oil_g / total_g, "total") if oil_g else None,
        dye=_of_wax(of_role[Role.DYE], wax_g),
        additives=_of_wax(of_role[Role.ADDITIVE], wax_g),
    )


def _of_wax(masses_g: Mapping[Material, float], wax_g: float) -> dict[Material, float]:
    return {material: _WHOLE_PERCENT * mass / wax_g for material, mass in masses_g.items()}


def sale_findings(recipe: Recipe, facts: Facts) -> Iterator[Finding]:
    """Every oil whose limit does not hold, or is not known, each as something that stops."""
    for check in oil_checks(recipe, facts):
        key = _KEYS.get(check.state)
        if key is None:
            continue
        data: dict[str, object] = {
            "name": facts.oil(check.material).name,
            "share_percent": check.share_percent,
        }
        if check.limit_percent is not None:
            data["limit_percent"] = check.limit_percent
        yield Finding(Rank.STOPS, key, data, ("oil", check.material))
