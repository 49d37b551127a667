"""How a pot cools: from readings at the bench to the time at which it can be poured.

Newton's law, T = Ta + (T0 − Ta)·exp(−k·t), holds while the wax is liquid and the room stays as it
is. Where wax begins to set its latent heat comes free and the pot stays at that temperature for
long; no time is given from there on, except as an estimate. The temperature of the room must be
measured: worked out of three readings it is off by many degrees, so that is not offered.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from wickbench.domain.errors import OutOfRange
from wickbench.domain.heat import checked_temperature
from wickbench.domain.ranges import within
from wickbench.domain.statistics import student_t

_MOST_MIN = 100_000.0
_INTERVAL = 0.975


@dataclass(frozen=True, slots=True)
class Reading:
    """A thermometer read.

    Attributes:
        minute: minutes since the clock was started.
        celsius: what it showed.

    Raises:
        OutOfRange: ``cooling.minute`` or ``heat.temperature``.
    """

    minute: float
    celsius: float

    def __post_init__(self) -> None:
        within(self.minute, -_MOST_MIN, _MOST_MIN, "cooling.minute")
        checked_temperature(self.celsius)


@dataclass(frozen=True, slots=True)
class Reached:
    """When a temperature is reached.

    Attributes:
        minute: on the clock of the readings.
        earliest_min: not before this, in 95 of 100 cases.
        latest_min: and not after this; infinite when the readings do not tell.
    """

    minute: float
    earliest_min: float
    latest_min: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Cooling:
    """The curve of a pot that cools.

    Attributes:
        start_min: minute of the first reading.
        start_c: temperature of the curve there.
        room_c: temperature of the room.
        rate_per_min: k, the part of the difference to the room that goes in a minute.
        congeals_c: where the wax begins to set; the curve ends there.
        last_min: minute of the last reading.
        spread: covariance of (``start_c``, ``rate_per_min``): two variances, then their covariance.
        degrees: degrees of freedom of the spread; infinite when it comes from the thermometer.

    Raises:
        OutOfRange: ``cooling.room-not-colder`` or ``cooling.rate``.
    """

    start_min: float
    start_c: float
    room_c: float
    rate_per_min: float
    congeals_c: float
    last_min: float
    spread: tuple[float, float, float] = (0.0, 0.0, 0.0)
    degrees: float = math.inf

    def __post_init__(self) -> None:
        for celsius in (self.start_c, self.room_c, self.congeals_c):
            checked_temperature(celsius)
        if self.start_c <= self.room_c:
            raise OutOfRange("cooling.room-not-colder", room_c=self.room_c, read_c=self.start_c)
        within(self.rate_per_min, 1e-9, 10.0, "cooling.rate")

    @property
    def half_min(self) -> float:
        """Minutes in which the difference to the room halves."""
        return math.log(2) / self.rate_per_min

    @property
    def ends_min(self) -> float:
        """Minute at which the wax begins to set; infinite in a room too warm for that."""
        if self.congeals_c <= self.room_c:
            return math.inf
        return self._minute(self.congeals_c)

    def at(self, minute: float) -> float:
        """Temperature at a minute.

        Raises:
            OutOfRange: ``cooling.minute``; ``cooling.sets`` once the wax has begun to set.
        """
        within(minute, -_MOST_MIN, _MOST_MIN, "cooling.minute")
        celsius = self._celsius(minute)
        if celsius < self.congeals_c - 1e-9:
            raise OutOfRange("cooling.sets", congeals_c=self.congeals_c)
        return celsius

    def minute_of(self, target_c: float) -> float:
        """Minute at which a temperature is reached; before the first reading for a hotter one.

        Raises:
            OutOfRange: ``cooling.sets`` below the congealing point, ``cooling.below-room`` at or
                below the temperature of the room.
        """
        checked_temperature(target_c)
        if target_c < self.congeals_c:
            raise OutOfRange("cooling.sets", congeals_c=self.congeals_c)
        if target_c <= self.room_c:
            raise OutOfRange("cooling.below-room", target_c=target_c, room_c=self.room_c)
        return self._minute(target_c)

    def reached(self, target_c: float) -> Reached:
        """Minute at which a temperature is reached, with its doubt carried on from the readings.

        Raises:
            OutOfRange: as ``minute_of``.
        """
        minute = self.minute_of(target_c)
        of_start, of_rate, both = self.spread
        by_start = 1 / (self.rate_per_min * (self.start_c - self.room_c))
        by_rate = -(minute - self.start_min) / self.rate_per_min
        variance = by_start**2 * of_start + by_rate**2 * of_rate + 2 * by_start * by_rate * both
        doubt = student_t(_INTERVAL, self.degrees) * math.sqrt(max(variance, 0.0))
        latest = minute + doubt
        told = student_t(_INTERVAL, self.degrees) * math.sqrt(of_rate) < self.rate_per_min
        return Reached(minute, minute - doubt, latest if told else math.inf)

    def curve(
        self, *, points: int = 60, until_c: float | None = None
    ) -> tuple[tuple[float, float], ...]:
        """Points (minute, °C) for drawing, from the first reading on.

        It ends at ``until_c``, at the congealing point, or three half times on, what is first.

        Raises:
            OutOfRange: ``cooling.points`` for fewer than two or more than ten thousand.
        """
        within(points, 2, 10_000, "cooling.points")
        end = min(self.ends_min, max(self.last_min, self.start_min + 3 * self.half_min))
        if until_c is not None:
            end = min(end, self.minute_of(until_c))
        step = (max(end, self.start_min) - self.start_min) / (points - 1)
        minutes = [self.start_min + step * place for place in range(points)]
        return tuple((minute, self._celsius(minute)) for minute in minutes)

    def _celsius(self, minute: float) -> float:
        difference = self.start_c - self.room_c
        return self.room_c + difference * math.exp(-self.rate_per_min * (minute - self.start_min))

    def _minute(self, celsius: float) -> float:
        ratio = (self.start_c - self.room_c) / (celsius - self.room_c)
        return self.start_min + math.log(ratio) / self.rate_per_min
