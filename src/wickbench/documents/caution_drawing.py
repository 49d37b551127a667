"""Rows of a caution sticker become runs of glyphs and figures at their places."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.documents.caution_blocks import GAP_MM, SIGNAL_SIZE
from wickbench.documents.label_draws import PathDraw, TextDraw
from wickbench.documents.pictograms import placed, width_mm
from wickbench.documents.text import Typeface, shape

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.documents.caution_design import CautionDesign
    from wickbench.documents.caution_flow import Piece, Row
    from wickbench.documents.sticker_shape import StickerShape

_TALLEST = "ÁÈÄdlpgjqß()"


def place_rows(
    rows: Sequence[Row], size_pt: float, sticker: StickerShape, design: CautionDesign
) -> tuple[tuple[TextDraw, ...], tuple[PathDraw, ...]]:
    """Runs and figures of all rows, each row centred in the sticker."""
    texts: list[TextDraw] = []
    parts: list[PathDraw] = []
    for row in rows:
        left_mm = sticker.width_mm / 2 - row.width_mm / 2
        if row.kind == "text":
            texts.append(_text_row(row, size_pt, sticker, design))
            continue
        for piece in row.pieces:
            parts += _drawing(piece, row, left_mm, design)
            texts += _signal_word(piece, row, left_mm, size_pt * SIGNAL_SIZE, design)
            left_mm += piece.width_mm + row.gap_mm
    return tuple(texts), tuple(parts)


def _text_row(row: Row, size_pt: float, sticker: StickerShape, design: CautionDesign) -> TextDraw:
    said = " ".join(piece.text for piece in row.pieces).replace("\u00a0", " ")
    run = shape(design.text_face, said)
    x_mm = sticker.width_mm / 2 - run.width_mm(size_pt) / 2
    return TextDraw(run, size_pt, x_mm, _baseline_mm(row, run.face, size_pt), design.colour)


def _drawing(piece: Piece, row: Row, left_mm: float, design: CautionDesign) -> tuple[PathDraw, ...]:
    if not piece.drawing:
        return ()
    top_mm = row.top_mm + (row.height_mm - piece.height_mm) / 2
    figures = placed(
        piece.drawing, left_mm, top_mm, piece.height_mm, colour=design.colour, ground=design.ground
    )
    return tuple(PathDraw(one.path, one.fill, one.stroke, one.width_mm) for one in figures)


def _signal_word(
    piece: Piece, row: Row, left_mm: float, size_pt: float, design: CautionDesign
) -> list[TextDraw]:
    if not piece.text:
        return []
    run = shape(design.signal_face, piece.text)
    start_mm = left_mm
    if piece.drawing:
        start_mm += width_mm(piece.drawing, piece.height_mm) + GAP_MM
    # capitals only: their middle stands on the row's middle, beside the symbol
    capital_mm = run.face.cap_height / run.face.units_per_em * size_pt * 25.4 / 72
    y_mm = row.top_mm + row.height_mm / 2 + capital_mm / 2
    return [TextDraw(run, size_pt, start_mm, y_mm, design.colour)]


def _baseline_mm(row: Row, face: Typeface, size_pt: float) -> float:
    """Base line that centres the tallest and deepest letters in the row."""
    ink = shape(face, _TALLEST).ink_mm(size_pt)
    if ink is None:
        return row.top_mm + row.height_mm * 0.75
    _, bottom_mm, _, top_mm = ink
    return row.top_mm + (row.height_mm - (top_mm - bottom_mm)) / 2 + top_mm
