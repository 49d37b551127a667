"""Paths bent with the label: straight lines become arcs and every curve the bent one.

A piece of a path is mapped at its ends, with the directions there, and drawn as one cubic curve;
where that strays from the true line it is cut in two, and so on.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.documents.ring import Ring
    from wickbench.documents.surface import Path

NEAR_MM: Final = 0.005
"""A bent path lies no further from the true line."""

_DEEPEST: Final = 10
_LOOKS: Final = (0.25, 0.5, 0.75)

_Point = tuple[float, float]
_Piece = Callable[[float], tuple[_Point, _Point]]
"""From 0 to 1 along a piece: place and derivative in the flat."""


@lru_cache(1024)
def bend_path(ring: Ring, path: Path) -> Path:
    """A path of the flat rectangle as it lies on the paper; kept, for one types elsewhere."""
    bent: list[tuple[str | float, ...]] = []
    start = here = (0.0, 0.0)
    for command, *numbers in path:
        values = [float(one) for one in numbers]
        points = list(zip(values[::2], values[1::2], strict=True))
        if command == "m":
            start = here = points[0]
            bent.append(("m", *ring.to_paper(*here)))
            continue
        if command == "z":
            if math.dist(here, start) > NEAR_MM:
                bent += _bent(ring, _piece((here, start)))
            bent.append(("z",))
            here = start
            continue
        bent += _bent(ring, _piece((here, *points)))
        here = points[-1]
    return tuple(bent)


def _bent(
    ring: Ring, piece: _Piece, low: float = 0.0, high: float = 1.0, depth: int = 0
) -> Iterator[tuple[str | float, ...]]:
    third = (high - low) / 3
    (first, lead), (last, trail) = piece(low), piece(high)
    begin, end = ring.to_paper(*first), ring.to_paper(*last)
    out, back = ring.direction(first, lead), ring.direction(last, trail)
    curve = (
        begin,
        (begin[0] + third * out[0], begin[1] + third * out[1]),
        (end[0] - third * back[0], end[1] - third * back[1]),
        end,
    )
    if depth < _DEEPEST and any(
        math.dist(_on(curve, t), ring.to_paper(*piece(low + t * (high - low))[0])) > NEAR_MM
        for t in _LOOKS
    ):
        middle = (low + high) / 2
        yield from _bent(ring, piece, low, middle, depth + 1)
        yield from _bent(ring, piece, middle, high, depth + 1)
        return
    yield ("c", *curve[1], *curve[2], *curve[3])


def _piece(points: tuple[_Point, ...]) -> _Piece:
    """A straight line, a quadratic or a cubic curve by its points (Bernstein polynomials)."""

    def at(t: float) -> tuple[_Point, _Point]:
        return _on(points, t), _slope(points, t)

    return at


def _on(points: tuple[_Point, ...], t: float) -> _Point:
    while len(points) > 1:
        points = tuple(
            (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])) for a, b in pairwise(points)
        )
    return points[0]


def _slope(points: tuple[_Point, ...], t: float) -> _Point:
    order = len(points) - 1
    steps = tuple((order * (b[0] - a[0]), order * (b[1] - a[1])) for a, b in pairwise(points))
    return _on(steps, t)
