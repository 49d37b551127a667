"""What is seen while a test candle burns, against what is usual, and the test's own rhythm.

None of these numbers is a limit of law: flame, pool and wall are common practice without a source
(a flame of 75 mm as the end for candles in vessels: from memory). What they say is only that
another wick should be tried; nothing here says that a candle is safe.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.burning import full_pool_hours
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.ranges import within

if TYPE_CHECKING:
    from collections.abc import Iterator

USUAL_FLAME_MM = (12.0, 25.0)
HIGHEST_FLAME_MM = 50.0
USUAL_POOL_DEPTH_MM = (6.0, 12.0)
WARM_WALL_C = 60.0
HOT_WALL_C = 75.0
HANG_UP_MM = 6.0
"""Wax that may be left round the pool early on, at the wall."""

_LATEST_FULL_H = 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """One look at a burning candle in a vessel.

    Attributes:
        hours: hours since it was lit this time.
        inner_mm: inner diameter of the vessel at the wax.
        flame_mm: height of the flame; None when not measured, as with the rest.
        pool_mm: diameter of the melted pool.
        pool_depth_mm: how deep it is.
        wall_c: hottest place on the outside of the vessel.

    Raises:
        OutOfRange: ``burning.hours``, ``burning.diameter``, ``burning.flame``, ``burning.pool``,
            ``burning.pool-depth`` or ``burning.wall`` for what cannot be.
    """

    hours: float
    inner_mm: float
    flame_mm: float | None = None
    pool_mm: float | None = None
    pool_depth_mm: float | None = None
    wall_c: float | None = None

    def __post_init__(self) -> None:
        within(self.hours, 0.0, 200.0, "burning.hours")
        within(self.inner_mm, 1.0, 1000.0, "burning.diameter", unit="mm")
        lengths = (
            (self.flame_mm, 500.0, "burning.flame"),
            (self.pool_mm, self.inner_mm, "burning.pool"),
            (self.pool_depth_mm, 300.0, "burning.pool-depth"),
        )
        for value, highest, key in lengths:
            if value is not None:
                within(value, 0.0, highest, key, unit="mm")
        if self.wall_c is not None:
            within(self.wall_c, -20.0, 400.0, "burning.wall", unit="c")


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnTest:
    """The rhythm of a burn test.

    Attributes:
        burn_min: how long it burns each time.
        pause_min: least time between.
        until_mm: wax left when the test ends.
        above_g: candles heavier than this are tested so.
    """

    burn_min: float
    pause_min: float
    until_mm: float
    above_g: float

    def burns(self, hours: float) -> int:
        """How often a candle that lasts so many hours is lit.

        Raises:
            OutOfRange: ``burning.hours``.
        """
        minutes = within(hours, 0.0, 10_000.0, "burning.hours") * 60
        return math.ceil(minutes / self.burn_min - 1e-9)

    def least_hours(self, hours: float) -> float:
        """Least time that the whole test takes, pauses counted in.

        Raises:
            OutOfRange: ``burning.hours``.
        """
        return hours + max(0, self.burns(hours) - 1) * self.pause_min / 60


EN_15426 = BurnTest(burn_min=240.0, pause_min=60.0, until_mm=10.0, above_g=25.0)
"""Burns and pauses of the soot test for candles with one wick up to 100 mm across
(EN 15426:2018): a good rhythm for a maker's own tests."""


def seen_findings(seen: Seen) -> tuple[Finding, ...]:
    """What a look at a burning candle says of its wick, most pressing first."""
    return sort_findings([*_flame(seen), *_wall(seen), *_pool(seen)])


def _flame(seen: Seen) -> Iterator[Finding]:
    if seen.flame_mm is None:
        return
    low, high = USUAL_FLAME_MM
    if seen.flame_mm > HIGHEST_FLAME_MM:
        data = {"flame_mm": seen.flame_mm, "highest_mm": HIGHEST_FLAME_MM}
        yield Finding(Rank.STOPS, "burning.flame-too-high", data)
    elif seen.flame_mm > high:
        yield Finding(
            Rank.WATCH, "burning.flame-high", {"flame_mm": seen.flame_mm, "usual_mm": high}
        )
    elif seen.flame_mm < low:
        yield Finding(Rank.NOTE, "burning.flame-low", {"flame_mm": seen.flame_mm, "usual_mm": low})


def _wall(seen: Seen) -> Iterator[Finding]:
    if seen.wall_c is None or seen.wall_c < WARM_WALL_C:
        return
    if seen.wall_c >= HOT_WALL_C:
        yield Finding(Rank.STOPS, "burning.wall-hot", {"wall_c": seen.wall_c})
    else:
        yield Finding(Rank.WATCH, "burning.wall-warm", {"wall_c": seen.wall_c})


def _pool(seen: Seen) -> Iterator[Finding]:
    shallow, deep = USUAL_POOL_DEPTH_MM
    if seen.pool_depth_mm is not None and seen.pool_depth_mm > deep:
        data = {"depth_mm": seen.pool_depth_mm, "usual_mm": deep}
        yield Finding(Rank.WATCH, "burning.pool-deep", data)
    late = seen.hours >= min(full_pool_hours(seen.inner_mm), _LATEST_FULL_H)
    if not late:
        return
    if seen.pool_depth_mm is not None and seen.pool_depth_mm < shallow:
        data = {"depth_mm": seen.pool_depth_mm, "usual_mm": shallow}
        yield Finding(Rank.NOTE, "burning.pool-shallow", data)
    if seen.pool_mm is not None and (seen.inner_mm - seen.pool_mm) / 2 > HANG_UP_MM:
        data = {"left_mm": (seen.inner_mm - seen.pool_mm) / 2, "usual_mm": HANG_UP_MM}
        yield Finding(Rank.WATCH, "burning.pool-narrow", data)
