"""How much of a leftover a batch can take, and in whose place each gram of it stands."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wickbench.domain.leftover_balance import Balance
from wickbench.domain.leftovers import Leftover, together

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickbench.domain.recipes import Material, Recipe, Role

    Key = tuple[Role, Material]

_SLACK = 1e-9


def most_of(mix: Recipe, recipe: Recipe, total_g: float, beside: Iterable[Leftover] = ()) -> float:
    """Grams of a leftover that a batch can take; 0 when it has no place for any.

    Args:
        mix: what the leftover was mixed by.
        recipe: what it shall become.
        total_g: the whole batch.
        beside: other leftovers that are in it already.
    """
    balance, there = Balance.of(recipe), tuple(beside)
    brought = together(there)
    free = balance.rooms(brought, total_g)
    after = balance.rooms(together((*there, Leftover(mix, 1.0))), total_g)
    most = total_g - math.fsum(brought.values())
    for key, room_g in free.items():
        each = room_g - after[key]
        if each > _SLACK:
            most = min(most, room_g / each)
    return max(most, 0.0)


def counts_towards(mix: Recipe, recipe: Recipe) -> dict[Key, float]:
    """Grams of each material of a recipe that one gram of a leftover saves; they sum to 1.

    What the recipe has too stands for itself; anything else stands for the recipe's wax or oil.
    """
    balance = Balance.of(recipe)
    empty, after = balance.rooms({}, 1.0), balance.rooms(Leftover(mix, 1.0).masses(), 1.0)
    return {key: empty[key] - room for key, room in after.items() if isinstance(key, tuple)}
