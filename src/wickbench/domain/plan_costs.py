"""What one candle costs in material."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from wickbench.domain.costs import to_whole

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.domain.catalog import Price
    from wickbench.domain.plan_fill import RecipeMix
    from wickbench.domain.plan_values import PlanLine
    from wickbench.domain.recipes import Material


def line_cost(
    line: PlanLine, each_g: float, mix: RecipeMix, prices: Mapping[Material, Price]
) -> tuple[int, tuple[Material, ...]]:
    """Material and items of one candle in 1/10 000 of the currency unit, and what has no price.

    Mixed materials are priced for what stands in the vessel; leftover and extra are not in it.
    """
    whole = Fraction(0)
    unpriced: list[Material] = []
    quantities = [(part.material, round(part.share * each_g * 1000)) for part in mix.parts]
    for material, quantity in [*quantities, *line.items.items()]:
        price = prices.get(material)
        if price is None:
            unpriced.append(material)
        else:
            whole += price.of(quantity)
    return to_whole(whole), tuple(dict.fromkeys(unpriced))
