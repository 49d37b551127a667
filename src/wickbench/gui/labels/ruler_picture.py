"""What a reading of the ruler is: from the paper's edge to an edge of a sticker, drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent

_WIDE: Final = 150
_HIGH: Final = 190
_LEFT, _TOP, _STEP_X, _STEP_Y, _SIZE_X, _SIZE_Y = 16.0, 18.0, 41.0, 44.0, 36.0, 36.0
_ACROSS, _DOWN = 3, 4
_SPANS: Final = {
    "first_near_mm": (0.0, 0),
    "last_near_mm": (0.0, 1),
    "last_far_mm": (0.0, 2),
    "size_mm": (1.0, 2),
}


class RulerPicture(QWidget):
    """A sheet with the distance that a field asks for."""

    def __init__(self, accessible_name: str) -> None:
        super().__init__()
        self._side, self._reading = "across", "first_near_mm"
        self.setAccessibleName(accessible_name)
        self.setFixedSize(_WIDE + 2, _HIGH + 2)

    def show_reading(self, side: str, reading: str) -> None:
        """Draw this distance."""
        self._side, self._reading = side, reading
        self.update()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        colours = colours_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.translate(0.5, 0.5)
        painter.fillRect(QRectF(0, 0, _WIDE, _HIGH), QColor("#FFFFFF"))
        painter.setPen(QPen(QColor(colours.quiet), 1))
        painter.drawRect(QRectF(0, 0, _WIDE, _HIGH))
        painter.setPen(QPen(QColor("#CFC3B2"), 1))
        painter.setBrush(QColor("#F7EFE4"))
        for column in range(_ACROSS):
            for row in range(_DOWN):
                x, y = _LEFT + column * _STEP_X, _TOP + row * _STEP_Y
                painter.drawRoundedRect(QRectF(x, y, _SIZE_X, _SIZE_Y), 4, 4)
        self._paint_distance(painter)
        painter.end()

    def _paint_distance(self, painter: QPainter) -> None:
        """A line with a bar at either end, along the first row or down the first column."""
        across = self._side == "across"
        near, step, size = (_LEFT, _STEP_X, _SIZE_X) if across else (_TOP, _STEP_Y, _SIZE_Y)
        last = near + ((_ACROSS if across else _DOWN) - 1) * step
        ends = {0: near, 1: last, 2: last + size}
        begins, at = _SPANS[self._reading]
        start, end = (last if begins else 0.0), ends[at]
        aside = (_TOP + _SIZE_Y / 2) if across else (_LEFT + _SIZE_X / 2)
        painter.setPen(QPen(QColor("#A8540F"), 2, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
        points = [(start, aside), (end, aside)]
        bars = [((x, aside - 6), (x, aside + 6)) for x in (start, end)]
        for one, other in (tuple(points), *bars):
            painter.drawLine(_point(one, across=across), _point(other, across=across))


def _point(place: tuple[float, float], *, across: bool) -> QPointF:
    return QPointF(*place) if across else QPointF(place[1], place[0])
