"""Labels on sticker sheets: which goes where, turned if need be, corrected for the printer."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import IDENTITY, Affine
from wickbench.documents.label_layout import LaidOutLabel, draw_label
from wickbench.documents.numbered import NumberedLabel, Spot
from wickbench.documents.outlines import figure
from wickbench.documents.surface import Surface
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.sheet_runs import Placement, place_run
from wickbench.domain.sheets import StickerSheet, check_sheet

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.domain.run_order import RunOrder

SAME_SIZE_MM: Final = 0.5

_PROOF_INK: Final = "#9a9a9a"
_PROOF_LINE_MM: Final = 0.15


@dataclass(frozen=True, slots=True)
class StickerContent:
    """Anything laid out for one sticker: a label, a caution, a tag.

    Attributes:
        key: equal for equal contents; they share one form.
        width_mm: width of the sticker it was made for.
        height_mm: height of it.
        draw: draws it with its top left corner at the origin.
        findings: about itself.
        bleed_mm: how far it runs over the edge.
    """

    key: str
    width_mm: float
    height_mm: float
    draw: Callable[[Surface], None]
    findings: tuple[Finding, ...] = ()
    bleed_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class RunEntry:
    """So many of one content.

    Attributes:
        content: what is printed; of numbered labels the one with the widest number.
        count: how often.
        numbered: how the stickers differ; ``None`` when they are all alike.
    """

    content: StickerContent
    count: int
    numbered: NumberedLabel | None = None


@dataclass(frozen=True, slots=True)
class SheetPages:
    """A print run placed on its sheets.

    Attributes:
        sheet: the stationery.
        entries: what is printed.
        placements: one for each label, in the order of printing.
        sheet_numbers: sheets that get ink, from 0, partly used ones first.
        findings: worst first; those of a label carry ``("entry", number)`` in ``about``.
    """

    sheet: StickerSheet
    entries: tuple[RunEntry, ...]
    placements: tuple[Placement, ...]
    sheet_numbers: tuple[int, ...]
    findings: tuple[Finding, ...]

    def on_sheet(self, sheet_no: int) -> tuple[Placement, ...]:
        """What goes on one sheet."""
        first = bisect_left(self.placements, sheet_no, key=_sheet_of)
        return self.placements[first : bisect_right(self.placements, sheet_no, key=_sheet_of)]


def _sheet_of(placement: Placement) -> int:
    return placement.sheet_no


def label_content(label: LaidOutLabel) -> StickerContent:
    """A laid-out label as something to be placed on stickers."""
    return StickerContent(
        f"label-{label.key}",
        label.width_mm,
        label.height_mm,
        partial(draw_label, label),
        label.findings,
        label.bleed_mm,
    )


def lay_out_sheets(
    sheet: StickerSheet,
    entries: Sequence[RunEntry],
    used: Sequence[frozenset[int]] = (),
    *,
    order: RunOrder | None = None,
    apart: int = 0,
) -> SheetPages:
    """Place a print run: partly used sheets first, used stickers skipped.

    Args:
        sheet: the stationery.
        entries: labels and how many of each.
        used: for each partly used sheet the stickers that are gone.
        order: in which order they follow each other; None: as they are listed.
        apart: stickers of a row, or of a sheet, that no two blocks of the order share.

    Raises:
        OutOfRange: as `wickbench.domain.sheet_runs.place_run`.
    """
    counts = [entry.count for entry in entries]
    placements = place_run(counts, sheet.count, used, order=order, apart=apart)
    numbers = tuple(dict.fromkeys(one.sheet_no for one in placements))
    found = [*check_sheet(sheet), *_entry_findings(sheet, entries)]
    if any(used[number] for number in numbers if number < len(used)):
        found.append(Finding(Rank.WATCH, "sheet.partly-used"))
    if placements:
        found.append(Finding(Rank.NOTE, "sheet.actual-size"))
    return SheetPages(sheet, tuple(entries), placements, numbers, sort_findings(found))


def draw_sheets(
    surface: Surface,
    pages: SheetPages,
    *,
    correction: Affine = IDENTITY,
    proof: bool = False,
) -> None:
    """Draw every sheet as a page.

    Args:
        surface: where to.
        pages: the placed run.
        correction: of the printer and tray, from `calibration`.
        proof: draw the edges of the stickers too, for plain paper.

    Raises:
        OutOfRange: ``sheet.no-stickers`` when there is nothing to print.
    """
    if not pages.sheet_numbers:
        raise OutOfRange("sheet.no-stickers")
    for sheet_no in pages.sheet_numbers:
        draw_sheet(surface, pages, sheet_no, correction=correction, proof=proof)


def draw_sheet(
    surface: Surface,
    pages: SheetPages,
    sheet_no: int,
    *,
    correction: Affine = IDENTITY,
    proof: bool = False,
) -> None:
    """Draw one sheet as a page; arguments as `draw_sheets`."""
    sheet = pages.sheet
    surface.begin_page(sheet.page_w_mm, sheet.page_h_mm)
    surface.push_transform(correction)
    if proof:
        draw_outlines(surface, sheet)
    for one in pages.on_sheet(sheet_no):
        entry = pages.entries[one.entry]
        if entry.numbered is None:
            place_content(surface, sheet, entry.content, one.index)
        else:
            entry.numbered.paint(surface, one.nth, _spot(sheet, entry.content, one.index))
    surface.pop()


def draw_outlines(surface: Surface, sheet: StickerSheet) -> None:
    """Edges of all stickers as thin lines."""
    for index in range(sheet.count):
        box = sheet.sticker(index)
        sides = (box.x_mm, box.y_mm, box.w_mm, box.h_mm)
        path = figure(sheet.shape, *sides, corner_mm=sheet.corner_mm)
        surface.path(path, stroke=_PROOF_INK, width_mm=_PROOF_LINE_MM)


def place_content(
    surface: Surface, sheet: StickerSheet, content: StickerContent, index: int
) -> None:
    """Draw a content in the middle of a sticker, as a form that equal ones share.

    What runs over the edge is cut at half the gap to the next sticker.
    """
    spot = _spot(sheet, content, index)
    key = f"{content.key}-{spot.bleed_mm:.3f}"
    size = (content.width_mm, content.height_mm)
    surface.form(key, *size, content.draw, margin_mm=spot.bleed_mm)
    surface.place(key, spot.x_mm, spot.y_mm, turn_deg=spot.turn_deg)


def _spot(sheet: StickerSheet, content: StickerContent, index: int) -> Spot:
    """Where a content's top left corner goes, in the middle of a sticker.

    What is a little larger than the sticker is cut like its bleed, before the next sticker.
    """
    box = sheet.sticker(index)
    turned = is_turned(sheet, content)
    wide, high = content.width_mm, content.height_mm
    if turned:
        wide, high = high, wide
    right, down = (box.w_mm - wide) / 2, (box.h_mm - high) / 2
    bleed = min(content.bleed_mm, sheet.bleed_limit_mm + min(right, down, 0.0))
    x = box.right_mm - right if turned else box.x_mm + right
    return Spot(x, box.y_mm + down, 90.0 if turned else 0.0, bleed)


def is_turned(sheet: StickerSheet, content: StickerContent) -> bool:
    """Whether the content fits the sticker only when turned by a quarter."""
    width, height = content.width_mm, content.height_mm
    return _too_large(width, height, sheet) and not _too_large(height, width, sheet)


def _too_large(width_mm: float, height_mm: float, sheet: StickerSheet) -> bool:
    over_w, over_h = width_mm - sheet.sticker_w_mm, height_mm - sheet.sticker_h_mm
    return over_w > SAME_SIZE_MM or over_h > SAME_SIZE_MM


def _entry_findings(sheet: StickerSheet, entries: Sequence[RunEntry]) -> list[Finding]:
    found: list[Finding] = []
    for at, entry in enumerate(entries):
        about = ("entry", at)
        own = _size_findings(sheet, entry.content)
        found += [
            Finding(one.rank, one.key, one.data, (*about, *one.about))
            for one in (*entry.content.findings, *own)
        ]
    return found


def _size_findings(sheet: StickerSheet, content: StickerContent) -> list[Finding]:
    size = [content.width_mm, content.height_mm]
    if is_turned(sheet, content):
        size.reverse()
    over = (size[0] - sheet.sticker_w_mm, size[1] - sheet.sticker_h_mm)
    data = {
        "width_mm": size[0],
        "height_mm": size[1],
        "sticker_width_mm": sheet.sticker_w_mm,
        "sticker_height_mm": sheet.sticker_h_mm,
    }
    if max(over) > SAME_SIZE_MM:
        return [Finding(Rank.STOPS, "label.larger-than-sticker", data)]
    if min(over) < -SAME_SIZE_MM:
        return [Finding(Rank.NOTE, "label.smaller-than-sticker", data)]
    return []
