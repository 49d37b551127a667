"""A sticker sheet from a picture of it: found, rounded, and ready to be taken or corrected."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.sheet_readings import COUNT_NAMES, MEASURE_NAMES, SIDES, Compared, compare
from wickbench.app.sticker_sheets import sheet_of
from wickbench.app.texts_marker import N_
from wickbench.documents.sheet_scan import ScannedSheet, find_sheet
from wickbench.domain.errors import DomainError
from wickbench.domain.rounding import to_step

if TYPE_CHECKING:
    from pathlib import Path

    from wickbench.app.texts import Texts

_STEPS_MM: Final = (0.05, 0.01, 0.05)
_LARGEST_FILE: Final = 80_000_000
SHAPE_WORDS: Final[Mapping[str, str]] = {
    "rectangle": N_("rectangles"),
    "rounded": N_("rounded rectangles"),
    "circle": N_("circles"),
    "oval": N_("ovals"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundSheet:
    """What a picture gives.

    Attributes:
        scanned: as found.
        values: the sheet's fields, rounded.
        compared: measure by measure beside what is entered.
    """

    scanned: ScannedSheet
    values: Mapping[str, object]
    compared: tuple[Compared, ...]


def find_in_scan(path: Path, stored: Mapping[str, object]) -> FoundSheet:
    """Find a sheet in a picture's file.

    Args:
        path: the file.
        stored: presented values of the sheet: the page's size is taken from there.

    Raises:
        DomainError: ``scan.no-page-size`` while the page is not entered, ``scan.unreadable``,
            ``picture.too-large``, and as `wickbench.documents.sheet_scan.find_sheet`.
    """
    sheet = sheet_of(stored)
    if min(sheet.page_w_mm, sheet.page_h_mm) <= 0:
        raise DomainError("scan.no-page-size")
    try:
        if path.stat().st_size > _LARGEST_FILE:
            raise DomainError("picture.too-large")
        data = path.read_bytes()
    except OSError as error:
        raise DomainError("scan.unreadable", name=path.name) from error
    scanned = find_sheet(data, (sheet.page_w_mm, sheet.page_h_mm))
    sides = (scanned.across, scanned.down)
    compared = [one for side, found in zip(SIDES, sides, strict=True)
                for one in compare(stored, side, found)]  # fmt: skip
    return FoundSheet(scanned=scanned, values=_values(scanned), compared=tuple(compared))


def kept_scan(found: ScannedSheet, name: str) -> dict[str, object]:
    """What is kept of a scan with the sheet: measures, their doubts, and the file's name."""
    kept: dict[str, object] = {"file": name, "seen": round(found.seen, 3)}
    for side, measured in zip(SIDES, (found.across, found.down), strict=True):
        pitch = measured.pitch.value_mm if measured.pitch is not None else None
        kept[side] = {
            "margin_mm": round(measured.margin.value_mm, 3),
            "pitch_mm": None if pitch is None else round(pitch, 3),
            "size_mm": round(measured.size.value_mm, 3),
            "last_doubt_mm": round(measured.last_doubt_mm, 3),
        }
    return kept


def scan_sentence(texts: Texts, found: ScannedSheet) -> str:
    """What is seen, in a sentence."""
    return texts(
        N_("{columns} × {rows} {shape} are seen. Compare the lines with the picture."),
        columns=str(found.columns), rows=str(found.rows), shape=texts(SHAPE_WORDS[found.shape]),
    )  # fmt: skip


def _values(found: ScannedSheet) -> dict[str, object]:
    values: dict[str, object] = {
        COUNT_NAMES["across"]: found.columns,
        COUNT_NAMES["down"]: found.rows,
        "shape": found.shape,
        "corner_mm": found.corner_mm if found.shape == "rounded" else 0.0,
    }
    for side, measured in zip(SIDES, (found.across, found.down), strict=True):
        measures = (measured.margin, measured.pitch, measured.size)
        for name, one, step in zip(MEASURE_NAMES[side], measures, _STEPS_MM, strict=True):
            if one is not None:
                values[name] = to_step(max(0.0, one.value_mm), step)
    if found.shape == "circle":
        size = (found.across.size.value_mm + found.down.size.value_mm) / 2
        values |= dict.fromkeys(("sticker_w_mm", "sticker_h_mm"), to_step(size, _STEPS_MM[2]))
    return values
