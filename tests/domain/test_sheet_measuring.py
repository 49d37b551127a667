"""Margin, pitch and size from readings, checked against numpy's least squares and uncertainties."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from wickbench.domain.errors import OutOfRange
from wickbench.domain.sheet_measuring import (
    PICTURE_MM,
    READING_MM,
    SideReadings,
    check_side,
    fit_edges,
    measure_side,
)

NAMES = ("first_near_mm", "last_near_mm", "last_far_mm", "size_mm")


def _truth(margin: float, pitch: float, size: float, count: int) -> dict[str, float]:
    last = margin + (count - 1) * pitch
    return dict(zip(NAMES, (margin, last, last + size, size), strict=True))


@given(
    margin=st.floats(0, 30),
    size=st.floats(5, 90),
    gap=st.floats(0, 5),
    count=st.integers(1, 20),
    kept=st.sets(st.sampled_from(NAMES), min_size=3),
)
def test_true_readings_give_the_true_measures(
    margin: float, size: float, gap: float, count: int, kept: set[str]
) -> None:
    pitch = size + gap
    truth = _truth(margin, pitch, size, count)
    side = measure_side(SideReadings(**{name: truth[name] for name in kept}), count)
    if side is None:
        assert count == 1 or kept == set(NAMES) - {"first_near_mm"}
        return
    assert side.margin.value_mm == pytest.approx(margin, abs=1e-6)
    assert side.size.value_mm == pytest.approx(size, abs=1e-6)
    assert side.apart_mm == pytest.approx(0, abs=1e-6)
    if count > 1:
        assert side.pitch is not None
        assert side.pitch.value_mm == pytest.approx(pitch, abs=1e-6)


def test_the_doubt_is_the_one_of_an_independent_calculation() -> None:
    # Left edge, right edge of the last of seven, and one sticker: p = (far - size - first) / 6.
    first, far, size = (ufloat(value, READING_MM) for value in (9.0, 461.0, 62.0))
    pitch = (far - size - first) / 6
    side = measure_side(SideReadings(first_near_mm=9, last_far_mm=461, size_mm=62), 7)
    assert side is not None
    assert side.pitch is not None
    assert side.pitch.value_mm == pytest.approx(pitch.nominal_value)
    assert side.pitch.doubt_mm == pytest.approx(pitch.std_dev)
    assert side.last_doubt_mm == pytest.approx((first + 6 * pitch).std_dev)
    # Read directly, the place of the last one is as sure as one reading.
    assert side.helps == "last-near"
    with_it = measure_side(
        SideReadings(first_near_mm=9, last_far_mm=461, size_mm=62, last_near_mm=399), 7
    )
    assert with_it is not None
    assert with_it.last_doubt_mm < side.last_doubt_mm


def test_four_readings_are_fitted_as_least_squares_fit_them() -> None:
    readings = {"first_near_mm": 9.2, "last_near_mm": 139.1, "last_far_mm": 200.8, "size_mm": 62.3}
    side = measure_side(SideReadings(**readings), 3)
    rows = np.array([[1, 0, 0], [1, 2, 0], [1, 2, 1], [0, 0, 1]], dtype=float)
    found, *_ = np.linalg.lstsq(rows, np.array(list(readings.values())), rcond=None)
    spread = np.linalg.inv(rows.T @ rows)
    assert side is not None
    assert side.pitch is not None
    measures = (side.margin, side.pitch, side.size)
    assert [one.value_mm for one in measures] == pytest.approx(list(found))
    doubts = READING_MM * np.sqrt(np.diag(spread))
    assert [one.doubt_mm for one in measures] == pytest.approx(list(doubts))


def test_readings_that_do_not_belong_together_are_told() -> None:
    slip = SideReadings(first_near_mm=9, last_near_mm=139, last_far_mm=211, size_mm=62)
    side = measure_side(slip, 3)
    assert side is not None
    assert "ruler.apart-down" in {one.key for one in check_side(side, "down")}
    good = SideReadings(first_near_mm=9, last_near_mm=139, last_far_mm=201, size_mm=62)
    side = measure_side(good, 3)
    assert side is not None
    assert check_side(side, "down") == ()


@pytest.mark.parametrize("readings", [{}, {"size_mm": 62.0}, {"first_near_mm": 9, "size_mm": 62}])
def test_too_few_readings_say_nothing(readings: dict[str, float]) -> None:
    assert measure_side(SideReadings(**readings), 3) is None


def test_senseless_readings_are_refused() -> None:
    for bad in (-1.0, math.nan, math.inf):
        with pytest.raises(OutOfRange):
            SideReadings(first_near_mm=bad)
    with pytest.raises(OutOfRange):
        measure_side(SideReadings(), 0)
    with pytest.raises(OutOfRange):
        measure_side(SideReadings(first_near_mm=100, last_near_mm=20, size_mm=30), 3)
    with pytest.raises(OutOfRange):
        measure_side(SideReadings(), 3, reading_mm=0)


def test_edges_in_a_picture_are_fitted_with_their_scatter() -> None:
    rng = np.random.default_rng(7)
    edges = []
    for at in range(6):
        for far in (False, True):
            place = 12.0 + at * 33.0 + (30.0 if far else 0.0)
            edges.append((at, far, place + float(rng.normal(0, 0.05))))
    side = fit_edges(edges, 6)
    assert side is not None
    assert side.pitch is not None
    rows = np.array([[1.0, at, float(far)] for at, far, _ in edges])
    places = np.array([place for _, _, place in edges])
    found, square, *_ = np.linalg.lstsq(rows, places, rcond=None)
    noise = math.sqrt(float(square[0]) / (len(edges) - 3))
    doubt = 2 * noise * math.sqrt(float(np.linalg.inv(rows.T @ rows)[1, 1]))
    assert side.pitch.value_mm == pytest.approx(float(found[1]))
    assert side.pitch.doubt_mm == pytest.approx(math.hypot(doubt, PICTURE_MM / 5))
    assert fit_edges([(0, False, 12.0)], 3) is None
