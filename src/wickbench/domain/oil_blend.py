"""The fragrance oils of a recipe as one: their density and where they catch fire."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.mixes import mixed, oil_at
from wickbench.domain.recipes import Material, Recipe, normalised

if TYPE_CHECKING:
    from wickbench.domain.recipe_checks import Facts

_DENSITY_C = 20.0


@dataclass(frozen=True, slots=True, kw_only=True)
class OilBlend:
    """The fragrance oils of a recipe as one.

    Attributes:
        density_g_per_ml: at 20 °C by the parts; ``low`` and ``high`` where it may lie.
        estimate: the density of one of them is not known.
        lowest_flash: the oil that catches fire first, and its flash point; None while none is
            known.
        without_flash: oils whose flash point is not known.
    """

    density_g_per_ml: float
    low: float
    high: float
    estimate: bool
    lowest_flash: tuple[Material, float] | None
    without_flash: tuple[Material, ...]


def oil_blend(recipe: Recipe, facts: Facts) -> OilBlend | None:
    """Density by volume additivity and lowest flash point of the blend; None without oil.

    A blend is taken to catch fire where the first of its oils does: mixing rules need
    compositions that nobody has (common practice, no source).

    Raises:
        OutOfRange: a density that cannot be.
    """
    parts = normalised(recipe.fragrance)
    if not parts:
        return None
    density = mixed((share, oil_at(facts.oil(key), _DENSITY_C)) for key, share in parts.items())
    known = [(key, flash) for key in parts if (flash := facts.oil(key).flash_c) is not None]
    return OilBlend(
        density_g_per_ml=density.g_per_ml,
        low=density.low,
        high=density.high,
        estimate=density.estimate,
        lowest_flash=min(known, key=lambda pair: pair[1], default=None),
        without_flash=tuple(key for key in parts if facts.oil(key).flash_c is None),
    )
