"""The starting designs by their measures alone: what each promises of itself on any label.

Safe zone of 2 mm, 5 pt positive and 8 pt reversed: common practice, no source. The net weight in
the lowest 30 % of the panel: 16 CFR 500.6.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.labels import (
    FactsElement,
    FrameElement,
    LabelDesign,
    OrnamentElement,
    TextElement,
)
from wickbench.domain.starting.place import half_chord_mm, margin_mm
from wickbench.domain.starting_labels import STARTING, STARTING_DESIGNS, starting_design

SAFE_MM = 2.0
LEAST_PT, LEAST_REVERSED_PT = 5.0, 8.0
LOWEST = 0.3
SLACK_MM = 0.01
GREY = 0.4  # between the lightest ink and the darkest ground that is used

NAMES = st.sampled_from(STARTING_DESIGNS)
JARS = [name for name, one in STARTING.items() if one.kind == "jar"]
STRAIGHT = st.sampled_from(("rectangle", "rounded", "wrap"))
SIZES = st.floats(30, 200)


def light(colour: str) -> float:
    """Relative luminance after WCAG 2.1, from 0 for black to 1 for white."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    lit = [
        one / 12.92 if one <= 0.03928 else ((one + 0.055) / 1.055) ** 2.4  # WCAG's constants
        for one in parts
    ]
    return 0.2126 * lit[0] + 0.7152 * lit[1] + 0.0722 * lit[2]


def colours_of(design: LabelDesign) -> set[str]:
    """Every colour that is printed."""
    found = {design.background} if design.background else set()
    for one in design.elements:
        found |= {str(getattr(one, "colour", "")), str(getattr(one, "fill", ""))}
    return found - {""}


def ground_of(design: LabelDesign, text: TextElement) -> str:
    """The colour behind the middle of a text."""
    middle = text.y_mm + text.h_mm / 2
    for one in design.elements:
        if isinstance(one, FrameElement) and one.fill and one.y_mm <= middle <= one.y_mm + one.h_mm:
            return one.fill
    return design.background or "#ffffff"


@given(NAMES, SIZES, SIZES, STRAIGHT, st.floats(0, 4))
def test_letters_have_their_boxes_in_the_safe_zone(
    name: str, width: float, height: float, shape: str, corner: float
) -> None:
    design = starting_design(name, width, height, shape=shape, corner_mm=corner)
    for one in design.elements:
        if isinstance(one, TextElement | FactsElement) and not getattr(one, "curve", ""):
            assert one.x_mm >= SAFE_MM - SLACK_MM
            assert one.x_mm + one.w_mm <= width - SAFE_MM + SLACK_MM
            assert one.y_mm >= SAFE_MM - SLACK_MM
            assert one.y_mm + one.h_mm <= height - SAFE_MM + SLACK_MM


@given(NAMES, st.floats(120, 320), st.floats(30, 120), st.floats(4, 12))
def test_nothing_is_printed_where_the_end_of_a_wrap_is_covered(
    name: str, width: float, height: float, overlap: float
) -> None:
    design = starting_design(name, width, height, shape="wrap", overlap_mm=overlap)
    words = [one for one in design.elements if not isinstance(one, FrameElement)]
    assert max(one.x_mm + one.w_mm for one in words) <= width - overlap - SAFE_MM + SLACK_MM


@given(st.sampled_from(JARS), SIZES, SIZES, st.sampled_from(("rectangle", "circle", "oval")))
def test_every_jar_design_says_what_must_be_said(
    name: str, width: float, height: float, shape: str
) -> None:
    height = width if shape == "circle" else height
    design = starting_design(name, width, height, shape=shape)
    said = " ".join(one.text for one in design.elements if isinstance(one, TextElement))
    for field in ("{candle}", "{identity}", "{business}", "{business address}", "{net weight}"):
        assert field in said


@given(st.sampled_from(JARS), SIZES, SIZES, st.sampled_from(("rectangle", "oval", "wrap")))
def test_the_net_weight_stands_in_the_lowest_part(
    name: str, width: float, height: float, shape: str
) -> None:
    design = starting_design(name, width, height, shape=shape)
    (weight,) = [
        one for one in design.elements
        if isinstance(one, TextElement) and one.text == "{net weight}"
    ]  # fmt: skip
    assert weight.y_mm >= (1 - LOWEST) * height - SLACK_MM
    below = [
        one for one in design.elements
        if isinstance(one, TextElement) and not one.curve and one.y_mm > weight.y_mm + SLACK_MM
        and abs(one.x_mm - weight.x_mm) < width / 4
    ]  # fmt: skip
    assert below == []


@given(NAMES, SIZES, SIZES, st.sampled_from(("rectangle", "rounded", "oval", "wrap")))
def test_no_type_is_smaller_than_can_be_read(
    name: str, width: float, height: float, shape: str
) -> None:
    design = starting_design(name, width, height, shape=shape)
    for one in design.elements:
        if isinstance(one, FactsElement):
            assert one.min_size_pt >= LEAST_PT
        if isinstance(one, TextElement):
            reversed_out = light(one.colour) > light(ground_of(design, one))
            assert one.min_size_pt >= (LEAST_REVERSED_PT if reversed_out else LEAST_PT)
            assert one.size_pt >= one.min_size_pt


@pytest.mark.parametrize("name", STARTING_DESIGNS)
@pytest.mark.parametrize("shape", ["rectangle", "circle", "wrap"])
def test_a_design_for_black_alone_has_no_other_ink(name: str, shape: str) -> None:
    width, height = {"wrap": (240.0, 60.0)}.get(shape, (60.0, 60.0))
    design = starting_design(name, width, height, shape=shape)
    only_black = colours_of(design) == {"#000000"}
    assert STARTING[name].black_only == only_black
    assert STARTING[name].black_only or any(light(one) < GREY for one in colours_of(design))


@pytest.mark.parametrize("name", STARTING_DESIGNS)
def test_the_name_is_the_largest_of_the_words(name: str) -> None:
    design = starting_design(name, 62, 36)
    texts = [one for one in design.elements if isinstance(one, TextElement)]
    others = [one.size_pt for one in texts if one.text not in {"{candle}", "{net weight}"}]
    title = max(one.size_pt for one in texts if one.text == "{candle}")
    assert title > max(others)


def test_the_characters_differ() -> None:
    drawn = {starting_design(name, 62, 36).elements for name in STARTING_DESIGNS}
    assert len(drawn) == len(STARTING_DESIGNS) >= 8
    assert {one.kind for one in STARTING.values()} == {"jar", "lid", "tag"}
    kinds = {type(one) for name in JARS for one in starting_design(name, 80, 50).elements}
    assert {OrnamentElement, FactsElement, FrameElement, TextElement} <= kinds


@given(st.floats(15, 100), st.floats(15, 100), st.floats(0, 10), st.floats(0, 1))
def test_a_chord_keeps_its_distance_from_the_ellipse(
    half_w: float, half_h: float, inset: float, share: float
) -> None:
    away = share * (half_h - inset)
    half = half_chord_mm(half_w, half_h, inset, away)
    assert 0.0 <= half <= half_w - inset + 1e-9
    if half > 0.0:  # no point of the ellipse is nearer than the inset: looked for all round
        nearest = min(
            math.hypot(half_w * math.cos(t) - half, half_h * math.sin(t) - away)
            for t in (at * math.pi / 1440 for at in range(721))
        )
        assert nearest >= inset - 0.02


@given(st.floats(30, 200), st.floats(30, 200), st.floats(0, 12))
def test_the_corner_of_the_room_lies_in_the_rounded_safe_zone(
    width: float, height: float, corner: float
) -> None:
    inset = margin_mm(width, height, corner)
    assert inset >= SAFE_MM
    if corner > inset:
        away = math.hypot(corner - inset, corner - inset)
        assert away <= corner - SAFE_MM + 1e-9
