"""Designs with a ground of their own, for colour on white paper."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Final

from wickbench.domain.labels import AnyElement, OrnamentElement
from wickbench.domain.sheets import Rect
from wickbench.domain.starting.rows import name_row, what_row, who_row
from wickbench.domain.starting.stacking import Row, fixed_row, stack
from wickbench.domain.starting.words import (
    SERIF,
    SMALLEST_REVERSED_PT,
    Hand,
    above_weight,
    around,
    bounded,
    growth,
    low_in,
    rule_row,
    strip,
    weight,
)

if TYPE_CHECKING:
    from wickbench.domain.starting.place import Place

CREAM: Final = "#fbf4e6"
LAND: Final = "#fdf8ee"
BROWN: Final = "#2b2622"
_AMBER: Final = "#a8540f"
_TERRACOTTA: Final = "#a9452a"
NIGHT: Final = "#222c3c"
_MOON: Final = "#f6e9cf"
_GOLD: Final = "#d8a548"
LEAF: Final = "#3c5a3a"
_PLUM: Final = "#5b2340"
_FRAME_MM: Final = 2.0
_SMALL_MM: Final = 44.0
_LOW_MM: Final = 56.0
_BRANCHES_FROM_MM: Final = 44.0

Draw = Callable[[Rect], Sequence[AnyElement]]


def sill(place: Place) -> tuple[AnyElement, ...]:
    """A warm ground in a double frame, as light through a window."""
    hand = Hand(family=SERIF, style="Semibold", ink=BROWN, title=BROWN, accent=_AMBER)
    frames = () if place.is_small else (around(place, _FRAME_MM, _AMBER, second_mm=0.8),)
    inner = place.inside(
        0.0 if place.is_small else _FRAME_MM + 0.2 if place.least_side_mm > _SMALL_MM else 1.6
    )
    weighed, below = weight(inner, hand)
    rows = (
        what_row(inner, hand, colour=_AMBER, gap_mm=0.3, upper=not place.is_small, spacing_em=0.08),
        name_row(inner, hand, gap_mm=0.2),
        rule_row(inner, hand, 0.14, line_mm=0.35, gap_mm=0.2),
        who_row(inner, hand, gap_mm=0.8),
    )
    begin = inner.top_mm + (0.05 * place.panel.h_mm if place.is_round else 0.0)
    return (*frames, *stack(inner, rows, begin, above_weight(below)), weighed)


def ember(place: Place) -> tuple[AnyElement, ...]:
    """The name in white on a glowing field, everything else below it."""
    hand = Hand(style="Bold", ink=BROWN, title="#ffffff", accent=_TERRACOTTA)
    panel = place.panel
    border = (
        panel.y_mm + (0.36 if place.is_small else 0.44 if place.is_round else 0.40) * panel.h_mm
    )
    glow = strip(place, panel.y_mm, border, _TERRACOTTA)
    top = place.top_mm + (0.08 * panel.h_mm if place.is_round else 0.0)
    vertical = low_in(place)
    name = name_row(place, hand, least_pt=SMALLEST_REVERSED_PT, gap_mm=0.3, vertical=vertical)
    low = panel.h_mm < _LOW_MM
    weighed, below = weight(place, hand, style="Semibold")
    rows = (
        what_row(place, hand, style="Semibold", gap_mm=0.0),
        who_row(place, hand, gap_mm=0.3, joined=low),
    )
    begin = border + 1.0 * growth(place)
    named = stack(place, (name,), top, border - 0.8)
    return (glow, *named, *stack(place, rows, begin, above_weight(below)), weighed)


def dusk(place: Place) -> tuple[AnyElement, ...]:
    """A night sky over a light strip of land; the name is the moon's colour."""
    panel = place.panel
    sky = Hand(
        family=SERIF, style="Semibold", ink=_MOON, title=_MOON, accent=_GOLD,
        least_pt=SMALLEST_REVERSED_PT,
    )  # fmt: skip
    land = Hand(family=SERIF, style="Semibold", ink=NIGHT, title=NIGHT, accent=_GOLD)
    weighed, below = weight(place, land)
    border = panel.y_mm + (0.4 if place.is_small else 0.45) * panel.h_mm
    night = strip(place, panel.y_mm, border, NIGHT)
    line = strip(place, border, border + bounded(0.5, panel.h_mm / 60, 1.6), _GOLD)
    top = place.top_mm + (0.06 * panel.h_mm if place.is_round else 0.0)
    above: tuple[Row, ...] = (name_row(place, sky, gap_mm=0.2, vertical=low_in(place)),)
    low = panel.h_mm < _LOW_MM
    under: tuple[Row, ...] = (who_row(place, land, gap_mm=0.3, joined=low),)
    if place.is_small:
        under = (what_row(place, land, gap_mm=0.0, style="Italic"), *under)
    else:
        above = (*above, what_row(place, sky, gap_mm=0.2, style="Italic"))
    begin = border + line.h_mm + 1.2 * growth(place)
    return (
        night,
        line,
        *stack(place, above, top, border - 1.0),
        *stack(place, under, begin, above_weight(below)),
        weighed,
    )


def orchard(place: Place) -> tuple[AnyElement, ...]:
    """The name between two branches of laurel, in the inks of leaf and plum."""
    hand = Hand(family=SERIF, style="Semibold", ink=LEAF, title=_PLUM, accent=LEAF)
    weighed, below = weight(place, hand)
    beside = not place.is_round and place.panel.w_mm >= _BRANCHES_FROM_MM
    name = name_row(place, hand, gap_mm=0.0)
    rows: tuple[Row, ...] = (
        replace(name, draw=partial(_between_branches, name.draw)) if beside else name,
        what_row(place, hand, gap_mm=0.4, style="Semibold"),
        who_row(place, hand, gap_mm=0.5),
    )
    if not beside:
        high = bounded(3.5, 0.17 * place.panel.h_mm, 18.0)
        rows = (fixed_row(lambda box: (_ornament(box, "berries"),), high, gap_mm=0.3), *rows)
    begin = place.top_mm + (0.02 * place.panel.h_mm if place.is_round else 0.0)
    return (*stack(place, rows, begin, above_weight(below)), weighed)


def _between_branches(draw: Draw, box: Rect) -> tuple[AnyElement, ...]:
    wide = 0.5 * min(box.h_mm, 0.3 * box.w_mm)
    sides = (
        _ornament(Rect(left, box.y_mm, wide, box.h_mm), ornament)
        for left, ornament in ((box.x_mm, "laurel-left"), (box.right_mm - wide, "laurel-right"))
    )
    gap = wide + 1.0
    middle = Rect(box.x_mm + gap, box.y_mm, box.w_mm - 2 * gap, box.h_mm)
    return (*sides, *draw(middle))


def _ornament(box: Rect, name: str) -> OrnamentElement:
    return OrnamentElement(
        x_mm=box.x_mm, y_mm=box.y_mm, w_mm=box.w_mm, h_mm=box.h_mm, ornament=name, colour=LEAF
    )
