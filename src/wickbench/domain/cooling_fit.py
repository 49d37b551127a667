"""The curve of cooling that fits readings at the bench, and how sure it is."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from wickbench.domain.cooling import Cooling, Reading
from wickbench.domain.errors import OutOfRange
from wickbench.domain.heat import checked_temperature
from wickbench.domain.ranges import within

if TYPE_CHECKING:
    from collections.abc import Sequence

_TWO_READINGS = 2
_ROUNDS = 50
_CLOSE = 1e-13
_READ_WITHIN = math.sqrt(12)


def cooling_of(
    readings: Sequence[Reading],
    *,
    room_c: float,
    congeals_c: float,
    thermometer_reads_to_c: float = 0.1,
) -> Cooling:
    """The curve through two readings, or the one that fits more of them best.

    Two readings give k = ln((T1 − Ta)/(T2 − Ta)) / (t2 − t1). More are fitted by least squares of
    the temperatures, because a thermometer is off by the same amount hot and less hot; a straight
    line through the logarithms is only where that begins. The doubt is what the readings scatter
    and what the thermometer's step leaves open, whichever is larger.

    Args:
        readings: at least two, in the order of their minutes.
        room_c: temperature of the room, measured.
        congeals_c: where the wax begins to set; readings must be above.
        thermometer_reads_to_c: step of the thermometer.

    Raises:
        OutOfRange: ``cooling.too-few-readings``, ``cooling.order``, ``cooling.not-cooling``,
            ``cooling.room-not-colder``, ``cooling.read-after-set``, ``cooling.thermometer`` or
            ``heat.temperature``.
    """
    checked_temperature(room_c)
    checked_temperature(congeals_c)
    within(thermometer_reads_to_c, 0.001, 10.0, "cooling.thermometer", unit="c")
    _check(readings, room_c, congeals_c)
    minutes = [reading.minute - readings[0].minute for reading in readings]
    above = [reading.celsius - room_c for reading in readings]
    height, rate = log_linear(minutes, above)
    if len(readings) > _TWO_READINGS:
        height, rate = _least_squares(minutes, above, (height, rate))
    if rate <= 0:
        raise OutOfRange("cooling.not-cooling")
    spread, degrees = _spread(minutes, above, (height, rate), thermometer_reads_to_c)
    return Cooling(
        start_min=readings[0].minute,
        start_c=room_c + height,
        room_c=room_c,
        rate_per_min=rate,
        congeals_c=congeals_c,
        last_min=readings[-1].minute,
        spread=spread,
        degrees=degrees,
    )


def _check(readings: Sequence[Reading], room_c: float, congeals_c: float) -> None:
    if len(readings) < _TWO_READINGS:
        raise OutOfRange("cooling.too-few-readings", have=len(readings))
    for before, after in pairwise(readings):
        if after.minute <= before.minute:
            raise OutOfRange("cooling.order", minute=after.minute, before=before.minute)
    coldest_c = min(reading.celsius for reading in readings)
    if coldest_c <= room_c:
        raise OutOfRange("cooling.room-not-colder", room_c=room_c, read_c=coldest_c)
    if coldest_c <= congeals_c:
        raise OutOfRange("cooling.read-after-set", read_c=coldest_c, congeals_c=congeals_c)
    if readings[-1].celsius >= readings[0].celsius:
        raise OutOfRange("cooling.not-cooling")


def log_linear(minutes: Sequence[float], above_c: Sequence[float]) -> tuple[float, float]:
    """Height at minute 0 in °C above the room, and rate per minute: a line through logarithms."""
    logs = [math.log(celsius) for celsius in above_c]
    count = len(logs)
    mean_min, mean_log = math.fsum(minutes) / count, math.fsum(logs) / count
    across = math.fsum(
        (minute - mean_min) * (log - mean_log) for minute, log in zip(minutes, logs, strict=True)
    )
    slope = across / math.fsum((minute - mean_min) ** 2 for minute in minutes)
    return math.exp(mean_log - slope * mean_min), -slope


def _least_squares(
    minutes: Sequence[float], above: Sequence[float], start: tuple[float, float]
) -> tuple[float, float]:
    """Gauss–Newton on height and rate; the start is so near that it needs no holding back."""
    height, rate = start
    for _ in range(_ROUNDS):
        (hh, rr, hr), residuals, slopes = _normal(minutes, above, height, rate)
        by_height = math.fsum(s[0] * r for s, r in zip(slopes, residuals, strict=True))
        by_rate = math.fsum(s[1] * r for s, r in zip(slopes, residuals, strict=True))
        whole = hh * rr - hr * hr
        steps = ((rr * by_height - hr * by_rate) / whole, (hh * by_rate - hr * by_height) / whole)
        height, rate = height + steps[0], rate + steps[1]
        if abs(steps[0]) <= _CLOSE * abs(height) and abs(steps[1]) <= _CLOSE * abs(rate):
            break
    return height, rate


def _normal(
    minutes: Sequence[float], above: Sequence[float], height: float, rate: float
) -> tuple[tuple[float, float, float], list[float], list[tuple[float, float]]]:
    """Sums of the normal equations, residuals, and slopes by height and by rate."""
    falls = [math.exp(-rate * minute) for minute in minutes]
    slopes = [(fall, -height * minute * fall) for minute, fall in zip(minutes, falls, strict=True)]
    residuals = [read - height * fall for read, fall in zip(above, falls, strict=True)]
    sums = (
        math.fsum(a * a for a, _ in slopes),
        math.fsum(b * b for _, b in slopes),
        math.fsum(a * b for a, b in slopes),
    )
    return sums, residuals, slopes


def _spread(
    minutes: Sequence[float],
    above: Sequence[float],
    fitted: tuple[float, float],
    reads_to_c: float,
) -> tuple[tuple[float, float, float], float]:
    """Covariance of height and rate, with its degrees of freedom."""
    (hh, rr, hr), residuals, _ = _normal(minutes, above, *fitted)
    by_step = reads_to_c**2 / _READ_WITHIN**2
    free = len(minutes) - 2
    scattered = math.fsum(r * r for r in residuals) / free if free else 0.0
    variance, degrees = (scattered, float(free)) if scattered > by_step else (by_step, math.inf)
    whole = hh * rr - hr * hr
    return (variance * rr / whole, variance * hh / whole, -variance * hr / whole), degrees
