"""*How is this computed?*: a small text beside a figure, opened on demand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from wickbench.gui.icons import set_icon
from wickbench.gui.naming import accessible
from wickbench.gui.page import heading, label
from wickbench.gui.style_sheet import set_look
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.texts import Texts

_WIDTH = 380
_MARGIN = 16


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
        inside = QWidget()
        box = QVBoxLayout(inside)
        box.setContentsMargins(16, 12, 16, 16)
        box.setSpacing(8)
        box.addWidget(heading(self._heading))
        for step in self._steps:
            box.addWidget(label(step))
        area = QScrollArea(frame)
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setWidgetResizable(True)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setWidget(inside)
        around = QVBoxLayout(frame)
        around.setContentsMargins(1, 1, 1, 1)
        around.addWidget(area)
        room = self.screen().availableGeometry().height() - 2 * _MARGIN
        wanted = box.totalHeightForWidth(_WIDTH - 2) + 2
        bar = area.verticalScrollBar().sizeHint().width() if wanted > room else 0
        frame.setFixedSize(_WIDTH + bar, min(wanted, room))
        return frame

    def _open(self) -> None:
        frame = self.popover()
        corner = self.mapToGlobal(QPoint(0, self.height() + 4))
        room = self.screen().availableGeometry()
        x = min(corner.x(), room.right() - frame.width())
        y = min(corner.y(), room.bottom() - frame.height() - _MARGIN)
        frame.move(x, max(y, room.top() + _MARGIN))
        frame.show()
