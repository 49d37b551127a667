"""The calendar of a plan as a strip of days: tests, cure, labels, today and the day of need."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from wickbench.domain.pour_calendar import Step
from wickbench.gui.naming import accessible
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from wickbench.app.plan_calendar import Bar, Lane, PlanCalendar
    from wickbench.app.texts import Texts
    from wickbench.gui.theme import Colours

_BAR: Final = 12
_GAP: Final = 6
_SIDE: Final = 6
_MOST_SHADED_DAYS: Final = 120
"""Of a longer calendar the single days would be hairlines."""


class CalendarDrawing(QWidget):
    """A row of bars for each candle over the days; text stands above its row, never on it."""

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        self._texts = texts
        self.calendar: PlanCalendar | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        accessible(self, "")

    def show_calendar(self, calendar: PlanCalendar | None) -> None:
        """Show a calendar; nothing is done when it is the one shown already."""
        if calendar == self.calendar:
            return
        lanes = len(self._lanes)
        self.calendar = calendar
        accessible(self, calendar.spoken if calendar is not None else "")
        if lanes != len(self._lanes):
            self.updateGeometry()
        self.update()

    @property
    def _lanes(self) -> tuple[Lane, ...]:
        return self.calendar.lanes if self.calendar is not None else ()

    @property
    def _lane_high(self) -> int:
        return self.fontMetrics().height() + _BAR + _GAP

    @override
    def sizeHint(self) -> QSize:
        axis = self.fontMetrics().height() + _GAP
        return QSize(220, len(self._lanes) * self._lane_high + axis)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        calendar = self.calendar
        if calendar is None or not calendar.lanes:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(self.font())
        _Strip(self, painter, calendar).draw(self._texts, self._lane_high)
        painter.end()


class _Strip:
    """One painting: where days lie, and what is drawn there."""

    def __init__(self, widget: QWidget, painter: QPainter, calendar: PlanCalendar) -> None:
        self._painter = painter
        self._calendar = calendar
        self._colours: Colours = colours_of(widget)
        self._metrics = widget.fontMetrics()
        self._room = QRectF(widget.rect()).adjusted(_SIDE, 0, -_SIDE, 0)
        days = [
            day for lane in calendar.lanes for bar in lane.bars for day in (bar.first, bar.last)
        ]
        self._first = min(*days, calendar.today)
        self._last = max(*days, calendar.needed_on)
        self._day = self._room.width() / ((self._last - self._first).days + 1)

    def _x(self, day: dt.date) -> float:
        """Left end of a day."""
        return self._room.left() + (day - self._first).days * self._day

    def draw(self, texts: Texts, lane_high: int) -> None:
        lanes = self._calendar.lanes
        bottom = float(len(lanes) * lane_high)
        self._shade(bottom)
        for at, lane in enumerate(lanes):
            self._lane(lane, at * lane_high)
        self._ends(texts, bottom)

    def _shade(self, bottom: float) -> None:
        """Days off, so that a step that moved before a weekend explains itself."""
        span = (self._last - self._first).days + 1
        if span > _MOST_SHADED_DAYS:
            return
        for number in range(span):
            day = self._first + dt.timedelta(days=number)
            if day.weekday() in self._calendar.off:
                place = QRectF(self._x(day), 0, self._day, bottom)
                self._painter.fillRect(place, QColor(self._colours.hover))

    def _marks(self, top: float) -> None:
        """Today and the day of need, beside the bars of a row."""
        needed = self._calendar.needed_on + dt.timedelta(days=1)
        for day, ink, style in (
            (self._calendar.today, self._colours.ink, Qt.PenStyle.DashLine),
            (needed, self._colours.accent, Qt.PenStyle.SolidLine),
        ):
            self._painter.setPen(QPen(QColor(ink), 1.5, style))
            at = self._x(day)
            self._painter.drawLine(QPointF(at, top - 2), QPointF(at, top + _BAR + 2))

    def _lane(self, lane: Lane, top: float) -> None:
        high = self._metrics.height()
        name = self._metrics.elidedText(
            lane.name, Qt.TextElideMode.ElideRight, int(self._room.width())
        )
        self._painter.setPen(QColor(self._colours.ink))
        self._painter.drawText(QPointF(self._room.left(), top + self._metrics.ascent()), name)
        for bar in lane.bars:
            self._bar(bar, top + high + 1)
        self._marks(top + high + 1)

    def _bar(self, bar: Bar, top: float) -> None:
        left = self._x(bar.first)
        place = QRectF(left, top, self._x(bar.last) + self._day - left, _BAR)
        painter, colours = self._painter, self._colours
        painter.setPen(QPen(QColor(colours.accent), 1.25))
        if bar.step is Step.ORDER:
            painter.setBrush(QColor(colours.ink))
            painter.setPen(Qt.PenStyle.NoPen)
            painter.drawPolygon(_triangle(place.left() + self._day / 2, top))
        elif bar.step is Step.LABEL:
            painter.setBrush(QColor(colours.ink))
            painter.setPen(Qt.PenStyle.NoPen)
            middle = place.center().x()
            painter.drawRect(QRectF(middle - 3, top + 2, 6, _BAR - 4))
        else:
            burns = bar.step is Step.TEST_BURN
            painter.setBrush(QColor(colours.accent if burns else colours.wash))
            painter.drawRoundedRect(place, 3, 3)
            if not burns:
                self._dot(bar, place)
        painter.setBrush(Qt.BrushStyle.NoBrush)

    def _dot(self, bar: Bar, place: QRectF) -> None:
        """The pour at the beginning of a cure: hollow for a test."""
        fill = self._colours.ink if bar.step is Step.POUR else self._colours.sheet
        self._painter.setBrush(QColor(fill))
        self._painter.setPen(QPen(QColor(self._colours.ink), 1.25))
        self._painter.drawEllipse(QPointF(place.left() + 5, place.center().y()), 3.2, 3.2)

    def _ends(self, texts: Texts, bottom: float) -> None:
        """The last day under the strip, and the first where there is room for both."""
        base = bottom + _GAP / 2 + self._metrics.ascent()
        first, last = texts.day(self._first), texts.day(self._last)
        self._painter.setPen(QColor(self._colours.quiet))
        wide = self._metrics.horizontalAdvance(last)
        if self._metrics.horizontalAdvance(first) + wide + 2 * _GAP < self._room.width():
            self._painter.drawText(QPointF(self._room.left(), base), first)
        self._painter.drawText(QPointF(self._room.right() - wide, base), last)


def _triangle(middle: float, top: float) -> QPolygonF:
    return QPolygonF(
        [
            QPointF(middle, top + 1),
            QPointF(middle + 5, top + _BAR - 1),
            QPointF(middle - 5, top + _BAR - 1),
        ]
    )
