"""Which sticker sheet a label is printed on: the one used last, else one that its size fits."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.sticker_sheets import sheet_of
from wickbench.documents.sheet_layout import SAME_SIZE_MM
from wickbench.domain.catalog import SheetMeasures
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.label_store import StoredLabel
    from wickbench.app.print_runs import PrintRun
    from wickbench.app.shelf import Shelf
    from wickbench.domain.catalog import Material
    from wickbench.domain.labels import LabelDesign
    from wickbench.domain.sheets import StickerSheet


def sheet_for(
    label: StoredLabel, shelf: Shelf, runs: Sequence[PrintRun], plan_id: int | None = None
) -> int | None:
    """The sheet to print a label on; ``None`` where none was used and none fits.

    Args:
        label: what is printed.
        shelf: the snapshot.
        runs: all print runs, the newest first.
        plan_id: a pour whose own runs come before all others.
    """
    own = [run for run in runs if plan_id is not None and run.plan_id == plan_id]
    for run in (*own, *runs):
        if run.sheet_id is not None and any(line.label_id == label.id for line in run.lines):
            sheet = shelf.materials.get(run.sheet_id)
            if sheet is not None and not sheet.archived:
                return run.sheet_id
    fitting = [
        (_worse(label.design, known), one.id)
        for one in shelf.of_kind("sheet")
        if (known := _known(one)) is not None and _fits(label.design, known)
    ]
    in_stock = {one: not (shelf.on_hand.get(one) or 0) for _, one in fitting}
    return min(fitting, key=lambda pair: (pair[0], in_stock[pair[1]]))[1] if fitting else None


def _known(material: Material) -> StickerSheet | None:
    details = material.details
    if not isinstance(details, SheetMeasures):
        return None
    try:
        return sheet_of({name: getattr(details, name) for name in details.__slots__})
    except DomainError:
        return None


def _fits(design: LabelDesign, sheet: StickerSheet) -> bool:
    """The sticker has the label's size, upright or turned by a quarter."""
    have = (sheet.sticker_w_mm, sheet.sticker_h_mm)
    return any(
        abs(width - have[0]) <= SAME_SIZE_MM and abs(height - have[1]) <= SAME_SIZE_MM
        for width, height in (
            (design.width_mm, design.height_mm),
            (design.height_mm, design.width_mm),
        )
    )


def _worse(design: LabelDesign, sheet: StickerSheet) -> tuple[bool, bool]:
    """A sheet of the same shape comes before another one, one that need not be turned also."""
    turned = abs(design.width_mm - sheet.sticker_w_mm) > SAME_SIZE_MM
    return design.shape != sheet.shape, turned
