"""What stands on a caution sticker, cut into pieces of known width at a type size."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.documents.caution_flow import Block, Piece
from wickbench.documents.pictograms import width_mm as drawing_width_mm
from wickbench.documents.text import MM_PER_POINT, shape
from wickbench.domain.caution_statements import OWN_WORDS, CautionLine

if TYPE_CHECKING:
    from wickbench.documents.caution_design import CautionDesign
    from wickbench.documents.text import Typeface

LEADING: Final = 1.18
SIGNAL_SIZE: Final = 1.35  # of the statements' size
SYMBOL_OF_SIGNAL: Final = 1.25  # symbol height by signal word's line
GAP_MM: Final = 1.2
BLOCK_GAP: Final = 0.35  # of a line
_KEPT_TOGETHER = re.compile(r" (?=(?:mm|cm|in|h|hours|Stunden|heures|horas)\b|\()|(?<=\d) (?=\d/)")
_NO_BREAK = "\u00a0"


@dataclass(frozen=True, slots=True)
class Content:
    """What is printed: lines, the signal words of their languages, and the symbol."""

    lines: tuple[CautionLine, ...]
    signal_words: tuple[str, ...]
    symbol: str


def blocks_at(content: Content, design: CautionDesign, size_pt: float) -> tuple[Block, ...]:
    """Signal word, drawings and one block per language, measured at a size of the statements."""
    blocks = [_signal_block(content, design, size_pt)]
    if design.pictures != "none":
        drawings = _drawings_block(content, design, size_pt)
        blocks += [drawings] if drawings.pieces else []
    for language in dict.fromkeys(line.language for line in content.lines):
        words = _words(content, design, language)
        if words:
            blocks.append(_text_block(words, design.text_face, size_pt))
    return tuple(blocks)


def symbol_height_mm(design: CautionDesign, size_pt: float) -> float:
    """Height of symbol and drawings: they grow with the signal word, from the least height on."""
    line_mm = size_pt * SIGNAL_SIZE * MM_PER_POINT
    return max(design.symbol_mm, SYMBOL_OF_SIGNAL * line_mm)


def _signal_block(content: Content, design: CautionDesign, size_pt: float) -> Block:
    """The symbol and the first word are one piece: nothing comes between them."""
    signal_pt = size_pt * SIGNAL_SIZE
    height_mm = symbol_height_mm(design, size_pt)
    first, *others = content.signal_words
    symbol_mm = drawing_width_mm(content.symbol, height_mm)
    first_mm = symbol_mm + GAP_MM + shape(design.signal_face, first).width_mm(signal_pt)
    pieces = [Piece(first_mm, text=first, drawing=content.symbol, height_mm=height_mm)]
    pieces += [
        Piece(shape(design.signal_face, word).width_mm(signal_pt), text=word) for word in others
    ]
    gap_mm = signal_pt * MM_PER_POINT * 0.6
    return Block("signal", tuple(pieces), gap_mm, signal_pt * MM_PER_POINT * LEADING, 0.0)


def _drawings_block(content: Content, design: CautionDesign, size_pt: float) -> Block:
    height_mm = symbol_height_mm(design, size_pt)
    names = dict.fromkeys(
        line.pictogram
        for line in content.lines
        if line.pictogram and (design.pictures == "beside" or _drawing_says_it(line))
    )
    pieces = tuple(
        Piece(drawing_width_mm(name, height_mm), drawing=name, height_mm=height_mm)
        for name in names
    )
    return Block("drawings", pieces, GAP_MM, height_mm + GAP_MM / 2, GAP_MM / 2)


def _words(content: Content, design: CautionDesign, language: str) -> list[str]:
    said = [
        line.text
        for line in content.lines
        if line.language == language
        and not (design.pictures == "instead" and _drawing_says_it(line))
    ]
    return _KEPT_TOGETHER.sub(_NO_BREAK, " ".join(said)).split(" ") if said else []


def _drawing_says_it(line: CautionLine) -> bool:
    """A drawing can stand for a statement, but not for its figures nor for own words."""
    has_figures = any(sign.isdigit() for sign in line.text)
    return bool(line.pictogram) and not has_figures and line.tag != OWN_WORDS


def _text_block(words: list[str], face: Typeface, size_pt: float) -> Block:
    pieces = tuple(Piece(_word_mm(face, word, size_pt), text=word) for word in words)
    row_mm = size_pt * MM_PER_POINT * LEADING
    space_mm = shape(face, " ").width_mm(size_pt)
    return Block("text", pieces, space_mm, row_mm, row_mm * BLOCK_GAP)


def _word_mm(face: Typeface, word: str, size_pt: float) -> float:
    return shape(face, word.replace(_NO_BREAK, " ")).width_mm(size_pt)
