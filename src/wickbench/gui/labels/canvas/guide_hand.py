"""Guides drawn out of the rulers, moved by their marks, and thrown back into the ruler."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen, QPolygonF

from wickbench.domain.guides import Guide
from wickbench.gui.labels.canvas.scale import RULER, Scale

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.gui.theme import Colours

_STEP_MM: Final = 0.5
_NEAR: Final = 5.0
_MARK: Final = 5.0
_FAINT: Final = 190


class GuideHand:
    """What the hand holds of the guides.

    Attributes:
        guides: laid on the label.
        held: the guide that is being drawn just now, ``None`` while it lies back in its ruler.
        busy: a guide is in the hand.
    """

    def __init__(self) -> None:
        self.guides: tuple[Guide, ...] = ()
        self.held: Guide | None = None
        self.busy = False
        self._upright = False
        self._rest: tuple[Guide, ...] = ()

    def in_ruler(self, place: QPointF) -> bool:
        """Whether a place lies in one of the rulers, but not in the corner between them."""
        return (place.x() < RULER) != (place.y() < RULER)

    def take(self, place: QPointF, scale: Scale) -> bool:
        """Begin with a press in a ruler: at a mark with its guide, elsewhere with a new one."""
        if not self.in_ruler(place):
            return False
        top = place.y() < RULER
        marked = [one for one in self.guides if one.upright == top]
        near = [one for one in marked if abs(_pixel(one, scale) - _along(place, top)) <= _NEAR]
        self.busy = True
        self.held = near[0] if near else None
        self._upright = top if near else not top
        self._rest = tuple(one for one in self.guides if one not in near[:1])
        return True

    def draw(self, place: QPointF, scale: Scale, *, free: bool) -> None:
        """Draw the guide to a place; back in the ruler that it comes from it is gone."""
        x, y = scale.to_label(place)
        back = place.x() < RULER if self._upright else place.y() < RULER
        at = x if self._upright else y
        tidy = at if free else round(at / _STEP_MM) * _STEP_MM
        self.held = None if back else Guide(upright=self._upright, at_mm=tidy)

    def let_go(self) -> tuple[Guide, ...]:
        """The guides as they are to be kept."""
        now = (*self._rest, self.held) if self.held is not None else self._rest
        self.busy, self.held, self._rest = False, None, ()
        return now

    @property
    def shown(self) -> tuple[Guide, ...]:
        """The guides to be seen now."""
        if not self.busy:
            return self.guides
        return (*self._rest, self.held) if self.held is not None else self._rest


def paint_laid_guides(
    painter: QPainter, scale: Scale, hand: GuideHand, size: tuple[float, float], colours: Colours
) -> None:
    """All guides as thin lines with their marks in the rulers, and where the held one lies."""
    ink = QColor(colours.accent)
    ink.setAlpha(_FAINT)
    for one in hand.shown:
        at = _pixel(one, scale)
        if at < RULER:
            continue
        painter.setPen(QPen(ink, 1, Qt.PenStyle.DashDotLine))
        if one.upright:
            painter.drawLine(QPointF(at, RULER), QPointF(at, size[1]))
        else:
            painter.drawLine(QPointF(RULER, at), QPointF(size[0], at))
    if hand.held is not None:
        _say_place(painter, hand.held, scale, colours)


def paint_guide_marks(painter: QPainter, scale: Scale, hand: GuideHand, colours: Colours) -> None:
    """The marks in the rulers that guides are moved by."""
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colours.accent))
    for one in hand.shown:
        at = _pixel(one, scale)
        if at >= RULER:
            painter.drawPolygon(_mark(at, upright=one.upright))


def _mark(at: float, *, upright: bool) -> QPolygonF:
    tip, base = RULER - 1, RULER - 1 - _MARK * 1.4
    points = ((at, tip), (at - _MARK, base), (at + _MARK, base))
    turned: Callable[[float, float], QPointF] = QPointF if upright else lambda x, y: QPointF(y, x)
    return QPolygonF([turned(x, y) for x, y in points])


def _say_place(painter: QPainter, guide: Guide, scale: Scale, colours: Colours) -> None:
    said = f"{guide.at_mm:.1f} mm"
    metrics = QFontMetricsF(painter.font())
    at = _pixel(guide, scale) + 4
    corner = QPointF(at, RULER + 4) if guide.upright else QPointF(RULER + 4, at)
    frame = QRectF(
        corner.x(), corner.y(), metrics.horizontalAdvance(said) + 12, metrics.height() + 6
    )
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colours.ink))
    painter.drawRoundedRect(frame, 3, 3)
    painter.setPen(QColor(colours.paper))
    painter.drawText(frame, Qt.AlignmentFlag.AlignCenter, said)


def _pixel(guide: Guide, scale: Scale) -> float:
    place = scale.to_widget(guide.at_mm, guide.at_mm)
    return place.x() if guide.upright else place.y()


def _along(place: QPointF, top: bool) -> float:  # noqa: FBT001 - which of the two rulers
    return place.x() if top else place.y()
