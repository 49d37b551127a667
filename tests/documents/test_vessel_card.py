"""The vessel card read back from its PDF by other libraries."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pdfplumber
import pytest

from documents.samples import MM, sample_face
from wickbench.app import vessels
from wickbench.app.settings import Settings
from wickbench.app.shelf import Shelf
from wickbench.app.texts import Texts
from wickbench.app.vessel_card import vessel_card
from wickbench.documents.flow import Flow, PaperFaces
from wickbench.documents.lost_letters import missing
from wickbench.documents.page import A4_MM, LETTER_MM
from wickbench.documents.pdf_file import pdf_bytes
from wickbench.documents.vessel_card import VesselCard, draw_vessel_card, paper_scale
from wickbench.domain.catalog import Vessel, WeighingRow

if TYPE_CHECKING:
    from wickbench.documents.surface import Surface

TEXTS, SEA = Texts("en"), Settings({})
ROWS = tuple(
    WeighingRow(id=n, vessel_no=n, empty_g=e, filled_g=f, water_c=22.0)
    for n, (e, f) in enumerate(((212.4, 465.8), (209.8, 465.0), (214.1, 466.9)), 1)
)
JAR = Vessel(
    id=1,
    name="Amber tumbler",
    vessel_kind="jar",
    glass="glass",
    nominal_ml=300.0,
    height_mm=85.0,
    fill_mm=66.0,
    diameters=((0.0, 66.0), (85.0, 74.0)),
    weighings=ROWS,
)


def card(made: Vessel = JAR) -> VesselCard:
    return vessel_card(vessels.view_vessel(made, Shelf(), SEA, TEXTS), TEXTS, SEA)


def paper(*cards: VesselCard, size: tuple[float, float] = A4_MM) -> bytes:
    def draw(surface: Surface) -> None:
        flow = Flow(surface, PaperFaces(sample_face("sans"), sample_face("serif")), *size)
        for each in cards:
            draw_vessel_card(flow, each)

    return pdf_bytes(draw, title="Vessel card", invariant=True)


def test_the_card_says_what_was_measured() -> None:
    with pdfplumber.open(io.BytesIO(paper(card()))) as pdf:
        (page,) = pdf.pages
        text = page.extract_text()
    # 253.4, 255.2, 252.8 g of water at 22 °C, Z = 1.0033 mL/g (ISO 8655-6): 254.6 mL.
    for words in ("Amber tumbler", "255 mL", "The box says 300 mL", "JCGM 100:2008", "465.8 g"):
        assert words in text


@pytest.mark.parametrize("size", [A4_MM, LETTER_MM], ids=["A4", "Letter"])
def test_two_cards_stand_on_a_page(size: tuple[float, float]) -> None:
    with pdfplumber.open(io.BytesIO(paper(card(), card(), card(), size=size))) as pdf:
        assert len(pdf.pages) == 2
        assert pdf.pages[0].extract_text().count("The box says 300 mL") == 2
        for page in pdf.pages:
            for char in page.chars:
                assert char["x0"] > 0
                assert char["x1"] < page.width
                assert char["bottom"] < page.height


def test_the_drawing_has_the_scale_that_it_states() -> None:
    with pdfplumber.open(io.BytesIO(paper(card()))) as pdf:
        (page,) = pdf.pages
        text = page.extract_text()
        curves = [*page.curves, *page.lines, *page.rects]
        heights = sorted({round((c["bottom"] - c["top"]) * MM, 2) for c in curves})
    scale = float(text.split("Scale 1 : ")[1].split()[0])
    # 85 mm inside and the 2.5 mm base that is drawn while nobody measured it.
    assert any(h == pytest.approx(87.5 / scale, abs=0.05) for h in heights)


def test_every_letter_is_in_the_typefaces_that_always_exist() -> None:
    made = card()
    assert made.drawing is not None
    words = [line for label in made.drawing.labels for line in label.lines]
    words += [made.title, made.subtitle, made.scale, *made.notes, *made.headings]
    words += [text for pair in (*made.facts, *made.weighings) for text in pair]
    for name in ("sans", "serif"):
        assert missing(sample_face(name), " ".join(words)) == ()


def test_a_vessel_that_nobody_measured_has_a_card_too() -> None:
    with pdfplumber.open(io.BytesIO(paper(card(Vessel(id=2, name=""))))) as pdf:
        assert "Vessel without a name" in pdf.pages[0].extract_text()


@pytest.mark.parametrize(
    ("wide", "high", "scale"), [(30, 40, 1.0), (75, 87, 1.5), (50, 120, 2.0), (4000, 10, 100.0)]
)
def test_the_scale_is_the_smallest_round_number_that_fits(
    wide: float, high: float, scale: float
) -> None:
    found = paper_scale(wide, high, 50.0, 60.0)
    assert found == pytest.approx(scale if scale < 60 else wide / 50.0)
