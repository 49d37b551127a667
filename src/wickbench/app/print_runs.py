"""Print runs as they are kept: sheet, stickers used already, printer, and which labels how often.

Each change is one undoable act. A change to no run yet (``None``) begins one.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.begun_sheets import BegunSheet, begun_sheets, in_order, keep_used
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import OutOfRange
from wickbench.domain.run_order import BEGINNINGS
from wickbench.storage import records
from wickbench.storage.refusals import InUse

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wickbench.app.workspace import Workspace
    from wickbench.storage.workshop_file import Connection

MOST_STICKERS: Final = 20_000


@dataclass(frozen=True, slots=True, kw_only=True)
class RunLine:
    """So many stickers of one label for one candle and lot.

    Attributes:
        id: the line's key.
        label_id, candle_id: ``None`` while not chosen.
        lot_code: without the word before it.
        poured_on: ISO date, or empty.
        count: stickers.
        pour_pot_id: the pot that the candles were poured from.
        first_number: running number of the first sticker, ``None`` without numbers.
    """

    id: int
    label_id: int | None = None
    candle_id: int | None = None
    lot_code: str = ""
    poured_on: str = ""
    count: int = 0
    pour_pot_id: int | None = None
    first_number: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintRun:
    """A print run as stored.

    Attributes:
        id: its key; ``None`` before anything was chosen.
        name: as the person wrote it; may be empty.
        sheet_id: the sticker sheet's item.
        begun: begun sheets of that kind in the order in which they are taken, before new ones.
        printer, tray: as the equipment names them; empty for any.
        lines: in their order.
        plan_id: the pour that it was made from.
        sorted_by: ``line`` prints line by line, ``lot`` lot by lot, ``set`` candle by candle.
        left_out: keys of begun sheets that it does not take.
        not_taken: those begun sheets.
        begins: what no two lots or candles share: ``row``, ``sheet``, or empty for nothing.
    """

    id: int | None = None
    name: str = ""
    sheet_id: int | None = None
    begun: tuple[BegunSheet, ...] = ()
    printer: str = ""
    tray: str = ""
    lines: tuple[RunLine, ...] = ()
    plan_id: int | None = None
    sorted_by: str = "line"
    left_out: frozenset[int] = frozenset()
    not_taken: tuple[BegunSheet, ...] = ()
    begins: str = ""

    @property
    def used(self) -> frozenset[int]:
        """Stickers gone from the first sheet."""
        return self.begun[0].used if self.begun else frozenset()


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
        left_out = _left_out(row["left_out"])
        every = begun_sheets(connection, row["sheet_id"]) if row["sheet_id"] else ()
        per_sheet = _per_sheet(connection, row["sheet_id"]) if every else 0
    taken = [one for one in every if one.id not in left_out]
    wanted = sum(int(str(line["count"] or 0)) for line in lines)
    return PrintRun(
        id=run_id,
        name=row["name"] or "",
        sheet_id=row["sheet_id"],
        begun=in_order(taken, per_sheet, wanted),
        printer=row["printer"] or "",
        tray=row["tray"] or "",
        lines=tuple(_line(line) for line in lines),
        plan_id=row["plan_id"],
        sorted_by=row["sorted_by"],
        left_out=left_out,
        not_taken=tuple(one for one in every if one.id in left_out),
        begins=_begins(row["left_out"]),
    )


def _line(row: Mapping[str, Any]) -> RunLine:
    return RunLine(
        id=row["id"],
        label_id=row["label_id"],
        candle_id=row["candle_id"],
        lot_code=row["lot_code"] or "",
        poured_on=row["poured_on"] or "",
        count=row["count"] or 0,
        pour_pot_id=row["pour_pot_id"],
        first_number=row["first_number"],
    )


def _left_out(stored: object) -> frozenset[int]:
    keys = stored.get("begun", []) if isinstance(stored, dict) else []
    return frozenset(int(key) for key in keys)


def _begins(stored: object) -> str:
    begins = stored.get("begins") if isinstance(stored, dict) else ""
    return begins if begins in BEGINNINGS else ""


def _per_sheet(connection: Connection, sheet_id: int) -> int:
    sheet = records.fetch(connection, "sheet", sheet_id)
    return int(str(sheet["columns"] or 1)) * int(str(sheet["rows"] or 1))


def leave_out(
    workspace: Workspace, run_id: int, begun_id: int, *, out: bool, origin: object = None
) -> None:
    """Print without a begun sheet, or take it again."""
    run = print_run(workspace, run_id)
    keys = run.left_out | {begun_id} if out else run.left_out - {begun_id}
    step = N_("Leave a begun sheet out") if out else N_("Take a begun sheet")
    with workspace.step(step, origin=origin) as connection:
        stored = _stored_layout(connection, keys, run.begins)
        records.update(connection, "print_run", run_id, {"left_out": stored})


def sort_run(
    workspace: Workspace, run_id: int, sorted_by: str, begins: str = "", *, origin: object = None
) -> None:
    """Choose in which order stickers follow each other, and what lots or candles do not share."""
    run = print_run(workspace, run_id)
    with workspace.step(N_("Sort a print run"), origin=origin) as connection:
        stored = _stored_layout(connection, run.left_out, begins)
        values = {"sorted_by": sorted_by, "left_out": stored}
        records.update(connection, "print_run", run_id, values)


def _stored_layout(
    connection: Connection, left_out: Iterable[int], begins: str
) -> dict[str, object] | None:
    """What the column of begun sheets left out holds; those thrown away are forgotten."""
    known = {row["id"] for row in records.fetch_all(connection, "begun_sheet")}
    kept = sorted(key for key in left_out if key in known)
    return {"version": 1, "begun": kept, "begins": begins} if kept or begins else None


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
        records.update(connection, "print_run", key, {"sheet_id": sheet_id})
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
    workspace: Workspace, run_id: int, used: Iterable[int], *, origin: object = None
) -> None:
    """Say which stickers of the first sheet are gone."""
    run = print_run(workspace, run_id)
    if run.sheet_id is None:
        return
    first = run.begun[0].id if run.begun else None
    with workspace.step(N_("Mark stickers as used"), origin=origin) as connection:
        keep_used(connection, run.sheet_id, first, used)


def toggle_used(
    workspace: Workspace, run_id: int, index: int, *, sheet_no: int = 0, origin: object = None
) -> int | None:
    """Mark one sticker of a sheet as used, or as free again.

    Args:
        workspace: the open workshop.
        run_id: the run.
        index: number of the sticker, from 0.
        sheet_no: which sheet of the run, begun ones first; a new one is begun by this.
        origin: who asks.

    Returns:
        Key of the begun sheet; ``None`` when all of its stickers are there again.
    """
    run = print_run(workspace, run_id)
    if run.sheet_id is None:
        return None
    begun = run.begun[sheet_no] if sheet_no < len(run.begun) else None
    used = begun.used if begun else frozenset()
    with workspace.step(N_("Mark stickers as used"), origin=origin) as connection:
        key = begun.id if begun else None
        return keep_used(connection, run.sheet_id, key, used ^ {index})


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
