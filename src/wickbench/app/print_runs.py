"""Print runs as they are kept: sheet, stickers used already, printer, and which labels how often.

Each change is one undoable act. A change to no run yet (``None``) begins one.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.texts_marker import N_
from wickbench.domain.errors import OutOfRange
from wickbench.storage import records
from wickbench.storage.refusals import InUse

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wickbench.app.workspace import Workspace
    from wickbench.storage.workshop_file import Connection

MOST_STICKERS: Final = 5_000


@dataclass(frozen=True, slots=True, kw_only=True)
class RunLine:
    """So many stickers of one label for one candle and lot.

    Attributes:
        id: the line's key.
        label_id, candle_id: ``None`` while not chosen.
        lot_code: without the word before it.
        poured_on: ISO date, or empty.
        count: stickers.
    """

    id: int
    label_id: int | None = None
    candle_id: int | None = None
    lot_code: str = ""
    poured_on: str = ""
    count: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintRun:
    """A print run as stored.

    Attributes:
        id: its key; ``None`` before anything was chosen.
        name: as the person wrote it; may be empty.
        sheet_id: the sticker sheet's item.
        used: stickers that are gone from the first sheet.
        printer, tray: as the equipment names them; empty for any.
        lines: in their order.
    """

    id: int | None = None
    name: str = ""
    sheet_id: int | None = None
    used: frozenset[int] = frozenset()
    printer: str = ""
    tray: str = ""
    lines: tuple[RunLine, ...] = ()


def run_ids(workspace: Workspace) -> tuple[int, ...]:
    """Keys of all print runs, the newest first."""
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "print_run", order=("-id",))
    return tuple(int(str(row["id"])) for row in rows)


def run_names(workspace: Workspace) -> dict[int, str]:
    """Names of all print runs by key; empty where the person gave none."""
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "print_run", order=("id",))
    return {int(str(row["id"])): str(row["name"] or "") for row in rows}


def rename_run(workspace: Workspace, run_id: int, name: str, *, origin: object = None) -> None:
    """Give a print run a name."""
    with workspace.step(N_("Name a print run"), origin=origin) as connection:
        records.update(connection, "print_run", run_id, {"name": name.strip()})


def print_run(workspace: Workspace, run_id: int | None) -> PrintRun:
    """One print run; an empty one for ``None``.

    Raises:
        Gone: there is none of that key.
    """
    if run_id is None:
        return PrintRun()
    with workspace.read() as connection:
        row: dict[str, Any] = records.fetch(connection, "print_run", run_id)
        lines = records.fetch_all(connection, "print_line", {"run_id": run_id})
    return PrintRun(
        id=run_id,
        name=row["name"] or "",
        sheet_id=row["sheet_id"],
        used=_used(row["used"]),
        printer=row["printer"] or "",
        tray=row["tray"] or "",
        lines=tuple(_line(line) for line in lines),
    )


def _line(row: Mapping[str, Any]) -> RunLine:
    return RunLine(
        id=row["id"],
        label_id=row["label_id"],
        candle_id=row["candle_id"],
        lot_code=row["lot_code"] or "",
        poured_on=row["poured_on"] or "",
        count=row["count"] or 0,
    )


def _used(stored: object) -> frozenset[int]:
    sheets = stored.get("sheets", []) if isinstance(stored, dict) else []
    return frozenset(int(index) for index in sheets[0]) if sheets else frozenset()


def new_run(workspace: Workspace, *, like: PrintRun | None = None, origin: object = None) -> int:
    """An empty print run on the same sheet and printer as another one."""
    values: dict[str, object] = {}
    if like is not None:
        values = {"sheet_id": like.sheet_id, "printer": like.printer, "tray": like.tray}
    with workspace.step(N_("Begin a print run"), origin=origin) as connection:
        return records.insert(connection, "print_run", values)


def remove_run(workspace: Workspace, run_id: int, *, origin: object = None) -> None:
    """Remove a print run; what it printed stays recorded."""
    with workspace.step(N_("Remove a print run"), origin=origin) as connection:
        records.delete(connection, "print_run", run_id)


def choose_sheet(
    workspace: Workspace, run_id: int | None, sheet_id: int | None, *, origin: object = None
) -> int:
    """Print on another sheet; gives the run's key. Stickers used are those of the other sheet."""
    with workspace.step(N_("Choose a sticker sheet"), origin=origin) as connection:
        key = _ensured(connection, run_id)
        records.update(connection, "print_run", key, {"sheet_id": sheet_id, "used": None})
    return key


def choose_printer(
    workspace: Workspace, run_id: int | None, printer: str, tray: str, *, origin: object = None
) -> int:
    """Print on another printer and tray; gives the run's key."""
    with workspace.step(N_("Choose a printer"), origin=origin) as connection:
        key = _ensured(connection, run_id)
        records.update(connection, "print_run", key, {"printer": printer, "tray": tray})
    return key


def set_used(
    workspace: Workspace, run_id: int | None, used: Iterable[int], *, origin: object = None
) -> int:
    """Say which stickers of the first sheet are gone; gives the run's key."""
    gone = sorted(set(used))
    with workspace.step(N_("Mark stickers as used"), origin=origin) as connection:
        key = _ensured(connection, run_id)
        stored = {"version": 1, "sheets": [gone]} if gone else None
        records.update(connection, "print_run", key, {"used": stored})
    return key


def toggle_used(
    workspace: Workspace, run_id: int | None, index: int, *, origin: object = None
) -> int:
    """Mark one sticker of the first sheet as used, or as free again; gives the run's key."""
    used = print_run(workspace, run_id).used
    return set_used(workspace, run_id, used ^ {index}, origin=origin)


def add_line(
    workspace: Workspace,
    run_id: int | None,
    values: Mapping[str, object],
    *,
    origin: object = None,
) -> tuple[int, int]:
    """Put a label on the run; gives the keys of run and line.

    Args:
        workspace: the open workshop.
        run_id: the run; ``None`` begins one.
        values: presented values of the line: label_id, candle_id, lot_code, count …
        origin: who asks.

    Raises:
        OutOfRange: a count that cannot be.
    """
    _check_count(values)
    with workspace.step(N_("Add a label to the print run"), origin=origin) as connection:
        key = _ensured(connection, run_id)
        position = len(records.fetch_all(connection, "print_line", {"run_id": key}))
        row = {"run_id": key, "position": position, **values}
        return key, records.insert(connection, "print_line", row)


def change_line(
    workspace: Workspace, line_id: int, values: Mapping[str, object], *, origin: object = None
) -> None:
    """Change label, candle, lot, day or count of a line.

    Raises:
        OutOfRange: a count that cannot be.
    """
    _check_count(values)
    merge = ("print_line", line_id, *sorted(values))
    with workspace.step(N_("Change the print run"), merge=merge, origin=origin) as connection:
        records.update(connection, "print_line", line_id, values)


def remove_lines(workspace: Workspace, line_ids: Iterable[int], *, origin: object = None) -> None:
    """Take lines off the run."""
    with workspace.step(N_("Take labels off the print run"), origin=origin) as connection:
        for line_id in line_ids:
            records.delete(connection, "print_line", line_id)


def remove_sheet(workspace: Workspace, sheet_id: int, *, origin: object = None) -> None:
    """Remove a sticker sheet; one that a print run names is put away instead."""
    with workspace.step(N_("Remove a sticker sheet"), origin=origin) as connection:
        try:
            records.delete(connection, "item", sheet_id)
        except InUse:
            records.update(connection, "item", sheet_id, {"archived": 1})


def _check_count(values: Mapping[str, object]) -> None:
    count = values.get("count")
    if isinstance(count, int) and not 0 <= count <= MOST_STICKERS:
        raise OutOfRange("print.too-many", most=MOST_STICKERS)


def _ensured(connection: Connection, run_id: int | None) -> int:
    return records.insert(connection, "print_run", {}) if run_id is None else run_id
