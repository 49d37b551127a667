"""Sheets found in pictures: drawn with Pillow, and rendered from our own proof by pdfium.

What is known is where the stickers were drawn; the finder sees only the picture's file.
"""

from __future__ import annotations

import io
from dataclasses import replace
from typing import TYPE_CHECKING

import pypdfium2
import pytest
from PIL import Image

from documents.scans import Look, scan_of
from wickbench.documents.pdf_file import pdf_bytes
from wickbench.documents.sheet_layout import draw_outlines
from wickbench.documents.sheet_scan import ScannedSheet, find_sheet
from wickbench.domain.errors import DomainError
from wickbench.domain.sheets import StickerSheet

if TYPE_CHECKING:
    from wickbench.documents.surface import Surface

NEAR_MM = 0.25
# Invented measures, of no known product; the page is A5, which is quick to look through.
ROUNDED = StickerSheet(148, 210, 8, 11, 2, 5, 67, 38.5, 64, 35, "rounded", corner_mm=3)
CIRCLES = StickerSheet(148, 210, 9, 14, 3, 4, 45, 46, 38, 38, "circle")
TOUCHING = StickerSheet(148, 210, 7, 12, 2, 9, 67, 20.5, 67, 20.5)


def _near(found: ScannedSheet, sheet: StickerSheet) -> None:
    assert (found.columns, found.rows) == (sheet.columns, sheet.rows)
    assert found.across.pitch is not None
    assert found.down.pitch is not None
    here = (
        found.across.margin, found.across.size, found.across.pitch,
        found.down.margin, found.down.size, found.down.pitch,
    )  # fmt: skip
    there = (
        sheet.left_mm, sheet.sticker_w_mm, sheet.pitch_x_mm,
        sheet.top_mm, sheet.sticker_h_mm, sheet.pitch_y_mm,
    )  # fmt: skip
    for one, wanted in zip(here, there, strict=True):
        assert one.value_mm == pytest.approx(wanted, abs=NEAR_MM)


@pytest.mark.parametrize(
    ("sheet", "look"),
    [
        (ROUNDED, Look()),
        (ROUNDED, Look(turn_deg=0.9)),
        (ROUNDED, Look(line=238, noise=4)),
        (ROUNDED, Look(line=222, line_mm=0)),
        (CIRCLES, Look(dpi=90)),
        (CIRCLES, Look(turn_deg=-0.7)),
        (TOUCHING, Look(turn_deg=-0.4)),
        (ROUNDED, Look(around_mm=9, turn_deg=0.5)),
    ],
    ids=["straight", "turned", "faint", "areas", "coarse", "circles", "touching", "dark ground"],
)  # fmt: skip
def test_stickers_are_found_where_they_were_drawn(sheet: StickerSheet, look: Look) -> None:
    found = find_sheet(scan_of(sheet, look), (sheet.page_w_mm, sheet.page_h_mm))
    _near(found, sheet)
    assert found.shape == sheet.shape
    assert found.corner_mm == pytest.approx(sheet.corner_mm, abs=1.0)
    assert found.skew_deg == pytest.approx(look.turn_deg, abs=0.2)


def test_a_proof_rendered_by_another_library_gives_its_sheet_back() -> None:
    sheet = replace(ROUNDED, page_w_mm=210, page_h_mm=148, columns=3, rows=3, left_mm=5)

    def draw(surface: Surface) -> None:
        surface.begin_page(sheet.page_w_mm, sheet.page_h_mm)
        draw_outlines(surface, sheet)

    document = pypdfium2.PdfDocument(pdf_bytes(draw, title="Proof", language="en"))
    out = io.BytesIO()
    document[0].render(scale=150 / 72).to_pil().save(out, "PNG", dpi=(150, 150))
    _near(find_sheet(out.getvalue(), (210, 148)), sheet)


def _saved(picture: Image.Image, **more: object) -> bytes:
    out = io.BytesIO()
    picture.save(out, "PNG", **more)
    return out.getvalue()


@pytest.mark.parametrize(
    ("data", "key"),
    [
        (_saved(Image.new("L", (600, 851), 250)), "scan.no-stickers"),
        (_saved(Image.effect_noise((600, 851), 40)), "scan.no-stickers"),
        (_saved(Image.new("L", (300, 426), 250)), "scan.coarse"),
        (_saved(Image.new("L", (888, 900), 250)), "scan.no-page"),
        (b"no picture", "picture.damaged"),
    ],
)
def test_what_cannot_be_found_is_said(data: bytes, key: str) -> None:
    with pytest.raises(DomainError) as refused:
        find_sheet(data, (148, 210))
    assert refused.value.key == key
