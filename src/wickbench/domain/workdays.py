"""Working days and days off."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from wickbench.domain.errors import OutOfRange

WEEKEND = frozenset({5, 6})
"""Saturday and Sunday, as ``date.weekday`` counts."""

_DAYS_IN_WEEK = 7
_LONGEST_CLOSED = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkDays:
    """On which days people work.

    Attributes:
        off: days of the week off, Monday 0; empty: every day is a working day.
        closed: single days off.

    Raises:
        OutOfRange: ``calendar.no-workday`` when every day of the week is off.
    """

    off: frozenset[int] = frozenset()
    closed: frozenset[dt.date] = frozenset()

    def __post_init__(self) -> None:
        if len(self.off & set(range(_DAYS_IN_WEEK))) == _DAYS_IN_WEEK:
            raise OutOfRange("calendar.no-workday")

    def works(self, day: dt.date) -> bool:
        """Whether people work on a day."""
        return day.weekday() not in self.off and day not in self.closed

    def last_by(self, day: dt.date) -> dt.date:
        """The day itself when it is a working day, otherwise the working day before it."""
        for back in range(_LONGEST_CLOSED):
            earlier = day_before(day, back)
            if self.works(earlier):
                return earlier
        raise OutOfRange("calendar.no-workday")

    def before(self, day: dt.date, workdays: int) -> dt.date:
        """The working day so many working days before a day."""
        found = self.last_by(day)
        for _ in range(workdays):
            found = self.last_by(day_before(found, 1))
        return found

    def first_from(self, day: dt.date) -> dt.date:
        """The day itself when it is a working day, otherwise the working day after it."""
        for ahead in range(_LONGEST_CLOSED):
            later = day + dt.timedelta(days=ahead)
            if self.works(later):
                return later
        raise OutOfRange("calendar.no-workday")

    def after(self, day: dt.date, workdays: int) -> dt.date:
        """The working day so many working days after a day."""
        found = self.first_from(day)
        for _ in range(workdays):
            found = self.first_from(found + dt.timedelta(days=1))
        return found


def day_before(day: dt.date, days: int) -> dt.date:
    """So many days before a day.

    Raises:
        OutOfRange: ``calendar.needed-on`` before the first day of the calendar.
    """
    try:
        return day - dt.timedelta(days=days)
    except OverflowError:
        raise OutOfRange("calendar.needed-on") from None
