"""Our own dividing rules, brackets and corners.

A rule is as long as its box is wide: its ends grow, its middle keeps its shape.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from wickbench.documents.ornament_shapes import (
    Part,
    Parts,
    bezier,
    disc,
    leaf,
    line,
    mirrored,
    polygon,
    ribbon,
    spiral,
    upside_down,
)

if TYPE_CHECKING:
    from collections.abc import Callable

HIGH: Final = 4.0
"""Rules are drawn about the level line y = 0, within ±2 units."""
_LINE: Final = 0.32


def _level(begin: float, end: float, width: float = _LINE) -> Part:
    return Part((("m", begin, 0.0), ("l", end, 0.0)), width)


def _both(parts: Parts) -> Parts:
    return (*parts, *mirrored(parts))


def _rule_diamond(ratio: float) -> Parts:
    half = ratio * HIGH / 2
    diamond = polygon((0, -2.0), (2.0, 0), (0, 2.0), (-2.0, 0))
    small = polygon((3.6, -0.7), (4.3, 0), (3.6, 0.7), (2.9, 0))
    return (diamond, *_both((small, _level(5.2, half))))


def _rule_leaf(ratio: float) -> Parts:
    half = ratio * HIGH / 2
    first = leaf((0.5, 0), (4.6, -1.35), 1.5, 0.06)
    second = leaf((0.5, 0), (4.6, 1.35), 1.5, -0.06)
    outer = leaf((5.0, 0), (8.2, 0), 1.25)
    return (disc(0, 0, 0.62), *_both((first, second, outer, _level(9.0, half))))


def _rule_swell(ratio: float) -> Parts:
    """A rule that swells to its middle."""
    half = ratio * HIGH / 2
    band = ribbon(bezier((-half, 0), (half, 0)), 0.12, 0.34, 0.9, 0.34, 0.12)
    return (band, disc(0, -1.5, 0.5), disc(0, 1.5, 0.5))


def _rule_wave(ratio: float) -> Parts:
    """Whole waves, thick on their slopes."""
    long = ratio * HIGH
    waves = max(2, round(long / 6.0))

    def curve(part: float) -> tuple[float, float]:
        return -long / 2 + long * part, 1.6 * math.sin(2 * math.pi * waves * part)

    return (line(curve, 0.55, steps=waves * 8),)


def _rule_dots(ratio: float) -> Parts:
    """Dots, the middle one larger."""
    half = ratio * HIGH / 2
    count = max(2, round((half - 0.5) / 2.4))
    pitch = (half - 0.5) / count
    return (disc(0, 0, 1.0), *_both(tuple(disc(pitch * at, 0, 0.5) for at in range(1, count + 1))))


def _rule_double(ratio: float) -> Parts:
    """A strong and a fine line."""
    half = ratio * HIGH / 2
    strong = Part((("m", -half, -0.55), ("l", half, -0.55)), 0.9)
    fine = Part((("m", -half, 0.75), ("l", half, 0.75)), 0.3)
    return (strong, fine)


def _rule_curl(ratio: float) -> Parts:
    """Two curls that turn away from a dot."""
    half = ratio * HIGH / 2
    curl = ribbon(spiral((3.4, -0.35), (0.42, 1.62), 270, 720 + 165), 0.34, 0.46, 0.5, steps=28)
    end = spiral((3.4, -0.35), (0.42, 1.62), 270, 720 + 165)(1.0)
    tail = ribbon(
        bezier(end, (end[0] + 3.0, end[1] + 0.75), (end[0] + 4.4, 0.0), (half, 0.0)),
        0.5, 0.4, 0.22, 0.16, steps=20,
    )  # fmt: skip
    return (disc(0, 0, 0.7), *_both((curl, tail)))


def _brackets(ratio: float) -> Parts:
    """A pair of curly brackets at both ends of the box."""
    thin = 0.35
    high = 20.0 - thin
    half = (ratio * 20.0 - thin) / 2
    upper = ribbon(
        bezier((-half + 3.6, -high / 2), (-half + 0.4, -high / 2), (-half + 2.4, -1.4), (-half, 0)),
        thin, 1.05, 0.85, thin, steps=20,
    )  # fmt: skip
    return _both((upper, *upside_down((upper,))))


def _corner_lines(_ratio: float) -> Parts:
    """Two lines with a square where they would meet."""

    def stroke(*points: tuple[float, float], width: float) -> Part:
        first, *others = points
        return Part((("m", *first), *(("l", *one) for one in others)), width)

    return (
        stroke((24, 0.5), (6.0, 0.5), (6.0, 6.0), (0.5, 6.0), (0.5, 24), width=1.0),
        stroke((24, 2.8), (8.3, 2.8), (8.3, 8.3), (2.8, 8.3), (2.8, 24), width=0.5),
        polygon((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)),
    )


def _corner_leaf(_ratio: float) -> Parts:
    """A twig along each side, begun in the corner."""
    stem = bezier((1.6, 1.6), (8.0, 1.0), (15, 2.6), (24, 1.4))
    leaves: list[Part] = [ribbon(stem, 0.75, 0.55, 0.3)]
    for at in range(5):
        part = 0.20 + 0.17 * at
        x, y = stem(part)
        long = 4.6 - 2.0 * part
        leaves.append(leaf((x, y), (x + long * 0.72, y + long * 0.72), long * 0.36, 0.10))
        if at:
            leaves.append(leaf((x, y), (x + long * 0.86, y - long * 0.34), long * 0.28, -0.10))
    along_top = tuple(leaves)
    down = tuple(_swapped(one) for one in along_top)
    return (*along_top, *down, leaf((1.4, 1.4), (8.0, 8.0), 2.5), disc(1.3, 1.3, 1.0))


def _swapped(part: Part) -> Part:
    """Mirrored in the diagonal: across becomes down."""
    path = tuple(
        (one[0], *(value for pair in zip(one[2::2], one[1::2], strict=True) for value in pair))
        for one in part.path
    )
    return Part(path, part.stroke, part.even_odd)


def _corner_curl(_ratio: float) -> Parts:
    """A stem from each side that rolls up into the corner."""
    roll = spiral((7.0, 7.4), (0.8, 4.6), 60, 60 + 560)
    end = roll(1.0)
    curl = ribbon(roll, 0.7, 1.0, 1.15, steps=30)
    tail = ribbon(
        bezier(end, (end[0] - 2.6, end[1] - 6.6), (10.0, 0.6), (24.0, 0.9)),
        1.15, 0.95, 0.7, 0.3, steps=20,
    )  # fmt: skip
    sprout = leaf((12.2, 0.75), (17.8, 5.4), 2.0, -0.16)
    half = (curl, tail, sprout, disc(7.0, 7.4, 1.15))
    return (*half, *(_swapped(one) for one in (tail, sprout)))


def _corner_fan(_ratio: float) -> Parts:
    """A fan of rays in a quarter circle, with its rim."""
    rays = []
    for at in range(6):
        angle = math.radians(9 + 14.4 * at)
        far = 15.5
        rays.append(
            leaf(
                (3.4 * math.cos(angle), 3.4 * math.sin(angle)),
                (far * math.cos(angle), far * math.sin(angle)),
                2.0, 0.0, 0.62,
            )
        )  # fmt: skip
    rim = Part((("m", 18.2, 0.0), ("c", 18.2, 10.05, 10.05, 18.2, 0.0, 18.2)), 0.8)
    heart = Part((("m", 0, 0), ("l", 2.6, 0), ("c", 2.6, 1.44, 1.44, 2.6, 0, 2.6), ("z",)))
    sides = (
        Part((("m", 18.6, 0.4), ("l", 26, 0.4)), 0.8),
        Part((("m", 0.4, 18.6), ("l", 0.4, 26)), 0.8),
    )
    return (*rays, rim, heart, *sides)


RULES: Final[dict[str, Callable[[float], Parts]]] = {
    "rule-diamond": _rule_diamond,
    "rule-leaf": _rule_leaf,
    "rule-curl": _rule_curl,
    "rule-swell": _rule_swell,
    "rule-wave": _rule_wave,
    "rule-dots": _rule_dots,
    "rule-double": _rule_double,
}
CORNERS: Final[dict[str, Parts]] = {
    "corner-leaf": _corner_leaf(1.0),
    "corner-curl": _corner_curl(1.0),
    "corner-lines": _corner_lines(1.0),
    "corner-fan": _corner_fan(1.0),
}
BRACKETS: Final = _brackets
