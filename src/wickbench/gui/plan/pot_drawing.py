"""A pouring pot seen from the side, with its contents and its safe fill."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from wickbench.gui.naming import accessible
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from wickbench.gui.theme import Colours

_SAFE: Final = 0.8
"""Where the dashed line of the safe fill is drawn, as a share of the pot's height."""
_WIDE, _HIGH = 76, 84


class PotDrawing(QWidget):
    """Outline, contents up to their share of the safe fill, and a dashed line at the safe fill."""

    def __init__(self) -> None:
        super().__init__()
        self.fill_ratio: float | None = None
        self.over = False
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        accessible(self, "")

    def show_fill(self, ratio: float | None, words: str, *, over: bool) -> None:
        """Show contents as a share of the safe fill; ``None`` leaves the pot empty."""
        accessible(self, words)
        if (ratio, over) != (self.fill_ratio, self.over):
            self.fill_ratio, self.over = ratio, over
            self.update()

    @override
    def sizeHint(self) -> QSize:
        return QSize(_WIDE, _HIGH)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        colours = colours_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        inside = QRectF(8, 8, _WIDE - 26, _HIGH - 14)
        body = _body(inside)
        self._pour(painter, colours, inside, body)
        painter.setPen(QPen(QColor(colours.ink), 1.75))
        painter.drawPath(_outline(inside))
        painter.drawPath(_handle(inside))
        safe = inside.bottom() - _SAFE * inside.height()
        painter.setPen(QPen(QColor(colours.quiet), 1, Qt.PenStyle.DashLine))
        painter.drawLine(QPointF(inside.left() + 3, safe), QPointF(inside.right() - 3, safe))
        painter.end()

    def _pour(
        self, painter: QPainter, colours: Colours, inside: QRectF, body: QPainterPath
    ) -> None:
        if not self.fill_ratio:
            return
        high = min(self.fill_ratio * _SAFE, 1.0) * inside.height()
        level = inside.bottom() - high
        painter.save()
        painter.setClipPath(body)
        mix = QRectF(inside.left(), level, inside.width(), high)
        painter.fillRect(mix, QColor(colours.wash))
        ink = QColor(colours.stops if self.over else colours.accent)
        painter.setPen(QPen(ink, 1.75))
        painter.drawLine(QPointF(inside.left(), level), QPointF(inside.right(), level))
        painter.restore()


def _body(inside: QRectF) -> QPainterPath:
    """The inside of the pot: a little wider at the top."""
    path = QPainterPath(QPointF(inside.left(), inside.top()))
    path.lineTo(inside.left() + 4, inside.bottom())
    path.lineTo(inside.right() - 4, inside.bottom())
    path.lineTo(inside.right(), inside.top())
    path.closeSubpath()
    return path


def _outline(inside: QRectF) -> QPainterPath:
    """Wall and base, with the lip at the left."""
    path = QPainterPath(QPointF(inside.left() - 6, inside.top() - 4))
    path.lineTo(inside.left() + 0.5, inside.top() + 5)
    path.lineTo(inside.left() + 4, inside.bottom())
    path.lineTo(inside.right() - 4, inside.bottom())
    path.lineTo(inside.right(), inside.top())
    return path


def _handle(inside: QRectF) -> QPainterPath:
    path = QPainterPath(QPointF(inside.right() - 1, inside.top() + 10))
    path.cubicTo(
        QPointF(inside.right() + 18, inside.top() + 8),
        QPointF(inside.right() + 14, inside.top() + 44),
        QPointF(inside.right() - 3, inside.top() + 42),
    )
    return path
