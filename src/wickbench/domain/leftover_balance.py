"""A recipe as a balance of masses: how much room there is for each material of it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.recipes import Material, Recipe, Role, normalised

if TYPE_CHECKING:
    Key = tuple[Role, Material]
    Masses = Mapping[Key, float]

_WHOLE_PERCENT = 100.0
_BLENDED = (Role.WAX, Role.FRAGRANCE)


@dataclass(frozen=True, slots=True)
class Balance:
    """A recipe as a balance of masses.

    Attributes:
        blends: of wax and of oil, the share of each material among its own kind.
        beside: dye and additives, as fractions of the wax.
        of_total: oil as a fraction of all, when the load says so; otherwise None.
        of_wax: oil as a fraction of the wax.
    """

    blends: Mapping[Role, Mapping[Material, float]]
    beside: Mapping[Key, float]
    of_total: float | None
    of_wax: float

    @classmethod
    def of(cls, recipe: Recipe) -> Balance:
        """The balance of a recipe; ``OutOfRange`` ``recipe.no-wax`` without wax."""
        oils = normalised(recipe.fragrance)
        load = recipe.load if oils else None
        beside: dict[Key, float] = {
            (role, material): percent / _WHOLE_PERCENT
            for role, given in ((Role.DYE, recipe.dye), (Role.ADDITIVE, recipe.additives))
            for material, percent in given.items()
            if percent > 0
        }
        if load is None or not load.percent:
            return cls({Role.WAX: _waxes(recipe), Role.FRAGRANCE: {}}, beside, None, 0.0)
        of_total = load.percent / _WHOLE_PERCENT if load.basis == "total" else None
        blends = {Role.WAX: _waxes(recipe), Role.FRAGRANCE: oils}
        return cls(blends, beside, of_total, load.of_wax / _WHOLE_PERCENT)

    def has(self, key: Key) -> bool:
        """Whether the recipe has this material in this role."""
        role, material = key
        return material in self.blends[role] if role in _BLENDED else key in self.beside

    def rooms(self, brought: Masses, total_g: float) -> dict[Key | Role, float]:
        """Room left for each material of the recipe once the leftovers are in, grams.

        Under a bare role stands the room that others' wax or oil leaves for the recipe's own.
        Negative room is too much. All of it is in proportion: half of everything, half the rooms.
        """
        foreign = dict.fromkeys(Role, 0.0)
        for key, mass_g in brought.items():
            if not self.has(key):
                foreign[key[0]] += mass_g
        wax_g, oil_g = self._wax_and_oil(
            total_g, total_g - foreign[Role.DYE] - foreign[Role.ADDITIVE]
        )
        rooms: dict[Key | Role, float] = {}
        for role, whole_g in ((Role.WAX, wax_g), (Role.FRAGRANCE, oil_g)):
            rooms[role] = whole_g - foreign[role]
            for material, share in self.blends[role].items():
                key = (role, material)
                rooms[key] = rooms[role] * share - brought.get(key, 0.0)
        for key, of_wax in self.beside.items():
            rooms[key] = wax_g * of_wax - brought.get(key, 0.0)
        return rooms

    def _wax_and_oil(self, total_g: float, rest_g: float) -> tuple[float, float]:
        """Wax and oil, when ``rest_g`` of the total is left beside foreign dye and additives."""
        beside = 1 + math.fsum(self.beside.values())
        if self.of_total is not None:
            oil_g = self.of_total * total_g
            return (rest_g - oil_g) / beside, oil_g
        wax_g = rest_g / (beside + self.of_wax)
        return wax_g, wax_g * self.of_wax


def _waxes(recipe: Recipe) -> dict[Material, float]:
    waxes = normalised(recipe.wax)
    if not waxes:
        raise OutOfRange("recipe.no-wax")
    return waxes
