"""Several lines of plain text."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPlainTextEdit
from typing_extensions import override

from wickbench.gui.fields.field import Field
from wickbench.gui.fields.input_guards import TextGuard

if TYPE_CHECKING:
    from PySide6.QtGui import QFocusEvent

_LINES: Final = 3


class NoteEdit(QPlainTextEdit):
    """A text that says when the focus leaves it; Tab goes on to the next field."""

    left = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setTabChangesFocus(True)
        height = self.fontMetrics().lineSpacing() * _LINES + 16
        self.setFixedHeight(height)

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.left.emit()


class NoteField(Field):
    """A note; stored when the focus leaves it."""

    def __init__(self, accessible_name: str) -> None:
        self.note = NoteEdit()
        super().__init__(self.note, accessible_name)
        TextGuard(self.note, self.restore)
        self.note.textChanged.connect(self._typed)
        self.note.left.connect(self._finished)

    @override
    def text(self) -> str:
        return self.note.toPlainText()

    @override
    def _put(self, text: str) -> None:
        if text != self.note.toPlainText():
            self.note.setPlainText(text)

    @override
    def show_assumed(self, text: str) -> None:
        self.note.setPlaceholderText(text)

    def _typed(self) -> None:
        if self.note.hasFocus():
            self.clear_trouble()
            self.edited.emit(self.text())

    def _finished(self) -> None:
        if self.text() != self._stored or self.trouble.sentence:
            self.committed.emit(self.text())
