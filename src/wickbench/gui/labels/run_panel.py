"""The left side of the page: what is printed on which sheet, and what to know before."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from wickbench.app import print_runs
from wickbench.app.edit import read_field
from wickbench.app.fields import field
from wickbench.app.run_goals import SHEET, run_goal
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.fields.form import readings_of
from wickbench.gui.fields.line_field import LineField, QuantityField
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.labels.begun_panel import BegunPanel
from wickbench.gui.labels.elements_box import button_row
from wickbench.gui.labels.not_checked import NotChecked
from wickbench.gui.labels.pour_line import PourLine
from wickbench.gui.labels.pour_menu import PourMenu
from wickbench.gui.labels.run_care import RunCare
from wickbench.gui.labels.run_columns import RunColumns
from wickbench.gui.labels.run_order_box import RunOrderBox
from wickbench.gui.labels.sheet_box import SheetBox
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.style_sheet import set_look
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView

if TYPE_CHECKING:
    from wickbench.app.print_runs import RunLine
    from wickbench.app.texts import Texts
    from wickbench.gui.labels.desk import Desk

USED = field("print_run", "used_count", N_("Already used, the first"), "count", low=0, high=10_000)


class RunPanel(QWidget):
    """Table of the run, sheet, stickers used, printer, findings and buttons.

    Signals:
        new_label_requested: a label is to be begun.
        run_chosen: another print run is in hand.
        position_requested: the printer's position is to be corrected.
        pour_requested: the labels of a pour are to be made; its plan, or ``None``.
    """

    new_label_requested = Signal()
    run_chosen = Signal()
    position_requested = Signal()
    pour_requested = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        texts = desk.workspace.texts
        columns = RunColumns(desk)
        self.model: RowModel[RunLine] = RowModel(
            lambda: desk.workspace.texts,
            columns.columns(),
            lambda row: row.id,
            add=columns.add,
            adding=N_("Add a label…"),
        )
        self.lines = TableView(self.model, texts("Labels of this print run"), most_rows=8)
        self.lines.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.new_label = button(texts("New label"))
        self.sheet_box = SheetBox(desk)
        self.begun = BegunPanel(desk)
        self.used = QuantityField(texts(USED.label))
        self.printer = ChoiceField(texts("Printer and tray"), ())
        self.counts = label("", "quiet")
        self._make_findings(texts)
        self.new_run = button(texts("New print run"))
        self._make_run_fields(texts)
        self.done = label("", "fine")
        self.position = button(texts("Correct the printer’s position…"), "flat")
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _make_findings(self, texts: Texts) -> None:
        self.findings = FindingsList()
        self._care = RunCare(self._desk, self.findings)
        self.not_checked = NotChecked(texts)
        self.well = FindingsList()

    def _make_run_fields(self, texts: Texts) -> None:
        self.for_pour = button(texts("Labels for a pour…"))
        self.for_pour.setMenu(PourMenu(self._desk.workspace, self, self.pour_requested.emit))
        self.order = RunOrderBox(self._desk)
        self.pour_line = PourLine(self._desk.workspace)
        self.runs = ChoiceField(texts("Print run"), ())
        self.name = LineField(texts("Name of this print run"))
        self.runs_words = label(texts("Print run"), "quiet")
        self.name_words = label(texts("Name of this print run"), "quiet")
        self.remove_run = button(texts("Remove this print run"), "flat")

    def _lay_out(self) -> None:
        texts = self._desk.workspace.texts
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(10)
        box.addWidget(heading(texts("What to print")))
        box.addLayout(button_row(self.for_pour, self.new_label, self.new_run))
        for words, asked in ((self.runs_words, self.runs), (self.name_words, self.name)):
            named = QVBoxLayout()
            named.setSpacing(4)
            named.addWidget(words)
            named.addWidget(asked)
            box.addLayout(named)
        for part in (self.pour_line, self.lines, self.counts, self.done, self.sheet_box):
            box.addWidget(part)
        pair = QHBoxLayout()
        pair.setSpacing(12)
        for title, asked in ((texts(USED.label), self.used), (texts("Printer"), self.printer)):
            column = QVBoxLayout()
            column.setSpacing(4)
            column.addWidget(label(title, "quiet"))
            column.addWidget(asked)
            column.addStretch(1)
            pair.addLayout(column, 1)
        box.addLayout(pair)
        box.addWidget(self.order)
        box.addWidget(self.begun)
        box.addWidget(heading(texts("Before you print")))
        box.addWidget(self.findings)
        box.addWidget(self.well)
        box.addWidget(self.not_checked)
        for flat in (self.position, self.remove_run):  # under each other: both keep their words
            box.addWidget(flat, 0, Qt.AlignmentFlag.AlignLeft)
        box.addStretch(1)

    def _connect(self) -> None:
        self.lines.remove_requested.connect(self._remove)
        self.lines.chosen.connect(self.order.show_line)
        self.used.committed.connect(self._use_first)
        self.printer.committed.connect(self._choose_printer)
        self.new_label.clicked.connect(self.new_label_requested)
        self.new_run.clicked.connect(self._begin_run)
        self.runs.committed.connect(self._choose_run)
        self.name.committed.connect(self._rename)
        self.remove_run.clicked.connect(self._remove_run)
        self.position.clicked.connect(self.position_requested)
        self.sheet_box.typing.connect(self.show_view)
        self.pour_line.pour_requested.connect(self.pour_requested)

    # -- showing ---------------------------------------------------------------------------------
    def refresh(self) -> None:
        """Show the run afresh."""
        self._show_runs()
        self.done.setVisible(False)
        self.pour_line.show_run(self._desk.run)
        self.model.set_rows(self._desk.run.lines)
        self.sheet_box.refresh()
        self.begun.refresh()
        self.order.refresh()
        self._show_used()
        self.printer.set_pairs(self._printers())
        run = self._desk.run
        self.printer.show_stored(f"{run.printer}\n{run.tray}" if run.printer else "")
        self.show_view()

    def show_view(self) -> None:
        """Show what the placed run says."""
        view, texts = self._desk.view, self._desk.workspace.texts
        goal = partial(run_goal, view=view, shelf=self._desk.shelf)
        care = self._care.care()
        self.findings.show_findings(texts, view.findings, goal=goal, care=care)
        self.well.show_well(texts, view.well, care=care)
        self.counts.setText(self.count_words())

    def count_words(self) -> str:
        """How many stickers on how many sheets, and how many stay free."""
        view, texts = self._desk.view, self._desk.workspace.texts
        if view.sheet is None:
            return texts(N_("Choose a sticker sheet, or enter one by its measures."))
        if not view.count:
            return texts(N_("Add a label to see it on the sheet."))
        stickers = texts.plural(N_("{n} sticker"), N_("{n} stickers"), view.count)
        sheets = texts.plural(N_("on {n} sheet"), N_("on {n} sheets"), view.sheets)
        free = texts.plural(N_("{n} stays free"), N_("{n} stay free"), view.need.left)
        begun = view.sheets - view.need.new_sheets
        if not begun or view.sheets == 1:
            return f"{stickers} {sheets}, {free}"
        of_them = texts.plural(N_("{n} of them begun"), N_("{n} of them begun"), begun)
        return f"{stickers} {sheets}, {of_them}, {free}"

    def say_done(self, sentence: str, look: str = "fine") -> None:
        """Say what was written or printed; gone with the next change."""
        set_look(self.done, look)
        self.done.setText(sentence)
        self.done.setVisible(True)

    def _show_runs(self) -> None:
        """Offer the runs once there are several."""
        desk, texts = self._desk, self._desk.workspace.texts
        said = N_("Print run {number}")
        names = print_runs.run_names(desk.workspace)
        pairs = [(str(key), names.get(key) or texts(said, number=str(key))) for key in desk.runs]
        self.runs.set_pairs(pairs)
        self.runs.show_stored(str(desk.run_id or ""))
        for part in (self.runs_words, self.runs):
            part.setVisible(len(pairs) > 1)
        for one in (self.name_words, self.name):
            one.setVisible(desk.run_id is not None)
        self.name.show_stored(desk.run.name)
        self.name.show_assumed(texts(said, number=str(desk.run_id or "")))
        self.remove_run.setVisible(desk.run_id is not None)

    def _rename(self, name: str) -> None:
        if self._desk.run_id is not None:
            print_runs.rename_run(self._desk.workspace, self._desk.run_id, name)

    def _show_used(self) -> None:
        used = self._desk.run.used
        first = used == frozenset(range(len(used)))
        self.used.show_stored(str(len(used)) if first and used else "")
        texts = self._desk.workspace.texts
        marked = texts.plural(
            N_("{n} marked on the sheet"), N_("{n} marked on the sheet"), len(used)
        )
        self.used.show_assumed(texts(N_("none")) if not used else marked)

    def _printers(self) -> list[tuple[str, str]]:
        texts = self._desk.workspace.texts
        pairs = [("", texts("any printer"))]
        for row in self._desk.shelf.equipment.printers:
            name, tray = str(row["name"] or ""), str(row["tray"] or "")
            if name:
                pairs.append((f"{name}\n{tray}", ", ".join(part for part in (name, tray) if part)))
        return pairs

    # -- doing -----------------------------------------------------------------------------------
    def _begin_run(self) -> None:
        self._desk.run_id = print_runs.new_run(self._desk.workspace, like=self._desk.run)
        self.run_chosen.emit()

    def _choose_run(self, word: str) -> None:
        self.choose_run(int(word))

    def choose_run(self, run_id: int) -> None:
        """Take another print run in hand."""
        self._desk.run_id = run_id
        self.run_chosen.emit()

    def bring(self, place: str, record: object) -> None:
        """Bring the sheet's measures, or a line of the table, into view and go there."""
        if place == SHEET:
            self.sheet_box.measures_button.setChecked(True)
            self.sheet_box.across.focus("columns")
            return
        if isinstance(record, int):
            self.lines.go_to(record)
        self.lines.setFocus()

    def _remove_run(self) -> None:
        if self._desk.run_id is not None:
            print_runs.remove_run(self._desk.workspace, self._desk.run_id)

    def _remove(self, keys: list[int]) -> None:
        print_runs.remove_lines(self._desk.workspace, keys)

    def _use_first(self, typed: str) -> None:
        workspace = self._desk.workspace
        try:
            count = int(float(str(read_field(workspace, USED, typed) or 0)))
        except DomainError as error:
            self.used.show_trouble(workspace.texts.say(error), readings_of(error))
            return
        self.used.clear_trouble()
        self.used.show_draft(str(count) if count else "", "")
        self.used.show_stored(str(count) if count else "")
        if self._desk.run_id is not None:
            print_runs.set_used(workspace, self._desk.run_id, range(count))

    def _choose_printer(self, typed: str) -> None:
        name, _, tray = typed.partition("\n")
        workspace, desk = self._desk.workspace, self._desk
        desk.run_id = print_runs.choose_printer(workspace, desk.run_id, name, tray)
