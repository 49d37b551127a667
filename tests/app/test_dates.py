"""Dates as people type them."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app.dates import parse_date, short_date
from wickbench.domain.errors import Ambiguous, CannotRead

TODAY = dt.date(2026, 11, 25)

READ = [
    ("2026-11-28", "en_US", "2026-11-28"),
    ("2026-1-5", "en_US", "2026-01-05"),
    (" 28 Nov ", "en_US", "2026-11-28"),
    ("28. Nov. 2025", "de_DE", "2025-11-28"),
    ("Nov 28", "en_US", "2026-11-28"),
    ("November 28, 2026", "en_US", "2026-11-28"),
    ("3. März", "de_DE", "2027-03-03"),
    ("3 mai 2026", "fr_FR", "2026-05-03"),
    ("14 août 2026", "fr_FR", "2026-08-14"),
    ("5 de enero de 2027", "es_ES", "2027-01-05"),
    ("28.11.", "de_DE", "2026-11-28"),
    ("28.11", "de_DE", "2026-11-28"),
    ("28.11.26", "de_DE", "2026-11-28"),
    ("28. 11. 2026", "de_DE", "2026-11-28"),
    ("3/4/2026", "en_US", "2026-03-04"),
    ("3/4/2026", "fr_FR", "2026-04-03"),
    ("13/4/2026", "en_US", "2026-04-13"),
    ("4/13/2026", "fr_FR", "2026-04-13"),
    ("5/5/2026", "en_GB", "2026-05-05"),
    ("today", "en_US", "2026-11-25"),
    ("gestern", "de_DE", "2026-11-24"),
]


@pytest.mark.parametrize(("typed", "locale", "expected"), READ)
def test_what_people_write(typed: str, locale: str, expected: str) -> None:
    assert parse_date(typed, TODAY, locale) == expected


@pytest.mark.parametrize(
    ("typed", "today", "expected"),
    [
        ("28 Dec", dt.date(2026, 1, 5), "2025-12-28"),
        ("3 Jan", dt.date(2026, 12, 20), "2027-01-03"),
        ("29 Feb", dt.date(2027, 6, 1), "2028-02-29"),
    ],
)
def test_a_missing_year_is_the_nearest(typed: str, today: dt.date, expected: str) -> None:
    assert parse_date(typed, today) == expected


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ("soon", "date.no-date"),
        ("3 marvellous", "date.no-date"),
        ("3 jui", "date.no-date"),
        ("12", "date.no-date"),
        ("30 Feb", "date.no-such-day"),
        ("2026-02-30", "date.no-such-day"),
        ("32.1.2026", "date.no-such-day"),
        ("0000-01-01", "date.no-such-day"),
        ("1/1/1/1", "date.no-date"),
    ],
)
def test_what_is_no_date_is_said(typed: str, key: str) -> None:
    with pytest.raises(CannotRead) as refused:
        parse_date(typed, TODAY)
    assert refused.value.key == key


def test_two_days_are_both_offered() -> None:
    with pytest.raises(Ambiguous) as asked:
        parse_date("3/4/2026", TODAY, "en_GB")
    offered = [text for text, _ in asked.value.readings]
    assert offered == ["2026-04-03", "2026-03-04"]
    assert [parse_date(text, TODAY, "en_GB") for text in offered] == offered


@given(st.dates(dt.date(1900, 1, 1), dt.date(2199, 12, 31)), st.sampled_from(["en_US", "de_DE"]))
def test_what_stands_in_a_field_reads_as_itself(day: dt.date, locale: str) -> None:
    assert parse_date(short_date(day.isoformat()), TODAY, locale) == day.isoformat()


@given(st.text(max_size=14))
def test_any_text_is_a_day_or_a_sentence(typed: str) -> None:
    try:
        found = parse_date(typed, TODAY)
    except CannotRead:
        return
    assert dt.date.fromisoformat(found).isoformat() == found


@given(st.dates(dt.date(2026, 1, 1), dt.date(2027, 12, 31)))
def test_the_nearest_year_is_never_more_than_half_a_year_off(day: dt.date) -> None:
    found = dt.date.fromisoformat(parse_date(f"{day.day}.{day.month}.", TODAY))
    leap_day_may_be_years_away = 183 if (day.month, day.day) != (2, 29) else 1461
    assert abs((found - TODAY).days) <= leap_day_may_be_years_away
