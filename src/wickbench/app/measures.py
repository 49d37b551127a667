"""What a vessel on the shelf holds: weighings to capacity, diameters to shape, levels to volume."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.shapes import Profile, scaled_to, straight
from wickbench.domain.shrinkage import set_level_mm, set_level_range_mm
from wickbench.domain.vessels import Capacity, Weighing, capacity_advice, measured_capacity
from wickbench.domain.water import pressure_at_altitude

if TYPE_CHECKING:
    from wickbench.app.mixes import MixDensities
    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf
    from wickbench.domain.catalog import Vessel, WeighingRow

_NOT_THE_SAME_PERCENT = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class VesselMeasures:
    """What is known of a vessel's inside.

    Attributes:
        brim, line: measured capacities; ``None`` where there is no complete weighing.
        profile: shape of the inside, scaled to the measured capacity where there is one.
        brim_ml, line_ml: best known volumes (measured, else from the shape, else nominal).
        line_from: "weighed", "shape", "nominal" or "" (unknown).
        findings: advice, odd readings, what does not fit together.
    """

    brim: Capacity | None = None
    line: Capacity | None = None
    profile: Profile | None = None
    brim_ml: float | None = None
    line_ml: float | None = None
    line_from: str = ""
    findings: tuple[Finding, ...] = field(default=())


@dataclass(frozen=True, slots=True, kw_only=True)
class Levels:
    """Heights above the inside of the base; ``set_mm`` exact only for measured densities."""

    fill_mm: float
    set_mm: float | None
    set_low_mm: float
    set_high_mm: float
    estimate: bool


def measure(vessel: Vessel, shelf: Shelf, settings: Settings) -> VesselMeasures:
    """Everything the weighings and diameters say; what cannot be read becomes a finding."""
    findings: list[Finding] = []
    shape = _shape(vessel, findings)
    brim = _capacity(vessel, "brim", shelf, settings, findings)
    line = _capacity(vessel, "line", shelf, settings, findings)
    profile = _fitted(vessel, shape, brim, line, findings)
    brim_ml = brim.volume_ml if brim else profile.brim_ml if profile else vessel.nominal_ml
    line_ml, line_from = _line(vessel, line, profile)
    if brim_ml is not None and line_ml is not None and line_ml > brim_ml:
        findings.append(
            Finding(Rank.STOPS, "vessel.line-over-brim", {"line_ml": line_ml, "brim_ml": brim_ml})
        )
    return VesselMeasures(
        brim=brim,
        line=line,
        profile=profile,
        brim_ml=brim_ml,
        line_ml=line_ml,
        line_from=line_from,
        findings=tuple(findings),
    )


def _line(
    vessel: Vessel, line: Capacity | None, profile: Profile | None
) -> tuple[float | None, str]:
    if line is not None:
        return line.volume_ml, "weighed"
    if profile is not None and vessel.fill_mm is not None and vessel.fill_mm <= profile.top_mm:
        return profile.volume_ml(vessel.fill_mm), "shape"
    return (vessel.nominal_ml, "nominal") if vessel.nominal_ml is not None else (None, "")


def complete_weighings(vessel: Vessel, level: str) -> tuple[WeighingRow, ...]:
    """Rows of a level that have all three readings."""
    return tuple(
        row
        for row in vessel.weighings
        if row.level == level and None not in {row.empty_g, row.filled_g, row.water_c}
    )


def _capacity(
    vessel: Vessel, level: str, shelf: Shelf, settings: Settings, findings: list[Finding]
) -> Capacity | None:
    rows = complete_weighings(vessel, level)
    if not rows:
        return None
    height = vessel.height_mm if level == "brim" else vessel.fill_mm
    try:
        found = measured_capacity(
            [
                Weighing(
                    row.empty_g or 0.0, row.filled_g or 0.0, row.water_c or 0.0, row.vessel_no or 1
                )
                for row in rows
            ],
            scale_reads_to_g=_reads_to(rows, shelf),
            mouth_mm=_diameter_at(vessel, height),
            hectopascal=pressure_at_altitude(settings.number("altitude_m")),
        )
    except DomainError as error:
        findings.append(
            Finding(Rank.STOPS, error.key, error.data | {"level": level}, ("weighing", level))
        )
        return None
    findings.extend(
        Finding(one.rank, one.key, dict(one.data), ("weighing", level))
        for one in capacity_advice(found)
    )
    return found


def _reads_to(rows: tuple[WeighingRow, ...], shelf: Shelf) -> float:
    """The coarsest scale used; without one, the coarsest digit that was typed."""
    steps = {row["id"]: row.get("step_g") for row in shelf.equipment.scales}
    used = [step for row in rows if isinstance(step := steps.get(row.scale_id), float) and step > 0]
    if used:
        return max(used)
    tenths = any(
        round(value * 10) % 10 for row in rows for value in (row.empty_g, row.filled_g) if value
    )
    return 0.1 if tenths else 1.0


def _diameter_at(vessel: Vessel, height_mm: float | None) -> float | None:
    if not vessel.diameters:
        return None
    if height_mm is None:
        return vessel.diameters[-1][1]
    return min(vessel.diameters, key=lambda point: abs(point[0] - height_mm))[1]


def _shape(vessel: Vessel, findings: list[Finding]) -> Profile | None:
    """The inside as measured with a ruler; one diameter makes a straight vessel."""
    if not vessel.diameters:
        return None
    points = tuple(sorted(vessel.diameters))
    try:
        if len(points) == 1 or vessel.height_mm is None:
            height = vessel.height_mm or vessel.fill_mm or points[-1][0]
            return straight(points[0][1], height) if len(points) == 1 else Profile(points)
        if points[-1][0] < vessel.height_mm:
            points = (*points, (vessel.height_mm, points[-1][1]))
        return Profile(points)
    except DomainError as error:
        findings.append(Finding(Rank.STOPS, error.key, error.data, ("shape",)))
        return None


def _fitted(
    vessel: Vessel,
    shape: Profile | None,
    brim: Capacity | None,
    line: Capacity | None,
    findings: list[Finding],
) -> Profile | None:
    """The shape scaled to the measured capacity; a large difference is told."""
    if shape is None:
        return None
    measured, height = (line, vessel.fill_mm) if line and vessel.fill_mm else (brim, shape.top_mm)
    if measured is None or not 0 < height <= shape.top_mm:
        return shape
    drawn_ml = shape.volume_ml(height)
    off = 100 * (drawn_ml / measured.volume_ml - 1)
    if abs(off) > _NOT_THE_SAME_PERCENT:
        data = {"drawn_ml": drawn_ml, "measured_ml": measured.volume_ml, "off_percent": abs(off)}
        findings.append(Finding(Rank.WATCH, "vessel.shape-disagrees", data, ("shape",)))
    try:
        return scaled_to(shape, height, measured.volume_ml)
    except DomainError:
        return shape


def levels(vessel: Vessel, measures: VesselMeasures, mix: MixDensities | None) -> Levels | None:
    """Fill line and set level in this vessel; ``None`` while shape, line or mix are unknown."""
    profile, fill = measures.profile, vessel.fill_mm
    if profile is None or fill is None or mix is None or not 0 < fill <= profile.top_mm:
        return None
    estimate = mix.hot.estimate or mix.set.estimate
    try:
        exact = set_level_mm(profile, fill, mix.hot.g_per_ml, mix.set.g_per_ml)
        low, high = set_level_range_mm(
            profile, fill, (mix.hot.low, mix.hot.high), (mix.set.low, mix.set.high)
        )
    except DomainError:
        return None
    return Levels(fill_mm=fill, set_mm=exact, set_low_mm=low, set_high_mm=high, estimate=estimate)
