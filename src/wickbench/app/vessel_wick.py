"""How long to cut the wicks of a vessel, as it may be shown: a range while it is an estimate."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.app.texts_marker import N_
from wickbench.app.vessel_drawing import wick_foot_mm, wick_places
from wickbench.app.vessel_texts import length, length_range
from wickbench.domain.errors import DomainError
from wickbench.domain.wick_cut import cut_length_mm, cut_range_mm

if TYPE_CHECKING:
    from wickbench.app.measures import Levels, VesselMeasures
    from wickbench.app.texts import Texts
    from wickbench.app.vessel_labels import DrawnWick


@dataclass(frozen=True, slots=True, kw_only=True)
class WickCut:
    """Length from the foot of a wick to its tip.

    Attributes:
        count: how many wicks.
        length_mm: by the densities as they are known.
        low_mm, high_mm: where it may lie, in whole mm.
        foot_mm: height that they stand on: the bulge of the base, or 0.
        trim_mm: how far they stand above the set wax.
        estimate: show the range, not ``length_mm``.
    """

    count: int
    length_mm: float
    low_mm: float
    high_mm: float
    foot_mm: float
    trim_mm: float
    estimate: bool


def wick_cut(measures: VesselMeasures, levels: Levels | None, wick: DrawnWick) -> WickCut | None:
    """What to cut; ``None`` for melts and while shape, line or mix are unknown."""
    profile = measures.profile
    if profile is None or levels is None or wick.count == 0:
        return None
    places = wick_places(wick.count, profile.diameter_mm(min(levels.set_mm, profile.top_mm)))
    # Wicks at unequal heights are all cut to the longest: what stands too high is trimmed.
    foot = min(wick_foot_mm(profile, x) for x in places)
    around = (levels.set_low_mm, levels.set_high_mm)
    try:
        exact = cut_length_mm(levels.set_mm, wick.trim_mm, stands_at_mm=foot)
        low, high = cut_range_mm(around, wick.trim_mm, stands_at_mm=foot)
    except DomainError:
        return None
    return WickCut(
        count=wick.count,
        length_mm=exact,
        low_mm=math.floor(low),
        high_mm=math.ceil(high),
        foot_mm=foot,
        trim_mm=wick.trim_mm,
        estimate=levels.estimate,
    )


def cut_length(texts: Texts, cut: WickCut) -> str:
    """The length alone: "69–71 mm (estimate)", or to half a millimetre once it is measured."""
    if not cut.estimate:
        return length(texts, cut.length_mm)
    said = length_range(texts, cut.low_mm, cut.high_mm)
    return texts(N_("{length} (estimate)"), length=said)


def cut_text(texts: Texts, cut: WickCut | None) -> str:
    """What to do with the scissors; empty when nothing is known."""
    if cut is None:
        return ""
    data = {"length": cut_length(texts, cut), "trim": length(texts, cut.trim_mm)}
    if cut.estimate:
        return texts.plural(
            N_(
                "Cut the wick to {length}: it stands {trim} above the set wax. Rather cut the "
                "longer one: what is too high can be trimmed."
            ),
            N_(
                "Cut the {n} wicks to {length}: they stand {trim} above the set wax. Rather cut "
                "the longer one: what is too high can be trimmed."
            ),
            cut.count,
            **data,
        )
    return texts.plural(
        N_("Cut the wick to {length}: it stands {trim} above the set wax."),
        N_("Cut the {n} wicks to {length}: they stand {trim} above the set wax."),
        cut.count,
        **data,
    )


def how_cut(texts: Texts, cut: WickCut | None) -> tuple[str, ...]:
    """How the length came about, for *How is this computed?*."""
    if cut is None:
        return ()
    if cut.foot_mm:
        foot = length(texts, cut.foot_mm)
        return (
            texts(
                N_(
                    "Length of the wick: set level − {foot} (the bulge it stands on) + {trim} "
                    "above the wax, from its foot to its tip (common practice)."
                ),
                foot=foot,
                trim=length(texts, cut.trim_mm),
            ),
        )
    return (
        texts(
            N_(
                "Length of the wick: set level + {trim} above the wax, from its foot on the base "
                "to its tip (common practice)."
            ),
            trim=length(texts, cut.trim_mm),
        ),
    )
