"""The backwards calendar: by hand on a calendar of 2026, and against numpy's business days."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app.texts import Texts, all_sentences
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Rank
from wickbench.domain.pour_calendar import (
    Making,
    PourCalendar,
    Step,
    Supply,
    Wanted,
    burn_test_days,
    pour_calendar,
)
from wickbench.domain.workdays import WEEKEND, WorkDays

if TYPE_CHECKING:
    from collections.abc import Callable

FAIR = dt.date(2026, 12, 12)
"""A Saturday."""
NO_WEEKENDS = WorkDays(off=WEEKEND)
SOY = Making(name="Soy", cure_days=14)


def on(calendar: PourCalendar, step: Step, name: str = "Soy") -> dt.date:
    return next(day.on for day in calendar.days if (day.step, day.name) == (step, name))


def test_backwards_from_a_fair_every_day_a_working_day() -> None:
    """By hand: needed 12 December, labelled 11, so poured 27 November with 14 days of cure."""
    supply = Supply(name="Wax", lead_days=5)
    calendar = pour_calendar(Wanted(needed_on=FAIR, makings=(SOY,), supplies=(supply,)))
    assert on(calendar, Step.LABEL) == dt.date(2026, 12, 11)
    assert on(calendar, Step.CURED) == dt.date(2026, 12, 11)
    assert on(calendar, Step.POUR) == dt.date(2026, 11, 27)
    assert on(calendar, Step.ORDER, "Wax") == dt.date(2026, 11, 22)
    assert [day.step for day in calendar.days] == [
        Step.ORDER, Step.POUR, Step.CURED, Step.LABEL, Step.NEEDED,
    ]  # fmt: skip


def test_no_work_on_weekends() -> None:
    """By hand: needed Monday 14 December, labelled Friday 11; 10 days before is Tuesday 1.

    With 13 days it is Saturday 28 November, so poured Friday 27; cured on Thursday 10 then.
    """
    monday = dt.date(2026, 12, 14)
    ten, thirteen = Making(name="Ten", cure_days=10), Making(name="Thirteen", cure_days=13)
    wanted = Wanted(needed_on=monday, makings=(ten, thirteen), work=NO_WEEKENDS)
    calendar = pour_calendar(wanted)
    assert on(calendar, Step.LABEL, "Ten") == dt.date(2026, 12, 11)
    assert on(calendar, Step.POUR, "Ten") == dt.date(2026, 12, 1)
    assert on(calendar, Step.POUR, "Thirteen") == dt.date(2026, 11, 27)
    assert on(calendar, Step.CURED, "Thirteen") == dt.date(2026, 12, 10)


def test_a_candle_that_has_not_passed_is_poured_twice() -> None:
    """By hand: pour Friday 27 November; burns Monday 16 to Thursday 26 on 9 working days.

    Test pour 14 days before the 16th, on Monday 2 November.
    """
    untested = Making(name="Soy", cure_days=14, burn_days=9)
    oil = Supply(name="Oil", lead_days=3, lead_in_workdays=True)
    labels = Supply(name="Labels", lead_days=7, needed_for=Step.LABEL)
    wanted = Wanted(needed_on=FAIR, makings=(untested,), supplies=(oil, labels), work=NO_WEEKENDS)
    calendar = pour_calendar(wanted)
    burns = next(day for day in calendar.days if day.step is Step.TEST_BURN)
    assert on(calendar, Step.POUR) == dt.date(2026, 11, 27)
    assert (burns.on, burns.until) == (dt.date(2026, 11, 16), dt.date(2026, 11, 26))
    assert on(calendar, Step.TEST_POUR) == dt.date(2026, 11, 2)
    assert on(calendar, Step.ORDER, "Oil") == dt.date(2026, 10, 28)
    assert on(calendar, Step.ORDER, "Labels") == dt.date(2026, 12, 4)


def test_a_candle_in_test_is_not_poured_for_it_again() -> None:
    """By hand: as above, but the test candles stand there: the oil is needed for the pour."""
    tested = Making(name="Soy", cure_days=14, burn_days=9, test_poured=True)
    oil = Supply(name="Oil", lead_days=3)
    wanted = Wanted(needed_on=FAIR, makings=(tested,), supplies=(oil,), work=NO_WEEKENDS)
    calendar = pour_calendar(wanted, today=dt.date(2026, 11, 17))
    assert [day.step for day in calendar.days if day.past] == [Step.TEST_BURN]
    assert not [day for day in calendar.days if day.step is Step.TEST_POUR]
    assert on(calendar, Step.ORDER, "Oil") == dt.date(2026, 11, 24)
    assert calendar.findings[0].key == "calendar.late-test-burn"
    assert "Monday 16 November 2026" in Texts().say(calendar.findings[0])


def test_what_is_enough_for_a_test_is_ordered_for_the_pour() -> None:
    """By hand: test pour 2 November, pour 27 November; 5 days before each."""
    untested = Making(name="Soy", cure_days=14, burn_days=9)
    for for_test, ordered in ((True, dt.date(2026, 10, 28)), (False, dt.date(2026, 11, 20))):
        oil = Supply(name="Oil", lead_days=5, for_test=for_test)
        wanted = Wanted(needed_on=FAIR, makings=(untested,), supplies=(oil,), work=NO_WEEKENDS)
        assert on(pour_calendar(wanted), Step.ORDER, "Oil") == ordered


def test_a_supplier_counts_its_own_working_days() -> None:
    """By hand: a maker who pours on weekends only, a supplier who works Monday to Friday.

    Labels on Sunday 6 December, poured 14 days before on Sunday 22 November. The parcel is there
    on Friday 20; three working days before is Tuesday 17, ordered on the weekend before.
    """
    weekends = WorkDays(off=frozenset(range(5)))
    oil = Supply(name="Oil", lead_days=3, lead_in_workdays=True)
    wanted = Wanted(
        needed_on=FAIR, makings=(SOY,), supplies=(oil,), work=weekends, supplier_work=NO_WEEKENDS
    )
    calendar = pour_calendar(wanted)
    assert on(calendar, Step.POUR) == dt.date(2026, 11, 22)
    assert on(calendar, Step.ORDER, "Oil") == dt.date(2026, 11, 15)
    order = next(day for day in calendar.days if day.step is Step.ORDER)
    assert "Friday 20 November 2026" in Texts().say(order.why)


def test_a_supply_is_there_for_the_first_candle_that_takes_it() -> None:
    fast = Making(name="Fast", cure_days=2)
    mine = Supply(name="Lid", lead_days=0, makings=frozenset({"Fast"}))
    all_of_them = Supply(name="Wax", lead_days=0)
    nobodys = Supply(name="Tin", lead_days=0, makings=frozenset({"Other"}))
    wanted = Wanted(needed_on=FAIR, makings=(SOY, fast), supplies=(mine, all_of_them, nobodys))
    calendar = pour_calendar(wanted)
    assert on(calendar, Step.ORDER, "Lid") == on(calendar, Step.POUR, "Fast")
    assert on(calendar, Step.ORDER, "Wax") == on(calendar, Step.POUR, "Soy")
    assert not [day for day in calendar.days if day.name == "Tin"]


def test_too_late_is_told_with_the_day_that_could_be_met() -> None:
    """By hand: a pour on 1 December, 14 days, labelled the 15th, ready the 16th."""
    today = dt.date(2026, 12, 1)
    calendar = pour_calendar(Wanted(needed_on=FAIR, makings=(SOY,)), today=today)
    assert not calendar.possible
    assert calendar.earliest_on == dt.date(2026, 12, 16)
    told = calendar.findings[0]
    assert (told.rank, told.key) == (Rank.STOPS, "calendar.late-pour")
    assert told.data["late_days"] == 4
    said = Texts().say(told)
    assert "Friday 27 November 2026" in said
    assert "Wednesday 16 December 2026" in said


def test_in_time_nothing_is_told() -> None:
    today = dt.date(2026, 11, 27)
    calendar = pour_calendar(Wanted(needed_on=FAIR, makings=(SOY,)), today=today)
    assert calendar.possible
    assert calendar.findings == ()
    assert calendar.earliest_on == FAIR


def test_a_day_of_need_gone_by() -> None:
    today = dt.date(2027, 1, 4)
    calendar = pour_calendar(Wanted(needed_on=FAIR, makings=(SOY,)), today=today)
    assert {one.key for one in calendar.findings} == {"calendar.late-needed", "calendar.late-pour"}


def test_single_days_off() -> None:
    """By hand: 24 to 26 December closed, so what is due on the 26th is done on the 23rd."""
    closed = frozenset(dt.date(2026, 12, day) for day in (24, 25, 26))
    work = WorkDays(closed=closed)
    assert work.last_by(dt.date(2026, 12, 26)) == dt.date(2026, 12, 23)


@pytest.mark.parametrize(("hours", "days"), [(0, 0), (4, 1), (4.1, 2), (36, 9), (40, 10)])
def test_days_of_burn_tests_at_four_hours_a_day(hours: float, days: int) -> None:
    """Burns of 240 minutes with pauses between (EN 15426); one of them a day: common practice."""
    assert burn_test_days(hours) == days


dates = st.dates(dt.date(2020, 1, 1), dt.date(2035, 12, 31))
makings = st.lists(
    st.builds(
        Making,
        name=st.sampled_from(["A", "B", "C"]),
        cure_days=st.integers(0, 21),
        burn_days=st.integers(0, 12),
    ),
    min_size=1,
    max_size=3,
    unique_by=lambda making: making.name,
)
supplies = st.lists(
    st.builds(
        Supply,
        name=st.sampled_from(["Wax", "Oil"]),
        lead_days=st.integers(0, 30),
        lead_in_workdays=st.booleans(),
        needed_for=st.sampled_from([Step.POUR, Step.LABEL]),
    ),
    max_size=2,
)


@given(dates, st.integers(0, 30))
def test_working_days_back_against_numpy(day: dt.date, count: int) -> None:
    """``numpy.busday_offset`` with the weekend off."""
    expected = np.busday_offset(np.datetime64(day), -count, roll="backward")
    assert np.datetime64(NO_WEEKENDS.before(day, count)) == expected


@given(dates, makings, supplies, st.integers(0, 5))
def test_work_stands_on_working_days_and_in_its_order(
    needed_on: dt.date, candles: list[Making], bought: list[Supply], spare: int
) -> None:
    wanted = Wanted(
        needed_on=needed_on,
        makings=tuple(candles),
        supplies=tuple(bought),
        work=NO_WEEKENDS,
        spare_days=spare,
    )
    calendar = pour_calendar(wanted)
    assert list(calendar.days) == sorted(calendar.days, key=lambda day: day.on)
    for day in calendar.days:
        if day.step not in {Step.NEEDED, Step.CURED}:
            assert day.on.weekday() < 5
    for candle in candles:
        poured = on(calendar, Step.POUR, candle.name)
        label_on = on(calendar, Step.LABEL, candle.name)
        assert label_on == last_workday(needed_on - dt.timedelta(days=spare))
        assert poured == last_workday(label_on - dt.timedelta(days=candle.cure_days))


def last_workday(day: dt.date) -> dt.date:
    """The last working day up to a day, by numpy."""
    return dt.date.fromisoformat(str(np.busday_offset(np.datetime64(day), 0, roll="backward")))


@given(dates, makings, supplies, dates)
def test_the_earliest_day_is_met_and_the_day_before_is_not(
    needed_on: dt.date, candles: list[Making], bought: list[Supply], today: dt.date
) -> None:
    def planned(day: dt.date) -> PourCalendar:
        wanted = Wanted(
            needed_on=day, makings=tuple(candles), supplies=tuple(bought), work=NO_WEEKENDS
        )
        return pour_calendar(wanted, today=today)

    calendar = planned(needed_on)
    assert calendar.earliest_on is not None
    assert calendar.possible == (needed_on >= calendar.earliest_on)
    assert planned(calendar.earliest_on).possible
    assert not planned(calendar.earliest_on - dt.timedelta(days=1)).possible


def test_every_step_says_why_in_a_sentence() -> None:
    untested = Making(name="Soy", cure_days=14, burn_days=9)
    supply = Supply(name="Wax", lead_days=90)
    wanted = Wanted(needed_on=FAIR, makings=(untested,), supplies=(supply,))
    calendar = pour_calendar(wanted, today=dt.date(2026, 11, 25))
    assert {day.why.key for day in calendar.days} < set(all_sentences())
    said = [Texts().say(day.why) for day in calendar.days]
    said += [Texts().say(one) for one in calendar.findings]
    assert not [sentence for sentence in said if "{" in sentence]
    assert {one.key for one in calendar.findings} <= set(all_sentences())
    assert {one.key for one in calendar.findings} == {
        "calendar.late-order", "calendar.late-test-pour",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("senseless", "key"),
    [
        (lambda: Making(name="", cure_days=-1), "calendar.days"),
        (lambda: Making(name="", cure_days=1, burn_days=5000), "calendar.days"),
        (lambda: Supply(name="", lead_days=1, needed_for=Step.CURED), "calendar.needed-for"),
        (lambda: WorkDays(off=frozenset(range(7))), "calendar.no-workday"),
        (lambda: Wanted(needed_on=FAIR, makings=()), "calendar.no-makings"),
        (lambda: pour_calendar(Wanted(needed_on=dt.date(1, 1, 3), makings=(SOY,))),
         "calendar.needed-on"),
        (lambda: burn_test_days(-1), "calendar.hours"),
        (lambda: burn_test_days(10, 0), "calendar.hours"),
    ],
)  # fmt: skip
def test_senseless_calendars_are_refused(senseless: Callable[[], object], key: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        senseless()
    assert refused.value.key == key
