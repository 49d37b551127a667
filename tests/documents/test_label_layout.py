"""Labels laid out: text in round stickers, pictures, frames, and what is found wanting."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from documents.samples import png, shelf
from wickbench.app.texts import all_sentences
from wickbench.documents.label_draws import ImageDraw, PathDraw, TextDraw
from wickbench.documents.label_layout import LaidOutLabel, draw_label, lay_out_label
from wickbench.documents.rooms import is_inside
from wickbench.documents.surface import RecordingSurface
from wickbench.documents.text_fit import words_of
from wickbench.domain.labels import (
    FrameElement,
    LabelDesign,
    LineElement,
    PictureElement,
    TextElement,
)

if TYPE_CHECKING:
    from wickbench.domain.labels import Element

VALUES = {
    "candle": "Ash & linen",
    "business": "Saltmarsh Lane",
    "business_address": "4 Quay Row, Saltby",
    "net_weight": "Net wt 7.8 oz (221 g)",
}
MAKER = TextElement(
    x_mm=4,
    y_mm=20,
    w_mm=52,
    h_mm=16,
    text="{business}, {business address}\n{net weight}",
    size_pt=7,
)


def _label(*elements: Element, kind: str = "tag", **design: object) -> LaidOutLabel:
    whole = LabelDesign(
        **({"width_mm": 60.0, "height_mm": 40.0} | design),
        kind=kind,
        elements=elements,
    )
    return lay_out_label(whole, VALUES, shelf().nearest, {"pic": png(600, 300)}.get)


def _text(text: str, **changes: object) -> TextElement:
    box = {"x_mm": 4.0, "y_mm": 4.0, "w_mm": 52.0, "h_mm": 12.0}
    return TextElement(text=text, **(box | changes))


def _keys(label: LaidOutLabel) -> list[str]:
    return [finding.key for finding in label.findings]


def test_a_good_jar_label_has_no_finding() -> None:
    label = _label(_text("{candle}", size_pt=18), MAKER, kind="jar")
    assert _keys(label) == []
    assert label.texts[0].size_pt == 18
    assert label.smallest_pt == 7


@pytest.mark.parametrize(
    ("element", "key"),
    [
        (_text("{sent}"), "label.unknown-field"),
        (_text("Lot {lot}"), "label.field-empty"),
        (_text("A very long line " * 30), "label.text-too-long"),
        (_text("Fig 字"), "label.missing-glyphs"),
        (_text("Fig", family="Nowhere Grotesk"), "label.typeface-missing"),
        (_text("Fig", file_hash="0" * 64), "label.typeface-changed"),
        (_text("fig", size_pt=4, min_size_pt=4), "label.type-too-small"),
        (_text("fig", colour="#f4f4f4"), "label.low-contrast"),
        (_text("fig", x_mm=0.5, align="left"), "label.text-outside-safe"),
        (_text("fig", x_mm=-3, align="left"), "label.text-outside-sticker"),
        (
            _text("figs and more", x_mm=30, y_mm=0, w_mm=40, turn_deg=90),
            "label.text-outside-sticker",
        ),
        (PictureElement(x_mm=4, y_mm=4, w_mm=20, h_mm=9), "label.picture-none"),
        (PictureElement(x_mm=4, y_mm=4, w_mm=20, h_mm=9, picture="?"), "label.picture-missing"),
        (
            PictureElement(x_mm=50, y_mm=4, w_mm=20, h_mm=10, picture="pic"),
            "label.picture-cut",
        ),
    ],
)
def test_each_fault_is_named_with_its_element_and_has_a_sentence(
    element: Element, key: str
) -> None:
    label = _label(LineElement(x_mm=5, y_mm=5, w_mm=9, h_mm=0), element)
    found = [finding for finding in label.findings if finding.key.startswith(key)]
    assert found
    assert found[0].about == ("element", 1)
    sentence = all_sentences()[found[0].key]
    assert sentence.format(**found[0].data)


def test_light_type_on_a_dark_ground_needs_eight_points() -> None:
    light = _text("fig", size_pt=7, min_size_pt=7, colour="#ffffff")
    assert _keys(_label(light, background="#202020")) == ["label.type-too-small-reversed"]
    dark = _text("fig", size_pt=7, min_size_pt=7)
    assert _keys(_label(dark, background="#f0e8d8")) == []


def test_a_filled_frame_is_the_ground_of_what_stands_on_it() -> None:
    light = _text("fig", colour="#ffffff")
    frame = FrameElement(x_mm=0, y_mm=0, w_mm=60, h_mm=40, fill="#202020", line_mm=0)
    assert _keys(_label(frame, light)) == []
    picture = PictureElement(x_mm=0, y_mm=0, w_mm=60, h_mm=30, picture="pic")
    assert _keys(_label(picture, light)) == []


def test_dots_per_inch_are_dots_over_inches() -> None:
    # 600 dots over 25.4 mm are 600 dpi; over 254 mm they would be 60.
    fine = PictureElement(x_mm=4, y_mm=4, w_mm=25.4, h_mm=12.7, picture="pic")
    assert _keys(_label(fine)) == []
    huge = PictureElement(x_mm=0, y_mm=0, w_mm=254, h_mm=127, picture="pic")
    label = _label(huge, width_mm=300.0, height_mm=200.0)
    assert _keys(label) == ["label.picture-coarse"]
    assert label.findings[0].data["dots"] == 60


def test_a_damaged_picture_is_found_and_the_rest_still_drawn() -> None:
    design = LabelDesign(
        width_mm=60,
        height_mm=40,
        kind="tag",
        elements=(
            PictureElement(x_mm=4, y_mm=4, w_mm=20, h_mm=9, picture="bad"),
            _text("{candle}"),
        ),
    )
    label = lay_out_label(design, VALUES, shelf().nearest, lambda _key: b"\x89PNG broken")
    assert _keys(label) == ["picture.damaged"]
    assert any(isinstance(draw, TextDraw) for draw in label.draws)


@pytest.mark.parametrize(
    ("fit", "box"),
    [
        ("contain", (4, 9, 20, 10)),
        ("cover", (-6, 4, 40, 20)),
        ("stretch", (4, 4, 20, 20)),
    ],
)
def test_a_picture_twice_as_wide_as_high_fills_a_square(
    fit: str, box: tuple[float, float, float, float]
) -> None:
    label = _label(PictureElement(x_mm=4, y_mm=4, w_mm=20, h_mm=20, picture="pic", fit=fit))
    draw = next(draw for draw in label.draws if isinstance(draw, ImageDraw))
    assert (draw.x_mm, draw.y_mm, draw.w_mm, draw.h_mm) == pytest.approx(box)
    assert (draw.clip is not None) == (fit == "cover")


@settings(max_examples=40)
@given(
    width=st.floats(30, 90),
    ratio=st.floats(0.4, 1.0),
    safe=st.floats(0.5, 4),
    size=st.floats(6, 30),
    circle=st.booleans(),
    words=st.integers(1, 25),
)
def test_ink_on_round_stickers_keeps_its_distance_from_the_edge(
    *, width: float, ratio: float, safe: float, size: float, circle: bool, words: int
) -> None:
    height = width if circle else width * ratio
    element = TextElement(
        x_mm=0,
        y_mm=0,
        w_mm=width,
        h_mm=height,
        text=" ".join(["Bramble & smoke"] * words),
        size_pt=size,
        min_size_pt=3,
    )
    design = LabelDesign(
        width_mm=width,
        height_mm=height,
        shape="circle" if circle else "oval",
        safe_mm=safe,
        elements=(element,),
        kind="tag",
    )
    label = lay_out_label(design, {}, shelf().nearest)
    if not label.texts[0].fits:
        return
    for draw in label.draws:
        assert isinstance(draw, TextDraw)
        ink = draw.run.ink_mm(draw.size_pt)
        assert ink is not None
        for x in (draw.x_mm + ink[0], draw.x_mm + ink[2]):
            for y in (draw.y_mm - ink[1], draw.y_mm - ink[3]):
                distance = _distance_to_ellipse(x - width / 2, y - height / 2, width, height)
                # Side bearings may reach a little over the advance width.
                assert distance >= safe - 0.15


def _distance_to_ellipse(x: float, y: float, width: float, height: float) -> float:
    """Distance from a point inside to the edge, by looking along it; negative outside."""
    a, b = width / 2, height / 2
    angles = [step * math.pi / 1440 for step in range(2880)]
    nearest = min(math.hypot(a * math.cos(t) - x, b * math.sin(t) - y) for t in angles)
    return nearest if (x / a) ** 2 + (y / b) ** 2 <= 1 else -nearest


def test_corners_of_rounded_stickers_are_not_room() -> None:
    design = LabelDesign(width_mm=60, height_mm=40, shape="rounded", corner_mm=10)
    assert is_inside(design, 10 - 7, 10 - 7, margin_mm=0)
    assert not is_inside(design, 10 - 7.2, 10 - 7.2, margin_mm=0)
    assert not is_inside(design, 10 - 7, 10 - 7, margin_mm=1)
    assert is_inside(design, 30, 1, margin_mm=1)


def test_elements_turn_about_their_middle() -> None:
    line = _label(LineElement(x_mm=20, y_mm=20, w_mm=10, h_mm=0, turn_deg=90)).draws[0]
    assert isinstance(line, PathDraw)
    assert line.path[0][1:] == pytest.approx((25, 15))
    assert line.path[1][1:] == pytest.approx((25, 25))
    upside = _label(_text("fig", turn_deg=180, align="left", vertical="top")).draws[0]
    plain = _label(_text("fig", align="left", vertical="top")).draws[0]
    assert isinstance(upside, TextDraw)
    assert isinstance(plain, TextDraw)
    assert upside.x_mm == pytest.approx(60 - plain.x_mm)
    assert upside.y_mm == pytest.approx(20 - plain.y_mm)


def test_the_same_label_has_the_same_key_and_another_has_another() -> None:
    assert _label(_text("a")).key == _label(_text("a")).key
    keys = {
        _label(_text("a")).key,
        _label(_text("b")).key,
        _label(_text("a"), background="#ffffff").key,
        _label(_text("a", family="Source Serif Pro")).key,
    }
    assert len(keys) == 4


def test_drawing_gives_background_frame_and_text_in_their_order() -> None:
    frame = FrameElement(x_mm=0, y_mm=0, w_mm=60, h_mm=40, figure="sticker", inset_mm=1.5)
    label = _label(frame, _text("{candle}", upper=True), background="#f0e8d8", bleed_mm=1.0)
    surface = RecordingSurface()
    draw_label(label, surface)
    assert surface.paths[0].fill == "#f0e8d8"
    assert surface.paths[0].path[0][1:] == (-1, -1)
    assert surface.paths[1].path[0][1:] == (1.5, 1.5)
    assert surface.texts[0].run.text == "ASH & LINEN"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        # a figure and its unit stay on one line: SI Brochure 5.4.3, ISO 80000-1 7.1.4
        ("NET WT 7.3 OZ (207 g)", ["NET", "WT", "7.3 OZ", "(207 g)"]),
        ("4 hours at a time", ["4", "hours", "at", "a", "time"]),
        ("1 lb 2 oz", ["1 lb", "2 oz"]),
        ("7 garden herbs", ["7", "garden", "herbs"]),
    ],
)
def test_a_figure_and_its_unit_stay_on_one_line(text: str, words: list[str]) -> None:
    assert words_of(text) == words
