"""The room that a starting design fills: what is left of a sticker inside its edges."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Final

from wickbench.domain.sheets import Rect

MM_PER_POINT: Final = 25.4 / 72
SAFE_MM: Final = 2.0
"""Text stays this far inside the edge, for a printer feeds a millimetre off: common practice."""
WEIGHT_SHARE: Final = 0.3
"""The net weight stands in this lowest part of the panel: 16 CFR 500.6."""

_ROUND: Final = ("circle", "oval")
_EASE: Final = 0.12  # of a box's height above and below its letters is seldom inked
_SMALL_MM: Final = 30.0
_SMALL_SIDE_MM: Final = 35.0
_ROUND_SIDE: Final = 0.88
_FLAT: Final = 2.0
_DIRECTIONS: Final = 90
_STEPS: Final = 60


@dataclass(frozen=True, slots=True)
class Place:
    """A panel of a label.

    Attributes:
        panel: the panel, mm from the label's corner; the whole label where it has only one.
        label: the whole label; bands of colour go all along it.
        shape: rectangle, rounded, circle or oval.
        inset_mm: what is drawn stays this far inside the panel.
        crown_mm: more room kept free inside the upper half of a round one, for words along it.
        ring: a line is drawn round it that no letter may touch.
    """

    panel: Rect
    label: Rect
    shape: str = "rectangle"
    inset_mm: float = SAFE_MM
    crown_mm: float = 0.0
    ring: bool = False

    @property
    def whole(self) -> bool:
        """Whether the panel is the whole label, so that a frame follows the label's own edge."""
        return self.panel == self.label

    @property
    def is_round(self) -> bool:
        """Whether it is narrower above and below than in its middle."""
        return self.shape in _ROUND

    @property
    def follows_edge(self) -> bool:
        """Whether its curve is the sticker's own."""
        return self.is_round and self.whole and not self.crown_mm and not self.ring

    @property
    def top_mm(self) -> float:
        """Upper edge of the room."""
        return self.panel.y_mm + self.inset_mm + self.crown_mm

    @property
    def bottom_mm(self) -> float:
        """Lower edge of the room."""
        return self.panel.bottom_mm - self.inset_mm

    @property
    def middle_mm(self) -> tuple[float, float]:
        """Middle of the panel."""
        panel = self.panel
        return panel.x_mm + panel.w_mm / 2, panel.y_mm + panel.h_mm / 2

    @property
    def least_side_mm(self) -> float:
        """The shorter side of the panel."""
        return min(self.panel.w_mm, self.panel.h_mm)

    @property
    def is_small(self) -> bool:
        """Whether there is room for words alone: no ring, no list of facts."""
        return self.least_side_mm * (_ROUND_SIDE if self.is_round else 1.0) < _SMALL_SIDE_MM

    @property
    def is_flat(self) -> bool:
        """Whether an oval in it would leave no room for words."""
        return self.panel.w_mm > _FLAT * self.panel.h_mm

    @property
    def size_mm(self) -> float:
        """Side of a square as large as the panel; a round one counts as what fits in it."""
        round_one = math.pi / 4 if self.is_round else 1.0
        return math.sqrt(self.panel.w_mm * self.panel.h_mm * round_one)

    def shoulder_mm(self, share: float) -> float:
        """The height from which on a round panel is this share of its width."""
        if not self.is_round:
            return self.top_mm
        wide = share * self._half_mm(self.middle_mm[1])
        step = (self.middle_mm[1] - self.top_mm) / _STEPS
        heights = (self.top_mm + at * step for at in range(_STEPS))
        return next((at for at in heights if self._half_mm(at) >= wide), self.middle_mm[1])

    def crowned(self, by_mm: float) -> Place:
        """The same panel with room for words along its upper half."""
        return replace(self, crown_mm=self.crown_mm + by_mm)

    def inside(self, by_mm: float) -> Place:
        """The same panel with more room kept free along its edges."""
        return replace(self, inset_mm=self.inset_mm + by_mm)

    def row(self, top_mm: float, bottom_mm: float, *, wide: bool = False) -> Rect:
        """A box between two heights, as wide as both its edges have room.

        Args:
            top_mm: upper edge.
            bottom_mm: lower edge.
            wide: on a round sticker as wide as its roomier edge, its corners outside: each line
                of text is kept inside the sticker's own edge when it is set.
        """
        edges = (top_mm, bottom_mm)
        if wide and self.follows_edge:
            half = [self._half_mm(at) for at in edges]
            if top_mm < self.middle_mm[1] < bottom_mm:
                half.append(self._half_mm(self.middle_mm[1]))
            across = max(half)
        else:
            ease = _EASE * (bottom_mm - top_mm) if wide else 0.0
            across = min(self._half_mm(at) for at in (top_mm + ease, bottom_mm - ease))
        return Rect(self.middle_mm[0] - across, top_mm, 2 * across, max(0.0, bottom_mm - top_mm))

    def _half_mm(self, y_mm: float) -> float:
        half_w, half_h = self.panel.w_mm / 2, self.panel.h_mm / 2
        if self.is_round:
            below = y_mm - self.middle_mm[1]
            inset = self.inset_mm + (self.crown_mm if below < 0.0 else 0.0)
            return half_chord_mm(half_w, half_h, inset, abs(below))
        return max(0.0, half_w - self.inset_mm)


def margin_mm(width_mm: float, height_mm: float, corner_mm: float = 0.0) -> float:
    """What is left free along the edges: the safe zone, more on a larger label, clear of corners.

    Args:
        width_mm: of the panel.
        height_mm: of the panel.
        corner_mm: radius of its corners.
    """
    side = math.sqrt(width_mm * height_mm)
    free = SAFE_MM + max(0.0, 0.03 * (min(side, 2.0 * height_mm) - _SMALL_MM))
    if corner_mm <= SAFE_MM:
        return free
    # A box's corner this far inside lies just on the safe zone's own rounded corner.
    return max(free, corner_mm - (corner_mm - SAFE_MM) / math.sqrt(2.0))


def half_chord_mm(half_w: float, half_h: float, inset_mm: float, away_mm: float) -> float:
    """Half the width that an ellipse drawn in by an inset has at a height from its middle.

    A convex figure drawn in is the common part of its tangents' half planes, each moved in:
    x cos t + y sin t ≤ √(a² cos² t + b² sin² t) - inset.
    """
    if away_mm >= half_h - inset_mm:
        return 0.0
    found = half_w - inset_mm
    for step in range(_DIRECTIONS):
        angle = step * math.pi / 2 / _DIRECTIONS
        cosine, sine = math.cos(angle), math.sin(angle)
        reach = math.hypot(half_w * cosine, half_h * sine) - inset_mm
        found = min(found, (reach - away_mm * sine) / cosine)
    return max(0.0, found)


def weight_top_mm(place: Place) -> float:
    """The highest that the net weight may stand on a panel."""
    return place.panel.y_mm + (1.0 - WEIGHT_SHARE) * place.panel.h_mm
