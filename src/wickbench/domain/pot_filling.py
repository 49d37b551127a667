"""Filling pot after pot as full as can be, and how few pots could do at all."""

from __future__ import annotations

from math import gcd
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    Counts = tuple[int, ...]

_LOOKS_FOR_EACH_POT = 400
_COARSEST = 24


def fullest_first(sizes: Counts, counts: Counts, pot: int) -> tuple[Counts, ...]:
    """Each pot begins with the largest vessel left and is then filled as full as can be found.

    Minimum bin slack (Gupta and Ho, 1999), cut short after a fixed number of looks for each pot.
    """
    left = list(counts)
    pots: list[Counts] = []
    while any(left):
        filled = _Fullest(sizes, left, pot).counts
        left = [all_left - taken for all_left, taken in zip(left, filled, strict=True)]
        pots.append(filled)
    return tuple(pots)


class _Fullest:
    """One pot with the largest vessel in it and as little room left as can be found."""

    def __init__(self, sizes: Counts, left: Sequence[int], pot: int) -> None:
        self._sizes = sizes
        self._left = list(left)
        self._chosen = [0] * len(sizes)
        self._room = pot + 1
        self._looks = _LOOKS_FOR_EACH_POT
        self.counts: Counts = ()
        first = next(place for place, count in enumerate(left) if count)
        self._take(first, pot)

    @property
    def _done(self) -> bool:
        return self._room == 0 or self._looks <= 0

    def _take(self, place: int, room: int) -> None:
        """Take a vessel of this size, then what else fits; smaller sizes follow."""
        room -= self._sizes[place]
        self._left[place] -= 1
        self._chosen[place] += 1
        self._looks -= 1
        if room < self._room:
            self._room, self.counts = room, tuple(self._chosen)
        for after in range(place, len(self._sizes)):
            if self._done:
                break
            if self._left[after] and self._sizes[after] <= room:
                self._take(after, room)
        self._left[place] += 1
        self._chosen[place] -= 1


def rounded_bound(sizes: Counts, counts: Counts, pot: int) -> int:
    """No packing can do with fewer pots: vessels rounded up to what can matter in a pot.

    The dual feasible functions u of Fekete and Schepers (2001): a vessel above j/(k + 1) of the
    pot counts as j/k of it, since k of such parts fill the pot. The pot is first cut down to the
    largest multiple of the sizes' common divisor.
    """
    common = gcd(*sizes) or 1
    pot -= pot % common
    if pot <= 0:
        return 0
    best = 0
    for parts in range(1, _COARSEST):
        whole = 0
        for size, count in zip(sizes, counts, strict=True):
            above, rest = divmod(size * (parts + 1), pot)
            whole += count * (above * pot if rest else size * parts)
        best = max(best, -(-whole // (parts * pot)))
    return best
