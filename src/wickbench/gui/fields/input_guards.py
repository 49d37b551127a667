"""Small habits of input widgets: the wheel, undo, and Escape."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLineEdit, QPlainTextEdit, QWidget
from typing_extensions import override

if TYPE_CHECKING:
    from collections.abc import Callable


class WheelGuard(QObject):
    """A combo box under the mouse is scrolled past, not changed, until it has the focus."""

    def __init__(self, widget: QWidget) -> None:
        super().__init__(widget)
        widget.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        widget.installEventFilter(self)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() != QEvent.Type.Wheel:
            return False
        if isinstance(watched, QWidget) and watched.hasFocus():
            return False
        event.ignore()
        return True


class TextGuard(QObject):
    """Ctrl+Z goes to the workshop when the field has no history; Escape restores.

    Args:
        widget: a line or a text of several lines.
        restore: puts the stored text back; says whether there was anything to restore.
    """

    def __init__(
        self, widget: QLineEdit | QPlainTextEdit, restore: Callable[[], bool] | None = None
    ) -> None:
        super().__init__(widget)
        self._widget = widget
        self._restore = restore
        widget.installEventFilter(self)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if not isinstance(event, QKeyEvent):
            return False
        if event.type() == QEvent.Type.ShortcutOverride:
            return self._leaves_to_the_window(event)
        if event.type() == QEvent.Type.KeyPress and event.key() == Qt.Key.Key_Escape:
            return self._restore is not None and self._restore()
        return False

    def _leaves_to_the_window(self, event: QKeyEvent) -> bool:
        if event.matches(QKeySequence.StandardKey.Undo):
            return self._ignore(event, has_history=self._undo_available())
        if event.matches(QKeySequence.StandardKey.Redo):
            return self._ignore(event, has_history=self._redo_available())
        return False

    @staticmethod
    def _ignore(event: QKeyEvent, *, has_history: bool) -> bool:
        if has_history:
            return False
        event.ignore()
        return True

    def _undo_available(self) -> bool:
        if isinstance(self._widget, QLineEdit):
            return self._widget.isUndoAvailable()
        return self._widget.document().isUndoAvailable()

    def _redo_available(self) -> bool:
        if isinstance(self._widget, QLineEdit):
            return self._widget.isRedoAvailable()
        return self._widget.document().isRedoAvailable()
