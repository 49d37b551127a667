"""Where a place on a printed label comes to lie on the wall of a vessel, and how it is seen."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from wickbench.documents.flattening import Point
    from wickbench.documents.label_layout import LaidOutLabel
    from wickbench.documents.ring import Ring
    from wickbench.domain.wrap_fit import Wall

_CYLINDER_MM: Final = 1e6
"""A wall that rolls out to a ring of a larger radius is drawn as a cylinder."""


class WallMap:
    """A label laid on a wall without stretching: paper bends, but keeps its lengths.

    The wall rolled out flat is a piece of a ring; a place of the paper lies on it as it does on
    the table. So the ends of a straight label rise or hang on a cone, and a piece of a ring cut
    for this cone lies level all round.

    Args:
        laid: the label; the middle of its front comes to the front of the vessel.
        wall: outside of the vessel.
        middle_mm: height of the label's middle above the foot.
    """

    def __init__(self, laid: LaidOutLabel, wall: Wall, middle_mm: float) -> None:
        design = laid.design
        self.wall, self.middle_mm = wall, middle_mm
        self.ring: Ring | None = laid.bent.ring if laid.bent is not None else None
        self._front = (design.width_mm - design.overlap_mm) / 2
        self._half = design.height_mm / 2
        self._side = 1.0 if wall.slope >= 0 else -1.0
        self._radius = wall.flat_radius_mm(middle_mm)
        self._middle_radius = wall.diameter_mm(middle_mm) / 2

    def place(self, x_mm: float, y_mm: float) -> Point:
        """Angle from the front in radians, to the right, and height above the foot in mm.

        Args:
            x_mm: from the left of the paper, as the label is printed.
            y_mm: from its top.
        """
        across, up = x_mm - self._front, self._half - y_mm
        if self.ring is not None:
            across, up = _turned_to(self.ring, self._front, x_mm, y_mm)
        if self._radius > _CYLINDER_MM:
            return across / self._middle_radius, self.middle_mm + up
        far = self._radius + self._side * up
        along = self._side * (math.hypot(across, far) - self._radius)
        sine = abs(self.wall.slope) / self.wall.stretch
        return math.atan2(across, far) / sine, self.middle_mm + along / self.wall.stretch

    def seen(self, angle: float, height_mm: float) -> Point:
        """A place on the wall seen from the front: mm right of the axis, mm below the foot."""
        return self.wall.diameter_mm(height_mm) / 2 * math.sin(angle), -height_mm

    def middle_line(self, width_mm: float) -> tuple[float, float]:
        """Angles of the two ends of the label's middle line."""
        ends = ((0.0, self._half), (width_mm, self._half))
        if self.ring is not None:
            ends = (self.ring.to_paper(*ends[0]), self.ring.to_paper(*ends[1]))
        return self.place(*ends[0])[0], self.place(*ends[1])[0]


def _turned_to(ring: Ring, front_mm: float, x_mm: float, y_mm: float) -> Point:
    """A place of the paper from the middle of the front, with the front turned upright."""
    middle_x, middle_y = ring.middle
    across, down = x_mm - middle_x, (middle_y - y_mm) * ring.side
    angle = math.atan2(across, down) - (front_mm - ring.width_mm / 2) / ring.radius_mm
    far = math.hypot(across, down)
    return far * math.sin(angle), ring.side * (far * math.cos(angle) - ring.radius_mm)
