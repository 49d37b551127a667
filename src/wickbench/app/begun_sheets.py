"""Sheets that were begun: which of their stickers are gone; printing takes them first.

Each change is one undoable act.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickbench.storage.workshop_file import Connection

_VERSION = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class BegunSheet:
    """A sheet of which stickers are gone.

    Attributes:
        id: its key.
        sheet_id: what kind of sheet it is: the item's key.
        used: stickers that are gone, from 0.
        note: where it lies, or what is wrong with it.
    """

    id: int
    sheet_id: int
    used: frozenset[int] = frozenset()
    note: str = ""


def begun_sheets(connection: Connection, sheet_id: int) -> tuple[BegunSheet, ...]:
    """All begun sheets of a kind, by key, through an open door."""
    rows = records.fetch_all(connection, "begun_sheet", {"sheet_id": sheet_id}, order=("id",))
    return tuple(_begun(row) for row in rows)


def keep_used(
    connection: Connection, sheet_id: int, begun_id: int | None, used: Iterable[int]
) -> None:
    """Say which stickers of a sheet are gone; ``None`` begins a sheet, none gone removes it."""
    gone = sorted(set(used))
    stored = {"version": _VERSION, "used": gone}
    if begun_id is None:
        if gone:
            records.insert(connection, "begun_sheet", {"sheet_id": sheet_id, "used": stored})
    elif gone:
        records.update(connection, "begun_sheet", begun_id, {"used": stored})
    else:
        records.delete(connection, "begun_sheet", begun_id)


def _begun(row: dict[str, Any]) -> BegunSheet:
    stored = row["used"] if isinstance(row["used"], dict) else {}
    used = frozenset(int(index) for index in stored.get("used", ()))
    return BegunSheet(id=row["id"], sheet_id=row["sheet_id"], used=used, note=row["note"] or "")
