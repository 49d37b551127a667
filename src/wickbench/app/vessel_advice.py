"""What to tell about a vessel beyond its figures: ratings, wicks, room above the line, gaps."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.domain.findings import Finding, Rank, sort_findings

if TYPE_CHECKING:
    from wickbench.app.measures import VesselMeasures
    from wickbench.domain.catalog import Vessel

TWO_WICKS_FROM_MM = 90.0
"""Inner diameter from which two wicks are usual (common practice)."""
THREE_WICKS_FROM_MM = 110.0
"""Inner diameter from which three wicks are usual (common practice)."""
WICK_TO_WALL_MM = 15.0
"""Least distance from a wick to the wall (common practice)."""
USUAL_HEADSPACE_MM = 6.0
"""Least usual room between the hot fill line and the brim (common practice)."""

_NO_FLAME = frozenset({"clamshell", "mould"})
_CAN_BURN = frozenset({"wood", "plastic"})


def burns(vessel: Vessel) -> bool:
    """Whether a candle burns in it: melts and what is taken out of a mould do not."""
    return vessel.vessel_kind not in _NO_FLAME and (vessel.cells or 1) == 1


def usual_wicks(vessel: Vessel, diameter_mm: float | None) -> int:
    """How many wicks are usual at an inner diameter; 0 for melts."""
    if not burns(vessel) and vessel.vessel_kind != "mould":
        return 0
    if diameter_mm is None or diameter_mm < TWO_WICKS_FROM_MM:
        return 1
    return 2 if diameter_mm < THREE_WICKS_FROM_MM else 3


def advice(vessel: Vessel, measures: VesselMeasures) -> tuple[Finding, ...]:
    """Everything worth saying, most pressing first."""
    found = (
        *_rating(vessel),
        *_headspace(vessel),
        *_outside(vessel, measures),
        *_gaps(measures),
        *_wicks(vessel, measures),
    )
    return sort_findings(list(found))


def _rating(vessel: Vessel) -> tuple[Finding, ...]:
    if not burns(vessel):
        return ()
    found = []
    if not vessel.candle_rated:
        found.append(Finding(Rank.WATCH, "vessel.not-rated"))
    elif not (vessel.rated_by or "").strip():
        found.append(Finding(Rank.NOTE, "vessel.rated-by-nobody"))
    if vessel.glass in _CAN_BURN:
        found.append(Finding(Rank.WATCH, "vessel.can-burn"))
    return tuple(found)


def _headspace(vessel: Vessel) -> tuple[Finding, ...]:
    if vessel.height_mm is None or vessel.fill_mm is None or not burns(vessel):
        return ()
    room = vessel.height_mm - vessel.fill_mm
    if not 0 <= room < USUAL_HEADSPACE_MM:
        return ()
    data = {"room_mm": room, "usual_mm": USUAL_HEADSPACE_MM}
    return (Finding(Rank.NOTE, "vessel.little-headspace", data),)


def _outside(vessel: Vessel, measures: VesselMeasures) -> tuple[Finding, ...]:
    found = []
    low, high = vessel.straight_from_mm, vessel.straight_to_mm
    if low is not None and high is not None and high < low:
        data = {"from_mm": low, "to_mm": high}
        found.append(Finding(Rank.WATCH, "vessel.zone-upside-down", data))
    profile = measures.profile
    if profile is not None and measures.profile_from == "measured" and measures.cells == 1:
        ends = (
            (vessel.outer_bottom_mm, profile.diameter_mm(0.0)),
            (vessel.outer_top_mm, profile.diameter_mm(profile.top_mm)),
        )
        if any(outer is not None and outer < inner for outer, inner in ends):
            found.append(Finding(Rank.WATCH, "vessel.outside-too-small"))
    return tuple(found)


def _gaps(measures: VesselMeasures) -> tuple[Finding, ...]:
    found = []
    if measures.line is None:
        if measures.line_from == "nominal":
            found.append(Finding(Rank.NOTE, "vessel.only-the-box"))
        elif measures.line_from == "shape":
            found.append(Finding(Rank.NOTE, "vessel.nothing-weighed"))
        else:
            found.append(Finding(Rank.NOTE, "vessel.no-fill-line"))
    if measures.profile is None:
        found.append(Finding(Rank.NOTE, "vessel.no-inside"))
    elif measures.profile_from == "assumed" and measures.cells == 1:
        found.append(Finding(Rank.NOTE, "vessel.no-diameter"))
    return tuple(found)


def _wicks(vessel: Vessel, measures: VesselMeasures) -> tuple[Finding, ...]:
    diameter = wick_diameter_mm(measures)
    count = usual_wicks(vessel, diameter)
    if diameter is None or count < 2 or not burns(vessel):  # noqa: PLR2004 - one wick needs no word
        return ()
    key = "vessel.two-wicks" if count == 2 else "vessel.three-wicks"  # noqa: PLR2004 - two wicks
    data = {"diameter_mm": diameter, "wall_mm": WICK_TO_WALL_MM}
    return (Finding(Rank.NOTE, key, data),)


def wick_diameter_mm(measures: VesselMeasures) -> float | None:
    """Inner diameter at the fill line, where the melt pool will be; the brim's without a line."""
    profile = measures.profile
    if profile is None:
        return None
    at = measures.fill_mm if measures.fill_mm is not None else profile.top_mm
    return profile.diameter_mm(min(max(at, 0.0), profile.top_mm))
