"""The curve of a pot that cools: axes, readings, the window to pour in, and now."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from wickbench.gui.fonts import scaled
from wickbench.gui.naming import accessible
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.cooling_drawing import CurveDrawn, Point
    from wickbench.gui.theme import Colours

_GAP: Final = 8.0
_DOT: Final = 4.0
_TARGET: Final = 6.0
_TALL: Final = 240
_SMALL: Final = 0.9


class CoolingCurve(QWidget):
    """To scale; the words on the axes never lie over the curve."""

    def __init__(self, name: str, now: str) -> None:
        super().__init__()
        self.drawn: CurveDrawn | None = None
        self._now = now
        accessible(self, name)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        scaled(self, _SMALL)

    def show_curve(self, drawn: CurveDrawn | None) -> None:
        """Show a curve; ``None`` hides the widget."""
        self.setVisible(drawn is not None)
        if drawn != self.drawn:
            self.drawn = drawn
            self.setAccessibleDescription(drawn.description if drawn else "")
            self.update()

    @override
    def sizeHint(self) -> QSize:
        return QSize(420, _TALL)

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(220, _TALL)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        if self.drawn is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        _Sketch(painter, self.drawn, colours_of(self), QRectF(self.rect()), self._now).paint()
        painter.end()


class _Sketch:
    """One painting of one curve."""

    def __init__(
        self, painter: QPainter, drawn: CurveDrawn, colours: Colours, frame: QRectF, now: str
    ) -> None:
        self.painter, self.drawn, self.colours, self.now = painter, drawn, colours, now
        metrics = painter.fontMetrics()
        self.high = float(metrics.height())
        words = [text for _, text in drawn.celsius_marks]
        wide = max((metrics.horizontalAdvance(text) for text in words), default=0)
        last = drawn.minute_marks[-1][1] if drawn.minute_marks else ""
        self.room = QRectF(frame).adjusted(
            wide + _GAP, self.high / 2 + 2, -metrics.horizontalAdvance(last) / 2, -self.high - _GAP
        )

    def at(self, point: Point) -> QPointF:
        """A minute and a temperature on the screen."""
        (first, last), (low, high) = self.drawn.minutes, self.drawn.celsius
        across = (point[0] - first) / (last - first) * self.room.width()
        up = (point[1] - low) / (high - low) * self.room.height()
        return QPointF(self.room.left() + across, self.room.bottom() - up)

    def paint(self) -> None:
        """Paint from back to front."""
        self._window()
        self._axes()
        self._line(self.drawn.curve, QPen(QColor(self.colours.ink), 2.0))
        self._line(self.drawn.flat, QPen(QColor(self.colours.quiet), 1.6, Qt.PenStyle.DashLine))
        self._sets()
        self._now_line()
        self._points()

    def _window(self) -> None:
        if self.drawn.window_c is None:
            return
        low, high = self.drawn.window_c
        band = QRectF(self.at((self.drawn.minutes[0], high)), self.at((self.drawn.minutes[1], low)))
        self.painter.fillRect(band, QColor(self.colours.wash))

    def _axes(self) -> None:
        painter, room = self.painter, self.room
        for celsius, words in self.drawn.celsius_marks:
            y = self.at((self.drawn.minutes[0], celsius)).y()
            painter.setPen(QPen(QColor(self.colours.line), 1))
            painter.drawLine(QPointF(room.left(), y), QPointF(room.right(), y))
            painter.setPen(QColor(self.colours.quiet))
            box = QRectF(0, y - self.high / 2, room.left() - _GAP, self.high)
            flags = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(box, flags.value, words)
        for minute, words in self.drawn.minute_marks:
            x = self.at((minute, self.drawn.celsius[0])).x()
            painter.setPen(QPen(QColor(self.colours.quiet), 1))
            painter.drawLine(QPointF(x, room.bottom()), QPointF(x, room.bottom() + 4))
            box = QRectF(x - 60, room.bottom() + 5, 120, self.high)
            painter.drawText(box, Qt.AlignmentFlag.AlignHCenter.value, words)
        painter.setPen(QPen(QColor(self.colours.quiet), 1))
        painter.drawLine(room.bottomLeft(), room.bottomRight())

    def _line(self, points: Sequence[Point], pen: QPen) -> None:
        if points:
            self.painter.setPen(pen)
            self.painter.setBrush(Qt.BrushStyle.NoBrush)
            self.painter.drawPolyline(QPolygonF([self.at(point) for point in points]))

    def _sets(self) -> None:
        if not self.drawn.flat or not self.drawn.sets_words:
            return
        end = self.at(self.drawn.flat[-1])
        self.painter.setPen(QColor(self.colours.quiet))
        box = QRectF(self.room.left(), end.y() - self.high - 3, self.room.width() - 2, self.high)
        self.painter.drawText(box, Qt.AlignmentFlag.AlignRight.value, self.drawn.sets_words)

    def _now_line(self) -> None:
        if self.drawn.now_min is None:
            return
        x = self.at((self.drawn.now_min, self.drawn.celsius[0])).x()
        accent = QColor(self.colours.accent)
        self.painter.setPen(QPen(accent, 1.4, Qt.PenStyle.DotLine))
        self.painter.drawLine(QPointF(x, self.room.top()), QPointF(x, self.room.bottom()))
        self.painter.setPen(accent)
        metrics = self.painter.fontMetrics()
        fits = x + 4 + metrics.horizontalAdvance(self.now) < self.room.right()
        left = x + 4 if fits else x - 4 - metrics.horizontalAdvance(self.now)
        self.painter.drawText(QPointF(left, self.room.top() + metrics.ascent()), self.now)

    def _points(self) -> None:
        painter = self.painter
        if self.drawn.target is not None:
            painter.setPen(QPen(QColor(self.colours.accent), 2))
            painter.setBrush(QColor(self.colours.sheet))
            painter.drawEllipse(self.at(self.drawn.target), _TARGET, _TARGET)
        painter.setPen(QPen(QColor(self.colours.sheet), 1))
        painter.setBrush(QColor(self.colours.accent))
        for point in self.drawn.readings:
            painter.drawEllipse(self.at(point), _DOT, _DOT)
