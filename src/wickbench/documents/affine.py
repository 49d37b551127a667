"""Affine maps of the page in millimetres, origin top left, y down."""

from __future__ import annotations

import math
from dataclasses import dataclass

from wickbench.domain.errors import OutOfRange

_FLAT = 1e-12


@dataclass(frozen=True, slots=True)
class Affine:
    """``x' = a x + c y + e``, ``y' = b x + d y + f``; shifts in mm."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def apply(self, x_mm: float, y_mm: float) -> tuple[float, float]:
        """Where a point goes."""
        return (
            self.a * x_mm + self.c * y_mm + self.e,
            self.b * x_mm + self.d * y_mm + self.f,
        )

    def after(self, first: Affine) -> Affine:
        """This map applied to what ``first`` made."""
        x_shift, y_shift = self.apply(first.e, first.f)
        return Affine(
            self.a * first.a + self.c * first.b,
            self.b * first.a + self.d * first.b,
            self.a * first.c + self.c * first.d,
            self.b * first.c + self.d * first.d,
            x_shift,
            y_shift,
        )

    def inverse(self) -> Affine:
        """The map that undoes this one.

        Raises:
            OutOfRange: ``affine.flat`` when it squashes the page to a line.
        """
        size = self.a * self.d - self.b * self.c
        if abs(size) < _FLAT:
            raise OutOfRange("affine.flat")
        a, b, c, d = self.d / size, -self.b / size, -self.c / size, self.a / size
        return Affine(a, b, c, d, -(a * self.e + c * self.f), -(b * self.e + d * self.f))


IDENTITY = Affine()


def shift(x_mm: float, y_mm: float) -> Affine:
    """Move right and down."""
    return Affine(e=x_mm, f=y_mm)


def turn(degrees: float, x_mm: float = 0.0, y_mm: float = 0.0) -> Affine:
    """Turn clockwise as seen, about a point."""
    cosine, sine = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    turned = Affine(cosine, sine, -sine, cosine)
    moved_x, moved_y = turned.apply(x_mm, y_mm)
    return Affine(cosine, sine, -sine, cosine, x_mm - moved_x, y_mm - moved_y)
