"""Fill and stroke of one figure of an SVG, as draws of paper."""

from __future__ import annotations

import math
from functools import partial
from typing import TYPE_CHECKING, Final

from wickbench.documents.label_draws import PathDraw
from wickbench.documents.surface import map_path
from wickbench.documents.svg_geometry import control_box, length, numbers
from wickbench.documents.svg_strokes import Stroke, is_plain, outlined
from wickbench.documents.svg_styles import Paint, Rgb, on_white, paint, part_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.documents.affine import Affine
    from wickbench.documents.surface import Path
    from wickbench.documents.svg_reading import Node

_FAINT: Final = 1 / 255
_OPAQUE: Final = 1 - _FAINT
_EVEN: Final = 0.01
_FINE: Final = 1 / 8000
_SERVERS: Final = {
    "linearGradient": "gradient", "radialGradient": "gradient", "pattern": "pattern",
}  # fmt: skip


def painted(
    path: Path,
    style: Mapping[str, str],
    affine: Affine,
    alpha: float,
    named: Mapping[str, Node],
    *,
    exact: bool = True,
) -> tuple[list[PathDraw], set[str]]:
    """Draws of a figure, and words for what is not as it was.

    Args:
        path: in its own units.
        style: its properties.
        affine: from its units to those of the drawing.
        alpha: opacity of all around it.
        named: elements by their names, for gradients.
        exact: a line that paper draws in another way becomes an area, at the cost of time.
    """
    lost: set[str] = set()
    draws = []
    colour = partial(_colour, style=style, alpha=alpha, named=named, lost=lost)
    fill = colour("fill", "black")
    if fill is not None:
        even_odd = style.get("fill-rule", "nonzero") == "evenodd"
        draws.append(PathDraw(map_path(affine, path), fill, even_odd=even_odd))
    stroke = colour("stroke", "none")
    if stroke is not None:
        drawn = (_stroked if exact else _plainly_stroked)(path, style, affine, stroke)
        if not exact:
            lost.add("stroke")
        if drawn is not None:
            first = style.get("paint-order", "normal").split()[:1] == ["stroke"]
            draws.insert(0 if first else len(draws), drawn)
    if any(style.get(name, "none") != "none" for name in _MARKERS):
        lost.add("marker")
    return draws, lost


_MARKERS: Final = ("marker", "marker-start", "marker-mid", "marker-end")


def _colour(
    name: str,
    usual: str,
    *,
    style: Mapping[str, str],
    alpha: float,
    named: Mapping[str, Node],
    lost: set[str],
) -> str | None:
    """The colour to print in; None for nothing."""
    found = paint(style.get(name, usual), style)
    if found.server:
        found = _instead(found, named, lost)
    if not found.known:
        lost.add("colour")
    if found.colour is None:
        return None
    seen = alpha * found.alpha * part_of(style.get(f"{name}-opacity", "1"))
    if seen < _FAINT:
        return None
    if seen < _OPAQUE:
        lost.add("transparent")
    return on_white(found.colour, seen)


def _instead(found: Paint, named: Mapping[str, Node], lost: set[str]) -> Paint:
    """One colour in place of a gradient: the mean of its stops; of a pattern what stands behind."""
    node = named.get(found.server)
    if node is None:
        return found if found.colour is not None else Paint()
    lost.add(_SERVERS.get(node.tag, "other"))
    stops = _stops(node, named)
    if not stops:
        return found
    red, green, blue = (round(sum(one[at] for one in stops) / len(stops)) for at in range(3))
    return Paint((red, green, blue))


def _stops(node: Node, named: Mapping[str, Node]) -> list[Rgb]:
    found = [one for one in node.children if one.tag == "stop"]
    for _ in range(5):
        if found or not node.get("href").startswith("#"):
            break
        node = named.get(node.get("href")[1:], node)
        found = [one for one in node.children if one.tag == "stop"]
    colours = []
    for stop in found:
        own = dict(part.partition(":")[::2] for part in stop.get("style").split(";"))
        said = {name.strip(): value.strip() for name, value in own.items()}
        colour = paint(said.get("stop-color", "") or stop.get("stop-color", "black"), {})
        if colour.colour is not None:
            colours.append(colour.colour)
    return colours


def _stroked(path: Path, style: Mapping[str, str], affine: Affine, colour: str) -> PathDraw | None:
    stroke = _stroke_of(style)
    if stroke.width <= 0:
        return None
    k = math.sqrt(abs(affine.a * affine.d - affine.b * affine.c))
    if _is_even(affine) and is_plain(path, stroke):
        return PathDraw(map_path(affine, path), None, colour, stroke.width * k)
    left, top, right, bottom = control_box(path)
    fine = max(right - left, bottom - top, stroke.width) * _FINE
    area = outlined(path, stroke, fine)
    return PathDraw(map_path(affine, area), colour) if area else None


def _plainly_stroked(
    path: Path, style: Mapping[str, str], affine: Affine, colour: str
) -> PathDraw | None:
    stroke = _stroke_of(style)
    k = math.sqrt(abs(affine.a * affine.d - affine.b * affine.c))
    dashes = tuple(dash * k for dash in stroke.dashes)
    path = map_path(affine, path)
    return PathDraw(path, None, colour, stroke.width * k, dashes) if stroke.width > 0 else None


def _stroke_of(style: Mapping[str, str]) -> Stroke:
    dashes = tuple(numbers(style.get("stroke-dasharray", "none")))
    solid = not dashes or min(dashes) < 0 or sum(dashes) <= 0
    return Stroke(
        length(style.get("stroke-width", "1"), 100.0, 1.0),
        style.get("stroke-linecap", "butt"),
        style.get("stroke-linejoin", "miter"),
        max(1.0, length(style.get("stroke-miterlimit", "4"), 1.0, 4.0)),
        () if solid else dashes,
        length(style.get("stroke-dashoffset", "0"), 100.0),
    )


def _is_even(affine: Affine) -> bool:
    """Whether a map keeps circles round, so that a line is as wide in every direction."""
    across, down = math.hypot(affine.a, affine.b), math.hypot(affine.c, affine.d)
    slant = abs(affine.a * affine.c + affine.b * affine.d)
    size = max(across, down, 1e-12)
    return abs(across - down) <= _EVEN * size and slant <= _EVEN * size * size
