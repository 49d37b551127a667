"""Check digits, what a code may say, and how far it may bend, against GS1's own figures."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.codes import RULES, bends_too_much, check_digit, coded
from wickbench.domain.errors import OutOfRange


@pytest.mark.parametrize(
    ("digits", "right"),
    [
        # GS1, How to calculate a check digit manually: GTIN-13 6291041500213.
        ("629104150021", 3),
        # Published with GS1's check digit calculator.
        ("123456789012", 8),
        ("2345678", 5),
        # UPC-A numbers printed in encyclopedias' articles on the code.
        ("03600029145", 2),
        ("01234567890", 5),
        # Sum 2, computed by hand.
        ("200000000000", 8),
    ],
)
def test_check_digits_of_published_numbers(digits: str, right: int) -> None:
    assert check_digit(digits) == right


@given(st.text("0123456789", min_size=12, max_size=12), st.data())
def test_one_wrong_digit_is_always_found(digits: str, data: st.DataObject) -> None:
    # A weight of 1 or 3 has no common factor with ten, so no single slip keeps the sum.
    whole = coded("ean13", digits)
    at = data.draw(st.integers(0, 12))
    other = data.draw(st.sampled_from([d for d in "0123456789" if d != whole[at]]))
    with pytest.raises(OutOfRange) as caught:
        coded("ean13", whole[:at] + other + whole[at + 1 :])
    assert caught.value.key == "code.check-digit"


def test_a_missing_check_digit_is_put_on_and_spaces_go() -> None:
    assert coded("ean13", "6 291041-500 21") == "6291041500213"
    assert coded("ean13", "6291041500213") == "6291041500213"


@pytest.mark.parametrize(
    ("kind", "typed", "key"),
    [
        ("ean13", "", "code.empty"),
        ("qr", "  ", "code.empty"),
        ("ean13", "12345", "code.digits"),
        ("ean8", "abc", "code.not-digits"),
        ("ean8", "١٢٣٤٥٦٧", "code.not-digits"),
        ("code128", "Lärche", "code.letters"),
        ("code128", "x" * 49, "code.too-long"),
        ("qr", "x" * 801, "code.too-long"),
    ],
)
def test_what_cannot_be_coded_says_why(kind: str, typed: str, key: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        coded(kind, typed)
    assert caught.value.key == key


def test_widths_with_clear_space_are_those_of_the_standard() -> None:
    # GS1 General Specifications: EAN-13 is 113 bars wide with its clear space, 37.29 mm at the
    # usual width, 29.83 to 74.58 mm; EAN-8 81 bars, 26.73 mm; bars of EAN-13 31.35 mm.
    ean, small = RULES["ean13"], RULES["ean8"]
    bars = 95 + ean.clear_left + ean.clear_right
    widths = [bars * mm for mm in (ean.least_mm, ean.usual_mm, ean.most_mm)]
    assert widths == pytest.approx([29.83, 37.29, 74.58], abs=0.006)
    assert (67 + small.clear_left + small.clear_right) * small.usual_mm == pytest.approx(26.73)
    assert 95 * ean.usual_mm == pytest.approx(31.35)


def test_a_sixth_of_the_way_round_is_the_most() -> None:
    # GS1: the outer bars stand at most 30° to the middle, that is 60° of the circumference.
    assert not bends_too_much(math.pi * 70 / 6, 70.0)
    assert bends_too_much(math.pi * 70 / 6 + 0.01, 70.0)
    with pytest.raises(OutOfRange):
        bends_too_much(10.0, 0.0)
