"""Shapes that ornaments are made of: leaves, ribbons that swell and taper, petals, stars.

Every drawing has units of its own, y down; `documents.ornaments` scales it to its box.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from wickbench.documents.affine import Affine, turn
from wickbench.documents.outlines import oval
from wickbench.documents.pictogram_drawings import at_part
from wickbench.documents.surface import Path, map_path

Point = tuple[float, float]
Curve = Callable[[float], Point]
"""From the part of the way, 0 to 1, to the place there."""

_CONTROL: Final = 2 / 3  # control points this far out give a leaf half as wide as it should be
_SMALL: Final = 1e-4


@dataclass(frozen=True, slots=True)
class Part:
    """One figure of an ornament.

    Attributes:
        path: path commands, y down.
        stroke: line width; 0 for a filled figure.
        even_odd: filled by the even-odd rule, so that a figure within is a hole.
    """

    path: Path
    stroke: float = 0.0
    even_odd: bool = False


Parts = tuple[Part, ...]


def moved(parts: Sequence[Part], affine: Affine) -> Parts:
    """The parts mapped; line widths grow with the size."""
    k = math.sqrt(abs(affine.a * affine.d - affine.b * affine.c))
    return tuple(
        replace(part, path=map_path(affine, part.path), stroke=part.stroke * k) for part in parts
    )


def mirrored(parts: Sequence[Part], x: float = 0.0) -> Parts:
    """The parts seen in an upright mirror that stands at x."""
    return moved(parts, Affine(-1.0, 0.0, 0.0, 1.0, 2 * x, 0.0))


def upside_down(parts: Sequence[Part], y: float = 0.0) -> Parts:
    """The parts seen in a level mirror at y."""
    return moved(parts, Affine(1.0, 0.0, 0.0, -1.0, 0.0, 2 * y))


def around(parts: Sequence[Part], count: int, middle: Point = (0.0, 0.0)) -> Parts:
    """The parts repeated about a middle."""
    return tuple(
        one for at in range(count) for one in moved(parts, turn(360.0 * at / count, *middle))
    )


def disc(x: float, y: float, radius: float) -> Part:
    """A filled disc."""
    return Part(oval(x - radius, y - radius, 2 * radius, 2 * radius))


def ring(x: float, y: float, radius: float, width: float) -> Part:
    """A circle as a line; the radius is that of its middle."""
    return Part(oval(x - radius, y - radius, 2 * radius, 2 * radius), width)


def polygon(*corners: Point) -> Part:
    """A filled figure with straight sides."""
    first, *others = corners
    return Part((("m", *first), *(("l", *corner) for corner in others), ("z",)))


def star(rays: int, outer: float, inner: float, middle: Point = (0.0, 0.0)) -> Part:
    """A star with a ray upwards."""
    corners = []
    for at in range(2 * rays):
        angle, reach = math.pi * at / rays, inner if at % 2 else outer
        corners.append((middle[0] + reach * math.sin(angle), middle[1] - reach * math.cos(angle)))
    return polygon(*corners)


def leaf(base: Point, tip: Point, width: float, bend: float = 0.0, belly: float = 0.45) -> Part:
    """A leaf from base to tip.

    Args:
        base: where it grows.
        tip: its point.
        width: at its widest.
        bend: how far its middle lies to the right of the straight way, in parts of its length.
        belly: where it is widest, as a part of its length.
    """
    long = math.dist(base, tip)
    out, aside = width * _CONTROL, bend * long
    near, far = belly * 0.55 * long, (belly + (1 - belly) * 0.5) * long
    sides: Path = (
        ("m", 0.0, 0.0),
        ("c", near, aside - out, far, aside - out * 0.85, long, 0.0),
        ("c", far, aside + out * 0.85, near, aside + out, 0.0, 0.0),
        ("z",),
    )
    return Part(map_path(_from_to(base, tip), sides))


def blade(base: Point, tip: Point, width: float) -> Part:
    """A narrow petal with a round end, such as a ray of a daisy."""
    long = math.dist(base, tip)
    half = width / 2
    sides: Path = (
        ("m", 0.0, 0.0),
        ("c", long * 0.3, -half * 0.9, long * 0.55, -half * 1.25, long * 0.86, -half),
        ("c", long * 1.05, -half * 0.7, long * 1.05, half * 0.7, long * 0.86, half),
        ("c", long * 0.55, half * 1.25, long * 0.3, half * 0.9, 0.0, 0.0),
        ("z",),
    )
    return Part(map_path(_from_to(base, tip), sides))


def bezier(*controls: Point) -> Curve:
    """A Bézier curve of any degree."""
    return lambda part: at_part(list(controls), part)


def arc(middle: Point, radius: float, begin_deg: float, end_deg: float) -> Curve:
    """A piece of a circle; 0° is upwards, angles grow clockwise."""

    def curve(part: float) -> Point:
        angle = math.radians(begin_deg + (end_deg - begin_deg) * part)
        return middle[0] + radius * math.sin(angle), middle[1] - radius * math.cos(angle)

    return curve


def spiral(middle: Point, radii: tuple[float, float], begin_deg: float, end_deg: float) -> Curve:
    """A spiral whose radius goes evenly from the first to the second."""

    def curve(part: float) -> Point:
        radius = radii[0] + (radii[1] - radii[0]) * part
        return arc(middle, radius, begin_deg, end_deg)(part)

    return curve


def ribbon(curve: Curve, *widths: float, steps: int = 16) -> Part:
    """A band along a curve whose width goes smoothly through these widths.

    Args:
        curve: its middle.
        widths: at even distances along it, the first and the last at its ends.
        steps: pieces of each side.
    """
    parts = [at / steps for at in range(steps + 1)]
    left = [_beside(curve, part, _between(widths, part) / 2) for part in parts]
    right = [_beside(curve, part, -_between(widths, part) / 2) for part in parts]
    back = smooth(right[::-1])
    return Part((*smooth(left), ("l", *right[-1]), *back[1:], ("z",)))


def line(curve: Curve, width: float, steps: int = 16) -> Part:
    """A curve as an even line."""
    return Part(smooth([curve(at / steps) for at in range(steps + 1)]), width)


def smooth(points: Sequence[Point]) -> Path:
    """A smooth path through points (Catmull and Rom's curve as cubics)."""
    path: list[tuple[str | float, ...]] = [("m", *points[0])]
    last = len(points) - 1
    for at in range(last):
        before, here = points[max(0, at - 1)], points[at]
        there, after = points[at + 1], points[min(last, at + 2)]
        path.append(
            (
                "c",
                here[0] + (there[0] - before[0]) / 6,
                here[1] + (there[1] - before[1]) / 6,
                there[0] - (after[0] - here[0]) / 6,
                there[1] - (after[1] - here[1]) / 6,
                *there,
            )
        )
    return tuple(path)


def direction(curve: Curve, part: float) -> Point:
    """The way that a curve goes at a part of it, one unit long."""
    (x1, y1), (x2, y2) = curve(max(0.0, part - _SMALL)), curve(min(1.0, part + _SMALL))
    long = math.hypot(x2 - x1, y2 - y1) or 1.0
    return (x2 - x1) / long, (y2 - y1) / long


def grown(curve: Curve, part: float, angle_deg: float, long: float) -> tuple[Point, Point]:
    """Base and tip of a leaf on a stem; the angle is from the stem's way, clockwise."""
    x, y = curve(part)
    dx, dy = direction(curve, part)
    angle = math.radians(angle_deg)
    ax = dx * math.cos(angle) - dy * math.sin(angle)
    ay = dx * math.sin(angle) + dy * math.cos(angle)
    return (x, y), (x + ax * long, y + ay * long)


def _beside(curve: Curve, part: float, by: float) -> Point:
    (x, y), (dx, dy) = curve(part), direction(curve, part)
    return x + dy * by, y - dx * by


def _between(widths: Sequence[float], part: float) -> float:
    if len(widths) == 1:
        return widths[0]
    place = part * (len(widths) - 1)
    at = min(int(place), len(widths) - 2)
    share = (1 - math.cos(math.pi * (place - at))) / 2
    return widths[at] + (widths[at + 1] - widths[at]) * share


def _from_to(base: Point, tip: Point) -> Affine:
    angle = math.degrees(math.atan2(tip[1] - base[1], tip[0] - base[0]))
    turned = turn(angle)
    return Affine(turned.a, turned.b, turned.c, turned.d, *base)
