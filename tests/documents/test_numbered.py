"""Running numbers: each sticker its own, read back from the PDF; as cheap as a shared form."""

from __future__ import annotations

import io
import math
from dataclasses import replace
from functools import partial
from typing import Any

import pdfplumber
import pypdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from documents.samples import MM, shelf
from wickbench.documents.joined_runs import stand_alone
from wickbench.documents.label_layout import LaidOutLabel, lay_out_label
from wickbench.documents.numbered import Fresh, NumberLine, Still, is_numbered, numbered_label
from wickbench.documents.pdf_file import pdf_bytes
from wickbench.documents.sheet_layout import (
    RunEntry,
    draw_sheets,
    label_content,
    lay_out_sheets,
)
from wickbench.documents.surface import RecordingSurface
from wickbench.domain.labels import CodeElement, FrameElement, LabelDesign, TextElement
from wickbench.domain.sheets import StickerSheet

# Invented measures, of no known product.
JARS = StickerSheet(210, 297, 9, 12.5, 3, 7, 65, 39.5, 62, 36, "rounded", corner_mm=3)
NUMBER = TextElement(x_mm=4, y_mm=25, w_mm=54, h_mm=7, text="Lot A1 / {number} of {of}", size_pt=8)
DESIGN = LabelDesign(
    width_mm=62,
    height_mm=36,
    shape="rounded",
    corner_mm=3,
    background="#f4e8d0",
    elements=(
        TextElement(x_mm=4, y_mm=5, w_mm=54, h_mm=10, text="{candle}", size_pt=14),
        NUMBER,
        FrameElement(x_mm=0, y_mm=0, w_mm=62, h_mm=36, figure="sticker", inset_mm=2),
    ),
)


def _lay_out(design: LabelDesign, values: object) -> LaidOutLabel:
    return lay_out_label(design, values, shelf().nearest)  # type: ignore[arg-type]  # a mapping


def _entry(design: LabelDesign, first: int, count: int) -> RunEntry:
    values = {"candle": "Bramble", "of": str(first + count - 1)}
    made = numbered_label(design, values, range(first, first + count), _lay_out)
    return RunEntry(label_content(made.label), count, made)


def _whole(design: LabelDesign, first: int, count: int) -> list[RunEntry]:
    """The same stickers, each laid out as a label of its own."""
    last = str(first + count - 1)
    return [
        RunEntry(label_content(_lay_out(design, {"candle": "Bramble", "of": last, "number": n})), 1)
        for n in map(str, range(first, first + count))
    ]


def _drawn(entries: list[RunEntry], sheet: StickerSheet = JARS) -> RecordingSurface:
    surface = RecordingSurface()
    draw_sheets(surface, lay_out_sheets(sheet, entries))
    return surface


def test_each_sticker_says_its_own_number_in_the_pdf() -> None:
    pages = lay_out_sheets(JARS, [_entry(DESIGN, 1, 48)])
    data = pdf_bytes(lambda s: draw_sheets(s, pages), title="Labels", language="en")
    said = "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages)
    for number in range(1, 49):
        assert said.count(f"Lot A1 / {number} of 48\n") + said.endswith(f"/ {number} of 48") == 1
    with pdfplumber.open(io.BytesIO(data)) as document:
        words = document.pages[0].crop((9 / MM, 37 / MM, 71 / MM, 48 / MM)).extract_text()
    assert words == "Lot A1 / 1 of 48"


TEXTS = ("No. {number}", "{number}/{of}", "{candle} {number}\nof {of}, AV{number}A")


@settings(max_examples=20, deadline=None)
@given(
    numbers=st.tuples(st.integers(1, 990), st.integers(1, 30)),
    look=st.builds(
        dict,
        align=st.sampled_from(["left", "centre", "right"]),
        turn_deg=st.sampled_from([0.0, 90.0, 30.0]),
        letter_spacing_em=st.sampled_from([0.0, 0.1]),
        upper=st.booleans(),
        text=st.sampled_from(TEXTS),
    ),
)
def test_numbers_stand_where_a_label_of_their_own_would_have_them(
    numbers: tuple[int, int], look: dict[str, Any]
) -> None:
    element = replace(NUMBER, y_mm=12, h_mm=12, size_pt=6, min_size_pt=6, **look)
    design = replace(DESIGN, elements=(element,), background="")
    there, here = _drawn(_whole(design, *numbers)), _drawn([_entry(design, *numbers)])
    assert _letters(here) == pytest.approx(_letters(there), abs=1e-6)


def _letters(surface: RecordingSurface) -> list[float]:
    """Page, glyph and place of every letter, mm, in the order of drawing."""
    found: list[float] = []
    for text in surface.texts:
        k = text.size_pt / text.run.face.units_per_em * MM
        angle = math.radians(text.turn_deg)
        for glyph in text.run.glyphs:
            x, y = glyph.x * k * math.cos(angle), glyph.x * k * math.sin(angle)
            found += [text.page, glyph.gid, text.x_mm + x, text.y_mm + y]
    return found


def test_what_stays_is_one_form_and_what_lies_over_the_number_stays_over_it() -> None:
    made = numbered_label(DESIGN, {"candle": "Bramble", "of": "9"}, range(1, 10), _lay_out)
    # The frame lies over the number, as the design says: it may hide it.
    assert [type(layer) for layer in made.layers] == [Still, NumberLine, Still]
    beside = replace(DESIGN, elements=(NUMBER, DESIGN.elements[0]))
    made = numbered_label(beside, {"candle": "Bramble", "of": "9"}, range(1, 10), _lay_out)
    assert [type(layer) for layer in made.layers] == [Still, NumberLine]
    assert not is_numbered(replace(DESIGN, elements=DESIGN.elements[:1]))
    placed = _drawn([_entry(beside, 1, 9)]).placed
    assert len({key for _, key, _, _ in placed}) == 1
    assert len(placed) == 9


def test_a_code_with_the_number_is_made_anew_for_each_sticker() -> None:
    code = CodeElement(x_mm=40, y_mm=10, w_mm=16, h_mm=16, text="A1-{number}")
    design = replace(DESIGN, elements=(code,))
    made = numbered_label(design, {}, range(1, 4), _lay_out)
    assert [type(layer) for layer in made.layers] == [Still, Fresh]
    surface = _drawn([RunEntry(label_content(made.label), 3, made)])
    dark = [one.path for one in surface.paths if one.fill == "#000000"]
    assert len(set(dark)) == len(dark) >= 3


def test_a_numbered_label_is_turned_onto_an_upright_sticker() -> None:
    tall = StickerSheet(210, 297, 10, 10, 4, 3, 45, 80, 36, 62)
    design = replace(DESIGN, elements=(NUMBER,), background="")
    found = []
    for entries in ([_entry(design, 7, 5)], _whole(design, 7, 5)):
        pages = lay_out_sheets(tall, entries)
        data = pdf_bytes(partial(draw_sheets, pages=pages), title="Labels", language="en")
        with pdfplumber.open(io.BytesIO(data)) as document:
            found.append([(one["text"], *one["matrix"]) for one in document.pages[0].chars])
    assert [one[0] for one in found[0]] == [one[0] for one in found[1]]
    for here, there in zip(*found, strict=True):
        assert here[1:] == pytest.approx(there[1:], abs=1e-3)


def test_only_texts_that_do_not_touch_are_put_together() -> None:
    face = shelf().nearest("Source Sans Pro", "Regular")[0]
    assert stand_alone(face, ("Lot ", "7", " of"))
    assert not stand_alone(face, ("A", "V"))  # kerned closer in any text face
