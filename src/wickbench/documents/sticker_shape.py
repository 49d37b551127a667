"""How much room a sticker's safe zone leaves at each height: round, oval, square or rounded.

Origin in the sticker's top left corner, millimetres, y down. All shapes are convex, so a line
of text fits when it fits at its top and at its bottom.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from wickbench.documents.rooms import room_of
from wickbench.domain.errors import OutOfRange
from wickbench.domain.labels import LabelDesign
from wickbench.domain.sheets import SHAPES, Rect

if TYPE_CHECKING:
    from wickbench.documents.text_fit import Room

LARGEST_MM = 1000.0


@dataclass(frozen=True, slots=True)
class StickerShape:
    """A sticker with its safe zone.

    Attributes:
        shape: rectangle, rounded, circle or oval.
        width_mm: width.
        height_mm: height; for a circle the same as the width.
        corner_mm: corner radius of a rounded sticker.
        safe_mm: distance that text keeps from the edge.
    """

    shape: str
    width_mm: float
    height_mm: float
    corner_mm: float = 0.0
    safe_mm: float = 2.0

    def __post_init__(self) -> None:
        if self.shape not in SHAPES:
            raise OutOfRange("caution.shape-unknown", shape=self.shape)
        for side_mm in (self.width_mm, self.height_mm):
            if not (math.isfinite(side_mm) and 2 * self.safe_mm < side_mm <= LARGEST_MM):
                raise OutOfRange("caution.sticker-size", given_mm=side_mm)
        if self.shape == "circle" and not math.isclose(self.width_mm, self.height_mm):
            raise OutOfRange("caution.circle-sides", given_mm=self.height_mm)
        if not (self.safe_mm >= 0.0 and self.corner_mm >= 0.0):
            raise OutOfRange("caution.sticker-size", given_mm=min(self.safe_mm, self.corner_mm))

    @property
    def design(self) -> LabelDesign:
        """The same sticker as an empty label design."""
        return LabelDesign(
            width_mm=self.width_mm,
            height_mm=self.height_mm,
            shape=self.shape,
            corner_mm=self.corner_mm,
            safe_mm=self.safe_mm,
            kind="caution",
        )

    @property
    def top_mm(self) -> float:
        """Top of the safe zone."""
        return self.safe_mm

    @property
    def bottom_mm(self) -> float:
        """Bottom of the safe zone."""
        return self.height_mm - self.safe_mm

    @property
    def across_mm(self) -> float:
        """The longest distance between two points of the sticker's edge."""
        if self.shape in {"circle", "oval"}:
            return max(self.width_mm, self.height_mm)
        cut = self._corner_mm
        diagonal = math.hypot(self.width_mm - 2 * cut, self.height_mm - 2 * cut)
        return diagonal + 2 * cut

    @property
    def _corner_mm(self) -> float:
        if self.shape != "rounded":
            return 0.0
        return min(self.corner_mm, self.width_mm / 2, self.height_mm / 2)

    def chord_mm(self, top_mm: float, bottom_mm: float) -> float:
        """Width of the safe zone over a whole line, centred; 0 where there is none."""
        if top_mm < self.top_mm - 1e-9 or bottom_mm > self.bottom_mm + 1e-9:
            return 0.0
        room = _room(self)
        if room is not None:
            left_mm, right_mm = room(top_mm, bottom_mm)
            return right_mm - left_mm
        return 2.0 * max(0.0, min(self._half_mm(top_mm), self._half_mm(bottom_mm)))

    def scaled(self, factor: float) -> StickerShape:
        """The same proportions in another size; the safe zone keeps its width."""
        return replace(
            self,
            width_mm=self.width_mm * factor,
            height_mm=self.height_mm * factor,
            corner_mm=self.corner_mm * factor,
        )

    def area_mm2(self) -> float:
        """An upper bound for the safe zone's area."""
        width, height = self.width_mm - 2 * self.safe_mm, self.height_mm - 2 * self.safe_mm
        return width * height * (math.pi / 4 if self.shape in {"circle", "oval"} else 1.0)

    def _half_mm(self, y_mm: float) -> float:
        from_middle = abs(y_mm - self.height_mm / 2)
        radius = max(0.0, self._corner_mm - self.safe_mm)
        into = from_middle - (self.height_mm / 2 - self.safe_mm - radius)
        lost = radius - math.sqrt(max(0.0, radius**2 - into**2)) if into > 0.0 else 0.0
        return self.width_mm / 2 - self.safe_mm - lost


@lru_cache(64)
def _room(sticker: StickerShape) -> Room | None:
    """Edges of lines on a round or oval sticker; asked for some thousand times per layout."""
    return room_of(sticker.design, Rect(0.0, 0.0, sticker.width_mm, sticker.height_mm))
