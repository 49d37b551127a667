"""Declared net weight: rounding down, wording and tables, against the published rules."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Rank
from wickbench.domain.net_weight import (
    check_declared,
    declared,
    declared_for,
    declared_text,
    propose_declared,
)

# NIST Handbook 44, Appendix C: 1 lb = 453.59237 g exactly, 1 oz = lb/16
OUNCE_G = Fraction("453.59237") / 16

MASSES = st.integers(min_value=5_000, max_value=20_000_000)


@pytest.mark.parametrize(
    ("grams", "text"),
    [
        # NIST fact sheet on rounding quoting the UPLR: never overstate, the larger is enforced
        (8 * 28.349523125, "Net Wt 8 oz (226 g)"),
        (200.0, "Net Wt 7.05 oz (200 g)"),
        # exact factor 28.349523125 g/oz
        (4 * 28.349523125, "Net Wt 4 oz (113 g)"),
        (7.8 * 28.349523125, "Net Wt 7.8 oz (221 g)"),
        (100.0, "Net Wt 3.52 oz (100 g)"),
        (300.0, "Net Wt 10.58 oz (300 g)"),
        # 15 U.S.C. 1453(a)(3)(A)(i) as amended 1992: pounds with the remainder in ounces
        (18 * 28.349523125, "Net Wt 1 lb 2 oz (510 g)"),
        (453.59237, "Net Wt 1 lb (453 g)"),
        (500.0, "Net Wt 1 lb 1.63 oz (500 g)"),
        # 16 CFR 500.18: the prefix that keeps the number between 1 and 1000
        (1000.0, "Net Wt 2 lb 3.27 oz (1 kg)"),
        (1500.0, "Net Wt 3 lb 4.91 oz (1.5 kg)"),
    ],
)
def test_us_declaration_rounds_both_figures_down(grams: float, text: str) -> None:
    assert propose_declared(grams, "US").text == text


# Computed from the exact factor: ounces to grams, and grams to ounces, both rounded down.
@pytest.mark.parametrize(
    ("ounces", "grams"),
    [
        ("4", 113.398), ("6", 170.097), ("6.5", 184.272), ("7", 198.447), ("7.5", 212.621),
        ("8", 226.796), ("8.5", 240.971), ("9", 255.146), ("10", 283.495), ("12", 340.194),
        ("16", 453.592), ("18", 510.291), ("20", 566.990),
    ],
)  # fmt: skip
def test_ounces_beside_whole_grams(ounces: str, grams: float) -> None:
    exact_g = Fraction(ounces) * OUNCE_G
    assert float(exact_g) == pytest.approx(grams, abs=6e-4)
    # 15 U.S.C. 1453(a)(3)(A)(i): pounds with the remainder in ounces
    pounds, rest = divmod(Fraction(ounces), 16)
    parts = [f"{pounds} lb"] if pounds else []
    parts += [f"{float(rest):g} oz"] if rest else []
    assert propose_declared(float(exact_g), "US").text == (
        f"Net Wt {' '.join(parts)} ({int(exact_g)} g)"
    )


@pytest.mark.parametrize(
    ("grams", "ounces"),
    [
        (100, 3.5274), (150, 5.2911), (180, 6.3493), (200, 7.0548), (220, 7.7603), (300, 10.5822),
        (400, 14.1096),
    ],
)  # fmt: skip
def test_whole_grams_beside_hundredths_of_an_ounce(grams: int, ounces: float) -> None:
    assert float(grams / OUNCE_G) == pytest.approx(ounces, abs=6e-5)
    shown = f"{int(ounces * 100) / 100:g}"
    assert propose_declared(grams, "US").text == f"Net Wt {shown} oz ({grams} g)"


@pytest.mark.parametrize(
    ("mass_mg", "region", "language", "text"),
    [
        # SI 2006/659 reg. 8: metric first, "net" not abbreviated
        (220_000, "UK", "en", "Net weight 220 g"),
        (220_900, "EU", "de", "Nettogewicht 220 g"),
        (1_250_000, "EU", "fr", "Poids net 1,25 kg"),
        (226_796, "US", "es", "Peso neto 8 oz (226 g)"),
    ],
)
def test_declaration_by_region_and_language(
    mass_mg: int, region: str, language: str, text: str
) -> None:
    assert declared_text(mass_mg, region, language) == text


def test_imperial_beside_metric_only_when_wanted() -> None:
    assert declared(200_000, "UK", other_units=True).text == "Net weight 200 g (7.05 oz)"
    assert declared(200_000, "UK").text == "Net weight 200 g"


@pytest.mark.parametrize(
    ("regions", "text"),
    [
        (("US",), "Net Wt 7.76 oz (220 g)"),
        # 15 U.S.C. 1453(a)(2) names no order; SI 2006/659 reg. 8 wants metric first, "net" whole
        (("US", "EU"), "Net weight 220 g (7.76 oz)"),
        (("US", "EU", "UK"), "Net weight 220 g (7.76 oz)"),
        (("EU", "UK"), "Net weight 220 g"),
        ((), "Net Wt 7.76 oz (220 g)"),
    ],
)
def test_one_declaration_serves_every_region_sold_in(regions: tuple[str, ...], text: str) -> None:
    assert declared_for(220_000, regions).text == text
    assert " ".join(declared_for(220_000, regions).lines) == text


def test_a_coarser_step_rounds_down_to_it() -> None:
    assert propose_declared(224.0, "US", step=Fraction(1, 10)).text == "Net Wt 7.9 oz (223 g)"
    assert propose_declared(224.0, "EU", step=Fraction(10)).text == "Net weight 220 g"


def figures_g(text: str) -> list[Fraction]:
    """Read each figure of a declaration back, without the code under test."""
    weights = {"g": Fraction(1), "kg": Fraction(1000), "oz": OUNCE_G, "lb": OUNCE_G * 16}
    found: list[Fraction] = []
    for part in text.removesuffix(")").split("("):
        words = [word for word in part.split() if word[0].isdigit() or word in weights]
        pairs = zip(words[::2], words[1::2], strict=True)
        found.append(sum((Fraction(n) * weights[unit] for n, unit in pairs), Fraction(0)))
    return found


@given(MASSES)
def test_no_figure_overstates_and_little_is_given_away(mass_mg: int) -> None:
    ounces_g, metric_g = figures_g(propose_declared(mass_mg / 1000, "US").text)
    tolerance_g = Fraction(1, 1000)
    # 16 CFR 500.17: two decimals at most, of an ounce as of a kilogram
    metric_step_g = Fraction(1) if mass_mg < 999_999 else Fraction(10)
    for figure_g, step_g in ((ounces_g, OUNCE_G / 100), (metric_g, metric_step_g)):
        assert figure_g <= Fraction(mass_mg, 1000) + tolerance_g
        assert figure_g > Fraction(mass_mg, 1000) - step_g


@given(MASSES, st.sampled_from(["US", "EU", "UK"]))
def test_declaring_the_declared_changes_nothing(mass_mg: int, region: str) -> None:
    proposed = propose_declared(mass_mg / 1000, region)
    assert proposed.mass_mg <= mass_mg + 1  # one unit of tolerance
    assert declared_text(proposed.mass_mg, region) == proposed.text


@given(MASSES, st.integers(min_value=0, max_value=5_000), st.sampled_from(["US", "EU"]))
def test_more_wax_never_declares_less(mass_mg: int, more_mg: int, region: str) -> None:
    less = propose_declared(mass_mg / 1000, region)
    more = propose_declared((mass_mg + more_mg) / 1000, region)
    assert less.mass_mg <= more.mass_mg
    assert all(a <= b for a, b in zip(figures_g(less.text), figures_g(more.text), strict=True))


def test_plan_below_the_declared_weight_stops() -> None:
    (finding,) = check_declared(226_796, 226.0, "US")
    assert (finding.rank, finding.key) == (Rank.STOPS, "net-weight.below-declared")
    assert finding.data["difference_g"] == pytest.approx(0.796)


def test_one_milligram_is_not_below() -> None:
    assert check_declared(226_796, 226.795, "US") == ()
    assert check_declared(226_796, 226.794, "US")[0].rank is Rank.STOPS


def test_plan_far_above_is_noted() -> None:
    (finding,) = check_declared(200_000, 211.0, "EU")
    assert (finding.rank, finding.key) == (Rank.NOTE, "net-weight.far-above")
    assert check_declared(200_000, 209.9, "EU") == ()
    assert check_declared(20_000, 22.0, "EU") == ()


@pytest.mark.parametrize("grams", [0.0, -5.0, float("nan"), float("inf"), 0.4, 25_001.0])
def test_senseless_weights_are_refused(grams: float) -> None:
    with pytest.raises(OutOfRange):
        propose_declared(grams, "US")


def test_unknown_region_is_refused() -> None:
    with pytest.raises(OutOfRange):
        declared_text(200_000, "MOON")
