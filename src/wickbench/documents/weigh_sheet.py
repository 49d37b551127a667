"""The weigh sheet: one pot to half a page, figures to be read from a metre away, boxes to tick."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.documents.flow import GREY, Cell
from wickbench.documents.outlines import line, rectangle
from wickbench.documents.text import mm_per_unit, shape
from wickbench.documents.text_fit import fit_size

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.documents.flow import Flow

FIGURES_PT: Final = 14.0
_NAME_PT: Final = 11.0
_SMALL_PT: Final = 8.0
_HOW_PT: Final = 9.0
_CAUTION_PT: Final = 8.5
_BOX_H_MM: Final = 8.0
_NOTES_MM: Final = 13.0
_CUT_DASH_MM: Final = (2.0, 2.0)
# tick, material, amount, second unit, scale and when, box for what was really weighed
_SHARES: Final = (0.5, 2.8, 2.2, 1.5, 5.0, 2.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLine:
    """One thing to weigh, in words; ``weighed`` is what the scale showed, empty until it did."""

    name: str
    amount: str
    other: str
    scale: str
    when: str
    weighed: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighSheet:
    """One pot in words, with the words of the paper itself.

    Attributes:
        title: recipe and pot.
        lot: word and code of the lot.
        subtitle: day, pot, total.
        headings: over the six columns.
        lines: what to weigh.
        facts: load, when to pour, what is left: short sentences.
        fills: what it fills, each with a box to tick.
        filled: whether they are filled already, and ticked.
        cautions: what can hurt.
        notes: the word before the empty lines.
    """

    title: str
    lot: str
    subtitle: str
    headings: tuple[str, ...]
    lines: tuple[SheetLine, ...]
    facts: tuple[str, ...]
    fills: tuple[str, ...]
    cautions: tuple[str, ...]
    notes: str
    filled: bool = False


def draw_weigh_sheets(flow: Flow, sheets: Sequence[WeighSheet]) -> None:
    """Draw the pots, two to a page where both fit; a long recipe takes a page of its own."""
    half = flow.page_h_mm / 2
    for number, sheet in enumerate(sheets):
        needed = _height_mm(sheet)
        below = flow.y_mm > flow.margin_mm
        if below and (flow.y_mm > half or needed > half - flow.margin_mm):
            flow.new_page()
        elif below:
            _cut_line(flow, half)
            flow.to(half + flow.margin_mm / 2)
        _draw(flow, sheet, last=number == len(sheets) - 1)


def _height_mm(sheet: WeighSheet) -> float:
    """About how much height a pot takes; for choosing the page, not for placing."""
    rows = len(sheet.lines) * (_BOX_H_MM + 1.5)
    words = 4.0 * (len(sheet.facts) + len(sheet.cautions)) + 7.0 * len(sheet.fills)
    return 30.0 + rows + words


def _cut_line(flow: Flow, y_mm: float) -> None:
    path = line(0, y_mm, flow.page_w_mm, y_mm)
    flow.surface.path(path, stroke=GREY, width_mm=0.15, dash_mm=_CUT_DASH_MM)


def _draw(flow: Flow, sheet: WeighSheet, *, last: bool) -> None:
    flow.row(
        [
            Cell(sheet.title, share=3.0, size_pt=FIGURES_PT, bold=True),
            Cell(sheet.lot, share=1.6, size_pt=FIGURES_PT, bold=True, align="right"),
        ],
        padding_mm=0.5,
    )
    flow.text(sheet.subtitle, 9.5, colour=GREY)
    flow.space(1.0)
    flow.row(
        [
            Cell(words, share=share, size_pt=_SMALL_PT, colour=GREY, align=align)
            for words, share, align in zip(sheet.headings, _SHARES, _ALIGN, strict=True)
        ],
        padding_mm=0.5,
        rule=True,
    )
    for one in sheet.lines:
        _weigh_row(flow, one)
    flow.space(1.0)
    for fact in sheet.facts:
        flow.text(fact, 9.5)
    flow.space(0.5)
    for fill in sheet.fills:
        flow.tick(fill, _NAME_PT, ticked=sheet.filled)
    for caution in sheet.cautions:
        flow.text(caution, _CAUTION_PT)
    _notes(flow, sheet.notes, last=last)


_ALIGN: Final = ("left", "left", "right", "right", "left", "left")


def _weigh_row(flow: Flow, one: SheetLine) -> None:
    top = flow.y_mm
    how = "\n".join(part for part in (one.when, one.scale) if part)
    flow.row(
        [
            Cell(share=_SHARES[0], tick=True, ticked=bool(one.weighed), size_pt=FIGURES_PT),
            Cell(one.name, share=_SHARES[1], size_pt=_NAME_PT),
            Cell(one.amount, share=_SHARES[2], size_pt=FIGURES_PT, bold=True, align="right"),
            Cell(one.other, share=_SHARES[3], size_pt=9.5, colour=GREY, align="right"),
            Cell(how, share=_SHARES[4], size_pt=_HOW_PT),
            Cell("", share=_SHARES[5], size_pt=FIGURES_PT),
        ],
        padding_mm=1.2,
    )
    flow.to(top + _BOX_H_MM + 1.4)
    width = flow.width_mm * _SHARES[5] / sum(_SHARES)
    left = flow.left_mm + flow.width_mm - width
    box = rectangle(left, top + 1.0, width, _BOX_H_MM)
    flow.surface.path(box, stroke=GREY, width_mm=0.2)
    if one.weighed:
        _in_box(flow, one.weighed, left, top + 1.0, width)


def _in_box(flow: Flow, words: str, left_mm: float, top_mm: float, width_mm: float) -> None:
    """What was weighed, in the middle of its box and as large as lets it fit."""
    face = flow.faces.bold
    size = fit_size(face, words, width_mm - 2.0, FIGURES_PT, 1.0) or _SMALL_PT
    run = shape(face, words)
    x = left_mm + (width_mm - run.width_mm(size)) / 2
    rise = face.cap_height * mm_per_unit(face, size) / 2
    flow.surface.glyphs(run, size, x, top_mm + _BOX_H_MM / 2 + rise)


def _notes(flow: Flow, words: str, *, last: bool) -> None:
    """Empty lines down to the half of the page, two at least where there is room."""
    half = flow.page_h_mm / 2
    end = half - flow.margin_mm / 2 if flow.y_mm < half else flow.page_h_mm - flow.margin_mm
    flow.space(1.5)
    if flow.room_mm < _NOTES_MM:
        return
    flow.text(words, _SMALL_PT, colour=GREY)
    while flow.y_mm + 8.0 <= end:
        flow.writing_lines(1)
    if not last and flow.y_mm < half:
        flow.to(half - 1.0)
