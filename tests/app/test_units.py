"""Units as people read and type them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app.units import Units
from wickbench.domain.quantities import parse

METRIC = {"mass": ("g", ""), "volume": ("mL", ""), "length": ("mm", ""), "temperature": ("°C", "")}
OUNCES = {
    "mass": ("oz", "g"), "volume": ("fl oz", "mL"), "length": ("in", "mm"),
    "temperature": ("°F", "°C"),
}  # fmt: skip
POUNDS = {**OUNCES, "mass": ("lb oz", "g")}
SYSTEMS = (METRIC, OUNCES, POUNDS)
# Smallest and largest value, and the stored step, of each kind in its base unit.
KINDS = {
    "mass": (0.0, 90_000.0), "volume": (0.0, 90_000.0), "length": (0.0, 5_000.0),
    "temperature": (-40.0, 250.0), "percent": (0.0, 100.0), "density": (0.1, 3.0),
}  # fmt: skip


def test_both_units_stand_side_by_side() -> None:
    # 1 lb = 453.59237 g, 1 oz = 28.349523125 g, exact: NIST SP 811, appendix B.
    assert Units().read(453.59237 * 6 + 28.349523125 * 12.3, "mass") == "3070 g · 6 lb 12.3 oz"
    assert Units().read(180.0, "temperature") == "180 °C · 356 °F"


def test_a_scale_gives_the_digits() -> None:
    assert Units(shown=METRIC).read(12.34, "mass", step=0.01) == "12.34 g"
    assert Units(shown=METRIC).read(3070.2, "mass", step=1.0) == "3070 g"


def test_a_weight_on_the_shelf_is_told_in_kilograms() -> None:
    units = Units(shown=METRIC)
    assert units.bulk(4200.0) == "4.2 kg"
    assert units.bulk(999.9) == "999.9 g"
    assert units.bulk(-1500.0) == "−1.5 kg"
    assert Units().bulk(10_000.0) == "10 kg · 22 lb 0.7 oz"
    assert Units().bulk(10_000.0, both=False) == "10 kg"


@pytest.mark.parametrize(
    ("kind", "low", "high", "expected"),
    [
        ("temperature", 74.0, 85.0, "74–85 °C"),
        ("length", 6.0, 6.0, "6 mm"),
        ("days", 7, 14, "7–14 d"),
        ("density", 0.87, 0.87, "0.870 g/mL"),
    ],
)
def test_from_one_value_to_another(kind: str, low: float, high: float, expected: str) -> None:
    assert Units(shown=METRIC).span(low, high, kind) == expected


def test_a_bare_number_in_pounds_and_ounces_is_ounces() -> None:
    assert Units(shown=POUNDS).assumed("mass") == "oz"
    assert Units().assumed("count") is None


@given(
    st.sampled_from(sorted(KINDS)),
    st.floats(0, 1),
    st.sampled_from(SYSTEMS),
    st.sampled_from(["en_US", "de_DE", "fr_FR", "de_CH"]),
)
def test_what_stands_in_a_field_reads_as_what_it_shows(
    kind: str, share: float, shown: dict[str, tuple[str, str]], locale: str
) -> None:
    low, high = KINDS[kind]
    value = low + share * (high - low)
    units = Units(locale=locale, shown=shown)
    text = units.full(value, kind)
    again = parse(text, kind, locale=locale, assume=units.assumed(kind))
    assert units.full(again, kind) == text
    assert again == pytest.approx(value, rel=2e-4, abs=0.06)


@pytest.mark.parametrize(
    ("grams", "shown"),
    [
        # 1 oz = 28.349523125 g (NIST SP 811, appendix B.8)
        (0.04, "0.04 g · 0.0014 oz"), (0.5, "0.5 g · 0.0176 oz"), (1.0, "1.0 g · 0.04 oz"),
        (3.1, "3.1 g · 0.11 oz"), (34.0, "34.0 g · 1.2 oz"), (0.0, "0.0 g · 0.0 oz"),
    ],
)  # fmt: skip
def test_a_speck_of_dye_is_never_nothing(grams: float, shown: str) -> None:
    assert Units().read(grams, "mass").replace("\N{NO-BREAK SPACE}", " ") == shown
