"""Paths as chains of points, close enough to be mapped point by point; lines as thin areas."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickbench.documents.surface import Path

Point = tuple[float, float]

STEP_MM: Final = 2.0
"""A straight line is cut into pieces no longer than this before it is bent."""
_CURVE_STEP: Final = 0.4
_LEAST_STEPS, _MOST_STEPS = 2, 24
_MITRE: Final = 4.0
_NONE: Final = 1e-9


@dataclass(frozen=True, slots=True)
class Chain:
    """Points one after the other; ``closed`` when the last one is joined to the first."""

    points: tuple[Point, ...]
    closed: bool = False


def chains(path: Path, *, step: float = STEP_MM, curve_step: float = _CURVE_STEP) -> list[Chain]:
    """The subpaths of a path as chains.

    Args:
        path: in any unit.
        step: longest piece of a straight line, in that unit.
        curve_step: longest piece of a curve's control polygon, about.
    """
    found: list[Chain] = []
    points: list[Point] = []
    for command, *numbers in path:
        values = [float(number) for number in numbers]
        at = [(values[i], values[i + 1]) for i in range(0, len(values), 2)]
        if command == "m":
            _end(found, points, closed=False)
            points = [*at]
        elif command == "z":
            start = points[:1]
            _end(found, _closed(points, step), closed=True)
            points = start
        elif points:
            size = step if command == "l" else curve_step
            points += _piece(points[-1], at, size, straight=command == "l")
    _end(found, points, closed=False)
    return found


def _end(found: list[Chain], points: list[Point], *, closed: bool) -> None:
    if len(points) > 1:
        found.append(Chain(tuple(points), closed))


def _closed(points: list[Point], step: float) -> list[Point]:
    """With the last line back to the start cut up as well; the start is not repeated."""
    if len(points) < 2:  # noqa: PLR2004 - one point has no way back
        return points
    whole = [*points, *_piece(points[-1], [points[0]], step, straight=True)]
    return whole[:-1]


def _piece(start: Point, at: Sequence[Point], step: float, *, straight: bool) -> list[Point]:
    long, before = 0.0, start
    for point in at:
        long += math.dist(before, point)
        before = point
    least = 1 if straight else _LEAST_STEPS
    most = 10_000 if straight else _MOST_STEPS
    count = max(least, min(most, math.ceil(long / step)))
    if count == 1:
        return [at[-1]]
    return [_at((start, *at), n / count) for n in range(1, count + 1)]


def _at(controls: Sequence[Point], share: float) -> Point:
    """A place on a Bézier curve of any degree, by de Casteljau."""
    points = list(controls)
    while len(points) > 1:
        points = [
            (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
            for a, b in pairwise(points)
        ]
    return points[0]


# -- lines with a width --------------------------------------------------------------------------
def ribbon(chain: Chain, width: float) -> list[Chain]:
    """The area that a line of a width covers: butt ends, mitred corners; fill it non-zero."""
    points = _distinct(chain)
    if len(points) < 2 or width <= 0:  # noqa: PLR2004 - a point has no direction
        return []
    half = width / 2
    left = [_beside(points, at, half, closed=chain.closed) for at in range(len(points))]
    right = [_beside(points, at, -half, closed=chain.closed) for at in range(len(points))]
    if chain.closed and len(points) > 2:  # noqa: PLR2004 - two points close nothing
        return [Chain(tuple(left), closed=True), Chain(tuple(reversed(right)), closed=True)]
    return [Chain((*left, *reversed(right)), closed=True)]


def _distinct(chain: Chain) -> list[Point]:
    kept: list[Point] = []
    for point in chain.points:
        if not kept or math.dist(kept[-1], point) > _NONE:
            kept.append(point)
    if chain.closed and len(kept) > 1 and math.dist(kept[0], kept[-1]) <= _NONE:
        kept.pop()
    return kept


def _beside(points: Sequence[Point], at: int, off: float, *, closed: bool) -> Point:
    before = points[at - 1] if at or closed else None
    after = points[(at + 1) % len(points)] if at + 1 < len(points) or closed else None
    here = points[at]
    normals = [
        _normal(a, b) for a, b in ((before, here), (here, after)) if a is not None and b is not None
    ]
    x, y = (sum(axis) / len(normals) for axis in zip(*normals, strict=True))
    size = x * x + y * y
    # The mitre of two edges: their mean normal, longer the sharper the corner, up to a limit.
    grow = off / max(size, 1.0 / _MITRE**2)
    return here[0] + x * grow, here[1] + y * grow


def _normal(a: Point, b: Point) -> Point:
    long = math.dist(a, b) or 1.0
    return (b[1] - a[1]) / long, (a[0] - b[0]) / long


def dashed(chain: Chain, dashes: Sequence[float]) -> Iterator[Chain]:
    """The drawn pieces of a line with dashes and gaps of these lengths, in turn."""
    if not dashes or sum(dashes) <= _NONE:
        yield chain
        return
    lengths = [*dashes, *dashes] if len(dashes) % 2 else [*dashes]
    points = [*chain.points, chain.points[0]] if chain.closed else [*chain.points]
    number, left, piece = 0, lengths[0], [points[0]]
    for end in points[1:]:
        here = piece[-1]
        long = math.dist(here, end)
        while long > left:
            share = left / long
            here = (here[0] + (end[0] - here[0]) * share, here[1] + (end[1] - here[1]) * share)
            if number % 2 == 0:
                yield Chain((*piece, here))
            long, number = long - left, number + 1
            piece, left = [here], lengths[number % len(lengths)]
        left -= long
        piece.append(end)
    if number % 2 == 0 and len(piece) > 1:
        yield Chain(tuple(piece))
