"""Which paper a label is seen on: that of the sheet whose stickers it fits."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.domain.catalog import SheetMeasures

if TYPE_CHECKING:
    from wickbench.app.shelf import Shelf
    from wickbench.domain.labels import LabelDesign

_KRAFT: Final = "kraft"
_SAME_MM: Final = 0.05


def is_kraft(surface: object) -> bool:
    """Whether a sheet's paper is brown, by the word that the maker wrote."""
    return _KRAFT in str(surface or "").casefold()


def sheet_is_kraft(shelf: Shelf, sheet_id: int | None) -> bool:
    """Whether a sheet's paper is brown."""
    sheet = shelf.materials.get(sheet_id) if sheet_id is not None else None
    return (
        sheet is not None
        and isinstance(sheet.details, SheetMeasures)
        and is_kraft(sheet.details.surface)
    )


def seen_on_kraft(shelf: Shelf, design: LabelDesign, sheet_id: int | None = None) -> bool:
    """Whether a label is seen on kraft: the sheet in hand decides, else any of its size.

    Args:
        shelf: the snapshot.
        design: the label.
        sheet_id: key of the sheet in hand.
    """
    fitting = [
        (one.id != sheet_id, one.details.surface)
        for one in shelf.of_kind("sheet")
        if isinstance(one.details, SheetMeasures) and _fits(design, one.details)
    ]
    return bool(fitting) and is_kraft(min(fitting, key=lambda one: one[0])[1])


def _fits(design: LabelDesign, sheet: SheetMeasures) -> bool:
    sides = ((design.width_mm, sheet.sticker_w_mm), (design.height_mm, sheet.sticker_h_mm))
    return all(abs(have - (want or 0.0)) <= _SAME_MM for have, want in sides)
