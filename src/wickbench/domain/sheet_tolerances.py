"""How well a sheet's measures fit its page, and what paper, pitch and feed may put off."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.domain.findings import Finding, Rank

if TYPE_CHECKING:
    from wickbench.domain.sheets import StickerSheet

FEED_MM: Final = 1.0
"""Printers feed a sheet within this much (common practice, no source)."""
TEXT_INSIDE_MM: Final = 2.0
"""Text stays this far inside a sticker (common practice, no source)."""
OFF_CENTRE_MM: Final = 1.0
"""Sheets are cut evenly from both edges (common practice, no source); more than this is told."""
SAME_MM: Final = 0.3
"""Measures nearer than this are the same sheet, read twice."""

_ISO_SIZES: Final = frozenset({(148.0, 210.0), (210.0, 297.0), (297.0, 420.0)})
# ISO 216: up to 150 mm ±1.5, above it and up to 600 mm ±2, above that ±3.
_ISO_TOLERANCES: Final = ((150.0, 1.5), (600.0, 2.0), (math.inf, 3.0))
_HAIR_MM: Final = 1e-6
_NAMES: Final = (
    "page_w_mm", "page_h_mm", "left_mm", "top_mm", "sticker_w_mm", "sticker_h_mm",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of a sheet."""

    name: str
    page_mm: float
    margin_mm: float
    count: int
    pitch_mm: float
    size_mm: float

    @property
    def beyond_mm(self) -> float:
        """From the last sticker to the page's other edge."""
        return self.page_mm - self.margin_mm - (self.count - 1) * self.pitch_mm - self.size_mm

    @property
    def gap_mm(self) -> float:
        return self.pitch_mm - self.size_mm


def paper_tolerance_mm(length_mm: float) -> float:
    """How much a side of cut paper may differ from its nominal length (ISO 216)."""
    return next(most for upto, most in _ISO_TOLERANCES if length_mm <= upto)


def check_tolerances(
    sheet: StickerSheet, *, last_doubts_mm: tuple[float | None, float | None] = (None, None)
) -> tuple[Finding, ...]:
    """What to know of a sheet that is entered and fits its page.

    Args:
        sheet: its measures; without size or stickers nothing is said.
        last_doubts_mm: doubt of the last column's and row's place; ``None`` where not measured.
    """
    if not sheet.count or min(sheet.sticker_w_mm, sheet.sticker_h_mm) <= 0:
        return ()
    across, down = _sides(sheet)
    found: list[Finding] = []
    for side, doubt_mm in zip((across, down), last_doubts_mm, strict=True):
        if side.beyond_mm < -_HAIR_MM or (side.count > 1 and side.gap_mm < -_HAIR_MM):
            continue
        found += _off_centre(side)
        found += _paper(sheet, side)
        found += _gap(side)
        found += _adds_up(side, doubt_mm)
    return tuple(found)


def same_measures(one: StickerSheet, other: StickerSheet, within_mm: float = SAME_MM) -> bool:
    """Whether two sheets are the same stationery, measured twice."""
    if (one.columns, one.rows) != (other.columns, other.rows):
        return False
    if (one.shape in {"circle", "oval"}) != (other.shape in {"circle", "oval"}):
        return False
    if min(one.sticker_w_mm, one.sticker_h_mm, other.sticker_w_mm, other.sticker_h_mm) <= 0:
        return False
    names = [*_NAMES]
    names += ["pitch_x_mm"] if one.columns > 1 else []
    names += ["pitch_y_mm"] if one.rows > 1 else []
    return all(abs(getattr(one, name) - getattr(other, name)) <= within_mm for name in names)


def _sides(sheet: StickerSheet) -> tuple[_Side, _Side]:
    across = _Side(
        "across", sheet.page_w_mm, sheet.left_mm, sheet.columns, sheet.pitch_x_mm,
        sheet.sticker_w_mm,
    )  # fmt: skip
    down = _Side(
        "down", sheet.page_h_mm, sheet.top_mm, sheet.rows, sheet.pitch_y_mm, sheet.sticker_h_mm
    )  # fmt: skip
    return across, down


def _off_centre(side: _Side) -> list[Finding]:
    """Margins that differ, and the pitch at which they would not."""
    off = side.beyond_mm - side.margin_mm
    if abs(off) <= OFF_CENTRE_MM + _HAIR_MM:
        return []
    data = {"near_mm": side.margin_mm, "far_mm": side.beyond_mm, "off_mm": abs(off)}
    if side.count == 1:
        return [Finding(Rank.NOTE, f"sheet.off-centre-{side.name}-single", data)]
    pitch = side.pitch_mm + off / (side.count - 1)
    return [Finding(Rank.NOTE, f"sheet.off-centre-{side.name}", {**data, "pitch_mm": pitch})]


def _paper(sheet: StickerSheet, side: _Side) -> list[Finding]:
    """Stickers so near the far edge that paper cut short would miss them."""
    size = tuple(sorted((sheet.page_w_mm, sheet.page_h_mm)))
    tolerance = paper_tolerance_mm(side.page_mm)
    if size not in _ISO_SIZES or side.beyond_mm >= tolerance - _HAIR_MM:
        return []
    data = {"distance_mm": max(0.0, side.beyond_mm), "tolerance_mm": tolerance}
    return [Finding(Rank.NOTE, f"sheet.paper-short-{side.name}", data)]


def _gap(side: _Side) -> list[Finding]:
    """Stickers so close that colour lands on the neighbour when the feed wanders."""
    if side.count == 1 or side.gap_mm >= FEED_MM - _HAIR_MM:
        return []
    data = {"gap_mm": max(0.0, side.gap_mm), "feed_mm": FEED_MM}
    return [Finding(Rank.NOTE, f"sheet.gap-below-feed-{side.name}", data)]


def _adds_up(side: _Side, doubt_mm: float | None) -> list[Finding]:
    """A last sticker whose place is so unsure that text could run over its edge."""
    if doubt_mm is None:
        return []
    off = math.hypot(doubt_mm, FEED_MM)
    if off <= TEXT_INSIDE_MM:
        return []
    data = {"doubt_mm": doubt_mm, "feed_mm": FEED_MM, "off_mm": off, "inside_mm": TEXT_INSIDE_MM}
    return [Finding(Rank.WATCH, f"sheet.last-unsure-{side.name}", data)]
