"""Sticker sheets: bought stationery entered by its measures, and what goes where on it.

Everything in millimetres from the top left corner of the page, y down.
"""

from __future__ import annotations

import math
from dataclasses import KW_ONLY, dataclass
from typing import Final

from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank, sort_findings

SHAPES: Final = ("rectangle", "rounded", "circle", "oval")

# What printers leave blank (common practice, no source): lasers 4–5 mm, inkjets 7 mm at the end.
EDGE_MM: Final = 5.0
END_MM: Final = 7.0

_HAIR_MM: Final = 1e-6
_LENGTHS: Final = (
    "page_w_mm",
    "page_h_mm",
    "left_mm",
    "top_mm",
    "pitch_x_mm",
    "pitch_y_mm",
    "sticker_w_mm",
    "sticker_h_mm",
    "corner_mm",
)
_NEEDED: Final = ("page_w_mm", "page_h_mm", "sticker_w_mm", "sticker_h_mm")


@dataclass(frozen=True, slots=True)
class Rect:
    """A box on the page; its corner nearest the origin and its size."""

    x_mm: float
    y_mm: float
    w_mm: float
    h_mm: float

    @property
    def right_mm(self) -> float:
        """Its right edge."""
        return self.x_mm + self.w_mm

    @property
    def bottom_mm(self) -> float:
        """Its bottom edge."""
        return self.y_mm + self.h_mm

    def inset(self, by_mm: float) -> Rect:
        """The box with this much taken off each side; never less than nothing."""
        by_x, by_y = min(by_mm, self.w_mm / 2), min(by_mm, self.h_mm / 2)
        return Rect(self.x_mm + by_x, self.y_mm + by_y, self.w_mm - 2 * by_x, self.h_mm - 2 * by_y)


@dataclass(frozen=True, slots=True)
class StickerSheet:
    """A sheet of stickers in a grid.

    Attributes:
        page_w_mm: page width.
        page_h_mm: page height.
        left_mm: from the page's left edge to the first column.
        top_mm: from the page's top edge to the first row.
        columns: stickers side by side.
        rows: stickers one below the other.
        pitch_x_mm: from one column's left edge to the next one's.
        pitch_y_mm: from one row's top edge to the next one's.
        sticker_w_mm: sticker width.
        sticker_h_mm: sticker height.
        shape: ``rectangle``, ``rounded``, ``circle`` or ``oval``.
        corner_mm: corner radius of a rounded sticker.

    Raises:
        OutOfRange: ``sheet.measure`` for a length that is negative or no number,
            ``sheet.grid`` for a number of columns or rows that is negative or not whole,
            ``sheet.shape`` for another shape. What merely cannot be printed is a finding.
    """

    page_w_mm: float
    page_h_mm: float
    left_mm: float
    top_mm: float
    columns: int
    rows: int
    pitch_x_mm: float
    pitch_y_mm: float
    sticker_w_mm: float
    sticker_h_mm: float
    shape: str = "rectangle"
    _: KW_ONLY
    corner_mm: float = 0.0

    def __post_init__(self) -> None:
        for name in _LENGTHS:
            value = getattr(self, name)
            if not math.isfinite(value) or value < 0:
                raise OutOfRange("sheet.measure", measure=name, value=value)
        for count in (self.columns, self.rows):
            if count != int(count) or count < 0:
                raise OutOfRange("sheet.grid", value=count)
        if self.shape not in SHAPES:
            raise OutOfRange("sheet.shape", shape=self.shape)

    @property
    def count(self) -> int:
        """Stickers on one sheet."""
        return self.columns * self.rows

    @property
    def gap_x_mm(self) -> float:
        """Between two columns."""
        return self.pitch_x_mm - self.sticker_w_mm

    @property
    def gap_y_mm(self) -> float:
        """Between two rows."""
        return self.pitch_y_mm - self.sticker_h_mm

    @property
    def bleed_limit_mm(self) -> float:
        """How far a background may run over a sticker's edge: half of the smallest gap.

        Where a sticker has no neighbour the page's edge is the limit.
        """
        gaps = [self.gap_x_mm / 2] if self.columns > 1 else []
        gaps += [self.gap_y_mm / 2] if self.rows > 1 else []
        return max(0.0, min([*gaps, self.left_mm, self.top_mm]))

    def sticker(self, index: int) -> Rect:
        """Place of a sticker; index 0 is top left, counted row by row.

        Raises:
            OutOfRange: ``sheet.no-such-sticker``.
        """
        row, column = self.row_and_column(index)
        x_mm = self.left_mm + column * self.pitch_x_mm
        y_mm = self.top_mm + row * self.pitch_y_mm
        return Rect(x_mm, y_mm, self.sticker_w_mm, self.sticker_h_mm)

    def row_and_column(self, index: int) -> tuple[int, int]:
        """Row and column of a sticker, both counted from 0.

        Raises:
            OutOfRange: ``sheet.no-such-sticker``.
        """
        if not 0 <= index < self.count:
            raise OutOfRange("sheet.no-such-sticker", number=index + 1, count=self.count)
        return divmod(index, self.columns)


@dataclass(frozen=True, slots=True)
class SheetCount:
    """How many stickers of a size fit on a page, upright and turned: columns and rows."""

    upright: tuple[int, int]
    turned: tuple[int, int]

    @property
    def best(self) -> int:
        """The larger of the two counts."""
        return max(self.upright[0] * self.upright[1], self.turned[0] * self.turned[1])


def check_sheet(sheet: StickerSheet) -> tuple[Finding, ...]:
    """What stands in the way of printing on such a sheet, worst first."""
    lacking = [name for name in _NEEDED if getattr(sheet, name) <= 0]
    found = [Finding(Rank.STOPS, f"sheet.no-{name[:-3].replace('_', '-')}") for name in lacking]
    if not sheet.count:
        found.append(Finding(Rank.STOPS, "sheet.no-stickers"))
    if found:
        return tuple(found)
    return sort_findings([*_shape_findings(sheet), *_overlaps(sheet), *_edge_findings(sheet)])


def count_per_sheet(
    page_mm: tuple[float, float],
    sticker_mm: tuple[float, float],
    *,
    margin_mm: float = 0.0,
    gap_mm: float = 0.0,
) -> SheetCount:
    """How many stickers fit: floor((page − 2 margins + gap) / (sticker + gap)), each way.

    Raises:
        OutOfRange: ``sheet.measure`` for a sticker or page without size, or a negative margin.
    """
    for value in (*page_mm, *sticker_mm):
        if not math.isfinite(value) or value <= 0:
            raise OutOfRange("sheet.measure", measure="sticker", value=value)
    for value in (margin_mm, gap_mm):
        if not math.isfinite(value) or value < 0:
            raise OutOfRange("sheet.measure", measure="margin", value=value)
    room = [max(0.0, side - 2 * margin_mm + gap_mm) + _HAIR_MM for side in page_mm]
    across, down = sticker_mm[0] + gap_mm, sticker_mm[1] + gap_mm
    return SheetCount(
        (int(room[0] // across), int(room[1] // down)),
        (int(room[0] // down), int(room[1] // across)),
    )


def _shape_findings(sheet: StickerSheet) -> list[Finding]:
    width, height = sheet.sticker_w_mm, sheet.sticker_h_mm
    found = []
    if sheet.shape == "circle" and abs(width - height) > _HAIR_MM:
        data = {"width_mm": width, "height_mm": height}
        found.append(Finding(Rank.STOPS, "sheet.circle-not-round", data))
    if sheet.shape == "rounded" and sheet.corner_mm > min(width, height) / 2 + _HAIR_MM:
        data = {"corner_mm": sheet.corner_mm, "most_mm": min(width, height) / 2}
        found.append(Finding(Rank.WATCH, "sheet.corner-too-large", data))
    return found


def _overlaps(sheet: StickerSheet) -> list[Finding]:
    found = []
    if sheet.columns > 1 and sheet.gap_x_mm < -_HAIR_MM:
        data = {"pitch_mm": sheet.pitch_x_mm, "size_mm": sheet.sticker_w_mm}
        found.append(Finding(Rank.STOPS, "sheet.columns-overlap", data))
    if sheet.rows > 1 and sheet.gap_y_mm < -_HAIR_MM:
        data = {"pitch_mm": sheet.pitch_y_mm, "size_mm": sheet.sticker_h_mm}
        found.append(Finding(Rank.STOPS, "sheet.rows-overlap", data))
    return found


def _edge_findings(sheet: StickerSheet) -> list[Finding]:
    last = sheet.sticker(sheet.count - 1)
    right, below = sheet.page_w_mm - last.right_mm, sheet.page_h_mm - last.bottom_mm
    found = []
    if right < -_HAIR_MM:
        found.append(Finding(Rank.STOPS, "sheet.past-right-edge", {"over_mm": -right}))
    if below < -_HAIR_MM:
        found.append(Finding(Rank.STOPS, "sheet.past-bottom-edge", {"over_mm": -below}))
    zones = (
        ("left", sheet.left_mm, EDGE_MM),
        ("right", right, EDGE_MM),
        ("top", sheet.top_mm, EDGE_MM),
        ("bottom", below, END_MM),
    )
    for edge, distance, least in zones:
        if -_HAIR_MM <= distance < least - _HAIR_MM:
            data = {"distance_mm": max(0.0, distance), "least_mm": least}
            found.append(Finding(Rank.WATCH, f"sheet.near-{edge}-edge", data))
    return found
