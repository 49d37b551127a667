"""A label on its vessel as it is seen from the front: what turns away, and where it ends.

A parallel view from far away: a place on the wall at an angle θ from the front is seen r·sin θ
beside the axis, and not at all beyond a quarter turn. Millimetres; x counts from the axis, y
downwards from the foot of the vessel, so that heights are negative.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import partial
from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import Affine
from wickbench.documents.flattening import chains
from wickbench.documents.label_layout import draw_label, label_outline
from wickbench.documents.surface import Colour, Path
from wickbench.documents.wall_map import WallMap
from wickbench.documents.wall_surface import Clip, WallArea, WallPicture, WallSurface

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickbench.documents.flattening import Point
    from wickbench.documents.label_layout import LaidOutLabel
    from wickbench.documents.surface import Surface
    from wickbench.domain.wrap_fit import Wall

PAPER: Final = "#ffffff"
EDGE: Final = "#9a8f80"
_EDGE_MM: Final = 0.25
_QUARTER: Final = math.pi / 2
_TURN: Final = 2 * math.pi
_HAIR: Final = 1e-9
_OVER_MM: Final = 0.05
"""Strips of a picture reach a little over each other, so that no line shows between them."""


@dataclass(frozen=True, slots=True)
class FrontArea:
    """An area as it is seen: fill it non-zero, cut to all of ``clips``."""

    path: Path
    fill: Colour
    clips: tuple[Path, ...] = ()


@dataclass(frozen=True, slots=True)
class FrontPicture:
    """A strip of a picture as it is seen: the map of its unit square, cut to all of ``clips``."""

    data: bytes = field(repr=False)
    unit: Affine
    clips: tuple[Path, ...] = ()


@dataclass(frozen=True, slots=True)
class FrontPaper:
    """The paper of the label as it is seen; who draws knows its colour."""

    path: Path


@dataclass(frozen=True, slots=True)
class FrontEdge:
    """An edge of the label as it is seen, to be stroked; an end that lies under shows none."""

    path: Path


@dataclass(frozen=True, slots=True)
class FrontLabel:
    """What is seen of a label.

    Attributes:
        paper: the label's own shape, once for each end that is seen.
        items: paper, print and edges, from back to front.
        seen_share: part of its length that is seen, 0 to 1, on its middle line.
        half_mm: half of the vessel's width, where it is widest.
    """

    paper: tuple[Path, ...]
    items: tuple[FrontPaper | FrontArea | FrontPicture | FrontEdge, ...]
    seen_share: float
    half_mm: float


@dataclass(frozen=True, slots=True)
class WallLabel:
    """A label laid on a wall, to be seen from any side.

    Attributes:
        wall_map: how it was laid.
        outline: chains of the label's own edge on the wall.
        items: what is printed, on the wall.
        clips: what they are cut to, by number.
        middle: angles of the two ends of its middle line.
    """

    wall_map: WallMap
    outline: Clip
    items: tuple[WallArea | WallPicture, ...]
    clips: tuple[tuple[Clip, ...], ...]
    middle: tuple[float, float]


def lay_on_wall(laid: LaidOutLabel, wall: Wall, middle_mm: float) -> WallLabel:
    """Lay a label on the wall of a vessel, as it is printed.

    Args:
        laid: the label; its front comes to the front.
        wall: outside of the vessel.
        middle_mm: height of the label's middle above the foot.
    """
    wall_map = WallMap(laid, wall, middle_mm)
    surface = WallSurface(wall_map)
    surface.push_clip(label_outline(laid))  # what bleeds over the edge is cut away
    draw_label(laid, surface)
    surface.pop()
    edge = chains(label_outline(laid))
    outline = tuple(tuple(wall_map.place(*point) for point in chain.points) for chain in edge)
    middle = wall_map.middle_line(laid.design.width_mm)
    return WallLabel(wall_map, outline, tuple(surface.items), tuple(surface.clips), middle)


def seen_from_front(label: WallLabel, turn_deg: float = 0.0) -> FrontLabel:
    """What is seen of a label when the vessel is turned to the right by so many degrees."""
    windows = [_Window(label.wall_map, around) for around in _windows(label, turn_deg)]
    # The beginning of a wrap lies over its end: what lies further round is painted first.
    windows.sort(key=lambda one: one.from_angle, reverse=True)
    paper: list[Path] = []
    items: list[FrontPaper | FrontArea | FrontPicture | FrontEdge] = []
    for window in windows:
        shown = window.area(label.outline)
        if not shown:
            continue
        paper.append(shown)
        items.append(FrontPaper(shown))
        clips = [tuple(window.area(one) for one in every) for every in label.clips]
        for item in label.items:
            items += window.seen(item, clips[item.clip])
        items += [FrontEdge(line) for line in window.lines(label.outline)]
    wall = label.wall_map.wall
    half = max(wall.bottom_mm, wall.top_mm) / 2
    return FrontLabel(tuple(paper), tuple(items), _seen_share(label, windows), half)


def draw_front(
    front: FrontLabel, surface: Surface, *, paper: Colour = PAPER, edge: Colour = EDGE
) -> None:
    """Draw what is seen; the origin of the surface lies on the axis at the foot."""
    now: tuple[Path, ...] = ()
    for item in front.items:
        clips = item.clips if isinstance(item, FrontArea | FrontPicture) else ()
        if clips != now:
            _change_clips(surface, now, clips)
            now = clips
        _draw(item, surface, paper, edge)
    _change_clips(surface, now, ())


def _draw(
    item: FrontPaper | FrontArea | FrontPicture | FrontEdge,
    surface: Surface,
    paper: Colour,
    edge: Colour,
) -> None:
    if isinstance(item, FrontPaper):
        surface.path(item.path, fill=paper)
    elif isinstance(item, FrontArea):
        surface.path(item.path, fill=item.fill)
    elif isinstance(item, FrontEdge):
        surface.path(item.path, stroke=edge, width_mm=_EDGE_MM)
    else:
        surface.push_transform(item.unit)
        surface.image(item.data, 0.0, 0.0, 1.0, 1.0)
        surface.pop()


def _change_clips(surface: Surface, old: Sequence[Path], new: Iterable[Path]) -> None:
    for _ in old:
        surface.pop()
    for clip in new:
        surface.push_clip(clip)


def _windows(label: WallLabel, turn_deg: float) -> list[float]:
    """Turns of the wall, in radians, by which some of the label comes to the front."""
    angles = [angle for chain in label.outline for angle, _ in chain]
    low, high = min(angles), max(angles)
    offset = math.radians(turn_deg)
    first = math.ceil((-_QUARTER - high - offset) / _TURN)
    last = math.floor((_QUARTER - low - offset) / _TURN)
    return [offset + number * _TURN for number in range(first, last + 1)]


def _seen_share(label: WallLabel, windows: Sequence[_Window]) -> float:
    low, high = sorted(label.middle)
    if high - low < _HAIR:
        return 0.0
    seen = sum(
        max(0.0, min(high, one.from_angle + math.pi) - max(low, one.from_angle)) for one in windows
    )
    return min(1.0, seen / (high - low))


class _Window:
    """The half of the wall that is seen, for one turn of it.

    Args:
        wall_map: gives the places as they are seen.
        turned: added to each angle on the wall.
    """

    def __init__(self, wall_map: WallMap, turned: float) -> None:
        self._map = wall_map
        self._turned = turned

    @property
    def from_angle(self) -> float:
        """Angle on the wall where the left edge of what is seen lies."""
        return -_QUARTER - self._turned

    def area(self, laid: Clip) -> Path:
        """An area, without what lies further round than can be seen."""
        path: list[tuple[str | float, ...]] = []
        for chain in laid:
            turned = [(angle + self._turned, height) for angle, height in chain]
            low, high = min(turned)[0], max(turned)[0]
            if high <= -_QUARTER or low >= _QUARTER:
                continue
            if low < -_QUARTER:
                turned = _cut(turned, -_QUARTER, 1.0)
            if high > _QUARTER:
                turned = _cut(turned, _QUARTER, -1.0)
            words = ("m", *("l" for _ in turned[1:]))
            path += [
                (word, *self._map.seen(*place)) for word, place in zip(words, turned, strict=True)
            ]
            path.append(("z",))
        return tuple(path)

    def lines(self, laid: Clip) -> list[Path]:
        """The edge of a closed chain, without what is not seen."""
        found: list[Path] = []
        for chain in laid:
            piece: list[tuple[str | float, ...]] = []
            for angle, height in (*chain, chain[0]):
                turned = angle + self._turned
                if abs(turned) <= _QUARTER:
                    word = "l" if piece else "m"
                    piece.append((word, *self._map.seen(turned, height)))
                elif piece:
                    found.append(tuple(piece))
                    piece = []
            if piece:
                found.append(tuple(piece))
        return [one for one in found if len(one) > 1]

    def seen(
        self, item: WallArea | WallPicture, clips: tuple[Path, ...]
    ) -> list[FrontArea | FrontPicture]:
        """An item as it is seen; nothing when it lies further round."""
        if isinstance(item, WallArea):
            path = self.area(item.chains)
            return [FrontArea(path, item.fill, clips)] if path else []
        strip = self._strip(item, clips)
        return [strip] if strip is not None else []

    def _strip(self, item: WallPicture, clips: tuple[Path, ...]) -> FrontPicture | None:
        angles = [angle + self._turned for angle, _ in item.corners]
        if abs(sum(angles) / len(angles)) >= _QUARTER:
            return None
        clamp = partial(min, _QUARTER)
        corners = [
            self._map.seen(clamp(max(-_QUARTER, angle)), height)
            for angle, (_, height) in zip(angles, item.corners, strict=True)
        ]
        unit = _unit_of(corners, item.part, upright=item.upright)
        left = min(x for x, _ in corners) - _OVER_MM
        right = max(x for x, _ in corners) + _OVER_MM
        top, bottom = min(y for _, y in corners) - 1.0, max(y for _, y in corners) + 1.0
        box = (("m", left, top), ("l", right, top), ("l", right, bottom), ("l", left, bottom))
        return FrontPicture(item.data, unit, (*clips, (*box, ("z",))))


def _cut(chain: Sequence[Point], at: float, side: float) -> list[Point]:
    """A closed chain cut along an upright line; ``side`` 1 keeps what lies right of it.

    One step of the cutting by Sutherland and Hodgman: where a chain leaves and comes back it is
    joined along the line, which leaves areas as they are.
    """
    kept: list[Point] = []
    before = chain[-1]
    for place in chain:
        was, now = (before[0] - at) * side, (place[0] - at) * side
        if (was < 0.0) != (now < 0.0):
            share = was / (was - now)
            kept.append((at, before[1] + (place[1] - before[1]) * share))
        if now >= 0.0:
            kept.append(place)
        before = place
    return kept


def _unit_of(corners: Sequence[Point], part: tuple[float, float], *, upright: bool) -> Affine:
    """The map of the whole picture's unit square that puts the strip between its corners."""
    (x0, y0), (x1, y1), _, (x3, y3) = corners
    wide = part[1] - part[0]
    across, down = (x1 - x0, y1 - y0), (x3 - x0, y3 - y0)
    if upright:
        across = (across[0] / wide, across[1] / wide)
        start = (x0 - across[0] * part[0], y0 - across[1] * part[0])
    else:
        down = (down[0] / wide, down[1] / wide)
        start = (x0 - down[0] * part[0], y0 - down[1] * part[0])
    return Affine(*across, *down, *start)
