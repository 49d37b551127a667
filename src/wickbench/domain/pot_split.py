"""Packing whole vessels into the fewest pots: exact, on counts of equal sizes.

Vessels of one size are alike, so a pot is a tuple of counts, one for each size. A workshop has
few sizes: branch and bound over such counts stays small even for hundreds of vessels. All masses
here are whole numbers of one small unit, so that sums and comparisons are exact.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import permutations
from typing import TYPE_CHECKING

from wickbench.domain.pot_filling import fullest_first, rounded_bound

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    Counts = tuple[int, ...]
    Pots = tuple[Counts, ...]

_SEARCH_STEPS = 20_000
_QUICK_STEPS = 600
_LEVELLING_STEPS = 1_500
_ORDERS_TRIED_UP_TO = 4
_MOST_POTS_SEARCHED = 150
"""Each pot is one level of the search; more would outgrow the stack."""


@dataclass(frozen=True, slots=True)
class Groups:
    """How many vessels there are of each size.

    Attributes:
        sizes: masses in whole units, largest first, each once.
        counts: vessels of each size.
    """

    sizes: Counts
    counts: Counts

    @classmethod
    def of(cls, units: Iterable[int]) -> Groups:
        """Group vessels by size; empty vessels count too."""
        tally = Counter(units)
        sizes = tuple(sorted(tally, reverse=True))
        return cls(sizes, tuple(tally[size] for size in sizes))

    @property
    def whole(self) -> int:
        """Everything together."""
        return self.load(self.counts)

    def load(self, counts: Sequence[int]) -> int:
        """Mass of a pot with these counts."""
        return sum(size * count for size, count in zip(self.sizes, counts, strict=True))


@dataclass(frozen=True, slots=True)
class Packing:
    """Vessels shared out over pots, and how certain it is that no fewer would do.

    Attributes:
        pots: counts of each size, pot by pot.
        over: at most so many of the pots are more than needed; 0 when they are known to be fewest.
        hurried: a search was cut short that may find better when it is given its time.
    """

    pots: Pots
    over: int = 0
    hurried: bool = False


@dataclass(frozen=True, slots=True)
class _Tried:
    """What a search came to, and the steps that it left; below zero when it was cut short."""

    pots: Pots | None
    left: int

    @property
    def cut(self) -> bool:
        return self.pots is None and self.left < 0


class _TooLong(Exception):
    """The search has used up its steps."""


def lower_bound(groups: Groups, pot: int) -> int:
    """No packing can do with fewer pots (bound L2 of Martello and Toth, 1990).

    For every threshold, vessels above ``pot - threshold`` each need a pot of their own, those
    above half a pot too, and what is left over beside them must hold the rest.
    """
    if not groups.sizes or pot <= 0:
        return 0
    best = -(-groups.whole // pot)
    thresholds = {0, *(size for size in groups.sizes if 2 * size <= pot)}
    pairs = list(zip(groups.sizes, groups.counts, strict=True))
    for least in thresholds:
        alone = sum(n for size, n in pairs if size > pot - least)
        half = [(size, n) for size, n in pairs if pot - least >= size > pot / 2]
        small = sum(size * n for size, n in pairs if pot / 2 >= size >= least)
        room = sum((pot - size) * n for size, n in half)
        more = -(-(small - room) // pot) if small > room else 0
        best = max(best, alone + sum(n for _, n in half) + more)
    return best


def first_fit(groups: Groups, pot: int) -> Pots:
    """First fit, largest vessels first, by counts."""
    left = list(groups.counts)
    pots: list[Counts] = []
    while any(left):
        room = pot
        filled: list[int] = []
        for place, size in enumerate(groups.sizes):
            count = min(left[place], room // size) if size else left[place]
            room -= count * size
            left[place] -= count
            filled.append(count)
        pots.append(tuple(filled))
    return tuple(pots)


@lru_cache(maxsize=512)
def fewest_pots(groups: Groups, pot: int, steps: int = _SEARCH_STEPS) -> Packing:
    """The fewest pots that hold all; every size must fit a pot by itself.

    Exact, unless a search is cut short after so many steps: then the best that was found stands
    and says by how many pots it may miss the fewest.
    """
    bound = max(lower_bound(groups, pot), rounded_bound(groups.sizes, groups.counts, pot))
    found = first_fit(groups, pot)
    if len(found) > bound:
        found = min(found, fullest_first(groups.sizes, groups.counts, pot), key=len)
    while len(found) > bound:
        tried = _pack_in(groups, pot, len(found) - 1, steps)
        if tried.cut:
            return Packing(found, len(found) - bound, steps < _SEARCH_STEPS)
        if tried.pots is None:
            break
        found = tried.pots
    return Packing(found)


def _pack_in(groups: Groups, pot: int, number: int, steps: int) -> _Tried:
    """A packing into ``number`` pots, or none when there is none or it was not found in time."""
    waste = number * pot - groups.whole
    if waste < 0:
        return _Tried(None, steps)
    if number > _MOST_POTS_SEARCHED:
        return _Tried(None, -1)
    search = _Search(groups.sizes, pot, steps)
    try:
        pots = search.fill(groups.counts, waste)
    except _TooLong:
        return _Tried(None, -1)
    if pots is None:
        return _Tried(None, search.left)
    empty = (0,) * len(groups.sizes)
    return _Tried(pots + (empty,) * (number - len(pots)), search.left)


class _Search:
    """Fills one pot after another; each begins with the largest vessel left."""

    def __init__(self, sizes: Counts, pot: int, steps: int) -> None:
        self._sizes = sizes
        self._pot = pot
        self.left = steps
        self._dead: dict[Counts, int] = {}

    def fill(self, left: Counts, waste: int) -> Pots | None:
        """Pots for what is left, wasting at most ``waste`` room in all."""
        if not any(left):
            return ()
        if self._dead.get(left, -1) >= waste:
            return None
        for counts, spare in self._fillings(left, waste):
            rest = tuple(a - b for a, b in zip(left, counts, strict=True))
            if not any(rest):
                return (counts,)
            deeper = self.fill(rest, waste - spare)
            if deeper is not None:
                return (counts, *deeper)
        self._dead[left] = waste
        return None

    def _fillings(self, left: Counts, waste: int) -> Iterator[tuple[Counts, int]]:
        """Fillings of the next pot with the largest vessel in it, fullest of large ones first.

        The last pot may stay as empty as it likes; any other wastes at most ``waste``.
        """
        first = next(place for place, count in enumerate(left) if count)
        last = sum(s * n for s, n in zip(self._sizes, left, strict=True)) <= self._pot
        if last:
            yield left, 0
            return
        yield from self._extend(left, first, self._pot, (0,) * first, waste)

    def _extend(
        self, left: Counts, place: int, room: int, chosen: Counts, waste: int
    ) -> Iterator[tuple[Counts, int]]:
        self.left -= 1
        if self.left < 0:
            raise _TooLong
        if place == len(left):
            if room <= waste:
                yield chosen, room
            return
        size = self._sizes[place]
        most = min(left[place], room // size) if size else left[place]
        least = 1 if not any(chosen) and left[place] else 0
        for count in range(most, least - 1, -1):
            after = room - count * size
            if after - self._reach(left, place + 1, after) > waste:
                break
            yield from self._extend(left, place + 1, after, (*chosen, count), waste)

    def _reach(self, left: Counts, place: int, room: int) -> int:
        """At most so much of the room can still be filled by smaller vessels."""
        filled = 0
        for size, count in zip(self._sizes[place:], left[place:], strict=True):
            filled += size * count
            if filled >= room:
                return room
        return filled


@lru_cache(maxsize=512)
def even_out(groups: Groups, packing: Packing, pot: int, *, quick: bool = False) -> Packing:
    """The same vessels in the same number of pots, the fullest pot as light as can be found.

    Quick, it gives up when its searches have taken a few steps together, and says so.
    """
    number = len(packing.pots)
    if number < 2 or not groups.whole:  # noqa: PLR2004 - one pot has nothing to share
        return packing
    best = _lighter(groups, packing.pots, _lightest_first(groups, number))
    best = _lighter(groups, best, _best_cut(groups, number))
    most = max(map(groups.load, best))
    least = max(-(-groups.whole // number), groups.sizes[0])
    steps = _QUICK_STEPS if quick else _LEVELLING_STEPS
    while least < most:
        middle = (least + most) // 2
        tried = _pack_in(groups, min(middle, pot), number, steps)
        if quick and tried.cut:
            return replace(packing, pots=best, hurried=True)
        if tried.pots is None:
            least = middle + 1
        else:
            best, most = tried.pots, max(map(groups.load, tried.pots))
        steps = max(tried.left, 0) if quick else steps
    return replace(packing, pots=best)


@lru_cache(maxsize=512)
def keep_sizes_together(groups: Groups, pot: int, *, quick: bool = False) -> Packing:
    """The fewest pots, with the candles of one size in as few of them as possible.

    Sizes are laid in a row and the row is cut into pots of nearly the same mass: each cut splits
    one size at most. Where no such row fits the fewest pots, the levelled packing is given.
    Quick, long searches are cut short: unless the packing says that it was hurried, it is the
    same as with all the time.
    """
    fewest = fewest_pots(groups, pot, _QUICK_STEPS if quick else _SEARCH_STEPS)
    cut = _best_cut(groups, len(fewest.pots))
    if cut is not None and max(map(groups.load, cut), default=0) <= pot:
        return replace(fewest, pots=cut)
    return even_out(groups, fewest, pot, quick=quick)


def _lighter(groups: Groups, one: Pots, other: Pots | None) -> Pots:
    if other is None:
        return one
    return min(one, other, key=lambda pots: max(map(groups.load, pots)))


def _lightest_first(groups: Groups, number: int) -> Pots:
    """Each vessel, largest first, into the pot that is lightest so far."""
    pots = [[0] * len(groups.sizes) for _ in range(number)]
    loads = [0] * number
    for place, (size, count) in enumerate(zip(groups.sizes, groups.counts, strict=True)):
        for _ in range(count):
            lightest = loads.index(min(loads))
            pots[lightest][place] += 1
            loads[lightest] += size
    return tuple(tuple(pot) for pot in pots)


@lru_cache(maxsize=512)
def _best_cut(groups: Groups, number: int) -> Pots | None:
    """The row of sizes, over the orders tried, whose fullest pot is lightest."""
    places = range(len(groups.sizes))
    orders: Iterable[tuple[int, ...]] = (tuple(places), tuple(reversed(places)))
    if len(groups.sizes) <= _ORDERS_TRIED_UP_TO:
        orders = permutations(places)
    cuts = [cut for order in orders if (cut := _cut(groups, number, order)) is not None]
    return min(cuts, key=lambda pots: max(map(groups.load, pots), default=0), default=None)


def _cut(groups: Groups, number: int, order: tuple[int, ...]) -> Pots | None:
    """Cut the row into ``number`` runs; the smallest limit that works is found by halving.

    Runs of at most the mean and one vessel always do: each but the last is above the mean.
    """
    if number <= 0:
        return None
    least = max(-(-groups.whole // number), max(groups.sizes, default=0))
    most = least + max(groups.sizes, default=0)
    while least < most:
        middle = (least + most) // 2
        if len(_runs(groups, middle, order)) <= number:
            most = middle
        else:
            least = middle + 1
    runs = _runs(groups, least, order)
    empty = (0,) * len(groups.sizes)
    return runs + (empty,) * (number - len(runs))


def _runs(groups: Groups, limit: int, order: tuple[int, ...]) -> Pots:
    """The row taken pot by pot, each as full as the limit allows."""
    pots: list[list[int]] = [[0] * len(groups.sizes)]
    room = limit
    for place in order:
        size, left = groups.sizes[place], groups.counts[place]
        while left:
            count = min(left, room // size) if size else left
            pots[-1][place] += count
            room -= count * size
            left -= count
            if left:
                pots.append([0] * len(groups.sizes))
                room = limit
    return tuple(tuple(pot) for pot in pots)
