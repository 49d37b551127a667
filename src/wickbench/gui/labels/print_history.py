"""What was printed before: found, looked at, printed again as it was, or begun anew."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QLineEdit, QSizePolicy, QVBoxLayout, QWidget
from typing_extensions import override

from wickbench.app.print_history import PrintedBefore, Reprint, printed_before, reprint
from wickbench.app.print_history_words import lines_text, print_text
from wickbench.app.search import matches
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.gui.fields.input_guards import TextGuard
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.labels.elements_box import button_row
from wickbench.gui.labels.kept_sheet import KeptSheet
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.style_sheet import set_look
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

    from wickbench.app.workspace import Workspace

_WIDE_CHARACTERS: Final = 122
_EMPTY: Final = N_(
    "Nothing was printed yet. What you print or export stands here afterwards, just as it was: "
    "the same sheets can be printed again whatever changes."
)


class PrintHistory(QWidget):
    """A searchable list of prints, and the sheets of the chosen one.

    Attributes:
        shown: the chosen print ready once more; ``None`` for none, or one that kept no sheets.

    Signals:
        export_requested, print_requested: the sheets are to go out again.
        run_requested: key of a print that is to be begun anew with today's data.
    """

    export_requested = Signal()
    print_requested = Signal()
    run_requested = Signal(int)

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self.record: int | None = None
        self.shown: Reprint | None = None
        self._page = 0
        self._free = True
        self._rows: tuple[PrintedBefore, ...] = ()
        self.search = accessible(QLineEdit(), texts(N_("Find a print")))
        self.model: RowModel[PrintedBefore] = RowModel(
            lambda: workspace.texts, self._columns(), lambda row: row.id
        )
        self.table = TableView(self.model, texts(N_("Printed before")), most_rows=14, fewest_rows=3)
        self.nothing = label("", "quiet")
        self.export_again = button(texts(N_("Export PDF again")))
        self.print_again = button(texts(N_("Print again…")))
        self.new_run = button(texts(N_("New run with today’s data")))
        self.about = label("", "quiet")
        self.done = label("", "fine")
        self.findings = FindingsList()
        self.stood = label()
        self.stood_heading = heading(texts(N_("What stood on them")))
        self.previous = accessible(button("‹"), texts(N_("Previous sheet")))
        self.next = accessible(button("›"), texts(N_("Next sheet")))
        self.page_words = label("", "quiet", wrap=False)
        self.sheet = KeptSheet(texts(N_("Sheet as it was printed")))
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _columns(self) -> tuple[Column[PrintedBefore], ...]:
        texts = self.workspace.texts
        return (
            Column(
                key="number", title=N_("No."), show=lambda row: str(row.number), numeric=True,
                keeps=True, sort=lambda row: row.number,
            ),
            Column(
                key="day", title=N_("Day"), show=lambda row: texts.day(row.day),
                sort=lambda row: row.day,
            ),
            Column(key="title", title=N_("What"), show=lambda row: row.title, stretch=True),
            Column(
                key="count", title=N_("Stickers"), show=lambda row: str(row.count), numeric=True,
                sort=lambda row: row.count,
            ),
            Column(
                key="file", title=N_("File"), spare=True,
                show=lambda row: row.file_name or texts(N_("printer")),
            ),
        )  # fmt: skip

    def _lay_out(self) -> None:
        texts = self.workspace.texts
        self.search.setPlaceholderText(texts(N_("Find a print")))
        self.search.setClearButtonEnabled(True)
        TextGuard(self.search, self._clear_search)
        self.table.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.table.setSelectionMode(TableView.SelectionMode.SingleSelection)
        self.table.allow_sorting()
        left = QVBoxLayout()
        left.setSpacing(10)
        for part in (self.search, self.table, self.nothing, self.about):
            left.addWidget(part)
        left.addLayout(button_row(self.export_again, self.print_again, self.new_run))
        left.addWidget(self.done)
        for below in (self.findings, self.stood_heading, self.stood):
            left.addWidget(below)
        left.addStretch(1)
        turning = QHBoxLayout()
        for turner in (self.previous, self.page_words, self.next):
            turning.addWidget(turner)
        turning.addStretch(1)
        for one in (self.previous, self.next):
            one.setFixedWidth(self.fontMetrics().height() * 2)
        self.stood.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        right = QVBoxLayout()
        right.addLayout(turning)
        right.addWidget(self.sheet, 1)
        self._halves = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._halves.setContentsMargins(0, 0, 0, 0)
        self._halves.setSpacing(24)
        self._halves.addLayout(left, 5)
        self._halves.addLayout(right, 6)

    def _connect(self) -> None:
        self.search.textChanged.connect(self._fill)
        self.table.chosen.connect(self._choose)
        self.previous.clicked.connect(lambda: self._turn(-1))
        self.next.clicked.connect(lambda: self._turn(1))
        self.export_again.clicked.connect(self.export_requested)
        self.print_again.clicked.connect(self.print_requested)
        self.new_run.clicked.connect(self._begin)

    def set_height(self, high: int) -> None:
        """Give the sheet this much height."""
        self.sheet.setFixedHeight(max(260, high - 60))

    # -- showing ---------------------------------------------------------------------------------
    def refresh(self) -> None:
        """Read the prints afresh; the chosen one stays chosen."""
        self._rows = printed_before(self.workspace)
        if self.record not in {row.id for row in self._rows}:
            self.record = self._rows[0].id if self._rows else None
        self._fill()
        self._show()

    def say_done(self, sentence: str, look: str = "fine") -> None:
        """Say what went out; gone when another print is chosen."""
        set_look(self.done, look)
        self.done.setText(sentence)
        self.done.setVisible(bool(sentence))

    def set_free(self, *, free: bool) -> None:
        """Whether something can be sent now."""
        self._free = free
        for one in (self.export_again, self.print_again):
            one.setEnabled(free and self.shown is not None)

    def _fill(self, *_: object) -> None:
        found = [row for row in self._rows if matches(self.search.text(), row.words)]
        self.model.set_rows(found)
        if self.record is not None:
            self.table.go_to(self.record)
        said = N_("Nothing that was printed is called that.") if self._rows else _EMPTY
        self.nothing.setText(self.workspace.texts(said))
        self.nothing.setVisible(not found)
        self.search.setVisible(bool(self._rows))
        self.table.setVisible(bool(found))

    def _choose(self, record: object) -> None:
        if isinstance(record, int) and record != self.record:
            self.record, self._page = record, 0
            self._show()

    def _show(self) -> None:
        texts = self.workspace.texts
        chosen = next((row for row in self._rows if row.id == self.record), None)
        told: tuple[Finding, ...] = ()
        self.shown = None
        if chosen is not None:
            try:
                self.shown = reprint(self.workspace, chosen.id)
                told = self.shown.findings
            except DomainError as error:
                told = (Finding(Rank.NOTE, error.key, error.data),)
        self.about.setText(print_text(texts, chosen) if chosen is not None else "")
        self.stood.setText(lines_text(texts, chosen) if chosen is not None else "")
        self.findings.show_findings(texts, told)
        for one in (self.about, self.stood, self.stood_heading, self.new_run):
            one.setVisible(chosen is not None)
        for one in (self.export_again, self.print_again):
            one.setVisible(self.shown is not None)
        self.set_free(free=self._free)
        self.say_done("")
        self._turn(0)

    def _turn(self, by: int) -> None:
        pages = self.shown.drawing.count if self.shown is not None else 0
        self._page = max(0, min(self._page + by, pages - 1))
        said = N_("Sheet {at} of {of}")
        words = self.workspace.texts(said, at=str(self._page + 1), of=str(pages))
        self.page_words.setText(words)
        for one in (self.previous, self.next, self.page_words):
            one.setVisible(pages > 1)
        self.previous.setEnabled(self._page > 0)
        self.next.setEnabled(self._page < pages - 1)
        self.sheet.show_page(self.shown, self._page)

    def _clear_search(self) -> bool:
        had = bool(self.search.text())
        self.search.clear()
        return had

    def _begin(self) -> None:
        if self.record is not None:
            self.run_requested.emit(self.record)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        wide = event.size().width() >= self.fontMetrics().averageCharWidth() * _WIDE_CHARACTERS
        side_by_side, below = QBoxLayout.Direction.LeftToRight, QBoxLayout.Direction.TopToBottom
        self._halves.setDirection(side_by_side if wide else below)
        super().resizeEvent(event)
