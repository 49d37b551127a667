"""Dates as people type them; stored as local ``YYYY-MM-DD``."""

from __future__ import annotations

import datetime as dt
import re

from wickbench.domain.errors import Ambiguous, CannotRead

_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_DOTTED = re.compile(r"(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4}|\d{2})?")
_SLASHED = re.compile(r"(\d{1,2})/(\d{1,2})(?:/(\d{4}|\d{2}))?")
_WORDED = re.compile(r"(?:(\d{1,2})\.?\s+([^\W\d]{3,})|([^\W\d]{3,})\s+(\d{1,2})),?(?:\s+(\d{4}))?")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


def parse_date(typed: str, today: dt.date, locale: str = "en_US") -> str:
    """An ISO date from what was typed; a missing year is the one that lies nearest.

    Raises:
        CannotRead: no date can be made of it.
        Ambiguous: ``3/4/2026`` can be two days and the locale does not say which.
    """
    text = typed.strip().lower()
    if text in {"today", "heute"}:
        return today.isoformat()
    if found := _ISO.fullmatch(text):
        return _day(typed, int(found[1]), int(found[2]), int(found[3]))
    if found := _DOTTED.fullmatch(text):
        return _near(typed, found[3], int(found[2]), int(found[1]), today)
    if found := _SLASHED.fullmatch(text):
        return _slashed(typed, found, today, locale)
    if found := _WORDED.fullmatch(text):
        name, day = found[2] or found[3], int(found[1] or found[4])
        if name[:3] in _MONTHS:
            return _near(typed, found[5], _MONTHS.index(name[:3]) + 1, day, today)
    raise CannotRead("date.no-date", typed=typed)


def _slashed(typed: str, found: re.Match[str], today: dt.date, locale: str) -> str:
    first, second = int(found[1]), int(found[2])
    if locale == "en_US" or second > 12 >= first:  # noqa: PLR2004 - months
        return _near(typed, found[3], first, second, today)
    if first > 12 or first == second or not locale.startswith("en"):  # noqa: PLR2004 - months
        return _near(typed, found[3], second, first, today)
    ways = (
        _near(typed, found[3], second, first, today),
        _near(typed, found[3], first, second, today),
    )
    raise Ambiguous("date.two-days", tuple((way, 0.0) for way in ways), typed=typed)


def _near(typed: str, year: str | None, month: int, day: int, today: dt.date) -> str:
    if year:
        return _day(typed, int(year) + (2000 if len(year) == 2 else 0), month, day)  # noqa: PLR2004 - two digits
    tries = [dt.date.fromisoformat(_day(typed, today.year + by, month, day)) for by in (0, 1)]
    nearest = min(tries, key=lambda one: abs((one - today).days))
    return nearest.isoformat()


def _day(typed: str, year: int, month: int, day: int) -> str:
    try:
        return dt.date(year, month, day).isoformat()
    except ValueError:
        raise CannotRead("date.no-such-day", typed=typed) from None


def short_date(iso: str) -> str:
    """Text that stands in a date field; the same in every language."""
    return iso
