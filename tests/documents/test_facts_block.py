"""A frame of facts: every value is there, or it is told; words and values in columns."""

from __future__ import annotations

import io
import re

import pdfplumber
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from documents.samples import MM, shelf
from wickbench.app.texts import all_sentences
from wickbench.documents.facts_block import BARE, BOTH, WORD, facts_of
from wickbench.documents.label_draws import PathDraw, TextDraw
from wickbench.documents.label_layout import LaidOutLabel, draw_label, lay_out_label
from wickbench.documents.pdf import PdfSurface
from wickbench.domain.findings import Rank
from wickbench.domain.label_measures import FACTS
from wickbench.domain.labels import FactsElement, LabelDesign

ENGLISH = {
    "net_weight": "Net Wt 7.76 oz (219 g)", BOTH: "Net Wt 7.76 oz (219 g)",
    WORD + "net_weight": "Net Wt", WORD + BOTH: "Net Wt",
    "lot": "Batch 26-330-A1", WORD + "lot": "Batch",
    "poured_on": "26 November 2026", WORD + "poured_on": "Poured on",
    "burn_time": "Burn at most 4 hours at a time", WORD + "burn_time": "Burning",
    BARE + "burn_time": "at most 4 hours at a time",
    "ingredients": "limonene, linalool, citral, coumarin", WORD + "ingredients": "Contains",
}  # fmt: skip
GERMAN = {
    "net_weight": "Nettogewicht 220 g", BOTH: "Nettogewicht 220 g (7,76 oz)",
    WORD + "net_weight": "Nettogewicht", WORD + BOTH: "Nettogewicht",
    "lot": "Charge 26-330-A1", WORD + "lot": "Charge",
    "poured_on": "26.11.2026", WORD + "poured_on": "Gegossen am",
    "burn_time": "Höchstens 4 Stunden am Stück brennen lassen", WORD + "burn_time": "Brennen",
    BARE + "burn_time": "höchstens 4 Stunden am Stück",
    "ingredients": "Limonen, Linalool, Citral, Cumarin", WORD + "ingredients": "Enthält",
}  # fmt: skip
BOX = {"x_mm": 4.0, "y_mm": 4.0, "w_mm": 52.0, "h_mm": 32.0}


def _laid(element: FactsElement, values: dict[str, str]) -> LaidOutLabel:
    design = LabelDesign(width_mm=60, height_mm=40, kind="tag", elements=(element,))
    return lay_out_label(design, values, shelf().nearest)


def _runs(laid: LaidOutLabel) -> list[TextDraw]:
    return [one for one in laid.draws if isinstance(one, TextDraw)]


def _printed(laid: LaidOutLabel) -> pdfplumber.page.Page:
    surface = PdfSurface()
    surface.begin_page(60, 40)
    draw_label(laid, surface)
    return pdfplumber.open(io.BytesIO(surface.finish())).pages[0]


@pytest.mark.parametrize("values", [ENGLISH, GERMAN], ids=["English", "German"])
def test_words_and_values_stand_in_two_columns_and_are_read_back(values: dict[str, str]) -> None:
    laid = _laid(FactsElement(**BOX), values)
    assert laid.findings == ()
    page = _printed(laid)
    said = " ".join(page.extract_text().split())
    for name in ("lot", "poured_on", "ingredients"):
        assert values[name].removeprefix(values[WORD + name]).strip() in said
    assert values[BARE + "burn_time"] in said
    assert values[BOTH] in said
    words = page.extract_words()
    lefts = sorted({round(one["x0"] * MM, 1) for one in words if one["x0"] * MM < 4.6})
    assert lefts == [pytest.approx(4.0, abs=0.3)]
    starts = {round(one.x_mm, 3) for one in _runs(laid) if one.run.text not in _words_of(values)}
    assert len(starts) == 1  # all values begin on one line


def _words_of(values: dict[str, str]) -> set[str]:
    return {said for name, said in values.items() if name.startswith(WORD)}


def test_lines_stand_between_the_facts_and_not_through_them() -> None:
    laid = _laid(FactsElement(**BOX), ENGLISH)
    rules = [one for one in laid.draws if isinstance(one, PathDraw)]
    assert len(rules) == len(FactsElement(**BOX).facts) - 1
    boxes = [
        (draw.y_mm - ink[3], draw.y_mm - ink[1])
        for draw in _runs(laid)
        if (ink := draw.run.ink_mm(draw.size_pt)) is not None
    ]
    for rule in rules:
        y = float(rule.path[0][2])
        assert all(not top - 0.1 < y < bottom + 0.1 for top, bottom in boxes)
    assert not any(
        isinstance(one, PathDraw) for one in _laid(FactsElement(**BOX, rules=False), ENGLISH).draws
    )


def test_what_has_no_value_is_left_out_and_told() -> None:
    laid = _laid(FactsElement(**BOX, facts=("lot", "price", "wax")), ENGLISH)
    assert [one.text for one in laid.texts] == ["Batch 26-330-A1"]
    told = [one for one in laid.findings if one.key.startswith("label.field")]
    assert told
    assert "{price}" in str([dict(one.data) for one in told])
    none = _laid(FactsElement(**BOX, facts=()), ENGLISH)
    assert [one.key for one in none.findings] == ["facts.none-chosen"]
    assert "facts.none-chosen" in all_sentences()


def test_without_words_each_value_says_itself_what_it_is() -> None:
    laid = _laid(FactsElement(**BOX, words=False), ENGLISH)
    said = [one.text for one in laid.texts]
    assert said[1] == "Batch 26-330-A1"
    assert said[3] == "Burn at most 4 hours at a time"


def test_one_system_where_one_is_wanted() -> None:
    one = _laid(FactsElement(**BOX, facts=("net_weight",), both_systems=False), GERMAN)
    both = _laid(FactsElement(**BOX, facts=("net_weight",)), GERMAN)
    assert one.texts[0].text == "Nettogewicht 220 g"
    assert both.texts[0].text == "Nettogewicht 220 g (7,76 oz)"


def test_values_go_below_their_words_where_it_is_narrow() -> None:
    laid = _laid(FactsElement(**(BOX | {"w_mm": 20.0}), facts=("poured_on", "lot")), GERMAN)
    assert {round(one.x_mm, 6) for one in _runs(laid)} == {4.0}
    assert [one.run.text for one in _runs(laid)] == [
        "Gegossen am", "26.11.2026", "Charge", "26-330-A1",
    ]  # fmt: skip


@pytest.mark.parametrize(("align", "share"), [("right", 1.0), ("centre", 0.5)])
def test_values_stand_where_they_are_wanted(align: str, share: float) -> None:
    laid = _laid(FactsElement(**BOX, facts=("lot",), align=align), ENGLISH)
    word, value = _runs(laid)
    left = word.x_mm if align == "centre" else value.x_mm
    right = value.x_mm + value.run.width_mm(value.size_pt)
    middle = left + (right - left) * share
    assert middle == pytest.approx(BOX["x_mm"] + BOX["w_mm"] * share, abs=0.01)


def test_type_shrinks_until_all_fits_and_no_further() -> None:
    wide = _laid(FactsElement(**BOX), ENGLISH)
    low = _laid(FactsElement(**(BOX | {"h_mm": 16.0})), ENGLISH)
    assert wide.texts[0].size_pt == 7.0
    assert 5.0 <= low.texts[0].size_pt < 7.0
    assert low.findings == ()
    none = _laid(FactsElement(**(BOX | {"h_mm": 6.0})), ENGLISH)
    assert none.texts[0].size_pt == 5.0
    assert "label.text-too-long" in {one.key for one in none.findings if one.rank == Rank.STOPS}


def test_turned_it_turns_as_a_whole() -> None:
    straight = _laid(FactsElement(**BOX), ENGLISH)
    turned = _laid(FactsElement(**BOX, turn_deg=180), ENGLISH)
    for one, other in zip(_runs(straight), _runs(turned), strict=True):
        # Half a turn about (30, 20): (x, y) goes to (60 - x, 40 - y).
        assert (other.x_mm, other.y_mm) == pytest.approx((60 - one.x_mm, 40 - one.y_mm))
        assert other.turn_deg == 180


WORDS = st.text("abcdefghijklm äöß", min_size=1, max_size=60).map(str.strip).filter(bool)


@settings(max_examples=30, deadline=None)
@given(
    st.dictionaries(st.sampled_from(FACTS), WORDS, min_size=1, max_size=6),
    st.floats(8, 52),
    st.floats(4, 32),
    st.sampled_from(["left", "centre", "right"]),
    st.booleans(),
)
def test_no_letter_is_lost_and_what_fits_lies_in_the_box(
    values: dict[str, str],
    wide: float,
    high: float,
    align: str,
    words: bool,  # noqa: FBT001 - drawn
) -> None:
    values = {name: " ".join(said.split()) for name, said in values.items()}
    said = values | {WORD + name: name.replace("_", " ") for name in values}
    box = BOX | {"w_mm": wide, "h_mm": high}
    element = FactsElement(**box, facts=tuple(values), align=align, words=words)
    laid = _laid(element, said)
    wanted = "".join(fact.word + fact.value for fact in facts_of(element, said)[0])
    printed = "".join(one.run.text for one in _runs(laid))
    assert re.sub(r"\s", "", printed) == re.sub(r"\s", "", wanted)
    fits = all(one.fits for one in laid.texts)
    assert fits == (not any(one.key == "label.text-too-long" for one in laid.findings))
    for draw in _runs(laid) if fits else []:
        right = draw.x_mm + draw.run.width_mm(draw.size_pt)
        assert element.x_mm - 1e-6 <= draw.x_mm
        assert right <= element.x_mm + wide + 1e-6
        assert element.y_mm <= draw.y_mm <= element.y_mm + high


def test_small_type_in_a_frame_of_facts_is_told_as_in_any_text() -> None:
    # Common practice, no source: 5 pt is the least for dark letters on a light ground.
    element = FactsElement(**BOX, size_pt=4.5, min_size_pt=4.0)
    assert "label.type-too-small" in {one.key for one in _laid(element, ENGLISH).findings}
