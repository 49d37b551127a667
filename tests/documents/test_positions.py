"""Where letters and outlines land on paper, read back from the PDF: within 0.05 mm.

Wanted places are worked out here from the sheet's measures: the middle of a label lies in the
middle of its sticker, a label made across is turned by a quarter clockwise, and the printer's
correction comes last.
"""

from __future__ import annotations

import io
import math
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
import pdfplumber
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import cKDTree

from documents.samples import MM, shelf
from wickbench.documents.affine import IDENTITY, Affine
from wickbench.documents.label_draws import PathDraw, TextDraw
from wickbench.documents.label_layout import LaidOutLabel, lay_out_label
from wickbench.documents.pdf_file import pdf_bytes
from wickbench.documents.sheet_layout import RunEntry, draw_sheets, label_content, lay_out_sheets
from wickbench.domain.labels import FrameElement, LabelDesign, LineElement, TextElement
from wickbench.domain.sheets import StickerSheet

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

NEAR_MM = 0.05
# ISO 216; ANSI/ASME Y14.1; and a roll's page of no norm.
PAGES = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4), "own": (102.0, 149.0)}
MOST = 500


@dataclass(frozen=True)
class Case:
    """A page full of equal labels and how the printer is corrected."""

    page: tuple[float, float]
    columns: int
    rows: int
    margin: float = 5.0
    gap: float = 0.6
    turned: bool = False
    correction: Affine = IDENTITY

    @cached_property
    def sheet(self) -> StickerSheet:
        """Stickers fill the page between margins."""
        across = (self.page[0] - 2 * self.margin + self.gap) / self.columns
        down = (self.page[1] - 2 * self.margin + self.gap) / self.rows
        sides = (across, down, across - self.gap, down - self.gap)
        grid = (self.columns, self.rows)
        return StickerSheet(*self.page, self.margin, self.margin, *grid, *sides)

    @cached_property
    def label(self) -> LaidOutLabel:
        """Letters, a frame, a slanted line and an oval; sized to the sticker."""
        wide, high = self.sheet.sticker_w_mm, self.sheet.sticker_h_mm
        if self.turned:
            wide, high = high, wide
        whole = {"x_mm": 0.0, "y_mm": 0.0, "w_mm": wide, "h_mm": high}
        part = {"x_mm": wide * 0.2, "y_mm": high * 0.6, "w_mm": wide * 0.5, "h_mm": high * 0.3}
        elements = (
            FrameElement(**whole, inset_mm=0.4, line_mm=0.1),
            FrameElement(**part, figure="oval", line_mm=0.1),
            LineElement(**part, line_mm=0.1, turn_deg=13.0),
            TextElement(
                **whole, text="AVfig", size_pt=9, min_size_pt=1, align="left", vertical="top"
            ),
            TextElement(**part, text="oy", size_pt=5, min_size_pt=1, turn_deg=30.0),
        )
        design = LabelDesign(
            width_mm=wide, height_mm=high, safe_mm=0.0, elements=elements, kind="tag"
        )
        return lay_out_label(design, {}, shelf().nearest)

    @property
    def is_turned(self) -> bool:
        """Labels that fit upright, to half a millimetre, are not turned."""
        sheet = self.sheet
        return self.turned and abs(sheet.sticker_w_mm - sheet.sticker_h_mm) > 0.5

    def on_page(self, index: int, x: float, y: float) -> tuple[float, float]:
        """Where a point of the label on a sticker lies on the printed page, mm."""
        sheet, label = self.sheet, self.label.design
        row, column = divmod(index, self.columns)
        middle_x = self.margin + column * sheet.pitch_x_mm + sheet.sticker_w_mm / 2
        middle_y = self.margin + row * sheet.pitch_y_mm + sheet.sticker_h_mm / 2
        right, down = x - label.width_mm / 2, y - label.height_mm / 2
        if self.is_turned:
            right, down = -down, right
        x, y = middle_x + right, middle_y + down
        fix = self.correction
        return fix.a * x + fix.c * y + fix.e, fix.b * x + fix.d * y + fix.f


def _pdf(case: Case) -> bytes:
    entry = RunEntry(label_content(case.label), case.columns * case.rows)
    pages = lay_out_sheets(case.sheet, [entry])
    return pdf_bytes(
        lambda surface: draw_sheets(surface, pages, correction=case.correction), title="Places"
    )


def _origins(label: LaidOutLabel) -> Iterator[tuple[float, float]]:
    """Where glyphs begin on the label, in the order of drawing."""
    for draw in label.draws:
        if isinstance(draw, TextDraw):
            k = draw.size_pt * MM / draw.run.face.units_per_em
            turn = math.radians(draw.turn_deg)
            for glyph in draw.run.glyphs:
                along = glyph.x * k
                yield draw.x_mm + along * math.cos(turn), draw.y_mm + along * math.sin(turn)


def _corners(label: LaidOutLabel) -> Iterator[list[tuple[float, float]]]:
    """Ends of lines and curves of each outline on the label."""
    for draw in label.draws:
        if isinstance(draw, PathDraw):
            ends = [[float(one) for one in command[-2:]] for command in draw.path if command[1:]]
            yield [(x, y) for x, y in ends]


def _check(case: Case) -> None:
    label, stickers = case.label, range(case.columns * case.rows)
    origins, corners = list(_origins(label)), list(_corners(label))
    with pdfplumber.open(io.BytesIO(_pdf(case))) as document:
        (page,) = document.pages
        chars, shapes = page.chars, [*page.rects, *page.curves, *page.lines]
    began = [(char["matrix"][4] * MM, case.page[1] - char["matrix"][5] * MM) for char in chars]
    _near(began, [case.on_page(index, *place) for index in stickers for place in origins])
    wanted = [
        _box([case.on_page(index, *point) for point in points])
        for index in stickers
        for points in corners
    ]
    _each_once([_box([(x * MM, y * MM) for x, y in one["pts"]]) for one in shapes], wanted)


def _near(found: Sequence[tuple[float, ...]], wanted: Sequence[tuple[float, ...]]) -> None:
    """One after the other, nothing more and nothing less."""
    assert len(found) == len(wanted)
    assert np.abs(np.array(found) - np.array(wanted)).max() < NEAR_MM


def _each_once(found: Sequence[tuple[float, ...]], wanted: Sequence[tuple[float, ...]]) -> None:
    """In any order, each near to one of its own."""
    assert len(found) == len(wanted)
    far, which = cKDTree(np.array(wanted)).query(np.array(found), p=np.inf)
    assert far.max() < NEAR_MM
    assert len(set(which)) == len(wanted)


def _box(points: Sequence[tuple[float, float]]) -> tuple[float, ...]:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize(
    ("columns", "rows", "turned"),
    [(1, 1, False), (1, 1, True), (3, 7, False), (3, 7, True), (20, 25, True)],
)
def test_places_on_sheets_of_one_to_five_hundred(
    page: str, columns: int, rows: int, *, turned: bool
) -> None:
    _check(Case(PAGES[page], columns, rows, turned=turned))


@settings(max_examples=25)
@given(
    page=st.sampled_from(sorted(PAGES)),
    columns=st.integers(1, 8),
    rows=st.integers(1, 9),
    margin=st.floats(0, 12),
    gap=st.floats(0, 2),
    turned=st.booleans(),
    fix=st.tuples(*[st.floats(-0.02, 0.02)] * 4, *[st.floats(-4, 4)] * 2),
)
def test_places_with_a_corrected_printer(
    *,
    page: str,
    columns: int,
    rows: int,
    margin: float,
    gap: float,
    turned: bool,
    fix: tuple[float, ...],
) -> None:
    correction = Affine(1 + fix[0], fix[1], fix[2], 1 + fix[3], fix[4], fix[5])
    _check(Case(PAGES[page], columns, rows, margin, gap, turned, correction))


@pytest.mark.parametrize("page", PAGES)
def test_the_ink_of_letters_fills_the_boxes_that_were_measured(page: str) -> None:
    case = Case(PAGES[page], 4, 5)
    label = case.label
    document = pypdfium2.PdfDocument(_pdf(case))
    text = document[0].get_textpage()
    draw = next(one for one in label.draws if isinstance(one, TextDraw))
    k = draw.size_pt * MM / draw.run.face.units_per_em
    said = text.get_text_range()
    at = -1
    for index in range(case.columns * case.rows):
        at = said.index("AV", at + 1)
        for nth, glyph in enumerate(draw.run.glyphs[:2]):
            box = [edge * MM for edge in text.get_charbox(at + nth)]
            ink = draw.run.face.ink(glyph.gid)
            assert ink is not None
            x, y = draw.x_mm + glyph.x * k, draw.y_mm
            left, low = case.on_page(index, x + ink[0] * k, y - ink[1] * k)
            right, high = case.on_page(index, x + ink[2] * k, y - ink[3] * k)
            wanted = (left, case.page[1] - low, right, case.page[1] - high)
            assert box == pytest.approx(wanted, abs=NEAR_MM)
    document.close()
