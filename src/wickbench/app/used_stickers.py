"""After printing: stickers that got a label are gone, and what is left of a sheet is kept."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.app.begun_sheets import begun_sheets, keep_used
from wickbench.app.texts_marker import N_
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.print_run_view import RunView
    from wickbench.app.texts import Texts
    from wickbench.storage.workshop_file import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetAfter:
    """A sheet as it is once the run is printed.

    Attributes:
        begun_id: its key when it was begun before; ``None`` for a new sheet.
        printed: stickers that get a label.
        used: stickers that are gone then.
        free: how many are left.
    """

    begun_id: int | None
    printed: frozenset[int]
    used: frozenset[int]
    free: int


def sheets_after(view: RunView) -> tuple[SheetAfter, ...]:
    """Every sheet that gets ink, as it is afterwards, in the order of printing."""
    if view.pages is None or view.sheet is None:
        return ()
    found = []
    for sheet_no in view.pages.sheet_numbers:
        begun = view.run.begun[sheet_no] if sheet_no < len(view.run.begun) else None
        printed = frozenset(one.index for one in view.pages.on_sheet(sheet_no))
        used = printed | begun.used if begun else printed
        free = sum(index not in used for index in range(view.sheet.count))
        key = begun.id if begun else None
        found.append(SheetAfter(begun_id=key, printed=printed, used=used, free=free))
    return tuple(found)


def after_print(connection: Connection, view: RunView) -> None:
    """Mark what was printed: full sheets go, a new sheet with free stickers becomes a begun one.

    Part of the step that records the print, so that undoing it gives the stickers back.
    """
    if view.run.sheet_id is None:
        return
    drawer = {one.id: one for one in begun_sheets(connection, view.run.sheet_id)}
    for sheet in sheets_after(view):
        if sheet.begun_id is None:
            if sheet.free:
                keep_used(connection, view.run.sheet_id, None, sheet.used)
        elif sheet.begun_id in drawer:  # it may have been thrown away while it was printed
            used = sheet.printed | drawer[sheet.begun_id].used
            if len(used) < len(sheet.used) + sheet.free:
                keep_used(connection, view.run.sheet_id, sheet.begun_id, used)
            else:
                records.delete(connection, "begun_sheet", sheet.begun_id)


def kept_sentence(texts: Texts, view: RunView) -> str:
    """What is left over of the sheets, to be said after printing; empty for nothing."""
    after = [one for one in sheets_after(view) if one.free]
    if not after:
        return ""
    if len(after) == 1:
        return texts.plural(
            N_("{n} sticker of the last sheet stays free; the sheet is kept as begun."),
            N_("{n} stickers of the last sheet stay free; the sheet is kept as begun."),
            after[0].free,
        )
    return texts.plural(
        N_("{n} sticker stays free; the sheets are kept as begun."),
        N_("{n} stickers stay free; the sheets are kept as begun."),
        sum(one.free for one in after),
    )
