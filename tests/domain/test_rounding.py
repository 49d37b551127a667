"""Rounding half up, to digits and to the steps of a scale, against exact decimals and fractions."""

import math
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.errors import OutOfRange
from wickbench.domain.rounding import half_up, half_up_decimal, round_down_to, steps, to_step


@pytest.mark.parametrize(
    ("value", "digits", "rounded"),
    [
        (0.5, 0, 1.0), (1.5, 0, 2.0), (2.5, 0, 3.0), (-2.5, 0, -3.0), (2.4, 0, 2.0),
        (1.005, 2, 1.01), (2.675, 2, 2.68), (1.15, 1, 1.2), (0.285 * 100, 0, 29.0),
        (1.1 * 1.5, 2, 1.65), (125.0, -1, 130.0), (1e300, 2, 1e300), (5e-324, 3, 0.0),
        (123456789012345.6, 0, 123456789012346.0), (9007199254740993.0, 2, 9007199254740992.0),
    ],
)  # fmt: skip
def test_a_half_goes_up(value: float, digits: int, rounded: float) -> None:
    assert half_up(value, digits) == rounded


def test_nothing_is_never_below_zero() -> None:
    assert math.copysign(1, half_up(-0.4)) == 1
    assert str(half_up_decimal(-0.004, 2)) == "0.00"


def test_the_digits_stay_for_showing() -> None:
    assert str(half_up_decimal(3.0, 1)) == "3.0"


@given(st.decimals(-(10**6), 10**6, places=5), st.integers(0, 4))
def test_decimals_of_up_to_fifteen_digits_round_as_on_paper(number: Decimal, digits: int) -> None:
    """The standard library's decimal arithmetic on the number as written."""
    on_paper = number.quantize(Decimal(1).scaleb(-digits), ROUND_HALF_UP)
    assert half_up(float(number), digits) == float(on_paper)


STEP = st.sampled_from(["0.001", "0.01", "0.05", "0.1", "0.2", "0.5", "1", "2", "5", "10"])


@given(st.integers(0, 10**8), STEP)
def test_whole_steps_stay_what_they_are(count: int, step: str) -> None:
    value = float(count * Decimal(step))
    assert steps(value, float(step)) == count
    assert to_step(value, float(step)) == value
    assert round_down_to(value, float(step)) == value


@given(st.floats(0, 1e6), STEP)
def test_the_nearest_step_and_the_step_below(value: float, step: str) -> None:
    size = Fraction(step)
    near = steps(value, float(step)) * size
    below = Fraction(round_down_to(value, float(step)))
    slack = Fraction(value) * Fraction(1, 10**13)
    assert abs(near - Fraction(value)) <= size / 2 + slack
    assert -slack <= Fraction(value) - below < size + slack


@given(st.integers(0, 10**5), STEP)
def test_half_a_step_goes_up(count: int, step: str) -> None:
    value = float((count + Decimal("0.5")) * Decimal(step))
    assert steps(value, float(step)) == count + 1


def test_a_scale_in_ounces() -> None:
    """0.1 oz = 2.8349523125 g (NIST Handbook 44 Appendix C): 36 oz are 360 steps."""
    assert steps(36 * 28.349523125, 2.8349523125) == 360
    assert to_step(1020.0, 2.8349523125) == pytest.approx(360 * 2.8349523125, rel=1e-15)


def test_half_a_step_in_ounces_goes_up_too() -> None:
    """Products of floats miss the half by their last digit; a person's half is meant."""
    for step in (28.349523125 / 10, 28.349523125 / 8):
        for count in range(2000):
            assert steps((count + 0.5) * step, step) == count + 1


def test_three_tenths_are_three_steps() -> None:
    assert steps(0.1 + 0.2, 0.1) == 3
    assert round_down_to(0.3, 0.1) == 0.3
    assert round_down_to(226.79999999999998, 0.1) == 226.8
    assert round_down_to(226.79, 0.1) == 226.7
    assert round_down_to(-0.1, 1) == -1.0


@pytest.mark.parametrize("senseless", [math.nan, math.inf, -math.inf])
def test_numbers_without_end_are_refused(senseless: float) -> None:
    for act in (half_up, lambda v: steps(v, 1.0), lambda v: to_step(1.0, v),
                lambda v: round_down_to(v, 1.0)):  # fmt: skip
        with pytest.raises(OutOfRange):
            act(senseless)


@pytest.mark.parametrize("step", [0.0, -1.0])
def test_a_step_is_above_zero(step: float) -> None:
    for act in (steps, to_step, round_down_to):
        with pytest.raises(OutOfRange) as refusal:
            act(1.0, step)
        assert refusal.value.key == "quantity.step-not-positive"
