"""Named timers: they ring whatever is undone, and go on while the window is closed."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from wickbench.app import dates
from wickbench.app.moments import countdown, local, moment, time_of_day, time_words
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import CannotRead, DomainError, OutOfRange
from wickbench.domain.quantities import parse
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace

SNOOZE_MIN: Final = 5
LATE_MS: Final = 90_000
"""A timer that ended longer ago than this did so while nobody could hear it."""
MORNING: Final = dt.time(9, 0)
"""When a timer rings that was set to a day."""
_MS_PER_MIN: Final = 60_000
_SAME_MS: Final = 30_000
_LONGEST_DAYS: Final = 800
_LONGEST_NAME: Final = 80
_NOON: Final = 12
_TIME = re.compile(
    r"(\d{1,2}):(\d{2})\s*(am|pm|uhr)?|(\d{1,2})(?:\.(\d{2}))?\s*(am|pm|uhr)", re.IGNORECASE
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Timer:
    """One timer as stored; ``rang_ms`` is set once it rang, until somebody has seen it."""

    id: int
    name: str
    started_ms: int
    ends_ms: int
    rang_ms: int | None = None

    @property
    def rings(self) -> bool:
        """Whether it is over and waits to be seen."""
        return self.rang_ms is not None


def load_timers(workspace: Workspace) -> tuple[Timer, ...]:
    """All timers, the next one first."""
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "timer", None, ("ends_ms", "id"))
    return tuple(_timer(row) for row in rows if row["ends_ms"] is not None)


def _timer(row: Mapping[str, Any]) -> Timer:
    return Timer(**{name: row[name] for name in Timer.__slots__})


# -- what is typed -------------------------------------------------------------------------------
def ends_at(workspace: Workspace, typed: str) -> int:
    """When a timer ends by what was typed: minutes from now, a time of day, or a day.

    Raises:
        CannotRead: ``timer.no-time``.
        OutOfRange: ``timer.past`` or ``timer.too-far``.
    """
    now_ms, text = workspace.clock.now_ms(), typed.strip()
    ends_ms = _read(workspace, text, now_ms)
    if ends_ms <= now_ms:
        raise OutOfRange("timer.past", typed=typed)
    if ends_ms - now_ms > _LONGEST_DAYS * 24 * 60 * _MS_PER_MIN:
        raise OutOfRange("timer.too-far", days=_LONGEST_DAYS)
    return ends_ms


def _read(workspace: Workspace, text: str, now_ms: int) -> int:
    if found := _TIME.fullmatch(text):
        today = local(now_ms).date()
        ends_ms = moment(today, _time(found, text))
        return (
            ends_ms
            if ends_ms > now_ms
            else moment(today + dt.timedelta(days=1), _time(found, text))
        )
    try:
        minutes = parse(text, "duration", locale=workspace.texts.units.locale, assume="min")
        return now_ms + round(minutes * _MS_PER_MIN)
    except DomainError:
        pass
    head, _, tail = text.rpartition(" ")
    if head and (found := _TIME.fullmatch(tail)) and (day := _day(workspace, head)) is not None:
        return moment(day, _time(found, text))
    day = _day(workspace, text)
    if day is None:
        raise CannotRead("timer.no-time", typed=text)
    return moment(day, MORNING)


def _day(workspace: Workspace, text: str) -> dt.date | None:
    try:
        today, locale = workspace.clock.today(), workspace.texts.units.locale
        return dt.date.fromisoformat(dates.parse_date(text, today, locale))
    except DomainError:
        return None


def _time(found: re.Match[str], typed: str) -> dt.time:
    hour, minute = int(found[1] or found[4]), int(found[2] or found[5] or 0)
    half = (found[3] or found[6] or "").lower()
    if half in {"am", "pm"}:
        if not 1 <= hour <= _NOON:
            raise CannotRead("timer.no-time", typed=typed)
        hour = hour % _NOON + (_NOON if half == "pm" else 0)
    try:
        return dt.time(hour, minute)
    except ValueError:
        raise CannotRead("timer.no-time", typed=typed) from None


def ends_words(workspace: Workspace, typed: str) -> str:
    """What was understood, to stand beside the typing: "rings at 14:32"; empty for nothing yet."""
    if not typed.strip():
        return ""
    try:
        ends_ms = ends_at(workspace, typed)
    except DomainError:
        return ""
    said = time_words(workspace.texts, ends_ms, workspace.clock.now_ms())
    return workspace.texts(N_("rings at {time}"), time=said)


# -- acts ----------------------------------------------------------------------------------------
def start_timer(workspace: Workspace, name: str, ends_ms: int, *, origin: object = None) -> int:
    """Begin a timer; one of the same name that still runs is moved instead. Returns its key."""
    called = name.strip()[:_LONGEST_NAME] or workspace.texts(N_("Timer"))
    running = (one for one in load_timers(workspace) if one.name == called and not one.rings)
    known = next(running, None)
    values = {
        "name": called,
        "started_ms": workspace.clock.now_ms(),
        "ends_ms": ends_ms,
        "rang_ms": None,
    }
    with workspace.unjournalled("timers", origin=origin) as connection:
        if known is None:
            return records.insert(connection, "timer", values)
        records.update(connection, "timer", known.id, values)
        return known.id


def stop_timer(workspace: Workspace, timer: int, *, origin: object = None) -> None:
    """Stop a timer, or say that its ringing was heard; one that is gone stays gone."""
    if all(one.id != timer for one in load_timers(workspace)):
        return
    with workspace.unjournalled("timers", origin=origin) as connection:
        records.delete(connection, "timer", timer)


def snooze(
    workspace: Workspace, timer: int, minutes: int = SNOOZE_MIN, *, origin: object = None
) -> None:
    """Let a timer ring again later: from now when it is over, else so much after its end."""
    known = next((one for one in load_timers(workspace) if one.id == timer), None)
    if known is None:
        return
    after = max(workspace.clock.now_ms(), known.ends_ms) + minutes * _MS_PER_MIN
    with workspace.unjournalled("timers", origin=origin) as connection:
        records.update(connection, "timer", timer, {"ends_ms": after, "rang_ms": None})


def ring_due(workspace: Workspace) -> tuple[Timer, ...]:
    """Mark what is over as ringing; gives those that began to ring just now."""
    now_ms = workspace.clock.now_ms()
    due = [one for one in load_timers(workspace) if not one.rings and one.ends_ms <= now_ms]
    if due:
        with workspace.unjournalled("timers") as connection:
            for one in due:
                records.update(connection, "timer", one.id, {"rang_ms": now_ms})
    return tuple(due)


def offer_words(workspace: Workspace, offer: tuple[str, int, str]) -> tuple[str, bool]:
    """What a button says that offers a timer, and whether it can be pressed.

    Args:
        workspace: the open workshop.
        offer: name and moment of the timer, and what the button says while there is none.
    """
    name, ends_ms, words = offer
    running = next((one for one in load_timers(workspace) if one.name == name), None)
    if running is None or running.rings:
        return words, True
    at = time_words(workspace.texts, ends_ms, workspace.clock.now_ms())
    if abs(running.ends_ms - ends_ms) < _SAME_MS:
        return workspace.texts(N_("Rings at {time}"), time=at), False
    return workspace.texts(N_("Ring at {time} instead"), time=at), True


# -- as shown ------------------------------------------------------------------------------------
def next_words(texts: Texts, timers: tuple[Timer, ...], now_ms: int) -> str:
    """The next timer with what is left of it: "Stir 1:34"; what rings comes first."""
    if not timers:
        return texts(N_("Timers"))
    ringing = [one for one in timers if one.rings]
    if ringing:
        return texts(N_("Time is up: {name}"), name=ringing[0].name)
    first = min(timers, key=lambda one: one.ends_ms)
    return f"{first.name} {countdown(texts, first.ends_ms, now_ms)}"


def left_words(texts: Texts, timer: Timer, now_ms: int) -> str:
    """What is left of a timer, and when it ends: "1:34 · 14:32"."""
    at = time_words(texts, timer.ends_ms, now_ms)
    if timer.rings or timer.ends_ms <= now_ms:
        return texts(N_("time was up at {time}"), time=at)
    return f"{countdown(texts, timer.ends_ms, now_ms)} · {at}"


def over_words(texts: Texts, timer: Timer, now_ms: int) -> str:
    """What the banner says of a timer that rings, also when nobody was there at its end."""
    if timer.rang_ms is not None and timer.rang_ms - timer.ends_ms > LATE_MS:
        return texts(
            N_("“{name}”: time was up at {time}, before Wickbench could ring."),
            name=timer.name, time=time_words(texts, timer.ends_ms, now_ms),
        )  # fmt: skip
    return texts(
        N_("“{name}”: time is up ({time})."), name=timer.name, time=time_of_day(timer.ends_ms)
    )
