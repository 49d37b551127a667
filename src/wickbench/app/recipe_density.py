"""The waxes and oils that make the density of a mix."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.mixes import Density, hot_density, set_density
from wickbench.domain.recipes import Recipe, Role, mix_parts

if TYPE_CHECKING:
    from wickbench.domain.mixes import MixDensities
    from wickbench.domain.recipe_checks import Facts


@dataclass(frozen=True, slots=True, kw_only=True)
class DensePart:
    """A wax or oil that makes the density of the mix; its share is of wax and oil together."""

    name: str
    share_percent: float
    hot: Density
    set: Density


def dense_parts(recipe: Recipe, facts: Facts, mix: MixDensities) -> tuple[DensePart, ...]:
    """Each wax and oil with its share of the two together and its densities."""
    parts = [part for part in mix_parts(recipe) if part.role in {Role.WAX, Role.FRAGRANCE}]
    whole = sum(part.share for part in parts)
    return tuple(
        DensePart(
            name=facts.name(part.material),
            share_percent=100 * part.share / whole,
            hot=hot_density(part, facts, mix.pour_c),
            set=set_density(part, facts),
        )
        for part in parts
    )
