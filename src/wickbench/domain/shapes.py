"""Insides of vessels as solids of revolution: what they hold to a height, how high it stands."""

from __future__ import annotations

import math
from bisect import bisect_left
from dataclasses import dataclass, field, replace
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING

from wickbench.domain.base_shape import FLAT_MM, fillet_missing_mm3, push_up_missing_mm3
from wickbench.domain.errors import OutOfRange
from wickbench.domain.ranges import within
from wickbench.domain.wraps import Sector, straight_label_rise_mm, wrap_development

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = [
    "Profile",
    "Sector",
    "scaled_to",
    "straight",
    "straight_label_rise_mm",
    "wrap_development",
]

_TALLEST_MM = 2000.0
_WIDEST_MM = 2000.0
_MM3_PER_ML = 1000.0
_ROUND_OFF = 1e-9
_HALVINGS = 80
_SCALE_STEPS = 40
# Half or twice the drawn volume: then a diameter or a weighing is wrong, not the scale.
_MOST_SCALED = 2.0
_BASE_SAMPLES = 32


@dataclass(frozen=True, slots=True)
class Profile:
    """The inside of a vessel: inner diameter at heights above the lowest point of its base.

    Between two heights the wall is straight (a frustum). Below the lowest height given the wall
    goes straight down; above the highest the vessel ends.

    Attributes:
        points: pairs (height in mm, inner diameter in mm), heights rising from 0 or more.
        base_fillet_mm: radius of the rounding between base and wall.
        push_up_mm: how far the middle of the base bulges up, as a spherical cap.

    Raises:
        OutOfRange: when heights do not rise, a number cannot be, or the base does not fit in.
    """

    points: tuple[tuple[float, float], ...]
    base_fillet_mm: float = field(default=0.0, kw_only=True)
    push_up_mm: float = field(default=0.0, kw_only=True)

    def __post_init__(self) -> None:
        object.__setattr__(self, "points", _checked_points(self.points))
        self._check_base()

    @property
    def top_mm(self) -> float:
        """Height where the vessel ends."""
        return self.points[-1][0]

    @property
    def brim_ml(self) -> float:
        """What it holds up to its top."""
        return self.volume_ml(self.top_mm)

    def diameter_mm(self, height_mm: float) -> float:
        """Inner diameter of the wall at a height; the rounding of the base is left out.

        Raises:
            OutOfRange: below 0 or above the top.
        """
        height = self._checked_height(height_mm)
        for (low, narrow), (high, wide) in pairwise(self._walls()):
            if height <= high:
                return narrow + (wide - narrow) * (height - low) / (high - low)
        return self.points[-1][1]

    def volume_ml(self, height_mm: float) -> float:
        """What it holds up to a height.

        Raises:
            OutOfRange: below 0 or above the top.
        """
        height = self._checked_height(height_mm)
        return max(0.0, self._wall_ml(height) - self._missing_ml(height))

    def height_mm(self, volume_ml: float) -> float:
        """How high a volume stands in it.

        Raises:
            OutOfRange: for a negative volume or more than it holds.
        """
        brim_ml = self.brim_ml
        if not -_ROUND_OFF <= volume_ml <= brim_ml * (1 + _ROUND_OFF):
            raise OutOfRange("shape.more-than-it-holds", value_ml=volume_ml, highest_ml=brim_ml)
        volume = min(max(volume_ml, 0.0), brim_ml)
        base_mm = max(self.base_fillet_mm, self.push_up_mm)
        if base_mm >= FLAT_MM and volume < self.volume_ml(base_mm):
            return self._height_in_base(volume, base_mm)
        return min(self.top_mm, self._wall_height(volume + self._missing_ml(self.top_mm)))

    def _walls(self) -> tuple[tuple[float, float], ...]:
        """The points, with the wall carried straight down to 0."""
        if self.points[0][0] > 0.0:
            return ((0.0, self.points[0][1]), *self.points)
        return self.points

    def _checked_height(self, height_mm: float) -> float:
        room = self.top_mm * _ROUND_OFF
        within(height_mm, -room, self.top_mm + room, "shape.height", unit="mm", top_mm=self.top_mm)
        return min(max(height_mm, 0.0), self.top_mm)

    def _wall_ml(self, height: float) -> float:
        total = 0.0
        for (low, narrow), (high, wide) in pairwise(self._walls()):
            if height <= high:
                at_height = narrow + (wide - narrow) * (height - low) / (high - low)
                return total + _frustum_ml(height - low, narrow, at_height)
            total += _frustum_ml(high - low, narrow, wide)
        return total

    def _wall_height(self, volume: float) -> float:
        walls = self._walls()
        layers = (_frustum_ml(b[0] - a[0], a[1], b[1]) for a, b in pairwise(walls))
        filled = list(accumulate(layers, initial=0.0))
        at = min(max(bisect_left(filled, volume), 1), len(walls) - 1)
        return walls[at - 1][0] + _frustum_height(walls[at - 1], walls[at], volume - filled[at - 1])

    def _height_in_base(self, volume: float, base_mm: float) -> float:
        low, high = 0.0, base_mm
        for _ in range(_HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if self.volume_ml(middle) < volume else (low, middle)
        return (low + high) / 2

    def _missing_ml(self, height: float) -> float:
        """What the rounding and the bulge of the base take away below a height."""
        radius = self.points[0][1] / 2
        missing = fillet_missing_mm3(height, radius, self.base_fillet_mm)
        missing += push_up_missing_mm3(height, radius - self.base_fillet_mm, self.push_up_mm)
        return missing / _MM3_PER_ML

    def _check_base(self) -> None:
        radius = self.points[0][1] / 2
        most_mm = min(radius, self.top_mm)
        within(self.base_fillet_mm, 0.0, most_mm, "shape.base-fillet", unit="mm")
        most_mm = min(radius - self.base_fillet_mm, self.top_mm)
        within(self.push_up_mm, 0.0, most_mm, "shape.push-up", unit="mm")
        base_mm = max(self.base_fillet_mm, self.push_up_mm)
        if base_mm >= FLAT_MM and not self._rises_through(base_mm):
            raise OutOfRange("shape.base-does-not-fit")

    def _rises_through(self, base_mm: float) -> bool:
        heights = (base_mm * step / _BASE_SAMPLES for step in range(_BASE_SAMPLES + 1))
        held = [self._wall_ml(height) - self._missing_ml(height) for height in heights]
        return all(above >= below for below, above in pairwise(held))


def straight(
    diameter_mm: float, height_mm: float, *, base_fillet_mm: float = 0.0, push_up_mm: float = 0.0
) -> Profile:
    """A vessel with the same inner diameter from base to top.

    Raises:
        OutOfRange: for a size that cannot be.
    """
    points = ((0.0, diameter_mm), (height_mm, diameter_mm))
    return Profile(points, base_fillet_mm=base_fillet_mm, push_up_mm=push_up_mm)


def scaled_to(profile: Profile, height_mm: float, volume_ml: float) -> Profile:
    """The profile with all diameters scaled alike so that it holds ``volume_ml`` to a height.

    A measured capacity is worth more than a ruler; heights are kept.

    Raises:
        OutOfRange: for a height outside the profile, or a volume not between half and twice what
            it holds to that height as drawn.
    """
    drawn_ml = profile.volume_ml(height_mm)
    lowest, highest = drawn_ml / _MOST_SCALED, drawn_ml * _MOST_SCALED
    within(
        volume_ml, max(lowest, 1e-6), highest, "shape.scaled-too-far", unit="ml", drawn_ml=drawn_ml
    )
    scaled = profile
    for _ in range(_SCALE_STEPS):
        ratio = volume_ml / scaled.volume_ml(height_mm)
        if abs(ratio - 1.0) < _ROUND_OFF / 1000:
            break
        points = tuple((height, wide * math.sqrt(ratio)) for height, wide in scaled.points)
        scaled = replace(scaled, points=points)
    return scaled


def _checked_points(points: Iterable[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    pairs = tuple((float(height), float(wide)) for height, wide in points)
    if not pairs:
        raise OutOfRange("shape.no-points")
    for number, (height, wide) in enumerate(pairs, start=1):
        within(height, 0.0, _TALLEST_MM, "shape.point-height", unit="mm", point_no=number)
        within(wide, 0.1, _WIDEST_MM, "shape.point-diameter", unit="mm", point_no=number)
    for number, ((below, _), (above, _)) in enumerate(pairwise(pairs), start=2):
        if above <= below:
            raise OutOfRange("shape.folded-back", point_no=number, below_mm=below, height_mm=above)
    if pairs[-1][0] <= 0.0:
        raise OutOfRange("shape.no-height")
    return pairs


def _frustum_ml(height: float, one: float, other: float) -> float:
    return math.pi * height * (one * one + one * other + other * other) / 12 / _MM3_PER_ML


def _frustum_height(low: tuple[float, float], high: tuple[float, float], volume: float) -> float:
    """Height above ``low`` where a frustum holds ``volume`` mL.

    The cube root is rearranged so that nothing cancels when the wall is nearly straight.
    """
    radius = low[1] / 2
    taper = (high[1] - low[1]) / 2 / (high[0] - low[0])
    room = 3 * volume * _MM3_PER_ML / math.pi
    at_level = math.cbrt(max(0.0, radius**3 + taper * room))
    return room / (at_level * at_level + radius * at_level + radius * radius)
