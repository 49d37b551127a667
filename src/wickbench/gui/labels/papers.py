"""The paper that a label is seen on: white, or the brown of kraft; on the screen alone."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtGui import QColor, QPainter, QPen

from wickbench.documents.label_layout import draw_label, label_outline
from wickbench.gui.painting import ScreenSurface, painter_path

if TYPE_CHECKING:
    from PySide6.QtCore import QRectF

    from wickbench.documents.label_layout import LaidOutLabel

WHITE: Final = "#FFFFFF"
KRAFT: Final = "#C9A67A"
_EDGE_LINE: Final = "#CFC3B2"


def paper_colour(*, kraft: bool) -> str:
    """The colour that stands for a sheet's paper."""
    return KRAFT if kraft else WHITE


def paint_miniature(painter: QPainter, laid: LaidOutLabel, room: QRectF, paper: str) -> None:
    """Paint a label as large as it goes into a room, on its paper and cut to its shape.

    Args:
        painter: where to, in pixels.
        laid: the label.
        room: where there is room for it.
        paper: colour of the paper.
    """
    scale = min(room.width() / laid.width_mm, room.height() / laid.height_mm)
    left = room.x() + (room.width() - scale * laid.width_mm) / 2
    top = room.y() + (room.height() - scale * laid.height_mm) / 2
    outline = painter_path(label_outline(laid))
    painter.save()
    painter.translate(left, top)
    painter.scale(scale, scale)
    painter.fillPath(outline, QColor(paper))
    painter.setClipPath(outline)
    surface = ScreenSurface(painter, 1.0, page=None)
    try:
        draw_label(laid, surface)
    finally:
        surface.finish()
    painter.setClipping(False)
    painter.strokePath(outline, QPen(QColor(_EDGE_LINE), 0))
    painter.restore()
