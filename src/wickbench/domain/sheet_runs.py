"""Print runs on sticker sheets: which label goes on which sticker, and how many sheets it takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence


@dataclass(frozen=True, slots=True)
class Placement:
    """One label on one sticker.

    Attributes:
        entry: which entry of the print run, from 0.
        sheet_no: which sheet, from 0; the partly used ones come first.
        index: which sticker of the sheet, from 0.
    """

    entry: int
    sheet_no: int
    index: int


@dataclass(frozen=True, slots=True)
class SheetNeed:
    """What a print run takes.

    Attributes:
        from_partly_used: labels that fit on sheets begun before.
        new_sheets: fresh sheets.
        left: stickers that stay free on all of these.
    """

    from_partly_used: int
    new_sheets: int
    left: int


def place_run(
    counts: Sequence[int], per_sheet: int, used: Sequence[frozenset[int]] = ()
) -> tuple[Placement, ...]:
    """Which label goes on which sticker: partly used sheets first, entries in their order.

    Args:
        counts: how many labels of each entry.
        per_sheet: stickers on a sheet.
        used: for each partly used sheet the stickers that are gone; fresh sheets follow.

    Raises:
        OutOfRange: ``sheet.run-count`` for a negative or broken count, ``sheet.no-stickers``
            when there are labels and a sheet has no sticker.
    """
    _check_counts(counts, per_sheet)
    free = _free_stickers(per_sheet, used)
    entries = (entry for entry, count in enumerate(counts) for _ in range(count))
    return tuple(Placement(entry, *next(free)) for entry in entries)


def sheets_needed(
    counts: Sequence[int],
    per_sheet: int,
    free: Sequence[int] = (),
    *,
    one_design_per_sheet: bool = False,
) -> SheetNeed:
    """Sheets that a print run takes, partly used ones first.

    Args:
        counts: how many labels of each entry.
        per_sheet: stickers on a sheet.
        free: stickers still free on each partly used sheet.
        one_design_per_sheet: fresh sheets are not shared between entries.

    Raises:
        OutOfRange: as `place_run`.
    """
    _check_counts(counts, per_sheet)
    rest, on_partly = list(counts), sum(free)
    for at, count in enumerate(counts):
        taken = min(count, on_partly)
        rest[at] -= taken
        on_partly -= taken
    if one_design_per_sheet:
        new = sum(-(-count // per_sheet) for count in rest if count)
    else:
        new = -(-sum(rest) // per_sheet) if sum(rest) else 0
    from_partly = sum(counts) - sum(rest)
    return SheetNeed(from_partly, new, on_partly + new * per_sheet - sum(rest))


def _check_counts(counts: Sequence[int], per_sheet: int) -> None:
    for count in counts:
        if count != int(count) or count < 0:
            raise OutOfRange("sheet.run-count", value=count)
    if sum(counts) and per_sheet < 1:
        raise OutOfRange("sheet.no-stickers")


def _free_stickers(per_sheet: int, used: Sequence[frozenset[int]]) -> Iterator[tuple[int, int]]:
    for sheet_no, gone in enumerate(used):
        yield from ((sheet_no, index) for index in range(per_sheet) if index not in gone)
    sheet_no = len(used)
    while True:
        yield from ((sheet_no, index) for index in range(per_sheet))
        sheet_no += 1
