"""How much of a heater's power arrives in the pot: usual ranges, and what the maker's pours say."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import median, stdev
from types import MappingProxyType
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.heating import heating_minutes
from wickbench.domain.ranges import within
from wickbench.domain.statistics import furthest_off, student_t

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

HEATERS: Mapping[str, tuple[float, float]] = MappingProxyType(
    {"hotplate": (0.4, 0.6), "melter": (0.8, 0.9)}
)
"""Part of the power that arrives, lowest and highest: a hot plate under a water bath, an insulated
melter. Common practice, no source."""

FEWEST_POURS = 2
_READ_TO_MIN = 0.5
_FAR_OFF = 0.1
_NEXT_POUR = 0.975
_WIDEST = 4.0
"""An interval wider than this many times either way says nothing more."""

_KJ_PER_W_MIN = 60.0 / 1000.0


@dataclass(frozen=True, slots=True)
class LoggedHeating:
    """One heating that the maker timed.

    Attributes:
        heat_kj: what went in, computed as for the plan.
        power_w: power of the heater.
        minutes: how long it took.

    Raises:
        OutOfRange: ``heat.energy``, ``heat.power`` or ``heat.minutes``.
    """

    heat_kj: float
    power_w: float
    minutes: float

    def __post_init__(self) -> None:
        within(self.heat_kj, 0.001, 1e7, "heat.energy")
        within(self.power_w, 1.0, 1e5, "heat.power")
        within(self.minutes, 0.1, 10_000.0, "heat.minutes")

    @property
    def efficiency(self) -> float:
        """The part of the power that arrived: η = E / (P·t)."""
        return self.heat_kj / (self.power_w * self.minutes * _KJ_PER_W_MIN)


@dataclass(frozen=True, slots=True)
class Learned:
    """What the logged heatings say.

    Attributes:
        efficiency: the middle one of those that count.
        low: the next pour's lies above this in 95 of 100 cases, as far as so few can tell.
        high: and below this.
        pours: how many count.
        left_out: places of the logged ones that lie too far off the others.
        sure: how sure that is: ``"hardly"`` (the next may take half as long again, or more),
            ``"roughly"`` (within half) or ``"well"`` (within a fifth).
        too_good: more arrives than the heater draws: an estimate of the wax is off, or a time.
    """

    efficiency: float
    low: float
    high: float
    pours: int
    left_out: tuple[int, ...]
    sure: str
    too_good: bool


def learn(logged: Sequence[LoggedHeating]) -> Learned:
    """Efficiency from at least two timed heatings.

    The middle value, so that one forgotten pot does little harm; with four or more, one that lies
    far off is left out. The interval is Student's for one more value, on the logarithms, with the
    half minute to which people read a clock as the least spread.

    Raises:
        OutOfRange: ``heat.too-few-pours``; ``heat.log-impossible`` with the place (from 1) when
            far more or far less heat arrived than can be.
    """
    if len(logged) < FEWEST_POURS:
        raise OutOfRange("heat.too-few-pours", have=len(logged), need=FEWEST_POURS)
    for place, one in enumerate(logged, start=1):
        within(one.efficiency, 0.02, 2.0, "heat.log-impossible", place=place)
    logs = [math.log(one.efficiency) for one in logged]
    far = furthest_off(logs, least_off=_FAR_OFF)
    left_out = () if far is None else (far,)
    kept = [place for place in range(len(logs)) if place not in left_out]
    middle = median(logs[place] for place in kept)
    spread = _spread([logs[place] for place in kept], [logged[place].minutes for place in kept])
    reach = min(spread, math.log(_WIDEST))
    return Learned(
        efficiency=math.exp(middle),
        low=math.exp(middle - reach),
        high=math.exp(middle + reach),
        pours=len(kept),
        left_out=left_out,
        sure=_sure(math.exp(reach)),
        too_good=middle > 0,
    )


def _spread(logs: Sequence[float], minutes: Sequence[float]) -> float:
    """Half width, on the logarithm, of the interval for one more pour."""
    count = len(logs)
    read = _READ_TO_MIN / math.sqrt(3) / median(minutes)
    scatter = max(stdev(logs), read)
    return student_t(_NEXT_POUR, count - 1) * scatter * math.sqrt(1 + 1 / count)


def _sure(times: float) -> str:
    for word, most in (("well", 1.2), ("roughly", 1.5)):
        if times <= most:
            return word
    return "hardly"


@dataclass(frozen=True, slots=True)
class HeatingTime:
    """How long heating takes.

    Attributes:
        at_best_min: it will not be faster than this: all of the power arrives.
        likely_min: what the maker's own pours say; None before two of them.
        low_min: quickest that is to be expected.
        high_min: slowest that is to be expected.
        learned: from the maker's own pours; otherwise only a usual range of such heaters.
    """

    at_best_min: float
    likely_min: float | None
    low_min: float
    high_min: float
    learned: bool


def heating_time(
    heat_kj: float, power_w: float, *, heater: str = "hotplate", learned: Learned | None = None
) -> HeatingTime:
    """Minutes for a heat at a power: "at best", and with the range that is to be expected.

    Raises:
        OutOfRange: ``heat.heater`` for a kind that is not in ``HEATERS``; a senseless number.
    """
    usual = HEATERS.get(heater)
    if usual is None:
        raise OutOfRange("heat.heater", name=heater)
    if learned is None:
        best, low, high = (heating_minutes(heat_kj, power_w, part) for part in (1.0, *usual[::-1]))
        return HeatingTime(best, None, low, high, learned=False)
    low, likely, high = (
        heating_minutes(heat_kj, power_w, min(max(value, 0.01), 2.0))
        for value in (learned.high, learned.efficiency, learned.low)
    )
    # All of the power arriving is the best there is, unless the pours themselves say otherwise.
    best = min(heating_minutes(heat_kj, power_w, 1.0), likely)
    return HeatingTime(best, likely, max(low, best), high, learned=True)
