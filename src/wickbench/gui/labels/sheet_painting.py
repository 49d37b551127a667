"""A sheet painted on the screen: edges of stickers, crosses on used ones, and the labels."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QPainter, QPen

from wickbench.documents.outlines import figure
from wickbench.documents.sheet_layout import SheetPages, draw_sheet
from wickbench.gui.labels.papers import WHITE
from wickbench.gui.painting import ScreenSurface, painter_path

if TYPE_CHECKING:
    from wickbench.domain.sheets import StickerSheet

_STICKER_LINE: Final = "#CFC3B2"
_CROSS_LINE: Final = "#E4DACD"
_FREE: Final = "#F2D9B8"
_FREE_LINE: Final = "#B97A2F"


def paint_sheet(
    painter: QPainter,
    pixels_per_mm: float,
    sheet: StickerSheet | None,
    pages: SheetPages | None,
    *,
    sheet_no: int = 0,
    used: frozenset[int] = frozenset(),
    small: bool = False,
    paper: str = WHITE,
) -> None:
    """Paint a sheet: edges of stickers, crosses on used ones, and the labels.

    Args:
        painter: where to, in pixels.
        pixels_per_mm: the scale.
        sheet: the stationery.
        pages: what goes where.
        sheet_no: which sheet of it.
        used: stickers that are gone.
        small: lines and crosses are too fine to see; free stickers are filled instead.
        paper: colour of the stickers' paper.
    """
    if sheet is None:
        return
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(pixels_per_mm, pixels_per_mm)
    if sheet.sticker_w_mm > 0 and sheet.sticker_h_mm > 0:
        for index in range(sheet.count):
            if small:
                _paint_small(painter, sheet, index, gone=index in used)
            else:
                _paint_sticker(painter, sheet, index, None if index in used else paper)
    painter.restore()
    if pages is None or not pages.on_sheet(sheet_no):
        return
    surface = ScreenSurface(painter, pixels_per_mm)
    try:
        draw_sheet(surface, pages, sheet_no)
    finally:
        surface.finish()


def _paint_small(painter: QPainter, sheet: StickerSheet, index: int, *, gone: bool) -> None:
    """A free sticker filled, one that is gone an empty outline."""
    box = sheet.sticker(index)
    sides = (box.x_mm, box.y_mm, box.w_mm, box.h_mm)
    path = painter_path(figure(sheet.shape, *sides, corner_mm=sheet.corner_mm))
    pen = QPen(QColor(_STICKER_LINE if gone else _FREE_LINE), 1)
    pen.setCosmetic(True)
    if not gone:
        painter.fillPath(path, QColor(_FREE))
    painter.strokePath(path, pen)


def _paint_sticker(painter: QPainter, sheet: StickerSheet, index: int, paper: str | None) -> None:
    """A sticker on its paper; one without paper is gone and crossed out."""
    box = sheet.sticker(index)
    sides = (box.x_mm, box.y_mm, box.w_mm, box.h_mm)
    path = painter_path(figure(sheet.shape, *sides, corner_mm=sheet.corner_mm))
    if paper is not None:
        painter.fillPath(path, QColor(paper))
    painter.strokePath(path, QPen(QColor(_STICKER_LINE), 0.25))
    if paper is None:
        painter.setPen(QPen(QColor(_CROSS_LINE), 0.4))
        inner = box.inset(0.15 * min(box.w_mm, box.h_mm))
        painter.drawLine(QPointF(inner.x_mm, inner.y_mm), QPointF(inner.right_mm, inner.bottom_mm))
        painter.drawLine(QPointF(inner.right_mm, inner.y_mm), QPointF(inner.x_mm, inner.bottom_mm))
