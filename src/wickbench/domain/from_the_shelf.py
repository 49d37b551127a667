"""How many candles the shelf makes, and what runs out first."""

from __future__ import annotations

import math
from collections import defaultdict
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.pot_split import Groups, fewest_pots, first_fit
from wickbench.domain.recipes import Material, checked_number, mix_parts
from wickbench.domain.shelf_values import MOST, UNITS, Making, Reach, RunsOut, Shelf, units_of

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator, Sequence

    Units = dict[Material, int]

_SLACK = 10**6
_MG_PER_G = 1000
_PACKED_UP_TO = 120
"""Vessels of one recipe that are shared out over the fewest pots; of more first fit is taken, which
is hardly ever a pot worse."""


def from_the_shelf(makings: Sequence[Making], shelf: Shelf, *, near: bool = False) -> Reach:
    """How many whole sets the stock makes.

    Args:
        makings: one candle, or several that are made together in a ratio.
        shelf: stock and extra.
        near: the ratio is kept as near as whole candles allow: a step is then one more of the
            candle made most, not one whole set more.

    Raises:
        OutOfRange: ``shelf.no-candles``; ``pour.vessel-over-pot`` when a vessel takes more than a
            pot holds beside its extra.
    """
    demand = _Demand(makings, shelf, near=near)
    uncounted = tuple(item for item in demand.each if shelf.stock.get(item) is None)
    sets = demand.most()
    if sets is None:
        return Reach(None, {}, 0, (), uncounted, {})
    need, more = demand.need(sets), demand.need(sets + 1)
    one_more = sum(demand.counts(sets + 1).values()) - sum(demand.counts(sets).values())
    return Reach(
        sets=sets,
        candles=demand.counts(sets),
        pots=demand.pots(sets),
        runs_out=tuple(
            RunsOut(item, more[item] / UNITS, have / UNITS)
            for item, have in demand.counted.items()
            if more[item] > have + _SLACK
        ),
        uncounted=uncounted,
        left={
            item: max(0, have - need.get(item, 0)) / UNITS for item, have in demand.counted.items()
        },
        step=one_more,
    )


def use_of(
    makings: Sequence[Making], shelf: Shelf, sets: int, *, near: bool = False
) -> dict[Material, float]:
    """Grams or pieces of each material that so many sets take, extra counted in.

    Raises:
        OutOfRange: as ``from_the_shelf``.
    """
    need = _Demand(makings, shelf, near=near).need(sets)
    return {item: units / UNITS for item, units in need.items()}


class _Demand:
    """What a number of sets takes, in whole units."""

    def __init__(self, makings: Sequence[Making], shelf: Shelf, *, near: bool) -> None:
        if not makings:
            raise OutOfRange("shelf.no-candles")
        self._shelf = shelf
        self._makings = makings
        self._most_made = max(one.ratio for one in makings) if near else 0
        self._groups: dict[Hashable, list[Making]] = {}
        for one in makings:
            self._groups.setdefault(one.recipe_key, []).append(one)
        self._of_each = [self._of_one(one) for one in makings]
        self.each: Units = _add(self._of_each)
        self._per_pot = {key: self._of_pot(group[0]) for key, group in self._groups.items()}
        self._rooms = {key: _room_mg(group, shelf) for key, group in self._groups.items()}
        self.counted = {
            item: max(0, units_of(have))
            for item in self.each
            if (have := shelf.stock.get(item)) is not None
        }

    def _of_one(self, one: Making) -> Units:
        """Of each material for the candles of one set."""
        made_g = one.each_g * (1 + self._shelf.extra_percent / 100)
        grams = ({part.material: units_of(made_g * part.share)} for part in mix_parts(one.recipe))
        pieces = ({item: units_of(count)} for item, count in one.items.items() if count)
        return _add([*grams, *pieces])

    def _of_pot(self, one: Making) -> Units:
        """Of each material for one pot, beyond its vessels."""
        shelf = self._shelf
        return _add(
            {part.material: units_of(shelf.extra_g * part.share + shelf.rounding_g)}
            for part in mix_parts(one.recipe)
        )

    def counts(self, sets: int) -> dict[Hashable, int]:
        """Of each candle, by key."""
        return {one.key: self._count(one, sets) for one in self._makings}

    def _count(self, one: Making, sets: int) -> int:
        if not self._most_made:
            return one.ratio * sets
        return (2 * one.ratio * sets + self._most_made) // (2 * self._most_made)  # half up

    def need(self, sets: int) -> Units:
        """Everything that so many sets take."""
        need: Units = dict.fromkeys(self.each, 0)
        for one, of_one in zip(self._makings, self._of_each, strict=True):
            count = self._count(one, sets)
            for item, amount in of_one.items():
                need[item] += count * amount
        for key, per_pot in self._per_pot.items():
            if any(per_pot.values()):
                pots = self._pots(key, sets)
                for item, units in per_pot.items():
                    need[item] += pots * units
        return need

    def pots(self, sets: int) -> int:
        """All pots that so many sets take."""
        return sum(self._pots(key, sets) for key in self._groups)

    def _pots(self, key: Hashable, sets: int) -> int:
        room = self._rooms[key]
        counts: defaultdict[int, int] = defaultdict(int)
        for one in self._groups[key]:
            if count := self._count(one, sets):
                counts[_each_mg(one)] += count
        if not counts or room is None:
            return min(len(counts), 1)
        sizes = tuple(sorted(counts, reverse=True))
        if len(sizes) == 1:
            return -(-counts[sizes[0]] // (room // sizes[0]))
        groups = Groups(sizes, tuple(counts[size] for size in sizes))
        if sum(groups.counts) <= _PACKED_UP_TO:
            return len(fewest_pots(groups, room).pots)
        return len(first_fit(groups, room))

    def fits(self, sets: int) -> bool:
        """Whether the shelf has enough for so many."""
        need = self.need(sets)
        return all(need[item] <= have + _SLACK for item, have in self.counted.items())

    def most(self) -> int | None:
        """The most sets that fit; None when nothing counted sets a limit."""
        if not any(self.each[item] for item in self.counted):
            return None
        fits, too_many = 0, 1
        while too_many <= MOST and self.fits(too_many):
            fits, too_many = too_many, 2 * too_many
        while too_many - fits > 1:
            middle = (fits + too_many) // 2
            if self.fits(middle):
                fits = middle
            else:
                too_many = middle
        return fits


def _add(amounts: Iterator[Units] | Sequence[Units]) -> Units:
    whole: defaultdict[Material, int] = defaultdict(int)
    for one in amounts:
        for item, units in one.items():
            whole[item] += units
    return dict(whole)


def _each_mg(one: Making) -> int:
    return max(1, round(one.each_g * _MG_PER_G))


def _room_mg(group: Sequence[Making], shelf: Shelf) -> int | None:
    """What the vessels of one pot may take together; None without a limit."""
    pots_g = [one.pot_g for one in group if one.pot_g is not None]
    if not pots_g:
        return None
    share = 1 + shelf.extra_percent / 100
    room = math.floor((min(pots_g) - shelf.extra_g) / share * _MG_PER_G + 1e-6)
    largest = max(group, key=_each_mg)
    if _each_mg(largest) > room:
        raise OutOfRange("pour.vessel-over-pot", vessel_g=largest.each_g, pot_g=min(pots_g))
    return room


def vessels_in_pot(
    pot_g: float, each_g: float, *, extra_g: float = 0.0, extra_percent: float = 0.0
) -> tuple[int, float]:
    """Vessels that a pot fills, and the mix that is left in it, grams.

    Args:
        pot_g: mix in the pot.
        each_g: mix in one vessel.
        extra_g: what stays in the pot.
        extra_percent: held back for topping up, in percent of what the vessels take.

    Raises:
        OutOfRange: ``recipe.number`` or ``shelf.each``.
    """
    for name, value in (("pot_g", pot_g), ("extra_g", extra_g), ("extra_percent", extra_percent)):
        checked_number(value, name)
    if not 0 < each_g < MOST:
        raise OutOfRange("shelf.each", name="")
    room, each = units_of(pot_g - extra_g), units_of(each_g * (1 + extra_percent / 100))
    count = max(0, (room + UNITS // 10**6) // each)
    return count, max(0, room - count * each) / UNITS
