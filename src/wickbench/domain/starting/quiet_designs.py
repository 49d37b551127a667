"""Designs of type and lines alone, in black: they print on kraft as well as on white."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from wickbench.domain.starting.rows import name_row, what_row, who_row
from wickbench.domain.starting.stacking import stack
from wickbench.domain.starting.words import (
    SERIF,
    Hand,
    above_weight,
    bounded,
    low_in,
    rule_row,
    weight,
)

if TYPE_CHECKING:
    from wickbench.domain.labels import AnyElement
    from wickbench.domain.starting.place import Place


def hush(place: Place) -> tuple[AnyElement, ...]:
    """Spaced capitals over a fine short rule."""
    hand = Hand(family=SERIF)
    weighed, below = weight(place, hand)
    rows = (
        name_row(place, hand, upper=True, spacing_em=0.08, vertical=low_in(place)),
        rule_row(place, hand, 0.22, line_mm=0.25, gap_mm=0.4),
        what_row(place, hand, gap_mm=1.4),
        who_row(place, hand, gap_mm=0.5),
    )
    begin = place.top_mm + (0.06 * place.panel.h_mm if place.is_round else 0.0)
    return (*stack(place, rows, begin, above_weight(below)), weighed)


def ledger(place: Place) -> tuple[AnyElement, ...]:
    """Set left between level lines, as in a book of accounts."""
    hand = Hand(style="Light", align="centre" if place.is_round else "left")
    weighed, below = weight(place, hand)
    rows = (
        rule_row(place, hand, 1.0, line_mm=0.8, gap_mm=0.0),
        name_row(place, hand, gap_mm=0.8),
        rule_row(place, hand, 1.0, line_mm=0.2, gap_mm=0.6),
        what_row(place, hand, gap_mm=0.8, style="Semibold"),
        who_row(place, hand),
        rule_row(place, hand, 1.0, line_mm=0.2, gap_mm=0.8),
    )
    begin = place.top_mm + (0.08 * place.panel.h_mm if place.is_round else 0.0)
    return (*stack(place, rows, begin, above_weight(below)), weighed)


def quill(place: Place) -> tuple[AnyElement, ...]:
    """A slanted name between two pairs of rules, as on a bookplate."""
    hand = Hand(family=SERIF, style="Italic", plain=SERIF)
    place = replace(place, ring=True)  # slanted letters lean over the edge of their box
    weighed, below = weight(place, hand, upper=True, spacing_em=0.04)
    rows = (
        what_row(place, hand, upper=True, spacing_em=0.12, gap_mm=0.0),
        rule_row(place, hand, 0.86, line_mm=0.25, gap_mm=0.9),
        name_row(place, hand, gap_mm=0.4),
        rule_row(place, hand, 0.86, line_mm=0.25, gap_mm=0.8),
        who_row(place, hand, gap_mm=0.9, style="Italic"),
    )
    begin = place.shoulder_mm(0.5)
    return (*stack(place, rows, begin, above_weight(below)), weighed)


def bark(place: Place) -> tuple[AnyElement, ...]:
    """The boldest name there is between two bars; made for kraft."""
    hand = Hand(style="Black", align="centre" if place.is_round else "left")
    bar = bounded(1.4, 0.055 * place.panel.h_mm, 5.0)
    weighed, below = weight(place, hand, style="Bold")
    rows = (
        rule_row(place, hand, 1.0, line_mm=bar, gap_mm=0.0),
        name_row(place, hand, gap_mm=1.2, upper=True),
        what_row(place, hand, gap_mm=0.4, style="Bold", upper=True, spacing_em=0.06),
        who_row(place, hand, gap_mm=0.6),
        rule_row(place, hand, 1.0, line_mm=bar / 2, gap_mm=0.8),
    )
    begin = place.top_mm + (0.08 * place.panel.h_mm if place.is_round else 0.0)
    return (*stack(place, rows, begin, above_weight(below)), weighed)
