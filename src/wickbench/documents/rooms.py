"""The room inside a sticker's edge: what lies within it, and how wide it is at a height."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from wickbench.documents.text_fit import Room
    from wickbench.domain.labels import LabelDesign
    from wickbench.domain.sheets import Rect

_HAIR_MM: Final = 1e-6
_DIRECTIONS: Final = 180
_ROUND: Final = ("circle", "oval")


def room_of(design: LabelDesign, box: Rect) -> Room | None:
    """Edges of the lines of a text box on a round sticker; None where the box is enough."""
    if design.shape not in _ROUND:
        return None
    middle_x, middle_y = design.width_mm / 2, design.height_mm / 2

    def edges(top_mm: float, bottom_mm: float) -> tuple[float, float]:
        far = max(abs(top_mm - middle_y), abs(bottom_mm - middle_y))
        half = _half_width(design.width_mm / 2, design.height_mm / 2, design.safe_mm, far)
        left, right = max(box.x_mm, middle_x - half), min(box.right_mm, middle_x + half)
        return (left, right) if right > left else (middle_x, middle_x)

    return edges


def is_inside(
    design: LabelDesign, x_mm: float, y_mm: float, *, margin_mm: float, slack_mm: float = 0.0
) -> bool:
    """Whether a point lies at least the margin (less the slack) inside the sticker's edge."""
    margin = margin_mm - slack_mm
    across = abs(x_mm - design.width_mm / 2)
    down = abs(y_mm - design.height_mm / 2)
    half_w, half_h = design.width_mm / 2, design.height_mm / 2
    if across > half_w - margin + _HAIR_MM or down > half_h - margin + _HAIR_MM:
        return False
    if design.shape in _ROUND:
        return across <= _half_width(half_w, half_h, margin, down) + _HAIR_MM
    if design.shape == "rounded":
        radius = min(design.corner_mm, half_w, half_h)
        into_x, into_y = across - (half_w - radius), down - (half_h - radius)
        in_corner = into_x > 0 and into_y > 0
        return not in_corner or math.hypot(into_x, into_y) <= radius - margin + _HAIR_MM
    return True


@lru_cache(1024)
def _half_width(half_w: float, half_h: float, margin: float, down: float) -> float:
    """Half the width, at a height from the middle, of what lies a margin inside an ellipse.

    A convex figure drawn in by a margin is the common part of its tangent half planes, each
    moved in by the margin: x cos t + y sin t ≤ √(a² cos² t + b² sin² t) − margin. Smaller
    half-axes alone would come too near the edge.
    """
    if down >= half_h - margin:
        return 0.0
    if half_w == half_h:
        return math.sqrt((half_w - margin) ** 2 - down**2)
    widths = []
    for step in range(_DIRECTIONS):
        angle = step * math.pi / 2 / _DIRECTIONS
        cosine, sine = math.cos(angle), math.sin(angle)
        reach = math.hypot(half_w * cosine, half_h * sine) - margin
        widths.append((reach - down * sine) / cosine)
    return max(0.0, min(widths))
