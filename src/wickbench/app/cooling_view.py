"""A pot that cools on the bench, in words: when it can be poured, and how long."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.bench_heat import load_pot_heat
from wickbench.app.cooling_drawing import CurveDrawn, draw_curve
from wickbench.app.cooling_log import curve_of, minute_of, moment_of
from wickbench.app.fields import FieldSpec, field
from wickbench.app.heat_words import in_minutes
from wickbench.app.moments import time_of_day
from wickbench.app.plan_pots import celsius
from wickbench.app.pot_heat import in_time
from wickbench.app.pour_session import load_session
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.domain.pouring_time import PourWindow, pour_range_c, pour_window

if TYPE_CHECKING:
    from wickbench.app.bench_heat import BenchPotHeat
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.domain.cooling import Cooling, Reached

ENOUGH: Final = 2
READ_C: Final[FieldSpec] = field(
    "temperature_reading", "read_c", N_("Temperature now"), "temperature", low=-20, high=200
)
ROOM_C: Final[FieldSpec] = field("pour_pot", "room_c", N_("Room"), "temperature", low=-10, high=50)


@dataclass(frozen=True, slots=True)
class ReadingShown:
    """A reading in words."""

    id: int
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CoolingView:
    """What the bench says of a pot that cools.

    Attributes:
        answer: when it can be poured, or what is needed to tell.
        more: what follows: how long it can be poured, and for how many vessels.
        trouble: why no time can be told; empty when it can.
        readings: as noted, the earliest first.
        drawn: the curve; ``None`` before there is one.
        ring: name, moment and words of the timer that is offered.
        closes: the same for the end of pouring.
    """

    answer: str
    more: str = ""
    trouble: str = ""
    readings: tuple[ReadingShown, ...] = ()
    drawn: CurveDrawn | None = None
    ring: tuple[str, int, str] | None = None
    closes: tuple[str, int, str] | None = None


def view_cooling(known: BenchPotHeat, texts: Texts, now_ms: int) -> CoolingView:
    """Put the readings of a pot into words."""
    cools = known.cools
    readings = tuple(
        ReadingShown(one.id, _reading(texts, one.read_c, one.at_ms)) for one in cools.readings
    )
    if len(cools.readings) < ENOUGH:
        return CoolingView(answer=_needed(len(cools.readings), texts), readings=readings)
    try:
        curve = curve_of(cools, known.shelf)
    except DomainError as error:
        return CoolingView(answer="", trouble=texts.say(error), readings=readings)
    return _told(known, curve, readings, texts, now_ms)


def _reading(texts: Texts, read_c: float, at_ms: int) -> str:
    """A reading with the digits that were typed: "70.5 °C (09:00)"."""
    return f"{texts.units.full(read_c, 'temperature')} ({time_of_day(at_ms)})"


def _needed(have: int, texts: Texts) -> str:
    if not have:
        return texts(
            N_(
                "With the oil in, off the heat and stirred: type what the thermometer shows, and "
                "again some minutes later. Then it is told when the pot can be poured."
            )
        )
    return texts(
        N_("One more reading is needed, five minutes or more after the first; later is surer.")
    )


def _told(
    known: BenchPotHeat, curve: Cooling, readings: tuple[ReadingShown, ...], texts: Texts,
    now_ms: int,
) -> CoolingView:  # fmt: skip
    now_min = minute_of(known.cools, now_ms)
    if known.pour_c is None:
        drawn = draw_curve(curve, known, None, now_min, texts)
        words = texts(N_("The recipe says no temperature to pour at."))
        return CoolingView(answer="", trouble=words, readings=readings, drawn=drawn)
    range_c = range_of(known, known.pour_c)
    drawn = draw_curve(curve, known, range_c, now_min, texts)
    try:
        reached = curve.reached(known.pour_c)
    except OutOfRange as error:
        return CoolingView(answer="", trouble=texts.say(error), readings=readings, drawn=drawn)
    window = _window(known, curve, range_c, now_min)
    return CoolingView(
        answer=_answer(known, reached, now_min, texts),
        more=_more(known, window, range_c, texts),
        readings=readings,
        drawn=drawn,
        ring=_ring(known, reached.minute, known.pour_c, now_ms, texts),
        closes=_closes(known, window, now_ms, texts),
    )


def range_of(known: BenchPotHeat, pour_c: float) -> tuple[float, float]:
    """From where to where this pot is poured, colder end first."""
    usual_low = known.usual_c[0] if known.usual_c else None
    return pour_range_c(pour_c, usual_low, known.cools.congeals_c)


def _answer(known: BenchPotHeat, reached: Reached, now_min: float, texts: Texts) -> str:
    hot = celsius(texts, known.pour_c or 0.0)
    at, early = (
        time_of_day(moment_of(known.cools, minute))
        for minute in (reached.minute, reached.earliest_min)
    )
    if reached.minute < now_min:
        return texts(N_("It came down to {hot} at about {at}."), hot=hot, at=at)
    if math.isinf(reached.latest_min):
        return texts(
            N_(
                "{hot} at about {at}, not before {early}. The readings lie too close together to "
                "say more: read again in some minutes."
            ),
            hot=hot, at=at, early=early,
        )  # fmt: skip
    late = time_of_day(moment_of(known.cools, reached.latest_min))
    if early == late:
        return texts(N_("{hot} at about {at}."), hot=hot, at=at)
    return texts(
        N_("{hot} at about {at} (between {early} and {late})."),
        hot=hot, at=at, early=early, late=late,
    )  # fmt: skip


def _window(
    known: BenchPotHeat, curve: Cooling, range_c: tuple[float, float], now_min: float
) -> PourWindow | None:
    if not known.vessels or not known.cools.mass_g or not known.filled_g:
        return None
    seconds = known.vessel_seconds
    try:
        return pour_window(
            curve, *range_c, seconds_per_vessel=float(seconds), from_min=now_min,
            pot_g=known.cools.mass_g, vessel_g=known.filled_g / known.vessels,
        )  # fmt: skip
    except DomainError:
        return None


def _more(
    known: BenchPotHeat, window: PourWindow | None, range_c: tuple[float, float], texts: Texts
) -> str:
    if window is None:
        return ""
    low = celsius(texts, range_c[0])
    if window.too_late:
        return texts(N_("It is colder than {low} by now: warm it again before you pour."), low=low)
    if math.isinf(window.closes_min):
        return ""
    until = time_of_day(moment_of(known.cools, window.closes_min))
    seconds = known.vessel_seconds
    takes = in_minutes(texts, known.vessels * seconds / 60)
    if in_time(window, known.vessels):
        count = texts.plural("the one vessel", "all {n} vessels", known.vessels)
        return texts(
            N_("Pour until about {until} ({low}): time for {count}, in {takes}."),
            until=until, low=low, count=count, takes=takes,
        )  # fmt: skip
    many = str(window.sure) if window.sure == window.at_best else f"{window.sure}–{window.at_best}"
    return texts(
        N_("Pour until about {until} ({low}): time for {many} of {n} vessels; all take {takes}."),
        until=until, low=low, many=many, n=known.vessels, takes=takes,
    )  # fmt: skip


def _ring(
    known: BenchPotHeat, minute: float, hot_c: float, now_ms: int, texts: Texts
) -> tuple[str, int, str] | None:
    ends_ms = moment_of(known.cools, minute)
    if ends_ms <= now_ms:
        return None
    hot = texts.quantity(hot_c, "temperature", both=False)
    name = texts(N_("{pot} at {hot}"), pot=known.called, hot=hot)
    return name, ends_ms, texts(N_("Ring at {hot}"), hot=hot)


def _closes(
    known: BenchPotHeat, window: PourWindow | None, now_ms: int, texts: Texts
) -> tuple[str, int, str] | None:
    if window is None or math.isinf(window.closes_min):
        return None
    ends_ms = moment_of(known.cools, window.closes_min)
    if ends_ms <= now_ms:
        return None
    name = texts(N_("{pot}: pour it out"), pot=known.called)
    return name, ends_ms, texts(N_("Ring when it gets too cold"))


def cooling_offers(workspace: Workspace, plan: int, shelf: Shelf) -> list[tuple[str, int]]:
    """Timers that the pots of a pour offer: name and moment."""
    session = load_session(workspace, plan)
    offers: list[tuple[str, int]] = []
    for place, pot in enumerate(session.pots if session else ()):
        if session is None or pot.state != "open":
            continue
        known = load_pot_heat(workspace, session, place, shelf)
        view = view_cooling(known, workspace.texts, workspace.clock.now_ms())
        offers += [(one[0], one[1]) for one in (view.ring, view.closes) if one is not None]
    return offers


def check_reading(known: BenchPotHeat, read_c: float, room_c: float) -> None:
    """Refuse a reading that cannot be: colder than the room, set, or no colder than before.

    Raises:
        OutOfRange: ``cooling.room-not-colder``, ``cooling.read-after-set`` or
            ``cooling.not-cooling``; with the sentence what to do.
    """
    cools = known.cools
    if read_c <= room_c:
        raise OutOfRange("cooling.room-not-colder", room_c=room_c, read_c=read_c)
    if cools.congeals_c is not None and read_c <= cools.congeals_c:
        raise OutOfRange("cooling.read-after-set", read_c=read_c, congeals_c=cools.congeals_c)
    if cools.readings and read_c >= cools.readings[-1].read_c:
        raise OutOfRange("cooling.not-colder", read_c=read_c, before_c=cools.readings[-1].read_c)


def check_moment(known: BenchPotHeat, now_ms: int) -> None:
    """Refuse a second reading at the same moment, or one before it.

    Raises:
        OutOfRange: ``cooling.order``.
    """
    readings = known.cools.readings
    if readings and now_ms <= readings[-1].at_ms:
        before = minute_of(known.cools, readings[-1].at_ms)
        raise OutOfRange("cooling.order", minute=minute_of(known.cools, now_ms), before=before)
