"""Water, air and the factor between what a scale reads and what a vessel holds."""

from __future__ import annotations

import math

from wickbench.domain.ranges import within

STANDARD_PRESSURE_HPA = 1013.25
USUAL_HUMIDITY_PERCENT = 50.0

# Density by convention of the weights a scale is adjusted with (OIML R 33), kg/m³.
_WEIGHTS_DENSITY = 8000.0
_ZERO_CELSIUS_K = 273.15

# ISO 2533, lowest layer: temperature at sea level, lapse rate, g·M/(R·lapse), radius of the earth.
_SEA_LEVEL_K = 288.15
_LAPSE_K_PER_M = 0.0065
_LAPSE_EXPONENT = 5.25588
_EARTH_RADIUS_M = 6_356_766.0


def water_density(celsius: float) -> float:
    """Density of air-free pure water at 1013.25 hPa in kg/m³.

    Source: Tanaka et al., Metrologia 38 (2001) 301, recommended by the CIPM; 0 to 40 °C.

    Raises:
        OutOfRange: outside 0 to 40 °C.
    """
    t = within(celsius, 0.0, 40.0, "water.temperature", unit="c")
    ratio = (t - 3.983035) ** 2 * (t + 301.797) / (522528.9 * (t + 69.34881))
    return 999.974950 * (1.0 - ratio)


def air_density(
    celsius: float,
    hectopascal: float = STANDARD_PRESSURE_HPA,
    humidity_percent: float = USUAL_HUMIDITY_PERCENT,
) -> float:
    """Density of room air in kg/m³, by the simplified formula of OIML R 111 (E.3).

    Raises:
        OutOfRange: outside -10 to 60 °C, 300 to 1100 hPa or 0 to 100 % relative humidity.
    """
    t = within(celsius, -10.0, 60.0, "water.air-temperature", unit="c")
    p = within(hectopascal, 300.0, 1100.0, "water.air-pressure")
    h = within(humidity_percent, 0.0, 100.0, "water.air-humidity", unit="percent")
    return (0.34848 * p - 0.009 * h * math.exp(0.061 * t)) / (_ZERO_CELSIUS_K + t)


def z_factor(
    celsius: float,
    hectopascal: float = STANDARD_PRESSURE_HPA,
    humidity_percent: float = USUAL_HUMIDITY_PERCENT,
) -> float:
    """Millilitres for each gram of water that the scale reads in air (ISO 8655-6).

    Air buoys the water up and the scale was adjusted with weights of 8000 kg/m³. Air and water
    are taken to be equally warm.

    Raises:
        OutOfRange: outside 0 to 40 °C, 300 to 1100 hPa or 0 to 100 % relative humidity.
    """
    water = water_density(celsius)
    air = air_density(celsius, hectopascal, humidity_percent)
    return 1000.0 * (1.0 - air / _WEIGHTS_DENSITY) / (water - air)


def pressure_at_altitude(metres: float) -> float:
    """Usual air pressure in hPa at a height above the sea (ISO 2533 standard atmosphere).

    Raises:
        OutOfRange: outside -500 to 9000 m.
    """
    height = within(metres, -500.0, 9000.0, "water.altitude")
    geopotential = _EARTH_RADIUS_M * height / (_EARTH_RADIUS_M + height)
    warmth = 1.0 - _LAPSE_K_PER_M * geopotential / _SEA_LEVEL_K
    return STANDARD_PRESSURE_HPA * float(warmth**_LAPSE_EXPONENT)
