"""Units against their published definitions, with a general registry as second opinion."""

import math
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.errors import OutOfRange
from wickbench.domain.quantities import _factors, convert, to_base, units_of
from wickbench.domain.unit_table import BY_NAME, KINDS, UNITS, unit_name

# NIST Handbook 44 (2023) Appendix C, "exact" figures; NIST SP 811 (2008) Appendix B.8 for the inch.
PUBLISHED = [
    ("lb", "mass", "453.59237"),
    ("oz", "mass", "28.349523125"),
    ("gal", "volume", "3785.411784"),
    ("qt", "volume", "946.352946"),
    ("pt", "volume", "473.176473"),
    ("cup", "volume", "236.5882365"),
    ("fl oz", "volume", "29.5735295625"),
    ("in", "length", "25.4"),
    ("ft", "length", "304.8"),
    # Weights and Measures Act 1985 (UK), Schedule 1: gallon = 4.546 09 cubic decimetres.
    ("UK gal", "volume", "4546.09"),
    ("UK pt", "volume", "568.26125"),
    ("UK fl oz", "volume", "28.4130625"),
]


@pytest.mark.parametrize(("unit", "kind", "figure"), PUBLISHED)
def test_factors_are_exactly_the_published_ones(unit: str, kind: str, figure: str) -> None:
    assert _factors()[unit] == (Fraction(figure), 0)
    assert to_base(1.0, kind, unit) == float(figure)


@pytest.mark.parametrize(
    ("celsius", "other", "unit"),
    [(0.0, 32.0, "°F"), (100.0, 212.0, "°F"), (-40.0, -40.0, "°F"), (0.0, 273.15, "K"),
     (37.0, 98.6, "°F")],
)  # fmt: skip
def test_temperatures_at_fixed_points(celsius: float, other: float, unit: str) -> None:
    """NIST SP 811 B.8: t/°C = (t/°F - 32)/1.8 and T/K - 273.15."""
    assert to_base(other, "temperature", unit) == pytest.approx(celsius, abs=1e-12)
    assert convert(celsius, "temperature", unit) == pytest.approx(other, abs=1e-12)


IN_GENERAL_REGISTRY = {
    "UK gal": "imperial_gallon", "UK qt": "imperial_quart", "UK pt": "imperial_pint",
    "UK fl oz": "imperial_fluid_ounce", "fl oz": "fluid_ounce", "°C": "degC", "°F": "degF",
    "K": "kelvin", "m³": "m**3", "wk": "week", "d": "day",
}  # fmt: skip


@pytest.fixture(scope="module")
def general() -> pint.UnitRegistry:
    return pint.UnitRegistry()


@pytest.mark.parametrize("unit", [unit.name for unit in UNITS if unit.name != "%"])
def test_a_general_registry_has_the_same_factors(general: pint.UnitRegistry, unit: str) -> None:
    kind = BY_NAME[unit].kind
    base = KINDS[kind].base
    for amount in (1.0, 7.25):
        theirs = general.Quantity(amount, IN_GENERAL_REGISTRY.get(unit, unit)).m_as(
            IN_GENERAL_REGISTRY.get(base, base)
        )
        assert to_base(amount, kind, unit) == pytest.approx(theirs, rel=1e-12, abs=1e-11)


def test_ratios() -> None:
    """From the exact pound and US gallon above; 1 oz to 16 oz is one sixteenth."""
    assert to_base(1.0, "load", "oz/lb") == 6.25
    assert to_base(860.0, "density", "kg/m³") == 0.86
    assert to_base(1.0, "density", "lb/gal") == pytest.approx(453.59237 / 3785.411784, rel=1e-15)


SHOWN = [(kind, unit) for kind in KINDS for unit in units_of(kind)]


@pytest.mark.parametrize(("kind", "unit"), SHOWN)
@given(value=st.floats(-1e9, 1e9))
def test_there_and_back_again(kind: str, unit: str, value: float) -> None:
    back = to_base(convert(value, kind, unit), kind, unit)
    assert math.isclose(back, value, rel_tol=1e-14, abs_tol=1e-12)


def test_the_base_unit_stands_first_and_every_shown_unit_has_a_name_that_is_read() -> None:
    for kind, rules in KINDS.items():
        assert units_of(kind)[0] == rules.base
        for unit in units_of(kind):
            if unit not in ("", "lb oz"):
                assert unit_name(unit) == unit


def test_no_spelling_means_two_units() -> None:
    typed = [word for unit in UNITS for word in (unit.name.lower(), *unit.typed)]
    assert len(typed) == len(set(typed))
    assert all(word == word.lower() and unit_name(word) for word in typed)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_numbers_without_end_are_refused(value: float) -> None:
    for act in (convert, to_base):
        for unit in ("g", "oz"):
            with pytest.raises(OutOfRange):
                act(value, "mass", unit)


@pytest.mark.parametrize(
    ("kind", "unit"),
    [("mass", "mL"), ("mass", "%"), ("load", "g/mL"), ("volume", "oz"), ("mass", "furlong"),
     ("count", "g"), ("density", "oz/lb"), ("mass", ""), ("mass", "oz/")],
)  # fmt: skip
def test_units_of_another_kind_are_refused(kind: str, unit: str) -> None:
    with pytest.raises(OutOfRange) as refusal:
        convert(1.0, kind, unit)
    assert refusal.value.key == "quantity.wrong-unit"
