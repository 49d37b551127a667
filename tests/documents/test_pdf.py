"""The PDF read back by other libraries: places, sizes, fonts, text, pictures, print settings."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pdfplumber
import pypdf
import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st

from documents.samples import MM, SAMPLE_FACES, png, sample_face
from wickbench.documents.affine import IDENTITY, Affine, shift, turn
from wickbench.documents.outlines import oval, rectangle
from wickbench.documents.pdf_file import pdf_bytes
from wickbench.documents.surface import RecordingSurface, Surface, map_path
from wickbench.documents.text import shape
from wickbench.documents.text_fit import wrap
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from collections.abc import Callable

NEAR_MM = 0.05
SENTENCES = (
    "Süßholz & fig: office AVA, fjord, naïve",
    "1 ½ lb à 12 °C – “Łódź” (Kč 25)",
    "cafe\u0301 e\u0301te\u0301",
    "no\u00a0break soft-hyphen",
)


def _text_of(data: bytes) -> str:
    return pypdfium2.PdfDocument(data)[0].get_textpage().get_text_range()


def _one_page(draw: Callable[[Surface], None], **options: bool) -> bytes:
    def page(surface: Surface) -> None:
        surface.begin_page(210, 297)
        draw(surface)

    return pdf_bytes(page, title="Test", language="en-GB", **options)


@pytest.mark.parametrize("name", SAMPLE_FACES)
@pytest.mark.parametrize("sentence", SENTENCES)
def test_text_comes_back_unchanged(name: str, sentence: str) -> None:
    run = shape(sample_face(name), sentence)
    said = _text_of(_one_page(lambda surface: surface.glyphs(run, 11, 20, 40)))
    # PDFium composes accents; composed and decomposed spellings are canonically equal (UAX 15).
    import unicodedata

    assert unicodedata.normalize("NFC", said) == unicodedata.normalize("NFC", sentence)


@pytest.mark.parametrize("name", SAMPLE_FACES)
def test_a_ligature_says_its_letters(name: str) -> None:
    run = shape(sample_face(name), "fi office")
    said = pypdf.PdfReader(io.BytesIO(_one_page(lambda s: s.glyphs(run, 12, 20, 40))))
    assert said.pages[0].extract_text() == "fi office"


def test_spaced_letters_stay_one_word() -> None:
    run = shape(sample_face("sans-cff"), "LINEN", 0.4)
    assert _text_of(_one_page(lambda surface: surface.glyphs(run, 12, 20, 40))) == "LINEN"


@pytest.mark.parametrize("name", SAMPLE_FACES)
def test_fonts_are_embedded_subset_and_mapped(name: str) -> None:
    face = sample_face(name)
    data = _one_page(lambda surface: surface.glyphs(shape(face, "Fig & cedar"), 12, 20, 40))
    fonts = pypdf.PdfReader(io.BytesIO(data)).pages[0]["/Resources"]["/Font"]
    assert len(fonts) == 1
    font = next(iter(fonts.values())).get_object()
    child = font["/DescendantFonts"][0].get_object()
    descriptor = child["/FontDescriptor"].get_object()
    key = "/FontFile3" if face.is_cff else "/FontFile2"
    assert font["/Subtype"] == "/Type0"
    assert "/ToUnicode" in font
    assert font["/BaseFont"][7:8] == "+"
    assert 0 < len(descriptor[key].get_object().get_data()) < face.path.stat().st_size / 3


@given(
    x=st.floats(5, 150),
    y=st.floats(20, 280),
    size=st.floats(4, 40),
    name=st.sampled_from(SAMPLE_FACES),
)
def test_text_stands_where_it_was_put(x: float, y: float, size: float, name: str) -> None:
    run = shape(sample_face(name), "AVAfig")
    data = _one_page(lambda surface: surface.glyphs(run, size, x, y))
    k = size / run.face.units_per_em * MM
    with pdfplumber.open(io.BytesIO(data)) as document:
        chars = document.pages[0].chars
    assert len(chars) == len(run.glyphs)
    for char, glyph in zip(chars, run.glyphs, strict=True):
        assert char["matrix"][4] * MM == pytest.approx(x + glyph.x * k, abs=NEAR_MM)
        assert 297 - char["matrix"][5] * MM == pytest.approx(y, abs=NEAR_MM)


@pytest.mark.parametrize("degrees", [0, 30, 90, 180, 270, -45])
def test_turned_forms_and_maps_land_where_geometry_says(degrees: float) -> None:
    box = rectangle(1, 2, 7, 4)

    def draw(surface: Surface) -> None:
        surface.form("box", 10, 8, lambda form: form.path(box, fill="#ff0000"))
        surface.place("box", 60, 90, turn_deg=degrees)
        surface.push_transform(turn(degrees, 100, 200))
        surface.path(rectangle(100, 200, 30, 5), fill="#00ff00")
        surface.pop()

    wanted = (
        map_path(shift(60, 90).after(turn(degrees)), box),
        map_path(turn(degrees, 100, 200), rectangle(100, 200, 30, 5)),
    )
    with pdfplumber.open(io.BytesIO(_one_page(draw))) as document:
        page = document.pages[0]
        drawn = sorted([*page.rects, *page.curves], key=lambda one: one["top"])
    assert len(drawn) == 2
    for one, path in zip(drawn, wanted, strict=True):
        xs = [float(command[1]) for command in path[:-1]]
        ys = [float(command[2]) for command in path[:-1]]
        assert one["x0"] * MM == pytest.approx(min(xs), abs=NEAR_MM)
        assert one["x1"] * MM == pytest.approx(max(xs), abs=NEAR_MM)
        assert one["top"] * MM == pytest.approx(min(ys), abs=NEAR_MM)
        assert one["bottom"] * MM == pytest.approx(max(ys), abs=NEAR_MM)


@pytest.mark.parametrize("degrees", [0, 90, 200])
def test_turned_pictures_and_recorded_ones_agree(degrees: float) -> None:
    data = png(30, 20)

    def draw(surface: Surface) -> None:
        surface.image(data, 50, 80, 30, 20, turn_deg=degrees)

    record = RecordingSurface()
    draw(record)
    corners = [record.images[0].unit_to_page.apply(x, y) for x in (0, 1) for y in (0, 1)]
    with pdfplumber.open(io.BytesIO(_one_page(draw))) as document:
        image = document.pages[0].images[0]
    assert image["x0"] * MM == pytest.approx(min(x for x, _ in corners), abs=NEAR_MM)
    assert image["top"] * MM == pytest.approx(min(y for _, y in corners), abs=NEAR_MM)
    assert image["x1"] * MM == pytest.approx(max(x for x, _ in corners), abs=NEAR_MM)


def test_pages_have_their_exact_size_and_are_not_scaled() -> None:
    # ISO 216: A4 is 210 × 297 mm; Letter is 8 1/2 × 11 in = 612 × 792 pt.
    def draw(surface: Surface) -> None:
        for size in ((210, 297), (215.9, 279.4), (100, 50)):
            surface.begin_page(*size)

    reader = pypdf.PdfReader(io.BytesIO(pdf_bytes(draw, title="Größen", language="de-DE")))
    sizes = [(float(page.mediabox.width), float(page.mediabox.height)) for page in reader.pages]
    assert sizes[0] == pytest.approx((210 / MM, 297 / MM), abs=1e-3)
    assert sizes[1] == (612, 792)
    assert sizes[2] == pytest.approx((100 / MM, 50 / MM), abs=1e-3)
    root = reader.trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert root["/Lang"] == "de-DE"
    assert reader.metadata is not None
    assert reader.metadata.title == "Größen"
    assert reader.pdf_header == "%PDF-1.7"


def test_equal_drawings_give_equal_bytes() -> None:
    run = shape(sample_face("serif"), "Ash & linen")

    def draw(surface: Surface) -> None:
        surface.glyphs(run, 12, 20, 30)
        surface.image(png(9, 9), 20, 40, 10, 10)

    assert _one_page(draw, invariant=True) == _one_page(draw, invariant=True)


def _forty(surface: Surface, count: int) -> None:
    lines = wrap(sample_face("sans"), "Burn within sight. " * 20, 60, 6)

    def label(form: Surface) -> None:
        for at, run in enumerate(lines):
            form.glyphs(run, 6, 0, 3 + at * 2.5)

    surface.form("label", 60, 30, label)
    for at in range(count):
        surface.place("label", 10 + at % 3 * 65, 10 + at // 3 * 4)


def test_identical_labels_share_one_form() -> None:
    one, sixty = (
        _one_page(lambda surface, n=n: _forty(surface, n), compress=False) for n in (1, 60)
    )
    assert len(sixty) - len(one) < 60 * 120
    assert len(pypdf.PdfReader(io.BytesIO(sixty)).pages[0]["/Resources"]["/XObject"]) == 1
    assert _text_of(sixty).count("Burn") == 60 * 20


def test_a_picture_used_twice_is_embedded_once() -> None:
    data = png(200, 200, noise=True)

    def draw(surface: Surface, times: int) -> None:
        for at in range(times):
            surface.image(data, 10 + 20 * at, 10, 15, 15)

    once, often = (len(_one_page(lambda s, n=n: draw(s, n))) for n in (1, 8))
    assert often - once < 1000
    assert once > 40_000


def test_a_see_through_picture_lets_the_ground_show() -> None:
    def draw(surface: Surface) -> None:
        surface.path(rectangle(10, 10, 40, 40), fill="#0000ff")
        surface.image(png(10, 10, colour=(255, 0, 0, 128)), 20, 20, 20, 20)

    picture = pypdfium2.PdfDocument(_one_page(draw))[0].render(scale=MM).to_pil()
    red, green, blue = picture.getpixel((30, 30))[:3]
    assert abs(red - 128) < 3
    assert green < 3
    assert abs(blue - 127) < 3


def test_clipping_and_dashes_reach_the_paper() -> None:
    def draw(surface: Surface) -> None:
        surface.push_clip(oval(20, 20, 40, 40))
        surface.path(rectangle(0, 0, 100, 100), fill="#000000")
        surface.pop()
        surface.path(rectangle(120, 20, 40, 40), stroke="#000000", width_mm=2, dash_mm=(4, 4))

    picture = pypdfium2.PdfDocument(_one_page(draw))[0].render(scale=4 * MM).to_pil().convert("L")
    assert picture.getpixel((40 * 4, 40 * 4)) == 0
    assert picture.getpixel((22 * 4, 22 * 4)) == 255
    top = [picture.getpixel((x * 2, 20 * 4)) for x in range(120 * 2, 160 * 2)]
    assert 0.4 < sum(value < 128 for value in top) / len(top) < 0.6


@pytest.mark.parametrize("data", [b"", b"no picture", png(40, 40, noise=True)[:2000]])
def test_a_damaged_picture_is_a_sentence(data: bytes) -> None:
    with pytest.raises(DomainError) as caught:
        _one_page(lambda surface: surface.image(data, 0, 0, 10, 10))
    assert caught.value.key == "picture.damaged"


def test_affine_maps_compose_and_invert() -> None:
    some = Affine(1.1, 0.2, -0.3, 0.9, 5, -7)
    back = some.inverse().after(some)
    assert [back.a, back.b, back.c, back.d, back.e, back.f] == pytest.approx(
        [IDENTITY.a, 0, 0, 1, 0, 0], abs=1e-12
    )
    with pytest.raises(DomainError):
        Affine(1, 2, 2, 4).inverse()
