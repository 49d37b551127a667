"""The screen and PDFium see the same: labels and sheets of the demo at 1200 dots an inch."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import numpy as np
import pypdfium2
import pytest

from documents.renderings import PER_MM, Piece, on_paper, on_screen, piece_round, strayed
from wickbench.documents.affine import shift
from wickbench.documents.label_layout import LaidOutLabel, draw_label
from wickbench.documents.outlines import rectangle
from wickbench.documents.pdf_file import pdf_bytes
from wickbench.documents.sheet_layout import draw_sheets

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from PySide6.QtWidgets import QApplication

    from demo_papers import DemoPapers
    from wickbench.app.print_run_view import RunView
    from wickbench.documents.surface import Surface

REACH_PX = 4
"""Edges of screen and paper lie at most so far apart: 0.085 mm."""
MOST_PIXELS = 5_000_000


def _label_page(label: LaidOutLabel, bleed_mm: float) -> Callable[[Surface], None]:
    def draw(surface: Surface) -> None:
        size = (label.width_mm + 2 * bleed_mm, label.height_mm + 2 * bleed_mm)
        surface.begin_page(*size)
        surface.push_transform(shift(bleed_mm, bleed_mm))
        draw_label(label, surface)
        surface.pop()

    return draw


def _tiles(whole: Piece) -> Iterator[Piece]:
    """A large piece in strips that are held in memory one by one."""
    high = max(64, MOST_PIXELS // whole.width)
    for top in range(0, whole.height, high):
        rest = min(high + 2 * REACH_PX, whole.height - top)
        yield Piece(whole.left, whole.top + top, whole.width, rest, whole.dots)


def _strayed(draw: Callable[[Surface], None], data: bytes, piece: Piece, page: int = 1) -> int:
    document = pypdfium2.PdfDocument(data)
    try:
        return sum(
            strayed(on_screen(draw, tile, page), on_paper(document, tile, page), REACH_PX)
            for tile in _tiles(piece)
        )
    finally:
        document.close()


def test_every_label_of_the_demo(qapp: QApplication, demo_papers: DemoPapers) -> None:
    del qapp
    seen: set[str] = set()
    for name, made in demo_papers.made():
        if made.content.key in seen:
            continue
        seen.add(made.content.key)
        label, bleed = made.laid, made.content.bleed_mm
        draw = _label_page(label, bleed)
        box = (label.width_mm + 2 * bleed, label.height_mm + 2 * bleed)
        data = pdf_bytes(draw, title=name)
        assert _strayed(draw, data, piece_round(0, 0, *box)) == 0, name
    assert len(seen) >= len(demo_papers.labels) > 3


def _looked_at(run: RunView) -> Iterator[tuple[int, int]]:
    """Page and sticker: the first one of the run, and of each page the last one."""
    assert run.pages is not None
    yield 1, run.pages.on_sheet(run.pages.sheet_numbers[0])[0].index
    for page, sheet_no in enumerate(run.pages.sheet_numbers, 1):
        yield page, run.pages.on_sheet(sheet_no)[-1].index


def test_stickers_of_every_page_of_the_demo(qapp: QApplication, demo_papers: DemoPapers) -> None:
    del qapp
    for run in demo_papers.runs:
        assert run.pages is not None
        draw = partial(draw_sheets, pages=run.pages)
        data = pdf_bytes(draw, title="Labels")
        for page, index in _looked_at(run):
            box = run.pages.sheet.sticker(index)
            piece = piece_round(box.x_mm, box.y_mm, box.w_mm, box.h_mm, around_mm=1.0)
            assert _strayed(draw, data, piece, page) == 0, (run.run.name, page, index)


@pytest.mark.parametrize(("moved_px", "apart"), [(3.5, False), (5.5, True)])
def test_the_measure_tells_an_edge_that_lies_too_far_away(
    qapp: QApplication, moved_px: float, *, apart: bool
) -> None:
    del qapp

    def draw(surface: Surface, right_mm: float = 0.0) -> None:
        surface.begin_page(25.4, 12.7)
        surface.path(rectangle(4 + right_mm, 2, 9, 5), fill="#7a4a10")

    data = pdf_bytes(partial(draw, right_mm=moved_px / PER_MM), title="Moved")
    assert (_strayed(draw, data, piece_round(0, 0, 25.4, 12.7)) > 0) == apart


def test_the_measure_tells_what_only_one_of_them_has() -> None:
    bare = np.full((60, 60, 4), 255, np.uint8)
    spot = bare.copy()
    spot[20:28, 20:28] = 0
    assert strayed(bare, spot, REACH_PX) == 64
    assert strayed(255 - bare, 255 - spot, REACH_PX) == 64
    assert strayed(bare, bare, REACH_PX) == 0
