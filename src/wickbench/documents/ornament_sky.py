"""Our own ornaments of fire and sky: flame, drop, stars, moon, sun."""

from __future__ import annotations

from typing import Final

from wickbench.documents.affine import shift, turn
from wickbench.documents.ornament_shapes import (
    Part,
    Parts,
    around,
    bezier,
    disc,
    leaf,
    mirrored,
    moved,
    polygon,
    ribbon,
    ring,
    star,
)
from wickbench.documents.outlines import oval


def _flame() -> Parts:
    """A flame with a lighter heart."""
    outline = (
        ("m", 8.6, 0.0),
        ("c", 9.2, 5.2, 15.2, 9.0, 15.2, 15.6),
        ("c", 15.2, 20.6, 12.0, 24.0, 8.0, 24.0),
        ("c", 4.0, 24.0, 0.8, 20.8, 0.8, 16.0),
        ("c", 0.8, 12.6, 2.6, 10.4, 4.2, 8.2),
        ("c", 4.6, 9.8, 5.2, 10.8, 6.2, 11.4),
        ("c", 5.6, 7.2, 6.6, 2.8, 8.6, 0.0),
        ("z",),
        ("m", 8.4, 13.0),
        ("c", 6.6, 15.2, 4.9, 16.8, 4.9, 19.2),
        ("c", 4.9, 21.4, 6.2, 22.7, 8.0, 22.7),
        ("c", 9.9, 22.7, 11.2, 21.3, 11.2, 19.2),
        ("c", 11.2, 16.8, 9.4, 15.2, 8.4, 13.0),
        ("z",),
    )
    return (Part(outline, even_odd=True),)


def _drop() -> Parts:
    """A drop with a light in it."""
    outline = (
        ("m", 8.0, 0.0),
        ("c", 10.0, 5.4, 16.0, 10.2, 16.0, 16.0),
        ("c", 16.0, 20.6, 12.4, 24.0, 8.0, 24.0),
        ("c", 3.6, 24.0, 0.0, 20.6, 0.0, 16.0),
        ("c", 0.0, 10.2, 6.0, 5.4, 8.0, 0.0),
        ("z",),
        ("m", 3.2, 15.6),
        ("c", 3.0, 18.6, 4.6, 20.8, 7.2, 21.4),
        ("c", 5.6, 19.8, 4.8, 18.0, 4.8, 15.4),
        ("c", 4.4, 14.6, 3.4, 14.8, 3.2, 15.6),
        ("z",),
    )
    return (Part(outline, even_odd=True),)


def _star() -> Parts:
    """A star with four long and four short rays, their sides drawn in."""
    ray = Part(
        (
            ("m", 0.0, -12.0),
            ("q", 0.5, -3.4, 1.7, -1.7),
            ("l", 0.0, 0.0),
            ("l", -1.7, -1.7),
            ("q", -0.5, -3.4, 0.0, -12.0),
            ("z",),
        )
    )
    small = Part(
        (
            ("m", 0.0, -5.2),
            ("q", 0.3, -1.8, 1.2, -0.8),
            ("l", 0, 0.2),
            ("l", -1.2, -0.8),
            ("q", -0.3, -1.8, 0.0, -5.2),
            ("z",),
        )
    )
    return (*around((ray,), 4), *moved(around((small,), 4), turn(45)))


def _stars() -> Parts:
    """One large and two small stars."""
    return (
        *_star(),
        star(4, 3.6, 0.75, (9.4, -8.6)),
        star(4, 2.4, 0.55, (-8.6, 8.4)),
        disc(8.4, 7.6, 0.5),
        disc(-7.4, -8.4, 0.6),
    )


def _crescent(width: float) -> Part:
    """A waxing moon as wide as this, of radius 4 about the origin, its light to the right."""
    x = 4.0 - width
    return Part(
        (
            ("m", 0.0, -4.0),
            ("c", 2.209, -4.0, 4.0, -2.209, 4.0, 0.0),
            ("c", 4.0, 2.209, 2.209, 4.0, 0.0, 4.0),
            ("c", x * 0.552, 4.0, x, 2.209, x, 0.0),
            ("c", x, -2.209, x * 0.552, -4.0, 0.0, -4.0),
            ("z",),
        )
    )


def _moon() -> Parts:
    """A slim crescent with three lights."""
    outline = (
        ("m", 15.0, 1.2),
        ("c", 8.6, -0.4, 1.0, 4.2, 1.0, 12.0),
        ("c", 1.0, 19.8, 8.6, 24.4, 15.0, 22.8),
        ("c", 10.0, 21.2, 6.8, 17.0, 6.8, 12.0),
        ("c", 6.8, 7.0, 10.0, 2.8, 15.0, 1.2),
        ("z",),
    )
    dots = (star(4, 3.4, 0.75, (14.6, 11.4)), disc(18.2, 6.8, 0.6), disc(17.6, 17.0, 0.6))
    return (Part(outline), *dots)


def _moon_phases() -> Parts:
    """From new moon to full moon and back, in a row."""
    full = disc(0, 0, 5.0)
    half = moved((_crescent(4.0),), shift(-11.4, 0))
    sickle = moved((_crescent(2.0),), shift(-20.4, 0))
    new = (ring(-29.6, 0, 2.6, 0.5),)
    waxing = (*new, *sickle, *half)
    return (full, *waxing, *mirrored(waxing))


def _sun() -> Parts:
    """A sun with straight and waved rays in turns."""
    straight = polygon((-0.75, -5.6), (0.0, -12.0), (0.75, -5.6))
    waved = ribbon(bezier((0, -5.8), (1.6, -7.4), (-1.6, -8.8), (0.2, -10.8)), 0.95, 0.85, 0.2)
    return (
        Part((*oval(-4.4, -4.4, 8.8, 8.8),), 0.8),
        disc(0, 0, 3.1),
        *around((straight,), 8),
        *moved(around((waved,), 8), turn(22.5)),
    )


def _sunrise() -> Parts:
    """Half a sun over the line of the horizon, its rays above."""
    rays = tuple(
        part
        for at in range(-4, 5)
        for part in moved(
            (leaf((0, -6.6), (0, -12.0 if at % 2 == 0 else -9.8), 1.15, 0, 0.4),), turn(at * 20)
        )
    )
    half = Part(
        (
            ("m", -5.2, 0.0),
            ("c", -5.2, -2.87, -2.87, -5.2, 0.0, -5.2),
            ("c", 2.87, -5.2, 5.2, -2.87, 5.2, 0.0),
            ("z",),
        )
    )
    horizon = ribbon(bezier((-13, 1.2), (13, 1.2)), 0.2, 0.8, 0.8, 0.2)
    below = ribbon(bezier((-7, 3.0), (7, 3.0)), 0.2, 0.7, 0.2)
    return (half, *rays, horizon, below)


def _snow() -> Parts:
    """A crystal of snow with six arms."""
    arm = (
        polygon((-0.45, 0.0), (-0.45, -11.4), (0.0, -12.0), (0.45, -11.4), (0.45, 0.0)),
        *(
            polygon((0.0, -at), (side * long, -at - long), (side * long, -at - long - 1.1),
                    (0.0, -at - 1.1))
            for at, long in ((4.0, 2.0), (7.0, 2.6))
            for side in (-1, 1)
        ),
    )  # fmt: skip
    return (*around(arm, 6), disc(0, 0, 1.1))


def _candle() -> Parts:
    """A candle in a glass, its flame above."""
    glass = Part(
        (
            ("m", 2.0, 9.6), ("l", 3.0, 24.0), ("l", 15.0, 24.0), ("l", 16.0, 9.6), ("z",),
            ("m", 3.2, 10.7), ("l", 14.8, 10.7), ("l", 14.5, 14.6), ("l", 3.5, 14.6), ("z",),
        ),
        even_odd=True,
    )  # fmt: skip
    wick = polygon((8.65, 8.0), (9.35, 8.0), (9.35, 14.8), (8.65, 14.8))
    flame = Part(
        (
            ("m", 9.2, 0.0),
            ("c", 9.6, 2.6, 11.6, 3.8, 11.6, 6.2),
            ("c", 11.6, 7.8, 10.5, 8.9, 9.0, 8.9),
            ("c", 7.5, 8.9, 6.4, 7.8, 6.4, 6.3),
            ("c", 6.4, 4.0, 8.6, 2.8, 9.2, 0.0),
            ("z",),
        )
    )
    return (glass, wick, flame)


SKY: Final[dict[str, Parts]] = {
    "flame": _flame(),
    "candle": _candle(),
    "drop": _drop(),
    "star": _star(),
    "stars": _stars(),
    "moon": _moon(),
    "moon-phases": _moon_phases(),
    "sun": _sun(),
    "sunrise": _sunrise(),
    "snow": _snow(),
}
