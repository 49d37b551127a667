"""Rows under each other in a panel: each as high as its longest ordinary text needs."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from wickbench.domain.labels import AnyElement, TextElement
from wickbench.domain.sheets import Rect
from wickbench.domain.starting.place import MM_PER_POINT, Place

LEADING: Final = 1.15
_EM: Final = 0.52  # mean width of a letter of our typefaces with its share of blanks
_CAPITAL: Final = 0.62
_FILL: Final = 0.92  # of a line is filled before the next word goes to a new one
_LINE: Final = 1.05  # height of one line with its descenders, times the type size
_ROUNDS: Final = 4
_LEAST_GAP, _WIDEST_GAP = 0.4, 3.0


@dataclass(frozen=True, slots=True)
class Row:
    """Something that takes the whole width between two heights.

    Attributes:
        draw: what stands in the box that it gets.
        least_mm: the lowest it may be, at a width.
        wanted_mm: how high it would like to be, at a width.
        grow: its share of the height that is left.
        most_mm: it grows no higher, at a width; what is left then widens the gaps.
        gap_mm: free above it.
    """

    draw: Callable[[Rect], Sequence[AnyElement]]
    least_mm: Callable[[float], float]
    wanted_mm: Callable[[float], float]
    grow: float = 0.0
    most_mm: Callable[[float], float] | None = None
    gap_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Words:
    """A line of text as a design wants it.

    Attributes:
        text: with fields in braces.
        size_pt: wanted; a title takes what its box allows up to this.
        least_pt: the smallest.
        letters: how long each line, as typed, ordinarily is at most.
        usual: how long each usually is.
        family, style, colour, align, upper, spacing_em: as in `TextElement`.
        vertical: top, middle or bottom of its box.
    """

    text: str
    size_pt: float
    least_pt: float
    letters: tuple[int, ...]
    usual: tuple[int, ...]
    family: str
    style: str = "Regular"
    colour: str = "#000000"
    align: str = "centre"
    vertical: str = "middle"
    upper: bool = False
    spacing_em: float = 0.0

    def high_mm(self, width_mm: float, size_pt: float, *, usual: bool = False) -> float:
        """Height of the longest or the usual text at a size, broken at a width."""
        lines = self.lines(width_mm, size_pt, usual=usual)
        return (_LINE + (lines - 1) * LEADING) * size_pt * MM_PER_POINT

    def lines(self, width_mm: float, size_pt: float, *, usual: bool = False) -> int:
        """How many lines the longest or the usual text takes."""
        letter = ((_CAPITAL if self.upper else _EM) + self.spacing_em) * size_pt * MM_PER_POINT
        room = max(1.0, width_mm * _FILL)
        counts = self.usual if usual else self.letters
        return sum(max(1, math.ceil(count * letter / room)) for count in counts)

    def element(self, box: Rect) -> TextElement:
        """The text in its box."""
        fills = box.h_mm / _LINE / MM_PER_POINT
        size = max(self.least_pt, math.floor(min(self.size_pt, fills) * 2) / 2)
        return TextElement(
            x_mm=box.x_mm,
            y_mm=box.y_mm,
            w_mm=box.w_mm,
            h_mm=box.h_mm,
            text=self.text,
            family=self.family,
            style=self.style,
            size_pt=size,
            min_size_pt=self.least_pt,
            align=self.align,
            vertical=self.vertical,
            colour=self.colour,
            letter_spacing_em=self.spacing_em,
            leading=LEADING,
            upper=self.upper,
        )


def text_row(words: Words, *, grow: float = 0.0, gap_mm: float = 0.0) -> Row:
    """A row of text: one that grows wants no more than its least, for the others come first.

    Args:
        words: what it says.
        grow: its share of the height that is left.
        gap_mm: free above it.
    """
    two_lines = (_LINE + LEADING) * words.size_pt * MM_PER_POINT
    return Row(
        lambda box: (words.element(box),),
        lambda width: words.high_mm(width, words.least_pt),
        lambda width: 0.0 if grow else words.high_mm(width, words.size_pt, usual=True),
        grow=grow,
        most_mm=lambda _: two_lines,
        gap_mm=gap_mm,
    )


def fixed_row(
    draw: Callable[[Rect], Sequence[AnyElement]], high_mm: float, *, gap_mm: float = 0.0
) -> Row:
    """A row of one height: a rule or an ornament."""
    return Row(draw, lambda _: high_mm, lambda _: high_mm, gap_mm=gap_mm)


def stack(
    place: Place, rows: Sequence[Row], top_mm: float, bottom_mm: float
) -> tuple[AnyElement, ...]:
    """Put rows under each other.

    Args:
        place: the panel.
        rows: from top to bottom.
        top_mm: where the first begins.
        bottom_mm: where the last ends.
    """
    heights = [(bottom_mm - top_mm) / max(1, len(rows))] * len(rows)
    gaps = [row.gap_mm for row in rows]
    for _ in range(_ROUNDS):
        boxes = _boxes(place, heights, gaps, top_mm)
        heights, gaps = _heights(rows, [box.w_mm for box in boxes], bottom_mm - top_mm)
    found: list[AnyElement] = []
    for row, box in zip(rows, _boxes(place, heights, gaps, top_mm), strict=True):
        found += row.draw(box)
    return tuple(found)


def _boxes(
    place: Place, heights: Sequence[float], gaps: Sequence[float], top_mm: float
) -> list[Rect]:
    found, at = [], top_mm
    for high, gap in zip(heights, gaps, strict=True):
        at += gap
        found.append(place.row(at, at + high, wide=True))
        at += high
    return found


def _heights(
    rows: Sequence[Row], widths: Sequence[float], room_mm: float
) -> tuple[list[float], list[float]]:
    """Heights and gaps that fill the room: gaps give way first, then what is above the least."""
    least = [row.least_mm(width) for row, width in zip(rows, widths, strict=True)]
    wanted = [
        max(low, row.wanted_mm(width)) for row, width, low in zip(rows, widths, least, strict=True)
    ]
    gaps = [row.gap_mm for row in rows]
    spare = room_mm - sum(wanted) - sum(gaps)
    if spare >= 0.0:
        return _grown(rows, widths, wanted, gaps, spare)
    eased = max(0.0, 1.0 + spare / max(sum(gaps), 1e-9))
    gaps = [gap * max(eased, _LEAST_GAP) for gap in gaps]
    short = sum(wanted) + sum(gaps) - room_mm
    if short <= 0.0:
        return wanted, gaps
    give = sum(wanted) - sum(least)
    part = min(1.0, short / give) if give > 0 else 1.0
    heights = [high - part * (high - low) for high, low in zip(wanted, least, strict=True)]
    left = room_mm - sum(gaps)
    squeeze = min(1.0, left / sum(heights)) if sum(heights) > 0 else 1.0
    return [high * squeeze for high in heights], gaps


def _grown(
    rows: Sequence[Row],
    widths: Sequence[float],
    heights: list[float],
    gaps: list[float],
    spare: float,
) -> tuple[list[float], list[float]]:
    """What is left goes to the rows that grow, and what they do not take to the gaps."""
    shares = sum(row.grow for row in rows)
    grown = []
    for row, width, high in zip(rows, widths, heights, strict=True):
        more = spare * row.grow / shares if shares else 0.0
        most = row.most_mm(width) if row.most_mm is not None else math.inf
        grown.append(high + max(0.0, min(more, most - high)))
    left = spare - (sum(grown) - sum(heights))
    between = sum(gaps)
    wider = min(_WIDEST_GAP, 1.0 + left / between) if between else 1.0
    return grown, [gap * wider for gap in gaps]
