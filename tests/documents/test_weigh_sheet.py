"""The weigh sheet as a person holds it: measured in the PDF."""

from __future__ import annotations

import io

import pdfplumber
import pytest

from wickbench.documents.flow import Flow, PaperFaces
from wickbench.documents.page import A4_MM, LETTER_MM
from wickbench.documents.pdf_file import pdf_bytes
from wickbench.documents.surface import Surface  # noqa: TC001 - a runtime hint of draw
from wickbench.documents.typefaces import REGULAR, SANS, TypefaceShelf
from wickbench.documents.weigh_sheet import SheetLine, WeighSheet, draw_weigh_sheets

MM = 72 / 25.4


def sheet(title: str, lines: int) -> WeighSheet:
    one = SheetLine(name="Wax", amount="2775 g", other="6 lb 1.9 oz", scale="Bench", when="heat")
    return WeighSheet(
        title=title,
        lot="Lot 26-332-A1",
        subtitle="Saturday",
        headings=("", "Material", "Weigh", "", "How", "Weighed"),
        lines=(one,) * lines,
        facts=("Load 8 % of wax",),
        fills=("14 × tumbler",),
        cautions=("Hot wax burns.",),
        notes="Notes",
    )


def pages_of(sheets: list[WeighSheet], size: tuple[float, float]) -> list[list[dict[str, object]]]:
    shelf = TypefaceShelf()
    faces = PaperFaces(shelf.nearest(SANS, REGULAR)[0], shelf.nearest(SANS, "Bold")[0])

    def draw(surface: Surface) -> None:
        draw_weigh_sheets(Flow(surface, faces, *size, margin_mm=12.0), sheets)

    with pdfplumber.open(io.BytesIO(pdf_bytes(draw, title="Weigh sheets"))) as pdf:
        assert {(round(p.width / MM, 1), round(p.height / MM, 1)) for p in pdf.pages} == {size}
        return [page.extract_words(extra_attrs=["size"]) for page in pdf.pages]


@pytest.mark.parametrize("size", [A4_MM, LETTER_MM])
def test_two_pots_share_a_page_one_to_each_half(size: tuple[float, float]) -> None:
    (words,) = pages_of([sheet("First", 4), sheet("Second", 4)], size)
    tops = {str(word["text"]): float(str(word["top"])) / MM for word in words}
    assert tops["First"] < 20
    assert size[1] / 2 < tops["Second"] < size[1] / 2 + 20


def test_figures_are_fourteen_points_or_more() -> None:
    # large figures at the bench: common practice, no source
    (words,) = pages_of([sheet("First", 4)], A4_MM)
    figures = [float(str(word["size"])) for word in words if word["text"] == "2775"]
    assert len(figures) == 4
    assert min(figures) >= 14


def test_a_long_recipe_takes_a_page_of_its_own_and_loses_nothing() -> None:
    pages = pages_of([sheet("First", 3), sheet("Long", 14), sheet("Third", 3)], A4_MM)
    assert len(pages) == 3
    assert sum(word["text"] == "2775" for word in pages[1]) == 14


def test_nothing_leaves_the_page() -> None:
    for words in pages_of([sheet("First", 6), sheet("Second", 6)], LETTER_MM):
        for word in words:
            assert float(str(word["x0"])) / MM >= 10
            assert float(str(word["x1"])) / MM <= LETTER_MM[0] - 10
            assert float(str(word["bottom"])) / MM <= LETTER_MM[1] - 8
