"""Backwards from the day on which candles are needed: label, cured, pour, test, order.

Every step stands on the latest day that will do. People work on working days only; wax cures and
parcels travel on any day, and nobody is there to take a parcel in on a day off. A candle that has
not passed its burn tests is poured twice: first a test pour, which cures and is burned, then the
candles themselves.
"""

from __future__ import annotations

import datetime as dt
from bisect import bisect_left
from dataclasses import dataclass, field, replace
from enum import StrEnum
from itertools import groupby
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.workdays import WorkDays, day_before

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

_MOST_DAYS = 1000
_LOOK_AHEAD = 20_000


class Step(StrEnum):
    """What happens on a day, in the order of the work."""

    ORDER = "order"
    TEST_POUR = "test-pour"
    TEST_BURN = "test-burn"
    POUR = "pour"
    CURED = "cured"
    LABEL = "label"
    NEEDED = "needed"


_ORDER = tuple(Step)


def _days(value: int, name: str) -> int:
    if value != int(value) or not 0 <= value <= _MOST_DAYS:
        raise OutOfRange("calendar.days", field=name, value=value, highest=_MOST_DAYS)
    return int(value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """A candle that is to be ready.

    Attributes:
        name: what the maker calls it.
        cure_days: from the pour until it is cured.
        burn_days: days of burn tests, 0 when it has passed.
        test_poured: its test candles stand there already, only burning is left.

    Raises:
        OutOfRange: ``calendar.days``.
    """

    name: str
    cure_days: int
    burn_days: int = 0
    test_poured: bool = False

    def __post_init__(self) -> None:
        _days(self.cure_days, "cure_days")
        _days(self.burn_days, "burn_days")


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """Something that has to be ordered.

    Attributes:
        name: what the maker calls it.
        lead_days: from the order until it is there, counted as the supplier counts.
        lead_in_workdays: the supplier counts working days.
        needed_for: the step for which it must be there: ``Step.POUR`` (for its test pour, when
            there is one) or ``Step.LABEL``.
        for_test: not even the test pour can be made without it.
        makings: names of the candles that it goes into; empty: all.

    Raises:
        OutOfRange: ``calendar.days``, or ``calendar.needed-for``.
    """

    name: str
    lead_days: int
    lead_in_workdays: bool = False
    needed_for: Step = Step.POUR
    for_test: bool = True
    makings: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        _days(self.lead_days, "lead_days")
        if self.needed_for not in {Step.POUR, Step.LABEL}:
            raise OutOfRange("calendar.needed-for", step=self.needed_for)


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """One step of the calendar.

    Attributes:
        step: what happens.
        on: on which day, at the latest.
        name: of the candle or the supply; empty for the day on which all is needed.
        until: last day of a step that takes several.
        why: a finding whose sentence gives the reason.
        past: the day has gone by.
    """

    step: Step
    on: dt.date
    name: str
    why: Finding
    until: dt.date | None = None
    past: bool = False


@dataclass(frozen=True, slots=True)
class PourCalendar:
    """The steps, first day first.

    Attributes:
        days: every step.
        earliest_on: the first day on which all could be ready, starting today; None when nobody
            said what day it is.
        findings: says when it is too late, and what could still be done.
    """

    days: tuple[Day, ...]
    earliest_on: dt.date | None
    findings: tuple[Finding, ...]

    @property
    def possible(self) -> bool:
        """No step lies in the past."""
        return not any(day.past for day in self.days)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What is asked of the calendar.

    Attributes:
        needed_on: day on which the candles are needed, for a fair or a parcel.
        makings: the candles.
        supplies: what has to be ordered for them.
        work: on which days people work.
        supplier_work: which days a supplier counts that counts working days; None: as ``work``.
        spare_days: labelled and packed so many days before they are needed.

    Raises:
        OutOfRange: ``calendar.days``, ``calendar.no-makings``.
    """

    needed_on: dt.date
    makings: tuple[Making, ...]
    supplies: tuple[Supply, ...] = ()
    work: WorkDays = field(default_factory=WorkDays)
    supplier_work: WorkDays | None = None
    spare_days: int = 1

    def __post_init__(self) -> None:
        _days(self.spare_days, "spare_days")
        if not self.makings:
            raise OutOfRange("calendar.no-makings")


def pour_calendar(wanted: Wanted, *, today: dt.date | None = None) -> PourCalendar:
    """The latest days on which each step will do.

    Args:
        wanted: what is needed, and when.
        today: steps before it are told to be past, with the first day that could be met.

    Raises:
        OutOfRange: ``calendar.needed-on`` for a day so early that there is no calendar for it.
    """
    days = sorted(_steps(wanted), key=lambda day: (day.on, _ORDER.index(day.step)))
    if today is None:
        return PourCalendar(tuple(days), None, ())
    marked = tuple(replace(day, past=day.on < today) for day in days)
    earliest = _earliest(wanted, today)
    return PourCalendar(marked, earliest, tuple(_late(marked, today, earliest)))


def burn_test_days(hours: float, hours_per_day: float = 4.0) -> int:
    """Days of burn tests for a candle that burns so many hours; four a day are usual.

    Raises:
        OutOfRange: ``calendar.hours`` for senseless hours.
    """
    if not (0 <= hours <= _MOST_DAYS and 0 < hours_per_day <= 24):  # noqa: PLR2004 - of a day
        raise OutOfRange("calendar.hours", hours=str(hours), hours_per_day=str(hours_per_day))
    return -int(-(hours - 1e-9) // hours_per_day) if hours else 0


def tested_on(making: Making, work: WorkDays, today: dt.date) -> dt.date:
    """Last day of the burn tests of a candle when they begin as soon as they can."""
    begin = work.first_from(today)
    if not making.test_poured:
        begin = work.first_from(begin + dt.timedelta(days=making.cure_days))
    return work.after(begin, max(0, making.burn_days - 1))


def _steps(wanted: Wanted) -> Iterator[Day]:
    on = wanted.needed_on.isoformat()
    needed = Finding(Rank.NOTE, "calendar.needed", {"needed_on": on})
    yield Day(step=Step.NEEDED, on=wanted.needed_on, name="", why=needed)
    label_on = wanted.work.last_by(day_before(wanted.needed_on, wanted.spare_days))
    days: list[Day] = []
    for making in wanted.makings:
        days += _of_making(making, label_on, wanted)
    yield from days
    for supply in wanted.supplies:
        uses = [day.on for day in days if _uses(supply, day)]
        if uses:
            yield _ordered(supply, min(uses), wanted)


def _uses(supply: Supply, day: Day) -> bool:
    """Whether a step takes the supply."""
    if supply.makings and day.name not in supply.makings:
        return False
    if day.step is Step.TEST_POUR:
        return supply.for_test and supply.needed_for is Step.POUR
    return day.step is supply.needed_for


def _of_making(making: Making, label_on: dt.date, wanted: Wanted) -> Iterator[Day]:
    name, work = making.name, wanted.work
    pour_on = work.last_by(day_before(label_on, making.cure_days))
    cured_on = pour_on + dt.timedelta(days=making.cure_days)
    data = {
        "name": name,
        "needed_on": wanted.needed_on.isoformat(),
        "label_on": label_on.isoformat(),
        "pour_on": pour_on.isoformat(),
        "cure_days": making.cure_days,
        "spare_days": wanted.spare_days,
        "burn_days": making.burn_days,
    }
    yield _day(Step.LABEL, label_on, "calendar.label", data)
    yield _day(Step.CURED, cured_on, "calendar.cured", data)
    yield _day(Step.POUR, pour_on, "calendar.pour", data)
    if making.burn_days:
        last = work.last_by(day_before(pour_on, 1))
        first = work.before(last, making.burn_days - 1)
        burns = Finding(Rank.NOTE, "calendar.test-burn", data)
        yield Day(step=Step.TEST_BURN, on=first, until=last, name=name, why=burns)
        if making.test_poured:
            return
        test_on = work.last_by(day_before(first, making.cure_days))
        tested = data | {"burn_on": first.isoformat()}
        yield _day(Step.TEST_POUR, test_on, "calendar.test-pour", tested)


def _day(step: Step, on: dt.date, key: str, data: dict[str, object]) -> Day:
    return Day(step=step, on=on, name=str(data["name"]), why=Finding(Rank.NOTE, key, data))


def _ordered(supply: Supply, use_on: dt.date, wanted: Wanted) -> Day:
    """The order day: somebody works on it; who counts working days also delivers on one."""
    work, theirs = wanted.work, wanted.supplier_work or wanted.work
    data = {"name": supply.name, "lead_days": supply.lead_days, "there_on": use_on.isoformat()}
    if not supply.lead_in_workdays:
        on = work.last_by(day_before(use_on, supply.lead_days))
        return _day(Step.ORDER, on, "calendar.order", data)
    there_on = theirs.last_by(use_on)
    on = work.last_by(theirs.before(there_on, supply.lead_days))
    data["there_on"] = there_on.isoformat()
    return _day(Step.ORDER, on, "calendar.order-workdays", data)


def _earliest(wanted: Wanted, today: dt.date) -> dt.date:
    """First day that could be met. Later needs never begin earlier, so halving finds it."""
    few = _alike_once(wanted)
    ahead = bisect_left(
        range(_LOOK_AHEAD), today, key=lambda days: _first(few, today + dt.timedelta(days=days))
    )
    return today + dt.timedelta(days=ahead)


def _alike_once(wanted: Wanted) -> Wanted:
    """Candles with the same days stand once: for the first day of all they count once."""
    kinds = {
        one.name: f"{one.cure_days}/{one.burn_days}/{one.test_poured}" for one in wanted.makings
    }
    each = {kinds[one.name]: replace(one, name=kinds[one.name]) for one in wanted.makings}
    supplies = []
    for supply in wanted.supplies:
        users = frozenset(kinds[name] for name in supply.makings if name in kinds)
        if users or not supply.makings:
            supplies.append(replace(supply, makings=users))
    return replace(wanted, makings=tuple(each.values()), supplies=tuple(supplies))


def _first(wanted: Wanted, needed_on: dt.date) -> dt.date:
    moved = replace(wanted, needed_on=needed_on)
    return min(day.on for day in _steps(moved))


def _late(days: Iterable[Day], today: dt.date, earliest: dt.date) -> Iterator[Finding]:
    def whose(day: Day) -> tuple[bool, str]:
        return day.step is Step.ORDER, day.name  # an oil may be called like its candle

    past = sorted((day for day in days if day.past), key=whose)
    for (_, name), of_name in groupby(past, key=whose):
        first = min(of_name, key=lambda day: day.on)
        data = {
            "name": name,
            "step_on": first.on.isoformat(),
            "late_days": (today - first.on).days,
            "earliest_on": earliest.isoformat(),
        }
        yield Finding(Rank.STOPS, f"calendar.late-{first.step}", data, (first.step, name))
