"""A label painted on its drawn vessel: what is seen from the front, darker where it turns away."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtGui import QColor, QLinearGradient, QPainter, QPainterPath

from wickbench.documents.front_view import draw_front
from wickbench.gui.painting import ScreenSurface, painter_path

if TYPE_CHECKING:
    from PySide6.QtCore import QPointF

    from wickbench.documents.front_view import FrontLabel

_SHADE: Final = (
    (0.0, 96),
    (0.06, 52),
    (0.16, 22),
    (0.32, 5),
    (0.5, 0),
    (0.68, 5),
    (0.84, 22),
    (0.94, 52),
    (1.0, 96),
)
"""Darkness from the left to the right edge of the vessel, of 255."""


def paint_front(
    painter: QPainter, front: FrontLabel, foot: QPointF, scale: float, paper: str
) -> None:
    """Paint a label as it is seen.

    Args:
        painter: of the picture.
        front: what is seen.
        foot: where the vessel's axis meets its foot, in pixels.
        scale: pixels per millimetre.
        paper: colour of the label's paper.
    """
    surface = ScreenSurface(painter, scale, left=foot.x(), top=foot.y(), page=None)
    try:
        draw_front(front, surface, paper=paper)
        _shade(painter, front)
    finally:
        surface.finish()


def _shade(painter: QPainter, front: FrontLabel) -> None:
    """What turns away gets less light, so that a wrap looks round."""
    shape = QPainterPath()
    for paper in front.paper:
        shape = shape.united(painter_path(paper))
    light = QLinearGradient(-front.half_mm, 0.0, front.half_mm, 0.0)
    for place, dark in _SHADE:
        light.setColorAt(place, QColor(40, 28, 16, dark))
    painter.fillPath(shape, light)
