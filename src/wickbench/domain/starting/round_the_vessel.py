"""A design on a wrap: its panel in front, and what a buyer turns the vessel to read beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.domain.labels import TextElement
from wickbench.domain.sheets import Rect
from wickbench.domain.starting.fact_designs import facts
from wickbench.domain.starting.place import Place, margin_mm
from wickbench.domain.starting.words import SANS, SMALLEST_PT, bounded, growth

if TYPE_CHECKING:
    from wickbench.domain.labels import AnyElement

_SEEN: Final = 0.36  # of the way round a vessel is seen from the front without much slant
_WIDEST: Final = 1.9  # times its height is a front panel wide
_SIDE: Final = 0.6  # of what lies beside the front is written on
_ASIDE_FROM_MM: Final = 24.0
_FACTS: Final = ("lot", "poured_on", "ingredients")


def front_of(width_mm: float, height_mm: float, overlap_mm: float) -> Place:
    """The panel in the middle of what is printed of a wrap."""
    printed = max(1.0, width_mm - overlap_mm)
    wide = min(printed, max(_SEEN * printed, min(_WIDEST * height_mm, 0.5 * printed)))
    label = Rect(0.0, 0.0, width_mm, height_mm)
    panel = Rect((printed - wide) / 2, 0.0, wide, height_mm)
    return Place(panel, label, inset_mm=margin_mm(wide, height_mm))


def sides_of(front: Place, colour: str, top_mm: float, bottom_mm: float) -> tuple[AnyElement, ...]:
    """Burn advice on the left of the front and the facts on its right, where there is room.

    Args:
        front: the panel in front.
        colour: of the letters.
        top_mm: upper edge of what is free beside the front.
        bottom_mm: lower edge of it.
    """
    room = front.panel.x_mm
    wide = _SIDE * room
    if wide < _ASIDE_FROM_MM:
        return ()
    top, high = top_mm + 1.0, bottom_mm - top_mm - 2.0
    left = Rect((room - wide) / 2, top, wide, high)
    right = Rect(front.panel.right_mm + (room - wide) / 2, top, wide, high)
    size = bounded(SMALLEST_PT, round(7.0 * growth(front) * 2) / 2, 11.0)
    advice = TextElement(
        x_mm=left.x_mm,
        y_mm=left.y_mm,
        w_mm=left.w_mm,
        h_mm=left.h_mm,
        text="{burn time}\n{web}",
        family=SANS,
        size_pt=size,
        min_size_pt=SMALLEST_PT,
        colour=colour,
        leading=1.4,
    )
    return (advice, facts(front, right, facts=_FACTS, colour=colour))
