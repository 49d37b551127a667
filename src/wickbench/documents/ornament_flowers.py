"""Our own ornaments of flowers, fruit and spices."""

from __future__ import annotations

import math
from typing import Final

from wickbench.documents.affine import turn
from wickbench.documents.ornament_shapes import (
    Part,
    Parts,
    around,
    bezier,
    blade,
    disc,
    grown,
    leaf,
    moved,
    polygon,
    ribbon,
    ring,
)


def _flower() -> Parts:
    """Five round petals about a dotted middle."""
    petal = Part(
        (
            ("m", 0.0, -3.0),
            ("c", -1.9, -4.4, -5.6, -7.0, -3.9, -10.1),
            ("c", -2.9, -11.9, -0.9, -11.6, 0.0, -10.4),
            ("c", 0.9, -11.6, 2.9, -11.9, 3.9, -10.1),
            ("c", 5.6, -7.0, 1.9, -4.4, 0.0, -3.0),
            ("z",),
        )
    )
    middle = (disc(0, 0, 1.1), *around((disc(0, -2.2, 0.36),), 10))
    return (*around((petal,), 5), *middle)


def _daisy() -> Parts:
    """Fourteen slim petals about a full middle."""
    return (*around((blade((0, -3.7), (0, -11.6), 3.1),), 14), disc(0, 0, 3.0))


def _lavender() -> Parts:
    """A spike of small buds in whorls on a thin stem."""
    stem = bezier((8, 26), (8.6, 18), (8.6, 10), (9.4, 2))
    parts: list[Part] = [ribbon(stem, 0.6, 0.5, 0.3)]
    for at in range(7):
        part = 0.42 + 0.54 * at / 6
        long = 3.3 - 1.3 * (at / 6)
        whorl = ((-58, 0.86), (-24, 1.0), (24, 1.0), (58, 0.86))
        parts += [
            leaf(*grown(stem, part, angle, long * share), long * 0.42, 0, 0.6)
            for angle, share in whorl
        ]
    parts.append(leaf(*grown(stem, 0.99, 0, 2.4), 1.1, 0, 0.5))
    parts.append(leaf(*grown(stem, 0.06, -22, 9.0), 1.1, 0.06))
    parts.append(leaf(*grown(stem, 0.10, 24, 7.6), 1.0, -0.06))
    return tuple(parts)


def _vanilla() -> Parts:
    """A vanilla flower with two pods below."""
    petals = [blade((0, -1.0), (0, -9.4), 3.0)]
    petals += [
        part
        for angle in (62, -62)
        for part in moved((blade((0, -1), (0, -9.0), 2.9),), turn(angle))
    ]
    petals += [
        part
        for angle in (118, -118)
        for part in moved((blade((0, -1), (0, -7.6), 2.4),), turn(angle))
    ]
    lip = Part(
        (
            ("m", 0.0, 0.2),
            ("c", -2.6, 0.8, -3.2, 3.4, -2.2, 5.0),
            ("c", -1.4, 4.4, -0.9, 5.6, 0.0, 5.0),
            ("c", 0.9, 5.6, 1.4, 4.4, 2.2, 5.0),
            ("c", 3.2, 3.4, 2.6, 0.8, 0.0, 0.2),
            ("z",),
        )
    )
    pod = ribbon(bezier((-1.0, 6.4), (-3.0, 11), (-8, 13.6), (-11.6, 12.4)), 0.5, 1.25, 1.15, 0.3)
    second = ribbon(bezier((1.0, 6.4), (3.4, 12), (7, 15), (11.0, 14.6)), 0.5, 1.25, 1.15, 0.3)
    return (*petals, lip, pod, second)


def _citrus() -> Parts:
    """A slice of an orange: rind, and nine segments with rounded corners."""
    count = 9
    half = math.pi / count - 0.055
    inner, outer = 1.5, 8.9
    corner = 0.9

    def at(radius: float, angle: float) -> tuple[float, float]:
        return radius * math.sin(angle), -radius * math.cos(angle)

    left, right = -half, half
    bow = outer / math.cos(half)
    segment: tuple[tuple[str | float, ...], ...] = (
        ("m", *at(inner, 0.0)),
        ("l", *at(outer - corner, left)),
        ("q", *at(outer, left), *at(outer + 0.02, left + corner / outer)),
        ("q", *at(bow, 0.0), *at(outer + 0.02, right - corner / outer)),
        ("q", *at(outer, right), *at(outer - corner, right)),
        ("z",),
    )
    return (ring(0, 0, 11.2, 1.4), *around((Part(segment),), count))


def _coffee() -> Parts:
    """A coffee bean, lying aslant, its seam left open."""
    half = Part(
        (
            ("m", -0.55, -10.9),
            ("c", -5.2, -10.6, -7.6, -5.2, -7.6, 0.2),
            ("c", -7.6, 5.8, -4.9, 10.6, -0.9, 10.95),
            ("c", 1.6, 7.2, 1.3, 3.6, -0.7, 0.2),
            ("c", -2.7, -3.2, -3.0, -7.0, -0.55, -10.9),
            ("z",),
        )
    )
    whole = (half, *moved((half,), turn(180)))
    return moved(whole, turn(32))


def _honeycomb() -> Parts:
    """Seven cells, three of them full."""
    across = 4.0

    def cell(x: float, y: float, radius: float) -> tuple[tuple[float, float], ...]:
        return tuple(
            (x + radius * math.sin(math.pi * at / 3), y - radius * math.cos(math.pi * at / 3))
            for at in range(6)
        )

    parts: list[Part] = []
    steps = [(0.0, 0.0)]
    pitch = across * math.sqrt(3)
    steps += [
        (pitch * math.sin(math.pi * (at + 0.5) / 3), -pitch * math.cos(math.pi * (at + 0.5) / 3))
        for at in range(6)
    ]
    for at, (x, y) in enumerate(steps):
        outline = polygon(*cell(x, y, across * 0.93)).path
        parts.append(Part(outline, 0.72))
        if at in {0, 1, 5}:
            parts.append(polygon(*cell(x, y, across * 0.60)))
    return tuple(parts)


def _anise() -> Parts:
    """Star anise: eight boats, each with its seed."""
    pod = Part(
        (
            ("m", 0.0, -2.0),
            ("c", -3.0, -4.2, -3.2, -7.6, 0.0, -11.8),
            ("c", 3.2, -7.6, 3.0, -4.2, 0.0, -2.0),
            ("z",),
            ("m", 0.0, -4.4),
            ("c", -1.25, -5.6, -1.25, -7.4, 0.0, -8.9),
            ("c", 1.25, -7.4, 1.25, -5.6, 0.0, -4.4),
            ("z",),
        ),
        even_odd=True,
    )
    seed = leaf((0, -5.4), (0, -7.9), 1.1, 0, 0.5)
    return (*around((pod, seed), 8), disc(0, 0, 1.5))


def _berries() -> Parts:
    """A twig with three berries and two leaves."""
    stems = (
        ribbon(bezier((12, 4), (11, 9), (8, 12), (5.6, 15.4)), 0.7, 0.5, 0.45),
        ribbon(bezier((12, 4), (12.4, 10), (12.6, 14), (12.4, 18.6)), 0.7, 0.5, 0.45),
        ribbon(bezier((12, 4), (13.4, 8.6), (16.4, 11), (18.6, 13.4)), 0.7, 0.5, 0.45),
    )
    berries = (disc(4.8, 17.2, 2.7), disc(12.4, 21.2, 2.7), disc(19.6, 15.6, 2.7))
    leaves = (leaf((12, 4), (2.4, 4.4), 4.0, 0.14), leaf((12, 4), (21.6, 3.2), 4.0, -0.14))
    return (*stems, *berries, *leaves)


FLOWERS: Final[dict[str, Parts]] = {
    "flower": _flower(),
    "daisy": _daisy(),
    "lavender": _lavender(),
    "vanilla": _vanilla(),
}
SPICES: Final[dict[str, Parts]] = {
    "citrus": _citrus(),
    "coffee": _coffee(),
    "anise": _anise(),
    "berries": _berries(),
    "honeycomb": _honeycomb(),
}
