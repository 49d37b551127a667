"""Placing boxes in a column so that none stand on each other."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence


def spread(wanted: Sequence[float], sizes: Sequence[float], low: float, high: float) -> list[float]:
    """Centres of boxes in a column so that none overlap, each near where it wants to be.

    Args:
        wanted: centres as wished, rising.
        sizes: heights of the boxes.
        low: lower end of the column.
        high: upper end; boxes pass it only when there is no room for all.
    """
    placed: list[float] = []
    edge = low
    for centre, size in zip(wanted, sizes, strict=True):
        at = max(centre, edge + size / 2)
        placed.append(at)
        edge = at + size / 2
    edge = max(high, low + sum(sizes))
    for at in range(len(placed) - 1, -1, -1):
        placed[at] = min(placed[at], edge - sizes[at] / 2)
        edge = placed[at] - sizes[at] / 2
    return placed
