"""SVG drawings turned into our own paths, and what of them could not be turned.

After Scalable Vector Graphics 2 (W3C Candidate Recommendation, 4 October 2018). Shapes, groups,
symbols, transforms, fills, strokes and simple clips become paths; letters, photographs, running
colours, filters, masks, patterns and motion are left out and named.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from wickbench.documents.label_draws import PathDraw
from wickbench.documents.pictograms import path_bounds
from wickbench.documents.svg_geometry import length, numbers, view_box
from wickbench.documents.svg_reading import is_svg, read_svg
from wickbench.documents.svg_walk import FARTHEST, Walk
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from wickbench.documents.svg_reading import Node

__all__ = ["LEFT_OUT", "Drawing", "is_svg", "svg_drawing"]

LEFT_OUT: Final = (
    "text", "image", "gradient", "pattern", "filter", "mask", "clip", "marker", "animation",
    "script", "style", "link", "transparent", "colour", "path", "blend", "stroke", "other",
)  # fmt: skip
"""Words for what may be left out or drawn in another way, in the order told."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing as paths, in units of its own.

    Attributes:
        width: of its viewport, whose top left corner is the origin.
        height: of it.
        draws: from back to front; strokes are plain ones of paper.
        left_out: words of `LEFT_OUT`.
    """

    width: float
    height: float
    draws: tuple[PathDraw, ...]
    left_out: tuple[str, ...] = ()


@lru_cache(32)
def svg_drawing(data: bytes) -> Drawing:
    """Turn an SVG file into paths.

    Args:
        data: the file.

    Raises:
        DomainError: ``svg.damaged``, ``svg.entities``, ``svg.too-large``, ``svg.nothing-drawn``
            when there is nothing in it that can be turned.
    """
    root = read_svg(data)
    wide, high = _size(root)
    if not max(wide, high) < FARTHEST:
        raise DomainError("svg.damaged")
    walk = Walk(root, wide or _AUTO, high or _AUTO)
    try:
        walk.draw_root(view_box(root, wide, high) if wide and high else None)
    except RecursionError as error:
        raise DomainError("svg.too-large") from error
    left_out = tuple(word for word in LEFT_OUT if word in walk.left_out)
    if not walk.draws:
        raise DomainError("svg.nothing-drawn")
    if not (wide and high):
        return _bounded(walk, left_out)
    return Drawing(wide, high, tuple(walk.draws), left_out)


_AUTO: Final = 100.0


def _size(root: Node) -> tuple[float, float]:
    """Width and height of the drawing; 0 when the file does not say."""
    box = numbers(root.get("viewBox"))
    has_box = len(box) == 4 and box[2] > 0 and box[3] > 0  # noqa: PLR2004 - x, y, width, height
    wide, high = _absolute(root.get("width")), _absolute(root.get("height"))
    if not has_box:
        return (wide, high) if wide and high else (0.0, 0.0)
    if wide and high:
        return wide, high
    if wide or high:
        k = wide / box[2] if wide else high / box[3]
        return box[2] * k, box[3] * k
    return box[2], box[3]


def _absolute(text: str) -> float:
    return 0.0 if text.endswith("%") else max(0.0, length(text, 0.0))


def _bounded(walk: Walk, left_out: tuple[str, ...]) -> Drawing:
    """A drawing without a size is as large as what it draws."""
    boxes = []
    for draw in walk.draws:
        left, top, right, bottom = path_bounds(draw.path)
        half = draw.width_mm / 2 if draw.stroke else 0.0
        boxes.append((left - half, top - half, right + half, bottom + half))
    left, top = min(one[0] for one in boxes), min(one[1] for one in boxes)
    wide, high = max(one[2] for one in boxes) - left, max(one[3] for one in boxes) - top
    if wide <= 0 or high <= 0:
        raise DomainError("svg.nothing-drawn")
    return Drawing(wide, high, walk.moved(-left, -top), left_out)
