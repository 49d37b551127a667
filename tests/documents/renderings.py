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

DOTS = 1200
PER_MM = DOTS / 25.4


@dataclass(frozen=True, slots=True)
class Piece:
    """A box of a page in pixels: left, top, width, height."""

    left: int
    top: int
    width: int
    height: int


def piece_round(
    x_mm: float, y_mm: float, w_mm: float, h_mm: float, *, around_mm: float = 0.0
) -> Piece:
    """The piece that holds a box of the page and this much round it."""
    left, top = round((x_mm - around_mm) * PER_MM), round((y_mm - around_mm) * PER_MM)
    wide, high = (round((side + 2 * around_mm) * PER_MM) for side in (w_mm, h_mm))
    return Piece(left, top, wide, high)


def on_screen(draw: Callable[[Surface], None], piece: Piece, page: int = 1) -> Pixels:
    """What the painter puts into a piece: height × width × 3."""
    from PySide6.QtGui import QImage, QPainter

    from wickbench.gui.painting import ScreenSurface

    image = QImage(piece.width, piece.height, QImage.Format.Format_RGB32)
    image.fill(0xFFFFFFFF)
    painter = QPainter(image)
    surface = ScreenSurface(painter, PER_MM, left=-piece.left, top=-piece.top, page=page)
    draw(surface)
    surface.finish()
    painter.end()
    whole = np.frombuffer(image.constBits(), np.uint8).reshape(piece.height, piece.width, 4)
    return whole[:, :, 2::-1].copy()


def on_paper(document: pypdfium2.PdfDocument, piece: Piece, page: int = 1) -> Pixels:
    """What PDFium puts into a piece of a page: height × width × 3.

    PDFium stretches the page to whole pixels: up to half a pixel off at its far edge.
    """
    sheet = document[page - 1]
    wide, high = (round(side * MM * PER_MM) for side in sheet.get_size())
    bitmap = pypdfium2.PdfBitmap.new_native(piece.width, piece.height, pdfium.FPDFBitmap_BGRx)
    bitmap.fill_rect((255, 255, 255, 255), 0, 0, piece.width, piece.height)
    pdfium.FPDF_RenderPageBitmap(bitmap, sheet, -piece.left, -piece.top, wide, high, 0, 0)
    held = ctypes.cast(bitmap.buffer, ctypes.POINTER(ctypes.c_ubyte))
    whole = np.ctypeslib.as_array(held, (piece.height, bitmap.stride))
    picture = whole[:, : piece.width * 4].reshape(piece.height, piece.width, 4)
    taken = picture[:, :, 2::-1].copy()
    sheet.close()
    return taken


def strayed(one: Pixels, other: Pixels, reach: int, tone: int = 48) -> int:
    """How many pixels of each picture have no equal within ``reach`` pixels in the other.

    The measure is one of grey morphology and holds for every threshold at once: cut both pictures
    at any level, and all ink of one lies within reach of the other's ink, and all ground within
    reach of the other's ground (a square of 2·reach + 1). ``tone`` of 255 is left to what the two
    make of an edge within a pixel. A rim of ``reach`` is not judged: what lies near it is unknown.
    """
    return sum(
        _beyond(one[:, :, channel], other[:, :, channel], reach, tone)
        + _beyond(other[:, :, channel], one[:, :, channel], reach, tone)
        for channel in _channels(one, other)
    )


def _channels(one: Pixels, other: Pixels) -> tuple[int, ...]:
    grey = all(
        np.array_equal(picture[:, :, 0], picture[:, :, at])
        for picture in (one, other)
        for at in (1, 2)
    )
    return (0,) if grey else (0, 1, 2)


def _beyond(one: Pixels, other: Pixels, reach: int, tone: int) -> int:
    """Pixels of ``one`` darker than the darkest or lighter than the lightest of ``other`` near."""
    high, wide = one.shape
    inner = (slice(reach, high - reach), slice(reach, wide - reach))
    lower, upper = np.minimum(one, other)[inner], np.maximum(one, other)[inner]
    rows, columns = np.nonzero(upper - lower > tone)
    if not len(rows):
        return 0
    darkest, lightest = np.full(len(rows), 255, np.int16), np.zeros(len(rows), np.int16)
    for down in range(2 * reach + 1):
        for across in range(2 * reach + 1):
            near = other[rows + down, columns + across].astype(np.int16)
            np.minimum(darkest, near, out=darkest)
            np.maximum(lightest, near, out=lightest)
    value = one[inner][rows, columns].astype(np.int16)
    return int(np.count_nonzero((value < darkest - tone) | (value > lightest + tone)))
