"""Lengths along an ellipse, measured truly: no circle arcs in its place, no splines.

A place on the ellipse is told by its parameter t: 0 in the middle of the top (or of the bottom),
growing to the right; the half oval lies between -π/2 and π/2. From there the point is
(a sin t, b cos t) and the length from 0 is ∫ √(a² cos² t + b² sin² t) dt, an elliptic integral
(NIST Handbook of Mathematical Functions, 19.2.5 and 19.30.2), here by Gauss's rule in short steps.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate
from typing import Final

_STEPS: Final = 32
_HALF: Final = math.pi / 2
_STEP: Final = _HALF / _STEPS
# Gauss-Legendre rule of five points (NIST Handbook of Mathematical Functions, table 3.5.1).
_GAUSS: Final = (
    (0.0, 0.568888888888889),
    (0.538469310105683, 0.478628670499366),
    (-0.538469310105683, 0.478628670499366),
    (0.906179845938664, 0.236926885056189),
    (-0.906179845938664, 0.236926885056189),
)
_ROUNDS: Final = 6
_NEAR_MM: Final = 1e-9
_TIGHTEST: Final = 0.25


@dataclass(frozen=True, slots=True)
class Oval:
    """An ellipse along which letters stand.

    Attributes:
        across_mm: half of its width.
        down_mm: half of its height.
        heads_mm: how far inside the ellipse the lengths are measured, at right angles to it; 0
            measures on the ellipse itself. Letters whose heads point inwards crowd there.
        lengths_mm: length from t = 0 to each step of a quarter.
    """

    across_mm: float
    down_mm: float
    heads_mm: float
    lengths_mm: tuple[float, ...]

    @property
    def half_mm(self) -> float:
        """Length of the half oval, from t = -π/2 to π/2."""
        return 2 * self.lengths_mm[-1]

    def length_mm(self, t: float) -> float:
        """Length from 0 to t, negative to the left; t from -π to π."""
        far = abs(t)
        if far > _HALF:
            return math.copysign(self.half_mm - self.length_mm(math.pi - far), t)
        at = min(_STEPS - 1, int(far / _STEP))
        rest = _integral(self.across_mm, self.down_mm, self.heads_mm, (at * _STEP, far))
        return math.copysign(self.lengths_mm[at] + rest, t)

    def radius_mm(self, t: float) -> float:
        """Radius of the circle that fits it best at a place."""
        a, b = self.across_mm, self.down_mm
        return math.hypot(a * math.cos(t), b * math.sin(t)) ** 3 / (a * b)

    def at(self, length_mm: float) -> float:
        """The t to which the length from 0 is this; more than once round begins anew."""
        whole = 2 * self.half_mm
        wanted = length_mm - round(length_mm / whole) * whole
        far = abs(wanted)
        if far > self.half_mm / 2:
            return math.copysign(math.pi - self._quarter_at(self.half_mm - far), wanted)
        return math.copysign(self._quarter_at(far), wanted)

    def _quarter_at(self, length_mm: float) -> float:
        """The t of the first quarter; by Newton's method from the step before."""
        step = min(_STEPS - 1, bisect_right(self.lengths_mm, length_mm) - 1)
        start, rest = step * _STEP, length_mm - self.lengths_mm[step]
        t = start
        for _ in range(_ROUNDS):
            miss = rest - _integral(self.across_mm, self.down_mm, self.heads_mm, (start, t))
            t += miss / _speed(self.across_mm, self.down_mm, self.heads_mm, t)
            if abs(miss) < _NEAR_MM:
                break
        return t


@lru_cache(256)
def oval_of(across_mm: float, down_mm: float, heads_mm: float = 0.0) -> Oval:
    """An ellipse by its half-axes, both more than 0, with its lengths measured once."""
    pieces = (
        _integral(across_mm, down_mm, heads_mm, (at * _STEP, (at + 1) * _STEP))
        for at in range(_STEPS)
    )
    return Oval(across_mm, down_mm, heads_mm, (0.0, *accumulate(pieces)))


def _speed(a: float, b: float, heads: float, t: float) -> float:
    """Length per t; a line ``heads`` inside an ellipse is shorter by its curvature a b / v³.

    Where the ellipse bends more sharply than letters are high, no line lies inside it; a
    quarter of the length is kept there, so that letters still go forward.
    """
    v = math.hypot(a * math.cos(t), b * math.sin(t))
    return max(v - heads * a * b / (v * v), _TIGHTEST * v) if heads else v


def _integral(a: float, b: float, heads: float, between: tuple[float, float]) -> float:
    low, high = between
    middle, half = (low + high) / 2, (high - low) / 2
    total = 0.0
    for node, weight in _GAUSS:
        total += weight * _speed(a, b, heads, middle + half * node)
    return total * half
