"""The words beside a vessel's drawing, each at its height in millimetres."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.app.texts_marker import N_
from wickbench.app.vessel_texts import estimate_mark, length, length_range, set_level, volume

if TYPE_CHECKING:
    from wickbench.app.measures import Levels, VesselMeasures
    from wickbench.app.texts import Texts
    from wickbench.domain.catalog import Vessel
    from wickbench.domain.shapes import Profile

_SAME_MM = 1.0


@dataclass(frozen=True, slots=True)
class DrawnLabel:
    """Words that belong to a height; ``lines`` stand under each other."""

    role: str
    at_mm: float
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DrawnWick:
    """Wicks as they stand: how many, how far above the set wax, and a wooden one's width."""

    count: int = 1
    trim_mm: float = 6.0
    width_mm: float | None = None


def wax_top(measures: VesselMeasures, levels: Levels | None) -> float | None:
    """Where the wax is drawn to: the set level, else the fill line; ``None`` when unknown."""
    if levels is not None:
        return levels.set_mm
    profile, fill = measures.profile, measures.fill_mm
    return fill if profile is not None and fill is not None and 0 < fill <= profile.top_mm else None


def labels_of(
    vessel: Vessel,
    measures: VesselMeasures,
    levels: Levels | None,
    wick: DrawnWick,
    texts: Texts,
) -> tuple[DrawnLabel, ...]:
    """The words beside the drawing, from top to bottom."""
    profile = measures.profile
    if profile is None:
        return ()
    found = [_brim_label(measures, profile, texts)]
    fill = measures.fill_mm
    if fill is not None and 0 < fill <= profile.top_mm:
        said = texts(N_("fill line (hot) {height}"), height=length(texts, fill))
        found.append(DrawnLabel("fill", fill, (said,)))
    if levels is not None:
        found.append(_set_label(levels, texts))
    room = headspace_lines(measures, levels, texts)
    if fill is not None and room:
        first = texts(N_("headspace {height}"), height=room[0])
        found.append(DrawnLabel("room", (profile.top_mm + fill) / 2, (first, *room[1:])))
    if wick.count and wax_top(measures, levels) is not None:
        found.append(DrawnLabel("wick", profile.top_mm * 0.24, (_wick_words(wick, texts),)))
    if measures.profile_from == "measured":
        said = _inside_words(measures, texts)
        found.append(DrawnLabel("inside", profile.top_mm * 0.12, (said,)))
    if measures.cells > 1:
        said = texts(N_("one of {n} cells"), n=str(measures.cells))
        found.append(DrawnLabel("inside", 0.0, (said,)))
    found += _zone_label(vessel, texts)
    return tuple(sorted(found, key=lambda label: -label.at_mm))


def _brim_label(measures: VesselMeasures, profile: Profile, texts: Texts) -> DrawnLabel:
    if measures.brim_ml is None:
        return DrawnLabel("brim", profile.top_mm, (texts(N_("brim")),))
    cell_ml = measures.brim_ml / measures.cells
    said = texts(N_("brim {volume}"), volume=volume(texts, cell_ml, both=False))
    if measures.brim_from == "weighed":
        return DrawnLabel("brim", profile.top_mm, (said,))
    return DrawnLabel("brim", profile.top_mm, (said, estimate_mark(texts)))


def _set_label(levels: Levels, texts: Texts) -> DrawnLabel:
    height, estimate = set_level(texts, levels)
    said = texts(N_("set level {height}"), height=height)
    return DrawnLabel("set", levels.set_mm, (said, estimate_mark(texts)) if estimate else (said,))


def headspace_lines(
    measures: VesselMeasures, levels: Levels | None, texts: Texts
) -> tuple[str, ...]:
    """From the rim down to the fill line, and to the set wax; nothing while a line is unknown."""
    profile, fill = measures.profile, measures.fill_mm
    if profile is None or fill is None or not 0 < fill < profile.top_mm:
        return ()
    hot = length(texts, profile.top_mm - fill)
    lines = [texts(N_("{height} (hot)"), height=hot)]
    if levels is not None and levels.estimate:
        low, high = profile.top_mm - levels.set_high_mm, profile.top_mm - levels.set_low_mm
        said = length_range(texts, low, high)
        lines.append(texts(N_("{height} once set (estimate)"), height=said))
    elif levels is not None:
        said = length(texts, profile.top_mm - levels.set_mm)
        lines.append(texts(N_("{height} once set"), height=said))
    return tuple(lines)


def _wick_words(wick: DrawnWick, texts: Texts) -> str:
    return texts.plural(
        N_("wick stands {height} above the wax"),
        N_("{n} wicks stand {height} above the wax"),
        wick.count,
        height=length(texts, wick.trim_mm),
    )


def _inside_words(measures: VesselMeasures, texts: Texts) -> str:
    profile = measures.profile
    if profile is None:
        return ""
    wide = [diameter for _, diameter in profile.points]
    low, high = min(wide), max(wide)
    if high - low < _SAME_MM:
        said = length(texts, (low + high) / 2, step_mm=1.0)
    else:
        said = length_range(texts, low, high)
    return texts(N_("inside Ø {diameter}"), diameter=said)


def _zone_label(vessel: Vessel, texts: Texts) -> list[DrawnLabel]:
    low, high = vessel.straight_from_mm, vessel.straight_to_mm
    if low is None or high is None or high <= low:
        return []
    said = texts(N_("label zone {zone}"), zone=length_range(texts, low, high))
    return [DrawnLabel("zone", (low + high) / 2, (said,))]
