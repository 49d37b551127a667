"""The Labels page: a print run on its sheet, and the labels themselves."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QFrame,
    QHBoxLayout,
    QScrollArea,
    QTabBar,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from wickbench.app import print_runs, printing
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.labels.desk import Desk
from wickbench.gui.labels.run_panel import RunPanel
from wickbench.gui.labels.sheet_preview import SheetPreview
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import Page, button, label

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace

_LEFT_CHARACTERS: Final = 58
_PDF: Final = N_("PDF files (*.pdf)")


class LabelsPage(Page):
    """Print run at the left, its sheet beside it, caution sticker and vessel at the side."""

    kinds: ClassVar[frozenset[str]] = frozenset(
        {
            "labels", "print_runs", "sheets", "materials", "vessels", "candles", "recipes",
            "equipment", "calibrations", "settings", "stock",
        }
    )  # fmt: skip
    needs_width = True

    def __init__(self, workspace: Workspace, ask: Ask) -> None:
        super().__init__(workspace, ask)
        texts = workspace.texts
        self.desk = Desk(workspace)
        self.sheet_no = 0
        self.title.setText(texts("Labels"))
        self.tabs = accessible(QTabBar(), texts("Print run or labels"))
        self.run_panel = RunPanel(self.desk)
        self.preview = SheetPreview(texts("Sheet with its stickers"))
        self.preview_area = QScrollArea()
        self.marking = QCheckBox(texts("A click marks a sticker as used"))
        self.real_size = QCheckBox(texts("Real size"))
        self.previous_sheet = button("‹")
        self.next_sheet = button("›")
        self.sheet_words = label("", "quiet", wrap=False)
        self.sticker_words = label("", "quiet")
        self.new_run = button(texts("New print run"))
        self.buttons.addWidget(self.new_run)
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(24)
        self.run_panel.setMinimumWidth(280)
        self.run_panel.setMaximumWidth(self.fontMetrics().averageCharWidth() * _LEFT_CHARACTERS * 2)
        row.addWidget(self.run_panel, 5)
        row.addWidget(self._preview_column(), 6)
        self.main.addLayout(row)
        self.main.addStretch(1)

    def _preview_column(self) -> QWidget:
        texts = self.texts
        column = QWidget()
        box = QVBoxLayout(column)
        box.setContentsMargins(0, 0, 0, 0)
        line = QHBoxLayout()
        for one in (self.previous_sheet, self.sheet_words, self.next_sheet):
            line.addWidget(one)
        line.addStretch(1)
        line.addWidget(self.marking)
        line.addWidget(self.real_size)
        box.addLayout(line)
        accessible(self.previous_sheet, texts("Previous sheet"))
        accessible(self.next_sheet, texts("Next sheet"))
        for one in (self.previous_sheet, self.next_sheet):
            one.setFixedWidth(self.fontMetrics().height() * 2)
        self.marking.setChecked(True)
        self.preview_area.setWidget(self.preview)
        self.preview_area.setWidgetResizable(True)
        self.preview_area.setFrameShape(QFrame.Shape.NoFrame)
        self.preview_area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        box.addWidget(self.preview_area, 1)
        box.addWidget(self.sticker_words)
        box.addStretch(1)
        return column

    def _connect(self) -> None:
        self.preview.pressed.connect(self._pressed)
        self.preview.toggled.connect(self._toggle)
        self.preview.chosen.connect(self._went)
        self.real_size.toggled.connect(lambda on: self.preview.show_real_size(real=on))
        self.previous_sheet.clicked.connect(lambda: self._turn(-1))
        self.next_sheet.clicked.connect(lambda: self._turn(1))
        self.new_run.clicked.connect(self._begin_run)
        self.run_panel.sheet_box.typing.connect(self._show_sheet)
        self.run_panel.export_requested.connect(self.export_pdf)
        self.run_panel.proof_requested.connect(self.export_proof)

    # -- showing ---------------------------------------------------------------------------------
    @override
    def refresh(self, changes: Changes | None) -> None:
        self.desk.measures = None
        self.desk.load()
        self.run_panel.refresh()
        self._show_sheet()

    def _show_sheet(self) -> None:
        view = self.desk.view
        sheets = max(1, view.sheets)
        self.sheet_no = min(self.sheet_no, sheets - 1)
        used = view.run.used if self.sheet_no == 0 else frozenset()
        self.preview.show_run(view.sheet, view.pages, self.sheet_no, used)
        many = sheets > 1
        for one in (self.previous_sheet, self.next_sheet, self.sheet_words):
            one.setVisible(many)
        self.previous_sheet.setEnabled(self.sheet_no > 0)
        self.next_sheet.setEnabled(self.sheet_no < sheets - 1)
        self.sheet_words.setText(
            self.texts(N_("Sheet {at} of {of}"), at=str(self.sheet_no + 1), of=str(sheets))
        )
        self.preview_area.setVisible(view.sheet is not None)
        self._say_sticker()

    def _say_sticker(self) -> None:
        words = self.sticker_text(self.preview.current)
        self.sticker_words.setText(words)
        self.preview.setAccessibleDescription(words)

    def sticker_text(self, index: int | None) -> str:
        """What stands on a sticker, in words."""
        view = self.desk.view
        if index is None or view.sheet is None:
            return ""
        number = self.texts(N_("Sticker {number}"), number=str(index + 1))
        if self.sheet_no == 0 and index in view.run.used:
            return f"{number} · {self.texts(N_('used already; the space bar frees it'))}"
        entry = self.desk.entry_at(self.sheet_no, index)
        if entry is None:
            return f"{number} · {self.texts(N_('stays free'))}"
        candle = self.desk.candle(view.lines[entry].candle_id)
        parts = (view.labels[entry].name, candle.name if candle else "", view.lines[entry].lot_code)
        return f"{number} · " + " · ".join(part for part in parts if part)

    # -- doing -----------------------------------------------------------------------------------
    def _pressed(self, index: int) -> None:
        if self.marking.isChecked():
            self._toggle(index)

    def _toggle(self, index: int) -> None:
        if self.sheet_no == 0:
            self.desk.run_id = print_runs.toggle_used(self.workspace, self.desk.run_id, index)

    def _went(self, _index: int) -> None:
        self._say_sticker()

    def _turn(self, by: int) -> None:
        self.sheet_no = max(0, self.sheet_no + by)
        self._show_sheet()

    def _begin_run(self) -> None:
        self.desk.run_id = print_runs.new_run(self.workspace, like=self.desk.run)
        self.desk.load()
        self.refresh(None)

    def export_pdf(self) -> None:
        """Ask where, write the PDF, record the print and freeze its labels."""
        view = self.desk.view
        path = self.ask.save_path(
            self.texts("Where shall the labels be kept?"),
            printing.suggested_name(self.workspace, view),
            self.texts(_PDF),
        )
        if path is None:
            return
        try:
            printing.export_labels(self.workspace, view, path)
        except DomainError as error:
            self.ask.tell(self.texts.say(error))

    def export_proof(self) -> None:
        """Ask where, and write the sheet with the edges of its stickers for plain paper."""
        view = self.desk.view
        path = self.ask.save_path(
            self.texts("Where shall the proof be kept?"),
            f"{self.texts('Proof')} {printing.suggested_name(self.workspace, view)}",
            self.texts(_PDF),
        )
        if path is None:
            return
        try:
            printing.write_labels(self.workspace, view, path, proof=True)
        except DomainError as error:
            self.ask.tell(self.texts.say(error))

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.preview_area.setFixedHeight(max(320, event.size().height() - 150))
