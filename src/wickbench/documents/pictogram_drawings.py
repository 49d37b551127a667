"""Our own drawings for the caution pictograms, on a grid 24 units high, y down.

Each is ink on a ground; slashes are set off by a band of the ground. They copy no published
artwork.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from wickbench.documents.outlines import line, oval, rectangle
from wickbench.documents.surface import Path

GRID: Final = 24.0
LINE: Final = 1.5
INK: Final = "ink"
GROUND: Final = "ground"


@dataclass(frozen=True, slots=True)
class Part:
    """One figure of a drawing, in grid units.

    Attributes:
        path: path commands, y down.
        role: ``ink`` or ``ground``.
        stroke: line width in grid units; 0 for a filled figure.
    """

    path: Path
    role: str = INK
    stroke: float = 0.0


Parts = tuple[Part, ...]


def along(*controls: tuple[float, float], steps: int = 16) -> list[tuple[float, float]]:
    """Points of a Bézier curve of any degree, by repeated halving of its control polygon."""
    return [at_part(list(controls), step / steps) for step in range(1, steps + 1)]


def at_part(points: list[tuple[float, float]], t: float) -> tuple[float, float]:
    """The point of a Bézier curve at a part of its way, by the control polygon."""
    while len(points) > 1:
        points = [(a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t) for a, b in pairwise(points)]
    return points[0]


def _disc(x: float, y: float, radius: float) -> Path:
    return oval(x - radius, y - radius, 2 * radius, 2 * radius)


def _polygon(*corners: tuple[float, float]) -> Path:
    first, *others = corners
    return (("m", *first), *(("l", *corner) for corner in others), ("z",))


def _flame(x: float, y: float, height: float) -> Path:
    """A flame standing on (x, y)."""
    h, w = height, 0.40 * height
    return (
        ("m", x, y - h),
        ("c", x + 0.15 * h, y - 0.7 * h, x + w, y - 0.52 * h, x + w, y - 0.3 * h),
        ("c", x + w, y - 0.12 * h, x + 0.2 * h, y, x, y),
        ("c", x - 0.2 * h, y, x - w, y - 0.12 * h, x - w, y - 0.3 * h),
        ("c", x - w, y - 0.52 * h, x - 0.15 * h, y - 0.7 * h, x, y - h),
        ("z",),
    )


_RING: Final = Part(_disc(12, 12, 11.25), stroke=LINE)
_SLASH: Final = (
    Part(line(4.4, 4.4, 19.6, 19.6), GROUND, 3.4),
    Part(line(4.05, 4.05, 19.95, 19.95), stroke=LINE),
)


def _corner(
    before: tuple[float, float],
    at: tuple[float, float],
    after: tuple[float, float],
    cut: float,
) -> Path:
    """Line to a corner and round it off, ``cut`` being the part of each side that is taken."""
    start = at_part([at, before], cut)
    end = at_part([at, after], cut)
    return (("l", *start), ("q", *at, *end))


def _warning() -> Parts:
    """A full triangle with rounded corners and an exclamation mark."""
    top, right, left = (13.8, 0.0), (27.6, 24.0), (0.0, 24.0)
    begin = at_part([top, left], 0.08)
    sides = (
        *_corner(left, top, right, 0.08),
        *_corner(top, right, left, 0.08),
        *_corner(right, left, top, 0.08),
    )
    return (
        Part((("m", *begin), *sides[1:], ("z",))),
        Part(_polygon((12.1, 7.6), (15.5, 7.6), (14.7, 16.2), (12.9, 16.2)), GROUND),
        Part(_disc(13.8, 19.6, 1.6), GROUND),
    )


def _in_sight() -> Parts:
    """An eye above a burning candle."""
    lid = (("m", 4.6, 8.0), ("q", 12.0, 1.4, 19.4, 8.0), ("q", 12.0, 14.2, 4.6, 8.0), ("z",))
    return (
        _RING,
        Part(lid, stroke=1.3),
        Part(_disc(12, 7.9, 1.9)),
        Part(_flame(12, 17.2, 4.4)),
        Part(rectangle(9.2, 17.6, 5.6, 4.2)),
    )


def _no_fuel() -> Parts:
    """A candle under a hanging cloth, struck out."""
    cloth = (
        ("m", 12.0, 5.4),
        ("l", 19.4, 5.4),
        ("q", 20.4, 10.6, 19.6, 15.4),
        ("q", 18.4, 16.6, 17.2, 15.2),
        ("q", 15.8, 16.0, 14.6, 14.4),
        ("q", 13.4, 15.0, 12.4, 13.6),
        ("z",),
    )
    return (
        Part(line(9.6, 4.7, 20.0, 4.7), stroke=1.4),
        Part(cloth),
        Part(line(14.6, 6.4, 14.9, 12.6), GROUND, 0.8),
        Part(line(17.2, 6.4, 17.5, 14.0), GROUND, 0.8),
        Part(_flame(8.2, 14.2, 5.4)),
        Part(rectangle(5.8, 14.8, 4.8, 5.0)),
        *_SLASH,
        _RING,
    )


def _no_children_or_pets() -> Parts:
    """A child and a cat, struck out."""
    body = ((15.4, 8.4), (18.8, 8.4), (20.0, 12.4), (19.0, 12.4), (19.0, 15.0))
    legs = ((17.2, 15.0), (17.2, 12.4), (14.6, 12.4))
    head = ((4.4, 10.6), (5.6, 12.0), (7.4, 12.0), (8.6, 10.6), (8.6, 14.0), (7.9, 15.0))
    back = ((10.2, 17.2), (10.6, 20.4), (4.9, 20.4), (5.4, 15.2), (4.4, 14.0))
    return (
        Part(_disc(17.1, 5.9, 1.95)),
        Part(_polygon(*body, *legs)),
        Part(_polygon(*head, *back)),
        *_SLASH,
        _RING,
    )


def _trim() -> Parts:
    """Scissors across the wick of a candle."""
    return (
        _RING,
        Part(rectangle(4.4, 15.4, 8.2, 4.4)),
        Part(line(8.5, 6.0, 8.5, 15.4), stroke=1.2),
        Part(line(4.6, 9.4, 16.0, 13.2), stroke=1.4),
        Part(line(4.6, 13.2, 16.0, 9.4), stroke=1.4),
        Part(_disc(17.6, 8.4, 1.9), stroke=1.3),
        Part(_disc(17.6, 14.2, 1.9), stroke=1.3),
    )


def _hours() -> Parts:
    """A clock face with a burning candle in it."""
    return (
        _RING,
        Part(line(12, 2.4, 12, 4.6), stroke=1.3),
        Part(line(2.4, 12, 4.6, 12), stroke=1.3),
        Part(line(19.4, 12, 21.6, 12), stroke=1.3),
        Part(line(12, 11.6, 12, 5.6), stroke=1.6),
        Part(line(11.4, 11.6, 17.4, 8.4), stroke=1.6),
        Part(_flame(12, 17.2, 4.4)),
        Part(rectangle(9.8, 17.6, 4.4, 3.6)),
    )


def _on_stone() -> Parts:
    """A burning jar on a thick slab."""
    return (
        _RING,
        Part(_flame(12, 9.4, 6.0)),
        Part(_polygon((7.8, 10.0), (7.8, 15.6), (16.2, 15.6), (16.2, 10.0)), stroke=1.3),
        Part(rectangle(7.8, 12.4, 8.4, 3.2)),
        Part(rectangle(4.6, 17.0, 14.8, 2.4)),
    )


def _stay_put() -> Parts:
    """A burning jar with arrows to both sides, struck out."""
    head, tail = ((2.4, 14.0), (5.6, 10.8)), ((5.6, 15.2), (5.6, 17.2))
    arrow = (*head, (5.6, 12.8), (7.4, 12.8), (7.4, 15.2), *tail)
    other = tuple((GRID - x, y) for x, y in arrow)
    return (
        Part(_flame(12, 9.0, 5.8)),
        Part(rectangle(8.4, 9.8, 7.2, 9.4)),
        Part(_polygon(*arrow)),
        Part(_polygon(*other)),
        *_SLASH,
        _RING,
    )


DRAWINGS: Final[dict[str, Parts]] = {
    "safety-alert": _warning(),
    "never-unattended": _in_sight(),
    "away-from-combustibles": _no_fuel(),
    "away-from-children-and-pets": _no_children_or_pets(),
    "trim-wick": _trim(),
    "max-hours": _hours(),
    "heat-resistant-surface": _on_stone(),
    "do-not-move": _stay_put(),
}
