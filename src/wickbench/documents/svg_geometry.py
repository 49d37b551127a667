"""Numbers of SVG made geometry: path data, plain shapes, transforms, view boxes, lengths."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import IDENTITY, Affine, shift, turn
from wickbench.documents.outlines import rectangle
from wickbench.documents.svg_arcs import arc_to

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.documents.surface import Path
    from wickbench.documents.svg_reading import Node

Command = tuple[str | float, ...]
Point = tuple[float, float]

_NUMBER: Final = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?")
_BETWEEN: Final = re.compile(r"[\s,]*")
_LETTER: Final = re.compile(r"[MmZzLlHhVvCcSsQqTtAa]")
_TRANSFORM: Final = re.compile(r"(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^)]*)\)")
_LONGEST_TRANSFORM: Final = 5000
_LENGTH: Final = re.compile(r"\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*([a-z%]*)\s*$")
_ARGUMENTS: Final = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
_FLAGS: Final = frozenset({3, 4})
_QUARTER: Final = 0.5522847498307936
UNITS: Final = {
    "": 1.0, "px": 1.0, "pt": 96 / 72, "pc": 16.0, "in": 96.0, "mm": 96 / 25.4, "cm": 960 / 25.4,
    "q": 24 / 25.4, "em": 16.0, "ex": 8.0, "rem": 16.0,
}  # fmt: skip


def numbers(text: str) -> list[float]:
    """All numbers in a list such as ``0,0 10 20``."""
    return [float(found) for found in _NUMBER.findall(text)]


def length(text: str, whole: float, otherwise: float = 0.0) -> float:
    """A length in user units; a percentage is of ``whole``; ``otherwise`` for what is no length."""
    match = _LENGTH.match(text.lower())
    if match is None:
        return otherwise
    value = float(match[1])
    if match[2] == "%":
        return value / 100 * whole
    return value * UNITS[match[2]] if match[2] in UNITS else otherwise


def transform(text: str) -> Affine:
    """A list of transforms as one map; what cannot be read changes nothing."""
    whole = IDENTITY
    for name, said in _TRANSFORM.findall(text[:_LONGEST_TRANSFORM]):
        made = _one_transform(name, numbers(said))
        if made is not None:
            whole = whole.after(made)
    return whole


def _one_transform(name: str, said: list[float]) -> Affine | None:
    made: Affine | None = None
    match name, said:
        case "matrix", [a, b, c, d, e, f]:
            made = Affine(a, b, c, d, e, f)
        case "translate", [x, *y]:
            made = shift(x, y[0] if y else 0.0)
        case "scale", [x, *y]:
            made = Affine(x, 0.0, 0.0, y[0] if y else x)
        case "rotate", [degrees, *middle] if len(middle) in {0, 2}:
            made = turn(degrees, *middle)
        case "skewX", [degrees]:
            made = Affine(c=math.tan(math.radians(degrees)))
        case "skewY", [degrees]:
            made = Affine(b=math.tan(math.radians(degrees)))
    return made


def view_box(node: Node, wide: float, high: float) -> Affine:
    """From the user units of a view box to a viewport of this size, its corner at the origin."""
    box = numbers(node.get("viewBox"))
    if len(box) != 4 or box[2] <= 0 or box[3] <= 0:  # noqa: PLR2004 - left, top, width, height
        return IDENTITY
    across, down = wide / box[2], high / box[3]
    words = [one for one in node.get("preserveAspectRatio", "xMidYMid").split() if one != "defer"]
    align = words[0] if words else "xMidYMid"
    if align == "none":
        return Affine(across, 0.0, 0.0, down, -box[0] * across, -box[1] * down)
    slices = len(words) > 1 and words[1] == "slice"
    k = max(across, down) if slices else min(across, down)
    shares = {"Min": 0.0, "Mid": 0.5, "Max": 1.0}
    x = (wide - box[2] * k) * shares.get(align[1:4], 0.5)
    y = (high - box[3] * k) * shares.get(align[5:8], 0.5)
    return Affine(k, 0.0, 0.0, k, x - box[0] * k, y - box[1] * k)


def control_box(path: Path) -> tuple[float, float, float, float]:
    """Left, top, right, bottom of all points of a path and of its controls; never too small."""
    xs = [float(value) for command in path for value in command[1::2]]
    ys = [float(value) for command in path for value in command[2::2]]
    return min(xs), min(ys), max(xs), max(ys)


def shape_path(node: Node, wide: float, high: float) -> Path | None:
    """The path of a shape in its user units; None for what is no shape or draws nothing.

    Args:
        node: path, rect, circle, ellipse, line, polyline or polygon.
        wide: width of the viewport, for percentages.
        high: height of it.
    """
    make = _SHAPES.get(node.tag)
    return make(node, wide, high) if make is not None else None


def _path(node: Node, _wide: float, _high: float) -> Path | None:
    return path_of(node.get("d"))[0] or None


def _rect(node: Node, wide: float, high: float) -> Path | None:
    x, y = length(node.get("x"), wide), length(node.get("y"), high)
    w, h = length(node.get("width"), wide), length(node.get("height"), high)
    if w <= 0 or h <= 0:
        return None
    rx, ry = length(node.get("rx"), wide, -1.0), length(node.get("ry"), high, -1.0)
    rx, ry = (ry if rx < 0 else rx), (rx if ry < 0 else ry)
    rx, ry = min(max(rx, 0.0), w / 2), min(max(ry, 0.0), h / 2)
    return _rounded(x, y, w, h, (rx, ry)) if rx and ry else rectangle(x, y, w, h)


def _rounded(x: float, y: float, w: float, h: float, radii: Point) -> Path:
    rx, ry = radii
    kx, ky, right, below = rx * (1 - _QUARTER), ry * (1 - _QUARTER), x + w, y + h
    return (
        ("m", x + rx, y),
        ("l", right - rx, y),
        ("c", right - kx, y, right, y + ky, right, y + ry),
        ("l", right, below - ry),
        ("c", right, below - ky, right - kx, below, right - rx, below),
        ("l", x + rx, below),
        ("c", x + kx, below, x, below - ky, x, below - ry),
        ("l", x, y + ry),
        ("c", x, y + ky, x + kx, y, x + rx, y),
        ("z",),
    )


def _ellipse(node: Node, wide: float, high: float) -> Path | None:
    x, y = length(node.get("cx"), wide), length(node.get("cy"), high)
    if node.tag == "circle":
        rx = ry = length(node.get("r"), math.hypot(wide, high) / math.sqrt(2))
    else:
        rx, ry = length(node.get("rx"), wide, -1.0), length(node.get("ry"), high, -1.0)
        rx, ry = (ry if rx < 0 else rx), (rx if ry < 0 else ry)
    if rx <= 0 or ry <= 0:
        return None
    # Begun at the right, clockwise, as the standard has it: dashes begin there.
    kx, ky = rx * _QUARTER, ry * _QUARTER
    return (
        ("m", x + rx, y),
        ("c", x + rx, y + ky, x + kx, y + ry, x, y + ry),
        ("c", x - kx, y + ry, x - rx, y + ky, x - rx, y),
        ("c", x - rx, y - ky, x - kx, y - ry, x, y - ry),
        ("c", x + kx, y - ry, x + rx, y - ky, x + rx, y),
        ("z",),
    )


def _line(node: Node, wide: float, high: float) -> Path | None:
    begin = (length(node.get("x1"), wide), length(node.get("y1"), high))
    end = (length(node.get("x2"), wide), length(node.get("y2"), high))
    return (("m", *begin), ("l", *end))


def _poly(node: Node, _wide: float, _high: float) -> Path | None:
    said = numbers(node.get("points"))
    points = list(zip(said[::2], said[1::2], strict=False))
    if not points:
        return None
    path: list[Command] = [("m", *points[0]), *(("l", *point) for point in points[1:])]
    return (*path, ("z",)) if node.tag == "polygon" else tuple(path)


_SHAPES: Final[dict[str, Callable[[Node, float, float], Path | None]]] = {
    "path": _path, "rect": _rect, "circle": _ellipse, "ellipse": _ellipse, "line": _line,
    "polyline": _poly, "polygon": _poly,
}  # fmt: skip


def path_of(data: str) -> tuple[Path, bool]:
    """Path data as absolute commands, and whether all of it could be read.

    A mistake ends the path there, as the standard wants (SVG 2, 9.5.4).
    """
    pen = _Pen()
    at = _skip(data, 0)
    letter = ""
    while at < len(data):
        if _LETTER.match(data, at):
            letter = data[at]
            at = _skip(data, at + 1)
        elif letter in {"", "Z", "z"}:
            return tuple(pen.path), False
        if not pen.path and letter not in {"M", "m"}:
            return tuple(pen.path), False
        said, at = _arguments(data, at, letter.upper())
        if said is None:
            return tuple(pen.path), False
        pen.draw(letter, said)
        letter = {"M": "L", "m": "l"}.get(letter, letter)
    return tuple(pen.path), True


def _skip(data: str, at: int) -> int:
    match = _BETWEEN.match(data, at)
    return match.end() if match is not None else at


def _arguments(data: str, at: int, letter: str) -> tuple[list[float] | None, int]:
    said: list[float] = []
    for number in range(_ARGUMENTS[letter]):
        if letter == "A" and number in _FLAGS:
            if data[at : at + 1] not in {"0", "1"}:
                return None, at
            said.append(float(data[at]))
            at = _skip(data, at + 1)
            continue
        match = _NUMBER.match(data, at)
        if match is None:
            return None, at
        said.append(float(match[0]))
        at = _skip(data, match.end())
    return said, at


class _Pen:
    """Follows path data: where it is, where it began, and the last control point."""

    def __init__(self) -> None:
        self.path: list[Command] = []
        self._at: Point = (0.0, 0.0)
        self._begin: Point = (0.0, 0.0)
        self._control: Point | None = None
        self._kind = ""
        self._closed = False

    def draw(self, letter: str, said: list[float]) -> None:
        upper = letter.upper()
        points = self._points(upper, said, relative=letter.islower())
        if upper != "M" and self._closed:
            self.path.append(("m", *self._begin))
        self._closed = upper == "Z"
        control = None
        if upper == "M":
            self.path.append(("m", *points[-1]))
            self._begin = points[-1]
        elif upper == "Z":
            self.path.append(("z",))
            points = [self._begin]
        elif upper == "A":
            radii, flags = (said[0], said[1]), (said[3], said[4])
            self.path += arc_to(self._at, radii, said[2], flags, points[-1])
        else:
            points = self._with_reflected(upper, points)
            control = points[-2] if len(points) > 1 else None
            word = {1: "l", 2: "q", 3: "c"}[len(points)]
            self.path.append((word, *(value for point in points for value in point)))
        self._at, self._control, self._kind = points[-1], control, upper

    def _points(self, upper: str, said: list[float], *, relative: bool) -> list[Point]:
        dx, dy = self._at if relative else (0.0, 0.0)
        if upper == "H":
            return [(said[0] + dx, self._at[1])]
        if upper == "V":
            return [(self._at[0], said[0] + dy)]
        if upper == "A":
            return [(said[5] + dx, said[6] + dy)]
        return [(x + dx, y + dy) for x, y in zip(said[::2], said[1::2], strict=True)]

    def _with_reflected(self, upper: str, points: list[Point]) -> list[Point]:
        """S and T begin with the last control point mirrored in the pen's place."""
        kinds = {"S": {"C", "S"}, "T": {"Q", "T"}}.get(upper)
        if kinds is None:
            return points
        x, y = self._at
        if self._kind in kinds and self._control is not None:
            x, y = 2 * x - self._control[0], 2 * y - self._control[1]
        return [(x, y), *points]
