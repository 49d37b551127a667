"""How fast candles burn, from weighings before and after, and how sure that is.

A rate is wax lost by time burnt. Rates of several candles scatter; their mean is known within
t·s/√n, and one more candle lies within t·s·√(1 + 1/n) of it in 95 of 100 cases.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from statistics import fmean, stdev
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.ranges import within
from wickbench.domain.statistics import chance_beyond, effective_degrees, student_t

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

FASTEST_G_PER_H = 500.0
"""Beyond anything that is called a candle: a torch of several wicks."""

_LONGEST_H = 10_000.0
_HEAVIEST_G = 100_000.0
_CONFIDENCE = 0.975
_DIFFER = 0.05
_ONE_TEST, _TWO_TESTS = 1, 2


@dataclass(frozen=True, slots=True)
class Weighed:
    """A candle on the scale.

    Attributes:
        hour: hours it had burnt by then, in all.
        mass_g: what the scale showed, grams, the vessel counted in each time or never.

    Raises:
        OutOfRange: ``burning.hours`` or ``burning.mass``.
    """

    hour: float
    mass_g: float

    def __post_init__(self) -> None:
        within(self.hour, 0.0, _LONGEST_H, "burning.hours")
        within(self.mass_g, 0.0, _HEAVIEST_G, "burning.mass", unit="g")


@dataclass(frozen=True, slots=True)
class Rate:
    """Rates of several candles of one kind, taken together.

    Attributes:
        mean_g_per_h: their mean.
        deviation_g_per_h: standard deviation from candle to candle; None for one candle.
        candles: how many were burnt.
    """

    mean_g_per_h: float
    deviation_g_per_h: float | None
    candles: int

    @property
    def reach_g_per_h(self) -> float | None:
        """Half width of what holds the mean in 95 of 100 cases, t·s/√n; None for one candle."""
        return self._times(math.sqrt(1 / self.candles))

    @property
    def next_g_per_h(self) -> float | None:
        """What one more candle may differ by in 95 of 100 cases, t·s·√(1 + 1/n), or None."""
        return self._times(math.sqrt(1 + 1 / self.candles))

    def _times(self, share: float) -> float | None:
        if self.deviation_g_per_h is None:
            return None
        return student_t(_CONFIDENCE, self.candles - 1) * self.deviation_g_per_h * share


@dataclass(frozen=True, slots=True)
class FittedRate:
    """The slope of a line through weighings of one candle.

    Attributes:
        g_per_h: wax burnt in an hour.
        standard_error_g_per_h: of the slope; None for two weighings, which fix a line exactly.
        weighings: how many.
    """

    g_per_h: float
    standard_error_g_per_h: float | None
    weighings: int

    @property
    def reach_g_per_h(self) -> float | None:
        """Half width of what holds the rate in 95 of 100 cases; None for two weighings."""
        if self.standard_error_g_per_h is None:
            return None
        return student_t(_CONFIDENCE, self.weighings - 2) * self.standard_error_g_per_h


@dataclass(frozen=True, slots=True)
class Difference:
    """Two kinds of candle against each other (Welch's test).

    Attributes:
        by_g_per_h: first mean less second mean.
        t: the same in units of its standard uncertainty; infinite when nothing scatters.
        degrees: effective degrees of freedom.
        chance: how often candles that burn alike would differ as much by chance, 0 to 1.
    """

    by_g_per_h: float
    t: float
    degrees: float
    chance: float

    @property
    def told(self) -> bool:
        """Whether these tests tell the two apart: by chance in fewer than 5 of 100 cases."""
        return self.chance < _DIFFER


def interval_rates(weighings: Sequence[Weighed]) -> tuple[float, ...]:
    """Rate between each weighing and the next, Δm/Δt in g/h.

    Raises:
        OutOfRange: ``burning.too-few-weighings``; ``burning.order`` when hours do not rise,
            ``burning.gained`` when it weighs more than before, with ``weighing_no`` from 1.
    """
    _check(weighings)
    return tuple(
        (before.mass_g - after.mass_g) / (after.hour - before.hour)
        for before, after in pairwise(weighings)
    )


def overall_rate(weighings: Sequence[Weighed]) -> float:
    """All wax burnt by all hours burnt, in g/h: what counts for the life of a candle.

    Raises:
        OutOfRange: as ``interval_rates``.
    """
    _check(weighings)
    first, last = weighings[0], weighings[-1]
    return (first.mass_g - last.mass_g) / (last.hour - first.hour)


def fitted_rate(weighings: Sequence[Weighed]) -> FittedRate:
    """The steady rate of one candle: a straight line through mass against hours.

    Raises:
        OutOfRange: as ``interval_rates``.
    """
    _check(weighings)
    hours = [one.hour for one in weighings]
    masses = [one.mass_g for one in weighings]
    middle_h, middle_g = fmean(hours), fmean(masses)
    spread = math.fsum((hour - middle_h) ** 2 for hour in hours)
    pairs = list(zip(hours, masses, strict=True))
    slope = math.fsum((hour - middle_h) * (mass - middle_g) for hour, mass in pairs) / spread
    free = len(weighings) - 2
    if not free:
        return FittedRate(-slope, None, len(weighings))
    off = math.fsum((mass - middle_g - slope * (hour - middle_h)) ** 2 for hour, mass in pairs)
    return FittedRate(-slope, math.sqrt(off / free / spread), len(weighings))


def mean_rate(rates_g_per_h: Iterable[float]) -> Rate:
    """Rates of several candles taken together, each candle once.

    Raises:
        OutOfRange: ``burning.no-rates``, or ``burning.rate`` outside 0 to 500 g/h.
    """
    rates = [within(one, 0.0, FASTEST_G_PER_H, "burning.rate") for one in rates_g_per_h]
    if not rates:
        raise OutOfRange("burning.no-rates")
    return Rate(fmean(rates), stdev(rates) if len(rates) > 1 else None, len(rates))


def compared(one: Rate, other: Rate) -> Difference:
    """Whether two kinds of candle burn differently, as far as so few tests can tell.

    Source: Welch, Biometrika 34 (1947) 28; degrees by Welch and Satterthwaite (GUM G.4.1).

    Raises:
        OutOfRange: ``burning.one-candle`` when either was tested with a single candle.
    """
    if one.deviation_g_per_h is None or other.deviation_g_per_h is None:
        raise OutOfRange("burning.one-candle")
    parts = [
        (rate.deviation_g_per_h or 0.0) / math.sqrt(rate.candles) for rate in (one, other)
    ]  # fmt: skip
    by = one.mean_g_per_h - other.mean_g_per_h
    doubt = math.hypot(*parts)
    if doubt == 0.0:
        apart = math.copysign(math.inf, by) if by else 0.0
        return Difference(by, apart, math.inf, 0.0 if by else 1.0)
    degrees = effective_degrees([(parts[0], one.candles - 1), (parts[1], other.candles - 1)])
    return Difference(by, by / doubt, degrees, chance_beyond(by / doubt, degrees))


def rate_findings(rate: Rate) -> tuple[Finding, ...]:
    """How little one or two tests tell, in words."""
    if rate.candles == _ONE_TEST:
        return (Finding(Rank.NOTE, "burning.one-test"),)
    if rate.candles == _TWO_TESTS and rate.next_g_per_h:
        data = {"mean": rate.mean_g_per_h, "next": rate.next_g_per_h}
        return (Finding(Rank.NOTE, "burning.two-tests", data),)
    return ()


def _check(weighings: Sequence[Weighed]) -> None:
    if len(weighings) < 2:  # noqa: PLR2004 - a rate lies between two
        raise OutOfRange("burning.too-few-weighings")
    for number, (before, after) in enumerate(pairwise(weighings), start=2):
        if after.hour <= before.hour:
            raise OutOfRange("burning.order", weighing_no=number)
        if after.mass_g > before.mass_g:
            data = {"before_g": before.mass_g, "after_g": after.mass_g}
            raise OutOfRange("burning.gained", weighing_no=number, **data)
