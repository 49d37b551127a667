"""What wax does as it sets: mass stays, volume shrinks, the level drops."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wickbench.domain.densities import checked_density
from wickbench.domain.errors import OutOfRange
from wickbench.domain.ranges import within

if TYPE_CHECKING:
    from wickbench.domain.shapes import Profile

Range = tuple[float, float]

FREE_BELOW_BRIM_MM = 3.0
_FREE_SHARE = 0.03
_LARGEST_ML = 1e9
_ROUND_OFF_MM = 1e-9


def set_share(hot_g_per_ml: float, set_g_per_ml: float) -> float:
    """Set volume as a share of the hot volume.

    Raises:
        OutOfRange: for a density outside 0.5 to 2.0 g/mL, or set wax lighter than liquid wax.
    """
    hot, cold = checked_density(hot_g_per_ml), checked_density(set_g_per_ml)
    if cold < hot:
        raise OutOfRange("shrinkage.set-lighter", hot_g_per_ml=hot, set_g_per_ml=cold)
    return hot / cold


def set_volume_ml(hot_ml: float, hot_g_per_ml: float, set_g_per_ml: float) -> float:
    """What a volume of liquid mix still fills once set: V·ρ_hot/ρ_set.

    Args:
        hot_ml: volume while liquid.
        hot_g_per_ml: density of the mix at that temperature.
        set_g_per_ml: apparent density once set, pores and sink holes counted in.

    Raises:
        OutOfRange: for a negative volume, a density that cannot be, or set wax lighter than liquid.
    """
    volume_ml = within(hot_ml, 0.0, _LARGEST_ML, "shrinkage.volume", unit="ml")
    return volume_ml * set_share(hot_g_per_ml, set_g_per_ml)


def hot_volume_ml(set_ml: float, hot_g_per_ml: float, set_g_per_ml: float) -> float:
    """What must be poured hot so that it fills ``set_ml`` once set.

    Raises:
        OutOfRange: as ``set_volume_ml``.
    """
    volume_ml = within(set_ml, 0.0, _LARGEST_ML, "shrinkage.volume", unit="ml")
    return volume_ml / set_share(hot_g_per_ml, set_g_per_ml)


def set_level_mm(
    profile: Profile, fill_mm: float, hot_g_per_ml: float, set_g_per_ml: float
) -> float:
    """Level once set in a vessel filled hot to ``fill_mm``.

    Raises:
        OutOfRange: for a level outside the vessel, a density that cannot be, or set wax lighter
            than liquid.
    """
    hot_ml = profile.volume_ml(fill_mm)
    return profile.height_mm(set_volume_ml(hot_ml, hot_g_per_ml, set_g_per_ml))


def hot_level_mm(
    profile: Profile, line_mm: float, hot_g_per_ml: float, set_g_per_ml: float
) -> float:
    """Level to fill hot so that the wax stands at ``line_mm`` once set.

    Raises:
        OutOfRange: as ``set_level_mm``, and when the hot wax would pass the brim.
    """
    set_ml = profile.volume_ml(line_mm)
    hot_ml = hot_volume_ml(set_ml, hot_g_per_ml, set_g_per_ml)
    if hot_ml > profile.brim_ml:
        raise OutOfRange("shrinkage.passes-brim", hot_ml=hot_ml, brim_ml=profile.brim_ml)
    return profile.height_mm(hot_ml)


def hot_room_ml(brim_ml: float, profile: Profile | None = None, cells: int = 1) -> float:
    """Hot wax a vessel takes without running over when it is carried or bumped.

    ``FREE_BELOW_BRIM_MM`` stay free, or, where the shape is unknown, 3 % of the volume; both are
    common practice without a source.

    Args:
        brim_ml: volume to the brim, all cells together.
        profile: shape of one cell.
        cells: how many share the volume.

    Raises:
        OutOfRange: for a volume that no vessel has.
    """
    brim = within(brim_ml, 0.0, _LARGEST_ML, "shrinkage.volume", unit="ml")
    if profile is None or profile.top_mm <= FREE_BELOW_BRIM_MM:
        return brim * (1.0 - _FREE_SHARE)
    return min(brim, profile.volume_ml(profile.top_mm - FREE_BELOW_BRIM_MM) * cells)


def top_up_ml(profile: Profile, fill_mm: float, hot_g_per_ml: float, set_g_per_ml: float) -> float:
    """Room between the set level and the line it was filled to.

    Raises:
        OutOfRange: as ``set_level_mm``.
    """
    hot_ml = profile.volume_ml(fill_mm)
    return hot_ml - set_volume_ml(hot_ml, hot_g_per_ml, set_g_per_ml)


def set_level_range_mm(
    profile: Profile, fill_mm: float, hot_range: Range, set_range: Range
) -> tuple[int, int]:
    """Lowest and highest level once set, in whole mm rounded outwards, from density ranges.

    This is for estimates; with measured densities use ``set_level_mm``. Where the ranges overlap
    the highest level is the one it was filled to: wax does not grow as it sets.

    Args:
        profile: inside of the vessel.
        fill_mm: level while liquid.
        hot_range: lowest and highest density of the mix while liquid, in g/mL.
        set_range: lowest and highest apparent density once set, in g/mL.

    Raises:
        OutOfRange: for a level outside the vessel, a density that cannot be, a range upside down,
            or set wax that would be lighter than liquid over the whole of both ranges.
    """
    for low, high in (hot_range, set_range):
        within(low, checked_density(low), checked_density(high), "shrinkage.range-upside-down")
    lowest = set_level_mm(profile, fill_mm, hot_range[0], set_range[1])
    highest = set_level_mm(profile, fill_mm, min(hot_range[1], set_range[0]), set_range[0])
    return math.floor(lowest + _ROUND_OFF_MM), math.ceil(highest - _ROUND_OFF_MM)
