"""The inside of a vessel: from diameters measured with a ruler, fitted to what the water says."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.shapes import Profile, scaled_to, straight

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickbench.domain.catalog import Vessel

Point = tuple[float, float]
# How well a ruler or calliper is read inside a vessel, half width; common practice, no source.
_RULER_MM = 1.0
_SURE = 2.0  # expanded over standard uncertainty, as in the GUM for 95 of 100 cases
_ABOUT = ("shape",)
_BASE = ("base_fillet_mm", "push_up_mm")
# Which field of the vessel a refused shape is told beside; what is not here belongs to the table.
_FIELD_OF = {
    "shape.base-fillet": "base_fillet_mm",
    "shape.push-up": "push_up_mm",
    "shape.no-height": "height_mm",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """Volumes of one cell that were weighed, and their doubt; ``None`` where there is none."""

    brim_ml: float | None = None
    line_ml: float | None = None
    brim_doubt_ml: float = 0.0
    line_doubt_ml: float = 0.0


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
    shape = _shape(points, vessel, findings)
    if shape is None:
        return Inside(findings=tuple(findings))
    fitted = _fitted(shape, vessel, known, findings)
    return Inside(profile=fitted, source="measured", findings=tuple(findings))


def _shape(points: list[Point], vessel: Vessel, findings: list[Finding]) -> Profile | None:
    """The shape as measured; a base that does not fit is told and drawn flat meanwhile."""
    try:
        return _drawn(points, vessel)
    except DomainError as error:
        place = _place(error, vessel)
        findings.append(Finding(Rank.STOPS, error.key, error.data, place))
    if place[-1] not in _BASE:
        return None
    return _shape(points, replace(vessel, base_fillet_mm=None, push_up_mm=None), findings)


def _place(error: DomainError, vessel: Vessel) -> tuple[str, ...]:
    """Where a shape that cannot be is told: beside its field, else under the diameters."""
    if error.key == "shape.base-does-not-fit":
        larger = (vessel.push_up_mm or 0.0) > (vessel.base_fillet_mm or 0.0)
        return "field", "push_up_mm" if larger else "base_fillet_mm"
    name = _FIELD_OF.get(error.key)
    return ("field", name) if name else _ABOUT


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
    if points[-1][0] < top:
        points = [*points, (top, points[-1][1])]
    fillet, push_up = vessel.base_fillet_mm or 0.0, vessel.push_up_mm or 0.0
    return Profile(tuple(points), base_fillet_mm=fillet, push_up_mm=push_up)


def _assumed(vessel: Vessel, known: Known) -> Profile | None:
    """A straight vessel of the weighed volume, for as long as nobody measured a diameter."""
    for volume, height in ((known.brim_ml, vessel.height_mm), (known.line_ml, vessel.fill_mm)):
        if volume and height:
            top = max(height, vessel.height_mm or height)
            wide = math.sqrt(4000 * volume / (math.pi * height))
            base = {name: getattr(vessel, name) or 0.0 for name in _BASE}
            return _straight(wide, top, base, (height, volume)) or _straight(wide, top, {}, None)
    return None


def _straight(
    wide: float, top: float, base: dict[str, float], holds: tuple[float, float] | None
) -> Profile | None:
    """A straight shape, wide enough to hold a volume to a height; ``None`` if there is none."""
    try:
        shape = straight(wide, top, **base)
        return scaled_to(shape, *holds) if holds else shape
    except DomainError:
        return None


def ruler_doubt_ml(shape: Profile, height_mm: float) -> float:
    """What reading diameters and a height with a ruler leaves open of a volume (JCGM 100:2008).

    All diameters may be off alike; half widths are rectangular and the two doubts independent.

    Args:
        shape: the inside.
        height_mm: the height that the volume goes to.

    Returns:
        half width, in mL, of the interval that holds the volume in about 95 of 100 cases.
    """
    volume_ml, wide = shape.volume_ml(height_mm), shape.diameter_mm(height_mm)
    by_diameter = 2 * volume_ml / wide * _RULER_MM
    by_height = math.pi / 4 * wide**2 / 1000 * _RULER_MM
    return _SURE * math.hypot(by_diameter, by_height) / math.sqrt(3.0)


def _fitted(shape: Profile, vessel: Vessel, known: Known, findings: list[Finding]) -> Profile:
    """The shape scaled to the weighed volume; a difference beyond the doubt is told."""
    fill = vessel.fill_mm
    measured, height = known.brim_ml, shape.top_mm if vessel.height_mm else None
    doubt_ml = known.brim_doubt_ml
    if known.line_ml and fill and fill <= shape.top_mm:
        measured, height, doubt_ml = known.line_ml, fill, known.line_doubt_ml
    if measured is None or height is None:
        return shape
    drawn_ml = shape.volume_ml(height)
    off_ml = drawn_ml - measured
    doubt_ml = math.hypot(doubt_ml, ruler_doubt_ml(shape, height))
    if abs(off_ml) > doubt_ml:
        data = {
            "drawn_ml": drawn_ml,
            "measured_ml": measured,
            "off_ml": abs(off_ml),
            "doubt_ml": doubt_ml,
        }
        flat = not (vessel.base_fillet_mm or vessel.push_up_mm)
        key = "vessel.shape-holds-more" if off_ml > 0 and flat else "vessel.shape-disagrees"
        findings.append(Finding(Rank.WATCH, key, data, _ABOUT))
    try:
        return scaled_to(shape, height, measured)
    except DomainError:
        return shape
