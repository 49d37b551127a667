"""Lot codes: readable, and never the same for two pots."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.errors import OutOfRange
from wickbench.domain.lot_codes import (
    USUAL_PATTERN,
    check_pattern,
    lot_code,
    lot_codes,
    recipe_letter,
)

DAY = dt.date(2026, 11, 28)


@pytest.mark.parametrize(
    ("pattern", "index", "pot", "code"),
    [
        (USUAL_PATTERN, 0, 1, "26-332-A1"),
        (USUAL_PATTERN, 1, 12, "26-332-B12"),
        (USUAL_PATTERN, 8, 1, "26-332-J1"),
        (USUAL_PATTERN, 24, 2, "26-332-AA2"),
        ("{yyyy}.{mm}.{dd} {letter}/{pot}", 2, 3, "2026.11.28 C/3"),
        ("W{yy}{ddd}-{pot}{letter}", 0, 1, "W26332-1A"),
    ],
)
def test_codes(pattern: str, index: int, pot: int, code: str) -> None:
    """28 November is day 332 of 2026 (ISO 8601 ordinal date)."""
    assert lot_code(pattern, DAY, index, pot) == code


@pytest.mark.parametrize(
    ("pattern", "key"),
    [
        ("{yy}-{ddd}-{letter}", "lot.no-pot"),
        ("{yy}-{ddd}-{pot}", "lot.no-letter"),
        ("{ddd}-{letter}{pot}", "lot.no-day"),
        ("{yy}-{mm}-{letter}{pot}", "lot.no-day"),
        ("", "lot.no-day"),
        ("{yy}-{ddd}-{letter}{pot}-{week}", "lot.unknown-place"),
        ("{yy}-{ddd}-{letter}{pot}-{", "lot.character"),
        ("{yy}-{ddd}-{letter}{pot}-é", "lot.character"),
        ("{yy}-{ddd}-X{letter}{pot}", "lot.run-together"),
        ("{yy}-{ddd}-{letter}{pot} of our workshop", "lot.too-long"),
    ],
)
def test_patterns_that_repeat_or_cannot_be_read_are_refused(pattern: str, key: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        check_pattern(pattern)
    assert refused.value.key == key


def test_letters_are_never_read_as_digits() -> None:
    letters = [recipe_letter(index) for index in range(700)]
    assert len(set(letters)) == 700
    assert not set("IO") & set("".join(letters))
    with pytest.raises(OutOfRange):
        recipe_letter(-1)


def test_a_second_pour_on_the_same_day_goes_on_with_the_next_letter() -> None:
    pots = [(0, 1), (0, 2), (1, 1)]
    first = lot_codes(USUAL_PATTERN, DAY, pots)
    assert first == ("26-332-A1", "26-332-A2", "26-332-B1")
    second = lot_codes(USUAL_PATTERN, DAY, pots, taken=first)
    assert second == ("26-332-C1", "26-332-C2", "26-332-D1")
    with pytest.raises(OutOfRange):
        lot_codes(USUAL_PATTERN, DAY, [(0, 1), (0, 1)])
    with pytest.raises(OutOfRange):
        lot_code(USUAL_PATTERN, DAY, 0, 0)


PATTERNS = [USUAL_PATTERN, "{yy}{ddd}{pot}{letter}", "{letter}{yyyy}{mm}{dd}-{pot}"]
pots = st.tuples(
    st.dates(dt.date(2020, 1, 1), dt.date(2099, 12, 31)), st.integers(0, 60), st.integers(1, 99)
)


@given(st.sampled_from(PATTERNS), pots, pots)
def test_two_pots_never_share_a_code(
    pattern: str, one: tuple[dt.date, int, int], other: tuple[dt.date, int, int]
) -> None:
    assert (lot_code(pattern, *one) == lot_code(pattern, *other)) == (one == other)
