"""The amounts on a recipe card: for so much wax or so much in all, in steps of the scales."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.app.recipe_view import Wanted
from wickbench.domain.equipment import is_too_coarse, which_scale
from wickbench.domain.recipes import Part, Role, mix_parts
from wickbench.domain.rounding import to_step

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.domain.equipment import Scale
    from wickbench.domain.recipes import Recipe

CUP_G = 10.0
"""An empty cup on the scale, as in a plan."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardAmount:
    """One material in one column.

    Attributes:
        material: its key.
        mass_g: as its scale can show it.
        step_g: the step it was rounded to.
        coarse: one step of the finest scale that carries it is more than 3 % of it.
    """

    material: int
    mass_g: float
    step_g: float
    coarse: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class CardColumn:
    """The amounts for one asked amount, in the recipe's order, and what they weigh together."""

    wanted: Wanted
    amounts: tuple[CardAmount, ...]

    @property
    def total_g(self) -> float:
        """Everything weighed together."""
        return math.fsum(one.mass_g for one in self.amounts)


def card_column(
    recipe: Recipe, wanted: Wanted, scales: Sequence[Scale], step_g: float | None
) -> CardColumn:
    """Each material as it can be weighed; the chief wax takes what rounding left.

    Args:
        recipe: with wax.
        wanted: an amount of wax, or of the whole mix.
        scales: on the bench; each material goes on the finest that carries it with a cup.
        step_g: one step for all instead, where amounts are told in ounces.

    Raises:
        OutOfRange: a recipe without wax.
    """
    parts = mix_parts(recipe)
    wax = math.fsum(part.share for part in parts if part.role is Role.WAX)
    total_g = wanted.mass_g / wax if wanted.of == "wax" else wanted.mass_g
    found = [_rounded(part, part.share * total_g, scales, step_g) for part in parts]
    return CardColumn(wanted=wanted, amounts=tuple(_closed(parts, found, wanted)))


def _rounded(
    part: Part, exact_g: float, scales: Sequence[Scale], step_g: float | None
) -> CardAmount:
    scale = which_scale(scales, exact_g, CUP_G)
    step = step_g if step_g is not None else scale.reads_to_g if scale is not None else 0.1
    coarse = scale is not None and exact_g > 0 and is_too_coarse(scale, exact_g)
    return CardAmount(
        material=part.material, mass_g=to_step(exact_g, step), step_g=step, coarse=coarse
    )


def _closed(parts: Sequence[Part], found: list[CardAmount], wanted: Wanted) -> list[CardAmount]:
    """The same with the chief wax making up the amount that was asked for."""
    counted = [
        place for place, part in enumerate(parts) if wanted.of != "wax" or part.role is Role.WAX
    ]
    waxes = [place for place, part in enumerate(parts) if part.role is Role.WAX]
    chief = max(waxes, key=lambda place: parts[place].share)
    others = math.fsum(found[place].mass_g for place in counted if place != chief)
    one = found[chief]
    made_up = CardAmount(
        material=one.material,
        mass_g=to_step(max(0.0, wanted.mass_g - others), one.step_g),
        step_g=one.step_g,
        coarse=one.coarse,
    )
    return [*found[:chief], made_up, *found[chief + 1 :]]
