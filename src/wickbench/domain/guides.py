"""Guides laid on a label: lines that are seen and snapped to while working, and never printed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.domain.errors import OutOfRange
from wickbench.domain.rounding import half_up_decimal

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

_PLACES: Final = 2


@dataclass(frozen=True, slots=True, order=True)
class Guide:
    """A line across the label.

    Attributes:
        upright: from top to bottom; else from left to right.
        at_mm: from the label's left or top edge, kept to a hundredth of a millimetre.

    Raises:
        OutOfRange: ``label.measure`` for a place that is no number.
    """

    upright: bool
    at_mm: float

    def __post_init__(self) -> None:
        if not math.isfinite(self.at_mm):
            raise OutOfRange("label.measure", value=str(self.at_mm))
        object.__setattr__(self, "at_mm", float(half_up_decimal(self.at_mm, _PLACES)))


def tidy_guides(guides: Iterable[Guide]) -> tuple[Guide, ...]:
    """Each guide once, upright ones last, from left to right and top to bottom."""
    return tuple(sorted(set(guides)))


def guide_lines(guides: Sequence[Guide]) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Places of the upright guides and of the level ones, as ``snap_lines`` gives them."""
    uprights = tuple(one.at_mm for one in guides if one.upright)
    return uprights, tuple(one.at_mm for one in guides if not one.upright)
