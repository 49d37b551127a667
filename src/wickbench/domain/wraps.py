"""Labels on round walls: the ring sector that wraps a cone, and what a straight one does there."""

from __future__ import annotations

import math
from dataclasses import dataclass

from wickbench.domain.errors import OutOfRange
from wickbench.domain.ranges import within

_WIDEST_MM = 2000.0
_HALF_TURN = 180.0


@dataclass(frozen=True, slots=True)
class Sector:
    """A piece of a ring, flat: the shape of a label on a cone.

    Attributes:
        inner_radius_mm: radius of its short edge.
        outer_radius_mm: radius of its long edge.
        angle_deg: angle between its straight edges.
    """

    inner_radius_mm: float
    outer_radius_mm: float
    angle_deg: float

    @property
    def inner_arc_mm(self) -> float:
        """Length of the short edge."""
        return self.inner_radius_mm * math.radians(self.angle_deg)

    @property
    def outer_arc_mm(self) -> float:
        """Length of the long edge."""
        return self.outer_radius_mm * math.radians(self.angle_deg)

    @property
    def width_mm(self) -> float:
        """Width of the upright rectangle round it."""
        if self.angle_deg >= _HALF_TURN:
            return 2 * self.outer_radius_mm
        return 2 * self.outer_radius_mm * math.sin(math.radians(self.angle_deg) / 2)

    @property
    def height_mm(self) -> float:
        """Height of the upright rectangle round it."""
        # Past half a turn the ends of the long edge hang lower than those of the short one.
        down = math.cos(math.radians(self.angle_deg) / 2)
        radius = self.inner_radius_mm if down >= 0.0 else self.outer_radius_mm
        return self.outer_radius_mm - radius * down


def wrap_development(bottom_mm: float, top_mm: float, height_mm: float) -> Sector:
    """The wall of a tapered vessel rolled out flat.

    Args:
        bottom_mm: outer diameter at the lower edge.
        top_mm: outer diameter at the upper edge; narrower or wider than the lower.
        height_mm: upright distance between the two.

    Raises:
        OutOfRange: for a size that cannot be, and for a straight wall, which rolls out to a
            plain rectangle.
    """
    for diameter in (bottom_mm, top_mm):
        within(diameter, 1.0, _WIDEST_MM, "shape.wrap-diameter", unit="mm")
    within(height_mm, 1.0, _WIDEST_MM, "shape.wrap-height", unit="mm")
    taper = abs(top_mm - bottom_mm) / 2
    if taper <= 1e-9 * max(top_mm, bottom_mm):
        raise OutOfRange("shape.no-taper", length_mm=math.pi * top_mm)
    slant = math.hypot(height_mm, taper)
    inner = slant * min(bottom_mm, top_mm) / 2 / taper
    return Sector(inner, inner + slant, 360.0 * taper / slant)


def partial_wrap(whole: Sector, length_mm: float, height_mm: float) -> Sector:
    """A label of a length on its middle line and a height along the wall, centred on the cone.

    Raises:
        OutOfRange: when it is longer than once round or taller than the wall.
    """
    middle = (whole.inner_radius_mm + whole.outer_radius_mm) / 2
    around = middle * math.radians(whole.angle_deg)
    within(length_mm, 1.0, around, "shape.label-length", unit="mm")
    tall = whole.outer_radius_mm - whole.inner_radius_mm
    within(height_mm, 1.0, tall, "shape.label-height", unit="mm")
    return Sector(middle - height_mm / 2, middle + height_mm / 2, math.degrees(length_mm / middle))


def straight_label_rise_mm(radius_mm: float, length_mm: float) -> float:
    """How far the ends of a straight label rise on a cone: the sagitta R − √(R² − (ℓ/2)²).

    Args:
        radius_mm: radius of the development on the label's middle line.
        length_mm: length of the label.

    Raises:
        OutOfRange: for a radius that cannot be, or a label longer than twice the radius.
    """
    within(radius_mm, 1.0, 1e7, "shape.wrap-radius", unit="mm")
    half = within(length_mm, 0.0, 2 * radius_mm, "shape.label-length", unit="mm") / 2
    # half²/(R + √…) and not R - √…, which loses digits on a nearly straight wall.
    return half * half / (radius_mm + math.sqrt(radius_mm * radius_mm - half * half))


def longest_straight_label_mm(radius_mm: float, rise_mm: float = 1.0) -> float:
    """Longest straight label whose ends rise by no more than ``rise_mm``.

    Raises:
        OutOfRange: for a radius that cannot be, or a rise outside 0 to the radius.
    """
    within(radius_mm, 1.0, 1e7, "shape.wrap-radius", unit="mm")
    rise = within(rise_mm, 0.0, radius_mm, "shape.label-rise", unit="mm")
    return 2 * math.sqrt(rise * (2 * radius_mm - rise))
