"""A maker's own densities of a wax: hot to a line, water on the set wax, the drop of a level.

Doubts are joined by the rules of the GUM (JCGM 100:2008). Masses are balance readings, as they
are sold by: the buoyancy of air is left out of wax (0.12 %) and counted in water by its Z factor.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import fmean, stdev
from typing import TYPE_CHECKING

from wickbench.domain.densities import LIQUID_SLOPE_G_PER_ML_C, liquid_density
from wickbench.domain.errors import OutOfRange
from wickbench.domain.ranges import within
from wickbench.domain.statistics import effective_degrees, furthest_off, student_t
from wickbench.domain.water import STANDARD_PRESSURE_HPA, z_factor

if TYPE_CHECKING:
    from collections.abc import Sequence

WAYS = ("hot", "set", "drop")

# Fats lose 0.00064 to 0.00072, alkanes 0.00062 to 0.00069 g/mL for each °C.
SLOPE_ERROR_G_PER_ML_C = 0.00006
# How well a kitchen probe, an eye at a line and an eye at a ruler read; common practice, no source.
PROBE_ERROR_C = 1.0
LINE_ERROR_MM = 0.3
HEIGHT_ERROR_MM = 0.5
TYPED_VOLUME_ERROR_SHARE = 0.005

_LIGHTEST, _HEAVIEST = 0.6, 1.2
_CONFIDENCE = 0.975
_SCALE_STEPS = 2.0
_SMALL_C = 0.05
_SQRT_3, _SQRT_6 = math.sqrt(3.0), math.sqrt(6.0)


@dataclass(frozen=True, slots=True)
class Line:
    """The line that a jar is filled to.

    Attributes:
        volume_ml: what it holds up to there, measured with water.
        doubt_ml: standard uncertainty of that; None for a volume that was only typed.
        mouth_mm: inner diameter there; None when unknown.
    """

    volume_ml: float
    doubt_ml: float | None = None
    mouth_mm: float | None = None

    @property
    def doubts(self) -> tuple[tuple[str, float], ...]:
        """What the volume and the eye at the line may be off by, standard, in mL."""
        own = self.doubt_ml
        if own is None:
            own = self.volume_ml * TYPED_VOLUME_ERROR_SHARE / _SQRT_3
        if self.mouth_mm is None:
            return (("volume", own),)
        per_mm = math.pi / 4 * self.mouth_mm**2 / 1000.0
        return (("volume", own), ("line", per_mm * LINE_ERROR_MM / _SQRT_3))


@dataclass(frozen=True, slots=True)
class Reading:
    """One density with its doubts.

    Attributes:
        g_per_ml: liquid at 70 °C, or set at room temperature.
        contributions: name and standard uncertainty in g/mL of each doubt that was counted:
            ``volume``, ``line``, ``mass``, ``scale``, ``temperature``, ``slope``, ``heights``,
            ``liquid``.
    """

    g_per_ml: float
    contributions: tuple[tuple[str, float], ...]

    @property
    def standard_uncertainty(self) -> float:
        """All doubts joined, in g/mL."""
        return math.hypot(*(u for _, u in self.contributions))


@dataclass(frozen=True, slots=True, kw_only=True)
class Average:
    """Several readings of one density.

    Attributes:
        g_per_ml: their mean.
        standard_uncertainty: of the mean, scatter and limits joined.
        expanded_uncertainty: half width that holds it in 95 of 100 cases.
        spread: standard deviation of the readings; None for one.
        n: how many.
        contributions: as in ``Reading``, averaged, with ``repeats`` for the scatter.
        odd: place of a reading that lies too far off the others; None.
    """

    g_per_ml: float
    standard_uncertainty: float
    expanded_uncertainty: float
    spread: float | None
    n: int
    contributions: tuple[tuple[str, float], ...]
    odd: int | None = None


def hot_to_line(mass_g: float, wax_c: float, line: Line, *, reads_to_g: float = 1.0) -> Reading:
    """Density at 70 °C of liquid wax that fills a jar to its line: m/V + 0.00066·(T - 70).

    Args:
        mass_g: wax in the tared jar.
        wax_c: how warm it is.
        line: what the jar holds up to its line.
        reads_to_g: smallest step of the scale.

    Raises:
        OutOfRange: a reading or a density that cannot be.
    """
    mass, volume = _mass(mass_g), _volume(line.volume_ml)
    warm = within(wax_c, 25.0, 160.0, "measured.wax-temperature", unit="c")
    from_70 = warm - 70.0
    density = _plausible(mass / volume + LIQUID_SLOPE_G_PER_ML_C * from_70)
    parts = [(name, mass / volume**2 * u) for name, u in line.doubts]
    parts += _weighed(1.0 / volume, reads_to_g)
    parts += [
        ("temperature", LIQUID_SLOPE_G_PER_ML_C * PROBE_ERROR_C / _SQRT_3),
        ("slope", abs(from_70) * SLOPE_ERROR_G_PER_ML_C / _SQRT_3),
    ]
    return Reading(density, tuple(parts))


def water_on_set(
    mass_g: float,
    water_g: float,
    water_c: float,
    line: Line,
    *,
    reads_to_g: float = 1.0,
    hectopascal: float = STANDARD_PRESSURE_HPA,
) -> Reading:
    """Apparent density of set wax, topped up to the line with water: m/(V - water·Z).

    Args:
        mass_g: wax in the jar.
        water_g: water that fills it up to the line, over the wax and into its pores.
        water_c: how warm the water is.
        line: what the jar holds up to its line.
        reads_to_g: smallest step of the scale.
        hectopascal: air pressure.

    Raises:
        OutOfRange: a reading that cannot be, water that fills the jar alone, or a density that
            no wax has.
    """
    mass, volume = _mass(mass_g), _volume(line.volume_ml)
    water = within(water_g, 0.0, 100_000.0, "measured.water", unit="g")
    within(water_c, 0.0, 40.0, "measured.water-temperature", unit="c")
    z = z_factor(water_c, hectopascal)
    wax_ml = volume - water * z
    if wax_ml <= 0.0:
        raise OutOfRange("measured.only-water", water_ml=water * z, volume_ml=volume)
    density = _plausible(mass / wax_ml)
    per_ml = density / wax_ml
    low_c, high_c = max(0.0, water_c - _SMALL_C), min(40.0, water_c + _SMALL_C)
    per_c = (z_factor(high_c, hectopascal) - z_factor(low_c, hectopascal)) / (high_c - low_c)
    parts = [(name, per_ml * u) for name, u in line.doubts]
    parts += _weighed(math.hypot(1.0 / wax_ml, per_ml * z), reads_to_g)
    parts.append(("temperature", per_ml * water * abs(per_c) * PROBE_ERROR_C / _SQRT_3))
    return Reading(density, tuple(parts))


def drop_of_level(
    hot_mm: float, set_mm: float, wax_c: float, liquid_70_g_per_ml: float, liquid_doubt: float
) -> Reading:
    """Density of set wax by the drop of its level in a straight jar: ρ(T)·hot/set.

    Args:
        hot_mm: level while liquid, above the inside of the base.
        set_mm: level once set.
        wax_c: how warm it was when the first was read.
        liquid_70_g_per_ml: its density while liquid, at 70 °C.
        liquid_doubt: standard uncertainty of that.

    Raises:
        OutOfRange: a level that rose, or a reading or density that cannot be.
    """
    hot = within(hot_mm, 5.0, 1000.0, "measured.height", unit="mm")
    cold = within(set_mm, 1.0, 1000.0, "measured.height", unit="mm")
    within(wax_c, 25.0, 160.0, "measured.wax-temperature", unit="c")
    if cold > hot:
        raise OutOfRange("measured.level-rose", hot_mm=hot, set_mm=cold)
    ratio = hot / cold
    density = _plausible(liquid_density(liquid_70_g_per_ml, wax_c) * ratio)
    u_mm = HEIGHT_ERROR_MM / _SQRT_3
    parts = (
        ("heights", density * math.hypot(u_mm / hot, u_mm / cold)),
        ("liquid", liquid_doubt * ratio),
        ("temperature", LIQUID_SLOPE_G_PER_ML_C * ratio * PROBE_ERROR_C / _SQRT_3),
    )
    return Reading(density, parts)


def average(readings: Sequence[Reading]) -> Average | None:
    """Mean of several readings; None of none.

    What they share (jar, scale, thermometer) does not grow smaller by repeating: limits are
    averaged, only the scatter is divided by the root of their number.
    """
    if not readings:
        return None
    values = [reading.g_per_ml for reading in readings]
    n = len(values)
    spread = stdev(values) if n > 1 else None
    repeats = 0.0 if spread is None else spread / math.sqrt(n)
    parts = _averaged(readings)
    limits = math.hypot(*(u for _, u in parts))
    standard = math.hypot(repeats, limits)
    degrees = effective_degrees(((repeats, max(1, n - 1)), (limits, math.inf)))
    off = max(0.005, 3.0 * limits)
    return Average(
        g_per_ml=fmean(values),
        standard_uncertainty=standard,
        expanded_uncertainty=student_t(_CONFIDENCE, max(1.0, degrees)) * standard,
        spread=spread,
        n=n,
        contributions=parts if spread is None else (("repeats", repeats), *parts),
        odd=furthest_off(values, least_off=off),
    )


def check_set_heavier(liquid_g_per_ml: float, set_g_per_ml: float) -> None:
    """Refuse set wax that would be lighter than liquid.

    Raises:
        OutOfRange: ``measured.set-lighter``.
    """
    if set_g_per_ml < liquid_g_per_ml:
        raise OutOfRange(
            "measured.set-lighter", set_g_per_ml=set_g_per_ml, liquid_g_per_ml=liquid_g_per_ml
        )


def _averaged(readings: Sequence[Reading]) -> tuple[tuple[str, float], ...]:
    """Root of the mean square of each doubt; a reading without one counts as none of it."""
    names = dict.fromkeys(name for reading in readings for name, _ in reading.contributions)
    found = []
    for name in names:
        own = [dict(reading.contributions).get(name, 0.0) for reading in readings]
        found.append((name, math.sqrt(fmean(u * u for u in own))))
    return tuple(found)


def _weighed(per_g: float, reads_to_g: float) -> list[tuple[str, float]]:
    step = within(reads_to_g, 0.0001, 1000.0, "measured.reads-to", unit="g")
    return [("mass", per_g * step / _SQRT_6), ("scale", per_g * _SCALE_STEPS * step / _SQRT_3)]


def _mass(mass_g: float) -> float:
    return within(mass_g, 1.0, 100_000.0, "measured.mass", unit="g")


def _volume(volume_ml: float) -> float:
    return within(volume_ml, 5.0, 100_000.0, "measured.volume", unit="ml")


def _plausible(g_per_ml: float) -> float:
    return within(g_per_ml, _LIGHTEST, _HEAVIEST, "measured.density", unit="g_per_ml")
