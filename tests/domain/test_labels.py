"""Label designs and the fields in their texts."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.errors import OutOfRange
from wickbench.domain.label_fields import FIELD_NAMES, fields_in, fill_in
from wickbench.domain.labels import (
    Element,
    FrameElement,
    LabelDesign,
    LineElement,
    PictureElement,
    TextElement,
)

BOX = {"x_mm": 1.0, "y_mm": 1.0, "w_mm": 10.0, "h_mm": 5.0}


def test_fields_are_filled_in_however_they_are_spelt() -> None:
    filled = fill_in("{Candle}, { net  weight } {lot}", {"candle": "Fig", "net_weight": "221 g"})
    assert filled.text == "Fig, 221 g "
    assert filled.empty == ("lot",)
    assert filled.unknown == ()


def test_unknown_fields_stay_as_typed_and_are_named() -> None:
    filled = fill_in("{sent} of {candle}", {"candle": "Fig"})
    assert filled.text == "{sent} of Fig"
    assert filled.unknown == ("sent",)
    assert fields_in("{a b} {A b} {lot}") == ("a_b", "lot")


def test_words_kept_for_a_frame_of_facts_are_no_fields_of_a_text() -> None:
    filled = fill_in("{word:lot} {lot}", {"word:lot": "Lot", "lot": "26-330-A1"})
    assert (filled.text, filled.unknown) == ("{word:lot} 26-330-A1", ("word:lot",))


@given(st.text(alphabet=st.characters(exclude_characters="{}")))
def test_text_without_braces_is_left_alone(text: str) -> None:
    assert fill_in(text, {}).text == text


@given(st.sampled_from(FIELD_NAMES), st.text())
def test_values_are_never_read_as_fields(name: str, value: str) -> None:
    assert fill_in(f"{{{name}}}", {"lot": "L1"} | {name: value}).text == value.strip()


@pytest.mark.parametrize(
    ("kind", "change"),
    [
        (TextElement, {"text": "", "w_mm": -1.0}),
        (TextElement, {"text": "", "x_mm": math.nan}),
        (TextElement, {"text": "", "size_pt": 0.0}),
        (TextElement, {"text": "", "colour": "red"}),
        (TextElement, {"text": "", "align": "middle"}),
        (PictureElement, {"fit": "crop"}),
        (FrameElement, {"figure": "star"}),
        (FrameElement, {"dash_mm": (1.0, math.inf)}),
        (LineElement, {"line_mm": -0.1}),
    ],
)
def test_senseless_elements_are_refused(kind: type[Element], change: dict[str, object]) -> None:
    with pytest.raises(OutOfRange):
        kind(**(BOX | change))


@pytest.mark.parametrize(
    "change",
    [
        {"width_mm": 0.0},
        {"height_mm": math.inf},
        {"shape": "star"},
        {"kind": "box"},
        {"background": "#12"},
        {"safe_mm": -1.0},
    ],
)
def test_senseless_labels_are_refused(change: dict[str, object]) -> None:
    with pytest.raises(OutOfRange):
        LabelDesign(**({"width_mm": 60.0, "height_mm": 40.0} | change))
