"""Leftovers in a plan: what is wanted of them, and what is weighed of them into a pot."""

from __future__ import annotations

import math
from collections.abc import Collection, Hashable, Mapping
from dataclasses import dataclass, field

from wickbench.domain.equipment import Scale
from wickbench.domain.leftovers import Leftover
from wickbench.domain.recipes import Material, Role

Key = tuple[Role, Material]


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftoverWanted:
    """A leftover that shall go into the pots of a recipe.

    Attributes:
        key: names it for the caller.
        name: what the maker calls it.
        leftover: what it was mixed by, and how much of it there is.
        mass_g: how much of it to use; ``None`` for as much as fits.
    """

    key: Hashable
    name: str
    leftover: Leftover
    mass_g: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftoverIn:
    """What a leftover brings into a pot, per gram of it.

    Attributes:
        key: names the leftover for the caller.
        shares: of each material in it; they sum to 1.
        gives: grams of each material of the pot's recipe that a gram of it saves.
        names: of the materials in it.
    """

    key: Hashable
    shares: Mapping[Key, float]
    gives: Mapping[Key, float] = field(default_factory=dict)
    names: Mapping[Material, str] = field(default_factory=dict)

    def share(self, roles: Collection[Role]) -> float:
        """Share of some roles together."""
        return math.fsum(share for key, share in self.shares.items() if key[0] in roles)


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftoverLine:
    """So much of a leftover to weigh for a pot; it goes in first.

    Attributes:
        name: what the maker calls it.
        weigh_g: as its scale can show it.
        step_g: what its scale reads to.
        brings: what is in it.
        scale: the scale to use; ``None`` when none is defined.
        in_pot: weighed into the pot standing on the scale.
        portions: in how many goes.
    """

    name: str
    weigh_g: float
    step_g: float
    brings: LeftoverIn
    scale: Scale | None = None
    in_pot: bool = False
    portions: int = 1
