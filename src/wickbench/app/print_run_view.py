"""A print run with everything to look at: what goes where, how many sheets, what is not right."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from wickbench.app.label_findings import (
    candle_findings,
    printer_findings,
    without_general_edges,
)
from wickbench.app.label_making import LabelMaker, MadeLabel, around_of, design_for, trouble
from wickbench.app.label_store import StoredLabel
from wickbench.app.label_told import LabelChecks, label_checks
from wickbench.app.label_values import LabelSubject, label_values
from wickbench.app.label_vessel_findings import vessel_findings
from wickbench.app.print_runs import PrintRun, RunLine
from wickbench.app.run_findings import of_line, once
from wickbench.app.run_told import RunTold, run_told
from wickbench.app.running_numbers import last_number, numbers_of
from wickbench.app.shelf import Shelf
from wickbench.app.sticker_sheets import sheet_of
from wickbench.app.workspace import Workspace
from wickbench.documents.sheet_layout import RunEntry, SheetPages, lay_out_sheets
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.run_order import RunItem, run_order
from wickbench.domain.sheet_runs import SheetNeed, need_of
from wickbench.domain.sheets import StickerSheet, check_sheet
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.texts import Texts
    from wickbench.domain.catalog import Candle


@dataclass(frozen=True, slots=True, kw_only=True)
class RunView:
    """A print run as the page shows it.

    Attributes:
        run: as stored.
        sheet: its stationery; ``None`` while none is chosen or its measures cannot be.
        pages: what goes where; ``None`` without a sheet or when it stops at the sheet.
        lines: the run's line of each entry of ``pages``.
        made: the label of each entry of ``pages``.
        labels: the stored label of each entry.
        findings: worst first.
        well: what was checked and is right.
        need: sheets it takes.
        told: the findings with whose they are, and those left as they are.
    """

    run: PrintRun
    sheet: StickerSheet | None = None
    pages: SheetPages | None = None
    lines: tuple[RunLine, ...] = ()
    made: tuple[MadeLabel, ...] = ()
    labels: tuple[StoredLabel, ...] = ()
    findings: tuple[Finding, ...] = ()
    well: tuple[Finding, ...] = ()
    need: SheetNeed = field(default_factory=lambda: SheetNeed(0, 0, 0))
    told: RunTold = field(default_factory=RunTold)

    @property
    def count(self) -> int:
        """Stickers in all."""
        return sum(line.count for line in self.lines)

    @property
    def sheets(self) -> int:
        """Sheets that get ink."""
        return len(self.pages.sheet_numbers) if self.pages else 0

    @property
    def may_print(self) -> bool:
        """Whether there is something to print and nothing that stops it."""
        stopped = any(one.rank is Rank.STOPS for one in self.findings)
        return self.count > 0 and self.sheets > 0 and not stopped


def sheet_values(workspace: Workspace, sheet_id: int) -> dict[str, object]:
    """Presented values of a sticker sheet, with its name."""
    with workspace.read() as connection:
        item = records.fetch(connection, "item", sheet_id)
        return {**records.fetch(connection, "sheet", sheet_id), "name": item["name"]}


def run_view(
    workspace: Workspace,
    maker: LabelMaker,
    shelf: Shelf,
    labels: Mapping[int, StoredLabel],
    run: PrintRun,
    *,
    measures: Mapping[str, object] | None = None,
) -> RunView:
    """Everything about a print run.

    Args:
        workspace: the open workshop.
        maker: keeps what was laid out.
        shelf: the snapshot.
        labels: by key.
        run: as stored.
        measures: the sheet's values as typed so far; read from the file when not given.
    """
    if run.sheet_id is None:
        return RunView(run=run)
    known = measures if measures is not None else sheet_values(workspace, run.sheet_id)
    try:
        sheet = sheet_of(known)
    except DomainError as error:
        return RunView(run=run, findings=(trouble(error),))
    lines = [line for line in run.lines if line.label_id in labels]
    checks = label_checks(workspace, shelf, labels)
    work = _Lines(workspace, maker, shelf, labels, sheet, run, checks)
    entries = [work.entry(line) for line in lines]
    stops = any(one.rank is Rank.STOPS for one in check_sheet(sheet))
    view = RunView(run=run, sheet=sheet, findings=check_sheet(sheet))
    return view if stops else _placed(work, view, lines, entries)


@dataclass(slots=True)
class _Lines:
    """What piles up while the lines of a run are made."""

    workspace: Workspace
    maker: LabelMaker
    shelf: Shelf
    labels: Mapping[int, StoredLabel]
    sheet: StickerSheet
    run: PrintRun
    checks: LabelChecks
    findings: list[Finding] = field(default_factory=list)
    well: list[Finding] = field(default_factory=list)

    def entry(self, line: RunLine) -> MadeLabel | None:
        """The label of a line; ``None`` with a finding when it cannot be made."""
        label = self.labels[line.label_id or 0]
        candle = self.shelf.candles.get(line.candle_id) if line.candle_id else None
        try:
            made = self._made(label, line, candle)
        except DomainError as error:
            self.findings += of_line(line, None, [trouble(error)])
            return None
        settings, texts = self.workspace.settings, self.workspace.texts
        told = candle_findings(candle, label.kind, self.shelf, settings, texts)
        self.findings += of_line(line, candle, told)
        return made

    def _made(self, label: StoredLabel, line: RunLine, candle: Candle | None) -> MadeLabel:
        design = design_for(label, self.sheet)
        settings, texts = self.workspace.settings, label_texts(self.workspace)
        subject = LabelSubject(
            candle_id=line.candle_id, lot_code=line.lot_code, poured_on=line.poured_on
        )
        values = label_values(self.shelf, settings, texts, subject)
        if label.caution is not None:
            wish = label.caution
            return self.maker.caution(wish, design, self.shelf, candle, values=values)
        around_mm = around_of(label.kind, candle, self.shelf)
        values["of"] = str(last_number(self.run, line))
        numbers = numbers_of(self.run, line)
        made = self.maker.label(design, values, around_mm=around_mm, numbers=numbers)
        checked = self.checks.of(made, candle, values)
        wrong = list(checked.wrong)
        if candle is not None and label.kind == "jar":
            vessel = self.shelf.vessels.get(candle.vessel_id) if candle.vessel_id else None
            wrong += vessel_findings(made.laid, vessel, self.workspace.texts)
        self.findings += of_line(line, None, wrong)
        self.well += checked.well
        return made


def _placed(
    work: _Lines, view: RunView, lines: Sequence[RunLine], entries: Sequence[MadeLabel | None]
) -> RunView:
    run, sheet = view.run, work.sheet
    pairs = [(line, made) for line, made in zip(lines, entries, strict=True) if made is not None]
    used = tuple(frozenset(at for at in one.used if at < sheet.count) for one in run.begun)
    wanted = [RunEntry(made.content, line.count, made.numbered) for line, made in pairs]
    apart = {"row": sheet.columns, "sheet": sheet.count}.get(run.begins, 0)
    order = run_order([_item(line) for line, _ in pairs], run.sorted_by)
    pages = lay_out_sheets(sheet, wanted, used, order=order, apart=apart)
    made = tuple(one for _, one in pairs)
    printer = printer_row(work.shelf, run)
    found = without_general_edges(pages.findings) if printer else list(pages.findings)
    found += work.findings
    found += printer_findings(pages, [one.laid for one in made], printer)
    told = run_told(found, [line for line, _ in pairs], work.checks.aside)
    return RunView(
        run=run,
        sheet=sheet,
        pages=pages,
        lines=tuple(line for line, _ in pairs),
        made=made,
        labels=tuple(work.labels[line.label_id or 0] for line, _ in pairs),
        findings=told.findings,
        well=once([*_smallest(made, told.findings), *work.well]),
        need=_need(pages, used),
        told=told,
    )


def _item(line: RunLine) -> RunItem:
    return RunItem(line.count, line.candle_id, line.lot_code)


def _need(pages: SheetPages, used: Sequence[frozenset[int]]) -> SheetNeed:
    """What the run takes; before anything is placed, what is left of the sheet taken first."""
    if pages.placements or not used:
        return need_of(pages.placements, pages.sheet.count, used)
    return SheetNeed(0, 0, pages.sheet.count - len(used[0]))


def _smallest(made: Sequence[MadeLabel], found: Sequence[Finding]) -> list[Finding]:
    """That all texts fit, with the smallest size."""
    sizes = [one.laid.smallest_pt for one in made]
    known = [size for size in sizes if size]
    if not known or any(one.rank is Rank.STOPS for one in found):
        return []
    return [Finding(Rank.NOTE, "print.all-fits", {"size": round(min(known), 1)})]


def printer_row(shelf: Shelf, run: PrintRun) -> dict[str, object] | None:
    """The equipment's row of the run's printer and tray; ``None`` when none is chosen."""
    for row in shelf.equipment.printers:
        if run.printer and (row["name"] or "", row["tray"] or "") == (run.printer, run.tray):
            return row
    return None


def label_texts(workspace: Workspace) -> Texts:
    """Texts in the language of labels."""
    return workspace.texts.in_language(workspace.settings.text("language_of_labels") or "en")
