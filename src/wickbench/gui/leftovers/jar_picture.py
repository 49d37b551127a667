"""The drawing of a vessel with layers: each in its own shade and hatching, with its words."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPolygonF
from typing_extensions import override

from wickbench.gui.drawing import DrawingCard

if TYPE_CHECKING:
    from wickbench.app.layered_drawing import JarDrawing
    from wickbench.gui.theme import Colours

_SHADES: Final = (0.55, 0.2, 0.38, 0.1)
_HATCHES: Final = (
    Qt.BrushStyle.NoBrush, Qt.BrushStyle.BDiagPattern, Qt.BrushStyle.HorPattern,
    Qt.BrushStyle.FDiagPattern, Qt.BrushStyle.CrossPattern, Qt.BrushStyle.VerPattern,
)  # fmt: skip
_HEIGHT: Final = 260
_GAP: Final = 14.0
_WORDS: Final = 0.45


class JarPicture(DrawingCard):
    """A vessel to scale, its layers from bottom to top."""

    def __init__(self, accessible_name: str) -> None:
        super().__init__(accessible_name, height=_HEIGHT)
        self.drawing: JarDrawing | None = None

    def show_drawing(self, drawing: JarDrawing | None) -> None:
        """Show a drawing; ``None`` hides the card."""
        self.setVisible(drawing is not None)
        if drawing != self.drawing:
            self.drawing = drawing
            self.describe(drawing.description if drawing else "")
            self.update()

    @override
    def draw(self, painter: QPainter, colours: Colours, room: QRectF) -> None:
        drawing = self.drawing
        if drawing is None:
            return
        xs, ys = [x for x, _ in drawing.wall], [y for _, y in drawing.wall]
        wide, tall = max(xs) - min(xs), max(ys) - min(ys)
        words = room.width() * _WORDS
        scale = min((room.width() - words - _GAP) / wide, room.height() / tall)
        left = room.left() - min(xs) * scale
        top = room.top() + (room.height() - tall * scale) / 2

        def at(point: tuple[float, float]) -> QPointF:
            return QPointF(left + point[0] * scale, top + (max(ys) - point[1]) * scale)

        for place, layer in enumerate(drawing.layers):
            self._layer(painter, colours, place, QPolygonF([at(one) for one in layer]))
        glass = QColor(colours.ink)
        glass.setAlphaF(0.10)
        painter.setPen(QPen(QColor(colours.ink), 1.4))
        painter.setBrush(glass)
        painter.drawPolygon(QPolygonF([at(one) for one in drawing.wall]))
        if drawing.line_mm is not None:
            painter.setPen(QPen(QColor(colours.accent), 1.6, Qt.PenStyle.DashLine))
            ends = [(side * drawing.half_mm, drawing.line_mm) for side in (-1, 1)]
            painter.drawLine(at(ends[0]), at(ends[1]))
        start = at((max(xs), 0.0)).x() + _GAP
        for said, middle in zip(drawing.words, drawing.middles_mm, strict=True):
            self._said(painter, colours, said, QPointF(start, at((0.0, middle)).y()), room)

    @staticmethod
    def _layer(painter: QPainter, colours: Colours, place: int, shape: QPolygonF) -> None:
        shade = QColor(colours.accent)
        shade.setAlphaF(_SHADES[place % len(_SHADES)])
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(shade)
        painter.drawPolygon(shape)
        ink = QColor(colours.ink)
        ink.setAlphaF(0.45)
        painter.setBrush(QBrush(ink, _HATCHES[place % len(_HATCHES)]))
        painter.setPen(QPen(ink, 0.8))
        painter.drawPolygon(shape)

    @staticmethod
    def _said(painter: QPainter, colours: Colours, said: str, place: QPointF, room: QRectF) -> None:
        painter.setPen(QColor(colours.ink))
        high = painter.fontMetrics().height()
        box = QRectF(place.x(), place.y() - high * 1.5, room.right() - place.x(), high * 3.0)
        flags = (
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap
        )
        painter.drawText(box, flags, said)
