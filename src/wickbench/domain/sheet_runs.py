"""Print runs on sticker sheets: which label goes on which sticker, and how many sheets it takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickbench.domain.run_order import RunOrder


@dataclass(frozen=True, slots=True)
class Placement:
    """One label on one sticker.

    Attributes:
        entry: which entry of the print run, from 0.
        sheet_no: which sheet, from 0; the partly used ones come first.
        index: which sticker of the sheet, from 0.
        nth: which sticker of its entry, from 0.
    """

    entry: int
    sheet_no: int
    index: int
    nth: int = 0


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
    counts: Sequence[int],
    per_sheet: int,
    used: Sequence[frozenset[int]] = (),
    *,
    order: RunOrder | None = None,
    apart: int = 0,
) -> tuple[Placement, ...]:
    """Which label goes on which sticker: partly used sheets first.

    Args:
        counts: how many labels of each entry.
        per_sheet: stickers on a sheet.
        used: for each partly used sheet the stickers that are gone; fresh sheets follow.
        order: in which order entries follow each other; None: as they are listed.
        apart: stickers of a row, or of a sheet, that no two blocks of the order share; 0 for none.

    Raises:
        OutOfRange: ``sheet.run-count`` for a negative or broken count or an order of other
            counts, ``sheet.no-stickers`` when there are labels and a sheet has no sticker.
    """
    _check_counts(counts, per_sheet)
    entries = order.entries if order else [at for at, n in enumerate(counts) for _ in range(n)]
    blocks = order.blocks if order else [0] * len(entries)
    if order and [entries.count(at) for at in range(len(counts))] != list(counts):
        raise OutOfRange("sheet.run-count", value=len(entries))
    free = _free_stickers(per_sheet, used)
    done = [0] * len(counts)
    placed: list[Placement] = []
    last, before = (-1, -1), 0
    for entry, block in zip(entries, blocks, strict=True):
        spot = next(free)
        if apart and placed and block != before:
            while (spot[0], spot[1] // apart) == last:
                spot = next(free)
        placed.append(Placement(entry, *spot, done[entry]))
        done[entry] += 1
        last, before = (spot[0], spot[1] // apart if apart else 0), block
    return tuple(placed)


def need_of(
    placements: Sequence[Placement], per_sheet: int, used: Sequence[frozenset[int]] = ()
) -> SheetNeed:
    """What a placed run takes; ``left`` counts the sheets that it touches.

    Args:
        placements: from `place_run`.
        per_sheet: stickers on a sheet.
        used: for each partly used sheet the stickers that are gone.
    """
    touched = {one.sheet_no for one in placements}
    begun = [number for number in touched if number < len(used)]
    gone = sum(len({at for at in used[number] if at < per_sheet}) for number in begun)
    on_begun = sum(one.sheet_no < len(used) for one in placements)
    left = len(touched) * per_sheet - gone - len(placements)
    return SheetNeed(on_begun, len(touched) - len(begun), left)


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
