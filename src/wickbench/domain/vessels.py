"""What a vessel holds, measured with water and a scale, and how well that is known."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from statistics import fmean
from typing import TYPE_CHECKING

from wickbench.domain.capacity import Spread, odd_one_out, spread_of
from wickbench.domain.errors import OutOfRange
from wickbench.domain.ranges import within
from wickbench.domain.statistics import effective_degrees, student_t
from wickbench.domain.water import STANDARD_PRESSURE_HPA, USUAL_HUMIDITY_PERCENT, z_factor

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

_CONFIDENCE = 0.975
_HEAVIEST_G = 100_000.0
_SMALL_C = 0.05
_SMALL_HPA = 5.0
# A reading that is less than half a percent off is no misreading; common practice, no source.
_LEAST_ODD_SHARE = 0.005
_LEAST_ODD_STEPS = 4
_SQRT_3 = math.sqrt(3.0)
_SQRT_6 = math.sqrt(6.0)


@dataclass(frozen=True, slots=True)
class Weighing:
    """One reading of one vessel, dry and then filled with water to the brim or to a line.

    Attributes:
        empty_g: what the scale read with the dry vessel; 0 when it was tared away.
        filled_g: what it read with the water in.
        water_c: how warm the water was.
        vessel_no: which vessel out of the box, from 1.
    """

    empty_g: float
    filled_g: float
    water_c: float
    vessel_no: int = 1


@dataclass(frozen=True, slots=True)
class Capacity:
    """What a vessel holds, with its doubt by the rules of the GUM (JCGM 100:2008).

    Attributes:
        volume_ml: mean of the vessels' means, each vessel counted once.
        standard_uncertainty_ml: combined standard uncertainty of that mean.
        expanded_uncertainty_ml: half width of the interval that holds it in 95 of 100 cases.
        next_vessel_ml: what the next vessel out of the box may differ from the mean by in 95 of
            100 cases; None when fewer than two vessels were measured.
        effective_degrees: degrees of freedom (Welch–Satterthwaite); infinite without repeats.
        coverage_factor: expanded over standard uncertainty.
        contributions: name and standard uncertainty in mL of each doubt that was counted:
            ``repeats``, ``vessels``, ``reading``, ``scale``, ``temperature``, ``pressure``,
            ``line``.
        n_vessels: vessels measured.
        n_weighings: readings taken.
        spread_within_ml: standard deviation of repeats in one vessel; None without repeats.
        spread_between_ml: standard deviation between vessels, repeats taken out; None for one.
        vessels_ml: number and mean of each vessel.
        outlier_index: position in the weighings of one that lies too far off, or None.
        outlier_off_ml: how far that one is from the mean.
        outlier_vessel_no: the vessel that it was read of.
    """

    volume_ml: float
    standard_uncertainty_ml: float
    expanded_uncertainty_ml: float
    next_vessel_ml: float | None
    effective_degrees: float = field(kw_only=True)
    coverage_factor: float = field(kw_only=True)
    contributions: tuple[tuple[str, float], ...] = field(kw_only=True)
    n_vessels: int = field(kw_only=True)
    n_weighings: int = field(kw_only=True)
    spread_within_ml: float | None = field(default=None, kw_only=True)
    spread_between_ml: float | None = field(default=None, kw_only=True)
    vessels_ml: tuple[tuple[int, float], ...] = field(default=(), kw_only=True)
    outlier_index: int | None = field(default=None, kw_only=True)
    outlier_off_ml: float | None = field(default=None, kw_only=True)
    outlier_vessel_no: int | None = field(default=None, kw_only=True)

    @property
    def biggest_doubt(self) -> tuple[str, float]:
        """Name of the largest contribution and its share of the doubt in percent (of variance)."""
        name, u_ml = max(self.contributions, key=lambda part: part[1])
        return name, 100.0 * (u_ml / self.standard_uncertainty_ml) ** 2

    @property
    def without_biggest_ml(self) -> float:
        """What the expanded uncertainty would be if the largest contribution were gone.

        With the same coverage factor, so it tells what is to be won and not more.
        """
        _, u_ml = max(self.contributions, key=lambda part: part[1])
        left = max(0.0, self.standard_uncertainty_ml**2 - u_ml**2)
        return self.coverage_factor * math.sqrt(left)


@dataclass(frozen=True, slots=True)
class _Conditions:
    """What is known about scale, room and eye; half widths of what each may be off by."""

    scale_reads_to_g: float
    scale_error_g: float
    mouth_mm: float | None
    hectopascal: float
    humidity_percent: float
    water_c_error: float
    hectopascal_error: float
    line_error_mm: float
    glass_expansion_per_c: float


def measured_capacity(
    weighings: Iterable[Weighing],
    *,
    scale_reads_to_g: float = 0.1,
    mouth_mm: float | None = None,
    scale_error_g: float | None = None,
    hectopascal: float = STANDARD_PRESSURE_HPA,
    humidity_percent: float = USUAL_HUMIDITY_PERCENT,
    water_c_error: float = 1.0,
    hectopascal_error: float = 20.0,
    line_error_mm: float = 0.3,
    glass_expansion_per_c: float = 0.0,
) -> Capacity:
    """What a vessel holds in mL, from weighings with water.

    Repeats in one vessel and differences between vessels are kept apart, and every vessel counts
    once. Limits (resolution, scale, temperature, pressure, water line) are rectangular.

    Args:
        weighings: one reading or more; ``vessel_no`` says which vessel each belongs to.
        scale_reads_to_g: smallest step of the scale; two readings make a difference.
        mouth_mm: inner diameter where the water stands; None leaves the line out of the doubt.
        scale_error_g: how far the scale may be off; None takes two of its steps.
        hectopascal: air pressure.
        humidity_percent: relative humidity.
        water_c_error: how far the thermometer may be off, in °C.
        hectopascal_error: how far the pressure may be off.
        line_error_mm: how well the eye sees where the water stands.
        glass_expansion_per_c: volume growth of the vessel for each °C, to give the capacity at
            20 °C (soda-lime glass 0.000027); 0 gives it at the temperature of the water.

    Raises:
        OutOfRange: with ``weighing_no`` (from 1) for a reading that cannot be; without it for
            no weighings at all or conditions that cannot be.
    """
    readings = tuple(weighings)
    conditions = _Conditions(
        scale_reads_to_g,
        2 * scale_reads_to_g if scale_error_g is None else scale_error_g,
        mouth_mm,
        hectopascal,
        humidity_percent,
        water_c_error,
        hectopascal_error,
        line_error_mm,
        glass_expansion_per_c,
    )
    _check(readings, conditions)
    return _capacity(readings, conditions)


def _capacity(readings: Sequence[Weighing], conditions: _Conditions) -> Capacity:
    volumes = [_volume_ml(reading, conditions) for reading in readings]
    groups = _by_vessel(readings, volumes)
    spread = spread_of(groups)
    parts = (*_from_repeats(spread), *_from_limits(readings, conditions))
    standard = math.hypot(*(u for _, u in parts))
    repeats = math.hypot(spread.u_repeats, spread.u_vessels)
    limits = math.hypot(*(u for name, u in parts if name not in {"repeats", "vessels"}))
    degrees = effective_degrees(((repeats, spread.degrees), (limits, math.inf)))
    factor = student_t(_CONFIDENCE, degrees)
    odd = _odd_index(readings, groups, conditions, spread.mean)
    return Capacity(
        spread.mean,
        standard,
        factor * standard,
        spread.next_one,
        effective_degrees=degrees,
        coverage_factor=factor,
        contributions=parts,
        n_vessels=spread.n_vessels,
        n_weighings=spread.n_readings,
        spread_within_ml=spread.within,
        spread_between_ml=spread.between,
        vessels_ml=tuple((number, fmean(group)) for number, group in groups.items()),
        outlier_index=odd,
        outlier_off_ml=None if odd is None else volumes[odd] - spread.mean,
        outlier_vessel_no=None if odd is None else readings[odd].vessel_no,
    )


def _volume_ml(reading: Weighing, conditions: _Conditions) -> float:
    z = z_factor(reading.water_c, conditions.hectopascal, conditions.humidity_percent)
    growth = conditions.glass_expansion_per_c * (reading.water_c - 20.0)
    return (reading.filled_g - reading.empty_g) * z * (1.0 - growth)


def _by_vessel(readings: Sequence[Weighing], volumes: Sequence[float]) -> dict[int, list[float]]:
    groups: dict[int, list[float]] = {}
    for reading, volume_ml in zip(readings, volumes, strict=True):
        groups.setdefault(reading.vessel_no, []).append(volume_ml)
    return groups


def _from_repeats(spread: Spread) -> tuple[tuple[str, float], ...]:
    parts = (
        ("repeats", spread.u_repeats, spread.within),
        ("vessels", spread.u_vessels, spread.between),
    )
    return tuple((name, u_ml) for name, u_ml, known in parts if known is not None)


def _from_limits(
    readings: Sequence[Weighing], conditions: _Conditions
) -> tuple[tuple[str, float], ...]:
    mass_g = fmean(reading.filled_g - reading.empty_g for reading in readings)
    water_c = fmean(reading.water_c for reading in readings)
    p, h = conditions.hectopascal, conditions.humidity_percent
    z = z_factor(water_c, p, h)
    low_c, high_c = max(0.0, water_c - _SMALL_C), min(40.0, water_c + _SMALL_C)
    per_c = mass_g * (z_factor(high_c, p, h) - z_factor(low_c, p, h)) / (high_c - low_c)
    low_p, high_p = max(300.0, p - _SMALL_HPA), min(1100.0, p + _SMALL_HPA)
    per_hpa = mass_g * (z_factor(water_c, high_p, h) - z_factor(water_c, low_p, h))
    per_hpa /= high_p - low_p
    parts = [
        ("reading", z * conditions.scale_reads_to_g / _SQRT_6),
        ("scale", z * conditions.scale_error_g / _SQRT_3),
        ("temperature", abs(per_c) * conditions.water_c_error / _SQRT_3),
        ("pressure", abs(per_hpa) * conditions.hectopascal_error / _SQRT_3),
    ]
    if conditions.mouth_mm is not None:
        per_mm = math.pi / 4 * conditions.mouth_mm**2 / 1000.0
        parts.append(("line", per_mm * conditions.line_error_mm / _SQRT_3))
    return tuple(parts)


def _odd_index(
    readings: Sequence[Weighing],
    groups: Mapping[int, Sequence[float]],
    conditions: _Conditions,
    mean_ml: float,
) -> int | None:
    steps_ml = _LEAST_ODD_STEPS * conditions.scale_reads_to_g
    odd = odd_one_out(groups, least_off=max(steps_ml, _LEAST_ODD_SHARE * mean_ml))
    if odd is None:
        return None
    number, place = odd
    own = [index for index, reading in enumerate(readings) if reading.vessel_no == number]
    return own[place]


def _check(readings: Sequence[Weighing], conditions: _Conditions) -> None:
    if not readings:
        raise OutOfRange("vessel.no-weighings")
    within(conditions.scale_reads_to_g, 0.0001, 1000.0, "vessel.scale-reads-to", unit="g")
    within(conditions.scale_error_g, 0.0, 1000.0, "vessel.scale-error", unit="g")
    if conditions.mouth_mm is not None:
        within(conditions.mouth_mm, 1.0, 1000.0, "vessel.mouth", unit="mm")
    within(conditions.water_c_error, 0.0, 20.0, "vessel.water-error")
    within(conditions.hectopascal_error, 0.0, 300.0, "vessel.pressure-error")
    within(conditions.line_error_mm, 0.0, 20.0, "vessel.line-error", unit="mm")
    within(conditions.glass_expansion_per_c, 0.0, 0.001, "vessel.expansion")
    for number, reading in enumerate(readings, start=1):
        _check_reading(number, reading)


def _check_reading(number: int, reading: Weighing) -> None:
    empty_g, filled_g = reading.empty_g, reading.filled_g
    within(empty_g, 0.0, _HEAVIEST_G, "vessel.empty-mass", unit="g", weighing_no=number)
    within(filled_g, 0.0, _HEAVIEST_G, "vessel.filled-mass", unit="g", weighing_no=number)
    within(reading.water_c, 0.0, 40.0, "vessel.water-temperature", unit="c", weighing_no=number)
    if reading.vessel_no < 1:
        raise OutOfRange("vessel.number", weighing_no=number, vessel_no=reading.vessel_no)
    if filled_g <= empty_g:
        raise OutOfRange(
            "vessel.not-heavier", weighing_no=number, empty_g=empty_g, filled_g=filled_g
        )
