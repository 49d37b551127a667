"""Parts of a label's face: its lowest share by area, and what the front of a vessel shows."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from wickbench.domain.errors import OutOfRange

if TYPE_CHECKING:
    from wickbench.domain.labels import LabelDesign

_ROUND: Final = frozenset({"circle", "oval"})
_STEPS: Final = 60


def lowest_share_mm(design: LabelDesign, share: float) -> float:
    """Height from the label's top below which a share of its area lies.

    On a rectangle the lowest 30 % of the area are the lowest 30 % of the height; on an oval, which
    narrows downwards, they reach higher up. Rounded corners are counted as full.

    Args:
        design: the label.
        share: above 0 and below 1.

    Raises:
        OutOfRange: ``label.measure`` for another share.
    """
    if not 0.0 < share < 1.0:
        raise OutOfRange("label.measure", value=share)
    if design.shape not in _ROUND:
        return design.height_mm * (1.0 - share)
    low, high = 0.0, 1.0
    for _ in range(_STEPS):
        middle = (low + high) / 2
        low, high = (middle, high) if _above(middle) < 1.0 - share else (low, middle)
    return design.height_mm * low


def front_part(design: LabelDesign, around_mm: float, share: float) -> tuple[float, float]:
    """Left and right edge of what is seen from the front: a share of the way round, in the middle.

    Args:
        design: the label; its middle faces the person.
        around_mm: outer diameter of the vessel, mm.
        share: of the circumference.

    Returns:
        Both edges in mm from the label's left edge; the whole label when it is narrower.
    """
    half = share * math.pi * around_mm / 2
    middle = (design.width_mm - design.overlap_mm) / 2
    left, right = max(0.0, middle - half), min(design.width_mm, middle + half)
    return left, right


def _above(part: float) -> float:
    """Share of an ellipse's area above a part of its height: a circular segment."""
    cosine = 1.0 - 2.0 * part
    angle = math.acos(max(-1.0, min(1.0, cosine)))
    return (angle - cosine * math.sin(angle)) / math.pi
