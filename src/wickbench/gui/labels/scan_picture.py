"""A scan of a sticker sheet with the stickers that were found drawn over it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QColor, QImage, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from wickbench.documents.outlines import figure
from wickbench.gui.painting import painter_path

if TYPE_CHECKING:
    from PIL.Image import Image
    from PySide6.QtGui import QPaintEvent

    from wickbench.domain.sheets import StickerSheet

_INK: Final = "#C2410C"
_LINE_PX: Final = 1.75


class ScanPicture(QWidget):
    """The page as it was scanned, and the outlines of a sheet over it."""

    def __init__(self, accessible_name: str) -> None:
        super().__init__()
        self.sheet: StickerSheet | None = None
        self._page = QPixmap()
        self.setAccessibleName(accessible_name)
        self.setMinimumSize(280, 360)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def show_page(self, page: Image) -> None:
        """Show a page in shades of grey."""
        data = page.tobytes()
        kind = QImage.Format.Format_Grayscale8
        image = QImage(data, page.width, page.height, page.width, kind).copy()
        self._page = QPixmap.fromImage(image)
        self.update()

    def show_sheet(self, sheet: StickerSheet | None) -> None:
        """Draw the stickers of this sheet over it."""
        self.sheet = sheet
        self.update()

    @override
    def sizeHint(self) -> QSize:
        return QSize(400, 520)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        if self._page.isNull():
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        wide, high = self._page.width(), self._page.height()
        scale = min(self.width() / wide, self.height() / high)
        place = QRectF(0, 0, wide * scale, high * scale)
        place.moveLeft((self.width() - place.width()) / 2)
        painter.drawPixmap(place, self._page, QRectF(self._page.rect()))
        if self.sheet is not None and self.sheet.page_w_mm > 0:
            painter.translate(place.topLeft())
            per_mm = place.width() / self.sheet.page_w_mm
            painter.scale(per_mm, per_mm)
            self._paint_stickers(painter, self.sheet)
        painter.end()

    @staticmethod
    def _paint_stickers(painter: QPainter, sheet: StickerSheet) -> None:
        pen = QPen(QColor(_INK), _LINE_PX)
        pen.setCosmetic(True)
        if min(sheet.sticker_w_mm, sheet.sticker_h_mm) <= 0:
            return
        for index in range(sheet.count):
            box = sheet.sticker(index)
            sides = (box.x_mm, box.y_mm, box.w_mm, box.h_mm)
            path = painter_path(figure(sheet.shape, *sides, corner_mm=sheet.corner_mm))
            painter.strokePath(path, pen)
