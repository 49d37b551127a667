"""*How is this computed?*: a small text beside a figure, opened on demand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QFrame, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from wickbench.gui.icons import set_icon
from wickbench.gui.naming import accessible
from wickbench.gui.page import heading, label
from wickbench.gui.style_sheet import set_look
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.texts import Texts

_WIDTH = 380


class HowComputed(QToolButton):
    """A quiet button; pressed, it shows how a figure came about, step by step."""

    def __init__(self, texts: Texts, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        question = texts("How is this computed?")
        self._heading = question
        self._steps: tuple[str, ...] = ()
        self.setText(question)
        self.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        set_look(self, "flat")
        set_icon(self, "how", colours_of(self))
        accessible(self, question)
        self.clicked.connect(self._open)

    def explain(self, steps: Sequence[str]) -> None:
        """Say how, in translated sentences; none hides the button."""
        self._steps = tuple(steps)
        self.setVisible(bool(self._steps))

    def popover(self) -> QFrame:
        """The opened text; closes at a click beside it or at Escape."""
        frame = QFrame(self, Qt.WindowType.Popup)
        frame.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        set_look(frame, "card")
        box = QVBoxLayout(frame)
        box.setContentsMargins(16, 12, 16, 16)
        box.setSpacing(8)
        box.addWidget(heading(self._heading))
        for step in self._steps:
            box.addWidget(label(step))
        frame.setFixedWidth(_WIDTH)
        return frame

    def _open(self) -> None:
        frame = self.popover()
        frame.adjustSize()
        corner = self.mapToGlobal(QPoint(0, self.height() + 4))
        right = self.screen().availableGeometry().right() - _WIDTH
        frame.move(min(corner.x(), right), corner.y())
        frame.show()
