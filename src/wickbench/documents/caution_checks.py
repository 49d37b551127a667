"""What to tell about a caution sticker: missing signs, size of text and symbols, its base."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.documents.lost_letters import missing
from wickbench.documents.pictograms import LEAST_HEIGHT_MM
from wickbench.domain.findings import Finding, Rank

if TYPE_CHECKING:
    from wickbench.documents.caution_blocks import Content
    from wickbench.documents.caution_design import CautionDesign
    from wickbench.documents.sticker_shape import StickerShape
    from wickbench.domain.caution_statements import CautionLine


@dataclass(frozen=True, slots=True)
class Base:
    """What the sticker is stuck on: the vessel's base or lid.

    Attributes:
        width_mm: diameter of a round one, else its width.
        depth_mm: depth of a square or oblong one; None for a round one.
    """

    width_mm: float
    depth_mm: float | None = None


def glyph_findings(content: Content, design: CautionDesign) -> list[Finding]:
    """Signs of the texts that the typefaces do not have."""
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


def size_findings(
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


def dropped_finding(line: CautionLine, needed_mm: float) -> Finding:
    """A care line that had no room."""
    data = {"text": line.text, "needed_mm": needed_mm}
    return Finding(Rank.WATCH, "caution.care-dropped", data, about=("statement", line.key))


def base_findings(shape: StickerShape, base: Base | None) -> list[Finding]:
    """A sticker that is larger than the base; it may still go on a lid or the side."""
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
    return [Finding(Rank.WATCH, "caution.larger-than-base", data)]
