"""What is worth saying about a version, beyond what its numbers say in the domain."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.candle_state import state_of
from wickbench.app.mixes import densities_or_none, facts_of, main_wax, set_lighter
from wickbench.domain.catalog import Additive, Dye
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.heat_of_waxes import melting_range_c
from wickbench.domain.recipe_checks import recipe_findings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.app.shelf import Shelf
    from wickbench.domain.catalog import RecipePart, RecipeVersion
    from wickbench.domain.recipes import Recipe

_FLASH = ("recipe.flash-over-flame", "recipe.flash-on-heat", "recipe.flash-low")
"""The gravest first: of several sources of heat the worst one is told."""


def findings_of(version: RecipeVersion, recipe: Recipe, shelf: Shelf) -> tuple[Finding, ...]:
    """All findings of a version, the most pressing first."""
    found = [*_parts(version, shelf), *_over_heat(recipe, shelf), *_for_sale(version, shelf)]
    found += set_lighter(densities_or_none(version, shelf))
    found += _poured_when_set(recipe, version, shelf)
    return sort_findings(found)


def _over_heat(recipe: Recipe, shelf: Shelf) -> Iterator[Finding]:
    """The domain's findings with each source of heat in the workshop, each said once."""
    found: dict[object, Finding] = {}
    for source in shelf.equipment.heat_sources or ({},):
        for one in recipe_findings(recipe, facts_of(shelf, source)):
            is_flash = one.key in _FLASH
            place = ("flash", one.about) if is_flash else (one.key, one.about)
            known = found.get(place)
            if known is None or (is_flash and _FLASH.index(one.key) < _FLASH.index(known.key)):
                found[place] = one
    yield from found.values()


def _poured_when_set(recipe: Recipe, version: RecipeVersion, shelf: Shelf) -> Iterator[Finding]:
    """A temperature of the version's own at which its main wax is set already."""
    wax, pour_c = main_wax(version, shelf), recipe.pour_c
    if wax is None or pour_c is None or version.pour_c is None:
        return
    try:
        sets_c = melting_range_c(wax)[0]
    except OutOfRange:  # told with the wax
        return
    if pour_c < sets_c:
        data = {"pour_c": pour_c, "melts_c": sets_c}
        yield Finding(Rank.WATCH, "recipe-dock.pour-below-melting", data)


def _parts(version: RecipeVersion, shelf: Shelf) -> Iterator[Finding]:
    for part in version.parts:
        material = shelf.materials.get(part.item_id) if part.item_id is not None else None
        amount = part.parts if part.role in {"wax", "fragrance"} else part.of_wax_percent
        if material is None:
            yield Finding(Rank.WATCH, "recipe-dock.part-without-material", about=("part", part.id))
            continue
        data = {"name": material.name}
        about = ("part", part.id)
        if not amount:
            yield Finding(Rank.WATCH, "recipe-dock.part-without-amount", data, about)
        if material.archived:
            yield Finding(Rank.NOTE, "recipe-dock.material-put-away", data, about)
        yield from _over_most(part, shelf)


def _over_most(part: RecipePart, shelf: Shelf) -> Iterator[Finding]:
    """A dye or additive beyond what its own sheet says is the most."""
    material = shelf.materials[part.item_id or 0]
    details, amount = material.details, part.of_wax_percent
    if not isinstance(details, (Dye, Additive)) or amount is None:
        return
    if details.max_percent is not None and amount > details.max_percent + 1e-9:
        data = {"name": material.name, "given_percent": amount, "most_percent": details.max_percent}
        yield Finding(Rank.WATCH, "recipe-dock.over-most", data, ("part", part.id))


def _for_sale(version: RecipeVersion, shelf: Shelf) -> Iterator[Finding]:
    """Candles of a version for sale that have not passed."""
    if version.state != "for_sale":
        return
    own = [
        candle
        for candle in shelf.candles.values()
        if candle.version_id == version.id and not candle.archived
    ]
    names = [candle.name for candle in own if state_of(candle, shelf).state != "passed"]
    if names:
        yield Finding(Rank.NOTE, "recipe-dock.for-sale-not-passed", {"names": tuple(names)})
