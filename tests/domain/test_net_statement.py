"""Weights read back from the text of a label, against what a reader takes them to mean."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.net_statement import (
    METRIC,
    POUNDS,
    says_fluid_ounces,
    statements_in,
    weights_in,
    words_in,
)
from wickbench.domain.net_weight import declared_for

# NIST Handbook 44, Appendix C: 1 lb = 453.59237 g exactly, 1 oz = lb/16
OUNCE_MG = Fraction("453592.37") / 16


@pytest.mark.parametrize(
    ("text", "system", "mass_mg"),
    [
        ("8 oz", POUNDS, 8 * OUNCE_MG),
        ("7.79 OZ", POUNDS, Fraction("7.79") * OUNCE_MG),
        ("7 1/2 oz", POUNDS, Fraction(15, 2) * OUNCE_MG),
        ("7½ ounces", POUNDS, Fraction(15, 2) * OUNCE_MG),
        ("1/2 lb", POUNDS, 8 * OUNCE_MG),
        ("1 lb 2 oz", POUNDS, 18 * OUNCE_MG),
        ("2 lbs. 3.27 oz", POUNDS, 32 * OUNCE_MG + Fraction("3.27") * OUNCE_MG),
        ("220 g", METRIC, Fraction(220_000)),
        ("220g", METRIC, Fraction(220_000)),
        ("1,25 kg", METRIC, Fraction(1_250_000)),
        ("1.251 kg", METRIC, Fraction(1_251_000)),
        ("1,250 g", METRIC, Fraction(1_250_000)),
    ],
)
def test_a_weight_is_read_as_it_is_meant(text: str, system: str, mass_mg: Fraction) -> None:
    (said,) = weights_in(text)
    assert (said.system, said.mass_mg) == (system, mass_mg)


@pytest.mark.parametrize(
    "text", ["8 fl oz", "10 good reasons", "40 hours", "26-332-A1", "3 Quay Row", "4 gifts"]
)
def test_what_is_no_weight_is_not_read_as_one(text: str) -> None:
    assert weights_in(text) == ()


def test_fluid_ounces_are_told_from_ounces_by_weight() -> None:
    assert says_fluid_ounces("8 fl. oz")
    assert says_fluid_ounces("8 Fluid Ounces")
    assert not says_fluid_ounces("Net Wt 8 oz (226 g)")
    assert not says_fluid_ounces("a flower, 8 oz")


@pytest.mark.parametrize(
    ("text", "said", "net"),
    [
        ("Soy candle · Net Wt 8 oz (226 g) · Lot 3", "Net Wt 8 oz (226 g)", True),
        ("NET WT 7.79 OZ\n(221 g)", "NET WT 7.79 OZ\n(221 g)", True),
        ("Nettogewicht: 220 g", "Nettogewicht: 220 g", True),
        ("Poids net 220 g", "Poids net 220 g", True),
        ("Peso neto 8 oz (226 g)", "Peso neto 8 oz (226 g)", True),
        ("220 g net", "220 g net", True),
        ("Net contents 220 g", "Net contents 220 g", True),
        ("Net Wt approx. 8 oz", "Net Wt approx. 8 oz", True),
        ("220 g net (7.76 oz)", "220 g net (7.76 oz)", True),
        ("a 16 oz jar", "16 oz", False),
        ("a cabinet of 16 oz", "16 oz", False),
    ],
)
def test_weights_that_stand_together_are_one_statement(text: str, said: str, *, net: bool) -> None:
    (statement,) = statements_in(text)
    assert (statement.text, statement.says_net) == (said, net)
    assert text[statement.start : statement.end].strip() == said


def test_two_statements_apart_are_two() -> None:
    first, second = statements_in("Net Wt 8 oz (226 g), the jar weighs 310 g")
    assert [one.system for one in first.weights] == [POUNDS, METRIC]
    assert second.text == "310 g"


def test_fractions_and_decimals_are_kept_as_they_stand() -> None:
    assert weights_in("7 3/6 oz")[0].fraction == (3, 6)
    assert weights_in("7⅜ oz")[0].fraction == (3, 8)
    assert weights_in("7.795 oz")[0].decimals == 3


def test_words_are_found_whole() -> None:
    assert words_in("GIANT net wt, fullness", ("giant", "full")) == ("giant",)


@given(
    st.integers(5_000, 20_000_000),
    st.sampled_from([("US",), ("EU",), ("US", "UK")]),
    st.sampled_from(["en", "de", "fr", "es"]),
)
def test_what_is_written_is_read_back(
    mass_mg: int, regions: tuple[str, ...], language: str
) -> None:
    """Written by one module, read by another: no figure overstates, and both are found."""
    right = declared_for(mass_mg, regions, language)
    (statement,) = statements_in(right.text)
    assert statement.says_net
    assert {one.system for one in statement.weights} == (
        {METRIC, POUNDS} if "US" in regions else {METRIC}
    )
    assert max(one.mass_mg for one in statement.weights) <= mass_mg + 1
    assert min(one.mass_mg for one in statement.weights) > mass_mg - 10_000
