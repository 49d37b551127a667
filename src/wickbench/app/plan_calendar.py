"""The calendar of a plan: from the day it is needed back to the day to order for it."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from itertools import groupby
from typing import TYPE_CHECKING, Final

from wickbench.app.calendar_inputs import wanted_of
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.pour_calendar import Day, PourCalendar, Step, Wanted, pour_calendar, tested_on

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from wickbench.app.plan_view import PlanView
    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts

_TITLES: Final = {
    Step.ORDER: N_("Order {names}"),
    Step.TEST_POUR: N_("Pour tests of {names}"),
    Step.TEST_BURN: N_("Burn tests of {names}"),
    Step.POUR: N_("Pour {names}"),
    Step.CURED: N_("Cured: {names}"),
    Step.LABEL: N_("Label {names}"),
    Step.NEEDED: N_("Needed"),
}
HOW_CALENDAR: Final = (
    N_(
        "Counted backwards, each step on the latest day that will do: needed − days kept before = "
        "label; label − days of cure = pour; pour − days until it arrives = order."
    ),
    N_(
        "You pour, burn and label only on the days that are ticked in the settings; a step that "
        "would fall on another day moves to the one before it. Wax cures on every day."
    ),
    N_(
        "Days of cure: those of the recipe, else of its main wax, else the longest that is usual "
        "for such a wax (estimate; common practice, no source)."
    ),
    N_(
        "A candle that has not passed is poured twice. Burn tests: net weight / (5 g an hour for "
        "each wick), burned to the end, 4 hours a day (common practice, no source). Candles that "
        "were measured burned 4.4 to 7.3 g an hour (Indoor Air, 2021), so it is an estimate."
    ),
    N_(
        "To be ordered is what the plan is short of. It is needed for the test pour already when "
        "there is not enough for two test candles; lids, packaging and stickers for labelling."
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class DayShown:
    """One step in words; the same step of several candles stands once."""

    step: Step
    on: dt.date
    until: dt.date | None
    when: str
    title: str
    why: str
    past: bool


@dataclass(frozen=True, slots=True)
class Bar:
    """A stretch of days in the drawing."""

    step: Step
    first: dt.date
    last: dt.date


@dataclass(frozen=True, slots=True)
class Lane:
    """One row of the drawing: a candle, or several with the same days, or what is ordered."""

    name: str
    bars: tuple[Bar, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanCalendar:
    """What the card and its drawing show.

    Attributes:
        days: first day first.
        findings: too late, what could still be done, what is not known.
        lanes: for the drawing.
        today: drawn as a line.
        needed_on: drawn as the end.
        pour_on: the latest day on which the whole plan can be poured; ``None`` when too late.
        earliest_on: the first day on which all could be ready.
        off: days of the week without work, Monday 0.
    """

    days: tuple[DayShown, ...] = ()
    findings: tuple[Finding, ...] = ()
    lanes: tuple[Lane, ...] = ()
    today: dt.date
    needed_on: dt.date
    pour_on: dt.date | None = None
    earliest_on: dt.date | None = None
    off: frozenset[int] = frozenset()

    @property
    def spoken(self) -> str:
        """The drawing read out."""
        return ". ".join(f"{one.when}: {one.title}" for one in self.days)


def plan_calendar(
    view: PlanView, shelf: Shelf, settings: Settings, texts: Texts, *, today: dt.date
) -> PlanCalendar | None:
    """The calendar of a plan; ``None`` while nobody said when it is needed.

    What cannot be counted is told in its findings.
    """
    plan = view.plan
    if plan.needed_on is None:
        return None
    needed_on = dt.date.fromisoformat(plan.needed_on)
    try:
        wanted, said = wanted_of(view, shelf, settings, needed_on)
        calendar = pour_calendar(wanted, today=today)
    except DomainError as error:
        told = Finding(Rank.WATCH, error.key, error.data)
        return PlanCalendar(today=today, needed_on=needed_on, findings=(told,))
    findings = [*calendar.findings, *_still(calendar, wanted), *said]
    if plan.pour_on is not None:
        pour_on = dt.date.fromisoformat(plan.pour_on)
        findings += _before_tests(pour_on, wanted, today)
        if calendar.possible:
            findings += _after_cure(calendar, pour_on, wanted)
    return PlanCalendar(
        days=tuple(_shown(calendar.days, texts, len(wanted.makings))),
        findings=tuple(_together(findings)),
        lanes=tuple(_lanes(calendar, wanted, texts)),
        today=today,
        needed_on=needed_on,
        pour_on=latest_pour(calendar) if calendar.possible else None,
        earliest_on=calendar.earliest_on,
        off=wanted.work.off,
    )


def latest_pour(calendar: PourCalendar) -> dt.date:
    """The latest day on which everything can be poured in one session."""
    return min(day.on for day in calendar.days if day.step is Step.POUR)


def _still(calendar: PourCalendar, wanted: Wanted) -> Iterator[Finding]:
    """Which candles could be ready in time although others cannot."""
    if calendar.possible:
        return
    late = {day.name for day in calendar.days if day.past and day.step is not Step.ORDER}
    missing = {day.name for day in calendar.days if day.past and day.step is Step.ORDER}
    for supply in wanted.supplies:
        if supply.name in missing:
            late |= supply.makings
    names = tuple(making.name for making in wanted.makings if making.name not in late)
    if names and "" not in late:  # the day of need itself is still to come
        data = {"names": names, "needed_on": wanted.needed_on.isoformat()}
        yield Finding(Rank.NOTE, "calendar.still-in-time", data)


def _before_tests(pour_on: dt.date, wanted: Wanted, today: dt.date) -> Iterator[Finding]:
    """Whether the planned pour comes before anybody can know how the burn tests went."""
    for one in wanted.makings:
        tested = tested_on(one, wanted.work, today)
        if one.burn_days and pour_on <= tested:
            data = {"name": one.name, "tested_on": tested.isoformat()}
            data["pour_on"] = pour_on.isoformat()
            yield Finding(Rank.WATCH, "calendar.pour-before-tests", data)


def _after_cure(calendar: PourCalendar, pour_on: dt.date, wanted: Wanted) -> Iterator[Finding]:
    """Whether all is cured on the day for labels when it is poured as planned."""
    label_on = max(one.on for one in calendar.days if one.step is Step.LABEL)
    late = [one for one in wanted.makings if pour_on + dt.timedelta(one.cure_days) > label_on]
    if not late:
        return
    cured_on = pour_on + dt.timedelta(days=max(one.cure_days for one in late))
    data = {
        "names": tuple(one.name for one in late),
        "pour_on": pour_on.isoformat(),
        "cured_on": cured_on.isoformat(),
        "label_on": label_on.isoformat(),
    }
    yield Finding(Rank.STOPS, "calendar.pour-too-late", data)


# -- in words --------------------------------------------------------------------------------------
def _shown(days: Iterable[Day], texts: Texts, makings: int) -> Iterator[DayShown]:
    """Days that differ only in the candle are told as one, and of all candles as "all"."""
    groups: dict[object, list[Day]] = {}
    for day in days:
        groups.setdefault((day.step, day.on, day.until, texts.say(day.why)), []).append(day)
    for group in groups.values():
        day = group[0]
        is_all = day.step is not Step.ORDER and len(group) == makings > 1
        names = texts(N_("all of it")) if is_all else ", ".join(one.name for one in group)
        yield DayShown(
            step=day.step,
            on=day.on,
            until=day.until,
            when=_when(day, texts),
            title=texts(_TITLES[day.step], names=names),
            why=texts.say(day.why),
            past=day.past,
        )


def _together(findings: Iterable[Finding]) -> list[Finding]:
    """What is told of several candles in the same words is told once, with all their names."""
    groups: dict[object, list[Finding]] = {}
    for one in findings:
        rest = tuple((key, value) for key, value in one.data.items() if key != "name")
        link = one.about if one.about[:1] == ("material",) else ()
        groups.setdefault((one.key, rest, link), []).append(one)
    return [group[0] if len(group) == 1 else _named(group) for group in groups.values()]


def _named(group: Sequence[Finding]) -> Finding:
    names = tuple(one.data["name"] for one in group)
    return replace(group[0], data={**group[0].data, "name": names})


def _when(day: Day, texts: Texts) -> str:
    if day.until is None or day.until == day.on:
        return texts.date(day.on)
    return texts(
        N_("{first_on} to {last_on}"), first_on=day.on.isoformat(), last_on=day.until.isoformat()
    )


# -- for the drawing -------------------------------------------------------------------------------
def _lanes(calendar: PourCalendar, wanted: Wanted, texts: Texts) -> Iterator[Lane]:
    orders = [day for day in calendar.days if day.step is Step.ORDER]
    if orders:
        bars = tuple(Bar(Step.ORDER, day.on, day.on) for day in orders)
        yield Lane(texts(N_("Order")), bars)
    made = [(_bars(calendar, making.name), making.name) for making in wanted.makings]
    made.sort(key=lambda one: [(bar.first, bar.last, bar.step) for bar in one[0]])
    for bars, group in groupby(made, key=lambda one: one[0]):
        yield Lane(", ".join(name for _, name in group), bars)


def _bars(calendar: PourCalendar, name: str) -> tuple[Bar, ...]:
    on = {day.step: day for day in calendar.days if day.name == name and day.step is not Step.ORDER}
    burn, bars = on.get(Step.TEST_BURN), []
    if burn is not None:
        if (test := on.get(Step.TEST_POUR)) is not None:
            bars.append(Bar(Step.TEST_POUR, test.on, burn.on))
        bars.append(Bar(Step.TEST_BURN, burn.on, burn.until or burn.on))
    bars.append(Bar(Step.POUR, on[Step.POUR].on, on[Step.CURED].on))
    bars.append(Bar(Step.LABEL, on[Step.LABEL].on, on[Step.LABEL].on))
    return tuple(bars)
