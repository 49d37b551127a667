"""Pages kept as plain values and drawn again: the same PDF, byte by byte.

ReportLab's own streams of the first drawing are what the second is held against.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from documents.samples import png
from wickbench.documents.affine import IDENTITY, Affine, turn
from wickbench.documents.drawn_again import KeptDrawing
from wickbench.documents.kept_drawing import KeepingSurface
from wickbench.documents.pdf_file import pdf_bytes
from wickbench.documents.text import shape
from wickbench.documents.typefaces import SANS, SERIF, TypefaceShelf

if TYPE_CHECKING:
    from wickbench.documents.surface import Surface
    from wickbench.documents.text import Typeface

SHELF = TypefaceShelf([])
SQUARE = (("m", 0.0, 0.0), ("l", 10.0, 0.0), ("c", 12.0, 3.0, 11.0, 8.0, 10.0, 10.0), ("z",))
ASKEW = Affine(1.003, 0.001, -0.001, 0.998, 0.7, -0.4)


def _form(surface: Surface) -> None:
    surface.push_clip(SQUARE)
    surface.path(SQUARE, fill="#a8540f", stroke="#000000", width_mm=0.3, dash_mm=(1.0, 0.5))
    surface.glyphs(shape(SHELF.find(SERIF), "Kerze fi Ä"), 9.0, 1.0, 6.0, colour="#2b2622")
    surface.pop()


def _pages(surface: Surface, correction: Affine = IDENTITY) -> None:
    for page in range(3):
        surface.begin_page(210.0, 297.0)
        surface.push_transform(correction)
        surface.form("label", 12.0, 12.0, _form, margin_mm=0.5)
        surface.place("label", 20.0 + page, 30.0, turn_deg=90.0)
        surface.push_span("round")
        run = shape(SHELF.find(SANS, "Bold"), f"No. {page}", 0.1)
        surface.glyphs(run, 12.0, 50.0, 60.0, turn_deg=12.5)
        surface.pop_span()
        surface.push_transform(turn(10.0, 40.0, 40.0))
        surface.image(png(8, 8), 30.0, 30.0, 12.0, 9.0, turn_deg=3.0)
        surface.pop()
        surface.path(SQUARE, fill="#000000", even_odd=True)
        surface.link("https://example.org", 10.0, 10.0, 20.0, 5.0)
        surface.pop()


def _again(kept: KeptDrawing, correction: Affine = IDENTITY) -> bytes:
    def draw(surface: Surface) -> None:
        for page in range(kept.count):
            kept.draw_page(surface, page, correction)

    return pdf_bytes(draw, title="Labels", invariant=True)


def _kept() -> tuple[dict[str, object], dict[str, bytes]]:
    surface = KeepingSurface()
    _pages(surface)
    return json.loads(json.dumps(surface.kept())), surface.pictures


@pytest.mark.parametrize("correction", [IDENTITY, ASKEW], ids=["as meant", "corrected"])
def test_kept_pages_give_the_same_pdf_to_the_byte(correction: Affine) -> None:
    first = pdf_bytes(lambda to: _pages(to, correction), title="Labels", invariant=True)
    kept, pictures = _kept()
    drawing = KeptDrawing(kept, SHELF.nearest, pictures.get)
    assert drawing.count == 3
    assert drawing.changed == ()
    assert _again(drawing, correction) == first


def test_a_typeface_whose_file_changed_is_told_and_its_texts_are_set_anew() -> None:
    kept, pictures = _kept()
    serif = SHELF.find(SERIF)

    def other(family: str, style: str) -> tuple[Typeface, bool]:
        # another file under the same name, as an update of the system would bring
        return SHELF.nearest(SANS if family == SERIF else family, style)

    drawing = KeptDrawing(kept, other, pictures.get)
    assert [one.family for one in drawing.changed] == [SERIF]
    assert drawing.changed[0].sha256 == serif.file_hash
    assert b"%PDF" in _again(drawing)[:10]


def test_a_picture_that_is_gone_leaves_the_rest() -> None:
    kept, _ = _kept()
    drawing = KeptDrawing(kept, SHELF.nearest, lambda _key: None)
    assert b"%PDF" in _again(drawing)[:10]
