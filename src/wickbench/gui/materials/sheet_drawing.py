"""A sticker sheet drawn to scale as it is typed; nothing can be done with it here."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from wickbench.app.sticker_sheets import sheet_of
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from PySide6.QtGui import QPaintEvent

    from wickbench.app.texts import Texts
    from wickbench.domain.sheets import Rect, StickerSheet

_HIGH: Final = 240
_EDGE: Final = 4.0


class SheetDrawing(QWidget):
    """The page with its stickers; what runs over the page's edge is drawn over it too."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.sheet: StickerSheet | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_values(self, texts: Texts, values: Mapping[str, object]) -> None:
        """Draw the sheet of these presented values; hidden while there is no page to draw."""
        try:
            sheet = sheet_of(values)
        except DomainError:
            sheet = None
        self.sheet = sheet if sheet and sheet.page_w_mm and sheet.page_h_mm else None
        self.setVisible(self.sheet is not None)
        if self.sheet is not None:
            said = texts(
                N_("{columns} by {rows} stickers on a page"),
                columns=self.sheet.columns,
                rows=self.sheet.rows,
            )
            self.setAccessibleName(said)
        self.update()

    @override
    def sizeHint(self) -> QSize:
        return QSize(_HIGH, _HIGH)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        if self.sheet is None:
            return
        colours = colours_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._scale_to(painter, self.sheet)
        page = QRectF(0, 0, self.sheet.page_w_mm, self.sheet.page_h_mm)
        painter.fillRect(page, QColor(colours.sheet))
        painter.setPen(_hair(colours.quiet))
        painter.drawRect(page)
        painter.setPen(_hair(colours.accent))
        painter.setBrush(QColor(colours.wash))
        if self.sheet.sticker_w_mm and self.sheet.sticker_h_mm:
            for index in range(self.sheet.count):
                painter.drawPath(_outline(self.sheet, self.sheet.sticker(index)))
        painter.end()

    def _scale_to(self, painter: QPainter, sheet: StickerSheet) -> None:
        """Make a millimetre the unit, with the page in the middle."""
        wide, high = sheet.page_w_mm, sheet.page_h_mm
        room_w, room_h = self.width() - 2 * _EDGE, self.height() - 2 * _EDGE
        scale = max(0.01, min(room_w / wide, room_h / high))
        painter.translate((self.width() - wide * scale) / 2, (self.height() - high * scale) / 2)
        painter.scale(scale, scale)


def _hair(colour: str) -> QPen:
    pen = QPen(QColor(colour))
    pen.setCosmetic(True)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    return pen


def _outline(sheet: StickerSheet, place: Rect) -> QPainterPath:
    box = QRectF(place.x_mm, place.y_mm, place.w_mm, place.h_mm)
    path = QPainterPath()
    if sheet.shape in {"circle", "oval"}:
        path.addEllipse(box)
    elif sheet.shape == "rounded":
        path.addRoundedRect(box, sheet.corner_mm, sheet.corner_mm)
    else:
        path.addRect(box)
    return path
