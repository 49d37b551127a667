"""Lines that a pour wants on its print runs, and the stored line that each brings up to date."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.label_store import StoredLabel
from wickbench.app.pour_counts import PouredCandles

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Sequence

    from wickbench.app.print_runs import RunLine


@dataclass(frozen=True, slots=True, kw_only=True)
class ProposedLine:
    """Stickers of one label for the candles of one lot.

    Attributes:
        label: which label.
        kind: ``jar``, ``lid`` or ``caution``.
        candles: for which candles.
        count: stickers, spare ones among them.
        line_id: the stored line that it brings up to date; ``None`` for a new one.
        was: how many stand there now.
    """

    label: StoredLabel
    kind: str
    candles: PouredCandles
    count: int
    line_id: int | None = None
    was: int | None = None

    def values(self) -> dict[str, object]:
        """The stored line's values."""
        one = self.candles
        return {
            "label_id": self.label.id,
            "candle_id": one.candle_id,
            "lot_code": one.lot_code,
            "poured_on": one.poured_on or None,
            "count": self.count,
            "pour_pot_id": one.pour_pot_id,
        }


def _by_pot(label: int | None, candle: int | None, pot: int | None) -> Hashable:
    return (label, candle, pot) if pot is not None else None


_SAME_LINE: Final[
    tuple[tuple[Callable[[ProposedLine], Hashable], Callable[[RunLine], Hashable]], ...]
] = (
    (
        lambda line: _by_pot(line.label.id, line.candles.candle_id, line.candles.pour_pot_id),
        lambda old: _by_pot(old.label_id, old.candle_id, old.pour_pot_id),
    ),
    (
        lambda line: (line.label.id, line.candles.candle_id, line.candles.lot_code),
        lambda old: (old.label_id, old.candle_id, old.lot_code),
    ),
    (
        lambda line: (line.label.id, line.candles.candle_id),
        lambda old: (old.label_id, old.candle_id),
    ),
)


def pair_lines(
    wanted: Sequence[ProposedLine], stored: Sequence[RunLine]
) -> tuple[list[tuple[ProposedLine, RunLine | None]], list[RunLine]]:
    """Each wanted line with its stored one: by pot, else by lot, else by label and candle.

    Returns:
        the pairs in the order wanted, and the stored lines that are left.
    """
    found: dict[int, RunLine] = {}
    left = list(stored)
    for of_line, of_stored in _SAME_LINE:
        for at, line in enumerate(wanted):
            key = of_line(line)
            old = next((one for one in left if of_stored(one) == key), None)
            if at not in found and key is not None and old is not None:
                found[at] = old
                left.remove(old)
    return [(line, found.get(at)) for at, line in enumerate(wanted)], left
