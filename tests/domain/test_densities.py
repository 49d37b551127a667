"""Densities of mixes and melted waxes against handbook values and worked tables."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.densities import liquid_density, lund_density, mix_density, oil_density
from wickbench.domain.errors import OutOfRange

# Ideal volume additivity 1/ρ = Σ w/ρ, worked for oil in percent of wax.
LOADS = (0, 4, 6, 8, 10, 12)
MIXES = {
    (0.87, 0.97): (0.87000, 0.87346, 0.87511, 0.87669, 0.87823, 0.87972),
    (0.90, 0.97): (0.90000, 0.90250, 0.90369, 0.90484, 0.90594, 0.90701),
    (0.77, 0.97): (0.77000, 0.77616, 0.77909, 0.78194, 0.78471, 0.78739),
    (0.90, 1.05): (0.90000, 0.90497, 0.90734, 0.90963, 0.91184, 0.91399),
}


@pytest.mark.parametrize(("densities", "worked"), MIXES.items())
def test_mix_density_is_the_worked_table(
    densities: tuple[float, float], worked: tuple[float, ...]
) -> None:
    wax, oil = densities
    for load, g_per_ml in zip(LOADS, worked, strict=True):
        assert mix_density({wax: 100, oil: load}) == pytest.approx(g_per_ml, abs=5.1e-6)


def test_mix_density_of_single_cases() -> None:
    # 100 g at 0.90 and 10 g at 0.95: 0.9043269; 8 % of total in warm and in set wax.
    assert mix_density({0.90: 100, 0.95: 10}) == pytest.approx(0.9043269, abs=5e-8)
    assert mix_density([(0.870, 92), (0.955, 8)]) == pytest.approx(0.876239, abs=5e-7)
    assert mix_density([(0.900, 92), (0.970, 8)]) == pytest.approx(0.905226, abs=5e-7)


def test_half_paraffin_half_soy() -> None:
    # Equal masses of 0.770 and 0.870 g/mL: harmonic mean 0.817.
    assert mix_density({0.770: 50, 0.870: 50}) == pytest.approx(0.817, abs=5e-4)


def test_pairs_may_name_a_density_twice() -> None:
    assert mix_density([(0.9, 10), (0.9, 30), (1.0, 60)]) == mix_density({0.9: 40, 1.0: 60})


density = st.floats(0.5, 2.0)
parts_of_mix = st.lists(st.tuples(density, st.floats(0.001, 1e5)), min_size=1, max_size=8)


@given(parts_of_mix)
def test_a_mix_lies_between_its_parts(parts: list[tuple[float, float]]) -> None:
    lightest, heaviest = min(d for d, _ in parts), max(d for d, _ in parts)
    assert lightest * (1 - 1e-12) <= mix_density(parts) <= heaviest * (1 + 1e-12)


@given(parts_of_mix, st.floats(0.01, 100))
def test_the_size_of_the_batch_does_not_matter(
    parts: list[tuple[float, float]], times: float
) -> None:
    larger = [(d, mass * times) for d, mass in parts]
    assert mix_density(larger) == pytest.approx(mix_density(parts))


@given(parts_of_mix)
def test_volumes_add(parts: list[tuple[float, float]]) -> None:
    total_g = sum(mass for _, mass in parts)
    volume_ml = sum(mass / d for d, mass in parts)
    assert total_g / mix_density(parts) == pytest.approx(volume_ml)


@pytest.mark.parametrize(
    ("parts", "key"),
    [
        ([], "density.nothing-to-mix"),
        ([(0.9, 0)], "density.nothing-to-mix"),
        ([(0.9, -1), (0.9, 5)], "density.mass"),
        ([(0.9, math.nan)], "density.mass"),
        ([(0, 10)], "density.range"),
        ([(0.49, 10)], "density.range"),
        ([(870, 10)], "density.range"),
        ([(math.inf, 10)], "density.range"),
    ],
)
def test_a_mix_that_cannot_be_is_refused(parts: list[tuple[float, float]], key: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        mix_density(parts)
    assert caught.value.key == key


# CRC Handbook densities at °C, with the saponification value of the pure substance; iodine 0.
# Lund's formula states 15 °C; the slope brings it within 0.003 g/mL.
TRIGLYCERIDES = {
    "tristearin": (188.8, 90, 0.8559, 0.8546),
    "tripalmitin": (208.5, 70, 0.8752, 0.8738),
    "trimyristin": (232.8, 60, 0.8848, 0.8876),
    "trilaurin": (263.4, 55, 0.8986, 0.9001),
}


@pytest.mark.parametrize("name", TRIGLYCERIDES)
def test_lund_is_near_the_handbook(name: str) -> None:
    saponification, celsius, handbook, worked = TRIGLYCERIDES[name]
    found = lund_density(saponification, 0, celsius)
    assert found == pytest.approx(handbook, abs=0.003)
    assert found == pytest.approx(worked, abs=6e-5)


# Saponification and iodine values of usual waxes; worked at 60, 70 and 80 °C.
LUND = [
    (190, 2, (0.8751, 0.8685, 0.8619)), (190, 55, (0.8825, 0.8759, 0.8693)),
    (255, 2, (0.8946, 0.8880, 0.8814)), (203, 10, (0.8801, 0.8735, 0.8669)),
    (188, 3, (0.8746, 0.8680, 0.8614)), (174, 3, (0.8704, 0.8638, 0.8572)),
]  # fmt: skip


@pytest.mark.parametrize(("saponification", "iodine", "worked"), LUND)
def test_lund_is_the_worked_table(
    saponification: float, iodine: float, worked: tuple[float, ...]
) -> None:
    for celsius, g_per_ml in zip((60, 70, 80), worked, strict=True):
        assert lund_density(saponification, iodine, celsius) == pytest.approx(g_per_ml, abs=6e-5)


def test_the_slope_is_near_that_of_a_fatty_ester() -> None:
    # Methyl stearate, CoolProp: -0.73 kg/m³ for each °C between 50 and 90 °C.
    from CoolProp.CoolProp import PropsSI

    def reference(celsius: float) -> float:
        return float(PropsSI("D", "T", 273.15 + celsius, "P", 101325, "MethylStearate")) / 1000

    for celsius in (50, 60, 80, 90):
        assert liquid_density(reference(70), celsius) == pytest.approx(
            reference(celsius), abs=0.0016
        )


def test_ten_degrees_are_three_quarters_of_a_percent() -> None:
    # 0.00066·10/0.87 = 0.76 %.
    assert liquid_density(0.870, 60) == pytest.approx(0.8766)
    assert 1 - liquid_density(0.870, 80) / 0.870 == pytest.approx(0.0075, abs=1.5e-4)


def test_oil_grows_as_it_warms() -> None:
    # 0.97 g/mL at 20 °C is about 0.94 at 65 °C; common practice, no source.
    assert oil_density(0.97, 20) == 0.97
    assert oil_density(0.97, 65) == pytest.approx(0.94, abs=5e-3)


@given(density, st.floats(-10, 199), st.floats(0.1, 1))
def test_warmer_is_lighter(g_per_ml: float, celsius: float, more: float) -> None:
    assert liquid_density(g_per_ml, celsius + more) < liquid_density(g_per_ml, celsius)
    assert oil_density(g_per_ml, celsius + more) < oil_density(g_per_ml, celsius)


@pytest.mark.parametrize("celsius", [-11, 201, math.nan, math.inf])
def test_temperatures_that_cannot_be_are_refused(celsius: float) -> None:
    for ask in (liquid_density, oil_density):
        with pytest.raises(OutOfRange) as caught:
            ask(0.87, celsius)
        assert caught.value.key == "density.temperature"


@pytest.mark.parametrize("values", [(99, 5), (401, 5), (190, -1), (190, 251), (math.nan, 5)])
def test_values_of_a_fat_that_cannot_be_are_refused(values: tuple[float, float]) -> None:
    with pytest.raises(OutOfRange):
        lund_density(*values, 70)
