"""Begun sheets of the run's kind: which stickers are left, and which sheets this run takes."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from wickbench.app import begun_sheets, print_runs
from wickbench.app.texts_marker import N_
from wickbench.gui.labels.begun_row import BegunRow, begun_words
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label

if TYPE_CHECKING:
    from wickbench.app.begun_sheets import BegunSheet
    from wickbench.domain.sheets import StickerSheet
    from wickbench.gui.labels.desk import Desk


class BegunPanel(QWidget):
    """The drawer of begun sheets; hidden while no sheet is chosen.

    Signals:
        marked: key of the begun sheet that is to be seen large: it was asked for, or a sticker
            of it was marked or freed.
    """

    marked = Signal(int)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        texts = desk.workspace.texts
        self.title = heading(texts("Begun sheets"))
        about = N_(
            "Sheets with stickers gone are used first. Click a sticker to mark it as gone, again "
            "to have it back."
        )
        self.about = label(texts(about), "quiet")
        self.rows: list[BegunRow] = []
        self.fresh = BegunRow(texts)
        self.begin = button(texts("Keep another begun sheet"), "flat")
        self._box = QVBoxLayout(self)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(8)
        for widget in (self.title, self.about, self.fresh):
            self._box.addWidget(widget)
        self._box.addWidget(self.begin, 0, Qt.AlignmentFlag.AlignLeft)
        self.fresh.setVisible(False)
        self.begin.clicked.connect(self._show_fresh)
        self.fresh.toggled.connect(self._begin)
        name_attributes(self)

    def refresh(self) -> None:
        """Show the drawer afresh; a sheet keeps its place, whatever order they are taken in."""
        desk, sheet = self._desk, self._desk.sheet
        usable = sheet is not None and sheet.count > 0 and desk.run_id is not None
        self.setVisible(usable)
        drawer = (*desk.run.begun, *desk.run.not_taken) if usable else ()
        every = sorted(drawer, key=lambda one: one.id)
        self.about.setVisible(bool(every))
        self._keep_rows(len(every))
        if sheet is not None and usable:
            for row, begun in zip(self.rows, every, strict=True):
                self._show_row(row, sheet, begun)
        self.fresh.setVisible(False)

    def _keep_rows(self, count: int) -> None:
        """As many rows as there are begun sheets."""
        while len(self.rows) < count:
            row = BegunRow(self._desk.workspace.texts)
            row.toggled.connect(partial(self._toggle, row))
            row.noted.connect(partial(self._note, row))
            row.left_out.connect(partial(self._leave_out, row))
            row.thrown.connect(partial(self._throw, row))
            row.large_requested.connect(partial(self._enlarge, row))
            self._box.insertWidget(2 + len(self.rows), row)
            self.rows.append(row)
        while len(self.rows) > count:
            row = self.rows.pop()
            self._box.removeWidget(row)
            row.hide()
            row.deleteLater()

    def _show_row(self, row: BegunRow, sheet: StickerSheet, begun: BegunSheet) -> None:
        run, pages = self._desk.run, self._desk.view.pages
        taken = 0
        if pages is not None and begun in run.begun:
            taken = len(pages.on_sheet(run.begun.index(begun)))
        words = begun_words(self._desk.workspace.texts, sheet, begun, taken)
        row.show_sheet(sheet, begun, words, left_out=begun.id in run.left_out)

    # -- doing -----------------------------------------------------------------------------------
    def _show_fresh(self) -> None:
        """A whole sheet of which the first sticker that is gone is to be clicked."""
        sheet, texts = self._desk.sheet, self._desk.workspace.texts
        if sheet is not None:
            self.fresh.show_sheet(sheet, None, texts(N_("Click the stickers that are gone.")))
            self.fresh.setVisible(True)
            self.fresh.picture.setFocus()

    def _begin(self, index: int) -> None:
        sheet_id = self._desk.run.sheet_id
        if sheet_id is not None:
            key = begun_sheets.begin_sheet(self._desk.workspace, sheet_id, {index})
            self._say_marked(key)

    def _toggle(self, row: BegunRow, index: int) -> None:
        if row.begun is not None:
            begun, used = row.begun, row.begun.used ^ {index}
            workspace = self._desk.workspace
            self._say_marked(begun_sheets.mark_used(workspace, begun.sheet_id, begun.id, used))

    def _enlarge(self, row: BegunRow) -> None:
        if row.begun is not None:
            self.marked.emit(row.begun.id)

    def _say_marked(self, key: int | None) -> None:
        if key is not None:
            self.marked.emit(key)

    def _note(self, row: BegunRow, typed: str) -> None:
        if row.begun is not None:
            begun_sheets.write_note(self._desk.workspace, row.begun.id, typed)

    def _leave_out(self, row: BegunRow, out: bool) -> None:  # noqa: FBT001 - a signal's argument
        if row.begun is not None and self._desk.run_id is not None:
            workspace, run_id = self._desk.workspace, self._desk.run_id
            print_runs.leave_out(workspace, run_id, row.begun.id, out=out)

    def _throw(self, row: BegunRow) -> None:
        if row.begun is not None:
            begun_sheets.throw_away(self._desk.workspace, row.begun.id)
