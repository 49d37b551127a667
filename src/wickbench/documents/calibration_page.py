"""The calibration page: a bar of 100 mm with ticks, four crosshairs, and what to do with them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.documents.calibration import crosshairs
from wickbench.documents.outlines import line, oval
from wickbench.documents.surface import BLACK
from wickbench.documents.text import shape
from wickbench.documents.text_fit import wrap

if TYPE_CHECKING:
    from wickbench.documents.surface import Surface
    from wickbench.documents.text import Typeface

BAR_MM: Final = 100
HAIRLINE_MM: Final = 0.1

_ARM_MM: Final = 7.0
_RING_MM: Final = 3.0
_BAR_LINE_MM: Final = 0.25
_TICKS_MM: Final = ((10, 5.0), (5, 3.5), (1, 2.0))
_TITLE_PT: Final = 16.0
_TEXT_PT: Final = 10.0
_NAME_PT: Final = 9.0
_LEADING_MM: Final = 5.2
_MARGIN_MM: Final = 35.0


@dataclass(frozen=True, slots=True)
class CalibrationTexts:
    """Words of the page, in the person's language.

    Attributes:
        title: heading.
        steps: what to do, one paragraph each.
        bar: beside the bar, for example "100 mm".
        names: names of the crosshairs: top left, top right, bottom left, bottom right.
    """

    title: str
    steps: tuple[str, ...]
    bar: str
    names: tuple[str, str, str, str]


def draw_calibration_page(
    surface: Surface, page_w_mm: float, page_h_mm: float, face: Typeface, texts: CalibrationTexts
) -> None:
    """Draw the page, uncorrected: it shows what the printer does by itself.

    Args:
        surface: where to.
        page_w_mm: page width.
        page_h_mm: page height.
        face: typeface of the words.
        texts: the words.
    """
    surface.begin_page(page_w_mm, page_h_mm)
    for name, (x, y) in zip(texts.names, crosshairs(page_w_mm, page_h_mm), strict=True):
        _crosshair(surface, x, y)
        run = shape(face, name)
        beside = x + _ARM_MM + 1 if x < page_w_mm / 2 else x - _ARM_MM - 1 - run.width_mm(_NAME_PT)
        surface.glyphs(run, _NAME_PT, beside, y + 1.1)
    y = _words(surface, page_w_mm, page_h_mm, face, texts)
    left = (page_w_mm - BAR_MM) / 2
    _bar(surface, left, y + 12)
    label = shape(face, texts.bar)
    x = (page_w_mm - label.width_mm(_TEXT_PT)) / 2
    surface.glyphs(label, _TEXT_PT, x, y + 12 - 3)


def _words(
    surface: Surface, page_w_mm: float, page_h_mm: float, face: Typeface, texts: CalibrationTexts
) -> float:
    """Title and steps; gives the place below them."""
    margin = min(_MARGIN_MM, page_w_mm / 5)
    y = page_h_mm / 4
    surface.glyphs(shape(face, texts.title), _TITLE_PT, margin, y)
    y += _LEADING_MM * 2
    for step in texts.steps:
        for run in wrap(face, step, page_w_mm - 2 * margin, _TEXT_PT):
            surface.glyphs(run, _TEXT_PT, margin, y)
            y += _LEADING_MM
        y += _LEADING_MM / 2
    return y


def _crosshair(surface: Surface, x_mm: float, y_mm: float) -> None:
    for path in (
        line(x_mm - _ARM_MM, y_mm, x_mm + _ARM_MM, y_mm),
        line(x_mm, y_mm - _ARM_MM, x_mm, y_mm + _ARM_MM),
        oval(x_mm - _RING_MM, y_mm - _RING_MM, 2 * _RING_MM, 2 * _RING_MM),
    ):
        surface.path(path, stroke=BLACK, width_mm=HAIRLINE_MM)


def _bar(surface: Surface, left_mm: float, y_mm: float) -> None:
    surface.path(line(left_mm, y_mm, left_mm + BAR_MM, y_mm), stroke=BLACK, width_mm=_BAR_LINE_MM)
    for at in range(BAR_MM + 1):
        height = next(tall for every, tall in _TICKS_MM if at % every == 0)
        x = left_mm + at
        surface.path(line(x, y_mm, x, y_mm + height), stroke=BLACK, width_mm=HAIRLINE_MM)
