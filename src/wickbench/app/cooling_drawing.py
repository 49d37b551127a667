"""The curve of a pot that cools, to scale: what a painter needs, in minutes and °C."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.cooling_log import minute_of, moment_of
from wickbench.app.moments import local, time_of_day
from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from wickbench.app.bench_heat import BenchPotHeat
    from wickbench.app.texts import Texts
    from wickbench.domain.cooling import Cooling

Point = tuple[float, float]
_POINTS: Final = 80
_AFTER: Final = 1.12
_BELOW_C: Final = 4.0
_STEPS_MIN: Final = (1, 2, 5, 10, 15, 20, 30, 60, 120, 240, 480)
_MOST_TICKS: Final = 7
_STEP_F: Final = 20
_STEP_C: Final = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class CurveDrawn:
    """A curve with its axes.

    Attributes:
        curve: points from the first reading to where the wax begins to set.
        flat: from there on, dashed: it sets and stays at that temperature for long.
        readings: as they were read.
        window_c: colder and hotter end of pouring.
        target: where the curve comes down to the temperature to pour at.
        now_min: the minute of now; ``None`` when it lies outside.
        minutes, celsius: ends of the axes.
        minute_marks, celsius_marks: places on the axes with their words.
        sets_words: beside the dashed line.
        description: the same in words, for who cannot see it.
    """

    curve: tuple[Point, ...]
    flat: tuple[Point, ...]
    readings: tuple[Point, ...]
    window_c: tuple[float, float] | None
    target: Point | None
    now_min: float | None
    minutes: tuple[float, float]
    celsius: tuple[float, float]
    minute_marks: tuple[tuple[float, str], ...]
    celsius_marks: tuple[tuple[float, str], ...]
    sets_words: str
    description: str


def draw_curve(
    curve: Cooling,
    known: BenchPotHeat,
    window_c: tuple[float, float] | None,
    now_min: float,
    texts: Texts,
) -> CurveDrawn:
    """Everything that is drawn of a curve."""
    points = curve.curve(points=_POINTS)
    target = _target(curve, window_c)
    end = max(points[-1][0], curve.last_min + 1.0) * _AFTER
    read = tuple((minute_of(known.cools, one.at_ms), one.read_c) for one in known.cools.readings)
    sets = curve.ends_min < end
    lowest = min(points[-1][1], *(window_c or (points[-1][1],)))
    celsius = (lowest - _BELOW_C, max(curve.start_c, *(one[1] for one in read)) + _BELOW_C / 2)
    minutes = (0.0, end)
    sets_at = texts.quantity(curve.congeals_c, "temperature", both=False)
    return CurveDrawn(
        curve=points,
        flat=((curve.ends_min, curve.congeals_c), (end, curve.congeals_c)) if sets else (),
        readings=read,
        window_c=window_c,
        target=target,
        now_min=now_min if 0 <= now_min <= end else None,
        minutes=minutes,
        celsius=celsius,
        minute_marks=_minute_marks(known, minutes),
        celsius_marks=_celsius_marks(texts, celsius),
        sets_words=texts(N_("sets from {hot}"), hot=sets_at) if sets else "",
        description=texts(
            N_("Temperature of the pot from {begin} to {end}, with {n} readings."),
            begin=time_of_day(moment_of(known.cools, 0.0)),
            end=time_of_day(moment_of(known.cools, end)),
            n=len(read),
        ),
    )


def _target(curve: Cooling, window_c: tuple[float, float] | None) -> Point | None:
    if window_c is None or not curve.room_c < window_c[1] or window_c[1] < curve.congeals_c:
        return None
    minute = curve.minute_of(window_c[1])
    return (minute, window_c[1]) if minute >= 0 else None


def _minute_marks(
    known: BenchPotHeat, minutes: tuple[float, float]
) -> tuple[tuple[float, str], ...]:
    """Round times of the clock."""
    span = minutes[1] - minutes[0]
    step = next((one for one in _STEPS_MIN if span / one <= _MOST_TICKS), _STEPS_MIN[-1])
    began = local(moment_of(known.cools, 0.0))
    into = began.hour * 60 + began.minute + began.second / 60
    first = math.ceil(into / step) * step - into
    count = math.floor((minutes[1] - first) / step) + 1
    places = [first + step * number for number in range(max(count, 0))]
    return tuple((place, time_of_day(moment_of(known.cools, place))) for place in places)


def _celsius_marks(texts: Texts, celsius: tuple[float, float]) -> tuple[tuple[float, str], ...]:
    """Round temperatures of the first unit."""
    fahrenheit = texts.units.first("temperature") == "°F"
    low, high = (one * 1.8 + 32 if fahrenheit else one for one in celsius)
    step = _STEP_F if fahrenheit else _STEP_C
    if high - low < 2 * step:
        step //= 2
    shown = range(math.ceil(low / step) * step, math.floor(high) + 1, step)
    places = [(one - 32) / 1.8 if fahrenheit else float(one) for one in shown]
    return tuple((one, texts.quantity(one, "temperature", both=False)) for one in places)
