"""Pictograms of the caution sticker: our own drawings on a grid 24 units high, y down.

They carry the meaning of the general warning sign and of the usual candle cautions and copy no
published artwork. Each is ink on a ground; slashes are set off by a band of the ground.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import Affine
from wickbench.documents.pictogram_drawings import DRAWINGS, GROUND, INK, along
from wickbench.documents.surface import BLACK, Colour, Path, map_path
from wickbench.domain.errors import OutOfRange

if TYPE_CHECKING:
    from wickbench.documents.pictogram_drawings import Part, Parts
    from wickbench.documents.surface import Surface

WHITE: Final = "#ffffff"
LEAST_HEIGHT_MM: Final = 5.0  # EN 15494:2019 cl. 4.3, from summaries of the standard


@dataclass(frozen=True, slots=True)
class PlacedPart:
    """One figure on the page, in millimetres."""

    path: Path
    fill: Colour | None
    stroke: Colour | None
    width_mm: float


def names() -> tuple[str, ...]:
    """Names of all drawings, the general warning first."""
    return tuple(DRAWINGS)


def pictogram(name: str) -> Parts:
    """The figures of a drawing, from back to front.

    Raises:
        OutOfRange: no drawing has that name.
    """
    if name not in DRAWINGS:
        raise OutOfRange("pictogram.unknown", name=name)
    return DRAWINGS[name]


@lru_cache(64)
def bounds(name: str) -> tuple[float, float, float, float]:
    """Left, top, right, bottom of the ink in grid units, line widths included."""
    boxes = [_part_bounds(part) for part in pictogram(name) if part.role == INK]
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def width_mm(name: str, height_mm: float) -> float:
    """Width of the ink of a drawing whose ink is this high."""
    left, top, right, bottom = bounds(name)
    return (right - left) / (bottom - top) * height_mm


def placed(
    name: str,
    x_mm: float,
    y_mm: float,
    height_mm: float,
    *,
    colour: Colour = BLACK,
    ground: Colour = WHITE,
) -> tuple[PlacedPart, ...]:
    """The figures in millimetres: the ink's top left corner at (x, y), its height as given."""
    left, top, _, bottom = bounds(name)
    k = height_mm / (bottom - top)
    affine = Affine(k, 0.0, 0.0, k, x_mm - left * k, y_mm - top * k)
    colours = {INK: colour, GROUND: ground}
    return tuple(
        PlacedPart(
            path=map_path(affine, part.path),
            fill=None if part.stroke else colours[part.role],
            stroke=colours[part.role] if part.stroke else None,
            width_mm=part.stroke * k,
        )
        for part in pictogram(name)
    )


def draw(
    surface: Surface,
    name: str,
    x_mm: float,
    y_mm: float,
    height_mm: float,
    *,
    colour: Colour = BLACK,
    ground: Colour = WHITE,
) -> None:
    """Draw a pictogram with the top left corner of its ink at (x, y)."""
    for part in placed(name, x_mm, y_mm, height_mm, colour=colour, ground=ground):
        surface.path(part.path, fill=part.fill, stroke=part.stroke, width_mm=part.width_mm)


def path_bounds(path: Path) -> tuple[float, float, float, float]:
    """Left, top, right, bottom of a path, its curves followed in short steps."""
    points = _points(path)
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _part_bounds(part: Part) -> tuple[float, float, float, float]:
    left, top, right, bottom = path_bounds(part.path)
    closed = part.path[-1][0] == "z"
    grow = part.stroke / 2 if closed or _is_slanted(part.path) else 0.0
    if grow:
        return left - grow, top - grow, right + grow, bottom + grow
    upright = part.stroke / 2 if left == right else 0.0  # butt ends: only the long sides grow
    level = part.stroke / 2 if top == bottom else 0.0
    return left - upright, top - level, right + upright, bottom + level


def _is_slanted(path: Path) -> bool:
    left, top, right, bottom = path_bounds(path)
    return left != right and top != bottom


def _points(path: Path) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = []
    for command, *numbers in path:
        values = [float(number) for number in numbers]
        ends = list(zip(values[::2], values[1::2], strict=True))
        if command in {"q", "c"}:
            found.extend(along(found[-1], *ends))
        else:
            found.extend(ends)
    return found
