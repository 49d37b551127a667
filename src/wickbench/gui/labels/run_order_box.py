"""How a run is put in order, and what is corrected on its printer."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from wickbench.app import print_runs
from wickbench.app.calibration_words import calibration_findings, correction_text
from wickbench.app.edit import read_field
from wickbench.app.running_numbers import has_numbers, numbers_of
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.fields.form import readings_of
from wickbench.gui.fields.line_field import QuantityField
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.labels.run_columns import FIRST
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import label

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.print_runs import RunLine
    from wickbench.gui.labels.desk import Desk

ORDERS: Final[Mapping[str, str]] = {
    "line": N_("line by line"),
    "lot": N_("lot by lot"),
    "set": N_("candle by candle"),
}
BEGINNINGS: Final[Mapping[str, str]] = {
    "": N_("follow on"),
    "row": N_("begin a new row"),
    "sheet": N_("begin a new sheet"),
}


class RunOrderBox(QWidget):
    """Order of stickers, what a new lot or candle begins, and the printer's correction."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        texts = desk.workspace.texts
        pairs = [(word, texts(words)) for word, words in ORDERS.items()]
        self.order = ChoiceField(texts("Order of the stickers"), pairs)
        begins = [(word, texts(words)) for word, words in BEGINNINGS.items()]
        self.begins = ChoiceField(texts("Another lot or candle shall"), begins)
        self.first = QuantityField(texts("Numbers begin with"))
        self.first_words = label("", "quiet")
        self._line: int | None = None
        self.correction = label("", "quiet")
        self.findings = FindingsList()
        self._lay_out()
        self.order.committed.connect(self._sort)
        self.begins.committed.connect(self._begin)
        self.first.committed.connect(self._number)
        name_attributes(self)

    def _lay_out(self) -> None:
        texts = self._desk.workspace.texts
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        box.addWidget(self.correction)
        box.addWidget(self.findings)
        self._choices = QWidget()
        pair = QHBoxLayout(self._choices)
        pair.setContentsMargins(0, 0, 0, 0)
        pair.setSpacing(12)
        columns = ((N_("Order of the stickers"), self.order),
                   (N_("Another lot or candle shall"), self.begins))  # fmt: skip
        for words, asked in columns:
            part = QWidget()
            column = QVBoxLayout(part)
            column.setContentsMargins(0, 0, 0, 0)
            column.setSpacing(4)
            column.addWidget(label(texts(words), "quiet"))
            column.addWidget(asked)
            pair.addWidget(part, 1)
        self._beginning = part
        box.addWidget(self._choices)
        self._numbers = QWidget()
        column = QVBoxLayout(self._numbers)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self.first_words)
        column.addWidget(self.first)
        box.addWidget(self._numbers)

    def refresh(self) -> None:
        """Show the run's order and its printer's correction."""
        desk, run = self._desk, self._desk.run
        self._choices.setVisible(desk.run_id is not None and len(run.lines) > 1)
        self.order.show_stored(run.sorted_by)
        self.begins.show_stored(run.begins)
        self._beginning.setVisible(run.sorted_by != "line")
        self._show_numbers()
        said = correction_text(desk.workspace, run.printer, run.tray)
        self.correction.setText(said)
        self.correction.setVisible(bool(said))
        found = calibration_findings(desk.workspace, run.printer, run.tray)
        self.findings.show_findings(desk.workspace.texts, found)

    def show_line(self, key: object) -> None:
        """Show the running numbers of this line; of the first numbered one for any other."""
        self._line = key if isinstance(key, int) else None
        self._show_numbers()

    def _numbered(self) -> RunLine | None:
        """The line in hand, when its label has numbers; else the first one that has."""
        lines = [one for one in self._desk.run.lines if has_numbers(self._desk.labels, one)]
        in_hand = [one for one in lines if one.id == self._line]
        return next(iter((*in_hand, *lines)), None)

    def _show_numbers(self) -> None:
        line, texts = self._numbered(), self._desk.workspace.texts
        self._numbers.setVisible(line is not None)
        if line is None:
            return
        numbers = numbers_of(self._desk.run, line)
        name = self._desk.labels[line.label_id or 0].name
        said = N_("Numbers of “{name}”, {first} to {last}, begin with")
        words = texts(said, name=name, first=str(numbers[0]), last=str(numbers[-1]))
        self.first_words.setText(words)
        self.first.clear_trouble()
        self.first.show_stored(str(line.first_number or ""))
        self.first.show_assumed(str(numbers[0]))

    def _number(self, typed: str) -> None:
        line, workspace = self._numbered(), self._desk.workspace
        if line is None:
            return
        try:
            first = read_field(workspace, FIRST, typed)
        except DomainError as error:
            self.first.show_trouble(workspace.texts.say(error), readings_of(error))
            return
        print_runs.change_line(workspace, line.id, {"first_number": first})

    def _sort(self, word: str) -> None:
        run, run_id = self._desk.run, self._desk.run_id
        if run_id is not None:
            begins = run.begins if word != "line" else ""
            print_runs.sort_run(self._desk.workspace, run_id, word, begins)

    def _begin(self, word: str) -> None:
        run, run_id = self._desk.run, self._desk.run_id
        if run_id is not None:
            print_runs.sort_run(self._desk.workspace, run_id, run.sorted_by, word)
