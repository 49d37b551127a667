"""Curved text on a label, and read back from paper."""

from __future__ import annotations

import io
import math
import unicodedata
from typing import TYPE_CHECKING

import pypdf
import pypdfium2
import pytest

from documents.samples import SAMPLE_FACES, shelf
from documents.test_curved_text import curved
from wickbench.app.texts import all_sentences
from wickbench.documents.label_draws import CurvedDraw
from wickbench.documents.label_layout import draw_label, lay_out_label
from wickbench.documents.pdf import PdfSurface
from wickbench.documents.surface import RecordingSurface
from wickbench.domain.labels import FrameElement, LabelDesign, TextElement
from wickbench.domain.sheets import Rect

if TYPE_CHECKING:
    from wickbench.documents.label_layout import LaidOutLabel


# -- on a label ----------------------------------------------------------------------------------
def label_of(text: str, curve: str = "over", **changes: object) -> LaidOutLabel:
    box = {"x_mm": 5.0, "y_mm": 5.0, "w_mm": 50.0, "h_mm": 50.0}
    element = TextElement(text=text, curve=curve, **(box | changes))
    design = LabelDesign(width_mm=60, height_mm=60, shape="circle", kind="lid", elements=(element,))
    return lay_out_label(design, {"candle": "Ash & linen"}, shelf().nearest)


def test_what_is_too_long_shrinks_and_then_is_told() -> None:
    long = "A text round the top " * 3
    assert label_of(long, size_pt=12, min_size_pt=5).texts[0].size_pt < 12
    assert label_of(long, size_pt=12, min_size_pt=5).findings == ()
    told = label_of(long * 3, size_pt=12, min_size_pt=8)
    assert [one.key for one in told.findings] == ["label.text-too-long"]
    assert told.texts[0].size_pt == 8
    assert not told.texts[0].fits
    assert "label.text-too-long" in all_sentences()
    assert [one.key for one in label_of("Round", w_mm=4, h_mm=4).findings] == [
        "label.text-too-long"
    ]


@pytest.mark.parametrize(
    ("by_mm", "keys"),
    [(0, []), (2, ["label.text-outside-safe"]), (4, ["label.text-outside-sticker"])],
)
def test_letters_beyond_the_edge_are_found_by_their_real_corners(
    by_mm: float, keys: list[str]
) -> None:
    box = {"x_mm": 3 - by_mm, "y_mm": 3 - by_mm, "w_mm": 54 + 2 * by_mm, "h_mm": 54 + 2 * by_mm}
    assert [one.key for one in label_of("Round the top", **box).findings] == keys


def test_a_turned_element_turns_as_a_whole() -> None:
    straight = label_of("Round the {candle}").draws[0]
    turned = label_of("Round the {candle}", turn_deg=70.0).draws[0]
    assert isinstance(straight, CurvedDraw)
    assert isinstance(turned, CurvedDraw)
    assert turned.text == "Round the Ash & linen"
    angle = math.radians(70)
    for one, other in zip(straight.letters, turned.letters, strict=True):
        x, y = one.x_mm - 30, one.y_mm - 30
        there = (
            30 + x * math.cos(angle) - y * math.sin(angle),
            30 + x * math.sin(angle) + y * math.cos(angle),
        )
        assert (other.x_mm, other.y_mm) == pytest.approx(there, abs=1e-9)
        assert other.turn_deg == pytest.approx(one.turn_deg + 70)


def test_the_colour_behind_a_curve_is_looked_for_where_its_letters_stand() -> None:
    ring = FrameElement(x_mm=2, y_mm=2, w_mm=56, h_mm=56, figure="oval", fill="#202020")
    middle = FrameElement(x_mm=14, y_mm=14, w_mm=32, h_mm=32, figure="oval", fill="#ffffff")
    for curve, turn_deg in (("over", 0.0), ("under", 0.0), ("over", 90.0)):
        for colour, keys in (("#101010", ["label.low-contrast"]), ("#ffffff", [])):
            box = {"x_mm": 4.0, "y_mm": 4.0, "w_mm": 52.0, "h_mm": 52.0}
            text = TextElement(
                **box, text="Round", size_pt=14, curve=curve, colour=colour, turn_deg=turn_deg
            )
            design = LabelDesign(
                width_mm=60, height_mm=60, shape="circle", kind="lid",
                elements=(ring, middle, text),
            )  # fmt: skip
            found = lay_out_label(design, {}, shelf().nearest).findings
            assert [one.key for one in found] == keys


# -- read back -----------------------------------------------------------------------------------
READ = ("Süßholz & fig: office AVA, naïve", "1 ½ lb à 12 °C – “Łódź” (Kč 25)", "cafe\u0301 fi ffi")


def on_paper(label: LaidOutLabel, *, turn_deg: float = 0.0) -> bytes:
    surface = PdfSurface()
    surface.begin_page(200, 200)
    surface.form("label", 60, 60, lambda form: draw_label(label, form))
    surface.place("label", 100, 90, turn_deg=turn_deg)
    return surface.finish()


@pytest.mark.parametrize("curve", ["over", "under"])
@pytest.mark.parametrize("text", READ)
@pytest.mark.parametrize("name", SAMPLE_FACES)
def test_curved_text_is_read_back_unchanged(name: str, text: str, curve: str) -> None:
    done = curved(text, curve, Rect(5, 5, 70, 70), name, size_pt=11)
    label = label_of("")
    bare = type(label)(label.design, "key", done.lines, (), ())
    data = on_paper(bare, turn_deg=30 if curve == "under" else 0)
    wanted = unicodedata.normalize("NFC", text)
    said = pypdfium2.PdfDocument(data)[0].get_textpage().get_text_range()
    assert unicodedata.normalize("NFC", said).strip() == wanted
    if curve == "over":
        also = pypdf.PdfReader(io.BytesIO(data)).pages[0].extract_text()
        assert unicodedata.normalize("NFC", also).strip() == wanted


def test_the_text_is_marked_as_one_span() -> None:
    surface = PdfSurface(compress=False)
    surface.begin_page(60, 60)
    draw_label(label_of("Two words\nin two lines"), surface)
    page = surface.finish()
    for text in ("Two words ", "in two lines "):
        # ISO 32000-1, 14.9.4: replacement text in UTF-16BE with a byte order mark
        assert (
            f"/Span <</ActualText <FEFF{text.encode('utf-16-be').hex().upper()}>>> BDC".encode()
            in page
        )
    assert page.count(b" BDC") == page.count(b"EMC") == 2


def test_a_record_knows_its_spans() -> None:
    surface = RecordingSurface()
    surface.begin_page(60, 60)
    draw_label(label_of("Ash & linen"), surface)
    assert surface.spans == ["Ash & linen "]
    assert "".join(one.run.text for one in surface.texts) == "Ash & linen "
