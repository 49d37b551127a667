"""How heavy wax, oil and their mixes are, warm and cold."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import fsum

from wickbench.domain.errors import OutOfRange
from wickbench.domain.ranges import within

LOWEST_G_PER_ML = 0.5
HIGHEST_G_PER_ML = 2.0
LOWEST_C = -10.0
HIGHEST_C = 200.0

# Fats lose 0.00064 to 0.00072, alkanes 0.00062 to 0.00069 g/mL for each °C.
LIQUID_SLOPE_G_PER_ML_C = 0.00066
# Usual for fragrance oils; common practice, no source.
OIL_EXPANSION_PER_C = 0.0008

_REFERENCE_C = 70.0
_OIL_REFERENCE_C = 20.0
_MOST_MASS_G = 1e9


def checked_density(g_per_ml: float) -> float:
    """Give a density in g/mL back when a wax, an oil or an additive can have it.

    Raises:
        OutOfRange: outside 0.5 to 2.0 g/mL.
    """
    return within(g_per_ml, LOWEST_G_PER_ML, HIGHEST_G_PER_ML, "density.range")


def mix_density(parts: Mapping[float, float] | Iterable[tuple[float, float]]) -> float:
    """Density of a mix in g/mL whose parts keep their own volumes: Σm / Σ(m/ρ).

    Args:
        parts: mass in g by density in g/mL, or pairs (density in g/mL, mass in g); pairs may
            name the same density twice.

    Raises:
        OutOfRange: for a density outside 0.5 to 2.0 g/mL, a negative mass, or nothing to mix.
    """
    pairs = tuple(parts.items() if isinstance(parts, Mapping) else parts)
    for density, mass_g in pairs:
        checked_density(density)
        within(mass_g, 0.0, _MOST_MASS_G, "density.mass", unit="g")
    mass_g = fsum(mass for _, mass in pairs)
    if mass_g <= 0.0:
        raise OutOfRange("density.nothing-to-mix")
    return mass_g / fsum(mass / density for density, mass in pairs)


def liquid_density(at_70_g_per_ml: float, celsius: float) -> float:
    """Density in g/mL of a melted wax at ``celsius``: ρ70 − 0.00066·(T − 70).

    Raises:
        OutOfRange: for a density outside 0.5 to 2.0 g/mL or a temperature outside -10 to 200 °C.
    """
    at_70 = checked_density(at_70_g_per_ml)
    return at_70 - LIQUID_SLOPE_G_PER_ML_C * (_checked_temperature(celsius) - _REFERENCE_C)


def oil_density(at_20_g_per_ml: float, celsius: float) -> float:
    """Density in g/mL of a fragrance oil at ``celsius``, grown by 0.08 % of volume for each °C.

    Raises:
        OutOfRange: for a density outside 0.5 to 2.0 g/mL or a temperature outside -10 to 200 °C.
    """
    at_20 = checked_density(at_20_g_per_ml)
    return at_20 / (1 + OIL_EXPANSION_PER_C * (_checked_temperature(celsius) - _OIL_REFERENCE_C))


def lund_density(saponification: float, iodine: float, celsius: float) -> float:
    """Density in g/mL of a melted fat or vegetable wax from its saponification and iodine values.

    Source: Lund 1922 as given by Pryde, Physical Properties of Soybean Oil, for 15 °C; carried to
    ``celsius`` with the slope used for every wax. Good to 0.003 g/mL.

    Raises:
        OutOfRange: for a saponification value outside 100 to 400, an iodine value outside 0 to
            250 or a temperature outside -10 to 200 °C.
    """
    sv = within(saponification, 100.0, 400.0, "density.saponification")
    iv = within(iodine, 0.0, 250.0, "density.iodine")
    at_15 = 0.8475 + 0.00030 * sv + 0.00014 * iv
    return at_15 - LIQUID_SLOPE_G_PER_ML_C * (_checked_temperature(celsius) - 15.0)


def _checked_temperature(celsius: float) -> float:
    return within(celsius, LOWEST_C, HIGHEST_C, "density.temperature", unit="c")
