"""The caution sticker: symbol and signal word, drawings and statements, as large as they go.

A mandatory statement is never dropped. Usual care lines are dropped, last first, only when the
text would come out smaller than can be read, and each with a finding.
"""

from __future__ import annotations

import bisect
import hashlib
import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from wickbench.documents.caution_blocks import SIGNAL_SIZE, Content, blocks_at
from wickbench.documents.caution_checks import (
    Base,
    base_findings,
    dropped_finding,
    glyph_findings,
    size_findings,
)
from wickbench.documents.caution_drawing import place_rows
from wickbench.documents.caution_flow import flow
from wickbench.documents.label_draws import LaidOutText, TextDraw
from wickbench.documents.label_layout import LaidOutLabel
from wickbench.documents.pictograms import LEAST_HEIGHT_MM
from wickbench.documents.sticker_shape import LARGEST_MM, StickerShape
from wickbench.documents.text import mm_per_unit
from wickbench.domain.caution_statements import CautionLine
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, sort_findings

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickbench.documents.caution_design import CautionDesign
    from wickbench.documents.caution_flow import Row

STEP_PT: Final = 0.1
LARGEST_PT: Final = 36.0
SMALLEST_PT: Final = 1.0
NEEDED_STEP_MM: Final = 1.0


@dataclass(frozen=True, slots=True)
class LaidOutCaution:
    """A caution sticker with everything at its place.

    Attributes:
        label: ready for sheets, like any label; its findings are the caution's.
        size_pt: size of the statements; 0 when nothing could be set.
        lines: what is printed.
        dropped: care lines that had no room.
        needed_mm: width of a sticker of these proportions on which everything is legible; None
            when this one is large enough or when no size helps.
    """

    label: LaidOutLabel
    size_pt: float
    lines: tuple[CautionLine, ...]
    dropped: tuple[CautionLine, ...] = ()
    needed_mm: float | None = None

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What to tell, most pressing first."""
        return self.label.findings


def lay_out_caution(
    lines: Sequence[CautionLine],
    signal_words: Sequence[str],
    symbol: str,
    shape: StickerShape,
    design: CautionDesign,
    *,
    base: Base | None = None,
) -> LaidOutCaution:
    """Set a caution on a sticker.

    Args:
        lines: what to print, language after language.
        signal_words: one for each language, in capitals.
        symbol: name of the drawing that stands before the signal word.
        shape: the sticker.
        design: typefaces and drawings.
        base: what it is stuck on, to warn when the sticker is larger.

    Returns:
        The layout with findings; without texts when not even the mandatory statements fit.

    Raises:
        OutOfRange: no lines, no signal word, or lines that cannot be told apart.
    """
    if not lines or not signal_words:
        raise OutOfRange("caution.nothing-to-print")
    whole = Content(tuple(lines), tuple(dict.fromkeys(signal_words)), symbol)
    kept, (rows, size_pt, symbol_mm) = _kept_and_largest(whole, shape, design)
    dropped = tuple(line for line in whole.lines if line not in kept.lines)
    short = bool(dropped) or size_pt < design.least_pt or symbol_mm < LEAST_HEIGHT_MM
    needed_mm = _needed_mm(whole, shape, design) if short else None
    findings = [
        *glyph_findings(whole, design),
        *size_findings(size_pt, symbol_mm, needed_mm, kept, design),
        *(dropped_finding(line, needed_mm or shape.width_mm) for line in dropped if rows),
        *base_findings(shape, base),
    ]
    return LaidOutCaution(
        label=_label(rows, size_pt, shape, design, findings),
        size_pt=size_pt,
        lines=kept.lines if rows else (),
        dropped=dropped,
        needed_mm=needed_mm,
    )


def _label(
    rows: tuple[Row, ...],
    size_pt: float,
    shape: StickerShape,
    design: CautionDesign,
    findings: list[Finding],
) -> LaidOutLabel:
    """The rows as a label: element 0 is the signal word, 1 the statements."""
    texts, parts = place_rows(rows, size_pt, shape, design)
    sizes = ((0, size_pt * SIGNAL_SIZE), (1, size_pt))
    said = tuple(_laid_text(at, size, texts) for at, size in sizes if rows)
    faces = (design.text_face.path, design.signal_face.path)
    whole = repr(
        (shape, design.colour, [(draw.run.text, draw.x_mm) for draw in texts], sizes, faces)
    )
    key = hashlib.sha256((whole + repr(parts)).encode()).hexdigest()[:24]
    return LaidOutLabel(shape.design, key, (*parts, *texts), said, sort_findings(findings))


def _laid_text(element: int, size_pt: float, texts: tuple[TextDraw, ...]) -> LaidOutText:
    drawn = [draw for draw in texts if math.isclose(draw.size_pt, size_pt)]
    if not drawn:
        return LaidOutText(element, "", size_pt, 0.0, 0.0, 0.0, 0, fits=True)
    face, k = drawn[0].run.face, mm_per_unit(drawn[0].run.face, size_pt)
    return LaidOutText(
        element=element,
        text="\n".join(draw.run.text for draw in drawn),
        size_pt=size_pt,
        x_height_mm=face.x_height * k,
        o_height_mm=face.o_height * k,
        cap_height_mm=face.cap_height * k,
        lines=len(drawn),
        fits=True,
    )


def fits(content: Content, shape: StickerShape, design: CautionDesign, size_pt: float) -> bool:
    """Whether everything stands in the safe zone at this size."""
    return _rows(content, shape, design, size_pt) is not None


def _rows(
    content: Content, shape: StickerShape, design: CautionDesign, size_pt: float
) -> tuple[Row, ...] | None:
    return flow(blocks_at(content, design, size_pt), shape)


def _kept_and_largest(
    whole: Content, shape: StickerShape, design: CautionDesign
) -> tuple[Content, tuple[tuple[Row, ...], float, float]]:
    """What is printed, with its rows, text size and symbol height."""
    kept = _without_care(whole, shape, design)
    largest = _largest(kept, shape, design)
    _, size_pt, symbol_mm = largest
    if not size_pt or kept == whole:
        return kept, largest
    smaller = replace(design, symbol_mm=symbol_mm)
    kept = _with_care_back(whole, kept, shape, smaller, size_pt)
    return kept, _largest(kept, shape, design)


def _without_care(content: Content, shape: StickerShape, design: CautionDesign) -> Content:
    """What is left when care lines go, because text would become too small.

    A care line goes in all languages at once, the last one first.
    """
    kept = content
    optional = list(dict.fromkeys(line.key for line in content.lines if not line.mandatory))
    while optional and not fits(kept, shape, design, design.least_pt):
        key = optional.pop()
        kept = replace(kept, lines=tuple(line for line in kept.lines if line.key != key))
    return kept


def _with_care_back(
    content: Content, kept: Content, shape: StickerShape, design: CautionDesign, size_pt: float
) -> Content:
    """Care lines that cost no size after all come back: shorter ones, or all when it was width."""
    least_pt = min(size_pt, design.least_pt)
    gone = dict.fromkeys(line.key for line in content.lines if line not in kept.lines)
    for key in gone:
        lines = tuple(line for line in content.lines if line in kept.lines or line.key == key)
        more = replace(content, lines=lines)
        if fits(more, shape, design, least_pt):
            kept = more
    return kept


def _largest(
    content: Content, shape: StickerShape, design: CautionDesign
) -> tuple[tuple[Row, ...], float, float]:
    """Rows, text size and symbol height; a smaller symbol only when nothing else goes."""
    for symbol_mm in (max(design.symbol_mm, LEAST_HEIGHT_MM), 4.0, 3.0, 2.0):
        smaller = replace(design, symbol_mm=symbol_mm)
        for size_pt in _sizes(content, shape, smaller):
            rows = _rows(content, shape, smaller, size_pt)
            if rows is not None:
                return rows, size_pt, symbol_mm
    return (), 0.0, 0.0


def _sizes(content: Content, shape: StickerShape, design: CautionDesign) -> Iterable[float]:
    """Sizes from the largest that the area could hold downwards."""
    steps = range(round(SMALLEST_PT / STEP_PT), round(LARGEST_PT / STEP_PT) + 1)
    most = bisect.bisect_right(
        steps, shape.area_mm2(), key=lambda step: _ink_area_mm2(content, design, step * STEP_PT)
    )
    return (round(step * STEP_PT, 3) for step in reversed(steps[:most]))


def _ink_area_mm2(content: Content, design: CautionDesign, size_pt: float) -> float:
    """A lower bound for the area that the pieces cover."""
    return sum(
        piece.width_mm * max(block.row_mm, piece.height_mm)
        for block in blocks_at(content, design, size_pt)
        for piece in block.pieces
    )


def _needed_mm(content: Content, shape: StickerShape, design: CautionDesign) -> float | None:
    """Width in whole mm of the smallest like sticker that holds all lines legibly."""

    def holds(width_mm: float) -> bool:
        larger = shape.scaled(width_mm / shape.width_mm)
        return fits(content, larger, design, design.least_pt)

    most = LARGEST_MM * min(1.0, shape.width_mm / shape.height_mm)
    low = high = float(round(shape.width_mm))
    while not holds(high):
        low, high = high, high * 1.3
        if high > most:
            return None
    low, high = float(int(low)), float(int(high) + 1)
    while high - low > NEEDED_STEP_MM:
        middle = float(int((low + high) / 2))
        low, high = (low, middle) if holds(middle) else (middle, high)
    return high
