"""Quantities as text: what stands there, and that it reads back as what it was."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wickbench.domain.errors import OutOfRange
from wickbench.domain.quantities import parse, to_base, units_of
from wickbench.domain.quantity_format import format_quantity, step_digits
from wickbench.domain.unit_table import KINDS

OZ = 28.349523125  # NIST Handbook 44 Appendix C
TENTH_OZ = OZ / 10
LOCALES = ["en_US", "en_IN", "de_DE", "de_CH", "fr_FR", "ar_EG", "sv_SE"]


@pytest.mark.parametrize(
    ("value", "kind", "unit", "options", "text"),
    [
        (3070.0, "mass", "g", {}, "3070 g"),
        (3070.04, "mass", "g", {}, "3070 g"),
        (1020.583, "mass", "g", {}, "1020.6 g"),
        (1020.583, "mass", "g", {"locale": "de_DE"}, "1020,6 g"),
        (3070.0, "mass", "g", {"step": 1.0}, "3070 g"),
        (3070.0, "mass", "g", {"step": 0.1}, "3070.0 g"),
        (3072.5, "mass", "g", {"step": 5.0}, "3075 g"),
        (3072.4, "mass", "g", {"step": 5.0}, "3070 g"),
        (3070.26, "mass", "g", {"step": 0.5}, "3070.5 g"),
        (3070.0, "mass", "kg", {"step": 1.0}, "3.070 kg"),
        (10 * OZ, "mass", "oz", {"step": TENTH_OZ}, "10.0 oz"),
        (10 * OZ, "mass", "oz", {"step": OZ / 20}, "10.00 oz"),
        (10 * OZ, "mass", "oz", {"step": 1.0}, "9.98 oz"),  # 283 g, read off a scale in grams
        (102.9 * OZ, "mass", "lb oz", {}, "6 lb 6.9 oz"),
        (102.9 * OZ, "mass", "lb oz", {"locale": "de_DE"}, "6 lb 6,9 oz"),
        (15.96 * OZ, "mass", "lb oz", {}, "1 lb"),
        (15.96 * OZ, "mass", "lb oz", {"step": TENTH_OZ}, "1 lb 0.0 oz"),
        (15.9 * OZ, "mass", "lb oz", {"digits": 2}, "15.90 oz"),
        (0.0, "mass", "lb oz", {}, "0 oz"),
        (250.0, "volume", "mL", {}, "250 mL"),
        (266.1617660625, "volume", "fl oz", {}, "9 fl oz"),
        (66.675, "length", "in", {}, "2.625 in"),
        (66.675, "length", "mm", {"digits": 0}, "67 mm"),
        (740 / 9, "temperature", "°F", {}, "180 °F"),
        (740 / 9, "temperature", "°C", {"digits": 0}, "82 °C"),
        (-5.0, "temperature", "°C", {}, "−5 °C"),
        (-0.04, "temperature", "°C", {}, "0 °C"),
        (6.25, "load", "%", {}, "6.25 %"),
        (6.25, "load", "%", {"locale": "fr_FR"}, "6,25 %"),
        (6.25, "load", "oz/lb", {}, "1 oz/lb"),
        (0.86, "density", "kg/m³", {}, "860 kg/m³"),
        (12.0, "count", "", {}, "12"),
        (4.5, "money", "", {}, "4.50"),
        (1234.5, "money", "$", {}, "$1234.50"),
        (-1234.5, "money", "€", {"locale": "de_DE"}, "−1234,50 €"),
        (12.345, "money", "CHF", {"locale": "de_CH"}, "12.35 CHF"),
        (0.125, "number", "", {}, "0.125"),
        (90.0, "duration", "h", {}, "1.5 h"),
        (14.0, "days", "d", {}, "14 d"),
    ],
)
def test_shown_as_a_person_reads_it(
    value: float, kind: str, unit: str, options: dict[str, object], text: str
) -> None:
    assert format_quantity(value, kind, unit, **options) == text


SHOWN = [(kind, unit) for kind in KINDS for unit in units_of(kind)]


@settings(max_examples=500)
@given(
    shown=st.sampled_from(SHOWN),
    value=st.floats(0, 1e5),
    digits=st.integers(0, 6),
    locale=st.sampled_from(LOCALES),
)
def test_what_is_shown_reads_back_within_half_a_last_digit(
    shown: tuple[str, str], value: float, digits: int, locale: str
) -> None:
    kind, unit = shown
    value = min(value, KINDS[kind].largest / 2)
    if (most := KINDS[kind].decimals) is not None:
        digits = min(digits, most)
    text = format_quantity(value, kind, unit, digits=digits, locale=locale)
    read = parse(text, kind, locale=locale)
    one, zero = (to_base(n, kind, unit) for n in (1.0, 0.0))
    half = (one - zero) * 0.5 * 10.0**-digits
    assert math.isclose(read, value, rel_tol=1e-12, abs_tol=half * (1 + 1e-9))


@settings(max_examples=200)
@given(
    value=st.floats(-200, 300), unit=st.sampled_from(["°C", "°F"]), locale=st.sampled_from(LOCALES)
)
def test_temperatures_below_zero_read_back(value: float, unit: str, locale: str) -> None:
    text = format_quantity(value, "temperature", unit, locale=locale)
    assert parse(text, "temperature", locale=locale) == pytest.approx(value, abs=0.0501)


@settings(max_examples=200)
@given(
    cents=st.integers(-(10**9), 10**9), sign=st.sampled_from(["", "$", "€", "CHF"]),
    locale=st.sampled_from(LOCALES),
)  # fmt: skip
def test_money_reads_back_to_the_cent(cents: int, sign: str, locale: str) -> None:
    text = format_quantity(cents / 100, "money", sign, locale=locale)
    assert parse(text, "money", locale=locale, assume=sign or None) == cents / 100


@given(
    value=st.floats(0, 1e5), step=st.sampled_from([0.001, 0.01, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10])
)
def test_a_weight_is_shown_as_the_scale_shows_it(value: float, step: float) -> None:
    """Nearest whole step, never more than half a step away, with all digits of the scale."""
    text = format_quantity(value, "mass", "g", step=step)
    shown = parse(text, "mass")
    assert abs(shown - value) <= step / 2 * (1 + 1e-9) + 1e-9
    assert abs(shown / step - round(shown / step)) < 1e-6
    decimals = len(text.removesuffix(" g").partition(".")[2])
    assert decimals == {0.001: 3, 0.01: 2, 0.05: 2, 0.1: 1, 0.2: 1, 0.5: 1}.get(step, 0)


@given(ounces=st.floats(0, 1e4), digits=st.integers(0, 3))
def test_there_are_never_sixteen_ounces_beside_pounds(ounces: float, digits: int) -> None:
    text = format_quantity(ounces * OZ, "mass", "lb oz", digits=digits)
    rest = text.removesuffix(" oz").rpartition(" ")[2]
    assert float(rest) < 16


@pytest.mark.parametrize(
    ("step", "unit", "digits"),
    [(1.0, "g", 0), (5.0, "g", 0), (0.5, "g", 1), (0.02, "g", 2), (TENTH_OZ, "oz", 1),
     (TENTH_OZ, "lb oz", 1), (OZ / 8, "oz", 3), (1.0, "oz", 2), (0.1, "oz", 3), (1.0, "kg", 3),
     (2.0, "kg", 3), (0.25, "g", 2), (0.001, "g", 3), (100.0, "g", 0)],
)  # fmt: skip
def test_digits_of_a_scale(step: float, unit: str, digits: int) -> None:
    assert step_digits(step, "mass", unit) == digits


def test_senseless_input_is_refused() -> None:
    for value in (math.nan, math.inf):
        for kind, unit in (("mass", "g"), ("mass", "oz"), ("money", "$")):
            with pytest.raises(OutOfRange):
                format_quantity(value, kind, unit)
    for step in (0.0, -1.0, math.nan, math.inf):
        with pytest.raises(OutOfRange):
            format_quantity(1.0, "mass", "g", step=step)
        with pytest.raises(OutOfRange):
            step_digits(step, "mass", "g")
    with pytest.raises(OutOfRange):
        format_quantity(1.0, "mass", "mL")
