"""The screen shows what the PDF holds: the same drawing through QPainter and through PDFium."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pypdfium2
import pytest
from PIL import Image, ImageChops, ImageStat
from PySide6.QtGui import QImage, QPainter

from wickbench.documents.affine import turn
from wickbench.documents.outlines import oval, rectangle, rounded
from wickbench.documents.pdf import PdfSurface
from wickbench.documents.text import shape
from wickbench.documents.typefaces import SANS, TypefaceShelf
from wickbench.gui.painting import ScreenSurface

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.documents.surface import Surface

WIDTH_MM, HEIGHT_MM = 60.0, 40.0
PIXELS_PER_MM = 300 / 25.4


def red_dot() -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (4, 4), "#cc2200").save(out, "PNG")
    return out.getvalue()


def text(surface: Surface) -> None:
    run = shape(TypefaceShelf(()).find(SANS), "AVOCADO fig 62 °C")
    surface.glyphs(run, 14, 4, 12, colour="#2B2622")
    surface.glyphs(run, 8, 30, 36, turn_deg=-40)


def outlines(surface: Surface) -> None:
    surface.path(rounded(3, 3, 30, 20, 4), fill="#F6E6D6", stroke="#A8540F", width_mm=0.8)
    surface.path(oval(38, 5, 18, 12), stroke="#000000", width_mm=0.5)
    both = (*rectangle(5, 26, 20, 10), *rectangle(9, 29, 12, 4))
    surface.path(both, fill="#2F6B34", even_odd=True)
    surface.path(rectangle(30, 28, 24, 8), stroke="#000000", width_mm=0.4, dash_mm=(2, 1))


def states(surface: Surface) -> None:
    surface.push_clip(oval(5, 5, 20, 20))
    surface.path(rectangle(0, 0, 30, 15), fill="#000000")
    surface.pop()
    surface.push_transform(turn(30, 40, 20))
    surface.path(rectangle(35, 15, 10, 10), fill="#A3241C")
    surface.pop()
    surface.form("square", 8, 8, lambda s: s.path(rectangle(-2, 0, 12, 8), fill="#7A5A00"))
    surface.place("square", 6, 28)
    surface.place("square", 30, 30, turn_deg=20)
    surface.image(red_dot(), 48, 30, 8, 6, turn_deg=10)


def on_paper(draw: Callable[[Surface], None]) -> Image.Image:
    pdf = PdfSurface(invariant=True)
    pdf.begin_page(WIDTH_MM, HEIGHT_MM)
    draw(pdf)
    page = pypdfium2.PdfDocument(pdf.finish())[0]
    return page.render(scale=PIXELS_PER_MM * 25.4 / 72).to_pil().convert("L")


def on_screen(draw: Callable[[Surface], None], size: tuple[int, int]) -> Image.Image:
    image = QImage(*size, QImage.Format.Format_RGB32)
    image.fill(0xFFFFFFFF)
    painter = QPainter(image)
    surface = ScreenSurface(painter, PIXELS_PER_MM)
    surface.begin_page(WIDTH_MM, HEIGHT_MM)
    draw(surface)
    surface.finish()
    painter.end()
    raw = bytes(image.constBits())
    return Image.frombuffer("RGBX", size, raw, "raw", "BGRX", 0, 1).convert("L")


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("draw", [text, outlines, states], ids=lambda draw: draw.__name__)
def test_screen_and_paper_show_the_same(draw: Callable[[Surface], None]) -> None:
    paper = on_paper(draw)
    screen = on_screen(draw, paper.size)
    ink = 255 - ImageStat.Stat(paper).mean[0]
    assert ink > 2
    apart = ImageStat.Stat(ImageChops.difference(paper, screen)).mean[0]
    assert apart < 0.12 * ink  # edges: two ways to smooth them
    empty = Image.new("L", paper.size, 255)
    assert ImageStat.Stat(ImageChops.difference(paper, empty)).mean[0] > 5 * apart


@pytest.mark.usefixtures("qapp")
def test_only_the_wanted_page_is_drawn() -> None:
    image = QImage(100, 100, QImage.Format.Format_RGB32)
    image.fill(0xFFFFFFFF)
    painter = QPainter(image)
    surface = ScreenSurface(painter, 1.0, page=2)
    surface.begin_page(100, 100)
    surface.path(rectangle(0, 0, 50, 100), fill="#000000")
    surface.begin_page(100, 100)
    surface.path(rectangle(50, 0, 50, 100), fill="#000000")
    surface.finish()
    painter.end()
    assert image.pixelColor(10, 50).lightness() == 255
    assert image.pixelColor(90, 50).lightness() == 0
    assert surface.pages == [(100, 100), (100, 100)]


@pytest.mark.usefixtures("qapp")
def test_the_printer_is_told_of_each_page_after_the_first() -> None:
    image = QImage(10, 10, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    told: list[tuple[float, float]] = []
    surface = ScreenSurface(
        painter, 1.0, page=None, next_page=lambda width, height: told.append((width, height))
    )
    for size in ((210, 297), (297, 210), (210, 297)):
        surface.begin_page(*size)
    surface.finish()
    painter.end()
    assert told == [(297, 210), (210, 297)]
