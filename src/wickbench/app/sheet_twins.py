"""Sticker sheets that were entered twice: the same measures under another name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.sticker_sheets import sheet_of
from wickbench.app.texts_marker import N_
from wickbench.domain.catalog import SheetMeasures
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.sheet_tolerances import same_measures
from wickbench.storage import records
from wickbench.storage.refusals import InUse

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Material
    from wickbench.domain.sheets import StickerSheet


def twin_of(shelf: Shelf, sheet_id: int, values: Mapping[str, object]) -> Material | None:
    """Another sheet of the shelf with the same measures; the one entered first."""
    try:
        sheet = sheet_of(values)
    except DomainError:
        return None
    every = sorted(shelf.materials.values(), key=lambda one: one.id)
    known = [one for one in every if one.kind == "sheet" and one.id != sheet_id]
    return next((one for one in known if not one.archived and _same(one, sheet)), None)


def twin_finding(twin: Material) -> Finding:
    """That a sheet is there already, by its name."""
    return Finding(Rank.WATCH, "sheet.same-as", {"name": twin.name}, ("sheet", twin.id))


def use_twin(
    workspace: Workspace, run_id: int, sheet_id: int, twin_id: int, *, origin: object = None
) -> None:
    """Print on the sheet that was there already, and remove the one entered again.

    What names the sheet elsewhere keeps it: then it is put away.
    """
    with workspace.step(N_("Use the sheet that is there"), origin=origin) as connection:
        records.update(connection, "print_run", run_id, {"sheet_id": twin_id})
        try:
            records.delete(connection, "item", sheet_id)
        except InUse:
            records.update(connection, "item", sheet_id, {"archived": 1})


def _same(one: Material, sheet: StickerSheet) -> bool:
    details = one.details
    if not isinstance(details, SheetMeasures):
        return False
    values = {name: getattr(details, name) for name in details.__slots__}
    try:
        return same_measures(sheet_of(values), sheet)
    except DomainError:
        return False
