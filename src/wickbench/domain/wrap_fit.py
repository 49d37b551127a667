"""Labels fitted to a round vessel: the room on its wall and the way round.

Heights are upright and count from the foot of the outside; what is measured along a wall is
named so. Overlap, clearance and the largest rise are common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from wickbench.domain.errors import OutOfRange
from wickbench.domain.ranges import within
from wickbench.domain.rounding import half_up
from wickbench.domain.wraps import Sector, longest_straight_label_mm, straight_label_rise_mm

USUAL_OVERLAP_MM: Final = 5.0
"""How far the end of a wrap lies over its beginning; 5 to 6 mm is usual."""
CLEARANCE_MM: Final = 2.0
"""Kept free above and below a label inside the straight part of the wall."""
UNSURE_CLEARANCE_MM: Final = 6.0
"""The same, when nobody measured where the wall is straight."""
FRONT_SHARE: Final = 0.4
"""Share of the way round that is seen from the front as one piece (16 CFR 500.21(a): 40 %)."""
MOST_RISE_MM: Final = 1.0
"""A straight label whose ends rise more stands crooked or wrinkles."""
LEAST_MM: Final = 5.0
"""A label lower than this is none."""

_WIDEST_MM: Final = 2000.0
_STRAIGHT: Final = 1e-9
_TENTH: Final = 10.0
_HAIR: Final = 1e-6
_CUT_MM: Final = 0.01


@dataclass(frozen=True, slots=True)
class Wall:
    """The outside of a round vessel, straight from foot to rim.

    Attributes:
        bottom_mm: outer diameter at the foot.
        top_mm: outer diameter at the rim.
        height_mm: upright distance between the two.

    Raises:
        OutOfRange: for a size that cannot be.
    """

    bottom_mm: float
    top_mm: float
    height_mm: float

    def __post_init__(self) -> None:
        for diameter in (self.bottom_mm, self.top_mm):
            within(diameter, 1.0, _WIDEST_MM, "shape.wrap-diameter", unit="mm")
        within(self.height_mm, 1.0, _WIDEST_MM, "shape.wrap-height", unit="mm")

    @property
    def slope(self) -> float:
        """How much the radius grows for each millimetre upwards; below 0 it narrows."""
        return (self.top_mm - self.bottom_mm) / 2 / self.height_mm

    @property
    def tapers(self) -> bool:
        """Whether it is a cone and no cylinder."""
        return abs(self.slope) > _STRAIGHT

    @property
    def stretch(self) -> float:
        """Length along the wall of one millimetre upwards."""
        return math.hypot(1.0, self.slope)

    def diameter_mm(self, height_mm: float) -> float:
        """Outer diameter at a height above the foot, also beyond foot and rim."""
        return self.bottom_mm + 2 * self.slope * height_mm

    def around_mm(self, height_mm: float) -> float:
        """The way round at a height."""
        return math.pi * self.diameter_mm(height_mm)

    def flat_radius_mm(self, height_mm: float) -> float:
        """Radius of the ring that the wall rolls out to, at a height; infinite for a cylinder."""
        if not self.tapers:
            return math.inf
        return self.diameter_mm(height_mm) / 2 * self.stretch / abs(self.slope)

    def rise_mm(self, height_mm: float, length_mm: float) -> float:
        """How far the ends of a straight label rise (or hang) whose middle is at a height."""
        radius = self.flat_radius_mm(height_mm)
        if math.isinf(radius) or radius > _WIDEST_MM * 1000:
            return 0.0
        # Longer than the ring is wide: its ends stand at right angles to its middle, at most.
        return straight_label_rise_mm(radius, min(length_mm, 2 * radius))

    def longest_straight_mm(self, height_mm: float, rise_mm: float = MOST_RISE_MM) -> float:
        """Longest straight label whose ends rise no more; infinite on a cylinder."""
        radius = self.flat_radius_mm(height_mm)
        if math.isinf(radius) or radius > _WIDEST_MM * 1000:
            return math.inf
        return longest_straight_label_mm(radius, min(rise_mm, radius))


@dataclass(frozen=True, slots=True)
class Zone:
    """The part of a wall where a label goes, from one height to another."""

    wall: Wall
    from_mm: float
    to_mm: float

    @property
    def high_mm(self) -> float:
        """Its upright height."""
        return self.to_mm - self.from_mm

    @property
    def middle_mm(self) -> float:
        """Height of its middle."""
        return (self.from_mm + self.to_mm) / 2

    def inside(self, clearance_mm: float) -> Zone:
        """The same with this much kept free above and below.

        Raises:
            OutOfRange: ``wrap.no-room`` when nothing sensible is left.
        """
        low, high = self.from_mm + clearance_mm, self.to_mm - clearance_mm
        if high - low < LEAST_MM:
            raise OutOfRange("wrap.no-room", zone_mm=self.high_mm, clearance_mm=clearance_mm)
        return Zone(self.wall, low, high)

    def label_edges_mm(self, high_mm: float) -> tuple[float, float]:
        """Lower and upper edge of a label so high along the wall, in the middle of the zone."""
        half = high_mm / self.wall.stretch / 2
        return self.middle_mm - half, self.middle_mm + half


@dataclass(frozen=True, slots=True)
class WrapSize:
    """Measures of a label for a wall.

    Attributes:
        width_mm: along its middle line, with the overlap.
        height_mm: along the wall.
        bottom_mm: outer diameter at its lower edge.
        top_mm: outer diameter at its upper edge.
        overlap_mm: how far its end lies over its beginning; 0 for one that does not go round.
    """

    width_mm: float
    height_mm: float
    bottom_mm: float
    top_mm: float
    overlap_mm: float = 0.0

    @property
    def middle_mm(self) -> float:
        """Outer diameter at its middle line."""
        return (self.bottom_mm + self.top_mm) / 2

    @property
    def wall(self) -> Wall:
        """The wall that it was bent for, as high as it is."""
        taper = abs(self.top_mm - self.bottom_mm) / 2
        return Wall(self.bottom_mm, self.top_mm, math.sqrt(max(1.0, self.height_mm**2 - taper**2)))

    @property
    def paper_mm(self) -> tuple[float, float]:
        """Width and height of the upright rectangle round it as it lies on the paper."""
        radius = self.wall.flat_radius_mm(self.wall.height_mm / 2)
        # A wall nearly straight bends it by less than can be cut.
        if self.width_mm * max(self.width_mm, self.height_mm) < _CUT_MM * radius:
            return self.width_mm, self.height_mm
        half = self.height_mm / 2
        piece = Sector(radius - half, radius + half, math.degrees(self.width_mm / radius))
        return piece.width_mm, piece.height_mm

    @property
    def seen_mm(self) -> float:
        """Length that is seen once it is on: without the overlap."""
        return self.width_mm - self.overlap_mm


def fit_wrap(
    zone: Zone, *, overlap_mm: float = USUAL_OVERLAP_MM, share: float | None = None
) -> WrapSize:
    """A label as high as a zone, once round the wall or over a share of it.

    Args:
        zone: where it goes, clearance taken off.
        overlap_mm: of a label that goes round.
        share: of the way round for a label on the front; ``None`` goes round and overlaps.

    Returns:
        width to the nearest tenth of a millimetre, height down to a tenth, diameters to
        hundredths.

    Raises:
        OutOfRange: ``wrap.share`` or ``wrap.overlap`` for one that cannot be.
    """
    wall = zone.wall
    high = math.floor(zone.high_mm * wall.stretch * _TENTH + _HAIR) / _TENTH
    low, top = zone.label_edges_mm(high)
    around = wall.around_mm(zone.middle_mm)
    if share is None:
        over = within(overlap_mm, 0.0, around / 2, "wrap.overlap", unit="mm")
        wide = around + over
    else:
        wide, over = around * within(share, 0.01, 1.0, "wrap.share"), 0.0
    return WrapSize(
        width_mm=half_up(wide, 1),
        height_mm=high,
        bottom_mm=half_up(wall.diameter_mm(low), 2),
        top_mm=half_up(wall.diameter_mm(top), 2),
        overlap_mm=over,
    )
