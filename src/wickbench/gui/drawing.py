"""A card that draws something to scale from a `Surface` drawing or by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QMouseEvent, QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from wickbench.gui.naming import accessible
from wickbench.gui.painting import ScreenSurface
from wickbench.gui.theme import Colours, colours_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.documents.surface import Surface

_CORNER: Final = 6.0
_MARGIN: Final = 16.0


class DrawingCard(QWidget):
    """A white sheet with a thin border; a subclass paints inside it.

    What is drawn is said in words through the accessible description: set it with `describe`.
    """

    def __init__(self, accessible_name: str, *, height: int = 220) -> None:
        super().__init__()
        self._height = height
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setMinimumWidth(160)
        accessible(self, accessible_name)

    def describe(self, words: str) -> None:
        """Say in words what the drawing shows."""
        self.setAccessibleDescription(words)

    @override
    def sizeHint(self) -> QSize:
        return QSize(280, self._height)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        colours = colours_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        sheet = QPainterPath()
        sheet.addRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), _CORNER, _CORNER)
        painter.fillPath(sheet, QColor(colours.sheet))
        painter.strokePath(sheet, QPen(QColor(colours.line), 1))
        self.draw(painter, colours, QRectF(self.rect()).adjusted(12, 12, -12, -12))
        painter.end()

    def draw(self, painter: QPainter, colours: Colours, room: QRectF) -> None:
        """Paint inside the card.

        Args:
            painter: open, antialiased, in widget pixels.
            colours: of the theme the card stands in.
            room: the inside of the card.
        """


class PaperView(QWidget):
    """One page of a paper, drawn to fit from the same drawing as its PDF.

    Signals:
        pressed: place on the page in millimetres from its top left corner.
        moved: the same while the mouse moves.
    """

    pressed = Signal(float, float)
    moved = Signal(float, float)

    def __init__(self, accessible_name: str) -> None:
        super().__init__()
        self._size_mm = (210.0, 297.0)
        self._draw: Callable[[Surface], None] | None = None
        self._page = 1
        self.overlay: Callable[[QPainter, Colours], None] | None = None
        self.setMouseTracking(True)
        self.setMinimumSize(160, 160)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        accessible(self, accessible_name)

    def show_paper(
        self,
        width_mm: float,
        height_mm: float,
        draw: Callable[[Surface], None] | None,
        *,
        page: int = 1,
    ) -> None:
        """Show a page of this size.

        Args:
            width_mm: width of the page.
            height_mm: height of the page.
            draw: draws the whole paper on a surface; ``None`` for a blank page.
            page: which of its pages to show, from 1.
        """
        self._size_mm, self._draw, self._page = (width_mm, height_mm), draw, page
        self.updateGeometry()
        self.update()

    @property
    def pixels_per_mm(self) -> float:
        """The scale at which the page fits."""
        width, height = self._size_mm
        across, down = self.width() - 2 * _MARGIN, self.height() - 2 * _MARGIN
        return max(0.05, min(across / max(width, 1.0), down / max(height, 1.0)))

    @property
    def page_rect(self) -> QRectF:
        """Where the page lies in the widget."""
        scale = self.pixels_per_mm
        wide, high = self._size_mm[0] * scale, self._size_mm[1] * scale
        return QRectF((self.width() - wide) / 2, (self.height() - high) / 2, wide, high)

    def place_mm(self, x: float, y: float) -> tuple[float, float]:
        """A place of the widget as a place on the page."""
        page, scale = self.page_rect, self.pixels_per_mm
        return (x - page.left()) / scale, (y - page.top()) / scale

    @override
    def sizeHint(self) -> QSize:
        return QSize(420, int(420 * self._size_mm[1] / max(self._size_mm[0], 1.0)))

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        page, colours = self.page_rect, colours_of(self)
        painter.fillRect(page, Qt.GlobalColor.white)
        painter.setPen(QPen(QColor(colours.line), 1))
        painter.drawRect(page)
        if self._draw is not None:
            painter.save()
            painter.setClipRect(page)
            scale = self.pixels_per_mm
            surface = ScreenSurface(
                painter, scale, left=page.left(), top=page.top(), page=self._page
            )
            try:
                self._draw(surface)
            finally:
                surface.finish()
                painter.restore()
        if self.overlay is not None:
            self._paint_overlay(painter, colours)
        painter.end()

    def _paint_overlay(self, painter: QPainter, colours: Colours) -> None:
        if self.overlay is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.translate(self.page_rect.topLeft())
        painter.scale(self.pixels_per_mm, self.pixels_per_mm)
        self.overlay(painter, colours)

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            self.pressed.emit(*self.place_mm(event.position().x(), event.position().y()))

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self.moved.emit(*self.place_mm(event.position().x(), event.position().y()))
