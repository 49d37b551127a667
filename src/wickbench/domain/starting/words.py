"""What stands on every jar label: name, what it is, who made it and how much is in it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

from wickbench.domain.labels import FrameElement, LineElement
from wickbench.domain.sheets import Rect
from wickbench.domain.starting.place import MM_PER_POINT, Place, weight_top_mm
from wickbench.domain.starting.stacking import LEADING, Row, Words, fixed_row

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from wickbench.domain.labels import AnyElement, TextElement

SANS: Final = "Source Sans Pro"
SERIF: Final = "Source Serif Pro"
BLACK: Final = "#000000"

NAME: Final = "{candle}"
IDENTITY: Final = "{identity}"
WHO: Final = "{business}, {business address}"
BUSINESS: Final = "{business}"
ADDRESS: Final = "{business address}"
WHO_ABOVE_WHERE: Final = f"{BUSINESS}\n{ADDRESS}"
LOT: Final = "{lot}"
WEIGHT: Final = "{net weight}"

# Common practice, no source: 5 pt dark on light, 8 pt light on dark.
SMALLEST_PT: Final = 5.0
SMALLEST_REVERSED_PT: Final = 8.0
_SMALLEST_TITLE_PT: Final = 6.0
# Letters of the longest and of the usual text: a name in German, a house with street and town.
_LETTERS: Final = {
    NAME: (35, 16),
    IDENTITY: (30, 22),
    WHO: (76, 44),
    BUSINESS: (35, 20),
    ADDRESS: (41, 28),
    LOT: (18, 14),
    WEIGHT: (22, 22),
}
_OTHER: Final = (30, 20)
# Net weight: figures of 3.2 mm, on a large label 4.8 mm (16 CFR 500.21), are right for most jars.
_WEIGHT_PT: Final = (8.0, 14.5, 21.5)
_PARTS: Final = 12
_LETTERS_HIGH, _LITTLE = 0.32, 0.1  # of the box of two lines
_ROOMY_MM: Final = 10.5
_LARGE_MM: Final = 80.0
_OVER_MM: Final = 2.0
_NORMAL_MM: Final = 46.0  # side of the square as large as a usual sticker


@dataclass(frozen=True, slots=True)
class Hand:
    """How one design writes: its typefaces and inks.

    Attributes:
        family: of the name.
        style: of the name.
        plain: family of everything small.
        ink: of everything but the name.
        title: colour of the name.
        accent: of rules and frames.
        align: left or centre.
        least_pt: smallest of the small print.
    """

    family: str = SANS
    style: str = "Regular"
    plain: str = SANS
    ink: str = BLACK
    title: str = BLACK
    accent: str = BLACK
    align: str = "centre"
    least_pt: float = SMALLEST_PT


def bounded(low: float, value: float, high: float) -> float:
    """A value between two limits."""
    return min(high, max(low, value))


def growth(place: Place) -> float:
    """How much larger than usual type may be on a panel; it grows slower than the panel."""
    return bounded(0.7, float((place.size_mm / _NORMAL_MM) ** 0.7), 2.6)


def title(place: Place, hand: Hand, **other: Any) -> Words:  # noqa: ANN401 - fields of `Words`
    """The candle's name, the largest thing."""
    size = bounded(14.0, 0.24 * min(place.panel.h_mm, 1.2 * place.panel.w_mm) / MM_PER_POINT, 66.0)
    least = max(_SMALLEST_TITLE_PT, hand.least_pt)
    made = Words(NAME, size, least, *letters_of(NAME), hand.family, hand.style, hand.title)
    made = replace(made, align=hand.align)
    return replace(made, **other)


def low_in(place: Place) -> str:
    """How a name stands on a round panel with nothing above it: low, where it is wider."""
    return "bottom" if place.is_round else "middle"


def small(place: Place, hand: Hand, text: str, size_pt: float, **other: Any) -> Words:  # noqa: ANN401
    """Anything small; the size is what it has on a usual sticker."""
    size = bounded(hand.least_pt, round(size_pt * growth(place) * 2) / 2, 18.0)
    letters = letters_of(text)
    made = Words(text, size, hand.least_pt, *letters, hand.plain, "Regular", hand.ink)
    return replace(made, align=hand.align, **other)


def letters_of(text: str) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """How long each line of a text is at most, and usually."""
    known = [_LETTERS.get(line, _OTHER) for line in text.split("\n")]
    return tuple(most for most, _ in known), tuple(usual for _, usual in known)


def weight_words(place: Place, hand: Hand, **other: Any) -> Words:  # noqa: ANN401
    """The net weight, in figures as tall as most jars need."""
    low, high, highest = _WEIGHT_PT
    side = place.least_side_mm
    size = bounded(low, 0.4 * side / MM_PER_POINT / 2.8, highest if side > _LARGE_MM else high)
    made = Words(
        WEIGHT,
        round(size * 2) / 2,
        max(SMALLEST_PT, hand.least_pt),
        *letters_of(WEIGHT),
        hand.plain,
        "Regular",
        hand.ink,
        hand.align,
        upper=True,
    )
    return replace(made, **other)


def weight_box(place: Place, words: Words) -> Rect:
    """Where the net weight stands: in the lowest part of the panel, with room for two lines."""
    size_mm = words.size_pt * MM_PER_POINT
    two_lines = (1.05 + LEADING) * size_mm
    top = max(weight_top_mm(place), place.bottom_mm - two_lines)
    if not place.is_round or place.follows_edge:
        return place.row(top, place.bottom_mm, wide=True)
    top = weight_top_mm(place)
    ends = [top + (place.bottom_mm - top) * part / _PARTS for part in range(3, _PARTS + 1)]
    boxes = [place.row(top, min(end, top + two_lines), wide=True) for end in ends]
    return max(boxes, key=_largest_weight_mm)


def _largest_weight_mm(box: Rect) -> float:
    """How large a net weight may be in a box, on one line or two."""
    line = 0.62 * _LETTERS[WEIGHT][0]
    return max(min(box.h_mm, box.w_mm / line), min(box.h_mm / (1 + LEADING), box.w_mm / line / 0.6))


def weight(place: Place, hand: Hand, **other: Any) -> tuple[TextElement, Rect]:  # noqa: ANN401
    """The net weight and its box."""
    vertical = "top" if place.is_round else "bottom"
    words = weight_words(place, hand, **{"vertical": vertical, **other})
    box = weight_box(place, words)
    return words.element(box), box


def above_weight(box: Rect) -> float:
    """Where everything else ends.

    As much as the letters are high stays free above the net weight (16 CFR 500.6), of which two
    lines fill the box; on a low label there is less.
    """
    free = _LETTERS_HIGH if box.h_mm >= _ROOMY_MM else _LITTLE
    return box.y_mm - free * box.h_mm


def rule(place: Place, hand: Hand, share: float, line_mm: float = 0.3) -> Callable[[Rect], Any]:
    """Draws a level line through the middle of a box, along a share of the panel's width."""

    def draw(box: Rect) -> Sequence[AnyElement]:
        at = box.y_mm + box.h_mm / 2
        room = place.row(at, at)
        long = room.w_mm * share
        left = room.x_mm if hand.align == "left" else room.x_mm + (room.w_mm - long) / 2
        return (
            LineElement(
                x_mm=left, y_mm=at, w_mm=long, h_mm=0.0, line_mm=line_mm, colour=hand.accent
            ),
        )

    return draw


def rule_row(
    place: Place, hand: Hand, share: float, *, line_mm: float = 0.3, gap_mm: float = 1.0
) -> Row:
    """A row that is a level line."""
    return fixed_row(rule(place, hand, share, line_mm), max(line_mm, 0.6), gap_mm=gap_mm)


def strip(place: Place, top_mm: float, bottom_mm: float, colour: str) -> FrameElement:
    """A band of colour all along the label; it runs over the edges that it meets.

    A sheet that is fed a millimetre off shows no white line then.
    """
    label = place.label
    top = top_mm - (_OVER_MM if top_mm <= label.y_mm else 0.0)
    bottom = bottom_mm + (_OVER_MM if bottom_mm >= label.bottom_mm else 0.0)
    return FrameElement(
        x_mm=label.x_mm - _OVER_MM,
        y_mm=top,
        w_mm=label.w_mm + 2 * _OVER_MM,
        h_mm=bottom - top,
        line_mm=0.0,
        fill=colour,
    )


def around(place: Place, inset_mm: float, colour: str, **other: Any) -> FrameElement:  # noqa: ANN401
    """A line that follows the panel's edge: the sticker's own where there is one panel."""
    panel = place.panel
    values = {"figure": "sticker" if place.whole else "rectangle", "line_mm": 0.35, **other}
    return FrameElement(
        x_mm=panel.x_mm,
        y_mm=panel.y_mm,
        w_mm=panel.w_mm,
        h_mm=panel.h_mm,
        inset_mm=inset_mm,
        colour=colour,
        **values,
    )


def curved(place: Place, words: Words, inset_mm: float, curve: str) -> TextElement:
    """A line of text along the oval that lies this far inside a round panel's edge."""
    panel = place.panel
    box = Rect(
        panel.x_mm + inset_mm,
        panel.y_mm + inset_mm,
        max(0.0, panel.w_mm - 2 * inset_mm),
        max(0.0, panel.h_mm - 2 * inset_mm),
    )
    size = max(words.least_pt, words.size_pt)
    return replace(words.element(box), size_pt=size, curve=curve, wrap=False)
