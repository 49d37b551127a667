"""Student's t, effective degrees and odd values against scipy and published tables."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.errors import OutOfRange
from wickbench.domain.statistics import effective_degrees, furthest_off, student_t

# Table G.2 of JCGM 100:2008 (GUM), p = 95 %, two decimals; its last row is infinity.
GUM_TABLE = {
    1: 12.71, 2: 4.30, 3: 3.18, 4: 2.78, 5: 2.57, 6: 2.45, 7: 2.36, 8: 2.31, 9: 2.26, 10: 2.23,
    11: 2.20, 12: 2.18, 13: 2.16, 14: 2.14, 15: 2.13, 16: 2.12, 17: 2.11, 18: 2.10, 19: 2.09,
    20: 2.09, 25: 2.06, 30: 2.04, 35: 2.03, 40: 2.02, 45: 2.01, 50: 2.01, 100: 1.984,
    math.inf: 1.960,
}  # fmt: skip


@pytest.mark.parametrize(("degrees", "t"), GUM_TABLE.items())
def test_t_is_the_table_of_the_gum(degrees: float, t: float) -> None:
    tolerance = 6e-4 if degrees >= 100 else 6e-3
    assert student_t(0.975, degrees) == pytest.approx(t, abs=tolerance)


@pytest.mark.parametrize("probability", [0.5, 0.6, 0.9, 0.95, 0.975, 0.995, 0.9995, 0.99999])
def test_t_agrees_with_scipy(probability: float) -> None:
    from scipy.stats import t

    for degrees in (1, 1.5, 2, 3, 3.9174, 10, 29.7, 100, 999, 1000, 2676, 1e5, 1e9):
        reference = float(t.ppf(probability, degrees))
        assert student_t(probability, degrees) == pytest.approx(reference, rel=2e-11, abs=1e-12)


def test_t_of_endless_degrees_is_the_normal_quantile() -> None:
    # 1.959964: any table of the normal distribution.
    assert student_t(0.975, math.inf) == pytest.approx(1.959964, abs=5e-7)


@pytest.mark.parametrize("degrees", [0.99, 0, -3, math.nan])
def test_degrees_below_one_are_refused(degrees: float) -> None:
    with pytest.raises(OutOfRange) as caught:
        student_t(0.975, degrees)
    assert caught.value.key == "statistics.degrees"


@pytest.mark.parametrize("probability", [0.49, 1, 1.5, math.nan])
def test_a_probability_that_cannot_be_is_refused(probability: float) -> None:
    with pytest.raises(OutOfRange):
        student_t(probability, 4)


def test_effective_degrees_of_the_end_gauge() -> None:
    # JCGM 100:2008, example H.1.6: nm and degrees, result 16.
    parts = [(25, 18), (9.7, 25.6), (2.9, 50), (16.6, 2)]
    assert math.floor(effective_degrees(parts)) == 16


def test_effective_degrees_of_the_gum_formula_example() -> None:
    # JCGM 100:2008, G.4.1 example: relative 0.25, 0.57, 0.82 % with 9, 4, 14 degrees: 19.0.
    parts = [(0.25, 9), (0.57, 4), (0.82, 14)]
    assert effective_degrees(parts) == pytest.approx(19.0, abs=0.05)


def test_without_repeats_the_degrees_are_endless() -> None:
    assert effective_degrees([(1, math.inf), (0, 4)]) == math.inf


@given(st.lists(st.tuples(st.floats(0.01, 10), st.floats(1, 100)), min_size=1, max_size=6))
def test_effective_degrees_lie_between_the_smallest_and_the_sum(
    parts: list[tuple[float, float]],
) -> None:
    # JCGM 100:2008, G.4.1: never below the smallest, never above the sum.
    degrees = [nu for _, nu in parts]
    assert min(degrees) * (1 - 1e-9) <= effective_degrees(parts) <= sum(degrees) * (1 + 1e-9)


def test_a_value_far_off_is_found() -> None:
    assert furthest_off([254.1, 254.6, 253.8, 264.4, 254.2], least_off=1.0) == 3


def test_ordinary_scatter_raises_no_alarm() -> None:
    assert furthest_off([254.1, 254.6, 253.8, 254.4, 254.2], least_off=0.0) is None


def test_steps_of_the_scale_raise_no_alarm() -> None:
    assert furthest_off([254.1, 254.1, 254.1, 254.1, 254.3], least_off=0.5) is None


def test_three_values_cannot_judge_each_other() -> None:
    assert furthest_off([254.1, 254.2, 300.0], least_off=1.0) is None
