"""Two hundred random labels on paper: files that strict readers take, with all that is in them."""

from __future__ import annotations

import io
import warnings
from functools import partial
from typing import TYPE_CHECKING

import pypdf
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf.generic import DictionaryObject

from documents.random_labels import PICTURES, VALUES, designs
from documents.renderings import on_paper, on_screen, piece_round, strayed
from documents.samples import MM, shelf
from wickbench.documents.affine import shift
from wickbench.documents.label_layout import LaidOutLabel, draw_label, lay_out_label
from wickbench.documents.pdf_file import pdf_bytes
from wickbench.documents.sheet_layout import (
    RunEntry,
    SheetPages,
    draw_sheets,
    label_content,
    lay_out_sheets,
)
from wickbench.domain.sheets import StickerSheet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from PySide6.QtWidgets import QApplication

    from wickbench.documents.surface import Surface
    from wickbench.domain.labels import LabelDesign

LABELS = 10
REACH_PX = 4
TIPS_PX = 4
PAGES = ((210.0, 297.0), (215.9, 279.4), (105.0, 148.5))


def _laid(design: LabelDesign) -> LaidOutLabel:
    return lay_out_label(design, VALUES, shelf().nearest, PICTURES.get)


def _pages(some: list[LabelDesign], page: tuple[float, float]) -> SheetPages:
    sheet = StickerSheet(
        *page, 5, 5, 1, 2, page[0] - 10, page[1] / 2, page[0] - 10, page[1] / 2 - 10
    )
    return lay_out_sheets(sheet, [RunEntry(label_content(_laid(one)), 1) for one in some])


@settings(max_examples=20)
@given(st.lists(designs(), min_size=LABELS, max_size=LABELS), st.sampled_from(PAGES))
def test_random_labels_make_files_without_fault(
    some: list[LabelDesign], page: tuple[float, float]
) -> None:
    data = pdf_bytes(partial(draw_sheets, pages=_pages(some, page)), title="Größen", language="de")
    with warnings.catch_warnings():
        warnings.simplefilter("error")  # strict: whatever pypdf would put right is an error
        reader = pypdf.PdfReader(io.BytesIO(data), strict=True)
        assert len(reader.pages) == LABELS // 2
        for one in reader.pages:
            _check_page(one, page)
    root = reader.trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert root["/Lang"] == "de"
    document = pypdfium2.PdfDocument(data)
    assert len(document) == LABELS // 2
    for sheet in document:
        assert sheet.get_size() == pytest.approx((page[0] / MM, page[1] / MM), abs=1e-3)
        sheet.get_textpage().get_text_range()
    document.close()


def _check_page(one: pypdf.PageObject, page: tuple[float, float]) -> None:
    """Boxes of the sheet's size and none that crops; only embedded fonts; nothing encrypted."""
    for box in (one.mediabox, one.cropbox, one.trimbox):
        assert (float(box.left), float(box.bottom)) == (0.0, 0.0)
        sides = (float(box.right), float(box.top))
        assert sides == pytest.approx((page[0] / MM, page[1] / MM), abs=1e-3)
    assert not one.get("/Rotate")
    for font in _fonts(one["/Resources"].get_object()):
        child = font["/DescendantFonts"][0].get_object()
        descriptor = child["/FontDescriptor"].get_object()
        file = descriptor.get("/FontFile2") or descriptor.get("/FontFile3")
        assert len(file.get_object().get_data()) > 100
        assert font["/ToUnicode"].get_object().get_data()


def _fonts(resources: DictionaryObject) -> Iterator[DictionaryObject]:
    """Fonts of a page or form, and of the forms on it."""
    fonts = resources.get("/Font", DictionaryObject()).get_object()
    yield from (font.get_object() for font in fonts.values())
    forms = resources.get("/XObject", DictionaryObject()).get_object()
    for form in forms.values():
        inner = form.get_object().get("/Resources")
        if form.get_object()["/Subtype"] == "/Form" and inner is not None:
            yield from _fonts(inner.get_object())


@settings(max_examples=14)
@given(designs(most=8))
def test_screen_and_paper_show_random_labels_alike(qapp: QApplication, design: LabelDesign) -> None:
    del qapp
    label = _laid(design)
    bleed = max(label.bleed_mm, 0.5)
    wide, high = label.width_mm + 2 * bleed, label.height_mm + 2 * bleed

    def draw(surface: Surface) -> None:
        surface.begin_page(wide, high)
        surface.push_transform(shift(bleed, bleed))
        draw_label(label, surface)
        surface.pop()

    document = pypdfium2.PdfDocument(pdf_bytes(draw, title="Label"))
    piece = piece_round(0, 0, wide, high)
    # A tip thinner than a pixel may be seen by one and not by the other.
    assert strayed(on_screen(draw, piece), on_paper(document, piece), REACH_PX) <= TIPS_PX
    document.close()
