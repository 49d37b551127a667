"""The candle lots that were poured, for choosing one when labels are printed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace


@dataclass(frozen=True, slots=True, kw_only=True)
class PouredLot:
    """One pot's candles of one kind.

    Attributes:
        code: the lot's code, without the word before it.
        candle_id: which candle; ``None`` when a recipe was poured that is no candle yet.
        poured_on: ISO date, or empty.
    """

    code: str
    candle_id: int | None
    poured_on: str


def poured_lots(workspace: Workspace) -> tuple[PouredLot, ...]:
    """Lots of pots that are on the bench or poured out, the newest first."""
    with workspace.read() as connection:
        pots = records.fetch_all(connection, "pour_pot", order=("id",))
        fills = records.fetch_all(connection, "pour_fill", order=("id",))
    known = {one["id"]: one for one in pots if one["lot_code"] and one["state"] != "dropped"}
    found = {
        PouredLot(
            code=str(pot["lot_code"]),
            candle_id=None if fill["candle_id"] is None else int(str(fill["candle_id"])),
            poured_on=str(pot["poured_on"] or ""),
        ): int(str(pot["id"]))
        for fill in fills
        if (pot := known.get(fill["pour_pot_id"])) is not None
    }
    return tuple(sorted(found, key=lambda lot: (lot.poured_on, found[lot]), reverse=True))


def lots_of(workspace: Workspace, candle_id: int | None) -> tuple[PouredLot, ...]:
    """Lots that a candle's labels can be for: its own; every one while no candle is chosen."""
    every = poured_lots(workspace)
    if candle_id is None:
        return every
    return tuple(lot for lot in every if lot.candle_id == candle_id)
