"""Where something new goes onto a label: near the middle, on as little as can be."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING, Final

from wickbench.documents.rooms import is_inside
from wickbench.domain.arranging import Box, box_of
from wickbench.domain.labels import FrameElement, LineElement

if TYPE_CHECKING:
    from wickbench.domain.labels import LabelDesign

_STEPS: Final = 20


def free_place(design: LabelDesign, wide: float, high: float) -> tuple[float, float]:
    """Left and top for a box of this size, within the safe zone.

    The place that covers least of what stands on the label, and of those the one nearest to the
    middle; frames and lines do not count, for things stand in them and beside them.

    Args:
        design: the label.
        wide: width of the box, mm.
        high: height of it, mm.
    """
    middle = ((design.width_mm - wide) / 2, (design.height_mm - high) / 2)
    taken = [box_of(one) for one in design.elements if not isinstance(one, _UNDER)]
    spots = [middle, *_spots(design, wide, high)]

    def cost(spot: tuple[float, float]) -> tuple[float, float]:
        box = Box(*spot, spot[0] + wide, spot[1] + high)
        away = (spot[0] - middle[0]) ** 2 + (spot[1] - middle[1]) ** 2
        return round(sum(_common(box, one) for one in taken), 6), away

    return min(spots, key=cost)


_UNDER: Final = (FrameElement, LineElement)


def _spots(design: LabelDesign, wide: float, high: float) -> list[tuple[float, float]]:
    """Places of a grid at which the whole box lies in the safe zone."""
    safe = design.safe_mm
    across, down = design.width_mm - 2 * safe - wide, design.height_mm - 2 * safe - high
    if across <= 0 or down <= 0:
        return []
    grid = product(range(_STEPS + 1), repeat=2)
    spots = [(safe + across * x / _STEPS, safe + down * y / _STEPS) for x, y in grid]
    return [spot for spot in spots if _lies_inside(design, spot, wide, high)]


def _lies_inside(design: LabelDesign, spot: tuple[float, float], wide: float, high: float) -> bool:
    corners = ((spot[0] + x, spot[1] + y) for x in (0.0, wide) for y in (0.0, high))
    return all(is_inside(design, *one, margin_mm=design.safe_mm) for one in corners)


def _common(one: Box, other: Box) -> float:
    """Area that two boxes share."""
    across = min(one.right, other.right) - max(one.left, other.left)
    down = min(one.bottom, other.bottom) - max(one.top, other.top)
    return max(0.0, across) * max(0.0, down)
