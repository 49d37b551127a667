"""From a recipe version on the shelf to the mix: amounts, densities, facts for the checks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.domain.catalog import Fragrance, Wax
from wickbench.domain.densities import liquid_density
from wickbench.domain.equipment import HeatSource
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.mixes import (
    SET_AT_C,
    USUAL_OIL_G_PER_ML,
    Density,
    MixDensities,
    densities_of,
)
from wickbench.domain.recipe_checks import Facts, OilFacts, WaxFacts
from wickbench.domain.recipes import Recipe, Role, mix_parts
from wickbench.domain.wax_classes import WAX_CLASSES, WaxDefaults

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.shelf import Shelf
    from wickbench.domain.catalog import RecipeVersion

__all__ = [
    "SET_AT_C",
    "USUAL_OIL_G_PER_ML",
    "Density",
    "MixDensities",
    "cure_days",
    "densities_or_none",
    "facts_of",
    "finish_of",
    "finish_of_version",
    "main_wax",
    "mix_densities",
    "recipe_of",
    "temperatures",
    "wax_defaults",
    "wax_liquid",
    "wax_set",
]


def wax_defaults(wax: Wax) -> WaxDefaults:
    """Estimates of the wax's class."""
    return WAX_CLASSES.get(wax.wax_class or "other", WAX_CLASSES["other"])


def finish_of(wax: Wax) -> str:
    """How the wax is finished: as its maker says, else as is usual for its class."""
    return wax.finish or wax_defaults(wax).finish


def finish_of_version(version: RecipeVersion, shelf: Shelf) -> str:
    """How a recipe's main wax is finished; in one pour while it has none."""
    wax = main_wax(version, shelf)
    return "single" if wax is None else finish_of(wax)


def recipe_of(version: RecipeVersion, shelf: Shelf) -> Recipe:
    """The version as the domain's recipe; materials are keyed by item id, blanks left out.

    Raises:
        OutOfRange: for a part that cannot be.
    """
    by_role: dict[str, dict[int, float]] = {role.value: {} for role in Role}
    for part in version.parts:
        amount = part.parts if part.role in {"wax", "fragrance"} else part.of_wax_percent
        if part.item_id is not None and amount is not None:
            known = by_role[part.role]
            known[part.item_id] = known.get(part.item_id, 0.0) + amount
    heat = temperatures(version, shelf)
    return Recipe(
        wax=by_role["wax"],
        fragrance=by_role["fragrance"],
        dye=by_role["dye"],
        additives=by_role["additive"],
        load=version.load,
        name=version.name,
        version=version.number,
        heat_to_c=heat.get("heat_to_c"),
        add_c=heat.get("add_oil_c"),
        pour_c=heat.get("pour_c"),
        stir_min=version.stir_min,
        cure_days=version.cure_days,
    )


def recipe_once(version: RecipeVersion, shelf: Shelf) -> Recipe:
    """As ``recipe_of`` for a version of the shelf, made once for a snapshot of it.

    Raises:
        OutOfRange: for a part that cannot be.
    """
    known = shelf.mixed.get(version.id)
    if not isinstance(known, Recipe):
        known = shelf.mixed[version.id] = recipe_of(version, shelf)
    return known


def temperatures(version: RecipeVersion, shelf: Shelf) -> dict[str, float | None]:
    """Heat-to, add-oil and pour temperature: the version's own, else its main wax's, else class."""
    wax = main_wax(version, shelf)
    usual = wax_defaults(wax) if wax else WAX_CLASSES["other"]
    fallback = {
        "heat_to_c": usual.heat_to_c,
        "add_oil_c": sum(usual.add_oil_c) / 2,
        "pour_c": sum(usual.pour_c) / 2,
    }
    found: dict[str, float | None] = {}
    for name, estimate in fallback.items():
        own = getattr(version, name)
        of_wax = getattr(wax, name) if wax else None
        found[name] = own if own is not None else of_wax if of_wax is not None else estimate
    return found


def cure_days(version: RecipeVersion, shelf: Shelf) -> int:
    """Days until cured: the version's own, else its main wax's, else the longest of its class."""
    wax = main_wax(version, shelf)
    usual = wax_defaults(wax) if wax else WAX_CLASSES["other"]
    for own in (version.cure_days, wax.cure_days if wax else None):
        if own is not None:
            return own
    return usual.cure_days[1]


def main_wax(version: RecipeVersion, shelf: Shelf) -> Wax | None:
    """The wax with most parts."""
    waxes = [
        part for part in version.parts if part.role == "wax" and part.item_id in shelf.materials
    ]
    best = max(waxes, key=lambda part: part.parts or 0.0, default=None)
    details = shelf.materials[best.item_id].details if best and best.item_id is not None else None
    return details if isinstance(details, Wax) else None


def mix_densities(version: RecipeVersion, shelf: Shelf) -> MixDensities:
    """Hot and set density of the mix by ideal volume additivity, with their ranges.

    Raises:
        OutOfRange: a version without wax, or densities that cannot be.
    """
    recipe = recipe_of(version, shelf)
    pour_c = recipe.pour_c if recipe.pour_c is not None else 70.0
    return densities_of(mix_parts(recipe), facts_of(shelf), pour_c)


def wax_liquid(wax: Wax, celsius: float) -> Density:
    """Liquid density of a wax at a temperature: measured, as given, or its class's estimate."""
    usual = wax_defaults(wax)
    at_70 = wax.liquid_g_per_ml
    low, high = usual.liquid_range_g_per_ml
    if at_70 is not None:
        low, high = (at_70, at_70) if wax.liquid_measured else (min(low, at_70), max(high, at_70))
    shown = at_70 if at_70 is not None else usual.liquid_g_per_ml
    return Density(
        g_per_ml=liquid_density(shown, celsius),
        low=liquid_density(low, celsius),
        high=liquid_density(high, celsius),
        estimate=not (wax.liquid_measured and at_70 is not None),
    )


def wax_set(wax: Wax) -> Density:
    """Apparent density of a wax once set at 20 °C: measured, as given, or its class's estimate."""
    usual = wax_defaults(wax)
    low, high = usual.set_range_g_per_ml
    own = wax.set_g_per_ml
    if own is not None:
        low, high = (own, own) if wax.set_measured else (min(low, own), max(high, own))
    shown = own if own is not None else usual.set_g_per_ml
    measured = wax.set_measured and own is not None
    return Density(g_per_ml=shown, low=low, high=high, estimate=not measured)


def facts_of(shelf: Shelf, heat_source: Mapping[str, object] | None = None) -> Facts:
    """What the checks and the plan need to know of all materials."""
    waxes: dict[object, WaxFacts] = {}
    oils: dict[object, OilFacts] = {}
    for key, material in shelf.materials.items():
        details = material.details
        if isinstance(details, Wax):
            waxes[key] = _wax_facts(material.name, details)
        elif isinstance(details, Fragrance):
            oils[key] = OilFacts(
                name=material.name,
                density_g_per_ml=details.density_g_per_ml,
                flash_c=details.flash_c,
                ifra_percent=details.ifra_12_percent,
            )
    source = heat_source or {}
    heat = HeatSource(
        name=str(source.get("name") or ""),
        open_flame=bool(source.get("open_flame")),
        pot_stays_on=bool(source.get("left_on_heat")),
    )
    return Facts(waxes=waxes, oils=oils, names=shelf.names, heat=heat)


def _wax_facts(name: str, wax: Wax) -> WaxFacts:
    liquid, hard = wax_liquid(wax, 70.0), wax_set(wax)
    return WaxFacts(
        name=name,
        liquid_70_g_per_ml=liquid.g_per_ml,
        density_is_estimate=liquid.estimate,
        liquid_range_g_per_ml=(liquid.low, liquid.high),
        set_g_per_ml=hard.g_per_ml,
        set_is_estimate=hard.estimate,
        set_range_g_per_ml=(hard.low, hard.high),
        finish=finish_of(wax),
        max_load=wax.max_load,
        flash_c=wax.flash_c,
        heat_to_c=wax.heat_to_c,
    )


def set_lighter(mix: MixDensities | None) -> tuple[Finding, ...]:
    """Tell of a mix that would grow as it sets: then no set level can be given."""
    if mix is None or mix.set.g_per_ml >= mix.hot.g_per_ml:
        return ()
    data = {"hot_g_per_ml": mix.hot.g_per_ml, "set_g_per_ml": mix.set.g_per_ml}
    return (Finding(Rank.WATCH, "shrinkage.set-lighter", data),)


def densities_or_none(version: RecipeVersion | None, shelf: Shelf) -> MixDensities | None:
    """As ``mix_densities``; ``None`` where the version is not far enough to tell."""
    if version is None:
        return None
    try:
        return mix_densities(version, shelf)
    except DomainError:
        return None
