"""Rows that most designs share: what it is, its lot, who made it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from wickbench.domain.starting.stacking import Row, Words, text_row
from wickbench.domain.starting.words import (
    IDENTITY,
    LOT,
    USUAL_WHO,
    WHO,
    WHO_ABOVE_WHERE,
    Hand,
    growth,
    small,
    title,
    usual_letters,
)

if TYPE_CHECKING:
    from wickbench.domain.starting.place import Place

_LOT_FROM_MM: Final = 36.0
_WHAT_PT: Final = 7.5
_WHO_PT: Final = 6.5
_EASED: Final = 0.8


def has_room_for_lot(place: Place) -> bool:
    """Whether a label is large enough to say its lot; a smaller one leaves it to the base."""
    return place.size_mm >= _LOT_FROM_MM


def name_row(place: Place, hand: Hand, *, gap_mm: float = 0.0, **other: Any) -> Row:  # noqa: ANN401
    """The candle's name, in what height is left."""
    words = title(place, hand, **other)
    return text_row(words, grow=1.0, gap_mm=gap_mm, usual=usual_letters(words))


def what_row(place: Place, hand: Hand, *, gap_mm: float = 0.6, **other: Any) -> Row:  # noqa: ANN401
    """What the candle is."""
    return _row(place, small(place, hand, IDENTITY, _WHAT_PT, **other), gap_mm)


def who_row(
    place: Place,
    hand: Hand,
    *,
    gap_mm: float = 0.6,
    lot: bool = True,
    **other: Any,  # noqa: ANN401
) -> Row:
    """Who made it and where, and the lot below where it is wanted and there is room for it."""
    words = small(place, hand, WHO, _WHO_PT, **other)
    room_mm = 0.95 * place.row(*_middle(place)).w_mm
    size_pt = max(words.least_pt, _EASED * words.size_pt)
    if words.high_mm(room_mm, size_pt, USUAL_WHO) > words.high_mm(room_mm, size_pt, 1):
        words = replace(words, text=WHO_ABOVE_WHERE)
    if lot and has_room_for_lot(place):
        words = replace(words, text=f"{words.text}\n{LOT}", more_lines=1)
    return text_row(words, gap_mm=gap_mm * growth(place), usual=USUAL_WHO)


def _middle(place: Place) -> tuple[float, float]:
    middle = place.middle_mm[1]
    return middle, middle + 0.2 * place.panel.h_mm


def line_row(
    place: Place,
    hand: Hand,
    text: str,
    *,
    size_pt: float = _WHO_PT,
    gap_mm: float = 0.6,
    **other: Any,  # noqa: ANN401
) -> Row:
    """Any other small line."""
    words = small(place, hand, text, size_pt, **other)
    return _row(place, replace(words, more_lines=text.count("\n")), gap_mm)


def _row(place: Place, words: Words, gap_mm: float) -> Row:
    return text_row(words, gap_mm=gap_mm * growth(place), usual=usual_letters(words))
