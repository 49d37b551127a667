"""One starting design to press: its miniature, its name and what paper it is for."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFont, QPainter, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy
from typing_extensions import override

from wickbench.gui.labels.papers import WHITE, paint_miniature
from wickbench.gui.naming import accessible
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from PySide6.QtGui import QFocusEvent, QKeyEvent, QPaintEvent

    from wickbench.app.starting_choices import Offered

_PAD: Final = 10
_RADIUS: Final = 6.0
_LINES: Final = 5  # of words below the miniature: the name, its character, the paper
_ROOM: Final = 132
_ARROWS: Final = {
    Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1), Qt.Key.Key_Down: (0, 1),
}  # fmt: skip


class DesignTile(QAbstractButton):
    """A design as it would look.

    Attributes:
        offered: what it shows.

    Signals:
        moved: an arrow key wants the tile beside it: across and down.
        reached: it has the keyboard and is to be seen.
    """

    moved = Signal(int, int)
    reached = Signal()

    def __init__(self, offered: Offered) -> None:
        super().__init__()
        self.offered = offered
        self.paper = WHITE
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setObjectName(f"design_{offered.starting}")
        self.show_design(offered, WHITE)

    def show_design(self, offered: Offered, paper: str) -> None:
        """Show the design for another sticker or on another paper."""
        self.offered, self.paper = offered, paper
        self.setEnabled(offered.made is not None)
        told = offered.trouble or ", ".join(one for one in (offered.character, offered.ink) if one)
        accessible(self, offered.name, told)
        self.update()

    @override
    def sizeHint(self) -> QSize:
        return QSize(190, _ROOM + 3 * _PAD + _LINES * self.fontMetrics().lineSpacing())

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(150, self.sizeHint().height())

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if key in _ARROWS:
            self.moved.emit(*_ARROWS[key])
        elif key in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.click()
        else:
            super().keyPressEvent(event)

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.reached.emit()

    # -- painting --------------------------------------------------------------------------------
    @override
    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_ground(painter)
        made = self.offered.made
        room = QRectF(_PAD, _PAD, self.width() - 2 * _PAD, _ROOM)
        if made is not None:
            paint_miniature(painter, made.laid, room, self.paper)
        self._paint_words(painter)
        painter.end()

    def _paint_ground(self, painter: QPainter) -> None:
        colours = colours_of(self)
        lit = self.underMouse() or self.hasFocus()
        painter.setBrush(QColor(colours.hover if self.underMouse() else colours.sheet))
        width = 2.0 if self.hasFocus() else 1.0
        painter.setPen(QPen(QColor(colours.accent if lit else colours.line), width))
        inside = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        painter.drawRoundedRect(inside, _RADIUS, _RADIUS)

    def _paint_words(self, painter: QPainter) -> None:
        colours, line = colours_of(self), self.fontMetrics().lineSpacing()
        offered, top = self.offered, _ROOM + 2 * _PAD
        wide = self.width() - 2 * _PAD
        bold = QFont(self.font())
        bold.setBold(True)
        painter.setFont(bold)
        painter.setPen(QColor(colours.ink))
        middle = Qt.AlignmentFlag.AlignHCenter
        painter.drawText(QRect(_PAD, top, wide, line), middle, offered.name)
        painter.setFont(self.font())
        painter.setPen(QColor(colours.stops if offered.trouble else colours.quiet))
        words = offered.trouble or "\n".join(one for one in (offered.character, offered.ink) if one)
        flags = middle | Qt.TextFlag.TextWordWrap
        painter.drawText(QRect(_PAD, top + line, wide, (_LINES - 1) * line), flags, words)
