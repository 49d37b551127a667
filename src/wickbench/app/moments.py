"""Moments as people read them: the time of day, how long from now, and the day when it is far."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Final

from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from wickbench.app.texts import Texts

_MS: Final = 1000
_MINUTE_S: Final = 60
_HOUR_S: Final = 3600
_DAY_S: Final = 86_400


def local(ms: int) -> dt.datetime:
    """A moment in the time of this place, with its zone."""
    return dt.datetime.fromtimestamp(ms / _MS, dt.UTC).astimezone()


def moment(day: dt.date, time: dt.time) -> int:
    """The moment of a local day and time, as UTC milliseconds."""
    return round(dt.datetime.combine(day, time).astimezone().timestamp() * _MS)


def time_of_day(ms: int) -> str:
    """The local time, "14:32"."""
    return f"{local(ms):%H:%M}"


def time_words(texts: Texts, ms: int, now_ms: int) -> str:
    """The local time; with its day when that is another one: "14:32 on 28 November 2026"."""
    day = local(ms).date()
    if day == local(now_ms).date():
        return time_of_day(ms)
    return texts(N_("{time} on {day}"), time=time_of_day(ms), day=texts.day(day))


def countdown(texts: Texts, ms: int, now_ms: int) -> str:
    """How long from now, to the second below an hour: "1:34", "2 h 10 min", "5 days"."""
    seconds = max(0, -((now_ms - ms) // _MS))
    if seconds < _HOUR_S:
        return f"{seconds // _MINUTE_S}:{seconds % _MINUTE_S:02d}"
    if seconds < 2 * _DAY_S:
        hours, rest = divmod(seconds, _HOUR_S)
        return texts(N_("{hours} h {n} min"), hours=hours, n=rest // _MINUTE_S)
    return texts.plural("{n} day", "{n} days", seconds // _DAY_S)
