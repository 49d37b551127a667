"""What rules want on a label, row by row against the rules' own figures."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.checked_labels import Case, around_it, found, jar, net_text
from wickbench.app.label_making import typeface_shelf
from wickbench.app.label_rules import rule_of, rule_words, text_rules
from wickbench.app.net_lines import around, declaration
from wickbench.app.required_heights import height_mm, least_mm, panel_of
from wickbench.app.required_texts import required_findings
from wickbench.app.texts import Texts
from wickbench.documents.text import shape
from wickbench.domain.findings import Rank
from wickbench.domain.labels import FactsElement, TextElement

if TYPE_CHECKING:
    from wickbench.documents.label_draws import AnyDraw

INCH = 25.4
SANS = "Source Sans Pro"


def test_a_label_that_has_everything_has_nothing_to_mend() -> None:
    assert found(Case()) == {}
    checked = required_findings(Case().check())
    assert [one.key for one in checked.well] == ["required.figures-well-panel"]


# -- sources -------------------------------------------------------------------------------------
def test_every_rule_has_source_date_region_and_how_well_it_was_read() -> None:
    assert text_rules()
    for (_, region), rule in text_rules().items():
        assert region in {"US", "EU", "UK"}
        assert rule.source
        assert rule.date.isdigit()
        assert 1970 <= int(rule.date) <= 2026
        assert rule.tag in {"read", "secondary", "memory"}


def test_every_finding_names_its_rule_and_says_that_local_rules_decide() -> None:
    texts = Texts()
    bare = Case(net=None, others=(), regions=("US", "EU", "UK"), caution=False)
    told = required_findings(bare.check()).wrong
    assert len(told) >= 5
    for one in told:
        words = rule_words(texts, one)
        assert str(one.data["source"]) in words
        assert str(one.data["date"]) in words
        assert "Local rules and a licensed assessor decide" in words
        said = f"{texts.say(one)} {words}".lower()
        assert "compliant" not in said
        assert "conform" not in said


def test_what_nobody_read_only_notes() -> None:
    told = found(Case(others=(net_text(y_mm=4, text="{identity}"),), regions=("EU",)))
    # Regulation (EU) 2023/988, Article 9(5), from memory
    assert told["lot-missing"].rank is Rank.NOTE
    assert "from memory" in rule_words(Texts(), told["lot-missing"])


# -- 15 U.S.C. 1453, 16 CFR 500: what it says ------------------------------------------------------
@pytest.mark.parametrize(
    ("typed", "regions", "key"),
    [
        # 15 U.S.C. 1453(a)(2): both systems
        ("Net Wt 7 oz", ("US",), "net-no-grams"),
        ("Net weight 200 g", ("US",), "net-no-ounces"),
        # SI 2006/659 reg. 8: metric, metric first, "net" not left out, no vulgar fraction
        ("Net weight 7 oz", ("UK",), "net-no-grams"),
        ("Net weight 7.76 oz (220 g)", ("UK",), "net-metric-first"),
        ("220 g", ("UK",), "net-missing"),
        ("Net weight 200 ½ g", ("UK",), "net-no-fractions"),
        # UPLR: of two unequal figures the larger one is enforced
        ("Net Wt 8 oz (220 g)", ("US",), "net-too-much"),
        ("Net Wt 7.76 oz (221 g)", ("US",), "net-too-much"),
        ("Net Wt 7.77 oz (220 g)", ("US",), "net-too-much"),
        ("Net Wt 7 oz (198 g)", ("US",), "net-differs"),
        ("Net weight 200 g", ("EU",), "net-differs"),
        # UPLR, 16 CFR 500.17: two decimals; halves to thirty-seconds in lowest terms
        ("Net Wt 7.755 oz (220 g)", ("US",), "net-decimals"),
        ("Net Wt 7 2/4 oz (212 g)", ("US",), "net-fraction"),
        ("Net Wt 7 1/3 oz (207 g)", ("US",), "net-fraction"),
        ("Net Wt 7 1/64 oz (198 g)", ("US",), "net-fraction"),
        # 15 U.S.C. 1453(b): no words that make it larger or vaguer
        ("Net Wt about 7.76 oz (220 g)", ("US",), "net-plain"),
        ("Giant Net Wt 7.76 oz (220 g)", ("US",), "net-plain"),
        # 15 U.S.C. 1453(a)(3)(A): a solid by weight
        ("Net Wt 7.76 oz (220 g), 8 fl oz", ("US",), "net-fluid"),
        # 16 CFR 500.6(b): a distinct item
        ("Soy wax, Net Wt 7.76 oz (220 g)", ("US",), "net-not-alone"),
    ],
)
def test_a_net_weight_typed_by_hand(typed: str, regions: tuple[str, ...], key: str) -> None:
    assert key in found(Case(net=net_text(text=typed, upper=False, size_pt=12), regions=regions))


@pytest.mark.parametrize(
    ("typed", "regions"),
    [
        ("Net Wt 7.76 oz (220 g)", ("US",)),
        ("Net Wt. 220 g (7.76 oz)", ("US",)),  # no order is asked for in the US
        ("Net Wt 7 3/4 oz (219.7 g)", ("US",)),
        ("Net weight 220 g", ("EU", "UK")),
        ("220 g net (7.76 oz)", ("US", "UK")),
    ],
)
def test_a_net_weight_typed_right_is_left_in_peace(typed: str, regions: tuple[str, ...]) -> None:
    told = found(Case(net=net_text(text=typed), regions=regions))
    assert not {key for key in told if key.startswith("net-")}


def test_a_larger_weight_anywhere_else_is_told() -> None:
    # 15 U.S.C. 1453(b): statements elsewhere must not exaggerate
    more = TextElement(x_mm=5, y_mm=32, w_mm=80, h_mm=6, text="a 12 oz candle", size_pt=8)
    told = found(Case(others=(*around_it(), more)))
    assert told["net-too-much"].data["text"] == "12 oz"
    assert told["net-too-much"].about == ("element", 3)
    less = replace(more, text="with 10 g of oil")
    assert "net-too-much" not in found(Case(others=(*around_it(), less)))


@settings(max_examples=40)
@given(st.integers(20_000, 3_000_000), st.integers(1, 400_000))
def test_a_typed_weight_above_the_declared_is_always_told(mass_mg: int, more_mg: int) -> None:
    grams = (mass_mg + more_mg) / 1000
    case = Case(
        net=net_text(text=f"Net weight {grams:.3f} kg"),
        declared_g=mass_mg / 1000,
        regions=("EU",),
    )
    typed_mg = round(grams, 3) * 1_000_000
    assert ("net-too-much" in found(case)) == (typed_mg > mass_mg + 1)


# -- height --------------------------------------------------------------------------------------
# 16 CFR 500.21(b), heights from memory; each panel just above and just below the edge of a band.
@pytest.mark.parametrize(
    ("height_in", "diameter_in", "least_in"),
    [
        (1.59, 2.5, 1 / 16),  # 4.995 sq in
        (1.60, 2.5, 1 / 8),  # 5.027 sq in
        (3.5, 3.0, 1 / 8),  # 13.19 sq in
        (6.0, 5.5, 3 / 16),  # 41.47 sq in
        (10.0, 9.0, 1 / 4),  # 113.1 sq in
        (20.0, 16.0, 1 / 2),  # 402.1 sq in
    ],
)
def test_the_us_reads_its_height_from_the_vessel_whatever_the_label(
    height_in: float, diameter_in: float, least_in: float
) -> None:
    for width_mm in (40.0, 90.0):
        case = Case(vessel=jar(height_in * INCH, diameter_in * INCH), design={"width_mm": width_mm})
        assert least_mm(case.check(), "US") == pytest.approx(least_in * INCH)


# SI 2006/659 reg. 8(3)(d); Directive 76/211/EEC Annex I 3.1 from memory
@pytest.mark.parametrize(
    ("nominal_g", "least"), [(50, 2), (51, 3), (200, 3), (201, 4), (1000, 4), (1001, 6)]
)
@pytest.mark.parametrize("region", ["EU", "UK"])
def test_the_eu_and_the_uk_read_it_from_the_weight(
    region: str, nominal_g: float, least: float
) -> None:
    assert least_mm(Case(declared_g=nominal_g, regions=(region,)).check(), region) == least


def test_a_lid_that_carries_the_label_is_the_panel() -> None:
    # 16 CFR 500.21(a)(3): the entire obvious top; a lid 80 mm wide has 50.3 cm²
    case = Case(
        design={"kind": "lid", "width_mm": 60, "height_mm": 60, "shape": "circle"}, lid_mm=80.0
    )
    assert panel_of(case.check()) == pytest.approx(50.27, abs=0.01)
    jar_with_label = Case(lid_mm=80.0)
    assert panel_of(jar_with_label.check()) == pytest.approx(70.37, abs=0.01)


@pytest.mark.parametrize("upper", [True, False])
@pytest.mark.parametrize("family", [SANS, "Source Serif Pro"])
def test_heights_are_those_of_the_glyphs_as_drawn(family: str, *, upper: bool) -> None:
    """Measured again from the outlines that the font file itself holds."""
    case = Case(net=net_text(family=family, upper=upper))
    check = case.check()
    line = declaration(check.lines)
    assert line is not None
    face = typeface_shelf().find(family)
    scale = line.draws[0].size_pt * INCH / 72 / face.units_per_em

    def high(sign: str) -> float:
        ys = [
            float(step[at])
            for step in face.outline(shape(face, sign).glyphs[0].gid)
            for at in range(2, len(step), 2)
        ]
        return (max(ys) - min(ys)) * scale

    digits = min(high(sign) for sign in "720")
    letters = high("H") if upper else high("o")
    assert height_mm(line, "US") == pytest.approx(min(digits, letters), abs=0.02)
    assert height_mm(line, "EU") == pytest.approx(digits, abs=0.02)


def test_small_letters_are_measured_on_the_o_and_unit_symbols_are_no_words() -> None:
    # The same size: high enough in capitals, where the "g" stays small; not with small letters.
    assert "figures-small-panel" not in found(Case(net=net_text(size_pt=14.5, min_size_pt=14.5)))
    mixed = net_text(size_pt=14.5, min_size_pt=14.5, upper=False)
    small = found(Case(net=mixed))["figures-small-panel"]
    # 510 of 1000 units (the "o" of the face) at 14.5 pt are 2.61 mm
    assert small.data["height"] == pytest.approx(2.6, abs=0.011)
    assert (small.rank, small.data["inches"]) == (Rank.WATCH, "1/8")


@given(st.floats(8.0, 24.0), st.floats(0.25, 6.0))
@settings(max_examples=30)
def test_larger_type_is_never_lower(size_pt: float, more_pt: float) -> None:
    heights = []
    for size in (size_pt, size_pt + more_pt):
        wide = {"width_mm": 300.0, "height_mm": 80.0}
        net = net_text(size_pt=size, min_size_pt=size, w_mm=280.0, h_mm=20.0)
        line = Case(net=net, design=wide).check().declared
        assert line is not None
        heights.append(height_mm(line, "US"))
    assert heights[0] < heights[1]


def test_no_height_is_told_while_the_vessel_is_not_measured() -> None:
    told = found(Case(vessel=None))
    assert told["panel-unknown"].rank is Rank.NOTE
    assert "figures-small-panel" not in told


def test_a_fact_in_a_frame_and_text_on_a_curve_are_measured_too() -> None:
    facts = FactsElement(
        x_mm=5, y_mm=45, w_mm=80, h_mm=12, facts=("net_weight",), both_systems=False
    )
    check = Case(net=facts, regions=("EU",)).check()
    line = check.declared
    assert line is not None
    assert line.from_field
    # 638 of 1000 units (the lowest figure of the face) at the size it came to
    size_pt = check.laid.texts[-1].size_pt
    assert height_mm(line, "EU") == pytest.approx(0.638 * size_pt * INCH / 72, abs=0.05)
    bent = net_text(curve="under", y_mm=10, h_mm=45)
    bent_line = Case(net=bent).check().declared
    straight_line = Case().check().declared
    assert bent_line is not None
    assert straight_line is not None
    ratio = bent_line.draws[0].size_pt / straight_line.draws[0].size_pt
    assert height_mm(bent_line, "US") == pytest.approx(height_mm(straight_line, "US") * ratio)
    assert "net-turned" in found(Case(net=bent))


# -- place ---------------------------------------------------------------------------------------
def test_free_space_is_one_height_above_and_two_widths_of_an_n_beside() -> None:
    # UPLR as adopted (A.S.A.C. 27.0643), 16 CFR 500.6(b)
    case = Case()
    line = case.check().declared
    assert line is not None
    ink = line.ink
    assert ink is not None
    numbers = rule_of("net-apart", "US")
    assert numbers is not None
    assert dict(numbers.numbers) == {"heights_above_and_below": 1, "widths_of_n_beside": 2}
    size = line.draws[0].size_pt
    cap = 0.656 * size * INCH / 72  # capital H and N of the face: 656 high, 467 wide
    beside = 2 * 0.467 * size * INCH / 72
    for gap, told in ((cap + 0.2, False), (cap - 0.2, True)):
        mark = TextElement(
            x_mm=40, y_mm=ink.top - gap - 3, w_mm=10, h_mm=3, text="x", vertical="bottom"
        )
        case = Case(others=(*around_it(), _inked(mark, bottom=ink.top - gap)))
        assert ("net-crowded" in found(case)) is told
    for gap, told in ((beside + 0.2, False), (beside - 0.2, True)):
        mark = _inked(TextElement(x_mm=0, y_mm=0, w_mm=6, h_mm=4, text="x"), bottom=ink.bottom)
        mark = _shifted(mark, right_edge_at=ink.left - gap)
        narrow = Case(others=(*around_it(), mark))
        assert ("net-crowded" in found(narrow)) is told


def _inked(mark: TextElement, *, bottom: float) -> TextElement:
    laid = Case(others=(mark,), net=None).check().laid
    ink = _ink_of(laid.draws_of(0))
    return replace(mark, y_mm=mark.y_mm + bottom - ink[3])


def _shifted(mark: TextElement, *, right_edge_at: float) -> TextElement:
    ink = _ink_of(Case(others=(mark,), net=None).check().laid.draws_of(0))
    return replace(mark, x_mm=mark.x_mm + right_edge_at - ink[2])


def _ink_of(draws: tuple[AnyDraw, ...]) -> tuple[float, float, float, float]:
    box = around(draws)
    assert box is not None
    return box.left, box.top, box.right, box.bottom


def test_it_stands_in_the_lowest_thirty_percent_unless_the_panel_is_small() -> None:
    # 16 CFR 500.6(b): 30 % of 60 mm: below 42 mm from the top; not on 5 sq in or less
    high = net_text(y_mm=36)
    told = found(Case(net=high))
    assert (told["net-high"].data["percent"], told["net-high"].data["from_mm"]) == (30, 42.0)
    assert "net-high" not in found(Case(net=net_text(y_mm=41)))
    small_jar = jar(1.59 * INCH, 2.5 * INCH)  # 4.995 sq in
    assert "net-high" not in found(Case(net=high, vessel=small_jar))
    assert "net-high" not in found(Case(net=high, regions=("EU",)))


@pytest.mark.parametrize("turn", [90.0, 180.0, 270.0, 5.0])
def test_its_lines_stand_level(turn: float) -> None:
    # 15 U.S.C. 1453(a)(3)(D)
    assert "net-turned" in found(Case(net=net_text(turn_deg=turn)))
    assert "net-turned" not in found(Case(net=net_text(turn_deg=360.0)))


def test_it_stands_in_front_of_the_vessel() -> None:
    # 16 CFR 500.21(a)(2): 40 % of the way round; of π × 80 mm these are 100.5 mm
    wrap = {"width_mm": 250.0, "height_mm": 60.0, "shape": "wrap"}
    at_side = net_text(x_mm=170, w_mm=70)
    assert "net-not-in-front" in found(Case(net=at_side, design=wrap))
    in_front = net_text(x_mm=85, w_mm=80)
    assert "net-not-in-front" not in found(Case(net=in_front, design=wrap))


def test_identity_stands_in_front_too() -> None:
    wrap = {"width_mm": 250.0, "height_mm": 60.0, "shape": "wrap"}
    first, *rest = around_it()
    net = net_text(x_mm=85, w_mm=80)
    assert "identity-not-in-front" in found(Case(net=net, design=wrap))
    front = replace(first, x_mm=85.0)
    assert "identity-not-in-front" not in found(Case(net=net, others=(front, *rest), design=wrap))


def test_a_pale_net_weight_is_told() -> None:
    # 15 U.S.C. 1453(a)(3)(B); 4.5 : 1 is WCAG 2.1, 1.4.3: #767676 on white has 4.54, #777777 4.48
    assert "net-pale" not in found(Case(net=net_text(colour="#767676")))
    assert "net-pale" in found(Case(net=net_text(colour="#777777")))


def test_the_paper_counts_where_the_label_has_no_ground_of_its_own() -> None:
    # Black on the brown of kraft has 9.4 : 1, an amber that is well on white has too little.
    amber = net_text(colour="#a8540f")
    assert "net-pale" not in found(Case(net=amber))
    assert "net-pale" in found(Case(net=amber, paper="#c9a67a"))
    assert "net-pale" not in found(Case(paper="#c9a67a"))
    assert "net-pale" not in found(
        Case(net=amber, paper="#c9a67a", design={"background": "#ffffff"})
    )


def test_a_wrap_that_is_bent_is_looked_at_in_the_flat() -> None:
    # 250 mm of 251 mm round a vessel of 80 mm at the middle; its sides taper by 6 mm.
    straight = {"width_mm": 250.0, "height_mm": 60.0, "shape": "wrap"}
    bent = {**straight, "wrap_bottom_mm": 77.0, "wrap_top_mm": 83.0}
    net = net_text(x_mm=85, w_mm=80)
    for changes in ({}, {"y_mm": 30}, {"x_mm": 170, "w_mm": 70}):
        case = Case(net=replace(net, **changes), design=straight)  # type: ignore[arg-type]
        assert set(found(case)) == set(found(replace(case, design=bent)))
