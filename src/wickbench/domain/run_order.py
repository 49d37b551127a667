"""In which order stickers of a print run follow each other, and which begun sheets go first."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.domain.errors import OutOfRange

if TYPE_CHECKING:
    from collections.abc import Sequence

SORTINGS: Final = ("line", "lot", "set")
BEGINNINGS: Final = ("", "row", "sheet")


@dataclass(frozen=True, slots=True)
class RunOrder:
    """Stickers of a run one after the other.

    Attributes:
        entries: the entry of each sticker, as often as its count says.
        blocks: for each sticker the number of the block it belongs to, never falling.
    """

    entries: tuple[int, ...] = ()
    blocks: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class RunItem:
    """What an entry of a run is sorted by.

    Attributes:
        count: its stickers.
        candle: what they are for; ``None`` belongs to nothing else.
        lot: its lot; empty for none.
    """

    count: int
    candle: Hashable = None
    lot: str = ""


def run_order(items: Sequence[RunItem], sorted_by: str = "line") -> RunOrder:
    """Put the stickers of a run in order.

    ``line`` prints entry by entry. ``lot`` keeps all stickers of a lot together, lots in the order
    in which they are first named. ``set`` goes candle by candle within each candle and lot: the
    jar label, lid and caution sticker that go onto one candle follow each other.

    Args:
        items: entries in the order they are listed.
        sorted_by: one of `SORTINGS`.

    Raises:
        OutOfRange: ``sheet.run-count`` for a negative or broken count, ``sheet.sorting`` for
            another order.
    """
    if sorted_by not in SORTINGS:
        raise OutOfRange("sheet.sorting", value=sorted_by)
    for item in items:
        if item.count != int(item.count) or item.count < 0:
            raise OutOfRange("sheet.run-count", value=item.count)
    groups = _groups(items, sorted_by)
    entries: list[int] = []
    blocks: list[int] = []
    for number, group in enumerate(groups):
        inside = _by_set(items, group) if sorted_by == "set" else _by_entry(items, group)
        entries += inside
        blocks += [number] * len(inside)
    return RunOrder(tuple(entries), tuple(blocks))


def candles_of(counts: Sequence[int]) -> int:
    """How many candles a group of labels is for, when only their counts are known.

    The smallest count of which each larger one is a multiple: 12 jar labels, 24 cautions and 10
    lids are for 12 candles, two cautions on each, two lids being there already. Without one, the
    largest.
    """
    known = sorted(count for count in set(counts) if count)
    for count in known:
        if all(other % count == 0 for other in known if other > count):
            return count
    return known[-1] if known else 0


def begun_order(wanted: int, free: Sequence[int]) -> tuple[int, ...]:
    """In which order begun sheets are taken, so that few go through the printer again.

    When they hold the whole run: as few of them as can hold it, and of these the ones that leave
    the least over. Otherwise all of them. Taken fewest free first, so that sheets get used up; what
    is not needed comes last.

    Args:
        wanted: stickers of the run.
        free: free stickers of each begun sheet.
    """
    by_free = sorted(range(len(free)), key=lambda at: (free[at], at))
    if wanted < 1 or sum(free) < wanted:
        return tuple(by_free)
    chosen = _best_fit(wanted, free, by_free)
    return (*(at for at in by_free if at in chosen), *(at for at in by_free if at not in chosen))


def _best_fit(wanted: int, free: Sequence[int], by_free: Sequence[int]) -> frozenset[int]:
    """The smallest set of sheets with room enough, and of these one with the least room."""
    largest = list(reversed(by_free))
    size, room = 0, 0
    while room < wanted:
        room += free[largest[size]]
        size += 1
    sums: list[dict[int, frozenset[int]]] = [{0: frozenset()}, *({} for _ in range(size))]
    for at in by_free:
        for taken in range(size, 0, -1):
            for total, members in sums[taken - 1].items():
                sums[taken].setdefault(total + free[at], members | {at})
    best = min(total for total in sums[size] if total >= wanted)
    return sums[size][best]


def _groups(items: Sequence[RunItem], sorted_by: str) -> list[list[int]]:
    """Numbers of entries that stay together, in the order in which the first is named."""
    groups: dict[Hashable, list[int]] = {}
    for at, item in enumerate(items):
        key: Hashable = ("alone", at)
        if sorted_by == "lot" and item.lot:
            key = item.lot
        elif sorted_by == "set" and item.candle is not None:
            key = (item.candle, item.lot)
        groups.setdefault(key, []).append(at)
    return list(groups.values())


def _by_entry(items: Sequence[RunItem], group: Sequence[int]) -> list[int]:
    return [at for at in group for _ in range(items[at].count)]


def _by_set(items: Sequence[RunItem], group: Sequence[int]) -> list[int]:
    """Candle by candle; what is more than the candles take comes at the end."""
    candles = candles_of([items[at].count for at in group])
    each = {at: max(1, -(-items[at].count // candles)) if candles else 0 for at in group}
    placed = [
        (number // each[at], place, at)
        for place, at in enumerate(group)
        for number in range(items[at].count)
    ]
    return [at for _, _, at in sorted(placed)]
