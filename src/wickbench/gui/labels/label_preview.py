"""One label, drawn large from the layout that is printed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, QSize
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from wickbench.documents.label_layout import LaidOutLabel, draw_label, label_outline
from wickbench.gui.naming import accessible
from wickbench.gui.painting import ScreenSurface, painter_path

if TYPE_CHECKING:
    from wickbench.documents.surface import Path

_MARGIN: Final = 12.0
_LARGEST: Final = 14.0
_EDGE_LINE: Final = "#CFC3B2"
_PAPER: Final = "#FFFFFF"


class LabelPreview(QWidget):
    """A label to look at."""

    def __init__(self, accessible_name: str, *, largest: float = _LARGEST) -> None:
        super().__init__()
        self.laid: LaidOutLabel | None = None
        self._largest = largest
        self.setMinimumSize(120, 100)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        accessible(self, accessible_name)

    def show_label(self, laid: LaidOutLabel | None) -> None:
        """Show a label."""
        self.laid = laid
        texts = laid.texts if laid is not None else ()
        self.setAccessibleDescription("; ".join(one.text for one in texts if one.text))
        self.update()

    @property
    def pixels_per_mm(self) -> float:
        """The scale at which the label fits."""
        if self.laid is None:
            return 1.0
        across = (self.width() - 2 * _MARGIN) / self.laid.width_mm
        return max(
            0.2, min(across, (self.height() - 2 * _MARGIN) / self.laid.height_mm, self._largest)
        )

    @property
    def corner(self) -> QPointF:
        """Where the label's top left corner lies in the widget."""
        if self.laid is None:
            return QPointF()
        laid, scale = self.laid, self.pixels_per_mm
        left = (self.width() - laid.width_mm * scale) / 2
        return QPointF(left, (self.height() - laid.height_mm * scale) / 2)

    @override
    def sizeHint(self) -> QSize:
        return QSize(420, 300)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        if self.laid is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        scale, corner = self.pixels_per_mm, self.corner
        painter.save()
        painter.translate(corner)
        painter.scale(scale, scale)
        edge = label_outline(self.laid)
        painter.fillPath(painter_path(edge), QColor(_PAPER))
        painter.restore()
        surface = ScreenSurface(painter, scale, left=corner.x(), top=corner.y(), page=None)
        try:
            draw_label(self.laid, surface)
        finally:
            surface.finish()
        self._paint_marks(painter, edge)
        painter.end()

    def _paint_marks(self, painter: QPainter, edge: Path) -> None:
        if self.laid is None:
            return
        painter.translate(self.corner)
        painter.scale(self.pixels_per_mm, self.pixels_per_mm)
        thin = QPen(QColor(_EDGE_LINE), 0)
        painter.strokePath(painter_path(edge), thin)
