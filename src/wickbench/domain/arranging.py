"""Moving, sizing, turning, aligning and snapping of what stands on a label; lengths in mm.

All functions are pure: they take elements or boxes and give places back. Turns are clockwise about
the middle of an element's box; the y axis points down.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final, TypeVar

from wickbench.domain.errors import OutOfRange
from wickbench.domain.guides import Guide, guide_lines

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wickbench.domain.labels import Element, LabelDesign

One = TypeVar("One", bound="Element")

HANDLES: Final[Mapping[str, tuple[int, int]]] = {
    "nw": (-1, -1), "n": (0, -1), "ne": (1, -1), "e": (1, 0),
    "se": (1, 1), "s": (0, 1), "sw": (-1, 1), "w": (-1, 0),
}  # fmt: skip
"""Corners and sides by the compass: which way each lies from the middle, x and y."""

ALIGNMENTS: Final = ("left", "centre", "right", "top", "middle", "bottom")
_LEAST_MM: Final = 0.1
_WHOLE_TURN: Final = 360.0
_TWO: Final = 2


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def middle(self) -> tuple[float, float]:
        """Its centre."""
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2

    def moved(self, dx: float, dy: float) -> Box:
        """The same box elsewhere."""
        return Box(self.left + dx, self.top + dy, self.right + dx, self.bottom + dy)

    def touches(self, other: Box) -> bool:
        """Whether the two have a point in common."""
        return (
            self.left <= other.right
            and other.left <= self.right
            and self.top <= other.bottom
            and other.top <= self.bottom
        )


def box_of(element: Element) -> Box:
    """The upright rectangle round an element, turned as it is."""
    angle = math.radians(element.turn_deg)
    cos, sin = abs(math.cos(angle)), abs(math.sin(angle))
    half_w = (element.w_mm * cos + element.h_mm * sin) / 2
    half_h = (element.w_mm * sin + element.h_mm * cos) / 2
    x, y = element.x_mm + element.w_mm / 2, element.y_mm + element.h_mm / 2
    return Box(x - half_w, y - half_h, x + half_w, y + half_h)


def bounds(boxes: Iterable[Box]) -> Box:
    """The rectangle round all.

    Raises:
        OutOfRange: ``label.nothing-chosen`` for none.
    """
    every = tuple(boxes)
    if not every:
        raise OutOfRange("label.nothing-chosen")
    return Box(
        min(one.left for one in every),
        min(one.top for one in every),
        max(one.right for one in every),
        max(one.bottom for one in every),
    )


def is_in(element: Element, x_mm: float, y_mm: float, slack_mm: float = 0.0) -> bool:
    """Whether a point lies in an element's own, turned box."""
    u, v = to_own(element, x_mm, y_mm)
    half_w, half_h = element.w_mm / 2 + slack_mm, element.h_mm / 2 + slack_mm
    return abs(u) <= half_w and abs(v) <= half_h


def to_own(element: Element, x_mm: float, y_mm: float) -> tuple[float, float]:
    """A point of the label as seen from the element's middle, along its own sides."""
    dx = x_mm - element.x_mm - element.w_mm / 2
    dy = y_mm - element.y_mm - element.h_mm / 2
    return _rotated(dx, dy, -element.turn_deg)


def handle_at(element: Element, handle: str) -> tuple[float, float]:
    """Where a handle lies on the label.

    Args:
        element: the element.
        handle: one of ``HANDLES``.
    """
    across, down = HANDLES[handle]
    dx, dy = _rotated(across * element.w_mm / 2, down * element.h_mm / 2, element.turn_deg)
    return element.x_mm + element.w_mm / 2 + dx, element.y_mm + element.h_mm / 2 + dy


def moved(element: One, dx_mm: float, dy_mm: float) -> One:
    """The element elsewhere."""
    return replace(element, x_mm=element.x_mm + dx_mm, y_mm=element.y_mm + dy_mm)


def resized(
    element: One, handle: str, to_mm: tuple[float, float], *, keep_shape: bool = False
) -> One:
    """Draw a handle to a place: the opposite side or corner stays where it is.

    Args:
        element: what is drawn at.
        handle: one of ``HANDLES``.
        to_mm: where the handle is drawn to on the label.
        keep_shape: width and height keep their ratio; a side takes the other along evenly.
    """
    across, down = HANDLES[handle]
    fixed = handle_at(element, _opposite(handle))
    u, v = _rotated(to_mm[0] - fixed[0], to_mm[1] - fixed[1], -element.turn_deg)
    wide = max(_LEAST_MM, across * u) if across else element.w_mm
    high = max(_LEAST_MM, down * v) if down else element.h_mm
    if element.h_mm == 0 and not keep_shape:
        high = 0.0 if not down or abs(v) < _LEAST_MM else high
    if keep_shape and element.w_mm > 0 and element.h_mm > 0:
        factor = _factor(element, (across, down), (wide, high))
        wide, high = element.w_mm * factor, element.h_mm * factor
    du, dv = _rotated(across * wide / 2, down * high / 2, element.turn_deg)
    middle = (fixed[0] + du, fixed[1] + dv)
    return replace(
        element, x_mm=middle[0] - wide / 2, y_mm=middle[1] - high / 2, w_mm=wide, h_mm=high
    )


def _factor(element: Element, way: tuple[int, int], size: tuple[float, float]) -> float:
    by_width, by_height = size[0] / element.w_mm, size[1] / element.h_mm
    if not way[1]:
        return by_width
    return max(by_width, by_height) if way[0] else by_height


def turned_to(element: One, pointer_mm: tuple[float, float], step_deg: float = 0.0) -> One:
    """Turn an element so that its top points at a place, in steps when asked for.

    Args:
        element: what is turned.
        pointer_mm: place on the label.
        step_deg: the turn is a whole number of such steps; 0: any.
    """
    dx = pointer_mm[0] - element.x_mm - element.w_mm / 2
    dy = pointer_mm[1] - element.y_mm - element.h_mm / 2
    if dx == 0 and dy == 0:
        return element
    return replace(element, turn_deg=tidy_turn(math.degrees(math.atan2(dx, -dy)), step_deg))


def tidy_turn(degrees: float, step_deg: float = 0.0) -> float:
    """A turn from 0 up to 360, to whole steps when asked for, else to a tenth of a degree."""
    step = step_deg or 0.1
    turn = round(degrees / step) * step % _WHOLE_TURN
    return round(turn, 3) % _WHOLE_TURN


def aligned(boxes: Mapping[int, Box], to: str, within: Box) -> dict[int, tuple[float, float]]:
    """How far each box moves so that all stand at one edge or middle.

    Args:
        boxes: by the number of their element.
        to: one of ``ALIGNMENTS``.
        within: the rectangle they are aligned in.
    """
    moves = {}
    for at, box in boxes.items():
        dx = dy = 0.0
        if to in {"left", "right"}:
            dx = getattr(within, to) - getattr(box, to)
        elif to in {"top", "bottom"}:
            dy = getattr(within, to) - getattr(box, to)
        elif to == "centre":
            dx = within.middle[0] - box.middle[0]
        else:
            dy = within.middle[1] - box.middle[1]
        moves[at] = (dx, dy)
    return moves


def distributed(boxes: Mapping[int, Box], *, across: bool) -> dict[int, tuple[float, float]]:
    """How far each box moves so that the gaps between them are equal; the outer two stay.

    Args:
        boxes: by the number of their element; fewer than three stay where they are.
        across: from left to right, else from top to bottom.
    """
    near, far = ("left", "right") if across else ("top", "bottom")
    order = sorted(boxes, key=lambda at: getattr(boxes[at], near))
    if len(order) <= _TWO:
        return dict.fromkeys(order, (0.0, 0.0))
    start, end = getattr(boxes[order[0]], near), max(getattr(boxes[at], far) for at in order)
    sizes = [getattr(boxes[at], far) - getattr(boxes[at], near) for at in order]
    gap = (end - start - math.fsum(sizes)) / (len(order) - 1)
    moves, place = {}, start
    for at, size in zip(order, sizes, strict=True):
        by = place - getattr(boxes[at], near)
        moves[at] = (by, 0.0) if across else (0.0, by)
        place += size + gap
    return moves


@dataclass(frozen=True, slots=True)
class Snap:
    """How far a box jumps to a line, and the lines it then stands at.

    Attributes:
        dx, dy: the jump.
        upright: x of the vertical line, or None.
        level: y of the horizontal line, or None.
    """

    dx: float = 0.0
    dy: float = 0.0
    upright: float | None = None
    level: float | None = None


def snap_lines(
    design: LabelDesign, others: Sequence[Box], guides: Sequence[Guide] = ()
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Where things snap: edges, safe zone and middle of the label, guides, and other things.

    Args:
        design: the label.
        others: boxes of what stands still; their edges and middles count.
        guides: laid on the label.

    Returns:
        x of the vertical lines and y of the horizontal ones.
    """
    safe = design.safe_mm
    wide, high = design.width_mm, design.height_mm
    uprights = [0.0, safe, wide / 2, wide - safe, wide]
    levels = [0.0, safe, high / 2, high - safe, high]
    for box in others:
        uprights += [box.left, box.middle[0], box.right]
        levels += [box.top, box.middle[1], box.bottom]
    laid_upright, laid_level = guide_lines(guides)
    return (*laid_upright, *uprights), (*laid_level, *levels)


def guides_along(box: Box) -> tuple[Guide, ...]:
    """Guides at the four edges of a box."""
    uprights = tuple(Guide(upright=True, at_mm=x) for x in (box.left, box.right))
    return (*uprights, *(Guide(upright=False, at_mm=y) for y in (box.top, box.bottom)))


def guides_through(box: Box) -> tuple[Guide, ...]:
    """Two guides through the middle of a box."""
    x, y = box.middle
    return Guide(upright=True, at_mm=x), Guide(upright=False, at_mm=y)


def snapped(box: Box, uprights: Sequence[float], levels: Sequence[float], reach_mm: float) -> Snap:
    """The nearest jump that brings an edge or the middle of a box onto a line.

    Args:
        box: where it would be.
        uprights: x of vertical lines.
        levels: y of horizontal lines.
        reach_mm: lines further away than this are left alone.
    """
    dx, upright = _nearest((box.middle[0], box.left, box.right), uprights, reach_mm)
    dy, level = _nearest((box.middle[1], box.top, box.bottom), levels, reach_mm)
    return Snap(dx, dy, upright, level)


def _nearest(
    places: Sequence[float], lines: Sequence[float], reach_mm: float
) -> tuple[float, float | None]:
    best: tuple[float, float | None] = (0.0, None)
    least = reach_mm
    for place in places:
        for line in lines:
            if abs(line - place) < least:
                least, best = abs(line - place), (line - place, line)
    return best


def _opposite(handle: str) -> str:
    return handle.translate(str.maketrans("nswe", "snew"))


def _rotated(x: float, y: float, degrees: float) -> tuple[float, float]:
    if degrees == 0:
        return x, y
    angle = math.radians(degrees)
    cos, sin = math.cos(angle), math.sin(angle)
    return x * cos - y * sin, x * sin + y * cos
