"""Flowing signal word, pictograms and statements through the chords of a sticker.

A block is a row of pieces that may break between any two of them: words or drawings. The flow
tries starting heights and keeps the one that stands nearest to the middle.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.documents.sticker_shape import StickerShape

TRIES = 24  # starting heights over the free height
HAIR_MM = 1e-6
SHORT_LAST = 0.75  # the last row of a text is filled up to this part of the one above


@dataclass(frozen=True, slots=True)
class Piece:
    """A word or drawing that is never broken.

    Attributes:
        width_mm: its width.
        text: the word; empty for a drawing.
        drawing: name of the pictogram; empty for a word.
        height_mm: height of a drawing.
    """

    width_mm: float
    text: str = ""
    drawing: str = ""
    height_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Block:
    """Pieces set one after the other.

    Attributes:
        kind: ``signal``, ``drawings`` or ``text``.
        pieces: in order.
        gap_mm: between two pieces of a row.
        row_mm: height of a row without drawings.
        before_mm: free space above the block.
    """

    kind: str
    pieces: tuple[Piece, ...]
    gap_mm: float
    row_mm: float
    before_mm: float


@dataclass(frozen=True, slots=True)
class Row:
    """A row as it stands: top and height in mm, its pieces and their width with gaps."""

    kind: str
    pieces: tuple[Piece, ...]
    top_mm: float
    height_mm: float
    width_mm: float
    gap_mm: float


def flow(blocks: Sequence[Block], shape: StickerShape) -> tuple[Row, ...] | None:
    """The rows, as near to the middle of the sticker as they go; None when they do not fit."""
    free_mm = shape.bottom_mm - shape.top_mm
    least_mm = sum(_least_height_mm(block) for block in blocks)
    spare_mm = free_mm - least_mm
    if spare_mm < -HAIR_MM:
        return None
    best: tuple[float, tuple[Row, ...]] | None = None
    for attempt in range(TRIES + 1):
        rows = _flow_from(blocks, shape, shape.top_mm + spare_mm * attempt / TRIES)
        if rows is None:
            continue
        middle_mm = (rows[0].top_mm + rows[-1].top_mm + rows[-1].height_mm) / 2
        off_mm = abs(middle_mm - shape.height_mm / 2)
        if best is None or off_mm < best[0] - HAIR_MM:
            best = (off_mm, rows)
    return best[1] if best else None


def _least_height_mm(block: Block) -> float:
    return block.before_mm + max([block.row_mm, *(piece.height_mm for piece in block.pieces)])


def _flow_from(
    blocks: Sequence[Block], shape: StickerShape, start_mm: float
) -> tuple[Row, ...] | None:
    rows: list[Row] = []
    y_mm = start_mm
    for block in blocks:
        y_mm += block.before_mm if rows else 0.0
        at = 0
        while at < len(block.pieces):
            row = _fill_row(block, at, y_mm, shape)
            if row is None:
                return None
            rows.append(row)
            at += len(row.pieces)
            y_mm += row.height_mm
        _share_last_rows(rows, len(block.pieces), shape)
    return tuple(rows) if rows else None


def _share_last_rows(rows: list[Row], pieces: int, shape: StickerShape) -> None:
    """Move words down from the last row but one, so that no word is left alone at the end."""
    while len(rows) > 1 and rows[-1].kind == "text" and len(rows[-1].pieces) < pieces:
        above, last = rows[-2], rows[-1]
        moved = above.pieces[-1]
        width_mm = last.width_mm + moved.width_mm + last.gap_mm
        if len(above.pieces) == 1 or width_mm > above.width_mm * SHORT_LAST:
            return
        if width_mm > shape.chord_mm(last.top_mm, last.top_mm + last.height_mm):
            return
        shorter_mm = above.width_mm - moved.width_mm - above.gap_mm
        rows[-2] = replace(above, pieces=above.pieces[:-1], width_mm=shorter_mm)
        rows[-1] = replace(last, pieces=(moved, *last.pieces), width_mm=width_mm)


def _fill_row(block: Block, at: int, top_mm: float, shape: StickerShape) -> Row | None:
    """As many pieces as the chord holds; None when not even one fits."""
    taken: list[Piece] = []
    width_mm, height_mm = 0.0, 0.0
    chord_mm = 0.0
    for piece in block.pieces[at:]:
        wider_mm = width_mm + piece.width_mm + (block.gap_mm if taken else 0.0)
        higher_mm = max(height_mm, block.row_mm, piece.height_mm)
        if higher_mm > height_mm:
            chord_mm = shape.chord_mm(top_mm, top_mm + higher_mm)
        if wider_mm > chord_mm + HAIR_MM:
            break
        taken.append(piece)
        width_mm, height_mm = wider_mm, higher_mm
    if not taken:
        return None
    return Row(block.kind, tuple(taken), top_mm, height_mm, width_mm, block.gap_mm)
