"""How a run is put in order, and what is corrected on its printer."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from wickbench.app import print_runs
from wickbench.app.calibration_words import calibration_findings, correction_text
from wickbench.app.texts_marker import N_
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import label

if TYPE_CHECKING:
    from collections.abc import Mapping

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
        self.correction = label("", "quiet")
        self.findings = FindingsList()
        self._lay_out()
        self.order.committed.connect(self._sort)
        self.begins.committed.connect(self._begin)
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

    def refresh(self) -> None:
        """Show the run's order and its printer's correction."""
        desk, run = self._desk, self._desk.run
        self._choices.setVisible(desk.run_id is not None and len(run.lines) > 1)
        self.order.show_stored(run.sorted_by)
        self.begins.show_stored(run.begins)
        self._beginning.setVisible(run.sorted_by != "line")
        said = correction_text(desk.workspace, run.printer, run.tray)
        self.correction.setText(said)
        self.correction.setVisible(bool(said))
        found = calibration_findings(desk.workspace, run.printer, run.tray)
        self.findings.show_findings(desk.workspace.texts, found)

    def _sort(self, word: str) -> None:
        run, run_id = self._desk.run, self._desk.run_id
        if run_id is not None:
            begins = run.begins if word != "line" else ""
            print_runs.sort_run(self._desk.workspace, run_id, word, begins)

    def _begin(self, word: str) -> None:
        run, run_id = self._desk.run, self._desk.run_id
        if run_id is not None:
            print_runs.sort_run(self._desk.workspace, run_id, run.sorted_by, word)
