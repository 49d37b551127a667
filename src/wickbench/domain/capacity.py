"""What repeats in one jar and several jars of a box say: their mean and their two spreads."""

from __future__ import annotations

import math
from dataclasses import dataclass
from math import fsum, sqrt
from statistics import fmean, stdev
from typing import TYPE_CHECKING

from wickbench.domain.statistics import furthest_off, student_t

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

_CONFIDENCE = 0.975  # leaves 2.5 % beyond each end


@dataclass(frozen=True, slots=True)
class Spread:
    """Readings grouped by vessel, analysed as one-way random effects (GUM, example H.5).

    Each vessel counts once, however often it was measured.

    Attributes:
        mean: mean of the vessels' own means.
        within: standard deviation of repeats in the same vessel, pooled; None without repeats.
        between: standard deviation from vessel to vessel, with what repeats explain taken out
            where there are repeats; None for a single vessel.
        of_means: standard deviation of the vessels' means as they stand; None for one vessel.
        u_repeats: part of the mean's standard uncertainty that comes from repeats.
        u_vessels: part of it that comes from differences between vessels.
        degrees: degrees of freedom of the two together; infinite when there is nothing to judge by.
        n_vessels: how many vessels.
        n_readings: how many readings.
    """

    mean: float
    within: float | None
    between: float | None
    of_means: float | None
    u_repeats: float
    u_vessels: float
    degrees: float
    n_vessels: int
    n_readings: int

    @property
    def next_one(self) -> float | None:
        """What the next vessel may differ from the mean by, in 95 of 100 cases: t·s·√(1 + 1/n)."""
        if self.of_means is None:
            return None
        n = self.n_vessels
        return student_t(_CONFIDENCE, n - 1) * self.of_means * sqrt(1 + 1 / n)


def spread_of(groups: Mapping[int, Sequence[float]]) -> Spread:
    """Analyse readings grouped by vessel; each group holds one reading or more."""
    means = [fmean(group) for group in groups.values()]
    repeat_degrees = sum(len(group) - 1 for group in groups.values())
    within = _pooled(groups, repeat_degrees) if repeat_degrees else None
    of_means = stdev(means) if len(means) > 1 else None
    # What repeats alone would make the vessels' means scatter by, as a variance.
    explained = (within or 0.0) ** 2 * fmean(1 / len(group) for group in groups.values())
    left = max(0.0, (of_means or 0.0) ** 2 - explained)
    return Spread(
        mean=fmean(means),
        within=within,
        between=None if of_means is None else sqrt(left),
        of_means=of_means,
        u_repeats=sqrt(explained / len(means)),
        u_vessels=sqrt(left / len(means)),
        degrees=_degrees(left, len(means) - 1, repeat_degrees),
        n_vessels=len(means),
        n_readings=sum(len(group) for group in groups.values()),
    )


def odd_one_out(
    groups: Mapping[int, Sequence[float]], *, least_off: float
) -> tuple[int, int] | None:
    """Group and place in it of a reading that lies too far off, or None.

    Four repeats in one vessel judge each other; after them four vessels or more judge each other
    by their means, and the furthest reading of the odd vessel is named.
    """
    for number, group in groups.items():
        place = furthest_off(group, least_off=least_off)
        if place is not None:
            return number, place
    means = [fmean(group) for group in groups.values()]
    odd = furthest_off(means, least_off=least_off)
    if odd is None:
        return None
    number = list(groups)[odd]
    centre = (fsum(means) - means[odd]) / (len(means) - 1)
    offs = [abs(reading - centre) for reading in groups[number]]
    return number, offs.index(max(offs))


def _pooled(groups: Mapping[int, Sequence[float]], degrees: int) -> float:
    squares = fsum(fsum((x - fmean(group)) ** 2 for x in group) for group in groups.values())
    return sqrt(squares / degrees)


def _degrees(left: float, vessel_degrees: int, repeat_degrees: int) -> float:
    """Degrees of the mean's uncertainty: of the vessels' scatter unless repeats explain it all."""
    if left > 0.0:
        return float(vessel_degrees)
    return float(repeat_degrees) if repeat_degrees else math.inf
