"""The line for what the scale really showed; an empty one takes the space bar as "as shown"."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from typing_extensions import override

from wickbench.gui.fields.line_field import EchoLine

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent


class WeightLine(EchoLine):
    """Signals ``as_shown_requested`` for a space in an empty line, ``typed`` for Enter."""

    as_shown_requested = Signal()
    entered = Signal(str)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Space and not self.text().strip():
            self.as_shown_requested.emit()
        elif event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            if self.text().strip():
                self.entered.emit(self.text())
            else:
                self.as_shown_requested.emit()
        else:
            super().keyPressEvent(event)
