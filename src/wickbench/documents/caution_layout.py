"""The caution sticker: symbol and signal word, drawings and statements, as large as they go.

A mandatory statement is never dropped. Usual care lines are dropped, last first, only when the
text would come out smaller than can be read, and each with a finding.
"""

from __future__ import annotations

import hashlib
import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from wickbench.documents.caution_blocks import SIGNAL_SIZE, Content, blocks_at
from wickbench.documents.caution_drawing import place_rows
from wickbench.documents.caution_flow import flow
from wickbench.documents.label_draws import LaidOutText, TextDraw
from wickbench.documents.label_layout import LaidOutLabel
from wickbench.documents.pictograms import LEAST_HEIGHT_MM
from wickbench.documents.sticker_shape import LARGEST_MM, StickerShape
from wickbench.documents.text import missing, mm_per_unit
from wickbench.domain.caution_statements import CautionLine
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank, sort_findings

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickbench.documents.caution_design import CautionDesign
    from wickbench.documents.caution_flow import Row

STEP_PT: Final = 0.1
LARGEST_PT: Final = 36.0
SMALLEST_PT: Final = 1.0
NEEDED_STEP_MM: Final = 1.0


@dataclass(frozen=True, slots=True)
class Base:
    """What the sticker is stuck on: the vessel's base or lid.

    Attributes:
        width_mm: diameter of a round one, else its width.
        depth_mm: depth of a square or oblong one; None for a round one.
    """

    width_mm: float
    depth_mm: float | None = None


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
    kept, dropped = _drop_care(whole, shape, design)
    rows, size_pt, symbol_mm = _largest(kept, shape, design)
    needed_mm = _needed_mm(whole, shape, design) if _is_short(dropped, size_pt, design) else None
    findings = [
        *_glyph_findings(whole, design),
        *_size_findings(size_pt, symbol_mm, needed_mm, kept, design),
        *(_dropped_finding(line, needed_mm or shape.width_mm) for line in dropped),
        *_base_findings(shape, base),
    ]
    return LaidOutCaution(
        label=_label(rows, size_pt, shape, design, findings),
        size_pt=size_pt,
        lines=kept.lines,
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


def _is_short(dropped: Sequence[CautionLine], size_pt: float, design: CautionDesign) -> bool:
    return bool(dropped) or size_pt < design.least_pt


def _drop_care(
    content: Content, shape: StickerShape, design: CautionDesign
) -> tuple[Content, tuple[CautionLine, ...]]:
    """What is printed, and the care lines that go because text would become too small.

    A care line goes in all languages at once, the last one first.
    """
    lines = list(content.lines)
    kept = content
    optional = list(dict.fromkeys(line.key for line in lines if not line.mandatory))
    while optional and not fits(kept, shape, design, design.least_pt):
        key = optional.pop()
        lines = [line for line in lines if line.key != key]
        kept = replace(content, lines=tuple(lines))
    gone = {line.key for line in content.lines} - {line.key for line in lines}
    return kept, tuple(line for line in content.lines if line.key in gone)


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
    steps = round(LARGEST_PT / STEP_PT)
    least = round(SMALLEST_PT / STEP_PT)
    for step in range(steps, least - 1, -1):
        size_pt = step * STEP_PT
        if _ink_area_mm2(content, design, size_pt) <= shape.area_mm2():
            yield round(size_pt, 3)


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


def _glyph_findings(content: Content, design: CautionDesign) -> list[Finding]:
    said = (
        (design.text_face, "\n".join(line.text for line in content.lines)),
        (design.signal_face, "\n".join(content.signal_words)),
    )
    return [
        Finding(
            Rank.STOPS, "caution.missing-glyph", {"family": face.family, "signs": " ".join(lost)}
        )
        for face, text in said
        if (lost := missing(face, text))
    ]


def _size_findings(
    size_pt: float,
    symbol_mm: float,
    needed_mm: float | None,
    content: Content,
    design: CautionDesign,
) -> list[Finding]:
    """Findings about what could not be set, is too small to read, or has too small a symbol."""
    needed: dict[str, object] = {"needed_mm": needed_mm} if needed_mm else {}
    key = "" if needed_mm else "-anywhere"
    if size_pt == 0.0:
        return [Finding(Rank.STOPS, f"caution.does-not-fit{key}", needed)]
    found = []
    if size_pt < design.least_pt:
        data = {"size_pt": size_pt, "least_pt": design.least_pt, **needed}
        found.append(Finding(Rank.STOPS, f"caution.too-small{key}", data))
    if symbol_mm < LEAST_HEIGHT_MM:
        source = content.lines[0].source
        data = {"height_mm": symbol_mm, "least_mm": LEAST_HEIGHT_MM, "source": source, **needed}
        found.append(Finding(Rank.STOPS, f"caution.symbol-small{key}", data))
    return found


def _dropped_finding(line: CautionLine, needed_mm: float) -> Finding:
    data = {"text": line.text, "needed_mm": needed_mm}
    return Finding(Rank.WATCH, "caution.care-dropped", data, about=("statement", line.key))


def _base_findings(shape: StickerShape, base: Base | None) -> list[Finding]:
    if base is None:
        return []
    if base.depth_mm is None:
        too_large = shape.across_mm > base.width_mm
    else:
        sides = sorted((shape.width_mm, shape.height_mm))
        room = sorted((base.width_mm, base.depth_mm))
        too_large = any(side > free for side, free in zip(sides, room, strict=True))
    if not too_large:
        return []
    data = {"sticker_mm": shape.across_mm, "base_mm": base.width_mm}
    return [Finding(Rank.STOPS, "caution.larger-than-base", data)]
