"""Pieces of a page as two libraries see them: the screen's painter, and PDFium from the PDF."""

from __future__ import annotations

import ctypes
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium

from documents.samples import MM

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from wickbench.documents.surface import Surface

    Pixels = NDArray[np.uint8]
    Places = NDArray[np.intp]

DOTS = 1200
TONE = 70
"""Of 255: what is left to the smoothing within one pixel. Where two areas meet in the middle of a
pixel, half and half again make three quarters of the ink: a seam of 64 tones."""
PER_MM = DOTS / 25.4


@dataclass(frozen=True, slots=True)
class Piece:
    """A box of a page in pixels: left, top, width, height; and how many go to an inch."""

    left: int
    top: int
    width: int
    height: int
    dots: int = DOTS

    @property
    def per_mm(self) -> float:
        """Pixels to a millimetre."""
        return self.dots / 25.4


def piece_round(
    x_mm: float,
    y_mm: float,
    w_mm: float,
    h_mm: float,
    *,
    around_mm: float = 0.0,
    dots: int = DOTS,
) -> Piece:
    """The piece that holds a box of the page and this much round it."""
    per_mm = dots / 25.4
    left, top = round((x_mm - around_mm) * per_mm), round((y_mm - around_mm) * per_mm)
    wide, high = (round((side + 2 * around_mm) * per_mm) for side in (w_mm, h_mm))
    return Piece(left, top, wide, high, dots)


def on_screen(draw: Callable[[Surface], None], piece: Piece, page: int = 1) -> Pixels:
    """What the painter puts into a piece: height × width, blue, green, red and nothing."""
    from PySide6.QtGui import QImage, QPainter

    from wickbench.gui.painting import ScreenSurface

    image = QImage(piece.width, piece.height, QImage.Format.Format_RGB32)
    image.fill(0xFFFFFFFF)
    painter = QPainter(image)
    surface = ScreenSurface(painter, piece.per_mm, left=-piece.left, top=-piece.top, page=page)
    draw(surface)
    surface.finish()
    painter.end()
    whole = np.frombuffer(image.constBits(), np.uint8).reshape(piece.height, piece.width, 4)
    return _without_alpha(whole)


def on_paper(document: pypdfium2.PdfDocument, piece: Piece, page: int = 1) -> Pixels:
    """What PDFium puts into a piece of a page, as `on_screen`.

    PDFium stretches the page to whole pixels: up to half a pixel off at its far edge.
    """
    sheet = document[page - 1]
    wide, high = (round(side * MM * piece.per_mm) for side in sheet.get_size())
    bitmap = pypdfium2.PdfBitmap.new_native(piece.width, piece.height, pdfium.FPDFBitmap_BGRx)
    bitmap.fill_rect((255, 255, 255, 255), 0, 0, piece.width, piece.height)
    pdfium.FPDF_RenderPageBitmap(bitmap, sheet, -piece.left, -piece.top, wide, high, 0, 0)
    held = ctypes.cast(bitmap.buffer, ctypes.POINTER(ctypes.c_ubyte))
    whole = np.ctypeslib.as_array(held, (piece.height, bitmap.stride))
    taken = _without_alpha(whole[:, : piece.width * 4].reshape(piece.height, piece.width, 4))
    sheet.close()
    return taken


def _without_alpha(pixels: Pixels) -> Pixels:
    taken = pixels.copy()
    taken.view(np.uint32)[:] &= np.uint32(0x00FFFFFF)
    return taken


def strayed(one: Pixels, other: Pixels, reach: int, tone: int = TONE) -> int:
    """How many pixels of each picture have no equal within ``reach`` pixels in the other.

    The measure is one of grey morphology and holds for every threshold at once: cut both pictures
    at any level, and all ink of one lies within reach of the other's ink, and all ground within
    reach of the other's ground (a square of 2·reach + 1). A rim of ``reach`` is not judged: what
    lies near it is unknown.
    """
    high, wide = one.shape[:2]
    unequal = np.flatnonzero(one.view(np.uint32).ravel() != other.view(np.uint32).ravel())
    apart = np.abs(one.reshape(-1, 4)[unequal].astype(np.int16) - other.reshape(-1, 4)[unequal])
    rows, columns = np.divmod(unequal[apart.max(axis=1, initial=0) > tone], wide)
    inner = (rows >= reach) & (rows < high - reach) & (columns >= reach) & (columns < wide - reach)
    spots = (rows[inner] - reach, columns[inner] - reach)
    beyond = _beyond(one, other, spots, reach, tone) | _beyond(other, one, spots, reach, tone)
    return int(np.count_nonzero(beyond))


def _beyond(
    one: Pixels, other: Pixels, spots: tuple[Places, Places], reach: int, tone: int
) -> NDArray[np.bool_]:
    """Which pixels of ``one`` are darker or lighter than all of ``other`` within reach."""
    rows, columns = spots
    darkest = np.full((len(rows), 4), 255, np.int16)
    lightest = np.zeros((len(rows), 4), np.int16)
    for down in range(2 * reach + 1):
        for across in range(2 * reach + 1):
            near = other[rows + down, columns + across].astype(np.int16)
            np.minimum(darkest, near, out=darkest)
            np.maximum(lightest, near, out=lightest)
    value = one[rows + reach, columns + reach].astype(np.int16)
    return ((value < darkest - tone) | (value > lightest + tone)).any(axis=1)
