"""Curved and bent labels: what the painter shows is what PDFium renders from the paper."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import numpy as np
import pypdfium2
import pytest
from PIL import Image
from PySide6.QtGui import QImage, QPainter

from wickbench.documents.label_layout import LaidOutLabel, draw_label, lay_out_label
from wickbench.documents.pdf import PdfSurface
from wickbench.documents.typefaces import TypefaceShelf
from wickbench.domain.labels import CodeElement, FrameElement, LabelDesign, TextElement
from wickbench.gui.painting import ScreenSurface

if TYPE_CHECKING:
    from wickbench.domain.labels import AnyElement

PIXELS_PER_MM = 300 / 25.4


def text(said: str, box: tuple[float, float, float, float], **changes: object) -> TextElement:
    x, y, w, h = box
    return TextElement(x_mm=x, y_mm=y, w_mm=w, h_mm=h, text=said, **changes)


def laid(*elements: AnyElement, **design: object) -> LaidOutLabel:
    whole = LabelDesign(kind="tag", elements=elements, **design)
    return lay_out_label(whole, {}, TypefaceShelf(()).nearest)


def badge() -> LaidOutLabel:
    return laid(
        FrameElement(x_mm=1, y_mm=1, w_mm=48, h_mm=48, figure="oval"),
        text("WAVE & office café", (4, 4, 42, 42), curve="over", size_pt=14, colour="#A8540F"),
        text("poured by hand", (4, 4, 42, 42), curve="under", size_pt=12, turn_deg=10),
        width_mm=50, height_mm=50, shape="circle", background="#F6E6D6",
    )  # fmt: skip


def wrap() -> LaidOutLabel:
    return laid(
        FrameElement(x_mm=0, y_mm=0, w_mm=120, h_mm=50, figure="sticker", inset_mm=3),
        text("Süßholz & fig office", (10, 6, 100, 14), size_pt=20),
        text("set to the left\nin two lines", (8, 24, 60, 16), align="left", size_pt=9),
        CodeElement(x_mm=85, y_mm=22, w_mm=22, h_mm=22, text="https://example.org/"),
        width_mm=120, height_mm=50, shape="wrap", wrap_bottom_mm=60, wrap_top_mm=74,
        background="#FFF4E0",
    )  # fmt: skip


def on_paper(label: LaidOutLabel) -> Image.Image:
    pdf = PdfSurface(invariant=True)
    pdf.begin_page(label.width_mm, label.height_mm)
    pdf.form("label", label.width_mm, label.height_mm, lambda form: draw_label(label, form))
    pdf.place("label", 0, 0)
    page = pypdfium2.PdfDocument(pdf.finish())[0]
    return page.render(scale=PIXELS_PER_MM * 25.4 / 72).to_pil().convert("L")


def on_screen(label: LaidOutLabel, size: tuple[int, int]) -> Image.Image:
    image = QImage(*size, QImage.Format.Format_RGB32)
    image.fill(0xFFFFFFFF)
    painter = QPainter(image)
    surface = ScreenSurface(painter, PIXELS_PER_MM)
    surface.begin_page(label.width_mm, label.height_mm)
    draw_label(label, surface)
    surface.finish()
    painter.end()
    order = "BGRX" if sys.byteorder == "little" else "XRGB"
    return Image.frombuffer("RGBX", size, bytes(image.constBits()), "raw", order, 0, 1).convert("L")


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("label", [badge(), wrap()], ids=["badge", "wrap"])
def test_screen_and_paper_show_the_same_edges(label: LaidOutLabel) -> None:
    paper = on_paper(label)
    ink = np.asarray(paper)
    seen = np.asarray(on_screen(label, paper.size))
    assert (ink < 100).mean() > 0.02
    # Dark on one means dark, or an edge, within a pixel on the other.
    for one, other in ((ink, seen), (seen, ink)):
        darkest = other.copy()
        for down in (-1, 0, 1):
            for across in (-1, 0, 1):
                darkest = np.minimum(darkest, np.roll(other, (down, across), (0, 1)))
        assert (darkest[one < 60] < 170).all()
    assert np.abs(ink.astype(int) - seen).mean() < 0.12 * (255 - ink.mean())
