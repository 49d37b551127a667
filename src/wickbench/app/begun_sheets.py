"""Sheets that were begun: which of their stickers are gone; printing takes them first.

Each change is one undoable act.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wickbench.app.texts_marker import N_
from wickbench.domain.run_order import begun_order
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickbench.app.workspace import Workspace
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

    def free(self, per_sheet: int) -> tuple[int, ...]:
        """Numbers of the stickers that are still there, of so many on a whole sheet."""
        return tuple(index for index in range(per_sheet) if index not in self.used)


def begun_sheets(connection: Connection, sheet_id: int) -> tuple[BegunSheet, ...]:
    """All begun sheets of a kind, by key, through an open door."""
    rows = records.fetch_all(connection, "begun_sheet", {"sheet_id": sheet_id}, order=("id",))
    return tuple(_begun(row) for row in rows)


def in_order(begun: Iterable[BegunSheet], per_sheet: int, wanted: int) -> tuple[BegunSheet, ...]:
    """Begun sheets as a run of so many stickers takes them.

    Args:
        begun: those that the run may take.
        per_sheet: stickers on a sheet.
        wanted: stickers of the run.
    """
    known = tuple(begun)
    free = [len(one.free(per_sheet)) for one in known]
    return tuple(known[at] for at in begun_order(wanted, free))


def keep_used(
    connection: Connection, sheet_id: int, begun_id: int | None, used: Iterable[int]
) -> int | None:
    """Say which stickers of a sheet are gone; ``None`` begins a sheet, none gone removes it.

    Returns:
        Key of the begun sheet; ``None`` when there is none any more.
    """
    gone = sorted(set(used))
    stored = {"version": _VERSION, "used": gone}
    if begun_id is None:
        row = {"sheet_id": sheet_id, "used": stored}
        return records.insert(connection, "begun_sheet", row) if gone else None
    if gone:
        records.update(connection, "begun_sheet", begun_id, {"used": stored})
        return begun_id
    records.delete(connection, "begun_sheet", begun_id)
    return None


def begin_sheet(
    workspace: Workspace, sheet_id: int, used: Iterable[int], *, origin: object = None
) -> int | None:
    """Lay a sheet of which stickers are gone into the drawer; gives its key."""
    with workspace.step(N_("Keep a begun sheet"), origin=origin) as connection:
        return keep_used(connection, sheet_id, None, used)


def mark_used(
    workspace: Workspace,
    sheet_id: int,
    begun_id: int | None,
    used: Iterable[int],
    *,
    origin: object = None,
) -> int | None:
    """Say which stickers of a begun sheet are gone; ``None`` begins one; gives its key."""
    with workspace.step(N_("Mark stickers as used"), origin=origin) as connection:
        return keep_used(connection, sheet_id, begun_id, used)


def write_note(workspace: Workspace, begun_id: int, note: str, *, origin: object = None) -> None:
    """Say where a begun sheet lies, or what is wrong with it."""
    with workspace.step(N_("Write a note on a begun sheet"), origin=origin) as connection:
        records.update(connection, "begun_sheet", begun_id, {"note": note.strip() or None})


def throw_away(workspace: Workspace, begun_id: int, *, origin: object = None) -> None:
    """A begun sheet is not there any more."""
    with workspace.step(N_("Throw a begun sheet away"), origin=origin) as connection:
        records.delete(connection, "begun_sheet", begun_id)


def _begun(row: dict[str, Any]) -> BegunSheet:
    stored = row["used"] if isinstance(row["used"], dict) else {}
    used = frozenset(int(index) for index in stored.get("used", ()))
    return BegunSheet(id=row["id"], sheet_id=row["sheet_id"], used=used, note=row["note"] or "")
