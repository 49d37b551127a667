"""Designs with a list of facts, and the one that runs round a vessel."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from wickbench.domain.labels import (
    FactsElement,
    FrameElement,
    LineElement,
    OrnamentElement,
    TextElement,
)
from wickbench.domain.sheets import Rect
from wickbench.domain.starting.place import MM_PER_POINT, SAFE_MM, Place
from wickbench.domain.starting.rows import line_row, name_row, what_row, who_row
from wickbench.domain.starting.stacking import Row, stack
from wickbench.domain.starting.words import (
    NAME,
    SERIF,
    SMALLEST_PT,
    SMALLEST_REVERSED_PT,
    Hand,
    above_weight,
    around,
    bounded,
    growth,
    rule_row,
    strip,
    weight,
)

if TYPE_CHECKING:
    from wickbench.domain.labels import AnyElement

_FACTS: Final = ("lot", "poured_on", "burn_time")
_MORE_FACTS: Final = (*_FACTS, "ingredients")
_MORE_FROM_MM: Final = 44.0
_FACT_PT: Final = 6.5
_WIDE: Final = 1.3
TEAL: Final = "#1f4c49"
_PAPER: Final = "#ffffff"
_LINE_EM: Final = 1.05
_RUNNING_EM: Final = 21.0  # width of the longest ordinary name


def facts(place: Place, box: Rect, **other: Any) -> FactsElement:  # noqa: ANN401 - its fields
    """What changes from candle to candle, as a list in a box."""
    named = _MORE_FACTS if place.size_mm >= _MORE_FROM_MM else _FACTS
    values = {
        "facts": named,
        "size_pt": bounded(SMALLEST_PT, round(_FACT_PT * growth(place) * 2) / 2, 12.0),
        "min_size_pt": SMALLEST_PT,
        **other,
    }
    return FactsElement(x_mm=box.x_mm, y_mm=box.y_mm, w_mm=box.w_mm, h_mm=box.h_mm, **values)


def tally(place: Place) -> tuple[AnyElement, ...]:
    """The name on the left, the facts of this very candle on the right."""
    if place.is_small or place.is_round or place.panel.w_mm < _WIDE * place.panel.h_mm:
        return _under_each_other(place)
    hand = Hand(style="Semibold", align="left")
    panel = place.panel
    border = panel.x_mm + 0.6 * panel.w_mm
    left = replace(place, panel=Rect(panel.x_mm, panel.y_mm, border - panel.x_mm, panel.h_mm))
    box = Rect(border + 1.2, place.top_mm, panel.right_mm - place.inset_mm - border - 1.2,
               place.bottom_mm - place.top_mm)  # fmt: skip
    weighed, below = weight(left, hand)
    rows = (
        name_row(left, hand, gap_mm=0.0),
        what_row(left, hand, gap_mm=0.3),
        who_row(left, hand, gap_mm=0.3, lot=False),
    )
    line = LineElement(
        x_mm=border, y_mm=place.top_mm, w_mm=0.0, h_mm=place.bottom_mm - place.top_mm, line_mm=0.3
    )
    return (
        line,
        *stack(left, rows, left.top_mm, above_weight(below)),
        weighed,
        facts(place, box),
    )


def _under_each_other(place: Place) -> tuple[AnyElement, ...]:
    hand = Hand(style="Semibold")
    high = _FACT_PT * growth(place) * MM_PER_POINT * 1.5
    named = _FACTS if place.size_mm >= _MORE_FROM_MM else ("lot", "poured_on")
    weighed, below = weight(place, hand)

    def listed(box: Rect) -> tuple[AnyElement, ...]:
        room = place.row(box.y_mm, box.bottom_mm)
        return (facts(place, room, facts=named, align="centre" if place.is_round else "left"),)

    least, wanted = len(named) * 2.3, len(named) * high
    rows: tuple[Row, ...] = (
        name_row(place, hand, gap_mm=0.0),
        what_row(place, hand, gap_mm=0.3),
        who_row(place, hand, gap_mm=0.3, lot=False),
    )
    if not place.is_small:
        rows = (*rows, Row(listed, lambda _: least, lambda _: wanted, gap_mm=0.8))
    begin = place.top_mm + (0.05 * place.panel.h_mm if place.is_round else 0.0)
    return (*stack(place, rows, begin, above_weight(below)), weighed)


def band(place: Place) -> tuple[AnyElement, ...]:
    """A coloured band above, round which the name runs on a wrap, and a thin one below."""
    hand = Hand(family=SERIF, style="Semibold", ink=TEAL, title=TEAL, accent=TEAL)
    panel, high = place.panel, band_mm(place)
    foot = 0.0 if place.is_round else high / 4
    top = strip(place, panel.y_mm, panel.y_mm + high, TEAL)
    low = strip(place, panel.bottom_mm - foot, panel.bottom_mm, TEAL) if foot else None
    above = replace(place, inset_mm=max(place.inset_mm, foot + 1.0))
    weighed, below = weight(above, hand)
    rows = (
        name_row(place, hand, gap_mm=0.6),
        what_row(place, hand, gap_mm=0.3, style="Semibold"),
        who_row(place, hand, gap_mm=0.4),
    )
    bands: tuple[AnyElement, ...] = (top, low) if low else (top,)
    bands = (*bands, *((_leaves(place),) if place.whole else running_names(place)))
    return (
        *bands,
        *stack(place, rows, panel.y_mm + high + 0.4 * growth(place), above_weight(below)),
        weighed,
    )


def _leaves(place: Place) -> OrnamentElement:
    high = band_mm(place)
    top = place.panel.y_mm + (0.36 if place.is_round else 0.2) * high
    name = "leaf-pair" if place.is_round else "rule-leaf"
    wide = 0.4 * place.panel.w_mm
    return OrnamentElement(
        x_mm=place.middle_mm[0] - wide / 2, y_mm=top, w_mm=wide, h_mm=0.5 * high, ornament=name,
        colour=_PAPER,
    )  # fmt: skip


def band_mm(place: Place) -> float:
    """How high the band is."""
    least = 4.8 if place.whole else 2 * SAFE_MM + _LINE_EM * SMALLEST_REVERSED_PT * MM_PER_POINT
    return bounded(least, 0.15 * place.panel.h_mm, 14.0) + (2.0 if place.is_round else 0.0)


def running_names(place: Place) -> tuple[TextElement, ...]:
    """The name in white on the band of a wrap, as often as it goes round."""
    label, high = place.label, band_mm(place)
    printed = 2 * (place.middle_mm[0] - label.x_mm)  # the front stands in its middle
    size = bounded(SMALLEST_REVERSED_PT, (high - 2 * SAFE_MM) / _LINE_EM / MM_PER_POINT, 18.0)
    longest = _RUNNING_EM * SMALLEST_REVERSED_PT * MM_PER_POINT
    times = max(1, int(printed / longest))
    wide = printed / times
    return tuple(
        TextElement(
            x_mm=label.x_mm + at * wide + SAFE_MM,
            y_mm=label.y_mm + SAFE_MM,
            w_mm=wide - 2 * SAFE_MM,
            h_mm=high - 2 * SAFE_MM,
            text=NAME,
            family=SERIF,
            style="Semibold",
            size_pt=round(size * 2) / 2,
            min_size_pt=SMALLEST_REVERSED_PT,
            colour=_PAPER,
            wrap=False,
        )
        for at in range(times)
    )


def tie(place: Place) -> tuple[AnyElement, ...]:
    """A tag: a hole to tie it on, the name, what it is, its price."""
    hand = Hand(family=SERIF, style="Semibold", plain=SERIF)
    panel = place.panel
    hole = bounded(3.0, 0.1 * place.least_side_mm, 6.0)
    aside = not place.is_round and panel.w_mm > _WIDE * panel.h_mm
    near = place.inset_mm + 1.2
    ring = FrameElement(
        x_mm=panel.x_mm + near if aside else place.middle_mm[0] - hole / 2,
        y_mm=place.middle_mm[1] - hole / 2 if aside else panel.y_mm + near,
        w_mm=hole, h_mm=hole, figure="oval", line_mm=0.2, dash_mm=(0.8, 0.6),
    )  # fmt: skip
    rows = (
        name_row(place, hand, gap_mm=1.4),
        rule_row(place, hand, 0.2, line_mm=0.25, gap_mm=0.6),
        what_row(place, hand, gap_mm=0.8, style="Italic"),
        line_row(place, hand, "{price}", size_pt=9.0, gap_mm=0.8, style="Semibold"),
        line_row(place, hand, "{business}", gap_mm=0.8),
    )
    room, top = place.inside(0.8), panel.y_mm + near + hole
    if aside:
        left = panel.x_mm + near + hole
        room = replace(room, panel=Rect(left, panel.y_mm, panel.right_mm - left, panel.h_mm))
        top = room.top_mm
    end = room.bottom_mm - (0.08 * panel.h_mm if place.is_round else 0.0)
    frame = around(place, 1.4, "#000000", line_mm=0.3, second_mm=0.0)
    return (frame, ring, *stack(room, rows, top, end))
