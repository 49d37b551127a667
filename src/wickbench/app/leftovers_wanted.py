"""Leftovers of a plan as the domain plans with them."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from wickbench.app.mixes import recipe_of
from wickbench.domain.errors import DomainError
from wickbench.domain.leftover_lines import LeftoverWanted
from wickbench.domain.leftovers import Leftover

if TYPE_CHECKING:
    from wickbench.app.leftover_store import LeftoverRow
    from wickbench.app.plans import PlanRow
    from wickbench.app.shelf import Shelf
    from wickbench.domain.recipes import Recipe


def wanted_leftovers(plan: PlanRow, shelf: Shelf) -> dict[object, tuple[LeftoverWanted, ...]]:
    """What shall be worked in, by recipe version; what has no wax in it is left out."""
    wanted: defaultdict[object, list[LeftoverWanted]] = defaultdict(list)
    left: dict[int, float] = {}
    for one in plan.leftovers:
        row = shelf.leftovers.get(one.leftover_id)
        mix = mix_of(row, shelf) if row is not None else None
        if row is None or mix is None or one.version_id is None:
            continue
        there_g = left.setdefault(row.id, row.left_for(plan.id))
        wanted[one.version_id].append(
            LeftoverWanted(
                key=row.id, name=row.name, leftover=Leftover(mix, there_g), mass_g=one.mass_g
            )
        )
        left[row.id] = max(there_g - (there_g if one.mass_g is None else one.mass_g), 0.0)
    return {version: tuple(each) for version, each in wanted.items()}


def mix_of(row: LeftoverRow, shelf: Shelf) -> Recipe | None:
    """The recipe by which a leftover would be mixed; ``None`` without wax in it."""
    version = shelf.versions.get(row.version_id) if row.version_id is not None else None
    try:
        return row.recipe(recipe_of(version, shelf) if version is not None else None)
    except DomainError:
        return None
