"""One label, drawn large from the layout that is printed; the arrow keys move what is chosen."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from wickbench.documents.label_layout import LaidOutLabel, draw_label, sticker_outline
from wickbench.gui.naming import accessible
from wickbench.gui.painting import ScreenSurface, painter_path
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from wickbench.documents.surface import Path

_MARGIN: Final = 12.0
_LARGEST: Final = 14.0
_STEP_MM: Final = 0.5
_FINE_MM: Final = 0.1
_EDGE_LINE: Final = "#CFC3B2"
_PAPER: Final = "#FFFFFF"


class LabelPreview(QWidget):
    """A label to look at.

    Signals:
        pressed: number of the element that was clicked, from 0.
        nudged: so many mm to the right and down.
    """

    pressed = Signal(int)
    nudged = Signal(float, float)

    def __init__(self, accessible_name: str, *, largest: float = _LARGEST) -> None:
        super().__init__()
        self.laid: LaidOutLabel | None = None
        self.current: int | None = None
        self.shows_safe_zone = False
        self._largest = largest
        self.setMinimumSize(120, 100)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        accessible(self, accessible_name)

    def show_label(self, laid: LaidOutLabel | None, current: int | None = None) -> None:
        """Show a label, one of its elements chosen."""
        self.laid, self.current = laid, current
        texts = laid.texts if laid is not None else ()
        self.setAccessibleDescription("; ".join(one.text for one in texts if one.text))
        self.update()

    @property
    def pixels_per_mm(self) -> float:
        """The scale at which the label fits."""
        if self.laid is None:
            return 1.0
        design = self.laid.design
        across = (self.width() - 2 * _MARGIN) / design.width_mm
        return max(
            0.2, min(across, (self.height() - 2 * _MARGIN) / design.height_mm, self._largest)
        )

    @property
    def corner(self) -> QPointF:
        """Where the label's top left corner lies in the widget."""
        if self.laid is None:
            return QPointF()
        design, scale = self.laid.design, self.pixels_per_mm
        left = (self.width() - design.width_mm * scale) / 2
        return QPointF(left, (self.height() - design.height_mm * scale) / 2)

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
        edge = sticker_outline(self.laid.design)
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
        colours, design = colours_of(self), self.laid.design
        painter.translate(self.corner)
        painter.scale(self.pixels_per_mm, self.pixels_per_mm)
        thin = QPen(QColor(_EDGE_LINE), 0)
        painter.strokePath(painter_path(edge), thin)
        if self.shows_safe_zone and design.safe_mm > 0:
            thin.setStyle(Qt.PenStyle.DashLine)
            painter.strokePath(painter_path(sticker_outline(design, design.safe_mm)), thin)
        if self.current is not None and self.current < len(design.elements):
            one = design.elements[self.current]
            painter.translate(one.x_mm + one.w_mm / 2, one.y_mm + one.h_mm / 2)
            painter.rotate(one.turn_deg)
            mark = QPen(QColor(colours.accent), 2 if self.hasFocus() else 1.25)
            mark.setCosmetic(True)
            painter.setPen(mark)
            painter.drawRect(QRectF(-one.w_mm / 2, -one.h_mm / 2, one.w_mm, one.h_mm))

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        found = self.element_at(event.position())
        if found is not None:
            self.pressed.emit(found)

    def element_at(self, place: QPointF) -> int | None:
        """Number of the frontmost element under a place of the widget."""
        if self.laid is None:
            return None
        x = (place.x() - self.corner.x()) / self.pixels_per_mm
        y = (place.y() - self.corner.y()) / self.pixels_per_mm
        elements = list(enumerate(self.laid.design.elements))
        for at, one in sorted(elements, key=lambda pair: pair[1].w_mm * pair[1].h_mm):
            box = QRectF(one.x_mm, one.y_mm, one.w_mm, one.h_mm).adjusted(-0.5, -0.5, 0.5, 0.5)
            if box.contains(QPointF(x, y)):
                return at
        return None

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        fine = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        step = _FINE_MM if fine else _STEP_MM
        moves = {
            Qt.Key.Key_Left: (-step, 0.0), Qt.Key.Key_Right: (step, 0.0),
            Qt.Key.Key_Up: (0.0, -step), Qt.Key.Key_Down: (0.0, step),
        }  # fmt: skip
        if event.key() in moves and self.current is not None:
            self.nudged.emit(*moves[Qt.Key(event.key())])
        else:
            super().keyPressEvent(event)
