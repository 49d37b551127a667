"""Ornaments, caution drawings, frames of facts, SVG pictures and styles of type: one act each."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.label_workshop import fill_workshop, sheet_in
from documents.samples import png
from wickbench.app import label_elements, labels, type_styles
from wickbench.app.free_places import free_place
from wickbench.app.label_element_fields import (
    ELEMENT_WORDS,
    OTHER_FIELDS,
    element_words,
    facts_fields,
    shown_fields,
    shown_values,
    stored_value,
)
from wickbench.app.label_facts import declared_net
from wickbench.app.label_making import LabelMaker
from wickbench.app.label_store import ELEMENT_TYPES, kind_of, stored_label
from wickbench.app.label_values import LabelSubject, label_values, sample_values
from wickbench.app.settings import Settings
from wickbench.app.shelf import load_shelf
from wickbench.app.texts import Texts
from wickbench.documents.facts_block import BOTH
from wickbench.domain.arranging import box_of
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.domain.labels import (
    FactsElement,
    FrameElement,
    LabelDesign,
    OrnamentElement,
    PictogramElement,
    PictureElement,
    TextElement,
)

if TYPE_CHECKING:
    from pathlib import Path

    from wickbench.app.workspace import Workspace
    from wickbench.domain.labels import AnyElement

PLACE = {"x_mm": 1.0, "y_mm": 2.0, "w_mm": 9.0, "h_mm": 8.0}
SVG = b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><circle r="4" cx="5" cy="5"/>'


@pytest.fixture
def label(workshop: Workspace) -> int:
    fill_workshop(workshop)
    return labels.new_label(workshop, "hush")


def _element(workshop: Workspace, label: int, at: int) -> AnyElement:
    return stored_label(workshop, label).design.elements[at]


def test_every_kind_can_be_put_on_and_taken_back(workshop: Workspace, label: int) -> None:
    for kind in ELEMENT_TYPES:
        before = stored_label(workshop, label).design
        at = label_elements.add_element(workshop, label, kind)
        added = _element(workshop, label, at)
        assert kind_of(added) == kind
        assert kind in ELEMENT_WORDS
        workshop.undo()
        assert stored_label(workshop, label).design == before
        workshop.redo()
        assert _element(workshop, label, at) == added


@pytest.mark.parametrize("kind", [*OTHER_FIELDS, "facts"])
def test_every_field_of_a_form_is_an_attribute_and_goes_both_ways(kind: str) -> None:
    element = ELEMENT_TYPES[kind](**PLACE, **({"text": ""} if kind == "code" else {}))
    specs = facts_fields((), ()) if kind == "facts" else OTHER_FIELDS[kind]
    shown = shown_values(element)
    for spec in specs:
        kept = stored_value(element, spec.name, shown[spec.name])
        assert kept == getattr(element, spec.name), spec.name


def test_what_is_cut_off_is_shown_in_percent() -> None:
    element = PictureElement(**PLACE, crop_left=0.125)
    assert shown_values(element)["crop_left"] == 12.5
    assert stored_value(element, "crop_top", 25.0) == 0.25
    assert stored_value(element, "crop_top", None) == 0.0


def test_only_fields_that_act_are_shown() -> None:
    names = frozenset({"ink", "corners", "corner_mm", "fit"})
    picture = PictureElement(**PLACE)
    assert "ink" not in shown_fields(picture, names)
    assert "ink" in shown_fields(picture, names, is_drawing=True)
    assert "corners" not in shown_fields(FrameElement(**PLACE), names)
    assert "corners" in shown_fields(FrameElement(**PLACE, figure="rounded"), names)


def test_the_list_says_what_each_thing_shows() -> None:
    texts = Texts("en")
    assert element_words(OrnamentElement(**PLACE, ornament="fern"), texts) == "Fern"
    assert element_words(PictogramElement(**PLACE, pictogram="trim-wick"), texts) == "Trim the wick"
    assert element_words(FactsElement(**PLACE, facts=("lot",)), texts) == "Lot"
    assert element_words(TextElement(**PLACE, text="{lot}\n{web}"), texts) == "{lot} {web}"
    assert element_words(PictureElement(**PLACE), texts) == ""


def test_a_style_of_type_is_one_act_and_keeps_words_place_and_colour(
    workshop: Workspace, label: int
) -> None:
    at = label_elements.add_element(workshop, label, "text")
    label_elements.change_element(
        workshop, label, at, {"text": "Hand made", "colour": "#123456", "align": "right"}
    )
    for style, wanted in type_styles.STYLES.items():
        before = _element(workshop, label, at)
        type_styles.apply_style(workshop, label, at, style)
        after = _element(workshop, label, at)
        assert isinstance(after, TextElement)
        assert {name: getattr(after, name) for name in wanted} == dict(wanted)
        for name in ("text", "colour", "align", *PLACE):
            assert getattr(after, name) == getattr(before, name)
        workshop.undo()
        assert _element(workshop, label, at) == before


def test_a_style_of_type_is_for_texts_only(workshop: Workspace, label: int) -> None:
    at = label_elements.add_element(workshop, label, "frame")
    with pytest.raises(OutOfRange):
        type_styles.apply_style(workshop, label, at, "title")
    with pytest.raises(OutOfRange):
        type_styles.apply_style(workshop, label, at, "grotesque")


def test_an_svg_is_taken_and_drawn_as_paths(
    workshop: Workspace, label: int, tmp_path: Path
) -> None:
    at = label_elements.add_element(workshop, label, "picture")
    path = tmp_path / "ring.svg"
    path.write_bytes(SVG + b"</svg>")
    label_elements.set_picture(workshop, label, at, path)
    element = _element(workshop, label, at)
    assert label_elements.picture_data(workshop, element) == SVG + b"</svg>"
    stored = stored_label(workshop, label)
    made = LabelMaker(workshop).label(stored.design, {})
    drawn = made.laid.draws_of(at)
    assert [getattr(one, "fill", None) for one in drawn] == ["#000000"]
    path.write_bytes(SVG)
    with pytest.raises(DomainError) as refused:
        label_elements.set_picture(workshop, label, at, path)
    assert refused.value.key == "svg.damaged"
    assert _element(workshop, label, at) == element


def test_a_picture_is_cut_as_one_act(workshop: Workspace, label: int, tmp_path: Path) -> None:
    at = label_elements.add_element(workshop, label, "picture")
    path = tmp_path / "pear.png"
    path.write_bytes(png(40, 40))
    label_elements.set_picture(workshop, label, at, path)
    cut = {"crop_left": 0.1, "crop_top": 0.2, "crop_right": 0.0, "crop_bottom": 0.3}
    label_elements.change_element(workshop, label, at, cut)
    assert getattr(_element(workshop, label, at), "crop_bottom", 0) == 0.3
    with pytest.raises(OutOfRange):
        label_elements.change_element(workshop, label, at, {"crop_left": 0.7, "crop_right": 0.5})
    workshop.undo()
    assert getattr(_element(workshop, label, at), "crop_left", 1) == 0.0


MG_PER_OUNCE = Fraction(28349523125, 1_000_000)  # NIST SP 811, Appendix B


@given(st.floats(20, 900))
def test_net_weight_in_both_systems_overstates_in_neither(grams: float) -> None:
    for regions in ({"sold_in_us": 1}, {"sold_in_eu": 1, "sold_in_us": 0}):
        said = declared_net(grams, Settings(regions), Texts("en"), both=True)
        assert said is not None
        metric = re.search(r"([\d.]+) g\b", said.text)
        assert metric is not None
        assert Fraction(metric[1]) * 1000 <= round(grams * 1000) + 1
        found = re.findall(r"([\d.]+) (lb|oz)", said.text)
        weight = sum(Fraction(n) * (16 if unit == "lb" else 1) for n, unit in found) * MG_PER_OUNCE
        assert weight <= round(grams * 1000) + 1
        assert weight > round(grams * 1000) - MG_PER_OUNCE / 100 - 1


def test_facts_come_in_the_language_of_labels(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    subject = LabelSubject(candle_id=kept.bramble, lot_code="26-332-A1", poured_on="2026-11-28")
    texts = workshop.texts.in_language("de")
    values = label_values(load_shelf(workshop), workshop.settings, texts, subject)
    # 221 g is 7.795 oz (NIST SP 811, Appendix B); German takes the comma (DIN 1333).
    assert re.fullmatch(r"Nettogewicht .*7[.,]79 oz.*", values[BOTH])
    assert "221 g" in values[BOTH]
    assert values["word:" + BOTH] == "Nettogewicht"
    assert values["lot"].removeprefix(values["word:lot"]).strip() == "26-332-A1"


def test_a_frame_of_facts_fills_from_the_candle_and_from_the_sample(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    design = LabelDesign(
        width_mm=62, height_mm=36, elements=(FactsElement(**PLACE | {"w_mm": 50, "h_mm": 30}),)
    )
    shelf = load_shelf(workshop)
    subject = LabelSubject(candle_id=kept.bramble, lot_code="26-332-A1", poured_on="2026-11-28")
    values = label_values(shelf, workshop.settings, workshop.texts, subject)
    said = [one.text for one in LabelMaker(workshop).label(design, values).laid.texts]
    assert said == [
        values[BOTH],
        "Lot 26-332-A1",
        "Poured on 28 November 2026",
        "Burning at most 4 hours at a time",
    ]
    sample = sample_values(workshop.settings, workshop.texts)
    texts = LabelMaker(workshop).label(design, sample).laid.texts
    assert len(texts) == len(design.elements[0].facts)


def test_something_new_covers_nothing_where_there_is_room() -> None:
    text = TextElement(x_mm=10, y_mm=10, w_mm=42, h_mm=16, text="here")
    frame = FrameElement(x_mm=0, y_mm=0, w_mm=62, h_mm=60)
    design = LabelDesign(width_mm=62, height_mm=60, elements=(frame, text))
    x, y = free_place(design, 12, 12)
    assert not box_of(text).touches(
        box_of(OrnamentElement(x_mm=x, y_mm=y + 0.01, w_mm=12, h_mm=12))
    )
    assert 2 <= x <= 48
    assert 2 <= y <= 46
    # Nothing in the way: the middle. Nothing free: still on the label.
    assert free_place(LabelDesign(width_mm=40, height_mm=30), 10, 10) == (15, 10)
    full = TextElement(x_mm=0, y_mm=0, w_mm=62, h_mm=60, text="all of it")
    assert free_place(LabelDesign(width_mm=62, height_mm=60, elements=(full,)), 12, 12) == (25, 24)


def test_facts_grow_with_the_label_as_texts_do(workshop: Workspace, label: int) -> None:
    at = label_elements.add_element(workshop, label, "facts")
    kept = fill_workshop(workshop)
    sheet = sheet_in(workshop, kept.circles)
    before, design = _element(workshop, label, at), stored_label(workshop, label).design
    assert isinstance(before, FactsElement)
    labels.fit_to_sheet(workshop, label, sheet)
    after = _element(workshop, label, at)
    assert isinstance(after, FactsElement)
    share = min(sheet.sticker_w_mm / design.width_mm, sheet.sticker_h_mm / design.height_mm)
    wanted = max(before.min_size_pt, before.size_pt * share)
    assert after.size_pt == pytest.approx(wanted, abs=0.25)


def test_a_picture_that_is_not_there_has_no_file(workshop: Workspace) -> None:
    assert label_elements.picture_data(workshop, PictureElement(**PLACE)) is None
    assert label_elements.picture_data(workshop, PictureElement(**PLACE, picture="ab" * 32)) is None
