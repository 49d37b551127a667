"""A foot on every page: what the paper is and its day on the left, "page 1 of 2" on the right."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from wickbench.documents.flow import GREY, Flow, PaperFaces
from wickbench.documents.surface import RecordingSurface, Surface
from wickbench.documents.text import shape

FOOT_PT: Final = 8.0
_ABOVE_EDGE_MM: Final = 7.0
"""Printers leave 4 to 7 mm at the lower edge (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """What every page of a paper has in common.

    Attributes:
        faces: typefaces.
        page_mm: width and height of the page.
        margin_mm: on all four sides.
        foot: words at the left of the foot.
        page_words: gives "page 1 of 2" for a page's number and the number of pages.
    """

    faces: PaperFaces
    page_mm: tuple[float, float]
    margin_mm: float
    foot: str
    page_words: Callable[[int, int], str]


def draw_numbered(surface: Surface, sheet: Sheet, draw: Callable[[Flow], None]) -> None:
    """Draw a flowing paper twice: once to count its pages, once with the foot on each."""
    pages = pages_of(sheet, draw)

    def foot(where: Surface, number: int) -> None:
        _foot(where, sheet, sheet.page_words(number, pages))

    draw(_flow(surface, sheet, foot))


def pages_of(sheet: Sheet, draw: Callable[[Flow], None]) -> int:
    """How many pages a paper takes."""
    trial = RecordingSurface()
    draw(_flow(trial, sheet, None))
    return len(trial.pages)


def _flow(surface: Surface, sheet: Sheet, footer: Callable[[Surface, int], None] | None) -> Flow:
    width, height = sheet.page_mm
    return Flow(surface, sheet.faces, width, height, margin_mm=sheet.margin_mm, footer=footer)


def _foot(surface: Surface, sheet: Sheet, words: str) -> None:
    width, height = sheet.page_mm
    y = height - _ABOVE_EDGE_MM
    face = sheet.faces.regular
    surface.glyphs(shape(face, sheet.foot), FOOT_PT, sheet.margin_mm, y, colour=GREY)
    run = shape(face, words)
    right = width - sheet.margin_mm - run.width_mm(FOOT_PT)
    surface.glyphs(run, FOOT_PT, right, y, colour=GREY)
