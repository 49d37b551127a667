"""What a vessel on the shelf holds: weighings to capacity, diameters to shape, levels to volume."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from wickbench.app.vessel_shape import Known, diameter_at, inside_of
from wickbench.app.vessel_weighings import capacity_of, complete_weighings
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.shapes import Profile
from wickbench.domain.shrinkage import set_level_mm, set_level_range_mm
from wickbench.domain.vessels import Capacity

if TYPE_CHECKING:
    from wickbench.app.mixes import MixDensities
    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf
    from wickbench.domain.catalog import Vessel

__all__ = ["Levels", "VesselMeasures", "complete_weighings", "levels", "measure", "measure_once"]


@dataclass(frozen=True, slots=True, kw_only=True)
class VesselMeasures:
    """What is known of a vessel's inside. Volumes are of all cells together.

    Attributes:
        brim, line: measured capacities; ``None`` where no weighing counts.
        profile: shape of the inside of one cell, scaled to the measured capacity where there is
            one; heights from the inside of the base.
        profile_from: "measured", "assumed" (straight, from volume and height) or "".
        brim_ml, line_ml: best known volumes (measured, else from the shape, else nominal).
        brim_from, line_from: "weighed", "shape", "nominal" or "" (unknown).
        fill_mm: height of the fill line, as given or as the weighed line volume stands.
        cells: how many cells share the volumes.
        findings: advice, odd readings, what does not fit together.
    """

    brim: Capacity | None = None
    line: Capacity | None = None
    profile: Profile | None = None
    profile_from: str = ""
    brim_ml: float | None = None
    line_ml: float | None = None
    brim_from: str = ""
    line_from: str = ""
    fill_mm: float | None = None
    cells: int = 1
    findings: tuple[Finding, ...] = field(default=())


@dataclass(frozen=True, slots=True, kw_only=True)
class Levels:
    """Heights above the inside of the base, in mm.

    Attributes:
        fill_mm: level while liquid.
        set_mm: level once set, by the densities as they are known.
        set_low_mm, set_high_mm: where it may lie, in whole mm.
        estimate: a density or the shape is an estimate: show the range, not ``set_mm``.
    """

    fill_mm: float
    set_mm: float
    set_low_mm: float
    set_high_mm: float
    estimate: bool


def measure(vessel: Vessel, shelf: Shelf, settings: Settings) -> VesselMeasures:
    """Everything the weighings and diameters say; what cannot be read becomes a finding."""
    cells = max(1, vessel.cells or 1)
    brim, of_brim = capacity_of(
        vessel, "brim", shelf, settings, _mouth_mm(vessel, vessel.height_mm, cells)
    )
    line, of_line = capacity_of(
        vessel, "line", shelf, settings, _mouth_mm(vessel, vessel.fill_mm, cells)
    )
    known = Known(
        brim_ml=brim.volume_ml / cells if brim else None,
        line_ml=line.volume_ml / cells if line else None,
        brim_doubt_ml=brim.expanded_uncertainty_ml / cells if brim else 0.0,
        line_doubt_ml=line.expanded_uncertainty_ml / cells if line else 0.0,
    )
    inside = inside_of(vessel, known)
    brim_ml, brim_from = _brim(vessel, brim, inside.profile, cells)
    fill_mm = _fill_mm(vessel, known, inside.profile)
    line_ml, line_from = _line(vessel, line, inside.profile, cells, brim_from)
    return VesselMeasures(
        brim=brim,
        line=line,
        profile=inside.profile,
        profile_from=inside.source,
        brim_ml=brim_ml,
        line_ml=line_ml,
        brim_from=brim_from,
        line_from=line_from,
        fill_mm=fill_mm,
        cells=cells,
        findings=(
            *_over_the_brim(vessel, brim_ml, line_ml),
            *of_line,
            *of_brim,
            *inside.findings,
        ),
    )


def measure_once(vessel: Vessel, shelf: Shelf, settings: Settings) -> VesselMeasures:
    """As ``measure``, computed once for a snapshot of the shelf: not again with each key."""
    place = (vessel.id, settings)
    known = shelf.measured.get(place)
    if not isinstance(known, VesselMeasures):
        known = shelf.measured[place] = measure(vessel, shelf, settings)
    return known


def _mouth_mm(vessel: Vessel, height_mm: float | None, cells: int) -> float | None:
    """Diameter of a round surface as large as the water's; several cells have several."""
    one = diameter_at(vessel, height_mm)
    return None if one is None else one * cells**0.5


def _brim(
    vessel: Vessel, brim: Capacity | None, profile: Profile | None, cells: int
) -> tuple[float | None, str]:
    if brim is not None:
        return brim.volume_ml, "weighed"
    if profile is not None and vessel.height_mm is not None:
        return profile.brim_ml * cells, "shape"
    return (vessel.nominal_ml, "nominal") if vessel.nominal_ml is not None else (None, "")


def _line(
    vessel: Vessel, line: Capacity | None, profile: Profile | None, cells: int, brim_from: str
) -> tuple[float | None, str]:
    """Volume to the line; the size on the box only while nothing better is known of the vessel."""
    if line is not None:
        return line.volume_ml, "weighed"
    if profile is not None and vessel.fill_mm is not None and vessel.fill_mm <= profile.top_mm:
        return profile.volume_ml(vessel.fill_mm) * cells, "shape"
    if brim_from == "nominal" and vessel.nominal_ml is not None:
        return vessel.nominal_ml, "nominal"
    return None, ""


def _fill_mm(vessel: Vessel, known: Known, profile: Profile | None) -> float | None:
    if vessel.fill_mm is not None or profile is None or known.line_ml is None:
        return vessel.fill_mm
    try:
        return profile.height_mm(known.line_ml)
    except DomainError:
        return None


def _over_the_brim(
    vessel: Vessel, brim_ml: float | None, line_ml: float | None
) -> tuple[Finding, ...]:
    fill_mm, height_mm = vessel.fill_mm, vessel.height_mm
    if fill_mm is not None and height_mm is not None and fill_mm > height_mm:
        data = {"fill_mm": fill_mm, "brim_mm": height_mm}
        return (Finding(Rank.STOPS, "vessel.fill-over-brim", data, ("field", "fill_mm")),)
    if brim_ml is not None and line_ml is not None and line_ml > brim_ml * (1 + 1e-9):
        data = {"line_ml": line_ml, "brim_ml": brim_ml}
        return (Finding(Rank.STOPS, "vessel.line-over-brim", data),)
    return ()


def levels(vessel: Vessel, measures: VesselMeasures, mix: MixDensities | None) -> Levels | None:  # noqa: ARG001 - the vessel's own line stands in the measures
    """Fill line and set level in this vessel; ``None`` while shape, line or mix are unknown."""
    profile, fill = measures.profile, measures.fill_mm
    if profile is None or fill is None or mix is None or not 0 < fill <= profile.top_mm:
        return None
    estimate = mix.hot.estimate or mix.set.estimate or measures.profile_from == "assumed"
    try:
        exact = set_level_mm(profile, fill, mix.hot.g_per_ml, mix.set.g_per_ml)
        low, high = set_level_range_mm(
            profile, fill, (mix.hot.low, mix.hot.high), (mix.set.low, mix.set.high)
        )
    except DomainError:
        return None
    return Levels(fill_mm=fill, set_mm=exact, set_low_mm=low, set_high_mm=high, estimate=estimate)
