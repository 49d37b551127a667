"""Water, air and the Z factor against published tables and two property libraries."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.errors import OutOfRange
from wickbench.domain.water import air_density, pressure_at_altitude, water_density, z_factor

# ISO 8655-6 / ISO/TR 20461, as printed in a pipette manufacturer's manual: mL/g by °C and hPa.
PRESSURES_HPA = (800, 853, 907, 960, 1013, 1067)
Z_TABLE = """
15    1.0018 1.0018 1.0019 1.0019 1.0020 1.0020
15.5  1.0018 1.0019 1.0019 1.0020 1.0020 1.0021
16    1.0019 1.0020 1.0020 1.0021 1.0021 1.0022
16.5  1.0020 1.0020 1.0021 1.0022 1.0022 1.0023
17    1.0021 1.0021 1.0022 1.0022 1.0023 1.0023
17.5  1.0022 1.0022 1.0023 1.0023 1.0024 1.0024
18    1.0022 1.0023 1.0024 1.0024 1.0025 1.0025
18.5  1.0023 1.0024 1.0025 1.0025 1.0026 1.0026
19    1.0024 1.0025 1.0025 1.0026 1.0027 1.0027
19.5  1.0025 1.0026 1.0026 1.0027 1.0028 1.0028
20    1.0026 1.0027 1.0027 1.0028 1.0029 1.0029
20.5  1.0027 1.0028 1.0028 1.0029 1.0030 1.0030
21    1.0028 1.0029 1.0030 1.0030 1.0031 1.0031
21.5  1.0030 1.0030 1.0031 1.0031 1.0032 1.0032
22    1.0031 1.0031 1.0032 1.0032 1.0033 1.0033
22.5  1.0032 1.0032 1.0033 1.0033 1.0034 1.0035
23    1.0033 1.0033 1.0034 1.0035 1.0035 1.0036
23.5  1.0034 1.0035 1.0035 1.0036 1.0036 1.0037
24    1.0035 1.0036 1.0036 1.0037 1.0038 1.0038
24.5  1.0037 1.0037 1.0038 1.0038 1.0039 1.0039
25    1.0038 1.0038 1.0039 1.0039 1.0040 1.0041
25.5  1.0039 1.0040 1.0040 1.0041 1.0041 1.0042
26    1.0040 1.0041 1.0042 1.0042 1.0043 1.0043
26.5  1.0042 1.0042 1.0043 1.0043 1.0044 1.0045
27    1.0043 1.0044 1.0044 1.0045 1.0045 1.0046
27.5  1.0044 1.0045 1.0046 1.0046 1.0047 1.0047
28    1.0046 1.0046 1.0047 1.0048 1.0048 1.0049
28.5  1.0047 1.0048 1.0048 1.0049 1.0050 1.0050
29    1.0049 1.0049 1.0050 1.0050 1.0051 1.0052
29.5  1.0050 1.0051 1.0051 1.0052 1.0052 1.0053
30    1.0052 1.0052 1.0053 1.0053 1.0054 1.0055
"""
Z_ROWS = [tuple(map(float, line.split())) for line in Z_TABLE.split("\n") if line]

# Tanaka et al., Metrologia 38 (2001) 301, kg/m³ to five decimals.
TANAKA = {
    4: 999.97495, 5: 999.96678, 10: 999.70270, 15: 999.10257, 18: 998.59836, 20: 998.20675,
    22: 997.77298, 23: 997.54083, 25: 997.04702, 30: 995.64880, 35: 994.03260, 40: 992.21521,
}  # fmt: skip


@pytest.mark.parametrize(("celsius", "kg_per_m3"), TANAKA.items())
def test_water_density_is_the_published_formula(celsius: float, kg_per_m3: float) -> None:
    assert water_density(celsius) == pytest.approx(kg_per_m3, abs=6e-6)


@pytest.mark.parametrize("celsius", range(1, 41))
def test_water_density_agrees_with_iapws_95(celsius: int) -> None:
    # IAPWS-95 by the iapws library; the formula's own uncertainty is about 1 ppm.
    from iapws import IAPWS95

    reference = IAPWS95(T=273.15 + celsius, P=0.101325).rho
    assert water_density(celsius) == pytest.approx(reference, abs=1.2e-3)


def test_water_density_agrees_with_coolprop() -> None:
    from CoolProp.CoolProp import PropsSI

    for celsius in range(1, 41, 3):
        reference = PropsSI("D", "T", 273.15 + celsius, "P", 101325, "Water")
        assert water_density(celsius) == pytest.approx(reference, abs=1.2e-3)


def test_water_is_densest_near_four_degrees() -> None:
    # Handbook knowledge: 3.98 °C.
    densest = max(range(1001), key=lambda step: water_density(step / 100))
    assert densest / 100 == pytest.approx(3.98, abs=0.01)


# CIPM-2007 formula of moist air (Picard et al., Metrologia 45 (2008) 149): °C, hPa, % -> kg/m³.
CIPM_2007 = [
    ((20, 1013.25, 50), 1.19931),
    ((15, 1013.25, 50), 1.22163),
    ((25, 1013.25, 50), 1.17732),
]
# The simplified formula itself (OIML R 111, E.3), worked by hand.
SIMPLIFIED = [((22, 980, 40), 1.15241), ((20, 900, 50), 1.06467), ((30, 1013.25, 70), 1.15181)]


@pytest.mark.parametrize(("room", "kg_per_m3"), CIPM_2007)
def test_air_density_is_near_the_full_formula(
    room: tuple[float, float, float], kg_per_m3: float
) -> None:
    # OIML R 111 states 2·10⁻⁴ for the simplified formula.
    assert air_density(*room) == pytest.approx(kg_per_m3, rel=2e-4)


@pytest.mark.parametrize(("room", "kg_per_m3"), SIMPLIFIED)
def test_air_density_follows_pressure_and_humidity(
    room: tuple[float, float, float], kg_per_m3: float
) -> None:
    assert air_density(*room) == pytest.approx(kg_per_m3, abs=6e-6)


@pytest.mark.parametrize("row", Z_ROWS, ids=lambda row: str(row[0]))
def test_z_is_the_iso_8655_table(row: tuple[float, ...]) -> None:
    celsius, *printed = row
    for hectopascal, z in zip(PRESSURES_HPA, printed, strict=True):
        assert abs(z_factor(celsius, hectopascal) - z) <= 1e-4


def test_the_whole_z_table_is_there() -> None:
    assert len(Z_ROWS) == 31
    assert all(len(row) == 7 for row in Z_ROWS)
    # ISO 8655-6 prints four decimals: nearly all agree after rounding, and none by luck of 1e-4.
    worst = max(
        abs(z_factor(row[0], p) - z)
        for row in Z_ROWS
        for p, z in zip(PRESSURES_HPA, row[1:], strict=True)
    )
    assert worst < 6.5e-5


def test_grams_are_not_millilitres() -> None:
    # 253.4 g at 22 °C: ISO 8655-6 gives Z 1.0033, so 254.23 mL.
    assert 253.4 * z_factor(22) == pytest.approx(254.231, abs=6e-4)


# ISO 2533 / US Standard Atmosphere 1976, geometric metres -> hPa, from memory.
ATMOSPHERE = [(0, 1013.25), (500, 954.61), (1000, 898.76), (2000, 795.01), (5000, 540.48)]


@pytest.mark.parametrize(("metres", "hectopascal"), ATMOSPHERE)
def test_pressure_falls_with_altitude(metres: float, hectopascal: float) -> None:
    assert pressure_at_altitude(metres) == pytest.approx(hectopascal, abs=0.02)


@pytest.mark.parametrize("celsius", [-0.1, 40.1, 120, math.nan, math.inf])
def test_water_that_cannot_be_is_refused(celsius: float) -> None:
    with pytest.raises(OutOfRange) as caught:
        water_density(celsius)
    assert caught.value.key == "water.temperature"
    with pytest.raises(OutOfRange):
        z_factor(celsius)


@pytest.mark.parametrize(
    ("room", "key"),
    [
        ((-11, 1013, 50), "water.air-temperature"),
        ((20, 29.9, 50), "water.air-pressure"),
        ((20, math.nan, 50), "water.air-pressure"),
        ((20, 1013, 101), "water.air-humidity"),
        ((20, 1013, -1), "water.air-humidity"),
    ],
)
def test_a_room_that_cannot_be_is_refused(room: tuple[float, float, float], key: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        air_density(*room)
    assert caught.value.key == key


@pytest.mark.parametrize("metres", [-501, 9001, math.nan])
def test_an_altitude_that_cannot_be_is_refused(metres: float) -> None:
    with pytest.raises(OutOfRange):
        pressure_at_altitude(metres)


@given(st.floats(5, 39), st.floats(0.1, 1), st.floats(600, 1080))
def test_warmer_water_needs_more_room(celsius: float, more: float, hectopascal: float) -> None:
    assert z_factor(celsius + more, hectopascal) > z_factor(celsius, hectopascal) > 1
