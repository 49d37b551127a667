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


# GS1 national size guides: width of the narrowest bar, height of the bars, clear space in bars
@pytest.mark.parametrize(
    ("kind", "bar_mm", "high_mm", "clear"),
    [
        ("ean13", (0.264, 0.330, 0.660), (18.28, 22.85), (11, 7)),
        ("upca", (0.264, 0.330, 0.660), (18.28, 22.85), (9, 9)),
        ("ean8", (0.264, 0.330, 0.660), (14.58, 18.23), (7, 7)),
    ],
)
def test_every_code_read_at_a_till_has_the_measures_of_the_table(
    kind: str,
    bar_mm: tuple[float, float, float],
    high_mm: tuple[float, float],
    clear: tuple[int, int],
) -> None:
    rule = RULES[kind]
    assert (rule.least_mm, rule.usual_mm, rule.most_mm) == bar_mm
    assert (rule.least_high_mm, rule.usual_high_mm) == high_mm
    assert (rule.clear_left, rule.clear_right) == clear
    # 80 to 200 %: bars 45.70 mm (EAN-8: 36.46 mm) high at the most
    assert rule.least_mm / rule.usual_mm == pytest.approx(0.8)
    assert rule.most_mm / rule.usual_mm == pytest.approx(2.0)
    assert rule.usual_high_mm * 2 == pytest.approx({"ean8": 36.46}.get(kind, 45.70))


def test_light_margins_of_an_ean_13_are_those_of_the_guide() -> None:
    # GS1 national size guides: 3.63 mm on the left, 2.31 mm on the right at the usual width
    rule = RULES["ean13"]
    sides = (rule.clear_left * rule.usual_mm, rule.clear_right * rule.usual_mm)
    assert sides == pytest.approx((3.63, 2.31))


def test_a_sixth_of_the_way_round_is_the_most() -> None:
    # GS1: the outer bars stand at most 30° to the middle, that is 60° of the circumference.
    assert not bends_too_much(math.pi * 70 / 6, 70.0)
    assert bends_too_much(math.pi * 70 / 6 + 0.01, 70.0)
    with pytest.raises(OutOfRange):
        bends_too_much(10.0, 0.0)
