"""Our own ornaments: whole, in their boxes, and on paper where they are said to be."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import ImageChops

from documents.samples import shelf
from wickbench.app.drawing_words import GROUP_WORDS, ORNAMENT_WORDS, PICTOGRAM_WORDS
from wickbench.app.texts import all_sentences
from wickbench.documents import pictograms
from wickbench.documents.label_drawings import draw_path
from wickbench.documents.label_draws import PathDraw
from wickbench.documents.label_layout import LaidOutLabel, draw_label, lay_out_label
from wickbench.documents.ornaments import (
    GROUPS,
    bounds,
    group_of,
    ornament_names,
    place_ornament,
)
from wickbench.documents.pdf import PdfSurface
from wickbench.documents.pictograms import path_bounds
from wickbench.domain.findings import Rank
from wickbench.domain.labels import (
    FrameElement,
    LabelDesign,
    OrnamentElement,
    PictogramElement,
)
from wickbench.domain.sheets import Rect

if TYPE_CHECKING:
    from PIL import Image

    from wickbench.domain.labels import AnyElement

GROWING = (*ornament_names("rules"), "brackets")
FIXED = tuple(name for name in ornament_names() if name not in GROWING)
DPI = 300
DOTS = DPI / 25.4
CELL = 30.0


def _label(*elements: AnyElement, width_mm: float = 60.0, shape: str = "") -> LaidOutLabel:
    design = LabelDesign(
        width_mm=width_mm,
        height_mm=40.0,
        shape=shape or "rectangle",
        kind="tag",
        elements=elements,
    )
    return lay_out_label(design, {}, shelf().nearest)


def _paths(laid: LaidOutLabel) -> list[PathDraw]:
    return [one for one in laid.draws if isinstance(one, PathDraw)]


@lru_cache
def _page() -> Image.Image:
    """Every ornament in a box of 20 × 10 mm of its own, on paper, rendered by pdfium."""
    surface = PdfSurface()
    surface.begin_page(CELL * 7, CELL * 7)
    for at, name in enumerate(ornament_names()):
        for draw in place_ornament(name, _box(at)).draws:
            draw_path(surface, draw)
    page = pypdfium2.PdfDocument(surface.finish())[0]
    rendered: Image.Image = page.render(scale=DPI / 72).to_pil()
    return rendered.convert("L")


def _piece(sides: tuple[float, float, float, float]) -> Image.Image:
    left, top, right, bottom = (round(side * DOTS) for side in sides)
    return _page().crop((left, top, right, bottom))


def _box(at: int) -> Rect:
    return Rect(at % 7 * CELL + 4, at // 7 * CELL + 4, 20.0, 10.0)


def test_there_are_at_least_twenty_with_a_word_and_a_group_each() -> None:
    names = ornament_names()
    assert len(names) >= 20
    assert set(ORNAMENT_WORDS) == set(names)
    assert len(set(ORNAMENT_WORDS.values())) == len(names)
    assert set(GROUP_WORDS) == set(GROUPS) == {group_of(name) for name in names}
    assert set(PICTOGRAM_WORDS) == set(pictograms.names())


@pytest.mark.parametrize(("at", "name"), list(enumerate(ornament_names())))
def test_on_paper_the_ink_lies_where_it_is_said_to_lie(at: int, name: str) -> None:
    # pdfium draws it; half a millimetre of 300 dpi is six dots, and one dot is anti-aliasing.
    box = _box(at)
    cell = (box.x_mm - 3, box.y_mm - 3, box.right_mm + 3, box.bottom_mm + 3)
    piece = _piece(cell)
    ink = ImageChops.invert(piece).point(lambda value: 255 * (value > 8)).getbbox()
    assert ink is not None
    said = place_ornament(name, box).box
    off = 1.5 / DOTS
    assert ink[0] / DOTS - 3 + box.x_mm == pytest.approx(said.x_mm, abs=off + 0.05)
    assert ink[1] / DOTS - 3 + box.y_mm == pytest.approx(said.y_mm, abs=off + 0.05)
    assert ink[2] / DOTS - 3 + box.x_mm == pytest.approx(said.right_mm, abs=off + 0.05)
    assert ink[3] / DOTS - 3 + box.y_mm == pytest.approx(said.bottom_mm, abs=off + 0.05)


def test_each_looks_different_and_leaves_paper_open() -> None:
    seen: set[bytes] = set()
    for at in range(len(ornament_names())):
        box = _box(at)
        sides = (box.x_mm, box.y_mm, box.right_mm, box.bottom_mm)
        piece = _piece(sides)
        dark = sum(piece.histogram()[:128]) / (piece.width * piece.height)
        assert 0.005 < dark < 0.6, ornament_names()[at]
        seen.add(piece.resize((40, 20)).tobytes())
    assert len(seen) == len(ornament_names())


@settings(max_examples=30)
@given(st.sampled_from(FIXED), st.floats(2, 80), st.floats(2, 80))
def test_the_shape_is_kept_and_the_box_is_filled_one_way(
    name: str, wide: float, high: float
) -> None:
    left, top, right, bottom = bounds(name)
    box = Rect(3.0, 5.0, wide, high)
    placed = place_ornament(name, box)
    assert placed.box.w_mm / placed.box.h_mm == pytest.approx((right - left) / (bottom - top))
    assert placed.box.w_mm == pytest.approx(wide) or placed.box.h_mm == pytest.approx(high)
    for draw in placed.draws:
        x1, y1, x2, y2 = path_bounds(draw.path)
        assert box.x_mm - 1e-6 <= x1 <= x2 <= box.right_mm + 1e-6
        assert box.y_mm - 1e-6 <= y1 <= y2 <= box.bottom_mm + 1e-6


@settings(max_examples=20)
@given(st.sampled_from(GROWING), st.floats(25, 120), st.floats(1.2, 3.0))
def test_a_rule_is_as_long_as_its_box(name: str, wide: float, high: float) -> None:
    placed = place_ornament(name, Rect(0.0, 0.0, wide, high))
    assert placed.box.w_mm == pytest.approx(wide, rel=0.002)
    assert placed.box.h_mm <= high + 1e-6


def test_the_middle_of_a_rule_keeps_its_size_while_its_ends_grow() -> None:
    short = place_ornament("rule-diamond", Rect(0, 0, 30, 3)).draws[0]
    long = place_ornament("rule-diamond", Rect(0, 0, 90, 3)).draws[0]
    width = [box[2] - box[0] for box in (path_bounds(short.path), path_bounds(long.path))]
    assert width[0] == pytest.approx(width[1])


def test_a_corner_turned_by_a_quarter_stands_in_the_next_corner() -> None:
    curl = OrnamentElement(x_mm=10, y_mm=10, w_mm=20, h_mm=20, ornament="corner-curl")
    first, second = _label(curl), _label(replace(curl, turn_deg=90))
    spots = [tuple(float(v) for v in one[-2:]) for one in _paths(first)[0].path if len(one) > 1]
    others = [tuple(float(v) for v in one[-2:]) for one in _paths(second)[0].path if len(one) > 1]
    # A quarter clockwise about (20, 20), y down: (x, y) goes to (40 - y, x).
    for (x, y), there in zip(spots, others, strict=True):
        assert there == pytest.approx((40 - y, x))


def test_what_cannot_be_printed_well_is_told() -> None:
    small = OrnamentElement(x_mm=5, y_mm=5, w_mm=6, h_mm=6)
    fine = _label(replace(small, ornament="moon-phases"))
    assert [one.key for one in fine.findings] == ["ornament.too-fine"]
    assert fine.findings[0].about == ("element", 0)
    unknown = _label(replace(small, ornament="unicorn"))
    assert [(one.key, one.rank) for one in unknown.findings] == [("ornament.unknown", Rank.STOPS)]
    flat = _label(replace(small, h_mm=0))
    assert [one.key for one in flat.findings] == ["ornament.no-room"]
    cut = _label(OrnamentElement(x_mm=50, y_mm=5, w_mm=20, h_mm=20, ornament="citrus"))
    assert [one.key for one in cut.findings] == ["ornament.cut"]
    for found in (fine, unknown, flat, cut):
        assert {one.key for one in found.findings} <= set(all_sentences())


def test_a_corner_may_hang_over_the_empty_edge_of_a_round_sticker() -> None:
    element = OrnamentElement(x_mm=10, y_mm=0.5, w_mm=20, h_mm=6, ornament="drop")
    assert not _label(element, width_mm=40.0, shape="circle").findings


def test_a_caution_drawing_below_five_millimetres_is_told_with_its_source() -> None:
    # EN 15494:2019 cl. 4.3, from summaries of the standard: symbols at least 5 mm high.
    def found(high: float) -> list[str]:
        element = PictogramElement(x_mm=20, y_mm=10, w_mm=12, h_mm=high, pictogram="trim-wick")
        return [str(one.data.get("source")) for one in _label(element).findings]

    assert found(5.0) == []
    assert found(4.9) == ["EN 15494:2019, 4.3"]


def test_the_slash_of_a_caution_drawing_is_set_off_in_the_colour_behind_it() -> None:
    frame = FrameElement(x_mm=0, y_mm=0, w_mm=60, h_mm=40, fill="#eeddbb", line_mm=0)
    element = PictogramElement(x_mm=20, y_mm=10, w_mm=12, h_mm=12, pictogram="do-not-move")
    colours = {one.stroke for one in _paths(_label(frame, element)) if one.stroke}
    assert colours == {"#000000", "#eeddbb"}


@pytest.mark.parametrize("name", pictograms.names())
def test_a_caution_drawing_fills_its_box_one_way(name: str) -> None:
    element = PictogramElement(x_mm=10, y_mm=10, w_mm=9, h_mm=9, pictogram=name, colour="#112233")
    laid = _label(element)
    inks = [one for one in _paths(laid) if "#112233" in {one.fill, one.stroke}]
    boxes = [path_bounds(one.path) for one in inks]
    wide = max(box[2] for box in boxes) - min(box[0] for box in boxes)
    high = max(box[3] for box in boxes) - min(box[1] for box in boxes)
    assert max(wide, high) == pytest.approx(9.0, abs=0.65)  # half a line at each side at most


def test_drawings_are_drawn_in_order_and_holes_stay_open() -> None:
    surface = PdfSurface()
    surface.begin_page(60, 40)
    draw_label(
        _label(OrnamentElement(x_mm=20, y_mm=10, w_mm=20, h_mm=20, ornament="flame")), surface
    )
    page = pypdfium2.PdfDocument(surface.finish())[0].render(scale=DPI / 72).to_pil().convert("L")
    heart = (30.0 + 0.1) * DOTS, (10 + 20 * 0.8) * DOTS
    assert page.getpixel((round(heart[0]), round(heart[1]))) == 255
