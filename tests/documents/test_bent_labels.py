"""What stays rigid on a bent label, the piece of paper it is, and badges on it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
import pypdfium2
import pytest
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st
from scipy.spatial.distance import pdist

from documents.samples import shelf
from documents.test_bending import (
    NARROW_ABOVE,
    NARROW_BELOW,
    TAPERS,
    WAYS,
    along,
    bent,
    design_of,
    middle_of,
    text_at,
)
from wickbench.documents.label_draws import CurvedDraw, ImageDraw, PathDraw
from wickbench.documents.label_layout import (
    draw_flat_label,
    draw_label,
    label_outline,
    lay_out_label,
)
from wickbench.documents.numbered import Spot, numbered_label
from wickbench.documents.pdf import PdfSurface
from wickbench.documents.sheet_layout import RunEntry, draw_sheets, label_content, lay_out_sheets
from wickbench.documents.surface import RecordingSurface
from wickbench.domain.labels import (
    CodeElement,
    FactsElement,
    FrameElement,
    LabelDesign,
    OrnamentElement,
    PictogramElement,
    PictureElement,
    TextElement,
)
from wickbench.domain.sheets import StickerSheet

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from wickbench.documents.label_draws import AnyDraw
    from wickbench.documents.label_layout import LaidOutLabel
    from wickbench.domain.labels import AnyElement


# -- what stays rigid ----------------------------------------------------------------------------
def points_of(draws: tuple[AnyDraw, ...]) -> np.ndarray:
    return np.array(
        [
            spot
            for draw in draws
            if isinstance(draw, PathDraw)
            for _, *numbers in draw.path
            for spot in zip(numbers[::2], numbers[1::2], strict=True)
        ][:160]
    )


@WAYS
@pytest.mark.parametrize(
    "element",
    [
        CodeElement(x_mm=120, y_mm=12, w_mm=24, h_mm=24, text="https://example.org/"),
        CodeElement(x_mm=110, y_mm=12, w_mm=40, h_mm=30, text="4006381333931", symbol="ean13"),
        PictogramElement(x_mm=120, y_mm=12, w_mm=24, h_mm=24),
    ],
)
def test_codes_and_pictograms_are_never_bent(
    wall: tuple[float, float], element: AnyElement
) -> None:
    laid = bent(wall, element)
    assert laid.bent is not None
    flat, turned = points_of(laid.draws), points_of(laid.bent.draws)
    assert len(flat) > 10
    assert pdist(turned) == pytest.approx(pdist(flat), abs=1e-9)
    one = laid.bent.ring
    middle = (element.x_mm + element.w_mm / 2, element.y_mm + element.h_mm / 2)
    there, angle = one.to_paper(*middle), math.radians(one.turn_deg(middle[0]))
    turn = np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
    assert turned == pytest.approx((flat - middle) @ turn.T + there, abs=1e-9)


@WAYS
def test_codes_on_a_bent_label_are_read(wall: tuple[float, float]) -> None:
    laid = bent(
        wall,
        CodeElement(x_mm=130, y_mm=12, w_mm=26, h_mm=26, text="https://example.org/"),
        CodeElement(x_mm=20, y_mm=12, w_mm=45, h_mm=32, text="4006381333931", symbol="ean13"),
        background="#ffffff",
    )
    surface = PdfSurface()
    surface.begin_page(laid.width_mm, laid.height_mm)
    draw_label(laid, surface)
    page = pypdfium2.PdfDocument(surface.finish())[0].render(scale=300 / 72).to_pil()
    read = {one.text for one in zxingcpp.read_barcodes(page.convert("L"))}
    assert read == {"https://example.org/", "4006381333931"}


@WAYS
@pytest.mark.parametrize("fit", ["contain", "cover"])
def test_pictures_are_turned_whole_about_their_middle(wall: tuple[float, float], fit: str) -> None:
    picture = PictureElement(
        x_mm=120, y_mm=12, w_mm=30, h_mm=30, picture="pic", fit=fit, turn_deg=20
    )
    laid = bent(wall, picture)
    assert laid.bent is not None
    flat, turned = laid.draws[0], laid.bent.draws[0]
    assert isinstance(flat, ImageDraw)
    assert isinstance(turned, ImageDraw)
    assert (turned.w_mm, turned.h_mm) == (flat.w_mm, flat.h_mm)
    assert turned.turn_deg == pytest.approx(20 + laid.bent.ring.turn_deg(135))
    angle = math.radians(turned.turn_deg)
    half = (turned.w_mm / 2, turned.h_mm / 2)
    middle = (
        turned.x_mm + half[0] * math.cos(angle) - half[1] * math.sin(angle),
        turned.y_mm + half[0] * math.sin(angle) + half[1] * math.cos(angle),
    )
    assert middle == pytest.approx(laid.bent.ring.to_paper(135, 27), abs=1e-9)
    assert (turned.clip is None) == (fit == "contain")


def test_a_code_that_comes_over_the_bent_edge_is_found() -> None:
    box = {"x_mm": 150.0, "y_mm": 0.2, "w_mm": 28.0, "h_mm": 28.0}
    code = CodeElement(**box, text="https://example.org/", ground="#ffffff")
    straight = {one.key for one in bent((70.0, 70.0), code).findings}
    tapered = [one for one in bent((40.0, 70.0), code).findings if one.key == "code.outside"]
    assert "code.outside" not in straight
    assert [one.about for one in tapered] == [("element", 0)]


def test_facts_that_come_over_the_bent_edge_are_found() -> None:
    # In the narrow part of the ring a line reaches further round than in the flat.
    facts = FactsElement(
        x_mm=154, y_mm=44, w_mm=24, h_mm=8, facts=("lot",), size_pt=14, min_size_pt=14
    )
    values = {"lot": "26-332-A1"}
    keys = {}
    for wall in ((70.0, 70.0), (30.0, 70.0)):
        laid = lay_out_label(design_of(wall, facts), values, shelf().nearest)
        keys[wall] = [one.key for one in laid.findings]
        assert laid.texts[0].fits
    assert keys[70.0, 70.0] == []
    assert keys[30.0, 70.0] in (["label.text-outside-safe"], ["label.text-outside-sticker"])


# -- the piece of paper --------------------------------------------------------------------------
@given(TAPERS, st.floats(20, 400), st.floats(25.5, 120))
def test_the_paper_is_just_as_large_as_the_bent_label(
    wall: tuple[float, float], w: float, h: float
) -> None:
    if w >= 0.95 * math.pi * h * sum(wall) / 2 / abs(wall[0] - wall[1]) * 2:
        return
    laid = bent(wall, w=w, h=h, bleed_mm=2.0)
    if laid.bent is None:
        return
    spots = list(along(label_outline(laid)))
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    assert (min(xs), min(ys)) == pytest.approx((0, 0), abs=0.02)
    assert (max(xs), max(ys)) == pytest.approx((laid.width_mm, laid.height_mm), abs=0.02)
    spots = list(along(label_outline(laid, -2.0)))
    assert min(min(x, y) for x, y in spots) > -laid.bleed_mm - 0.02
    content = label_content(laid)
    assert (content.width_mm, content.height_mm) == (laid.width_mm, laid.height_mm)


def test_a_bent_label_lies_inside_its_sticker_with_a_line_to_cut_along() -> None:
    laid = bent(NARROW_BELOW, text_at(10, 20, 160, "On a sheet"), background="#ffeedd")
    sheet = StickerSheet(210, 297, 5, 10, 1, 3, 200, 92, 200, 90, "rectangle")
    pages = lay_out_sheets(sheet, [RunEntry(label_content(laid), 3)])
    surface = RecordingSurface()
    draw_sheets(surface, pages)
    cuts = [one for one in surface.paths if one.stroke == "#9a9a9a"]
    assert len(cuts) == 3
    for at, cut in enumerate(cuts):
        box = sheet.sticker(at)
        xs, ys = zip(*along(cut.path), strict=True)
        assert (min(xs) + max(xs)) / 2 == pytest.approx(box.x_mm + box.w_mm / 2, abs=0.01)
        assert (min(ys) + max(ys)) / 2 == pytest.approx(box.y_mm + box.h_mm / 2, abs=0.01)
        assert box.x_mm < min(xs) < max(xs) < box.right_mm
        assert box.y_mm < min(ys) < max(ys) < box.bottom_mm
    assert surface.spans == ["On a sheet "] * 3


def test_the_flat_drawing_stays_for_the_desk() -> None:
    laid = bent(NARROW_BELOW, text_at(10, 20, 160, "Flat and bent"))
    record: dict[str, RecordingSurface] = {}
    drawings: dict[str, Callable[[LaidOutLabel, RecordingSurface], None]] = {
        "flat": draw_flat_label,
        "bent": draw_label,
    }
    for name, draw in drawings.items():
        record[name] = RecordingSurface()
        record[name].begin_page(200, 100)
        draw(laid, record[name])
    assert [one.run.text for one in record["flat"].texts] == ["Flat and bent"]
    assert "".join(one.run.text for one in record["bent"].texts) == "Flat and bent "
    assert laid.bent is not None
    assert len(laid.bent.draws) == len(laid.draws)


def test_words_on_a_long_oval_are_bent_letter_by_letter() -> None:
    said = text_at(50, 15, 80, "ROUND THE TOP", curve="over", h_mm=30.0, size_pt=9)
    laid = bent(NARROW_ABOVE, said)
    assert laid.bent is not None
    flat, drawn = laid.draws[0], laid.bent.draws[0]
    assert isinstance(flat, CurvedDraw)
    assert isinstance(drawn, CurvedDraw)
    for one, other in zip(flat.letters, drawn.letters, strict=True):
        x, y = middle_of(one)
        assert middle_of(other) == pytest.approx(laid.bent.ring.to_paper(x, y), abs=1e-9)
        assert other.turn_deg == pytest.approx(one.turn_deg + laid.bent.ring.turn_deg(x))


@WAYS
def test_a_badge_keeps_its_circles_and_its_words_round_one_middle(
    wall: tuple[float, float],
) -> None:
    box = {"x_mm": 120.0, "y_mm": 12.0, "w_mm": 30.0, "h_mm": 30.0}
    inner = {"x_mm": 125.0, "y_mm": 17.0, "w_mm": 20.0, "h_mm": 20.0}
    laid = bent(
        wall,
        FrameElement(**box, figure="oval"),
        TextElement(**box, text="ROUND THE TOP", curve="over", size_pt=8),
        TextElement(**box, text="and below", curve="under", size_pt=8),
        FrameElement(**inner, figure="oval"),
        OrnamentElement(**inner, ornament="sprig"),
    )
    assert laid.bent is not None
    middle = laid.bent.ring.to_paper(135, 27)
    for draw, radius in ((laid.bent.draws[0], 15), (laid.bent.draws[3], 10)):
        assert isinstance(draw, PathDraw)
        far = [math.dist(spot, middle) for spot in along(draw.path)]
        assert far == pytest.approx([radius] * len(far), rel=4e-4)
    for flat, drawn in zip(laid.draws[1:3], laid.bent.draws[1:3], strict=True):
        assert isinstance(flat, CurvedDraw)
        assert isinstance(drawn, CurvedDraw)
        before = [math.dist(middle_of(one), (135, 27)) for one in flat.letters]
        assert [math.dist(middle_of(one), middle) for one in drawn.letters] == pytest.approx(before)
    leaves, turned = points_of(laid.draws[4:]), points_of(laid.bent.draws[4:])
    assert pdist(turned) == pytest.approx(pdist(leaves), abs=1e-9)


def test_numbers_of_a_run_stand_on_a_bent_label_and_nothing_twice() -> None:
    design = design_of(
        NARROW_BELOW,
        text_at(10, 5, 160, "Every sticker"),
        text_at(10, 25, 160, "number {number}"),
        text_at(10, 45, 160, "and below it"),
    )

    def lay_out(wanted: LabelDesign, values: Mapping[str, str]) -> LaidOutLabel:
        return lay_out_label(wanted, values, shelf().nearest)

    made = numbered_label(design, {}, range(8, 11), lay_out)
    for nth, number in enumerate((8, 9, 10)):
        surface = RecordingSurface()
        surface.begin_page(200, 120)
        made.paint(surface, nth, Spot(5, 5))
        alone = RecordingSurface()
        alone.begin_page(200, 120)
        draw_label(lay_out(design, {"number": str(number)}), alone)
        assert sorted(surface.spans) == sorted(alone.spans)
        assert f"number {number} " in surface.spans
        places = {(round(one.x_mm + 5, 6), round(one.y_mm + 5, 6)) for one in alone.texts}
        assert {(round(one.x_mm, 6), round(one.y_mm, 6)) for one in surface.texts} == places
