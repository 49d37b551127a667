"""The label itself on the canvas: paper, what is printed, and the lines of edge, bleed and zone."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QTransform

from wickbench.documents.label_layout import LaidOutLabel, draw_flat_label, sticker_outline
from wickbench.gui.labels.papers import WHITE
from wickbench.gui.painting import ScreenSurface, painter_path

if TYPE_CHECKING:
    from wickbench.documents.surface import Path
    from wickbench.domain.labels import LabelDesign
    from wickbench.gui.labels.canvas.scale import Scale

_EDGE_LINE: Final = "#CFC3B2"
_STRIP_LINE: Final = "#8A7B66"
_MARK_PIXELS: Final = 9.0


def paint_label(painter: QPainter, scale: Scale, laid: LaidOutLabel, paper: str = WHITE) -> None:
    """Paint a label where the scale puts it, on its paper."""
    design = laid.design
    edge = sticker_outline(design)
    _in_millimetres(painter, scale)
    painter.fillPath(painter_path(edge), QColor(paper))
    painter.restore()
    corner = scale.corner
    surface = ScreenSurface(painter, scale.per_mm, left=corner.x(), top=corner.y(), page=None)
    try:
        draw_flat_label(laid, surface)
    finally:
        surface.finish()
    _in_millimetres(painter, scale)
    if design.bleed_mm > 0:
        _line(painter, sticker_outline(design, -design.bleed_mm), Qt.PenStyle.DotLine)
    _line(painter, edge, Qt.PenStyle.SolidLine)
    if design.safe_mm > 0:
        _line(painter, sticker_outline(design, design.safe_mm), Qt.PenStyle.DashLine)
    if design.shape == "wrap":
        _wrap_marks(painter, design, scale.per_mm)
    painter.restore()


def _wrap_marks(painter: QPainter, design: LabelDesign, per_mm: float) -> None:
    """The strip at its end that its beginning covers, and the middle of the front."""
    strip = QRectF(design.width_mm - design.overlap_mm, 0.0, design.overlap_mm, design.height_mm)
    hatch = QBrush(QColor(_STRIP_LINE), Qt.BrushStyle.BDiagPattern)
    # The pattern keeps its size on the screen, however far the label is enlarged.
    hatch.setTransform(QTransform.fromScale(1 / per_mm, 1 / per_mm))
    painter.fillRect(strip, hatch)
    thin = QPen(QColor(_STRIP_LINE), 0)
    painter.setPen(thin)
    painter.drawLine(strip.topLeft(), strip.bottomLeft())
    front = (design.width_mm - design.overlap_mm) / 2
    mark = _MARK_PIXELS / per_mm
    for top, end in ((-mark, 0.0), (design.height_mm, design.height_mm + mark)):
        painter.drawLine(QPointF(front, top), QPointF(front, end))


def _in_millimetres(painter: QPainter, scale: Scale) -> None:
    painter.save()
    painter.translate(scale.corner)
    painter.scale(scale.per_mm, scale.per_mm)


def _line(painter: QPainter, path: Path, style: Qt.PenStyle) -> None:
    painter.strokePath(painter_path(path), QPen(QColor(_EDGE_LINE), 0, style))
