"""Wicks, flames and pools: the trade's usual numbers and what the program says of them.

All of it is common practice without a source unless a comment names one.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app.material_estimates import USUAL_TRIM_MM
from wickbench.app.texts import Texts
from wickbench.app.vessel_advice import (
    THREE_WICKS_FROM_MM,
    TWO_WICKS_FROM_MM,
    USUAL_HEADSPACE_MM,
    WICK_TO_WALL_MM,
    usual_wicks,
)
from wickbench.domain.burn_watch import EN_15426, Seen, seen_findings
from wickbench.domain.burning import burn_time, usable_wax
from wickbench.domain.burning_rates import mean_rate
from wickbench.domain.catalog import Vessel
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Rank
from wickbench.domain.pour_calendar import burn_test_days
from wickbench.domain.shapes import straight

if TYPE_CHECKING:
    from collections.abc import Callable


def said(**seen: float) -> dict[str, Rank]:
    values = {"hours": 4.0, "inner_mm": 75.0} | seen
    return {
        one.key.removeprefix("burning."): one.rank for one in seen_findings(Seen(**values))
    }  # fmt: skip


def test_wicks_by_the_diameter() -> None:
    """Two above about 85 to 90 mm, three above about 105 to 110 mm, 15 to 20 mm from the wall."""
    assert 85 <= TWO_WICKS_FROM_MM <= 90
    assert 105 <= THREE_WICKS_FROM_MM <= 110
    assert 15 <= WICK_TO_WALL_MM <= 20
    jar = Vessel(id=1, name="Jar", vessel_kind="jar")
    assert [usual_wicks(jar, wide) for wide in (60, 84, 91, 104, 112)] == [1, 1, 2, 2, 3]


def test_trim_and_headspace() -> None:
    """Six millimetres (1/4 in): no soot from any fuel with less than 6 mm of wick exposed (Allan,
    thesis, University of Maryland 2007). Wooden ones 3 to 5 mm; headspace from 6 to 12 mm."""
    assert USUAL_TRIM_MM[False] == (6, 6)
    assert USUAL_TRIM_MM[True] == (3, 5)
    assert 6 <= USUAL_HEADSPACE_MM <= 12


@pytest.mark.parametrize(
    ("flame_mm", "expected"),
    [(8, {"flame-low": Rank.NOTE}), (12, {}), (25, {}), (26, {"flame-high": Rank.WATCH}),
     (50, {"flame-high": Rank.WATCH}), (51, {"flame-too-high": Rank.STOPS})],
)  # fmt: skip
def test_flames(flame_mm: float, expected: dict[str, Rank]) -> None:
    """12 to 25 mm, never above 50 mm."""
    assert said(flame_mm=flame_mm) == expected


@pytest.mark.parametrize(
    ("wall_c", "expected"),
    [(59, {}), (60, {"wall-warm": Rank.WATCH}), (74, {"wall-warm": Rank.WATCH}),
     (75, {"wall-hot": Rank.STOPS}), (80, {"wall-hot": Rank.STOPS})],
)  # fmt: skip
def test_walls(wall_c: float, expected: dict[str, Rank]) -> None:
    """Warm from 60 to 65 °C, given up from 75 to 80 °C."""
    assert said(wall_c=wall_c) == expected


def test_pools() -> None:
    """6 to 12 mm deep; full after an hour for each 25 mm, by 3 to 4 h; 3 to 6 mm may be left at
    the wall early on."""
    assert said(pool_depth_mm=8, pool_mm=70) == {}
    assert said(pool_depth_mm=13) == {"pool-deep": Rank.WATCH}
    assert said(pool_depth_mm=5) == {"pool-shallow": Rank.NOTE}
    assert said(hours=1.0, pool_depth_mm=5, pool_mm=30) == {}
    assert said(pool_mm=62) == {"pool-narrow": Rank.WATCH}
    assert said(hours=2.9, pool_mm=62) == {}
    # A wide vessel is not waited for longer than four hours.
    assert said(inner_mm=120.0, pool_mm=90) == {"pool-narrow": Rank.WATCH}


def test_every_finding_has_its_sentence() -> None:
    looks = (
        Seen(hours=4, inner_mm=75, flame_mm=60, wall_c=80, pool_mm=50, pool_depth_mm=20),
        Seen(hours=4, inner_mm=75, flame_mm=30, wall_c=61, pool_depth_mm=3),
        Seen(hours=4, inner_mm=75, flame_mm=5),
    )
    for look in looks:
        for finding in seen_findings(look):
            sentence = Texts().say(finding)
            assert sentence.endswith(".")
            assert "{" not in sentence
    first = seen_findings(looks[0])
    assert [one.rank for one in first] == sorted((one.rank for one in first), reverse=True)


def test_the_rhythm_of_the_standard() -> None:
    """EN 15426:2018: candles above 25 g burn 240 min with pauses of 60 min or more until 10 mm
    are left."""
    assert (EN_15426.burn_min, EN_15426.pause_min) == (240, 60)
    assert (EN_15426.until_mm, EN_15426.above_g) == (10, 25)
    assert EN_15426.burns(0) == 0
    assert EN_15426.burns(4) == 1
    assert EN_15426.burns(4.01) == 2
    # 40 h: ten burns and nine pauses, by hand.
    assert (EN_15426.burns(40), EN_15426.least_hours(40)) == (10, 49)


@given(st.floats(0, 500))
def test_burns_hold_all_the_hours(hours: float) -> None:
    burns = EN_15426.burns(hours)
    assert (burns - 1) * 4 < hours + 1e-6 or burns == 0
    assert hours <= burns * 4 + 1e-6
    # Four hours a day is what the calendar plans with.
    assert abs(burn_test_days(hours) - burns) <= 1


def test_a_tested_jar_from_its_shape_to_its_days() -> None:
    """208.437 g at 5.0750 g/h: 41.07 h, eleven burns of four hours, by hand."""
    jar = usable_wax(250, straight(70, 80), 0.90)
    time = burn_time(jar.usable_g, mean_rate((5.1, 4.8, 5.4, 5.0)))
    assert time.hours == pytest.approx(41.07, abs=5e-3)
    assert EN_15426.burns(time.hours) == 11


@pytest.mark.parametrize(
    ("senseless", "key"),
    [
        (lambda: Seen(hours=-1, inner_mm=70), "burning.hours"),
        (lambda: Seen(hours=1, inner_mm=0), "burning.diameter"),
        (lambda: Seen(hours=1, inner_mm=70, flame_mm=math.nan), "burning.flame"),
        (lambda: Seen(hours=1, inner_mm=70, pool_mm=71), "burning.pool"),
        (lambda: Seen(hours=1, inner_mm=70, pool_depth_mm=-1), "burning.pool-depth"),
        (lambda: Seen(hours=1, inner_mm=70, wall_c=math.inf), "burning.wall"),
        (lambda: EN_15426.burns(math.nan), "burning.hours"),
        (lambda: EN_15426.least_hours(-1), "burning.hours"),
    ],
)
def test_what_cannot_be_seen_is_refused(senseless: Callable[[], object], key: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        senseless()
    assert refused.value.key == key
    assert "{" not in Texts().say(refused.value)
