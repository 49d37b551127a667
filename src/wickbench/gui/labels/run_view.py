"""The print run's tab: its panel, and the sheet with its stickers beside or below it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QBoxLayout,
    QCheckBox,
    QFrame,
    QHBoxLayout,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from wickbench.app import print_runs
from wickbench.app.label_paper import sheet_is_kraft
from wickbench.app.texts_marker import N_
from wickbench.gui.labels.papers import paper_colour
from wickbench.gui.labels.run_panel import RunPanel
from wickbench.gui.labels.sheet_preview import SheetPreview
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import button, label

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

    from wickbench.domain.catalog import Candle
    from wickbench.gui.labels.desk import Desk

_WIDE_CHARACTERS: Final = 122
"""Narrower than this the sheet stands below the panel, and both keep their words."""
_TALL: Final = 1.45
"""Height by width of a page that stands upright, with its ruler."""


class RunWidget(QWidget):
    """Panel and preview of a print run, side by side where there is width for both.

    Signals:
        placed: the run was placed anew.
        candle_shown: another sticker or line is in hand; the side column follows.
        label_opened: key of the label of a sticker.
    """

    placed = Signal()
    candle_shown = Signal()
    label_opened = Signal(int)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        texts = desk.workspace.texts
        self.sheet_no = 0
        self._begun: int | None = None  # key of the begun sheet in hand, which stays in view
        self._count = 0
        self._high = 320
        self.panel = RunPanel(desk)
        self.preview = SheetPreview(texts("Sheet with its stickers"))
        self.area = QScrollArea()
        self.marking = QCheckBox(texts("A click marks a sticker as used"))
        self.real_size = QCheckBox(texts("Real size"))
        self.previous_sheet = accessible(button("‹"), texts("Previous sheet"))
        self.next_sheet = accessible(button("›"), texts("Next sheet"))
        self.sheet_words = label("", "quiet", wrap=False)
        self.sticker_words = label("", "quiet")
        self.open_label = button(texts("Open this label"), "flat")
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _lay_out(self) -> None:
        self._halves = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._halves.setContentsMargins(0, 0, 0, 0)
        self._halves.setSpacing(24)
        self._halves.addWidget(self.panel, 5)
        column = QVBoxLayout()
        self._lay_out_line(column)
        self.marking.setChecked(True)
        self.area.setWidget(self.preview)
        self.area.setWidgetResizable(True)
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        column.addWidget(self.area)
        last = QHBoxLayout()
        last.addWidget(self.sticker_words, 1)
        last.addWidget(self.open_label)
        column.addLayout(last)
        column.addStretch(1)
        self._halves.addLayout(column, 6)

    def _lay_out_line(self, column: QVBoxLayout) -> None:
        """Which sheet is shown and how, over the sheet; in two lines, so that it may be narrow."""
        turning = QHBoxLayout()
        for one in (self.previous_sheet, self.sheet_words, self.next_sheet):
            turning.addWidget(one)
        turning.addStretch(1)
        for one in (self.previous_sheet, self.next_sheet):
            one.setFixedWidth(self.fontMetrics().height() * 2)
        shown = QHBoxLayout()
        shown.addWidget(self.marking)
        shown.addStretch(1)
        shown.addWidget(self.real_size)
        column.addLayout(turning)
        column.addLayout(shown)

    def _connect(self) -> None:
        self.preview.pressed.connect(self._pressed)
        self.preview.toggled.connect(self.toggle)
        self.preview.chosen.connect(self._went)
        self.preview.opened.connect(lambda _index: self._open())
        self.open_label.clicked.connect(self._open)
        self.real_size.toggled.connect(lambda on: self.preview.show_real_size(real=on))
        self.previous_sheet.clicked.connect(lambda: self._turn(-1))
        self.next_sheet.clicked.connect(lambda: self._turn(1))
        self.panel.sheet_box.typing.connect(self.show_sheet)
        self.panel.lines.chosen.connect(lambda _key: self.candle_shown.emit())
        self.panel.begun.marked.connect(self.show_begun)

    def set_height(self, high: int) -> None:
        """Give the sheet this much height; below the panel no more than its page needs."""
        self._high = high - 60
        self._fit()

    @property
    def stacked(self) -> bool:
        """Whether the sheet stands below the panel."""
        return self._halves.direction() == QBoxLayout.Direction.TopToBottom

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        wide = event.size().width() >= self.fontMetrics().averageCharWidth() * _WIDE_CHARACTERS
        side_by_side, below = QBoxLayout.Direction.LeftToRight, QBoxLayout.Direction.TopToBottom
        self._halves.setDirection(side_by_side if wide else below)
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        page = round(self.width() * _TALL) if self.stacked else self._high
        high = max(1, min(self._high, page))
        if self.area.height() != high:
            self.area.setFixedHeight(high)

    # -- showing ---------------------------------------------------------------------------------
    def refresh(self) -> None:
        """Show the run afresh."""
        if self._count != self._desk.view.count:
            self._count, self._begun = self._desk.view.count, None
        self.panel.refresh()
        self.show_sheet()

    def show_sheet(self) -> None:
        """Show the current sheet of the placed run; a begun one stays in view wherever it goes."""
        view = self._desk.view
        keys = [one.id for one in view.run.begun]
        if self._begun in keys:
            self.sheet_no = keys.index(self._begun)
        sheets = self._sheets()
        if self.sheet_no not in sheets:
            self.sheet_no = next((one for one in sheets if one >= self.sheet_no), sheets[-1])
        paper = paper_colour(kraft=sheet_is_kraft(self._desk.shelf, view.run.sheet_id))
        self.preview.show_run(view.sheet, view.pages, self.sheet_no, self._used(), paper)
        at = sheets.index(self.sheet_no)
        for one in (self.previous_sheet, self.next_sheet, self.sheet_words):
            one.setVisible(len(sheets) > 1)
        self.previous_sheet.setEnabled(at > 0)
        self.next_sheet.setEnabled(at < len(sheets) - 1)
        self.sheet_words.setText(self._sheet_text(at + 1, len(sheets)))
        for widget in (self.area, self.marking, self.real_size):
            widget.setVisible(view.sheet is not None)
        self._say_sticker()
        self.placed.emit()

    def show_begun(self, key: int) -> None:
        """Look at a begun sheet, whether the run needs it or not."""
        self._begun = key
        self.show_sheet()

    def _sheets(self) -> tuple[int, ...]:
        """Numbers of the sheets to look at: those that get ink, and a begun one in hand."""
        view = self._desk.view
        inked = set(view.pages.sheet_numbers) if view.pages is not None else set()
        if self._begun is not None and self.sheet_no < len(view.run.begun):
            inked.add(self.sheet_no)
        return tuple(sorted(inked)) or (0,)

    def _used(self) -> frozenset[int]:
        """Stickers gone from the sheet that is shown."""
        begun = self._desk.view.run.begun
        return begun[self.sheet_no].used if self.sheet_no < len(begun) else frozenset()

    def _sheet_text(self, at: int, of: int) -> str:
        texts = self._desk.workspace.texts
        begun = self.sheet_no < len(self._desk.view.run.begun)
        said = N_("Sheet {at} of {of}, begun before") if begun else N_("Sheet {at} of {of}")
        return texts(said, at=str(at), of=str(of))

    def _say_sticker(self) -> None:
        words = self.sticker_text(self.preview.current)
        self.sticker_words.setText(words)
        self.preview.setAccessibleDescription(words)
        self.open_label.setVisible(self._entry() is not None)

    def shown_entry(self) -> int | None:
        """Entry of the run on the chosen sticker, else of the chosen line; ``None`` for none."""
        entry, key = self._entry(), self.panel.lines.current_key
        if entry is not None:
            return entry
        chosen = (at for at, line in enumerate(self._desk.view.lines) if line.id == key)
        return next(chosen, None)

    def _entry(self) -> int | None:
        index = self.preview.current
        return None if index is None else self._desk.entry_at(self.sheet_no, index)

    def sticker_text(self, index: int | None) -> str:
        """What stands on a sticker, in words."""
        view, texts = self._desk.view, self._desk.workspace.texts
        if index is None or view.sheet is None:
            return ""
        number = texts(N_("Sticker {number}"), number=str(index + 1))
        if index in self._used():
            return f"{number} · {texts(N_('used already; the space bar frees it'))}"
        entry = self._desk.entry_at(self.sheet_no, index)
        if entry is None:
            return f"{number} · {texts(N_('stays free'))}"
        line = view.lines[entry]
        candle = self._desk.candle(line.candle_id)
        day = texts(N_("poured on {day}"), day=texts.day(line.poured_on)) if line.poured_on else ""
        name = candle.name if candle else ""
        parts = (view.labels[entry].name, name, line.lot_code, day, self._number(entry, index))
        return f"{number} · " + " · ".join(part for part in parts if part)

    def _number(self, entry: int, index: int) -> str:
        """The running number of a sticker, where its label has one."""
        view, texts = self._desk.view, self._desk.workspace.texts
        numbered = view.made[entry].numbered
        if numbered is None or view.pages is None:
            return ""
        on_sheet = view.pages.on_sheet(self.sheet_no)
        nth = next((one.nth for one in on_sheet if one.index == index), 0)
        return texts(N_("number {number}"), number=str(numbered.first + nth))

    def shown_candle(self) -> Candle | None:
        """The candle of the chosen sticker, else of the chosen line, else of the first line."""
        view, entry = self._desk.view, self._entry()
        lines = list(self._desk.run.lines)
        key = self.panel.lines.current_key
        first = [view.lines[entry]] if entry is not None else []
        chosen = [line for line in lines if line.id == key]
        for line in (*first, *chosen, *lines):
            candle = self._desk.candle(line.candle_id)
            if candle is not None:
                return candle
        return None

    # -- doing -----------------------------------------------------------------------------------
    def _pressed(self, index: int) -> None:
        if self.marking.isChecked():
            self.toggle(index)

    def toggle(self, index: int) -> None:
        """Mark a sticker of the shown sheet as used, or free it; a new sheet is begun by it."""
        desk = self._desk
        if desk.run_id is None:
            return
        key = print_runs.toggle_used(desk.workspace, desk.run_id, index, sheet_no=self.sheet_no)
        if key is not None:
            self.show_begun(key)

    def _went(self, _index: int) -> None:
        self._say_sticker()
        self.candle_shown.emit()

    def _open(self) -> None:
        entry = self._entry()
        if entry is not None:
            self.label_opened.emit(self._desk.view.labels[entry].id)

    def _turn(self, by: int) -> None:
        sheets = self._sheets()
        at = max(0, min(sheets.index(self.sheet_no) + by, len(sheets) - 1))
        self.sheet_no, self._begun = sheets[at], None
        self.show_sheet()
