"""Tables of standards as the program reads them, against the published rows."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app.standards import CAUTION_LANGUAGES, caution_rules, net_rules
from wickbench.domain.caution_statements import KINDS
from wickbench.domain.errors import OutOfRange
from wickbench.domain.net_rules import (
    maximum_variation_mg,
    min_figure_height_mm,
    pdp_area_cm2,
    tolerable_error_mg,
)

INCH_MM = 25.4
SQUARE_INCH_CM2 = 6.4516
FACTS = {"trim", "hours", "stop", "apart", "edge"}


@pytest.mark.parametrize("region", ["US", "EU", "UK"])
@pytest.mark.parametrize("kind", KINDS)
def test_one_set_covers_every_region_and_kind(region: str, kind: str) -> None:
    covering = [s for s in caution_rules() if region in s.regions and kind in s.kinds]
    assert len(covering) == 1
    assert any(s.mandatory and kind in s.kinds for s in covering[0].statements)


def test_every_statement_is_whole_in_every_language() -> None:
    for statements in caution_rules():
        assert set(statements.signal) >= set(CAUTION_LANGUAGES)
        for statement in statements.statements:
            assert set(statement.texts) >= set(CAUTION_LANGUAGES), statement.key
            assert statement.source
            assert statement.date
            assert statement.tag in {"read", "secondary", "memory", "practice"}
            assert set(statement.needs) <= FACTS
            for text in statement.texts.values():
                assert text.strip() == text != ""
                assert set(re.findall(r"{(\w+)}", text)) == set(statement.needs), statement.key
            if statement.mandatory:
                assert not statement.needs, "a mandatory line must not wait for a fact"


def test_keys_are_unique_and_no_text_claims_conformity() -> None:
    for statements in caution_rules():
        keys = [statement.key for statement in statements.statements]
        assert len(keys) == len(set(keys))
        said = " ".join(text for s in statements.statements for text in s.texts.values()).lower()
        assert "compliant" not in said
        assert "conform" not in said


# 16 CFR 500.21(a)(2): 40 % of height times circumference; heights of 500.21(b) from memory
@pytest.mark.parametrize(
    ("height_in", "diameter_in", "area_in2", "least_in"),
    [
        (3.5, 3.0, 13.1947, 1 / 8),
        (1.60, 2.5, 5.0265, 1 / 8),
        (1.59, 2.5, 4.9951, 1 / 16),
        (6.0, 5.5, 41.469, 3 / 16),
    ],
)
def test_panel_area_and_us_figure_height(
    height_in: float, diameter_in: float, area_in2: float, least_in: float
) -> None:
    rules = net_rules()
    area_cm2 = pdp_area_cm2(rules, height_in * INCH_MM, diameter_in * INCH_MM)
    assert area_cm2 == pytest.approx(area_in2 * SQUARE_INCH_CM2, rel=2e-5)
    least_mm = min_figure_height_mm(rules, "US", pdp_area_cm2=area_cm2)
    assert least_mm == pytest.approx(least_in * INCH_MM)
    raised_mm = min_figure_height_mm(rules, "US", pdp_area_cm2=area_cm2, raised=True)
    assert raised_mm == pytest.approx((least_in + 1 / 16) * INCH_MM)


# 16 CFR 500.21(b), from memory: panel in sq in and least heights in inches, printed and moulded
@pytest.mark.parametrize(
    ("up_to_in2", "up_to_cm2", "printed_in", "moulded_in"),
    [
        (5, 32.258, 1 / 16, 1 / 8),
        (25, 161.29, 1 / 8, 3 / 16),
        (100, 645.16, 3 / 16, 1 / 4),
        (400, 2580.64, 1 / 4, 5 / 16),
        (100_000, 645_160.0, 1 / 2, 9 / 16),
    ],
)
def test_every_band_of_us_figure_heights(
    up_to_in2: float, up_to_cm2: float, printed_in: float, moulded_in: float
) -> None:
    rules = net_rules()
    assert up_to_in2 * SQUARE_INCH_CM2 == pytest.approx(up_to_cm2)
    for area_cm2 in (up_to_cm2, up_to_cm2 - 0.01):
        for raised, least_in in ((False, printed_in), (True, moulded_in)):
            least_mm = min_figure_height_mm(rules, "US", pdp_area_cm2=area_cm2, raised=raised)
            assert least_mm == pytest.approx(least_in * INCH_MM)


@given(st.floats(1, 5000), st.floats(0, 500))
def test_a_larger_panel_or_weight_never_asks_for_less(size: float, more: float) -> None:
    rules = net_rules()
    for region, name in (("US", "pdp_area_cm2"), ("EU", "nominal_g"), ("UK", "nominal_g")):
        less = min_figure_height_mm(rules, region, **{name: size})  # type: ignore[arg-type]
        assert less <= min_figure_height_mm(rules, region, **{name: size + more})  # type: ignore[arg-type]


# SI 2006/659 reg. 8(3)(d)
@pytest.mark.parametrize(
    ("nominal_g", "least_mm"),
    [(50, 2), (50.1, 3), (200, 3), (201, 4), (1000, 4), (1001, 6)],
)
@pytest.mark.parametrize("region", ["EU", "UK"])
def test_metric_figure_height(region: str, nominal_g: float, least_mm: float) -> None:
    assert min_figure_height_mm(net_rules(), region, nominal_g=nominal_g) == least_mm


def test_figure_height_needs_the_size_of_its_region() -> None:
    with pytest.raises(OutOfRange):
        min_figure_height_mm(net_rules(), "US", nominal_g=200)
    with pytest.raises(OutOfRange):
        min_figure_height_mm(net_rules(), "EU", pdp_area_cm2=80)


# Directive 76/211/EEC Annex I 2.4, SI 2006/659 Sched. 3: rounded up to 0.1 g
@pytest.mark.parametrize(
    ("nominal_g", "error_g"),
    [
        (20, 1.8), (30, 2.7), (50, 4.5), (75, 4.5), (100, 4.5), (110, 5.0), (150, 6.8), (180, 8.1),
        (200, 9), (220, 9), (250, 9), (300, 9), (310, 9.3), (400, 12), (450, 13.5), (500, 15),
        (600, 15), (1000, 15), (1100, 16.5), (10_000, 150), (15_000, 150), (20_000, 200),
    ],
)  # fmt: skip
def test_tolerable_negative_error(nominal_g: int, error_g: float) -> None:
    assert tolerable_error_mg(net_rules(), nominal_g * 1000) == round(error_g * 1000)


@pytest.mark.parametrize("nominal_g", [4, 26_000])
def test_tolerable_error_outside_its_scope(nominal_g: int) -> None:
    with pytest.raises(OutOfRange):
        tolerable_error_mg(net_rules(), nominal_g * 1000)


# NIST Handbook 133, Table 2-5, from memory
@pytest.mark.parametrize(
    ("labelled_g", "variation_g"),
    [(30, 3.0), (54, 3.6), (226, 12.7), (208, 10.8), (453, 19.9), (1000, 35.3), (30_000, 600)],
)
def test_maximum_allowable_variation(labelled_g: int, variation_g: float) -> None:
    assert maximum_variation_mg(net_rules(), labelled_g * 1000) == round(variation_g * 1000)


@given(st.integers(5_000, 20_000_000), st.integers(0, 2_000))
def test_allowed_errors_grow_with_the_weight(mass_mg: int, more_mg: int) -> None:
    rules = net_rules()
    for allowed in (tolerable_error_mg, maximum_variation_mg):
        assert allowed(rules, mass_mg) <= allowed(rules, mass_mg + more_mg)
