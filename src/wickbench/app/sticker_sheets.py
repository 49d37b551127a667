"""A sticker sheet from what is typed so far, for its drawing and its checks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.material_estimates import filled
from wickbench.app.sheet_readings import last_doubts
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.sheet_tolerances import check_tolerances
from wickbench.domain.sheets import StickerSheet, check_sheet

if TYPE_CHECKING:
    from collections.abc import Mapping


_ENTERED: Final = ("left_mm", "top_mm", "pitch_x_mm", "pitch_y_mm")
"""What has to be entered before margins can be told to be uneven."""


def sheet_of(values: Mapping[str, object]) -> StickerSheet:
    """A sheet with zeros where nothing is typed, A4 or Letter filled in, and pitches that touch.

    Args:
        values: presented values of the row.

    Raises:
        OutOfRange: a measure that cannot be.
    """
    known = filled("sheet", values)
    width, height = _number(known, "sticker_w_mm"), _number(known, "sticker_h_mm")
    if known.get("shape") == "circle":
        width, height = width or height, height or width
    return StickerSheet(
        page_w_mm=_number(known, "page_w_mm"),
        page_h_mm=_number(known, "page_h_mm"),
        left_mm=_number(known, "left_mm"),
        top_mm=_number(known, "top_mm"),
        columns=int(_number(known, "columns", 1.0)),
        rows=int(_number(known, "rows", 1.0)),
        pitch_x_mm=_number(known, "pitch_x_mm", width),
        pitch_y_mm=_number(known, "pitch_y_mm", height),
        sticker_w_mm=width,
        sticker_h_mm=height,
        shape=str(known.get("shape") or "rectangle"),
        corner_mm=_number(known, "corner_mm"),
    )


def _number(values: Mapping[str, object], name: str, default: float = 0.0) -> float:
    value = values.get(name)
    return float(value) if isinstance(value, int | float) else default


def sheet_findings(values: Mapping[str, object]) -> tuple[Finding, ...]:
    """What stands in the way of printing on such a sheet, as far as it is typed."""
    try:
        sheet = sheet_of(values)
        found = list(check_sheet(sheet))
        if all(isinstance(values.get(name), int | float) for name in _ENTERED):
            found += check_tolerances(sheet, last_doubts_mm=last_doubts(values))
        return sort_findings(found)
    except DomainError as error:
        return (Finding(Rank.STOPS, error.key, error.data),)
