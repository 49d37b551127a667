"""A sticker sheet in a few words: its name, grid, page, sticker and how many are left."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.texts_marker import N_
from wickbench.domain.catalog import SheetMeasures

if TYPE_CHECKING:
    from wickbench.app.texts import Texts
    from wickbench.domain.catalog import Material


def sheet_words(texts: Texts, sheet: Material, on_hand: float | None) -> str:
    """For a list of sheets."""
    parts = [sheet.name] if sheet.name else []
    details = sheet.details
    if isinstance(details, SheetMeasures):
        if details.columns and details.rows:
            grid = f"{details.columns} × {details.rows}"
            parts.append(f"{grid} · {details.page}" if details.page else grid)
        if details.sticker_w_mm and details.sticker_h_mm:
            wide = texts.units.full(details.sticker_w_mm, "length")
            high = texts.units.read(details.sticker_h_mm, "length", both=False)
            parts.append(f"{wide.split()[0]} × {high}")
    if on_hand is not None:
        count = max(0, round(on_hand))
        parts.append(texts.plural(N_("{n} sheet left"), N_("{n} sheets left"), count))
    return ", ".join(parts) or texts(N_("Unnamed sheet"))
