"""Designs with words on a circle."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from wickbench.domain.labels import FrameElement, OrnamentElement
from wickbench.domain.sheets import Rect
from wickbench.domain.starting.place import MM_PER_POINT, Place
from wickbench.domain.starting.rows import line_row, name_row, what_row, who_row
from wickbench.domain.starting.stacking import Row, fixed_row, stack
from wickbench.domain.starting.words import (
    ADDRESS,
    BUSINESS,
    IDENTITY,
    LOT,
    SERIF,
    Hand,
    above_weight,
    around,
    bounded,
    curved,
    growth,
    rule_row,
    small,
    weight,
)

if TYPE_CHECKING:
    from wickbench.domain.labels import AnyElement

_CAPITALS_FROM_MM: Final = 40.0
_UNDER_FROM_MM: Final = 56.0
_WIDE: Final = 1.35
_STAMP_FROM_MM: Final = 58.0
_EDGE_MM: Final = 1.8
_SECOND_MM: Final = 0.9
_SHOULDER: Final = 0.7


def crest(place: Place) -> tuple[AnyElement, ...]:
    """A double oval with the words bent along its top."""
    hand = Hand(family=SERIF, style="Semibold", plain=SERIF)
    line = bounded(0.3, place.size_mm / 120, 0.8)
    if place.is_small or place.is_flat:
        return _framed(place, hand, line)
    inner = replace(_oval(place), inset_mm=_EDGE_MM + 1.0 + 1.2 * growth(place), ring=True)
    weighed, below = weight(inner, hand)
    words = small(inner, hand, IDENTITY, 7.0, upper=True, spacing_em=0.1)
    crowned = inner.crowned(1.3 * words.size_pt * MM_PER_POINT)
    rows = (
        name_row(inner, hand, gap_mm=0.3),
        who_row(inner, hand, gap_mm=0.4, style="Italic"),
    )
    stacked = stack(crowned, rows, crowned.shoulder_mm(_SHOULDER), above_weight(below))
    over = curved(inner, words, inner.inset_mm, "over")
    return (_oval_frame(place, line), over, *stacked, weighed)


def _framed(place: Place, hand: Hand, line_mm: float) -> tuple[AnyElement, ...]:
    """The same words in straight lines, where an oval has no room."""
    frame = around(place, _EDGE_MM, hand.accent, line_mm=line_mm, second_mm=_SECOND_MM)
    inner = replace(place.inside(0.6), ring=True)
    weighed, below = weight(inner, hand)
    rows = (
        what_row(inner, hand, gap_mm=0.0, upper=not place.is_small),
        name_row(inner, hand, gap_mm=0.3),
        who_row(inner, hand, gap_mm=0.3, style="Italic"),
    )
    return (frame, *stack(inner, rows, inner.shoulder_mm(0.5), above_weight(below)), weighed)


def seal(place: Place) -> tuple[AnyElement, ...]:
    """The business on a ring; on a wide label the ring stands as a stamp beside the words."""
    hand = Hand(style="Bold")
    line = bounded(0.4, place.size_mm / 90, 1.0)
    if place.is_small:
        return _framed(place, hand, line)
    wide = place.panel.w_mm > max(_STAMP_FROM_MM, _WIDE * place.panel.h_mm)
    if wide and not place.is_round:
        return _stamped(place, hand)
    ring = _oval(place)
    words = small(ring, hand, BUSINESS, 8.0, upper=True, spacing_em=0.1, style="Semibold")
    inset = _EDGE_MM + 0.9 * growth(place)
    deep = 1.35 * words.size_pt * MM_PER_POINT
    under = place.least_side_mm >= _UNDER_FROM_MM
    inner = replace(ring, inset_mm=inset + (deep if under else 0.0), ring=True)
    crowned = inner if under else inner.crowned(deep)
    around_it = [curved(ring, words, inset, "over")]
    if under:
        place_words = small(ring, hand, ADDRESS, 6.5, spacing_em=0.04)
        around_it.append(curved(ring, place_words, inset, "under"))
    weighed, below = weight(inner, hand, style="Semibold")
    rows = (
        name_row(inner, hand, gap_mm=0.0),
        rule_row(inner, hand, 0.5, line_mm=line / 2, gap_mm=0.4),
        what_row(inner, hand, gap_mm=0.8, style="Semibold"),
        line_row(inner, hand, LOT if under else f"{ADDRESS}\n{LOT}", gap_mm=0.3),
    )
    stacked = stack(crowned, rows, crowned.shoulder_mm(_SHOULDER), above_weight(below))
    return (_oval_frame(place, line, second_mm=0.0), *around_it, *stacked, weighed)


def _stamped(place: Place, hand: Hand) -> tuple[AnyElement, ...]:
    panel = place.panel
    side = min(0.42 * panel.w_mm, panel.h_mm - 2 * place.inset_mm)
    stamp = Rect(panel.x_mm + place.inset_mm, panel.y_mm + (panel.h_mm - side) / 2, side, side)
    ring = Place(stamp, place.label, "circle", 0.0)
    left = stamp.right_mm + bounded(1.2, 0.02 * panel.w_mm, 4.0) - place.inset_mm
    beside = replace(place, panel=Rect(left, panel.y_mm, panel.right_mm - left, panel.h_mm))
    capitals = side >= _CAPITALS_FROM_MM
    words = small(ring, hand, BUSINESS, 9.0, upper=capitals, spacing_em=0.04, style="Semibold")
    line = bounded(0.3, side / 90, 0.9)
    inset = 2.2 * line + 0.03 * side
    deep = 0.15 * side
    low = small(ring, hand, IDENTITY, 9.0, upper=capitals, spacing_em=0.04)
    inner = stamp.inset(0.27 * side)
    weighed, below = weight(beside, hand, style="Semibold")
    rows = (
        name_row(beside, hand, gap_mm=0.2),
        who_row(beside, hand, gap_mm=0.4),
    )
    return (
        _ring(stamp, line),
        _ring(stamp.inset(inset + deep), line / 2),
        curved(ring, words, inset, "over"),
        curved(ring, low, inset, "under"),
        OrnamentElement(
            x_mm=inner.x_mm, y_mm=inner.y_mm, w_mm=inner.w_mm, h_mm=inner.h_mm, ornament="flame"
        ),
        *stack(beside, rows, beside.top_mm, above_weight(below)),
        weighed,
    )


def cap(place: Place) -> tuple[AnyElement, ...]:
    """For a lid: the business and its web address round the candle's name."""
    hand = Hand(family=SERIF, style="Semibold", plain=SERIF)
    ring = _oval(place)
    line = bounded(0.3, place.size_mm / 110, 0.8)
    if place.is_flat:
        return _flat_cap(place, hand, line)
    words = small(ring, hand, BUSINESS, 8.0, upper=True, spacing_em=0.12, style="Semibold")
    web = small(ring, hand, "{web}", 6.5, spacing_em=0.06)
    inset = _EDGE_MM + _SECOND_MM + 0.7 * growth(place)
    inner = replace(ring, inset_mm=inset + 1.5 * words.size_pt * MM_PER_POINT, ring=True)
    middle = place.middle_mm[1]
    half = 0.26 * place.panel.h_mm
    high = bounded(2.6, 0.13 * place.panel.h_mm, 12.0)
    rows = (
        fixed_row(lambda box: (_flame(box, "#000000"),), high),
        name_row(inner, hand, gap_mm=0.4),
        what_row(inner, hand, gap_mm=0.3, style="Italic"),
    )
    return (
        _oval_frame(place, line),
        curved(ring, words, inset, "over"),
        curved(ring, web, inset, "under"),
        *stack(inner, rows, middle - half, middle + half),
    )


def _flat_cap(place: Place, hand: Hand, line_mm: float) -> tuple[AnyElement, ...]:
    frame = around(place, _EDGE_MM, hand.accent, line_mm=line_mm, second_mm=_SECOND_MM)
    inner = replace(place.inside(0.8), ring=True)
    rows: tuple[Row, ...] = (
        line_row(inner, hand, BUSINESS, size_pt=8.0, upper=True, spacing_em=0.12, gap_mm=0.0),
        name_row(inner, hand, gap_mm=0.4),
        what_row(inner, hand, gap_mm=0.3, style="Italic"),
    )
    if not place.is_small:
        rows = (*rows, line_row(inner, hand, "{web}", gap_mm=0.3))
    return (frame, *stack(inner, rows, inner.shoulder_mm(0.5), inner.bottom_mm))


def _flame(box: Rect, colour: str) -> OrnamentElement:
    return OrnamentElement(
        x_mm=box.x_mm, y_mm=box.y_mm, w_mm=box.w_mm, h_mm=box.h_mm, ornament="flame", colour=colour
    )


def _oval(place: Place) -> Place:
    """The panel as a round one."""
    return place if place.is_round else replace(place, shape="oval")


def _oval_frame(place: Place, line_mm: float, second_mm: float = _SECOND_MM) -> FrameElement:
    if place.is_round and place.whole:
        return around(place, _EDGE_MM, "#000000", line_mm=line_mm, second_mm=second_mm)
    panel = place.panel
    return FrameElement(
        x_mm=panel.x_mm, y_mm=panel.y_mm, w_mm=panel.w_mm, h_mm=panel.h_mm, figure="oval",
        inset_mm=_EDGE_MM, line_mm=line_mm, second_mm=second_mm,
    )  # fmt: skip


def _ring(box: Rect, line_mm: float) -> FrameElement:
    return FrameElement(
        x_mm=box.x_mm, y_mm=box.y_mm, w_mm=box.w_mm, h_mm=box.h_mm, figure="oval",
        line_mm=line_mm, inset_mm=line_mm / 2,
    )  # fmt: skip
