"""What is painted over and beside the label on the canvas: rulers, guides, what is chosen."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen, QPolygonF

from wickbench.domain.arranging import HANDLES, Box, Snap, box_of, handle_at
from wickbench.domain.labels import TextElement
from wickbench.gui.labels.canvas.scale import RULER, Scale

if TYPE_CHECKING:
    from wickbench.domain.labels import AnyElement, Element
    from wickbench.gui.theme import Colours

HANDLE: Final = 9.0
"""Side of a handle in pixels."""
TURN_AWAY: Final = 24.0
"""The handle for turning stands so many pixels above the element."""
_STEPS_MM: Final = (1, 2, 5, 10, 20, 50, 100)
_LEAST_APART: Final = 44.0
_LONG, _SHORT = 7.0, 4.0


def paint_rulers(
    painter: QPainter, scale: Scale, size: tuple[float, float], colours: Colours
) -> None:
    """Rulers in millimetres along the top and the left edge."""
    wide, high = size
    painter.fillRect(QRectF(0, 0, wide, RULER), QColor(colours.bar))
    painter.fillRect(QRectF(0, 0, RULER, high), QColor(colours.bar))
    step = next((s for s in _STEPS_MM if s * scale.per_mm >= _LEAST_APART), _STEPS_MM[-1])
    painter.setPen(QPen(QColor(colours.quiet), 1))
    font = painter.font()
    font.setPointSizeF(max(7.0, font.pointSizeF() * 0.75))
    painter.setFont(font)
    fine = step / (5 if step % 5 == 0 else 2 if step > 1 else 1)
    _ruler(painter, (scale.corner.x(), scale.per_mm, wide), (step, fine), upright=False)
    _ruler(painter, (scale.corner.y(), scale.per_mm, high), (step, fine), upright=True)
    painter.setPen(QPen(QColor(colours.line), 1))
    painter.drawLine(QPointF(RULER, RULER), QPointF(wide, RULER))
    painter.drawLine(QPointF(RULER, RULER), QPointF(RULER, high))
    painter.fillRect(QRectF(0, 0, RULER, RULER), QColor(colours.bar))


def _ruler(
    painter: QPainter,
    along: tuple[float, float, float],
    steps: tuple[float, float],
    *,
    upright: bool,
) -> None:
    start, per_mm, end = along
    step, fine = steps
    first = math.ceil((RULER - start) / per_mm / fine)
    last = math.floor((end - start) / per_mm / fine)
    metrics = QFontMetricsF(painter.font())
    for number in range(first, last + 1):
        value = number * fine
        place = start + value * per_mm
        named = abs(value / step - round(value / step)) < fine / step / 2
        length = _LONG if named else _SHORT
        painter.drawLine(*_tick(place, length, upright=upright))
        half = metrics.horizontalAdvance(f"{value:.0f}") / 2
        if named and RULER + half <= place <= end - half:
            _number(painter, f"{value:.0f}", place, metrics, upright=upright)


def _tick(place: float, length: float, *, upright: bool) -> tuple[QPointF, QPointF]:
    if upright:
        return QPointF(RULER - length, place), QPointF(RULER, place)
    return QPointF(place, RULER - length), QPointF(place, RULER)


def _number(
    painter: QPainter, text: str, place: float, metrics: QFontMetricsF, *, upright: bool
) -> None:
    half = metrics.horizontalAdvance(text) / 2
    if not upright:
        painter.drawText(QPointF(place - half, RULER - _LONG - 2), text)
        return
    painter.save()
    painter.translate(RULER - _LONG - 2, place)
    painter.rotate(-90)
    painter.drawText(QPointF(-half, 0), text)
    painter.restore()


def paint_chosen(
    painter: QPainter,
    scale: Scale,
    chosen: tuple[AnyElement, ...],
    colours: Colours,
    *,
    focus: bool,
) -> None:
    """Outlines of what is chosen, with handles when it is one thing."""
    accent, width = QColor(colours.accent), 2.0 if focus else 1.25
    painter.setBrush(Qt.BrushStyle.NoBrush)
    # The colour of a label is any: below lies a wider line of the other lightness.
    for colour, wide in ((QColor(colours.sheet), width + 2.0), (accent, width)):
        painter.setPen(QPen(colour, wide))
        for one in chosen:
            painter.drawPolygon(outline(scale, one))
            if isinstance(one, TextElement) and one.curve:
                _paint_oval(painter, scale, one)
    if len(chosen) == 1:
        _paint_handles(painter, scale, chosen[0], colours)


def _paint_oval(painter: QPainter, scale: Scale, one: TextElement) -> None:
    """The oval that a curved text goes round, thinner than its box."""
    painter.save()
    painter.setPen(QPen(painter.pen().color(), painter.pen().widthF() / 2))
    painter.translate(scale.to_widget(one.x_mm + one.w_mm / 2, one.y_mm + one.h_mm / 2))
    painter.rotate(one.turn_deg)
    painter.drawEllipse(QPointF(), one.w_mm / 2 * scale.per_mm, one.h_mm / 2 * scale.per_mm)
    painter.restore()


def outline(scale: Scale, element: Element) -> QPolygonF:
    """The turned box of an element in the widget."""
    places = [scale.to_widget(*handle_at(element, name)) for name in ("nw", "ne", "se", "sw")]
    return QPolygonF(places)


def turn_handle(scale: Scale, element: Element) -> QPointF:
    """Where the handle for turning stands in the widget."""
    top = scale.to_widget(*handle_at(element, "n"))
    angle = math.radians(element.turn_deg)
    return top + QPointF(math.sin(angle) * TURN_AWAY, -math.cos(angle) * TURN_AWAY)


def handles_of(element: Element, scale: Scale) -> dict[str, QPointF]:
    """Places of the handles that an element of this size has."""
    least = 3 * HANDLE
    small_w, small_h = element.w_mm * scale.per_mm < least, element.h_mm * scale.per_mm < least
    found = {}
    for name, (across, down) in HANDLES.items():
        if (not across and small_w) or (not down and small_h):
            continue
        if element.h_mm == 0 and down:
            continue
        found[name] = scale.to_widget(*handle_at(element, name))
    if element.h_mm == 0:
        found = {name: scale.to_widget(*handle_at(element, name)) for name in ("w", "e")}
    return found


def _paint_handles(painter: QPainter, scale: Scale, one: AnyElement, colours: Colours) -> None:
    painter.setPen(QPen(QColor(colours.accent), 1.25))
    turn = turn_handle(scale, one)
    painter.drawLine(scale.to_widget(*handle_at(one, "n")), turn)
    painter.setBrush(QColor(colours.sheet))
    painter.drawEllipse(turn, HANDLE / 2 + 0.5, HANDLE / 2 + 0.5)
    for place in handles_of(one, scale).values():
        half = HANDLE / 2
        painter.drawRect(QRectF(place.x() - half, place.y() - half, HANDLE, HANDLE))


def paint_guides(
    painter: QPainter, scale: Scale, snap: Snap, size: tuple[float, float], colours: Colours
) -> None:
    """The lines that what is moved stands at."""
    painter.setPen(QPen(QColor(colours.accent), 1, Qt.PenStyle.DashLine))
    if snap.upright is not None:
        x = scale.to_widget(snap.upright, 0.0).x()
        painter.drawLine(QPointF(x, RULER), QPointF(x, size[1]))
    if snap.level is not None:
        y = scale.to_widget(0.0, snap.level).y()
        painter.drawLine(QPointF(RULER, y), QPointF(size[0], y))


def paint_band(painter: QPainter, scale: Scale, band: Box, colours: Colours) -> None:
    """The rectangle drawn over what is to be chosen."""
    corner, end = scale.to_widget(band.left, band.top), scale.to_widget(band.right, band.bottom)
    wash = QColor(colours.accent)
    wash.setAlpha(36)
    painter.setBrush(wash)
    painter.setPen(QPen(QColor(colours.accent), 1))
    painter.drawRect(QRectF(corner, end))


def paint_readout(
    painter: QPainter, scale: Scale, text: str, element: Element, colours: Colours
) -> None:
    """Numbers beside what is being moved."""
    box = box_of(element)
    place = scale.to_widget(box.left, box.bottom) + QPointF(0, 10)
    metrics = QFontMetricsF(painter.font())
    frame = QRectF(place.x(), place.y(), metrics.horizontalAdvance(text) + 12, metrics.height() + 6)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colours.ink))
    painter.drawRoundedRect(frame, 3, 3)
    painter.setPen(QColor(colours.paper))
    painter.drawText(frame, Qt.AlignmentFlag.AlignCenter, text)
