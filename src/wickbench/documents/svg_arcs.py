"""Elliptical arcs as cubic curves, after SVG 2, appendix B.2 (implementation notes)."""

from __future__ import annotations

import math

Command = tuple[str | float, ...]
Point = tuple[float, float]


def arc_to(
    begin: Point, radii: Point, turned_deg: float, flags: Point, end: Point
) -> list[Command]:
    """An arc from one point to another.

    Args:
        begin: where it starts.
        radii: half axes; too small ones grow, zero makes a straight line.
        turned_deg: turn of the ellipse, clockwise with y down.
        flags: large arc and sweep, 0 or 1.
        end: where it ends.
    """
    rx, ry = abs(radii[0]), abs(radii[1])
    if begin == end:
        return []
    if not (rx and ry):
        return [("l", *end)]
    cosine, sine = math.cos(math.radians(turned_deg)), math.sin(math.radians(turned_deg))
    half = ((begin[0] - end[0]) / 2, (begin[1] - end[1]) / 2)
    x, y = cosine * half[0] + sine * half[1], -sine * half[0] + cosine * half[1]
    grow = math.sqrt(max(1.0, (x / rx) ** 2 + (y / ry) ** 2))
    rx, ry = rx * grow, ry * grow
    size = (rx * y) ** 2 + (ry * x) ** 2
    away = math.sqrt(max(0.0, (rx * ry) ** 2 - size) / size)
    away = -away if flags[0] == flags[1] else away
    cx, cy = away * rx * y / ry, -away * ry * x / rx
    first = math.atan2((y - cy) / ry, (x - cx) / rx)
    swept = math.atan2((-y - cy) / ry, (-x - cx) / rx) - first
    if flags[1] and swept < 0:
        swept += 2 * math.pi
    elif not flags[1] and swept > 0:
        swept -= 2 * math.pi
    middle = (
        cosine * cx - sine * cy + (begin[0] + end[0]) / 2,
        sine * cx + cosine * cy + (begin[1] + end[1]) / 2,
    )
    pieces = _pieces(middle, (rx, ry), (cosine, sine), first, swept)
    return [*pieces[:-1], (*pieces[-1][:5], *end)]


def _pieces(
    middle: Point, radii: Point, turned: Point, first: float, swept: float
) -> list[Command]:
    count = max(1, math.ceil(abs(swept) / (math.pi / 2) - 1e-9))
    step = swept / count
    reach = 4 / 3 * math.tan(step / 4)

    def place(across: float, down: float) -> Point:
        x, y = across * radii[0], down * radii[1]
        return (
            middle[0] + turned[0] * x - turned[1] * y,
            middle[1] + turned[1] * x + turned[0] * y,
        )

    made: list[Command] = []
    for at in range(count):
        a, b = first + step * at, first + step * (at + 1)
        near = place(math.cos(a) - reach * math.sin(a), math.sin(a) + reach * math.cos(a))
        far = place(math.cos(b) + reach * math.sin(b), math.sin(b) - reach * math.cos(b))
        made.append(("c", *near, *far, *place(math.cos(b), math.sin(b))))
    return made
