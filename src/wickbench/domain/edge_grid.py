"""A regular row of stickers found among edges that a picture shows."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Sequence

MOST: Final = 60
"""Stickers side by side at most."""
SMALLEST_MM: Final = 5.0
WIDEST_GAP_MM: Final = 30.0
_WIDEST_PART: Final = 1.2
_SAME_RATE: Final = 0.02
_OUTER: Final = 4
_LEAST_SEEN: Final = 0.7
_LEAST_SAID: Final = 0.55


@dataclass(frozen=True, slots=True)
class Edge:
    """An edge in a picture: its place, mm, and how clearly it shows."""

    place_mm: float
    strength: float


@dataclass(frozen=True, slots=True)
class EdgeGrid:
    """Stickers along a side.

    Attributes:
        count: how many.
        margin_mm: paper's edge to the first.
        pitch_mm: from one to the next; the size when there is one.
        size_mm: of a sticker.
        seen: part of the edges that stickers so placed have and that show.
        said: part of what shows that is an edge of such a sticker, by strength.
    """

    count: int
    margin_mm: float
    pitch_mm: float
    size_mm: float
    seen: float = 0.0
    said: float = 0.0

    def near_mm(self, at: int) -> float:
        """Near edge of a sticker, from 0."""
        return self.margin_mm + at * self.pitch_mm

    @property
    def edges_mm(self) -> tuple[float, ...]:
        """Near and far edge of each sticker."""
        near = [self.near_mm(at) for at in range(self.count)]
        return tuple(place for one in near for place in (one, one + self.size_mm))


def find_grid(edges: Sequence[Edge], within_mm: float) -> EdgeGrid | None:
    """The row of equal stickers, evenly spaced, that explains the edges best.

    Tried are one of the outermost edges at either end as the first and the last one, every edge
    as the end of the first sticker, and every count.

    Args:
        edges: in any order.
        within_mm: how far an edge may be from its place.

    Returns:
        The best; ``None`` when none explains enough.
    """
    ordered = sorted(edges, key=lambda one: one.place_mm)
    best: EdgeGrid | None = None
    for first in ordered[:_OUTER]:
        for last in ordered[-_OUTER:]:
            for size in _sizes(ordered, first, last):
                for count, pitch in _counts(first.place_mm, last.place_mm, size):
                    tried = EdgeGrid(count, first.place_mm, pitch, size)
                    found = _rated(ordered, tried, within_mm)
                    if best is None or _better(found, best):
                        best = found
    if best is None or best.seen < _LEAST_SEEN or best.said < _LEAST_SAID:
        return None
    return best


def _sizes(ordered: Sequence[Edge], first: Edge, last: Edge) -> list[float]:
    """Distances from the first edge to others: one of them is a sticker's size."""
    distances = [one.place_mm - first.place_mm for one in ordered]
    longest = last.place_mm - first.place_mm
    return [one for one in distances if SMALLEST_MM <= one <= longest]


def _counts(first_mm: float, last_mm: float, size_mm: float) -> list[tuple[int, float]]:
    """Counts with their pitch at which the last sticker ends at the last edge."""
    length = last_mm - first_mm
    if abs(length - size_mm) < SMALLEST_MM / 2:
        return [(1, size_mm)]
    found = []
    for count in range(2, MOST + 1):
        gap = (length - count * size_mm) / (count - 1)
        if gap < -size_mm / 10:
            break
        if gap <= min(WIDEST_GAP_MM, _WIDEST_PART * size_mm):
            found.append((count, size_mm + gap))
    return found


def _rated(ordered: Sequence[Edge], grid: EdgeGrid, within_mm: float) -> EdgeGrid:
    """The grid with how many of its edges show, and how much of what shows it explains."""
    places = [one.place_mm for one in ordered]
    used: set[int] = set()
    wanted = grid.edges_mm
    seen = 0
    for place in wanted:
        at = bisect_left(places, place)
        near = [one for one in (at - 1, at) if 0 <= one < len(places)]
        best = min(near, key=lambda one: abs(places[one] - place))
        if abs(places[best] - place) <= within_mm:
            seen += 1
            used.add(best)
    whole = sum(one.strength for one in ordered)
    said = sum(ordered[at].strength for at in used) / whole if whole else 0.0
    return replace(grid, seen=seen / len(wanted), said=said)


def _better(one: EdgeGrid, other: EdgeGrid) -> bool:
    """Explains more; of two that explain the same, the one with more stickers.

    Stickers that touch could as well be every second one, with gaps as wide as stickers.
    """
    rates = [found.seen * found.said for found in (one, other)]
    if abs(rates[0] - rates[1]) <= _SAME_RATE:
        return one.count > other.count
    return rates[0] > rates[1]
