"""Rows that most designs share: what it is, its lot, who made it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from wickbench.domain.starting.stacking import Row, Words, text_row
from wickbench.domain.starting.words import (
    IDENTITY,
    LOT,
    WHO,
    WHO_ABOVE_WHERE,
    Hand,
    growth,
    small,
    title,
)

if TYPE_CHECKING:
    from wickbench.domain.starting.place import Place

_LOT_FROM_MM: Final = 36.0
_WHAT_PT: Final = 7.5
_WHO_PT: Final = 6.5


def has_room_for_lot(place: Place) -> bool:
    """Whether a label is large enough to say its lot; a smaller one leaves it to the base."""
    return place.size_mm >= _LOT_FROM_MM and not place.is_small


def name_row(place: Place, hand: Hand, *, gap_mm: float = 0.0, **other: Any) -> Row:  # noqa: ANN401
    """The candle's name, in what height is left."""
    words = title(place, hand, **other)
    return text_row(words, grow=1.0, gap_mm=gap_mm)


def what_row(place: Place, hand: Hand, *, gap_mm: float = 0.6, **other: Any) -> Row:  # noqa: ANN401
    """What the candle is."""
    return _row(place, small(place, hand, IDENTITY, _WHAT_PT, **other), gap_mm)


def who_row(
    place: Place,
    hand: Hand,
    *,
    gap_mm: float = 0.6,
    lot: bool = True,
    joined: bool = False,
    **other: Any,  # noqa: ANN401
) -> Row:
    """Who made it and where, and the lot below.

    Args:
        place: the panel.
        hand: how it is written.
        gap_mm: free above it.
        lot: say the lot where there is room for it.
        joined: name and place run on, where height is dear.
        other: fields of `Words`.
    """
    run_on = joined or (place.is_small and place.is_flat)
    lines = [WHO] if run_on else [WHO_ABOVE_WHERE]
    if lot and has_room_for_lot(place):
        lines.append(LOT)
    words = small(place, hand, "\n".join(lines), _WHO_PT, **other)
    return text_row(words, gap_mm=gap_mm * growth(place))


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
    return _row(place, small(place, hand, text, size_pt, **other), gap_mm)


def _row(place: Place, words: Words, gap_mm: float) -> Row:
    return text_row(words, gap_mm=gap_mm * growth(place))
