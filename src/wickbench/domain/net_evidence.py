"""Filled candles weighed: which weighings say what is in them, and what they come to.

Net weight is the filled candle less its own empty vessel with the wick in it. Vessels out of one
box differ more than a declared weight may be short, so an average tare says nothing about it.
"""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass
from statistics import fmean
from typing import TYPE_CHECKING

from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.ranges import within

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

VESSELS_DIFFER_PERCENT = (2.0, 4.0)
"""How far empty vessels out of one box differ in mass; common practice, no source."""

_MIDDLE_PERCENT = 3.0
_RARE = 0.05
_HEAVIEST_G = 100_000.0
_DIGITS = 3  # of a gram: what is stored


@dataclass(frozen=True, slots=True)
class NetWeighing:
    """One filled candle on the scale.

    Attributes:
        vessel_no: number of the jar; ``None`` when it has none.
        empty_g: what the jar weighed empty, with its wick; 0 when it was poured on the scale, set
            to zero with this jar on it.
        filled_g: what it weighs filled.
        own_tare: whether ``empty_g`` is of this jar, not an average or another one's.
    """

    vessel_no: int | None
    empty_g: float | None
    filled_g: float | None
    own_tare: bool = True


@dataclass(frozen=True, slots=True)
class NetEvidence:
    """What weighings of filled candles say.

    Attributes:
        nets_g: net weight of each weighing in its order; ``None`` where it does not count.
        findings: why weighings do not count.
        mean_g, lowest_g: of those that count; ``None`` without any.
        spread_g: standard deviation of those that count; ``None`` for fewer than two.
        step_error_g: standard uncertainty of one net weight from the scale's step alone.
    """

    nets_g: tuple[float | None, ...]
    findings: tuple[Finding, ...]
    mean_g: float | None
    lowest_g: float | None
    spread_g: float | None
    step_error_g: float

    @property
    def counted_g(self) -> tuple[float, ...]:
        """Net weights that count."""
        return tuple(net for net in self.nets_g if net is not None)


def net_evidence(weighings: Sequence[NetWeighing], *, scale_reads_to_g: float = 0.1) -> NetEvidence:
    """Net weights of filled candles, and which of them are no evidence.

    Refused is a tare that is said to be an average, and an empty weight that so many jars share
    that it must be one: by chance that would happen in fewer than 5 of 100 sets of jars whose
    masses lie anywhere within 3 % (see ``shared_by_chance``).

    Args:
        weighings: in the order of the table; incomplete ones do not count.
        scale_reads_to_g: smallest step of the scale.

    Raises:
        OutOfRange: for a scale step that cannot be.
    """
    within(scale_reads_to_g, 0.0001, 1000.0, "vessel.scale-reads-to", unit="g")
    refused, found = _refused(weighings, scale_reads_to_g)
    nets = tuple(None if place in refused else _net_g(one) for place, one in enumerate(weighings))
    counted = [net for net in nets if net is not None]
    mean = fmean(counted) if counted else None
    return NetEvidence(
        nets_g=nets,
        findings=sort_findings(found),
        mean_g=mean,
        lowest_g=min(counted, default=None),
        spread_g=_spread_g(counted),
        step_error_g=scale_reads_to_g / math.sqrt(6.0),
    )


def tare_doubt_g(empty_g: float) -> tuple[float, float]:
    """What a net weight may be off by when the tare is another jar's, in g: from and to."""
    low, high = VESSELS_DIFFER_PERCENT
    return empty_g * low / 100.0, empty_g * high / 100.0


def shared_by_chance(jars: int, sharing: int, empty_g: float, scale_reads_to_g: float) -> float:
    """How likely it is at most that so many jars of a set read the same without being averaged.

    Masses are taken to lie evenly within 3 % of ``empty_g``: another jar reads the same with the
    chance step ÷ range, the number that do is binomial, and the expected number of such groups is
    a bound for the chance of one (Markov's inequality).

    Args:
        jars: how many were weighed.
        sharing: how many of them read the same, 2 or more.
        empty_g: what they read.
        scale_reads_to_g: step of the scale.
    """
    range_g = empty_g * _MIDDLE_PERCENT / 100.0
    chance = 1.0 if range_g <= scale_reads_to_g else scale_reads_to_g / range_g
    others = jars - 1
    tail = math.fsum(
        math.comb(others, k) * chance**k * (1.0 - chance) ** (others - k)
        for k in range(sharing - 1, others + 1)
    )
    return min(1.0, jars * tail / sharing)


def _net_g(one: NetWeighing) -> float | None:
    if one.empty_g is None or one.filled_g is None:
        return None
    return one.filled_g - one.empty_g


def _spread_g(counted: Sequence[float]) -> float | None:
    if len(counted) < 2:  # noqa: PLR2004 - one value has no spread
        return None
    mean = fmean(counted)
    return math.sqrt(math.fsum((net - mean) ** 2 for net in counted) / (len(counted) - 1))


def _refused(
    weighings: Sequence[NetWeighing], step_g: float
) -> tuple[frozenset[int], list[Finding]]:
    """Places of the weighings that are no evidence, and why."""
    found = {place: _trouble(place, one) for place, one in enumerate(weighings)}
    told = [finding for finding in found.values() if finding is not None]
    whole = {place: one for place, one in enumerate(weighings) if found[place] is None}
    average = [place for place, one in whole.items() if not one.own_tare]
    if average:
        told.append(_no_evidence("net-evidence.average-tare", weighings, average))
    own = {place: one for place, one in whole.items() if one.own_tare and one.empty_g}
    shared = _shared(own, step_g)
    told += [_no_evidence("net-evidence.same-tare", weighings, places) for places in shared]
    refused = {place for place, finding in found.items() if finding is not None}
    return frozenset(refused.union(average, *shared)), told


def _trouble(place: int, one: NetWeighing) -> Finding | None:
    """What is missing or cannot be in one row."""
    about: tuple[object, ...] = ("net", place)
    data: dict[str, object] = {"row_no": place + 1}
    if one.empty_g is None:
        return Finding(Rank.NOTE, "net-evidence.without-empty", data, about)
    if one.filled_g is None:
        return Finding(Rank.NOTE, "net-evidence.without-filled", data, about)
    if not (0.0 <= one.empty_g < one.filled_g <= _HEAVIEST_G):
        data |= {"empty_g": one.empty_g, "filled_g": one.filled_g}
        return Finding(Rank.STOPS, "net-evidence.not-heavier", data, about)
    return None


def _no_evidence(key: str, weighings: Sequence[NetWeighing], places: Sequence[int]) -> Finding:
    """Why these weighings are no evidence, with what it does to the net weight."""
    empty_g = fmean(weighings[place].empty_g or 0.0 for place in places)
    low_g, high_g = tare_doubt_g(empty_g)
    data = {"count": len(places), "empty_g": empty_g, "low_g": low_g, "high_g": high_g}
    return Finding(Rank.STOPS, key, data, ("net", places[0]))


def _shared(own: Mapping[int, NetWeighing], step_g: float) -> list[list[int]]:
    """Places of different jars that share an empty weight which chance does not explain."""
    places: dict[tuple[str, int], list[int]] = defaultdict(list)
    jars: dict[float, set[tuple[str, int]]] = defaultdict(set)
    for place, one in own.items():
        jar = ("place", place) if one.vessel_no is None else ("jar", one.vessel_no)
        places[jar].append(place)
        jars[round(one.empty_g or 0.0, _DIGITS)].add(jar)
    return [
        sorted(place for jar in same for place in places[jar] if place in own)
        for empty_g, same in jars.items()
        if len(same) > 1 and shared_by_chance(len(places), len(same), empty_g, step_g) < _RARE
    ]
