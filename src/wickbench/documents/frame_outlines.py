"""Frames on a label: corners round, cut, hollow or notched, and a second, finer line inside."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from wickbench.documents.label_draws import PathDraw
from wickbench.documents.outlines import figure, rectangle
from wickbench.documents.surface import map_path
from wickbench.domain.sheets import Rect

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.documents.affine import Affine
    from wickbench.documents.surface import Path
    from wickbench.domain.labels import FrameElement

FINER: Final = 0.5
"""Width of the second line by that of the first."""
FINEST_SECOND_MM: Final = 0.1
_QUARTER: Final = 0.5522847498307936
_ROOT_2: Final = math.sqrt(2.0)

Local = tuple[float, float]
"""A place at a corner: how far back along the side that leads to it, how far on along the next."""


def frame_draws(
    element: FrameElement, sticker: Callable[[float], Path], turned: Affine
) -> tuple[PathDraw, ...]:
    """A frame as draws, mm on the label.

    Args:
        element: the frame.
        sticker: outline of the sticker drawn in by so much, for a frame that follows it.
        turned: turn of the element about its middle.
    """
    if element.figure == "sticker":
        outer = sticker(element.inset_mm)
        inner = sticker(element.inset_mm + element.second_mm) if element.second_mm > 0 else None
    else:
        outer = map_path(turned, _outline(element, 0.0))
        inner = None
        if element.second_mm > 0 and _has_room(element):
            inner = map_path(turned, _outline(element, element.second_mm))
    stroke = element.colour if element.line_mm > 0 else None
    first = PathDraw(outer, element.fill or None, stroke, element.line_mm, element.dash_mm)
    if inner is None or stroke is None:
        return (first,)
    finer = min(element.line_mm, max(FINEST_SECOND_MM, element.line_mm * FINER))
    return (first, PathDraw(inner, None, stroke, finer, element.dash_mm))


def cornered(box: Rect, corners: str, size_mm: float, inner_mm: float = 0.0) -> Path:
    """A rectangle with styled corners, or the line at an even distance inside it.

    Args:
        box: the outer rectangle, mm.
        corners: round, cut, hollow or notched.
        size_mm: radius or side of the corners; cut to half the shorter side.
        inner_mm: distance inside, measured square to every side and to the corners.
    """
    size = max(0.0, min(size_mm, box.w_mm / 2, box.h_mm / 2))
    inside = box.inset(inner_mm)
    if size == 0.0:
        return rectangle(inside.x_mm, inside.y_mm, inside.w_mm, inside.h_mm)
    made = _CORNERS[corners](size, inner_mm)
    longest = min(inside.w_mm, inside.h_mm) / 2
    reach = max(value for spot in made for value in spot)
    if reach > longest:
        k = longest / reach
        made = [(p * k, q * k) for p, q in made]
    return _round_trip(inside, made, curved=corners in {"round", "hollow"})


def _round_trip(box: Rect, made: list[Local], *, curved: bool) -> Path:
    """Clockwise from the top left corner: each corner is the former one turned by a quarter."""
    ways = ((0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0))
    spots = (
        (box.x_mm, box.y_mm),
        (box.right_mm, box.y_mm),
        (box.right_mm, box.bottom_mm),
        (box.x_mm, box.bottom_mm),
    )
    path: list[tuple[str | float, ...]] = []
    for (dx, dy), (x, y) in zip(ways, spots, strict=True):
        points = [(x - p * dx - q * dy, y - p * dy + q * dx) for p, q in made]
        path.append(("l" if path else "m", *points[0]))
        if curved:
            path.append(("c", *points[1], *points[2], *points[3]))
        else:
            path += [("l", *point) for point in points[1:]]
    return (*path, ("z",))


def _round(size: float, inner: float) -> list[Local]:
    r = max(size - inner, 0.0)
    near = r * (1 - _QUARTER)
    return [(r, 0.0), (near, 0.0), (0.0, near), (0.0, r)]


def _cut(size: float, inner: float) -> list[Local]:
    s = max(size - inner * (2 - _ROOT_2), 0.0)
    return [(s, 0.0), (0.0, s)]


def _hollow(size: float, inner: float) -> list[Local]:
    """A quarter circle about the outer corner, which lies ``inner`` beyond both sides."""
    radius = size + inner
    first = math.asin(inner / radius)
    last = math.pi / 2 - first
    pull = 4 / 3 * math.tan((last - first) / 4) * radius

    def spot(angle: float, along: float) -> Local:
        return (
            radius * math.cos(angle) - inner - along * math.sin(angle),
            radius * math.sin(angle) - inner + along * math.cos(angle),
        )

    return [spot(first, 0.0), spot(first, pull), spot(last, -pull), spot(last, 0.0)]


def _notched(size: float, _inner: float) -> list[Local]:
    return [(size, 0.0), (size, size), (0.0, size)]


_CORNERS: Final[dict[str, Callable[[float, float], list[Local]]]] = {
    "round": _round,
    "cut": _cut,
    "hollow": _hollow,
    "notched": _notched,
}


def _outline(element: FrameElement, inner_mm: float) -> Path:
    box = Rect(element.x_mm, element.y_mm, element.w_mm, element.h_mm).inset(element.inset_mm)
    if element.figure == "rounded":
        return cornered(box, element.corners, element.corner_mm, inner_mm)
    inside = box.inset(inner_mm)
    return figure(element.figure, inside.x_mm, inside.y_mm, inside.w_mm, inside.h_mm)


def _has_room(element: FrameElement) -> bool:
    lost = 2 * (element.inset_mm + element.second_mm)
    return min(element.w_mm, element.h_mm) > lost
