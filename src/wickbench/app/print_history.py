"""What was printed before: the list, what stood on it, and the same sheets once more."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any

from wickbench.app.calibrations import correction
from wickbench.app.label_making import typeface_shelf
from wickbench.app.moments import local
from wickbench.app.print_jobs import PrintJob
from wickbench.app.print_snapshots import keep_print, numbers_of
from wickbench.app.texts_marker import N_
from wickbench.documents.drawn_again import KeptDrawing
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.sheets import StickerSheet
from wickbench.storage import records, state
from wickbench.storage.refusals import Gone

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from wickbench.app.workspace import Workspace
    from wickbench.documents.kept_drawing import KeepingSurface
    from wickbench.storage.workshop_file import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedLine:
    """Labels as they were printed.

    Attributes:
        label, candle, lot: in words; candle and lot may be empty.
        count: stickers.
        texts: what stood on each, element by element.
    """

    label: str
    candle: str
    lot: str
    count: int
    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedBefore:
    """A print in the list.

    Attributes:
        id: key of its record.
        number: of the print; counted through the life of the workshop.
        day: ISO date in the time of this place.
        title: what the document was called.
        count: stickers.
        sheets: sheets that got ink.
        file_name: empty for what went to a printer.
        sheet_name: the sticker sheet.
        printer: with its tray; empty for any.
        again_of: number of the print that it repeats; ``None`` for a first one.
        run: key of the print run, which may be gone.
        whole: whether its sheets are kept, so that they can be printed again.
        lines: what was printed.
    """

    id: int
    number: int
    day: str
    title: str
    count: int
    sheets: int
    file_name: str = ""
    sheet_name: str = ""
    printer: str = ""
    again_of: int | None = None
    run: int | None = None
    whole: bool = False
    lines: tuple[PrintedLine, ...] = ()

    @property
    def words(self) -> str:
        """What it is found by."""
        said = [f"{one.label} {one.candle} {one.lot} {' '.join(one.texts)}" for one in self.lines]
        return " ".join([str(self.number), self.day, self.title, self.file_name, *said])


@dataclass(frozen=True, slots=True, kw_only=True)
class Reprint:
    """The sheets of a print, ready once more.

    Attributes:
        drawing: its pages.
        sheet: measures of the sticker sheet as they were; ``None`` when they are not known.
        job: to write or print them; kept as a print of its own.
        findings: what is not as it was.
    """

    drawing: KeptDrawing
    sheet: StickerSheet | None
    job: PrintJob
    findings: tuple[Finding, ...] = ()


def printed_before(workspace: Workspace) -> tuple[PrintedBefore, ...]:
    """Every print of labels, the newest first."""
    with workspace.read() as connection:
        rows = state.prints(connection, "labels")
    return tuple(_before(row) for row in rows)


def reprint(workspace: Workspace, record: int) -> Reprint:
    """The sheets of a print as they were, whatever changed since.

    Position on the paper is corrected by what is known of the printer today.

    Raises:
        DomainError: ``print-again.not-whole`` for a print that kept no drawing.
        Gone: there is no such print.
    """
    with workspace.read() as connection:
        row = records.fetch(connection, "print_record", record)
    kept = _snapshot(row)
    if not kept.get("drawing"):
        raise DomainError("print-again.not-whole")
    drawing = KeptDrawing(kept["drawing"], typeface_shelf().nearest, partial(_picture, workspace))
    printer, tray = kept["printer"]
    fix = correction(workspace, printer, tray)
    sheet = _sheet(kept.get("sheet") or {})
    again = {**kept, "again_of": kept["number"], "correction": numbers_of(fix)}
    title = str(row["title"] or "")
    job = PrintJob(
        title=title,
        page_mm=(sheet.page_w_mm, sheet.page_h_mm) if sheet is not None else drawing.page_mm,
        language=workspace.settings.text("language_of_labels") or "en",
        author=workspace.settings.text("business_name"),
        draws=tuple(
            partial(drawing.draw_page, number=at, correction=fix) for at in range(drawing.count)
        ),
        record=partial(_keep_again, workspace, title, again),
        stickers=len(kept["stickers"]),
    )
    told = _findings(kept, drawing, numbers_of(fix))
    return Reprint(drawing=drawing, sheet=sheet, job=job, findings=tuple(told))


def run_from_print(workspace: Workspace, record: int, *, origin: object = None) -> int:
    """A new print run of the same labels and counts, with today's designs and data.

    Labels, candles and sheets that are no longer there are left out; gives the run's key.
    """
    with workspace.read() as connection:
        kept = _snapshot(records.fetch(connection, "print_record", record))
    printer, tray = kept["printer"]
    with workspace.step(N_("Begin a print run"), origin=origin) as connection:
        row = {"name": kept.get("run_name") or "", "printer": printer, "tray": tray}
        row["sheet_id"] = _still(connection, "sheet", kept.get("sheet_id"))
        run = records.insert(connection, "print_run", row)
        for at, line in enumerate(kept["lines"]):
            label = _still(connection, "label", line["label_version"][0])
            if label is not None:
                records.insert(connection, "print_line", _again(connection, line, run, at, label))
    return run


def _again(
    connection: Connection, line: Mapping[str, Any], run: int, at: int, label: int
) -> dict[str, Any]:
    return {
        "run_id": run,
        "position": at,
        "label_id": label,
        "candle_id": _still(connection, "candle", line["candle"]),
        "lot_code": line["lot"],
        "poured_on": line.get("poured_on") or None,
        "count": line["count"],
        "pour_pot_id": _still(connection, "pour_pot", line.get("pot")),
        "first_number": line.get("first_number"),
    }


def _still(connection: Connection, table: str, key: object) -> int | None:
    """The key of a record, when it is still there."""
    try:
        return int(str(key)) if key and records.fetch(connection, table, int(str(key))) else None
    except Gone:
        return None


def _before(row: Mapping[str, Any]) -> PrintedBefore:
    kept = _snapshot(row)
    lines = tuple(_line(one) for one in kept.get("lines", ()))
    return PrintedBefore(
        id=row["id"],
        number=int(kept.get("number") or row["id"]),
        day=local(row["at_ms"]).date().isoformat(),
        title=row["title"] or "",
        count=sum(line.count for line in lines),
        sheets=len({one[0] for one in kept.get("stickers", ())}),
        file_name=row["file_name"] or "",
        sheet_name=str(kept.get("sheet_name") or ""),
        printer=", ".join(part for part in kept.get("printer", ()) if part),
        again_of=kept.get("again_of"),
        run=kept.get("run"),
        whole=bool(kept.get("drawing")),
        lines=lines,
    )


def _line(kept: Mapping[str, Any]) -> PrintedLine:
    return PrintedLine(
        label=str(kept.get("label") or ""),
        candle=str(kept.get("candle_name") or ""),
        lot=str(kept.get("lot") or ""),
        count=int(kept.get("count") or 0),
        texts=tuple(str(text) for text in kept.get("texts", ()) if str(text).strip()),
    )


def _snapshot(row: Mapping[str, Any]) -> dict[str, Any]:
    stored = row["snapshot"]
    return dict(stored) if isinstance(stored, dict) else {}


def _sheet(kept: Mapping[str, Any]) -> StickerSheet | None:
    known = {name: value for name, value in kept.items() if name in StickerSheet.__slots__}
    try:
        return StickerSheet(**known)
    except (TypeError, DomainError):
        return None


def _findings(kept: Mapping[str, Any], drawing: KeptDrawing, fix: list[float]) -> list[Finding]:
    told = [
        Finding(Rank.WATCH, "print-again.typeface", {"family": one.family, "style": one.style})
        for one in drawing.changed
    ]
    if drawing.missing:
        told.append(Finding(Rank.WATCH, "print-again.picture-gone"))
    begun = len(kept.get("begun", ()))
    if any(one[0] < begun for one in kept["stickers"]):
        told.append(Finding(Rank.NOTE, "print-again.begun"))
    if kept.get("correction", fix) != fix:
        told.append(Finding(Rank.NOTE, "print-again.position"))
    return told


def _keep_again(
    workspace: Workspace,
    title: str,
    again: Mapping[str, Any],
    path: Path | None,
    _keeping: KeepingSurface,
) -> int:
    return keep_print(workspace, title, again, path)


def _picture(workspace: Workspace, key: str) -> bytes | None:
    try:
        with workspace.read() as connection:
            return state.blob(connection, key)
    except Gone:
        return None
