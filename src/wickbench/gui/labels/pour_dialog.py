"""The labels of a pour: its candles with counts and lots, the print runs they give, what lacks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialog, QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from wickbench.app.candle_labels import candle_words
from wickbench.app.edit import read_field
from wickbench.app.fields import field
from wickbench.app.pour_label_words import act_text, count_text, pours, run_sentence
from wickbench.app.print_history import printed_before
from wickbench.app.run_goals import pour_goal
from wickbench.app.runs_from_pour import USUAL_SPARE, PourRuns, make_runs, propose_runs
from wickbench.app.shelf import load_shelf
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.fields.form import readings_of
from wickbench.gui.fields.line_field import QuantityField
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.style_sheet import set_look
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView

if TYPE_CHECKING:
    from wickbench.app.proposed_lines import ProposedLine
    from wickbench.app.workspace import Workspace

SPARE: Final = field("print_line", "count", N_("Spare stickers"), "count", low=0, high=100)
_SIZE: Final = (780, 660)


class PourDialog(QDialog):
    """Choose a pour, look at what it gives, and make its print runs or bring them up to date.

    Signals:
        made: keys of the print runs, and what was found.
        go_requested: key of a page or place, and the record there where a finding is mended.
    """

    made = Signal(object, object)
    go_requested = Signal(str, object)

    def __init__(self, workspace: Workspace, plan: int | None, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.workspace = workspace
        self.found: PourRuns | None = None
        texts = workspace.texts
        self._shelf = load_shelf(workspace)
        self._printed = {one.run: one for one in reversed(printed_before(workspace))}
        self.setWindowTitle(texts("Labels for a pour"))
        known = pours(workspace)
        self.pour = ChoiceField(texts("Pour"), [(str(key), words) for key, words in known])
        self.spare = QuantityField(texts(SPARE.label))
        self.model: RowModel[ProposedLine] = RowModel(lambda: workspace.texts, self._columns(), id)
        self.lines = TableView(self.model, texts("Stickers of this pour"), most_rows=10)
        self.runs = label()
        self.trouble = label("", "stops")
        self.findings = FindingsList()
        self.make = button("", "primary")
        self.close_button = button(texts("Close"))
        self._lay_out()
        self._connect()
        name_attributes(self)
        keys = [key for key, _ in known]
        first = plan if plan in keys else next(iter(keys), None)
        self.pour.show_stored("" if first is None else str(first))
        self.show_pour()

    def _columns(self) -> tuple[Column[ProposedLine], ...]:
        texts = self.workspace.texts
        return (
            Column(key="label", title=N_("Label"), show=lambda row: row.label.name, stretch=True),
            Column(key="candle", title=N_("For"), show=self._candle),
            Column(
                key="lot", title=N_("Lot"), show=lambda row: row.candles.lot_code or "–",
                keeps=True,
            ),
            Column(
                key="day", title=N_("Poured on"), spare=True,
                show=lambda row: texts.day(row.candles.poured_on) if row.candles.poured_on else "–",
            ),
            Column(
                key="count", title=N_("Stickers"), show=count_text, numeric=True, keeps=True,
            ),
        )  # fmt: skip

    def _candle(self, row: ProposedLine) -> str:
        return candle_words(self._shelf.candles[row.candles.candle_id])

    def _lay_out(self) -> None:
        texts = self.workspace.texts
        ground = QWidget()
        set_look(ground, "ground")
        inside = QVBoxLayout(ground)
        inside.setContentsMargins(24, 16, 24, 16)
        inside.setSpacing(10)
        inside.addLayout(self._asked())
        inside.addWidget(self.trouble)
        for below in (self.lines, self.runs, heading(texts("Before you print")), self.findings):
            inside.addWidget(below)
        inside.addStretch(1)
        area = QScrollArea()
        area.setWidget(ground)
        area.setWidgetResizable(True)
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        last = QHBoxLayout()
        last.setContentsMargins(24, 8, 24, 16)
        last.addStretch(1)
        last.addWidget(self.close_button)
        last.addWidget(self.make)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.addWidget(area, 1)
        box.addLayout(last)
        self.resize(*_SIZE)

    def _asked(self) -> QHBoxLayout:
        """Which pour, and how many spare stickers."""
        texts = self.workspace.texts
        hint = texts(N_("for each lot and label; usually {n}"), n=USUAL_SPARE)
        pair = QHBoxLayout()
        pair.setSpacing(12)
        for words, part, below in (
            (texts("Pour"), self.pour, ""),
            (texts(SPARE.label), self.spare, hint),
        ):
            column = QVBoxLayout()
            column.setSpacing(4)
            column.addWidget(label(words, "quiet"))
            column.addWidget(part)
            column.addWidget(label(below, "quiet"))
            column.addStretch(1)
            pair.addLayout(column, 2 if below else 3)
        return pair

    def _connect(self) -> None:
        self.pour.committed.connect(self._choose)
        self.spare.edited.connect(lambda _typed: self.show_pour())
        self.make.clicked.connect(self.make_runs)
        self.close_button.clicked.connect(self.reject)
        self.findings.go_requested.connect(self._go)
        self.spare.show_assumed(self.workspace.texts(N_("none")))

    # -- showing ---------------------------------------------------------------------------------
    def show_pour(self) -> None:
        """Show what the chosen pour gives."""
        texts = self.workspace.texts
        self.found, refused = self._found()
        found = self.found
        self.trouble.setText(refused)
        self.trouble.setVisible(bool(refused))
        runs = found.runs if found is not None else ()
        self.model.set_rows([line for run in runs for line in run.lines])
        self.lines.setVisible(bool(runs))
        printed = [self._printed.get(one.run_id or 0) for one in runs]
        said = [
            run_sentence(texts, one, self._shelf, before)
            for one, before in zip(runs, printed, strict=True)
        ]
        self.runs.setText("\n".join(said))
        self.runs.setVisible(bool(runs))
        told = found.findings if found is not None else ()
        self.findings.show_findings(texts, told, goal=pour_goal)
        self.make.setEnabled(bool(runs))
        self.make.setText(act_text(texts, found) if found is not None else texts("Close"))

    def _found(self) -> tuple[PourRuns | None, str]:
        if not self.pour.text():
            nothing = N_("There is no pour yet. Plan one first; its labels are counted here.")
            return None, self.workspace.texts(nothing)
        spare = self._spare()
        if spare is None:
            return None, ""
        try:
            return propose_runs(self.workspace, int(self.pour.text()), spare=spare), ""
        except DomainError as error:
            return None, self.workspace.texts.say(error)

    def _spare(self) -> int | None:
        try:
            value = read_field(self.workspace, SPARE, self.spare.text())
        except DomainError as error:
            self.spare.show_trouble(self.workspace.texts.say(error), readings_of(error))
            return None
        self.spare.clear_trouble()
        return int(value) if isinstance(value, int | float) else 0

    def _choose(self, word: str) -> None:
        self.pour.show_stored(word)
        self.show_pour()

    # -- doing -----------------------------------------------------------------------------------
    def make_runs(self) -> None:
        """Store the runs, or bring them up to date, and go to them."""
        self.show_pour()
        if self.found is None or not self.found.runs:
            return
        keys = make_runs(self.workspace, self.found)
        self.accept()
        self.made.emit(keys, self.found)

    def _go(self, key: str, record: object) -> None:
        self.reject()
        self.go_requested.emit(key, record)
