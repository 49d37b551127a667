"""Our own ornaments of leaves: sprigs, laurel, wheat, fern, pine, wreaths."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import shift, turn
from wickbench.documents.ornament_shapes import (
    Curve,
    Part,
    Parts,
    arc,
    around,
    bezier,
    disc,
    grown,
    leaf,
    line,
    mirrored,
    moved,
    ribbon,
)

if TYPE_CHECKING:
    from collections.abc import Callable


def _pairs(
    stem: Curve,
    count: int,
    size: Callable[[float], float],
    *,
    angle_deg: float,
    slim: float,
    begin: float = 0.12,
    end: float = 0.92,
    bend: float = 0.08,
    aside: float = 0.0,
) -> Parts:
    """Leaves at both sides of a stem, ``aside`` moving the right ones on along it."""
    leaves: list[Part] = []
    for at in range(count):
        part = begin + (end - begin) * at / max(1, count - 1)
        for side in (-1, 1):
            place = min(0.99, part + (aside if side > 0 else 0.0))
            long = size(place)
            base, tip = grown(stem, place, side * angle_deg, long)
            leaves.append(leaf(base, tip, long * slim, -side * bend))
    return tuple(leaves)


def _sprig() -> Parts:
    """A slim stem that leans to the right, with leaves in turns."""
    stem = bezier((4, 24), (5, 16), (9, 9), (14, 1.6))
    leaves = _pairs(
        stem, 5, lambda part: 8.0 - 3.4 * part, angle_deg=42, slim=0.34, begin=0.16, end=0.84,
        aside=0.07,
    )  # fmt: skip
    top = leaf(*grown(stem, 0.97, 0, 4.4), 1.5)
    return (ribbon(stem, 0.75, 0.6, 0.35), *leaves, top)


def _leaf_pair() -> Parts:
    """Two leaves on one stalk, opened like a book."""
    # The rib is left open between two narrow halves.
    upper = Part(
        (
            ("m", 12.9, 13.2),
            ("c", 14.4, 6.6, 19.6, 4.0, 25.4, 4.6),
            ("c", 21.4, 8.0, 17.4, 10.6, 12.9, 13.2),
            ("z",),
        )
    )
    lower = Part(
        (
            ("m", 13.1, 14.2),
            ("c", 18.2, 11.4, 22.2, 8.6, 25.6, 5.4),
            ("c", 25.4, 11.4, 20.4, 16.4, 13.1, 14.2),
            ("z",),
        )
    )
    right = (upper, lower)
    stalk = ribbon(bezier((12, 14.2), (12.1, 17), (11.6, 19), (10.6, 21)), 0.5, 0.7, 0.9)
    return (*right, *mirrored(right, 12.0), stalk)


def _laurel_half() -> Parts:
    """The left half of a laurel: a stem bent like a quarter moon, leaves outside and inside."""
    stem = arc((13, 11), 10.4, 196, 340)
    leaves: list[Part] = []
    for at in range(8):
        part = 0.06 + 0.86 * at / 7
        long = 5.6 - 1.8 * part
        leaves.append(leaf(*grown(stem, part, -34, long), long * 0.36, 0.10))
        leaves.append(leaf(*grown(stem, part + 0.04, 32, long * 0.86), long * 0.30, -0.10))
    leaves.append(leaf(*grown(stem, 0.98, 4, 3.8), 1.3))
    return (ribbon(stem, 0.7, 0.55, 0.3), *leaves)


def _laurel() -> Parts:
    """Both halves, crossed below."""
    left = _laurel_half()
    return (*left, *mirrored(left, 13.4))


def _wheat() -> Parts:
    """An ear of wheat with awns."""
    stem = bezier((9, 26), (9, 18), (10, 12), (12.4, 4.6))
    parts: list[Part] = [ribbon(stem, 0.7, 0.6, 0.45)]
    for at in range(6):
        part = 0.40 + 0.56 * at / 5
        long = 4.4 - 0.9 * (at / 5)
        for side in (-1, 1):
            base, tip = grown(stem, min(0.99, part + (0.045 if side > 0 else 0)), side * 27, long)
            parts.append(leaf(base, tip, long * 0.44, -side * 0.05, 0.5))
            far = (tip[0] + (tip[0] - base[0]) * 0.75, tip[1] + (tip[1] - base[1]) * 0.75)
            parts.append(ribbon(bezier(tip, far), 0.3, 0.16, steps=1))
    parts.append(leaf(*grown(stem, 0.99, 0, 4.4), 1.8, 0, 0.5))
    return tuple(parts)


def _fern() -> Parts:
    """A frond whose leaflets grow smaller to the tip."""
    stem = bezier((6, 26), (6.6, 17), (10, 9), (17, 2.2))
    leaflets: list[Part] = []
    for at in range(13):
        part = 0.12 + 0.86 * at / 12
        long = 7.4 * (1 - part) ** 0.75 + 0.9
        for side in (-1, 1):
            base, tip = grown(stem, part, side * 62, long * (1.0 if side < 0 else 0.94))
            leaflets.append(leaf(base, tip, max(0.75, long * 0.21), -side * 0.10, 0.35))
    return (ribbon(stem, 0.75, 0.6, 0.3), *leaflets, leaf(*grown(stem, 0.99, 0, 1.9), 0.7))


def _pine() -> Parts:
    """A twig of pine: fine needles in pairs, a small cone hanging below."""
    stem = bezier((2, 8), (9, 6.2), (17, 6.6), (25, 10))
    needles: list[Part] = []
    for at in range(15):
        part = 0.07 + 0.9 * at / 14
        long = 6.0 - 2.2 * part
        for side in (-1, 1):
            base, tip = grown(stem, part, side * (47 - 9 * part), long)
            needles.append(ribbon(bezier(base, tip), 0.5, 0.46, 0.14, steps=2))
    needles.append(ribbon(bezier(*grown(stem, 0.99, 3, 3.6)), 0.5, 0.46, 0.14, steps=2))
    return (ribbon(stem, 0.95, 0.8, 0.5), *needles)


def _olive() -> Parts:
    """A branch of olive with three fruits."""
    stem = bezier((2, 17), (9, 15), (16, 11.4), (25, 4))
    leaves: list[Part] = []
    for at in range(6):
        part = 0.14 + 0.78 * at / 5
        side = -1 if at % 2 else 1
        leaves.append(leaf(*grown(stem, part, side * 38, 7.0 - 1.6 * part), 1.9, -side * 0.07))
    leaves.append(leaf(*grown(stem, 0.98, -2, 5.0), 1.6))
    fruits: list[Part] = []
    for part, side in ((0.30, -1), (0.52, 1), (0.74, -1)):
        base, tip = grown(stem, part, side * 72, 2.2)
        fruits += [line(bezier(base, tip), 0.3, 1), disc(tip[0], tip[1] + 0.3, 1.45)]
    return (ribbon(stem, 0.7, 0.55, 0.35), *leaves, *fruits)


def _eucalyptus() -> Parts:
    """A hanging stem with round leaves, two by two."""
    stem = bezier((12, 1), (13.4, 9), (11.2, 17), (13, 25))
    parts: list[Part] = [ribbon(stem, 0.65, 0.55, 0.35)]
    for at in range(5):
        part = 0.10 + 0.76 * at / 4
        size = 5.2 - 2.3 * part
        for side in (-1, 1):
            base, tip = grown(stem, part, side * 74, size)
            parts.append(leaf(base, tip, size * 0.86, 0.0, 0.56))
    parts.append(leaf(*grown(stem, 0.98, 0, 3.0), 1.9, 0, 0.55))
    return tuple(parts)


def _wreath() -> Parts:
    """A ring of leaves, open in the middle for a word."""
    count = 22
    stem = arc((0, 0), 10.6, 0, 360 / count * 1.02)
    outer = leaf(*grown(stem, 0.2, -36, 4.3), 1.5, 0.10)
    inner = leaf(*grown(stem, 0.6, 34, 3.6), 1.25, -0.10)
    berry = disc(0, -13.0, 0.42)
    return (
        *around((line(stem, 0.42, 2), outer, inner), count),
        *moved(around((berry,), count // 2), turn(9)),
    )


def _wreath_open() -> Parts:
    """Two bent branches that meet below and leave the top open."""
    stem = arc((12, 12), 10.6, 178, 332)
    leaves = _pairs(
        stem, 11, lambda part: 4.1 - 1.5 * part, angle_deg=36, slim=0.36, begin=0.05, end=0.95,
        aside=0.03,
    )  # fmt: skip
    left = (ribbon(stem, 0.5, 0.5, 0.25), *leaves, leaf(*grown(stem, 0.99, 4, 2.6), 0.9))
    return (*left, *mirrored(left, 12), *moved((disc(0, 0, 0.75),), shift(12, 23.2)))


LEAVES: Final[dict[str, Parts]] = {
    "sprig": _sprig(),
    "leaf-pair": _leaf_pair(),
    "laurel-left": _laurel_half(),
    "laurel-right": mirrored(_laurel_half(), 13.4),
    "laurel": _laurel(),
    "olive": _olive(),
    "eucalyptus": _eucalyptus(),
    "fern": _fern(),
    "pine": _pine(),
    "wheat": _wheat(),
    "wreath": _wreath(),
    "wreath-open": _wreath_open(),
}
