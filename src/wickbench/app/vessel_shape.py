"""The inside of a vessel: from diameters measured with a ruler, fitted to what the water says."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.shapes import Profile, scaled_to, straight

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickbench.domain.catalog import Vessel

Point = tuple[float, float]
_NOT_THE_SAME_PERCENT = 3.0
_ABOUT = ("shape",)


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """Volumes of one cell that were weighed; ``None`` where there is none."""

    brim_ml: float | None = None
    line_ml: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """The inside of one cell.

    Attributes:
        profile: its shape, fitted to the weighings.
        source: "measured" with a ruler, "assumed" straight from volume and height, or "".
        findings: what does not fit together.
    """

    profile: Profile | None = None
    source: str = ""
    findings: tuple[Finding, ...] = ()


def inside_of(vessel: Vessel, known: Known) -> Inside:
    """The shape of the inside; rows that do not fit are told and left out."""
    findings: list[Finding] = []
    points = _usable(vessel, findings)
    if not points:
        assumed = _assumed(vessel, known)
        return Inside(
            profile=assumed, source="assumed" if assumed else "", findings=tuple(findings)
        )
    try:
        shape = _drawn(points, vessel)
    except DomainError as error:
        findings.append(Finding(Rank.STOPS, error.key, error.data, _ABOUT))
        return Inside(findings=tuple(findings))
    if shape is None:
        return Inside(findings=tuple(findings))
    fitted = _fitted(shape, vessel, known, findings)
    return Inside(profile=fitted, source="measured", findings=tuple(findings))


def diameter_at(vessel: Vessel, height_mm: float | None) -> float | None:
    """Inner diameter as measured, straight between two heights; the topmost without a height."""
    points = sorted(set(vessel.diameters))
    if not points:
        return None
    if height_mm is None:
        return points[-1][1]
    return _between(points, height_mm)


def _usable(vessel: Vessel, findings: list[Finding]) -> list[Point]:
    """Points from the base up: one for each height, none above the brim."""
    kept: list[Point] = []
    for height, diameter in sorted(vessel.diameters):
        if kept and kept[-1][0] == height:
            data = {"height_mm": height, "kept_mm": kept[-1][1]}
            findings.append(Finding(Rank.WATCH, "vessel.same-height", data, _ABOUT))
            continue
        kept.append((height, diameter))
    return _below_brim(kept, vessel.height_mm, findings)


def _below_brim(points: list[Point], brim_mm: float | None, findings: list[Finding]) -> list[Point]:
    above = [point for point in points if brim_mm is not None and point[0] > brim_mm]
    if not above or brim_mm is None:
        return points
    data = {"height_mm": above[0][0], "brim_mm": brim_mm}
    findings.append(Finding(Rank.WATCH, "vessel.diameter-above-brim", data, _ABOUT))
    below = [point for point in points if point[0] < brim_mm]
    return [*below, (brim_mm, _between(points, brim_mm))]


def _between(points: Iterable[Point], height_mm: float) -> float:
    """Diameter at a height: straight between two points, as the nearest one beyond them."""
    below: Point | None = None
    for height, diameter in points:
        if height >= height_mm:
            if below is None or height == height_mm:
                return diameter
            share = (height_mm - below[0]) / (height - below[0])
            return below[1] + share * (diameter - below[1])
        below = (height, diameter)
    return below[1] if below is not None else 0.0


def _drawn(points: list[Point], vessel: Vessel) -> Profile | None:
    """The shape as measured; ``None`` while nothing says how tall it is.

    Raises:
        OutOfRange: for sizes that cannot be.
    """
    top = vessel.height_mm or max(points[-1][0], vessel.fill_mm or 0.0)
    if top <= 0:
        return None
    if len(points) == 1:
        return straight(points[0][1], top)
    if points[-1][0] < top:
        points = [*points, (top, points[-1][1])]
    return Profile(tuple(points))


def _assumed(vessel: Vessel, known: Known) -> Profile | None:
    """A straight vessel of the weighed volume, for as long as nobody measured a diameter."""
    for volume, height in ((known.brim_ml, vessel.height_mm), (known.line_ml, vessel.fill_mm)):
        if volume and height:
            top = max(height, vessel.height_mm or height)
            try:
                return straight(math.sqrt(4000 * volume / (math.pi * height)), top)
            except DomainError:
                return None
    return None


def _fitted(shape: Profile, vessel: Vessel, known: Known, findings: list[Finding]) -> Profile:
    """The shape scaled to the weighed volume; a large difference is told."""
    fill = vessel.fill_mm
    measured, height = known.brim_ml, shape.top_mm if vessel.height_mm else None
    if known.line_ml and fill and fill <= shape.top_mm:
        measured, height = known.line_ml, fill
    if measured is None or height is None:
        return shape
    drawn_ml = shape.volume_ml(height)
    off = 100 * (drawn_ml / measured - 1)
    if abs(off) > _NOT_THE_SAME_PERCENT:
        data = {"drawn_ml": drawn_ml, "measured_ml": measured, "off_percent": abs(off)}
        findings.append(Finding(Rank.WATCH, "vessel.shape-disagrees", data, _ABOUT))
    try:
        return scaled_to(shape, height, measured)
    except DomainError:
        return shape
