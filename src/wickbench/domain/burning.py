"""What a candle gives: how much of its wax can burn, for how long, and how warm its flame is."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.burning_rates import FASTEST_G_PER_H
from wickbench.domain.densities import checked_density
from wickbench.domain.errors import OutOfRange
from wickbench.domain.ranges import within

if TYPE_CHECKING:
    from wickbench.domain.burning_rates import Rate
    from wickbench.domain.shapes import Profile

STOP_IN_VESSEL_MM = 12.0
"""Wax left in a vessel when it is to be put out for good; common practice, no source."""

POOL_MM_PER_H = 25.0
"""A full pool takes about an hour for each 25 mm of diameter; common practice, no source."""

PARAFFIN_MJ_PER_KG = 42.0
"""Net heat of combustion of paraffin wax (general encyclopedias)."""

FAT_MJ_PER_KG = 36.9
"""Net heat of vegetable and animal waxes, as of stearic acid: 39.65 gross less 1.14 kg of water
for each kg, which leaves as vapour (2.44 MJ/kg at 25 °C)."""

_HEAVIEST_G = 100_000.0
_S_PER_H = 3600.0
_KJ_PER_MJ = 1000.0


@dataclass(frozen=True, slots=True)
class UsableWax:
    """Wax of a candle that burns, and wax that stays.

    Attributes:
        usable_g: what burns.
        stays_g: what is left in the vessel when it is put out for good.
    """

    usable_g: float
    stays_g: float


@dataclass(frozen=True, slots=True)
class BurnTime:
    """How long a candle burns.

    Attributes:
        hours: with the mean rate.
        shortest_h: with the fastest mean that the tests allow; None when one candle was tested.
        longest_h: with the slowest; infinite when so few tests allow any; None likewise.
    """

    hours: float
    shortest_h: float | None
    longest_h: float | None


def usable_wax(
    filled_g: float, profile: Profile, set_g_per_ml: float, stop_mm: float = STOP_IN_VESSEL_MM
) -> UsableWax:
    """What burns of a filling when the candle is put out with ``stop_mm`` of wax left.

    Args:
        filled_g: wax, oil and dye in the vessel.
        profile: inside of the vessel.
        set_g_per_ml: density of the mix once set.
        stop_mm: level at which it is put out for good.

    Raises:
        OutOfRange: ``burning.filled``, ``burning.stop-level`` outside the vessel,
            ``burning.nothing-burns`` when the filling does not even reach that level, or
            ``density.range``.
    """
    filled = within(filled_g, 0.0, _HEAVIEST_G, "burning.filled", unit="g")
    stop = within(stop_mm, 0.0, profile.top_mm, "burning.stop-level", unit="mm")
    stays_g = profile.volume_ml(stop) * checked_density(set_g_per_ml)
    if stays_g > filled:
        raise OutOfRange("burning.nothing-burns", filled_g=filled, stays_g=stays_g, stop_mm=stop)
    return UsableWax(filled - stays_g, stays_g)


def burn_time(usable_g: float, rate: Rate) -> BurnTime:
    """Hours that wax lasts: t = m / rate, with the ends of what holds the mean rate.

    Raises:
        OutOfRange: ``burning.filled``; ``burning.does-not-burn`` for a mean rate of nothing.
    """
    wax_g = within(usable_g, 0.0, _HEAVIEST_G, "burning.filled", unit="g")
    if rate.mean_g_per_h <= 0:
        raise OutOfRange("burning.does-not-burn")
    hours, reach = wax_g / rate.mean_g_per_h, rate.reach_g_per_h
    if reach is None:
        return BurnTime(hours, None, None)
    slowest = rate.mean_g_per_h - reach
    longest_h = wax_g / slowest if slowest > 0 else math.inf
    return BurnTime(hours, wax_g / (rate.mean_g_per_h + reach), longest_h)


def flame_power_w(rate_g_per_h: float, heat_mj_per_kg: float) -> float:
    """Heat of a flame in watts: rate times net heat of combustion.

    Args:
        rate_g_per_h: wax burnt in an hour.
        heat_mj_per_kg: net heat of combustion, ``PARAFFIN_MJ_PER_KG`` or ``FAT_MJ_PER_KG``.

    Raises:
        OutOfRange: ``burning.rate`` or ``burning.heat``.
    """
    rate = within(rate_g_per_h, 0.0, FASTEST_G_PER_H, "burning.rate")
    heat = within(heat_mj_per_kg, 1.0, 60.0, "burning.heat")
    return rate / _S_PER_H * heat * _KJ_PER_MJ


def full_pool_hours(diameter_mm: float) -> float:
    """Hours until the pool should reach the wall: one for each 25 mm of diameter.

    Common practice, no source.

    Raises:
        OutOfRange: ``burning.diameter``.
    """
    return within(diameter_mm, 1.0, 1000.0, "burning.diameter", unit="mm") / POOL_MM_PER_H
