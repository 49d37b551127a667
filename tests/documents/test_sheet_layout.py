"""Print runs on sheets, read back from the PDF; correction for the printer."""

from __future__ import annotations

import io
import time

import pdfplumber
import pypdf
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from documents.samples import MM, shelf
from wickbench.documents.affine import IDENTITY, Affine, shift, turn
from wickbench.documents.label_layout import lay_out_label
from wickbench.documents.outlines import rectangle
from wickbench.documents.pdf_file import pdf_bytes
from wickbench.documents.sheet_layout import (
    RunEntry,
    StickerContent,
    draw_sheets,
    label_content,
    lay_out_sheets,
)
from wickbench.documents.surface import RecordingSurface, Surface
from wickbench.domain.errors import OutOfRange
from wickbench.domain.labels import LabelDesign, TextElement
from wickbench.domain.sheets import StickerSheet

NEAR_MM = 0.05
# Invented measures, of no known product.
JARS = StickerSheet(210, 297, 9, 12.5, 3, 7, 65, 39.5, 62, 36, "rounded", corner_mm=3)
LIDS = StickerSheet(215.9, 279.4, 9.95, 14.2, 4, 6, 52, 42.6, 38, 38, "circle")


def _box_content(width: float, height: float, bleed: float = 0.0) -> StickerContent:
    def draw(surface: Surface) -> None:
        sides = (-bleed, -bleed, width + 2 * bleed, height + 2 * bleed)
        surface.path(rectangle(*sides), fill="#ff0000")

    return StickerContent(f"box-{width}", width, height, draw, bleed_mm=bleed)


def _text_label(sheet: StickerSheet, text: str) -> StickerContent:
    element = TextElement(
        x_mm=0, y_mm=0, w_mm=sheet.sticker_w_mm, h_mm=sheet.sticker_h_mm, text=text, size_pt=9
    )
    design = LabelDesign(
        width_mm=sheet.sticker_w_mm,
        height_mm=sheet.sticker_h_mm,
        shape=sheet.shape,
        elements=(element,),
        kind="tag",
    )
    return label_content(lay_out_label(design, {}, shelf().nearest))


def _pdf(sheet: StickerSheet, entries: list[RunEntry], **options: object) -> bytes:
    used = options.pop("used", ())
    pages = lay_out_sheets(sheet, entries, used)
    return pdf_bytes(lambda s: draw_sheets(s, pages, **options), title="Labels", language="en")


@pytest.mark.parametrize("sheet", [JARS, LIDS])
def test_labels_stand_on_their_stickers(sheet: StickerSheet) -> None:
    content = _box_content(sheet.sticker_w_mm, sheet.sticker_h_mm)
    used = (frozenset({0, 1, 2, 3}),)
    data = _pdf(sheet, [RunEntry(content, sheet.count)], used=used)
    with pdfplumber.open(io.BytesIO(data)) as document:
        pages = [sorted(page.rects, key=lambda r: (r["top"], r["x0"])) for page in document.pages]
    assert [len(page) for page in pages] == [sheet.count - 4, 4]
    for page, first in zip(pages, (4, 0), strict=True):
        for at, box in enumerate(page):
            wanted = sheet.sticker(first + at)
            assert box["x0"] * MM == pytest.approx(wanted.x_mm, abs=NEAR_MM)
            assert box["top"] * MM == pytest.approx(wanted.y_mm, abs=NEAR_MM)
            assert box["x1"] * MM == pytest.approx(wanted.right_mm, abs=NEAR_MM)
            assert box["bottom"] * MM == pytest.approx(wanted.bottom_mm, abs=NEAR_MM)


def test_a_label_made_across_is_turned_onto_an_upright_sticker() -> None:
    tall = StickerSheet(210, 297, 10, 10, 4, 3, 45, 80, 40, 70)
    data = _pdf(tall, [RunEntry(_box_content(70, 40), 1)])
    with pdfplumber.open(io.BytesIO(data)) as document:
        box = document.pages[0].rects[0]
    assert (box["x0"] * MM, box["top"] * MM) == pytest.approx((10, 10), abs=NEAR_MM)
    assert (box["x1"] * MM, box["bottom"] * MM) == pytest.approx((50, 80), abs=NEAR_MM)


@settings(max_examples=25)
@given(
    st.floats(0.98, 1.02),
    st.floats(0.98, 1.02),
    st.floats(-1, 1),
    st.floats(-3, 3),
    st.floats(-3, 3),
)
def test_the_correction_moves_every_label(
    wide: float, high: float, degrees: float, right: float, down: float
) -> None:
    correction = shift(right, down).after(turn(degrees)).after(Affine(wide, 0, 0, high))
    data = _pdf(LIDS, [RunEntry(_text_label(LIDS, "H"), 24)], correction=correction)
    plain = RecordingSurface()
    draw_sheets(plain, lay_out_sheets(LIDS, [RunEntry(_text_label(LIDS, "H"), 24)]))
    with pdfplumber.open(io.BytesIO(data)) as document:
        chars = document.pages[0].chars
    assert len(chars) == 24
    for char, text in zip(chars, plain.texts, strict=True):
        x, y = correction.apply(text.x_mm, text.y_mm)
        assert char["matrix"][4] * MM == pytest.approx(x, abs=NEAR_MM)
        assert 279.4 - char["matrix"][5] * MM == pytest.approx(y, abs=NEAR_MM)


def test_backgrounds_stop_at_half_the_gap() -> None:
    data = _pdf(JARS, [RunEntry(_box_content(62, 36, bleed=5), 1)])
    picture = pypdfium2.PdfDocument(data)[0].render(scale=20 * MM).to_pil().convert("RGB")
    row = [picture.getpixel((x, 30 * 20)) == (255, 0, 0) for x in range(picture.width)]
    left, right = row.index(True) / 20, (len(row) - row[::-1].index(True)) / 20
    assert left == pytest.approx(9 - 1.5, abs=NEAR_MM)
    assert right == pytest.approx(9 + 62 + 1.5, abs=NEAR_MM)


@pytest.mark.parametrize(("columns", "rows"), [(1, 1), (3, 7), (20, 25)])
def test_one_form_serves_a_whole_sheet(columns: int, rows: int) -> None:
    pitch_x, pitch_y = 194 / columns, 280 / rows
    sheet = StickerSheet(
        210, 297, 8, 8, columns, rows, pitch_x, pitch_y, pitch_x - 0.5, pitch_y - 0.5
    )
    entries = [RunEntry(_text_label(sheet, "Fig"), sheet.count)]
    reader = pypdf.PdfReader(io.BytesIO(_pdf(sheet, entries)))
    assert len(reader.pages[0]["/Resources"]["/XObject"]) == 1
    assert reader.pages[0].get_contents().get_data().count(b" Do") == sheet.count
    text = pypdfium2.PdfDocument(_pdf(sheet, entries))[0].get_textpage().get_text_range()
    assert text.count("Fig") == sheet.count


def test_twelve_thousand_labels_take_seconds_at_most() -> None:
    entries = [RunEntry(_text_label(JARS, f"Scent {at}"), 1200) for at in range(10)]
    start = time.perf_counter()
    data = _pdf(JARS, entries)
    assert time.perf_counter() - start < 10
    assert len(pypdf.PdfReader(io.BytesIO(data)).pages) == -(-12000 // 21)


def test_sizes_and_used_sheets_are_remarked_on() -> None:
    def keys(content: StickerContent, **options: object) -> set[str]:
        return {f.key for f in lay_out_sheets(JARS, [RunEntry(content, 2)], **options).findings}

    assert keys(_box_content(62, 36)) == {"sheet.actual-size"}
    assert "label.larger-than-sticker" in keys(_box_content(70, 36))
    assert "label.smaller-than-sticker" in keys(_box_content(50, 30))
    assert "sheet.partly-used" in keys(_box_content(62, 36), used=(frozenset({0}),))
    with pytest.raises(OutOfRange):
        _pdf(JARS, [RunEntry(_box_content(62, 36), 0)])


def test_a_proof_shows_the_edges_of_all_stickers() -> None:
    pages = lay_out_sheets(JARS, [RunEntry(_box_content(62, 36), 1)])
    record = RecordingSurface()
    draw_sheets(record, pages, proof=True, correction=IDENTITY)
    assert sum(path.stroke is not None for path in record.paths) == 21
