"""Strokes as areas: ends, corners and dashes that a plain stroke of paper does not have.

A plain stroke ends butt and has mitred corners, cut at ten times its width, and its pen is round.
Anything else becomes one area: a box for each straight piece, a figure for each corner and end,
all turning the same way, to be filled by the non-zero rule.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from wickbench.documents.pictogram_drawings import at_part

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.documents.surface import Path

Point = tuple[float, float]
PLAIN_LIMIT: Final = 10.0
_SMOOTH_DEG: Final = 12.0
_MOST_STEPS: Final = 96
_MOST_TURN: Final = math.radians(50)
_SPARE: Final = 1.3
_HAIR: Final = 1e-9


@dataclass(frozen=True, slots=True)
class Stroke:
    """How a path is stroked, in its own units.

    Attributes:
        width: of the line.
        cap: butt, round or square.
        join: miter, round or bevel.
        limit: a mitre longer than this times the width is cut.
        dashes: lengths of dashes and gaps; empty for a solid line.
        offset: where in the dashes it begins.
    """

    width: float
    cap: str = "butt"
    join: str = "miter"
    limit: float = 4.0
    dashes: tuple[float, ...] = ()
    offset: float = 0.0


@dataclass(frozen=True, slots=True)
class Polyline:
    """A path made of straight pieces.

    Attributes:
        points: without the first one again at the end of a closed one.
        closed: whether it runs back to its first point.
        corners: which points are corners of the path, and not just steps along a curve.
    """

    points: tuple[Point, ...]
    closed: bool
    corners: tuple[bool, ...]


def is_plain(path: Path, stroke: Stroke) -> bool:
    """Whether a plain stroke of paper looks the same."""
    if stroke.dashes:
        return False
    lines = flattened(path, stroke.width / 8 or 1.0)
    if stroke.cap != "butt" and not all(line.closed for line in lines):
        return False
    sharp = [turn for line in lines for turn in _turns(line) if turn > math.radians(_SMOOTH_DEG)]
    if stroke.join not in {"miter", "miter-clip", "arcs"}:
        return not sharp
    return all(_mitred(turn, stroke.limit) == _mitred(turn, PLAIN_LIMIT) for turn in sharp)


def outlined(path: Path, stroke: Stroke, tolerance: float) -> Path:
    """The area of a stroke, to be filled by the non-zero rule.

    Args:
        path: what is stroked.
        stroke: how.
        tolerance: how far the area may be off, in the path's units.
    """
    figures: list[list[Point]] = []
    for line in flattened(path, tolerance, stroke.width / 2):
        pieces = _dashed(line, stroke) if stroke.dashes else [line]
        for piece in pieces:
            figures += _figures(piece, stroke, tolerance)
    return tuple(command for figure in figures for command in _closed(figure))


def flattened(path: Path, tolerance: float, half: float = 0.0) -> list[Polyline]:
    """A path as straight pieces, its curves and what lies half a line beside them followed."""
    lines: list[Polyline] = []
    points: list[Point] = []
    corners: list[bool] = []
    for word, *said in path:
        values = [float(value) for value in said]
        ends = list(zip(values[::2], values[1::2], strict=True))
        if word in {"m", "z"}:
            if points:
                lines.append(_polyline(points, corners, closed=word == "z"))
            points, corners = ([ends[0]], [True]) if word == "m" else ([], [])
            continue
        control = [points[-1], *ends]
        steps = _steps(control, tolerance, half) if word in {"q", "c"} else 1
        points += [at_part(control, at / steps) for at in range(1, steps)] + [ends[-1]]
        corners += [False] * (steps - 1) + [True]
    if points:
        lines.append(_polyline(points, corners, closed=False))
    return lines


def _polyline(points: Sequence[Point], corners: Sequence[bool], *, closed: bool) -> Polyline:
    kept: list[tuple[Point, bool]] = []
    for point, corner in zip(points, corners, strict=True):
        if kept and math.dist(kept[-1][0], point) <= _HAIR:
            kept[-1] = (kept[-1][0], kept[-1][1] or corner)
        else:
            kept.append((point, corner))
    if closed and len(kept) > 1 and math.dist(kept[0][0], kept[-1][0]) <= _HAIR:
        kept.pop()
    return Polyline(tuple(one for one, _ in kept), closed, tuple(corner for _, corner in kept))


def _steps(control: Sequence[Point], tolerance: float, half: float) -> int:
    """Pieces for a curve: its second differences bound how far a chord is off.

    Beside it a chord is off by half the width times the eighth of its turn squared.
    """
    far = turn = 0.0
    for a, b, c in zip(control, control[1:], control[2:], strict=False):
        far = max(far, math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]))
        turn += _turned(a, b, c)
    degree = len(control) - 1
    count = math.ceil(math.sqrt(degree * (degree - 1) * far / (8 * max(tolerance, _HAIR))))
    beside = math.ceil(turn * math.sqrt(half / (8 * max(tolerance, _HAIR))))
    return min(max(count, beside, 4), _MOST_STEPS)


def _turns(line: Polyline) -> list[float]:
    """How much the way turns at each inner corner of the path, in radians."""
    found = []
    for before, at, after in _threes(line):
        if line.corners[at] and before is not None and after is not None:
            found.append(_turned(line.points[before], line.points[at], line.points[after]))
    return found


def _threes(line: Polyline) -> list[tuple[int | None, int, int | None]]:
    count = len(line.points)
    found: list[tuple[int | None, int, int | None]] = []
    for at in range(count):
        before = (at - 1) % count if line.closed or at else None
        after = (at + 1) % count if line.closed or at < count - 1 else None
        found.append((before, at, after))
    return found


def _turned(a: Point, b: Point, c: Point) -> float:
    first = math.atan2(b[1] - a[1], b[0] - a[0])
    second = math.atan2(c[1] - b[1], c[0] - b[0])
    return abs(math.remainder(second - first, 2 * math.pi))


def _mitred(turn: float, limit: float) -> bool:
    """Whether a corner keeps its point: 1 / sin(θ/2) of the angle between the lines ≤ limit."""
    return math.cos(turn / 2) * limit >= 1.0


def _figures(line: Polyline, stroke: Stroke, tolerance: float) -> list[list[Point]]:
    half = stroke.width / 2
    if len(line.points) == 1:
        return _dot(line.points[0], half, stroke.cap, tolerance)
    smooth = {
        at
        for before, at, after in _threes(line)
        if before is not None and after is not None and _is_smooth(line, (before, at, after), half)
    }
    figures = [_strip(points, half) for points in _stretches(line, smooth)]
    for before, at, after in _threes(line):
        if before is None or after is None:
            beside = line.points[1 if before is None else at - 1]
            figures += _cap(beside, line.points[at], half, stroke.cap, tolerance)
        elif at not in smooth or (line.closed and at == 0):
            three = (line.points[before], line.points[at], line.points[after])
            join = stroke.join if line.corners[at] else "bevel"
            figures += _join(three, half, (join, stroke.limit), tolerance)
    return [_upright(one) for one in figures]


def _is_smooth(line: Polyline, three: tuple[int, int, int], half: float) -> bool:
    """Whether a step along a curve turns so little that the inner side does not fold."""
    a, b, c = (line.points[at] for at in three)
    turn = _turned(a, b, c)
    short = min(math.dist(a, b), math.dist(b, c))
    fold = half * math.tan(turn / 2) * _SPARE if turn < _MOST_TURN else math.inf
    bends = line.corners[three[1]] and turn > math.radians(_SMOOTH_DEG)
    return not bends and fold < short


def _stretches(line: Polyline, smooth: set[int]) -> list[list[Point]]:
    """Points of the way from one corner to the next."""
    ends = [*line.points, line.points[0]] if line.closed else list(line.points)
    found = [[ends[0]]]
    for at, point in enumerate(ends[1:], start=1):
        found[-1].append(point)
        if at < len(ends) - 1 and at not in smooth:
            found.append([point])
    return found


def _strip(points: Sequence[Point], half: float) -> list[Point]:
    """The band along a smooth stretch: out along one side, back along the other."""
    out: list[Point] = []
    back: list[Point] = []
    last = len(points) - 1
    for at, (x, y) in enumerate(points):
        first = _beside(points[max(0, at - 1)], points[max(1, at)], half)
        second = _beside(points[min(at, last - 1)], points[min(at + 1, last)], half)
        # The mean of both sides' normals, as long as a mitre of so small a turn.
        size = half * half + first[0] * second[0] + first[1] * second[1]
        k = 2 * half * half / size / 2 if size else 0.5
        dx, dy = (first[0] + second[0]) * k, (first[1] + second[1]) * k
        out.append((x + dx, y + dy))
        back.append((x - dx, y - dy))
    return [*out, *reversed(back)]


def _box(a: Point, b: Point, half: float) -> list[Point]:
    x, y = _beside(a, b, half)
    return [(a[0] + x, a[1] + y), (b[0] + x, b[1] + y), (b[0] - x, b[1] - y), (a[0] - x, a[1] - y)]


def _beside(a: Point, b: Point, half: float) -> Point:
    long = math.dist(a, b) or 1.0
    return -(b[1] - a[1]) / long * half, (b[0] - a[0]) / long * half


def _join(
    three: tuple[Point, Point, Point], half: float, how: tuple[str, float], tolerance: float
) -> list[list[Point]]:
    a, b, c = three
    join, limit = how
    turn = _turned(a, b, c)
    if turn <= _HAIR:
        return []
    if join == "round":
        return [_disc(b, half, tolerance)]
    x1, y1 = _beside(a, b, half)
    x2, y2 = _beside(b, c, half)
    # The outer side lies away from the turn.
    side = -1.0 if (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) > 0 else 1.0
    first, second = (b[0] + side * x1, b[1] + side * y1), (b[0] + side * x2, b[1] + side * y2)
    if join in {"miter", "miter-clip", "arcs"} and _mitred(turn, limit):
        reach = 1 / math.cos(turn / 2) ** 2 / 2
        tip = (b[0] + side * (x1 + x2) * reach, b[1] + side * (y1 + y2) * reach)
        return [[b, first, tip, second]]
    return [[b, first, second]]


def _cap(beside: Point, end: Point, half: float, cap: str, tolerance: float) -> list[list[Point]]:
    if cap == "round":
        return [_disc(end, half, tolerance)]
    if cap != "square":
        return []
    long = math.dist(beside, end) or 1.0
    far = (
        end[0] + (end[0] - beside[0]) / long * half,
        end[1] + (end[1] - beside[1]) / long * half,
    )
    return [_box(end, far, half)]


def _dot(at: Point, half: float, cap: str, tolerance: float) -> list[list[Point]]:
    if cap == "round":
        return [_upright(_disc(at, half, tolerance))]
    if cap == "square":
        return [_upright(_box((at[0] - half, at[1]), (at[0] + half, at[1]), half))]
    return []


def _disc(middle: Point, radius: float, tolerance: float) -> list[Point]:
    share = min(max(tolerance / max(radius, _HAIR), 1e-6), 0.1)
    count = min(max(12, math.ceil(math.pi / math.acos(1 - share))), 180)
    return [
        (
            middle[0] + radius * math.cos(2 * math.pi * at / count),
            middle[1] + radius * math.sin(2 * math.pi * at / count),
        )
        for at in range(count)
    ]


def _upright(figure: list[Point]) -> list[Point]:
    """The figure turning the one way, so that overlaps do not cancel."""
    ends = [*figure, figure[0]]
    area = math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(ends))
    return figure if area >= 0 else figure[::-1]


def _closed(figure: list[Point]) -> Path:
    return (("m", *figure[0]), *(("l", *point) for point in figure[1:]), ("z",))


def _dashed(line: Polyline, stroke: Stroke) -> list[Polyline]:
    dashes = stroke.dashes if len(stroke.dashes) % 2 == 0 else stroke.dashes * 2
    whole = math.fsum(dashes)
    if whole <= 0 or min(dashes) < 0:
        return [line]
    ends = list(zip(line.points, line.corners, strict=True))
    if line.closed:
        ends.append(ends[0])
    return _cut(ends, dashes, stroke.offset % whole)


def _cut(
    ends: Sequence[tuple[Point, bool]], dashes: Sequence[float], offset: float
) -> list[Polyline]:
    number, left = 0, offset
    while left >= dashes[number]:
        left -= dashes[number]
        number = (number + 1) % len(dashes)
    left = dashes[number] - left
    pieces: list[Polyline] = []
    now: list[tuple[Point, bool]] = [ends[0]] if number % 2 == 0 else []
    for (a, _), (b, corner) in pairwise(ends):
        long, gone = math.dist(a, b), 0.0
        while long - gone > left:
            gone += left
            spot = (a[0] + (b[0] - a[0]) * gone / long, a[1] + (b[1] - a[1]) * gone / long)
            if number % 2 == 0:
                pieces.append(_open([*now, (spot, True)]))
            now = [(spot, True)]
            number = (number + 1) % len(dashes)
            left = dashes[number]
        left -= long - gone
        if number % 2 == 0:
            now.append((b, corner))
    if number % 2 == 0 and len(now) > 1:
        pieces.append(_open(now))
    return pieces


def _open(ends: Sequence[tuple[Point, bool]]) -> Polyline:
    return _polyline([point for point, _ in ends], [corner for _, corner in ends], closed=False)
