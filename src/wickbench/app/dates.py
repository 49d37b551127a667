"""Dates as people type them; stored as local ``YYYY-MM-DD``."""

from __future__ import annotations

import calendar
import datetime as dt
import re
import unicodedata
from functools import partial

from wickbench.domain.errors import Ambiguous, CannotRead

_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_DOTTED = re.compile(r"(\d{1,2})\.\s?(\d{1,2})(?:\.\s?(\d{4}|\d{2})?)?")
_SLASHED = re.compile(r"(\d{1,2})/(\d{1,2})(?:/(\d{4}|\d{2}))?")
_WORDED = re.compile(
    r"(?:(\d{1,2})\.?\s+(?:de\s+)?([^\W\d]{3,})\.?|([^\W\d]{3,})\.?\s+(\d{1,2})),?"
    r"(?:\s+(?:de\s+)?(\d{4}))?"
)
# Without accents, as they are compared; the languages of the window.
_MONTHS = tuple(
    names.split()
    for names in (
        "january januar janvier enero", "february februar fevrier febrero",
        "march marz mars marzo", "april avril abril", "may mai mayo", "june juni juin junio",
        "july juli juillet julio", "august aout agosto", "september septembre septiembre",
        "october oktober octobre octubre", "november novembre noviembre",
        "december dezember decembre diciembre",
    )
)  # fmt: skip
_MOST_MONTHS = 12
_CENTURY = 2000
_DAYS_BACK = {
    "today": 0, "heute": 0, "aujourd’hui": 0, "aujourd'hui": 0, "hoy": 0,
    "yesterday": 1, "gestern": 1, "hier": 1, "ayer": 1,
}  # fmt: skip


def parse_date(typed: str, today: dt.date, locale: str = "en_US") -> str:
    """An ISO date from what was typed; a missing year is the one that lies nearest.

    Raises:
        CannotRead: no date can be made of it.
        Ambiguous: ``3/4/2026`` can be two days and the locale does not say which.
    """
    text = typed.strip().lower()
    if text in _DAYS_BACK:
        return (today - dt.timedelta(days=_DAYS_BACK[text])).isoformat()
    if found := _ISO.fullmatch(text):
        return _day(typed, int(found[1]), int(found[2]), int(found[3]))
    if found := _DOTTED.fullmatch(text):
        return _near(typed, found[3], int(found[2]), int(found[1]), today)
    if found := _SLASHED.fullmatch(text):
        return _slashed(typed, found, today, locale)
    if found := _WORDED.fullmatch(text):
        name, day = found[2] or found[3], int(found[1] or found[4])
        if month := _month_called(name):
            return _near(typed, found[5], month, day, today)
    raise CannotRead("date.no-date", typed=typed)


def _month_called(name: str) -> int | None:
    """Number of the month that a name, or its beginning, can only mean."""
    plain = "".join(
        letter
        for letter in unicodedata.normalize("NFKD", name)
        if not unicodedata.combining(letter)
    )
    found = {
        number
        for number, names in enumerate(_MONTHS, 1)
        if any(one.startswith(plain) for one in names)
    }
    return found.pop() if len(found) == 1 else None


def _slashed(typed: str, found: re.Match[str], today: dt.date, locale: str) -> str:
    first, second = int(found[1]), int(found[2])
    month_first = partial(_near, typed, found[3], first, second, today)
    day_first = partial(_near, typed, found[3], second, first, today)
    if second > _MOST_MONTHS:
        return month_first()
    if first > _MOST_MONTHS or first == second:
        return day_first()
    if locale == "en_US":
        return month_first()
    if not locale.startswith("en"):
        return day_first()
    ways = (day_first(), month_first())
    raise Ambiguous("date.two-days", tuple((way, 0.0) for way in ways), typed=typed)


def _near(typed: str, year: str | None, month: int, day: int, today: dt.date) -> str:
    if year:
        return _day(typed, int(year) + (_CENTURY if len(year) == len("26") else 0), month, day)
    tries = [
        dt.date(today.year + by, month, day)
        for by in (-1, 0, 1)
        if _is_day(today.year + by, month, day)
    ]
    if not tries:
        raise CannotRead("date.no-such-day", typed=typed)
    return min(tries, key=lambda one: abs((one - today).days)).isoformat()


def _is_day(year: int, month: int, day: int) -> bool:
    return 1 <= month <= _MOST_MONTHS and 1 <= day <= calendar.monthrange(year, month)[1]


def _day(typed: str, year: int, month: int, day: int) -> str:
    try:
        return dt.date(year, month, day).isoformat()
    except ValueError:
        raise CannotRead("date.no-such-day", typed=typed) from None


def short_date(iso: str) -> str:
    """Text that stands in a date field; the same in every language."""
    return iso
