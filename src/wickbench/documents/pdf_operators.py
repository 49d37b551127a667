"""How PDF spells numbers, colours, maps, paths and the places of glyphs (ISO 32000-1, 8 and 9)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING, Final

from wickbench.documents.text import MM_PER_POINT

if TYPE_CHECKING:
    from wickbench.documents.surface import Colour, Path
    from wickbench.documents.text import Run

_PER_EM: Final = 1000
_HAIR: Final = 0.01  # thousandths of an em: below it a place is the natural place


def points_of(mm: float) -> float:
    """Points from millimetres."""
    return mm / MM_PER_POINT


def number(value: float) -> str:
    """A number as PDF spells it: no exponent, no needless zeros."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


def ink(colour: Colour) -> str:
    """Fill colour; a grey stays a grey, so that black is printed with black alone."""
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    if red == green == blue:
        return f"{number(red)} g"
    return f"{number(red)} {number(green)} {number(blue)} rg"


def turned(degrees: float) -> tuple[float, float, float, float]:
    """Matrix for a turn clockwise as seen, y up."""
    cosine, sine = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return cosine, -sine, sine, cosine


def matrix(linear: tuple[float, float, float, float], at: tuple[float, float]) -> str:
    """The six numbers of a map."""
    parts = [f"{value:.7f}".rstrip("0").rstrip(".") for value in linear]
    return " ".join(
        ["0" if part == "-0" else part for part in parts] + [number(at[0]), number(at[1])]
    )


@dataclass(frozen=True, slots=True)
class Adjusted:
    """How a run is shown with TJ; distances in thousandths of an em.

    Attributes:
        array: what stands in the brackets.
        spread: space after every letter (Tc); readers take none for a gap between words.
        widest: the widest gap that stays between two letters.
    """

    array: str
    spread: float
    widest: float


def adjusted(run: Run, wide: float = math.inf) -> Adjusted:
    """The array of TJ of a run.

    Args:
        run: on its base line.
        wide: where a gap is as wide as this, letters are spread: their usual distance becomes Tc.
            Not so where kerning makes their distances too different.
    """
    k = _PER_EM / run.face.units_per_em
    gaps: list[float] = []
    pen = 0.0
    for glyph in run.glyphs:
        gaps.append((glyph.x - pen) * k)
        pen = glyph.x + run.face.advance(glyph.gid)
    between = gaps[1:] or [0.0]
    even = max(between) - min(between) < wide <= max(between)
    spread = median(between) if even else 0.0
    rests = gaps[:1] + [gap - spread for gap in gaps[1:]]
    parts: list[str] = []
    pending = ""
    for glyph, gap in zip(run.glyphs, rests, strict=True):
        if abs(gap) > _HAIR:
            parts += [f"<{pending}>"] if pending else []
            parts.append(f"{-gap:.2f}".rstrip("0").rstrip("."))
            pending = ""
        pending += f"{glyph.gid:04X}"
    return Adjusted(" ".join([*parts, f"<{pending}>"]), spread, max(0.0, *rests))


def glyph_by_glyph(
    run: Run,
    size_pt: float,
    at: tuple[float, float],
    linear: tuple[float, float, float, float],
) -> str:
    """Marks off the base line: each glyph gets its own place."""
    k = size_pt / run.face.units_per_em
    a, b, c, d = linear
    said: list[str] = []
    for glyph in run.glyphs:
        x, y = glyph.x * k, glyph.y * k
        place = (at[0] + a * x + c * y, at[1] + b * x + d * y)
        said.append(f"{matrix(linear, place)} Tm <{glyph.gid:04X}> Tj")
    return " ".join(said)


def path_operators(path: Path, height_mm: float) -> str:
    """The commands of a path on a page or form of this height."""
    said: list[str] = []
    here = (0.0, 0.0)
    for command, *numbers in path:
        if command == "z":
            said.append("h")
            continue
        values = [float(one) for one in numbers]
        points = [
            (points_of(x), points_of(height_mm - y))
            for x, y in zip(values[::2], values[1::2], strict=True)
        ]
        if command == "q":
            points = _as_cubic(here, points)
        here = points[-1]
        operator = "c" if command == "q" else command
        said.append(" ".join(f"{number(x)} {number(y)}" for x, y in points) + f" {operator}")
    return " ".join(said)


def _as_cubic(
    here: tuple[float, float], points: list[tuple[float, float]]
) -> list[tuple[float, float]]:
    """A quadratic curve raised to the cubic that PDF knows."""
    (cx, cy), (x, y) = points
    return [
        (here[0] + 2 / 3 * (cx - here[0]), here[1] + 2 / 3 * (cy - here[1])),
        (x + 2 / 3 * (cx - x), y + 2 / 3 * (cy - y)),
        (x, y),
    ]
