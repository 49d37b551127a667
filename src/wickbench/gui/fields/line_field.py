"""One line to type in, with what was understood shown beside the typing."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QLineEdit
from typing_extensions import override

from wickbench.gui.fields.field import Field
from wickbench.gui.fields.input_guards import TextGuard
from wickbench.gui.page import label
from wickbench.gui.theme import colours_of

_GAP: Final = 10
_NARROWEST: Final = 72


class EchoLine(QLineEdit):
    """A line that shows quiet text at its right end, where there is room for both."""

    def __init__(self) -> None:
        super().__init__()
        self._echo = ""
        self.setMinimumWidth(_NARROWEST)
        self.textChanged.connect(self._make_room)

    @property
    def echo(self) -> str:
        """The quiet text."""
        return self._echo

    @property
    def echo_fits(self) -> bool:
        """Whether typing and echo stand side by side."""
        metrics = self.fontMetrics()
        needed = metrics.horizontalAdvance(self.text()) + metrics.horizontalAdvance(self._echo)
        return needed + 3 * _GAP + 8 <= self.width()

    def set_echo(self, text: str) -> None:
        """Show this at the right end; empty for nothing."""
        if text != self._echo:
            self._echo = text
            self._make_room()
            self.update()

    def _make_room(self) -> None:
        shown = bool(self._echo) and self.echo_fits
        wide = self.fontMetrics().horizontalAdvance(self._echo) + _GAP if shown else 0
        self.setTextMargins(0, 0, wide, 0)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._make_room()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self._echo or not self.echo_fits:
            return
        painter = QPainter(self)
        painter.setPen(QColor(colours_of(self).quiet))
        room = QRect(self.rect()).adjusted(_GAP, 0, -_GAP, 0)
        painter.drawText(
            room, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, self._echo
        )
        painter.end()


class LineField(Field):
    """Text, a date or a quantity on one line."""

    def __init__(self, accessible_name: str) -> None:
        self.line = EchoLine()
        super().__init__(self.line, accessible_name)
        self.below = label("", "quiet")
        self.below.setVisible(False)
        layout = self.layout()
        if layout is not None:
            layout.addWidget(self.below)
        TextGuard(self.line, self.restore)
        self.line.textEdited.connect(self._typed)
        self.line.editingFinished.connect(self._finished)

    @override
    def text(self) -> str:
        return self.line.text()

    @override
    def _put(self, text: str) -> None:
        """Put text in; typing that was taken is no history of the field any more."""
        if text != self.line.text() or self.line.isUndoAvailable():
            at = self.line.cursorPosition()
            self.line.setText(text)
            self.line.setCursorPosition(min(at, len(text)) if self.line.hasFocus() else 0)

    @override
    def show_assumed(self, text: str) -> None:
        self.line.setPlaceholderText(text)

    @override
    def say(self, echo: str) -> None:
        shown = "" if echo == self.text() else echo
        self.line.set_echo(shown)
        self._place_echo()

    @override
    def show_trouble(self, sentence: str, readings: tuple[str, ...] = ()) -> None:
        self.say("")
        super().show_trouble(sentence, readings)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place_echo()

    def _place_echo(self) -> None:
        below = bool(self.line.echo) and not self.line.echo_fits
        self.below.setText(self.line.echo if below else "")
        self.below.setVisible(below)

    def _typed(self, text: str) -> None:
        self.clear_trouble()
        self.edited.emit(text)

    def _finished(self) -> None:
        if self.text() != self._stored or self.trouble.sentence:
            self.committed.emit(self.text())


class QuantityField(LineField):
    """A number with or without its unit; what was understood stands beside it."""


class DateField(LineField):
    """A day; its weekday stands beside it."""


class TextField(LineField):
    """Plain text on one line."""
