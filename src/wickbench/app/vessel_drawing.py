"""A vessel drawn to scale, as lines and labels in millimetres: for the screen and for paper.

x counts from the middle, y upwards from the inside of the base. Every part has a role; who draws
gives each role its ink: "wall", "wax", "range" (where the set level may lie), "brim", "fill",
"set", "wick", "zone" (straight part of the outside, for labels), "room" (headspace: how far the
fill line stands below the rim).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.app.vessel_labels import DrawnLabel, DrawnWick, labels_of, wax_top
from wickbench.domain.base_shape import fillet_inset_mm, push_up_at_mm

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.measures import Levels, VesselMeasures
    from wickbench.app.texts import Texts
    from wickbench.domain.catalog import Vessel
    from wickbench.domain.shapes import Profile

Point = tuple[float, float]
_WALL_MM = {"metal": 0.6, "plastic": 1.0, "silicone": 2.0, "concrete": 8.0, "ceramic": 4.0}
_USUAL_WALL_MM = 2.5
_TABLET_MM = 15.0
_ARC_STEPS = 12
_ARROW_MM = 1.6


@dataclass(frozen=True, slots=True)
class DrawnLine:
    """A line or, when closed, a shape."""

    role: str
    points: tuple[Point, ...]
    closed: bool = False


@dataclass(frozen=True, slots=True)
class VesselDrawing:
    """The drawing with the box that it fills, in mm.

    Attributes:
        lines: from back to front.
        labels: from top to bottom.
        left_mm, right_mm, bottom_mm, top_mm: the box.
    """

    lines: tuple[DrawnLine, ...]
    labels: tuple[DrawnLabel, ...]
    left_mm: float
    right_mm: float
    bottom_mm: float
    top_mm: float

    def of(self, role: str) -> tuple[DrawnLine, ...]:
        """Lines of a role."""
        return tuple(line for line in self.lines if line.role == role)

    @property
    def description(self) -> str:
        """The drawing in words, for who cannot see it."""
        return "; ".join(" ".join(label.lines) for label in self.labels)


def draw_vessel(
    vessel: Vessel,
    measures: VesselMeasures,
    levels: Levels | None,
    wick: DrawnWick,
    texts: Texts,
) -> VesselDrawing | None:
    """Draw one cell of a vessel; ``None`` while its inside is unknown.

    Args:
        vessel: its outside and material.
        measures: its inside and volumes.
        levels: hot fill line and set level, when the mix is known.
        wick: the wicks to draw; a count of 0 draws none.
        texts: words and units of the labels.
    """
    profile = measures.profile
    if profile is None:
        return None
    wall = _wall(vessel, profile)
    lines = [
        *_wax(profile, measures, levels),
        DrawnLine("wall", wall, closed=True),
        *_wicks(profile, measures, levels, wick),
        *_level_lines(profile, measures, levels),
        *_room(profile, measures),
        *_zone(vessel, wall),
    ]
    points = [point for line in lines for point in line.points]
    return VesselDrawing(
        lines=tuple(lines),
        labels=labels_of(vessel, measures, levels, wick, texts),
        left_mm=min(x for x, _ in points),
        right_mm=max(x for x, _ in points),
        bottom_mm=min(y for _, y in points),
        top_mm=max(y for _, y in points),
    )


# -- the vessel ------------------------------------------------------------------------------------
def inner_side(profile: Profile, up_to_mm: float) -> list[Point]:
    """Right side of the inside up to a height, from the middle of the base: (x, y) in mm."""
    fillet, top = profile.base_fillet_mm, min(profile.top_mm, max(up_to_mm, 0.0))
    rim = base_rim_mm(profile)
    steps = [step / _ARC_STEPS for step in range(_ARC_STEPS + 1)]
    bulge = [(rim * step, push_up_at_mm(rim * step, rim, profile.push_up_mm)) for step in steps]
    corner = [fillet * (1 - math.cos(step * math.pi / 2)) for step in steps if fillet]
    above = [h for h, _ in profile.points if fillet < h < top]
    heights = sorted({h for h in (*corner, fillet, *above, top) if h <= top})
    wall = [(profile.diameter_mm(h) / 2 - fillet_inset_mm(h, fillet), h) for h in heights]
    if profile.push_up_mm:
        return [*((x, y) for x, y in bulge if y <= top), *wall]
    return wall


def base_rim_mm(profile: Profile) -> float:
    """Radius of the base inside its rounding: where a push-up begins."""
    return max(0.0, profile.points[0][1] / 2 - profile.base_fillet_mm)


def _wall_side(profile: Profile) -> list[Point]:
    """Half widths of the wall, as if it went straight down to a flat base."""
    heights = [0.0, *(h for h, _ in profile.points if 0.0 < h < profile.top_mm), profile.top_mm]
    return [(profile.diameter_mm(height) / 2, height) for height in heights]


def _mirrored(side: Sequence[Point]) -> tuple[Point, ...]:
    """A closed shape from its right side, bottom to top."""
    return (*((-x, y) for x, y in reversed(side)), *side)


def _wall(vessel: Vessel, profile: Profile) -> tuple[Point, ...]:
    """The glass: up the outside, over the rim, down the inside and up again."""
    inner = inner_side(profile, profile.top_mm)
    thick = _WALL_MM.get(vessel.glass or "", _USUAL_WALL_MM)
    base = _base_mm(vessel, profile, thick)
    outer = _outer_side(vessel, _wall_side(profile), thick, base)
    left_outer = [(-x, y) for x, y in outer]
    left_inner = [(-x, y) for x, y in inner]
    return (*left_outer[::-1], *outer, *inner[::-1], *left_inner)


def _base_mm(vessel: Vessel, profile: Profile, thick: float) -> float:
    outer = vessel.outer_height_mm
    if vessel.height_mm is None or outer is None:
        return thick
    base = outer - profile.top_mm
    return base if 0 < base < profile.top_mm / 2 else thick


def _outer_side(vessel: Vessel, inner: Sequence[Point], thick: float, base: float) -> list[Point]:
    """Right side of the outside: as measured where it is wider than the inside, else offset."""
    bottom, top = vessel.outer_bottom_mm or vessel.base_mm, vessel.outer_top_mm or None
    low, high = -base, inner[-1][1]
    if bottom is not None and top is not None:
        measured = [(bottom / 2, low), (top / 2, high)]
        if all(x < _on_line(measured, y) for x, y in inner):
            return measured
    if len(inner) > 1 and bottom is not None and bottom / 2 > inner[0][0]:
        return [(bottom / 2, low), *((x + thick, y) for x, y in inner if y > 0)]
    return [(inner[0][0] + thick, low), *((x + thick, y) for x, y in inner)]


def _on_line(ends: Sequence[Point], y: float) -> float:
    (x0, y0), (x1, y1) = ends
    return x0 + (x1 - x0) * (y - y0) / (y1 - y0)


def _zone(vessel: Vessel, wall: Sequence[Point]) -> list[DrawnLine]:
    """A line beside the wall where the outside is straight; heights count from outside below."""
    low, high = vessel.straight_from_mm, vessel.straight_to_mm
    if low is None or high is None or high <= low:
        return []
    foot = min(y for _, y in wall)
    left = min(x for x, _ in wall) - 3.0
    return [DrawnLine("zone", ((left, foot + low), (left, foot + high)))]


# -- what is in it ---------------------------------------------------------------------------------
def _wax(profile: Profile, measures: VesselMeasures, levels: Levels | None) -> list[DrawnLine]:
    top = wax_top(measures, levels)
    if top is None:
        return []
    drawn = [DrawnLine("wax", _mirrored(inner_side(profile, top)), closed=True)]
    if levels is not None and levels.estimate:
        high = min(float(levels.set_high_mm), profile.top_mm)
        low = min(float(levels.set_low_mm), high)
        side = [p for p in inner_side(profile, high) if p[1] > low]
        side.insert(0, (profile.diameter_mm(low) / 2, low))
        drawn.append(DrawnLine("range", _mirrored(side), closed=True))
    return drawn


def wick_places(count: int, diameter_mm: float) -> tuple[float, ...]:
    """Where wicks stand across the middle: half the diameter from the first to the last."""
    if count <= 1:
        return (0.0,) * count
    step = diameter_mm / 2 / (count - 1)
    return tuple(-diameter_mm / 4 + step * at for at in range(count))


def _wicks(
    profile: Profile, measures: VesselMeasures, levels: Levels | None, wick: DrawnWick
) -> list[DrawnLine]:
    top = wax_top(measures, levels)
    if top is None or wick.count == 0:
        return []
    drawn = []
    for x in wick_places(wick.count, profile.diameter_mm(top)):
        drawn += _one_wick(x, top + wick.trim_mm, wick.width_mm, profile)
    return drawn


def wick_foot_mm(profile: Profile, x: float = 0.0) -> float:
    """Height that a wick stands on, at a distance from the middle: the top of a push-up, or 0."""
    return push_up_at_mm(x, base_rim_mm(profile), profile.push_up_mm)


def _one_wick(x: float, top: float, width_mm: float | None, profile: Profile) -> list[DrawnLine]:
    half = min(_TABLET_MM, profile.diameter_mm(0.0) / 3) / 2
    foot = wick_foot_mm(profile, x)
    tablet = DrawnLine("wick", ((x - half, foot), (x + half, foot)))
    if width_mm is None:
        return [tablet, DrawnLine("wick", ((x, foot), (x, top)))]
    w = width_mm / 2
    board = ((x - w, foot), (x - w, top), (x + w, top), (x + w, foot))
    return [tablet, DrawnLine("wick", board, closed=True)]


def _room(profile: Profile, measures: VesselMeasures) -> list[DrawnLine]:
    """A line with two heads from the fill line up to the rim, left of the middle."""
    fill = measures.fill_mm
    if fill is None or not 0 < fill < profile.top_mm:
        return []
    low, high = fill, profile.top_mm
    x = -profile.diameter_mm(fill) / 4 - _ARROW_MM
    head = min(_ARROW_MM, (high - low) / 3)
    up = ((x - head / 2, high - head), (x, high), (x + head / 2, high - head))
    down = ((x - head / 2, low + head), (x, low), (x + head / 2, low + head))
    return [DrawnLine("room", points) for points in (((x, low), (x, high)), up, down)]


def _level_lines(
    profile: Profile, measures: VesselMeasures, levels: Levels | None
) -> list[DrawnLine]:
    drawn = []
    if measures.brim_ml is not None:
        drawn.append(_across("brim", profile, profile.top_mm, 0.0))
    fill = measures.fill_mm
    if fill is not None and 0 < fill <= profile.top_mm:
        drawn.append(_across("fill", profile, fill, 3.0))
    if levels is not None:
        drawn.append(_across("set", profile, levels.set_mm, 3.0))
    return drawn


def _across(role: str, profile: Profile, height: float, beyond: float) -> DrawnLine:
    half = profile.diameter_mm(height) / 2
    return DrawnLine(role, ((-half, height), (half + beyond, height)))
