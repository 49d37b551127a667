"""A sheet that was printed before, as it was: stickers and what stood on them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from wickbench.gui.labels.sheet_painting import paint_sheet
from wickbench.gui.naming import accessible
from wickbench.gui.painting import ScreenSurface
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from wickbench.app.print_history import Reprint

_LEAST: Final = 260
_PAPER: Final = Qt.GlobalColor.white


class KeptSheet(QWidget):
    """One page of a print, drawn from what was kept of it."""

    def __init__(self, accessible_name: str) -> None:
        super().__init__()
        self._print: Reprint | None = None
        self._page = 0
        self._painted: tuple[object, QPixmap] | None = None
        accessible(self, accessible_name)
        self.setMinimumHeight(_LEAST)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def show_page(self, shown: Reprint | None, page: int) -> None:
        """Show a page of a print; nothing for ``None``."""
        self._print, self._page = shown, page
        self.update()

    @override
    def sizeHint(self) -> QSize:
        return QSize(_LEAST, _LEAST)

    def page_rect(self) -> QRectF:
        """Where the page lies, in the middle and as large as there is room."""
        if self._print is None:
            return QRectF()
        wide, high = self._print.job.page_mm
        scale = min(self.width() / wide, self.height() / high)
        size = (wide * scale, high * scale)
        return QRectF((self.width() - size[0]) / 2, (self.height() - size[1]) / 2, *size)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        if self._print is None:
            return
        page = self.page_rect()
        painter = QPainter(self)
        painter.drawPixmap(QPointF(page.x(), page.y()), self._paper(self._print, page))
        painter.setPen(QPen(QColor(colours_of(self).line), 1))
        painter.drawRect(page.adjusted(0.5, 0.5, -0.5, -0.5))
        painter.end()

    def _paper(self, shown: Reprint, page: QRectF) -> QPixmap:
        """The painted page; painted anew only when it or its size changed."""
        ratio = self.devicePixelRatioF()
        key = (id(shown), self._page, page.width(), page.height(), ratio)
        if self._painted is None or self._painted[0] != key:
            paper = QPixmap(QSize(round(page.width() * ratio), round(page.height() * ratio)))
            paper.setDevicePixelRatio(ratio)
            paper.fill(_PAPER)
            scale = page.width() / shown.job.page_mm[0]
            painter = QPainter(paper)
            paint_sheet(painter, scale, shown.sheet, None)
            surface = ScreenSurface(painter, scale)
            try:
                shown.drawing.draw_page(surface, self._page)
            finally:
                surface.finish()
                painter.end()
            self._painted = (key, paper)
        return self._painted[1]
