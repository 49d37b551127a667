"""Water, air and Z against IAPWS-95, CoolProp, CIPM-2007 and worked values."""

from __future__ import annotations

import math

import pytest

from wickbench.domain.vessels import Weighing, measured_capacity
from wickbench.domain.water import STANDARD_PRESSURE_HPA, air_density, water_density, z_factor

# IAPWS-95 at 101 325 Pa, kg/m³, and formula of Tanaka et al. minus it, g/m³ (library iapws).
IAPWS = {
    5: (999.96663, 0.149), 10: (999.70247, 0.231), 15: (999.10262, -0.050),
    18: (998.59863, -0.272), 20: (998.20715, -0.405), 22: (997.77349, -0.513),
    23: (997.54139, -0.555), 25: (997.04764, -0.615), 30: (995.64945, -0.657),
    35: (994.03331, -0.713), 40: (992.21635, -1.144),
}  # fmt: skip
MEGAPASCAL = 0.101325


@pytest.mark.parametrize(("celsius", "row"), IAPWS.items())
def test_water_against_iapws_95(celsius: int, row: tuple[float, float]) -> None:
    from iapws import IAPWS95

    reference, difference = row
    live = IAPWS95(T=273.15 + celsius, P=MEGAPASCAL).rho
    assert live == pytest.approx(reference, abs=6e-6)
    assert 1000 * (water_density(celsius) - live) == pytest.approx(difference, abs=6e-3)


def test_the_largest_difference_is_a_little_over_a_millionth() -> None:
    from CoolProp.CoolProp import PropsSI
    from iapws import IAPWS95

    off: dict[int, float] = {}
    for celsius in range(5, 41):
        live = IAPWS95(T=273.15 + celsius, P=MEGAPASCAL).rho
        other = float(PropsSI("D", "T", 273.15 + celsius, "P", 101325, "Water"))
        assert live == pytest.approx(other, abs=2e-6), "the two libraries are the same formula"
        off[celsius] = abs(water_density(celsius) - live)
    assert max(off, key=lambda celsius: off[celsius]) == 40
    assert 1000 * max(off.values()) == pytest.approx(1.144, abs=1e-3)
    assert 1e6 * max(off.values()) / water_density(40) == pytest.approx(1.15, abs=5e-3)


def test_a_degree_is_two_hundredths_of_a_percent_of_volume() -> None:
    # Slope at 20 °C: -0.2065 kg/m³ for each °C; CoolProp's partial derivative is the same.
    from CoolProp.CoolProp import PropsSI

    slope = (water_density(20.01) - water_density(19.99)) / 0.02
    assert slope == pytest.approx(-0.2065, abs=5e-5)
    reference = PropsSI("d(D)/d(T)|P", "T", 293.15, "P", 101325, "Water")
    assert slope == pytest.approx(float(reference), abs=1e-4)
    assert z_factor(21) / z_factor(20) - 1 == pytest.approx(0.00021, abs=6e-6)


def test_air_in_the_water_may_be_left_out() -> None:
    # Bignell, from memory: -0.004612 + 0.000106 t kg/m³, -2.5 g/m³ at 20 °C. In a litre that is
    # less than the finest step of a kitchen scale by a factor of forty.
    less = -0.004612 + 0.000106 * 20
    assert 1000 * less == pytest.approx(-2.5, abs=0.01)
    assert abs(less) / water_density(20) * 1000 < 0.1 / 30


def cipm_2007(celsius: float, hectopascal: float, humidity_percent: float) -> float:
    """Density of moist air with 0.04 % CO2 (Picard et al., Metrologia 45 (2008) 149)."""
    kelvin, pascal, t = celsius + 273.15, hectopascal * 100, celsius
    saturated = math.exp(
        1.2378847e-5 * kelvin**2 - 1.9121316e-2 * kelvin + 33.93711047 - 6.3431645e3 / kelvin
    )
    enhancement = 1.00062 + 3.14e-8 * pascal + 5.6e-7 * t**2
    vapour = humidity_percent / 100 * enhancement * saturated / pascal
    bracket = (
        1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t**2
        + (5.707e-6 - 2.051e-8 * t) * vapour + (1.9898e-4 - 2.376e-6 * t) * vapour**2
    )  # fmt: skip
    squeezed = 1 - pascal / kelvin * bracket
    squeezed += (pascal / kelvin) ** 2 * (1.83e-11 - 0.765e-8 * vapour**2)
    return 3.483740e-3 * pascal / (squeezed * kelvin) * (1 - 0.3780 * vapour)


# Full formula, simplified formula, and the other simplified one (as in documents on ISO 4787).
ROOMS = {
    (20, 1013.25, 50): (1.19931, 1.19929, 1.19927),
    (15, 1013.25, 50): (1.22163, 1.22150, 1.22227),
    (25, 1013.25, 50): (1.17732, 1.17736, 1.17704),
}


@pytest.mark.parametrize(("room", "row"), ROOMS.items())
def test_air_by_three_formulas(
    room: tuple[float, float, float], row: tuple[float, float, float]
) -> None:
    full, simplified, other = row
    t, p, h = room
    assert cipm_2007(*room) == pytest.approx(full, abs=5e-6)
    assert air_density(*room) == pytest.approx(simplified, abs=6e-6)
    by_other = (0.34844 * p + h * (-0.00252 * t + 0.020582)) / (t + 273.15)
    assert by_other == pytest.approx(other, abs=6e-6)
    assert air_density(*room) == pytest.approx(by_other, rel=7e-4)


def test_air_is_near_the_full_formula_in_any_workshop() -> None:
    # Simplified against CIPM-2007: 1.4·10⁻⁴ in the rooms above.
    for t in range(14, 31, 2):
        for h in (20, 50, 80):
            for p in (850, 950, STANDARD_PRESSURE_HPA):
                assert air_density(t, p, h) == pytest.approx(cipm_2007(t, p, h), rel=4e-4)
    for room in ROOMS:
        assert air_density(*room) == pytest.approx(cipm_2007(*room), rel=1.4e-4)


# Z at 1013.25 hPa and 50 %, mL/g, by hand from the two densities.
Z = {15: 1.00197, 18: 1.00247, 20: 1.00285, 22: 1.00328, 25: 1.00400, 30: 1.00539}


@pytest.mark.parametrize(("celsius", "z"), Z.items())
def test_z_to_five_decimals(celsius: float, z: float) -> None:
    from iapws import IAPWS95

    assert z_factor(celsius) == pytest.approx(z, abs=5.1e-6)
    water = IAPWS95(T=273.15 + celsius, P=MEGAPASCAL).rho / 1000
    air = cipm_2007(celsius, STANDARD_PRESSURE_HPA, 50) / 1000
    assert z_factor(celsius) == pytest.approx((1 - air / 8) / (water - air), abs=2e-6)


# ISO 8655-6, as reprinted in a pipette manufacturer's manual.
@pytest.mark.parametrize(
    ("celsius", "hectopascal", "printed"),
    [(15, 960, 1.0019), (20, 1013, 1.0029), (25, 1013, 1.0040), (30, 1067, 1.0055)],
)
def test_z_as_printed(celsius: float, hectopascal: float, printed: float) -> None:
    # Printed to four decimals; a few of the 60 entries differ by one in the last.
    assert z_factor(celsius, hectopascal) == pytest.approx(printed, abs=5.6e-5)


def test_a_jar_brought_back_to_twenty_degrees() -> None:
    # 253.4 g at 22 °C: 254.231 mL, at 20 °C 254.218 (soda-lime glass 2.5·10⁻⁵/K, from memory).
    weighing = [Weighing(0, 253.4, 22)]
    assert measured_capacity(weighing).volume_ml == pytest.approx(254.231, abs=6e-4)
    at_20 = measured_capacity(weighing, glass_expansion_per_c=2.5e-5)
    assert at_20.volume_ml == pytest.approx(254.218, abs=6e-4)
    # Taking grams for millilitres would be wrong by a third of a percent.
    assert measured_capacity(weighing).volume_ml / 253.4 - 1 == pytest.approx(0.0033, abs=5e-5)


def test_what_wax_weighs_in_air_is_what_is_sold() -> None:
    # True mass by reading (1 - ρa/ρb)/(1 - ρa/ρ) for 0.90 g/mL: 1.001184; never corrected for,
    # because all weights of trade are readings in air (OIML R 111 convention).
    air = air_density(20) / 1000
    assert (1 - air / 8) / (1 - air / 0.90) == pytest.approx(1.001184, abs=1e-6)
