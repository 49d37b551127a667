"""The flat rectangle of a label bent to the piece of a ring that lies smoothly on a tapered wall.

A label for a cone is laid out in a rectangle: width along its middle line, height along the wall.
Rolled out flat, the wall is a piece of a ring (`wickbench.domain.wraps.wrap_development`), so a
place in the rectangle becomes an angle and a radius: lengths along the wall and along the middle
line stay as they are, above and below the rectangle is stretched or squeezed as the cone is.
A vessel that narrows downwards has the middle of the ring below the label, else above.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.domain.errors import OutOfRange
from wickbench.domain.wraps import Sector, wrap_development

if TYPE_CHECKING:
    from wickbench.domain.labels import LabelDesign

STRAIGHT_MM: Final = 0.01
"""A wall that bends a label by less than this is taken for straight."""


@dataclass(frozen=True, slots=True)
class Ring:
    """The map from the flat rectangle to the paper, mm, y down, and back.

    Attributes:
        width_mm: of the rectangle.
        height_mm: of the rectangle.
        radius_mm: of the ring, on the label's middle line.
        side: 1 when the middle of the ring lies below the label, -1 above.
    """

    width_mm: float
    height_mm: float
    radius_mm: float
    side: int

    @property
    def sector(self) -> Sector:
        """The piece of the ring."""
        half = self.height_mm / 2
        angle = math.degrees(self.width_mm / self.radius_mm)
        return Sector(self.radius_mm - half, self.radius_mm + half, angle)

    @property
    def middle(self) -> tuple[float, float]:
        """Middle of the ring, from the top left corner of the upright rectangle round it."""
        sector = self.sector
        below = sector.outer_radius_mm
        y = below if self.side > 0 else sector.height_mm - below
        return sector.width_mm / 2, y

    def to_paper(self, x_mm: float, y_mm: float) -> tuple[float, float]:
        """Where a place of the rectangle lies."""
        middle_x, middle_y = self.middle
        angle, radius = self._angle(x_mm), self._radius(y_mm)
        return (
            middle_x + radius * math.sin(angle),
            middle_y - self.side * radius * math.cos(angle),
        )

    def to_flat(self, x_mm: float, y_mm: float) -> tuple[float, float]:
        """The place of the rectangle that lies here."""
        middle_x, middle_y = self.middle
        across, down = x_mm - middle_x, (middle_y - y_mm) * self.side
        radius, angle = math.hypot(across, down), math.atan2(across, down)
        return (
            self.width_mm / 2 + self.radius_mm * angle,
            self.height_mm / 2 - self.side * (radius - self.radius_mm),
        )

    def direction(
        self, place: tuple[float, float], along: tuple[float, float]
    ) -> tuple[float, float]:
        """Where a small step of the rectangle leads, as derivative."""
        angle, radius = self._angle(place[0]), self._radius(place[1])
        around, out = radius * along[0] / self.radius_mm, -self.side * along[1]
        cosine, sine = math.cos(angle), math.sin(angle)
        return around * cosine + out * sine, self.side * (around * sine - out * cosine)

    def turn_deg(self, x_mm: float) -> float:
        """How far what stands upright in the rectangle is turned there, clockwise."""
        return math.degrees(self.side * self._angle(x_mm))

    def stretch(self, y_mm: float) -> float:
        """Length on the paper of a millimetre of width at a height."""
        return self._radius(y_mm) / self.radius_mm

    def _angle(self, x_mm: float) -> float:
        return (x_mm - self.width_mm / 2) / self.radius_mm

    def _radius(self, y_mm: float) -> float:
        return self.radius_mm + self.side * (self.height_mm / 2 - y_mm)


def ring_of(design: LabelDesign) -> Ring | None:
    """The ring that a wrap is bent to; None for every label that stays as it is.

    Raises:
        OutOfRange: ``shape.wrap-diameter`` or ``shape.wrap-height`` for a wall that cannot be,
            ``shape.label-length`` for a label that would go more than once round the ring.
    """
    bottom, top = design.wrap_bottom_mm, design.wrap_top_mm
    taper = abs(top - bottom) / 2
    if design.shape != "wrap" or taper == 0.0:
        return None
    upright = math.sqrt(max(0.0, design.height_mm**2 - taper**2))
    whole = wrap_development(bottom, top, upright)
    radius = (whole.inner_radius_mm + whole.outer_radius_mm) / 2
    largest = max(design.width_mm, design.height_mm)
    if design.width_mm * largest / radius < STRAIGHT_MM:
        return None
    if design.width_mm >= math.tau * radius:
        data = {"lowest_mm": 1.0, "highest_mm": math.tau * radius, "value_mm": design.width_mm}
        raise OutOfRange("shape.label-length", **data)
    return Ring(design.width_mm, design.height_mm, radius, 1 if top > bottom else -1)
