"""Our own ornaments, drawn as paths; each has a key and a group.

They are drawn for this program and copy no published artwork.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import Affine
from wickbench.documents.label_draws import PathDraw
from wickbench.documents.ornament_flowers import FLOWERS, SPICES
from wickbench.documents.ornament_leaves import LEAVES
from wickbench.documents.ornament_rules import BRACKETS, CORNERS, RULES
from wickbench.documents.ornament_sky import SKY
from wickbench.documents.pictograms import path_bounds
from wickbench.documents.surface import BLACK, Colour, Path, map_path
from wickbench.documents.svg_strokes import PLAIN_LIMIT, Stroke, outlined
from wickbench.domain.errors import OutOfRange
from wickbench.domain.sheets import Rect

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.documents.ornament_shapes import Part, Parts

FINEST_MM: Final = 0.1  # common practice, no source: a finer line breaks up on uncoated paper

_SHORTEST: Final = 8.0
_LONGEST: Final = 400.0
_BRACKETS: Final = "brackets"


@dataclass(frozen=True, slots=True)
class PlacedOrnament:
    """An ornament in its box.

    Attributes:
        draws: its figures, mm.
        finest_mm: width of its finest line; None when it has none.
        box: where its ink lies.
    """

    draws: tuple[PathDraw, ...]
    finest_mm: float | None
    box: Rect


_GROUPS: Final[dict[str, dict[str, Parts | Callable[[float], Parts]]]] = {
    "leaves": {**LEAVES},
    "flowers": {**FLOWERS},
    "spices": {**SPICES},
    "sky": {**SKY},
    "rules": {**RULES},
    "corners": {**CORNERS, _BRACKETS: BRACKETS},
}
GROUPS: Final = tuple(_GROUPS)
_ALL: Final = {name: parts for group in _GROUPS.values() for name, parts in group.items()}


def ornament_names(group: str = "") -> tuple[str, ...]:
    """Keys of all ornaments in the order of the list, or those of one group."""
    return tuple(_GROUPS[group]) if group else tuple(_ALL)


def group_of(name: str) -> str:
    """The group of an ornament; empty for an unknown one."""
    return next((group for group, found in _GROUPS.items() if name in found), "")


@lru_cache(256)
def ornament(name: str, ratio: float = 1.0) -> Parts:
    """The figures of an ornament in units of its own.

    Args:
        name: its key.
        ratio: width of its box by the height; a rule grows to it, others keep their shape.

    Raises:
        OutOfRange: ``ornament.unknown``.
    """
    if name not in _ALL:
        raise OutOfRange("ornament.unknown", name=name)
    made = _ALL[name]
    return made(ratio) if callable(made) else made


@lru_cache(512)
def place_ornament(name: str, box: Rect, colour: Colour = BLACK) -> PlacedOrnament:
    """An ornament as large as its box allows, in its middle, its shape kept.

    Args:
        name: its key.
        box: the room for it, mm.
        colour: of all of it.

    Raises:
        OutOfRange: ``ornament.unknown``.
    """
    ratio = _ratio(name, box)
    parts = ornament(name, ratio)
    left, top, right, bottom = bounds(name, ratio)
    k = min(box.w_mm / (right - left), box.h_mm / (bottom - top))
    wide, high = (right - left) * k, (bottom - top) * k
    x, y = box.x_mm + (box.w_mm - wide) / 2, box.y_mm + (box.h_mm - high) / 2
    affine = Affine(k, 0.0, 0.0, k, x - left * k, y - top * k)
    strokes = [part.stroke * k for part in parts if part.stroke]
    draws = tuple(_draw(part, affine, colour) for part in parts)
    return PlacedOrnament(draws, min(strokes, default=None), Rect(x, y, wide, high))


@lru_cache(256)
def bounds(name: str, ratio: float = 1.0) -> tuple[float, float, float, float]:
    """Left, top, right, bottom of an ornament's ink in its units, line widths included."""
    parts = ornament(name, ratio)
    boxes = [path_bounds(_ink(part)) for part in parts]
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def _ink(part: Part) -> Path:
    """The area of a figure: a line has its width and ends butt."""
    if not part.stroke:
        return part.path
    return outlined(part.path, Stroke(part.stroke, limit=PLAIN_LIMIT), part.stroke / 25)


def _ratio(name: str, box: Rect) -> float:
    """Only what grows looks at its box; rounded, so that a hand's drawing is remembered."""
    if not callable(_ALL.get(name)):
        return 1.0
    if box.h_mm <= 0 or box.w_mm <= 0:
        return _SHORTEST
    asked = box.w_mm / box.h_mm
    if name == _BRACKETS:
        return round(max(0.6, min(asked, _LONGEST)), 3)
    return round(max(_SHORTEST, min(asked, _LONGEST)), 3)


def _draw(part: Part, affine: Affine, colour: Colour) -> PathDraw:
    path = map_path(affine, part.path)
    if part.stroke:
        return PathDraw(path, None, colour, part.stroke * affine.a)
    return PathDraw(path, colour, even_odd=part.even_odd)
