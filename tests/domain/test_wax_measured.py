"""A wax measured by its maker, against hand-reckoned densities and the package uncertainties."""

from __future__ import annotations

import math
from statistics import mean, stdev
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from uncertainties import ufloat

from wickbench.domain.errors import OutOfRange
from wickbench.domain.water import z_factor
from wickbench.domain.wax_measured import (
    Line,
    Reading,
    average,
    check_set_heavier,
    drop_of_level,
    hot_to_line,
    water_on_set,
)

if TYPE_CHECKING:
    from collections.abc import Callable

SQRT_3, SQRT_6 = math.sqrt(3), math.sqrt(6)
JAR = Line(237.60, 0.69212, 70.0)
LINE_ML = math.pi / 4 * 70**2 / 1000 * 0.3 / SQRT_3


def test_hot_to_the_line() -> None:
    # 206.712 g in 237.60 mL at 70 °C are 0.870 g/mL; 10 °C hotter a wax is 0.0066 lighter (Lund
    # 1922 by Pryde, Physical Properties of Soybean Oil, with the slope fitted to the CRC Handbook).
    assert hot_to_line(206.712, 70, JAR).g_per_ml == pytest.approx(0.870, abs=1e-9)
    assert hot_to_line(237.60 * 0.8634, 80, JAR).g_per_ml == pytest.approx(0.870, abs=1e-9)


def test_water_on_set_wax() -> None:
    # 208.194 g of mix set to 229.992 mL of 237.60; 7.608 mL of water at 22 °C are 7.608 / 1.00328 g
    # (Z of ISO 8655-6 at 1013 hPa).
    found = water_on_set(208.194, 7.608 / 1.00328, 22, JAR)
    assert found.g_per_ml == pytest.approx(208.194 / 229.992, abs=1e-6)


def test_drop_of_the_level_in_a_straight_jar() -> None:
    # A straight jar of 70 mm: soy 0.870 → 0.900 stands at 67.6667, paraffin 0.770 → 0.900 at
    # 59.8889 (mass conserved).
    assert drop_of_level(70, 67.6667, 70, 0.870, 0).g_per_ml == pytest.approx(0.900, abs=1e-6)
    assert drop_of_level(70, 59.8889, 70, 0.770, 0).g_per_ml == pytest.approx(0.900, abs=1e-6)


@given(st.floats(50, 150), st.floats(0.75, 0.95), st.sampled_from([0.01, 0.1, 1.0]))
def test_doubts_of_a_hot_fill_join_as_in_uncertainties(
    wax_c: float, density: float, step: float
) -> None:
    mass = 237.60 * density
    found = hot_to_line(mass, wax_c, JAR, reads_to_g=step)
    m = ufloat(mass, math.hypot(step / SQRT_6, 2 * step / SQRT_3))
    volume = ufloat(237.60, 0.69212) + ufloat(0, LINE_ML)
    warm, slope = ufloat(wax_c, 1 / SQRT_3), ufloat(0.00066, 0.00006 / SQRT_3)
    expected = m / volume + slope * (warm - 70)
    assert found.g_per_ml == pytest.approx(expected.nominal_value)
    assert found.standard_uncertainty == pytest.approx(expected.std_dev, rel=1e-6)


@given(st.floats(180, 210), st.floats(2, 20), st.floats(10, 30))
def test_doubts_of_water_on_set_wax_join_as_in_uncertainties(
    mass: float, water: float, water_c: float
) -> None:
    found = water_on_set(mass, water, water_c, JAR, reads_to_g=0.1)
    u = math.hypot(0.1 / SQRT_6, 0.2 / SQRT_3)
    volume = ufloat(237.60, 0.69212) + ufloat(0, LINE_ML)
    per_c = (z_factor(water_c + 0.01) - z_factor(water_c - 0.01)) / 0.02
    z = z_factor(water_c) + per_c * ufloat(0, 1 / SQRT_3)
    expected = ufloat(mass, u) / (volume - ufloat(water, u) * z)
    assert found.g_per_ml == pytest.approx(expected.nominal_value)
    assert found.standard_uncertainty == pytest.approx(expected.std_dev, rel=1e-4)


def test_doubts_of_a_drop_join_as_in_uncertainties() -> None:
    found = drop_of_level(72, 69.5, 65, 0.868, 0.004)
    u = 0.5 / SQRT_3
    liquid = ufloat(0.868, 0.004) - 0.00066 * (ufloat(65, 1 / SQRT_3) - 70)
    expected = liquid * ufloat(72, u) / ufloat(69.5, u)
    assert found.g_per_ml == pytest.approx(expected.nominal_value)
    assert found.standard_uncertainty == pytest.approx(expected.std_dev, rel=1e-6)


def test_a_volume_that_was_only_typed_is_doubted_more() -> None:
    typed, weighed = hot_to_line(200, 70, Line(237.6)), hot_to_line(200, 70, Line(237.6, 0.2))
    assert typed.standard_uncertainty > weighed.standard_uncertainty


readings = st.lists(st.floats(0.86, 0.88), min_size=2, max_size=8)


@given(readings)
def test_a_mean_has_the_scatter_of_its_readings(values: list[float]) -> None:
    """Without limits it is the t interval of scipy; with limits never narrower."""
    bare = average([Reading(value, (("mass", 0.0),)) for value in values])
    assert bare is not None
    assert bare.g_per_ml == pytest.approx(mean(values))
    half = stats.t.ppf(0.975, len(values) - 1) * stdev(values) / math.sqrt(len(values))
    assert bare.expanded_uncertainty == pytest.approx(half, abs=1e-12)
    limited = average([Reading(value, (("volume", 0.003),)) for value in values])
    assert limited is not None
    assert limited.standard_uncertainty == pytest.approx(
        math.hypot(0.003, stdev(values) / math.sqrt(len(values)))
    )
    assert limited.standard_uncertainty >= 0.003


def test_one_reading_has_its_own_doubt_and_none_is_none() -> None:
    one = average([hot_to_line(206.712, 70, JAR)])
    assert one is not None
    assert one.spread is None
    # Normal quantile for 95 of 100: 1.959964 (any table).
    assert one.expanded_uncertainty == pytest.approx(1.959964 * one.standard_uncertainty)
    assert average([]) is None


def test_a_reading_far_off_is_named() -> None:
    values = (0.868, 0.869, 0.8685, 0.902, 0.8678)
    found = average([Reading(value, (("mass", 0.001),)) for value in values])
    assert found is not None
    assert found.odd == 3


@pytest.mark.parametrize(
    ("wrong", "key"),
    [
        (lambda: hot_to_line(0, 70, JAR), "mass"),
        (lambda: hot_to_line(math.nan, 70, JAR), "mass"),
        (lambda: hot_to_line(206, 12, JAR), "wax-temperature"),
        (lambda: hot_to_line(206, 70, Line(0)), "volume"),
        (lambda: hot_to_line(20, 70, JAR), "density"),
        (lambda: hot_to_line(206, 70, JAR, reads_to_g=0), "reads-to"),
        (lambda: water_on_set(208, 240, 22, JAR), "only-water"),
        (lambda: water_on_set(208, -1, 22, JAR), "water"),
        (lambda: water_on_set(208, 8, 120, JAR), "water-temperature"),
        (lambda: drop_of_level(60, 62, 70, 0.87, 0), "level-rose"),
        (lambda: drop_of_level(2, 1, 70, 0.87, 0), "height"),
        (lambda: drop_of_level(70, 20, 70, 0.87, 0), "density"),
        (lambda: check_set_heavier(0.87, 0.86), "set-lighter"),
    ],
)
def test_readings_that_cannot_be_are_refused(wrong: Callable[[], object], key: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        wrong()
    assert refused.value.key == f"measured.{key}"
