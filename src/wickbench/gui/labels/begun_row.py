"""One begun sheet: drawn small with its free stickers, its note, and what can be done with it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QVBoxLayout, QWidget

from wickbench.app.texts_marker import N_
from wickbench.gui.fields.line_field import LineField
from wickbench.gui.labels.elements_box import button_row
from wickbench.gui.labels.sheet_preview import SheetPreview
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, label

if TYPE_CHECKING:
    from wickbench.app.begun_sheets import BegunSheet
    from wickbench.app.texts import Texts
    from wickbench.domain.sheets import StickerSheet

_HIGH: Final = 124
_WIDEST: Final = 160


class BegunRow(QWidget):
    """A begun sheet of the drawer.

    Signals:
        toggled: number of the sticker to mark as used, or as free again.
        noted: the note as typed.
        left_out: whether this run goes without it.
        thrown: it is not there any more.
        large_requested: it is to be seen large.
    """

    toggled = Signal(int)
    noted = Signal(str)
    left_out = Signal(bool)
    thrown = Signal()
    large_requested = Signal()

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        self._texts = texts
        self.begun: BegunSheet | None = None
        self.picture = SheetPreview(texts("Begun sheet"), small=True)
        self.words = label("", wrap=True)
        self.note = LineField(texts("Where it lies, or what is wrong with it"))
        self.note.show_assumed(texts("Where it lies…"))
        self.leave = QCheckBox(texts("Leave it out of this run"))
        self.large = button(texts("Show it large"), "flat")
        self.throw = button(texts("Throw it away"), "flat")
        self._lay_out()
        for signal in (self.picture.pressed, self.picture.toggled):
            signal.connect(self.toggled)
        self.note.committed.connect(self.noted)
        self.leave.clicked.connect(self.left_out)
        self.large.clicked.connect(self.large_requested)
        self.throw.clicked.connect(self.thrown)
        name_attributes(self)

    def _lay_out(self) -> None:
        box = QHBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(12)
        box.addWidget(self.picture, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout()
        column.setSpacing(4)
        for widget in (self.words, self.note, self.leave):
            column.addWidget(widget)
        column.addLayout(button_row(self.large, self.throw))
        column.addStretch(1)
        box.addLayout(column, 1)

    def show_sheet(
        self, sheet: StickerSheet, begun: BegunSheet | None, words: str, *, left_out: bool = False
    ) -> None:
        """Show a begun sheet; ``None`` for one of which no sticker is marked yet."""
        self.begun = begun
        used = begun.used if begun is not None else frozenset()
        wide = min(_WIDEST, round(_HIGH * sheet.page_w_mm / max(sheet.page_h_mm, 1.0)))
        self.picture.setFixedSize(wide + 6, _HIGH + 6)
        self.picture.show_run(sheet, None, 0, used)
        self.picture.setAccessibleDescription(words)
        self.words.setText(words)
        for widget in (self.note, self.leave, self.throw):
            widget.setVisible(begun is not None)
        self.note.show_stored(begun.note if begun is not None else "")
        self.large.setVisible(begun is not None and not left_out)
        self.leave.setChecked(left_out)


def begun_words(texts: Texts, sheet: StickerSheet, begun: BegunSheet, taken: int) -> str:
    """How many of its stickers are free, and how many this run takes."""
    free = len(begun.free(sheet.count))
    if not free:
        return texts(N_("No sticker is left on it."))
    said = texts(N_("{free} of {count} stickers free"), free=str(free), count=str(sheet.count))
    if not taken:
        return said
    return f"{said} · {texts(N_('this run takes {n}'), n=str(taken))}"
