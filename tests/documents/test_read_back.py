"""Text on printed sheets is selected, copied and read back unchanged: three readers of PDF.

PDFium is what browsers select text with; pypdf and pdfminer (in pdfplumber) read glyph by glyph.
"""

from __future__ import annotations

import io
import re
import unicodedata
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pdfplumber
import pypdf
import pypdfium2
import pytest

from documents.samples import MM, SAMPLE_FACES, sample_face
from wickbench.documents.label_layout import LaidOutLabel, lay_out_label
from wickbench.documents.lost_letters import missing
from wickbench.documents.pdf_file import pdf_bytes
from wickbench.documents.sheet_layout import (
    RunEntry,
    SheetPages,
    draw_sheets,
    label_content,
    lay_out_sheets,
)
from wickbench.documents.surface import RecordingSurface
from wickbench.domain.labels import LabelDesign, TextElement
from wickbench.domain.sheets import StickerSheet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.domain.sheets import Rect

PHRASES = (
    "Süßholz für Größe",
    "naïve café, été",
    "cafe\u0301 e\u0301te\u0301 o\u0308",  # decomposed
    "office affine fjord fi fl ffi",
    "Zażółć gęślą jaźń",
    "Tiếng Việt: nến thơm",
    "LINEN & ASH",
    "“Łódź” – (Kč 25) … ½ lb à 12 °C",
    "Don’t: 7.3 oz (207 g) / №5 & Co.",
)
NOT_BY_GLYPH = (
    "a\u0323\u0302 o\u0308\u0304 w\u0331",  # marks upon marks, and one that has no composed form
    "soft\u00adhyphen",  # not seen, yet there
    "no\u00a0break",  # the same glyph as a blank
    "VAST, P. Yo To, AWAY",  # kerned so far that spaced letters stand unevenly
)
"""What the glyphs alone do not tell: it rides along as ActualText (ISO 32000-1, 14.9.4).

PDFium copies it, but forgets where a form stands: a box drawn round the sticker misses it.
"""
STRAIGHT: dict[str, dict[str, Any]] = {
    "straight": {},
    "capitals": {"upper": True},
    "upright": {"turn_deg": 90.0, "size_pt": 6.0},
    "askew": {"turn_deg": -17.0},
    "little spaced": {"letter_spacing_em": 0.12, "size_pt": 6.0},
    "spaced": {"letter_spacing_em": 0.3, "size_pt": 6.0},
}
LOOKS = STRAIGHT | {"over": {"curve": "over"}, "under": {"curve": "under"}, "bent": {}}
# Invented measures, of no known product.
SHEET = StickerSheet(210, 297, 9, 12.5, 3, 5, 65, 53, 62, 50)
COPIES = 2


def _label(face: str, text: str, look: str, changes: dict[str, Any]) -> LaidOutLabel:
    design = LabelDesign(width_mm=62, height_mm=50, kind="tag")
    if look == "bent":
        design = replace(
            design, shape="wrap", width_mm=60, height_mm=40, wrap_bottom_mm=60, wrap_top_mm=75
        )
    box = {"x_mm": 5.0, "y_mm": 5.0, "w_mm": design.width_mm - 10, "h_mm": design.height_mm - 10}
    element = TextElement(text=text, **(box | {"size_pt": 8.0} | changes))
    whole = replace(design, elements=(element,))
    return lay_out_label(whole, {}, lambda _family, _style: (sample_face(face), True))


def _sheets(face: str, look: str, phrases: tuple[str, ...]) -> tuple[SheetPages, list[str], bytes]:
    """Sheets with every phrase that the typeface has the letters of, and what they say."""
    known = [text for text in phrases if not missing(sample_face(face), text)]
    labels = [_label(face, text, look, LOOKS[look]) for text in known]
    pages = lay_out_sheets(SHEET, [RunEntry(label_content(label), COPIES) for label in labels])
    data = pdf_bytes(lambda surface: draw_sheets(surface, pages), title="Read", language="en")
    return pages, [label.texts[0].text for label in labels], data


def _same(text: str) -> str:
    """Composed, as UAX 15 holds both spellings equal; breaks of lines are blanks, many are one."""
    lines = unicodedata.normalize("NFC", text).replace("\r\n", " ")
    return re.sub(" +", " ", lines).strip()


def _copied(data: bytes) -> str:
    """What a person gets who selects everything and copies it."""
    document = pypdfium2.PdfDocument(data)
    said = " ".join(page.get_textpage().get_text_range() for page in document)
    document.close()
    return _same(said)


def _selected(data: bytes, pages: SheetPages) -> Iterator[tuple[int, str]]:
    """What a person copies who draws a box round each sticker: number of the phrase, text."""
    document = pypdfium2.PdfDocument(data)
    for page, sheet_no in zip(document, pages.sheet_numbers, strict=True):
        text, high = page.get_textpage(), page.get_height()
        for one in pages.on_sheet(sheet_no):
            box = pages.sheet.sticker(one.index)
            top, bottom = high - box.y_mm / MM, high - box.bottom_mm / MM
            sides = (box.x_mm / MM, bottom, box.right_mm / MM, top)
            yield one.entry, text.get_text_bounded(*sides)
    document.close()


def _by_glyph(data: bytes, pages: SheetPages) -> Iterator[tuple[int, str]]:
    """What the glyphs on each sticker say one by one, in the order they were drawn."""
    with pdfplumber.open(io.BytesIO(data)) as document:
        for page, sheet_no in zip(document.pages, pages.sheet_numbers, strict=True):
            for one in pages.on_sheet(sheet_no):
                box = pages.sheet.sticker(one.index)
                yield one.entry, "".join(char["text"] for char in page.chars if _in(box, char))


def _in(box: Rect, char: dict[str, float]) -> bool:
    x, y = (char["x0"] + char["x1"]) / 2 * MM, (char["top"] + char["bottom"]) / 2 * MM
    return box.x_mm < x < box.right_mm and box.y_mm < y < box.bottom_mm


@pytest.mark.parametrize("face", SAMPLE_FACES)
@pytest.mark.parametrize("look", LOOKS)
def test_everything_on_the_sheets_is_copied_unchanged(face: str, look: str) -> None:
    pages, wanted, data = _sheets(face, look, PHRASES + NOT_BY_GLYPH)
    assert len(pages.sheet_numbers) > 1
    assert _copied(data) == _same(" ".join(wanted[one.entry] for one in pages.placements))


@pytest.mark.parametrize("face", SAMPLE_FACES)
@pytest.mark.parametrize("look", LOOKS)
def test_glyphs_tell_the_text_by_themselves(face: str, look: str) -> None:
    pages, wanted, data = _sheets(face, look, PHRASES)
    found = list(_by_glyph(data, pages))
    assert len(found) == COPIES * len(wanted) > 12
    for at, said in found:
        assert _same(said) == _same(wanted[at])
    read = " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages)
    printed = " ".join(wanted[one.entry] for one in pages.placements)
    # pypdf takes kerning between some pairs for a blank: only letters are compared.
    assert "".join(_same(read).split()) == "".join(_same(printed).split())


@pytest.mark.parametrize("face", SAMPLE_FACES)
@pytest.mark.parametrize("look", STRAIGHT)
def test_a_box_drawn_round_a_sticker_selects_its_text(face: str, look: str) -> None:
    pages, wanted, data = _sheets(face, look, PHRASES)
    found = list(_selected(data, pages))
    assert len(found) == COPIES * len(wanted)
    for at, said in found:
        assert _same(said) == _same(wanted[at])


@pytest.mark.parametrize("face", SAMPLE_FACES)
@pytest.mark.parametrize("look", ["straight", "spaced"])
def test_letters_are_selected_where_they_stand(face: str, look: str) -> None:
    pages, _, data = _sheets(face, look, PHRASES)
    record = RecordingSurface()
    draw_sheets(record, pages)
    document = pypdfium2.PdfDocument(data)
    text = document[0].get_textpage()
    count = 0
    for drawn in (one for one in record.texts if one.page == 1):
        k = drawn.size_pt / drawn.run.face.units_per_em
        for glyph in drawn.run.glyphs:
            if len(glyph.text) == 1 and glyph.text.isalpha():
                x = drawn.x_mm / MM + (glyph.x + drawn.run.face.advance(glyph.gid) / 2) * k
                at = text.get_index(x, (SHEET.page_h_mm - drawn.y_mm) / MM + 1.0, 0.5, 0.5)
                assert at is not None
                assert text.get_text_range(at, 1) == glyph.text
                count += 1
    document.close()
    assert count > 100


@pytest.mark.parametrize("first", ["soft\u00adhyphen", "no\u00a0break"])
def test_a_blank_stays_a_blank_whatever_shares_its_glyph(first: str) -> None:
    data = _sheets("serif", "straight", (first, "for Größe & to be"))[2]
    read = pypdf.PdfReader(io.BytesIO(data)).pages[0].extract_text()
    assert read.count("for Größe & to be") == COPIES
