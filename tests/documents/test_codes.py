"""Codes on labels are read back from the printed page by a scanner's library (zxing-cpp)."""

from __future__ import annotations

from dataclasses import replace

import pypdfium2 as pdfium
import pytest
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st

from documents.samples import shelf
from wickbench.documents.label_draws import PathDraw
from wickbench.documents.label_layout import LaidOutLabel, draw_label, lay_out_label
from wickbench.documents.pdf import PdfSurface
from wickbench.domain.codes import RULES
from wickbench.domain.labels import AnyElement, CodeElement, LabelDesign, LineElement

SAID = {
    "qr": "https://example.org/candle/26-332-A1?x=äöü",
    "ean13": "6291041500213",
    "upca": "036000291452",
    "ean8": "23456785",
    "code128": "26-332-A1",
}
FORMATS = {
    "qr": zxingcpp.BarcodeFormat.QRCode,
    "ean13": zxingcpp.BarcodeFormat.EAN13,
    # The bars of UPC-A are those of EAN-13 with a 0 in front (GS1); the reader names the latter.
    "upca": zxingcpp.BarcodeFormat.EAN13,
    "ean8": zxingcpp.BarcodeFormat.EAN8,
    "code128": zxingcpp.BarcodeFormat.Code128,
}
DOTS = 300


def laid(element: AnyElement, *more: AnyElement, around_mm: float | None = None) -> LaidOutLabel:
    design = LabelDesign(width_mm=90, height_mm=60, elements=(element, *more))
    return lay_out_label(design, {"lot": "Lot 26-332-A1"}, shelf().nearest, around_mm=around_mm)


def code(symbol: str = "ean13", **changes: object) -> CodeElement:
    place = {"x_mm": 15.0, "y_mm": 10.0, "w_mm": 50.0, "h_mm": 30.0}
    wanted = {**place, "symbol": symbol, "text": SAID[symbol], **changes}
    return CodeElement(**wanted)  # type: ignore[arg-type]  # the test names the fields itself


def read(label: LaidOutLabel) -> list[tuple[object, str]]:
    surface = PdfSurface()
    surface.begin_page(label.design.width_mm, label.design.height_mm)
    draw_label(label, surface)
    document = pdfium.PdfDocument(surface.finish())
    picture = document[0].render(scale=DOTS / 72).to_pil().convert("L")
    document.close()
    return [(found.format, found.text) for found in zxingcpp.read_barcodes(picture)]


@pytest.mark.parametrize("symbol", SAID)
@pytest.mark.parametrize("degrees", [0.0, 90.0, 180.0, 270.0])
def test_every_kind_is_read_back_however_it_is_turned(symbol: str, degrees: float) -> None:
    label = laid(code(symbol, turn_deg=degrees))
    [(found, text)] = read(label)
    assert found == FORMATS[symbol]
    assert text.lstrip("0") == SAID[symbol].lstrip("0")


@pytest.mark.parametrize("symbol", ["ean13", "upca", "ean8"])
def test_a_code_of_the_least_width_is_read_at_300_dots(symbol: str) -> None:
    rule = RULES[symbol]
    label = laid(code(symbol, module_mm=rule.least_mm))
    assert [text.lstrip("0") for _, text in read(label)] == [SAID[symbol].lstrip("0")]


def test_a_field_stands_in_a_code() -> None:
    label = laid(code("code128", text="{lot}"))
    assert [text for _, text in read(label)] == ["Lot 26-332-A1"]
    unknown = laid(code("qr", text="{moon}"))
    assert {one.key for one in unknown.findings} >= {"label.unknown-field"}


def keys(label: LaidOutLabel) -> set[str]:
    return {one.key for one in label.findings if one.key.startswith("code.")}


def bars_box(label: LaidOutLabel) -> tuple[float, float, float, float]:
    path = next(draw.path for draw in label.draws if isinstance(draw, PathDraw))
    points = [command[1:3] for command in path if len(command) > 1]
    xs, ys = [float(x) for x, _ in points], [float(y) for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def lies_down(label: LaidOutLabel) -> bool:
    """Whether the first bar is wider than high."""
    path = next(draw.path for draw in label.draws if isinstance(draw, PathDraw))
    corners = [command[1:3] for command in path[:4]]
    xs, ys = [float(x) for x, _ in corners], [float(y) for _, y in corners]
    return max(xs) - min(xs) > max(ys) - min(ys)


def test_bars_have_the_width_and_place_asked_for() -> None:
    left, top, right, _ = bars_box(laid(code("ean13", module_mm=0.33)))
    assert right - left == pytest.approx(95 * 0.33)  # 31.35 mm, GS1 General Specifications
    # 11 bar widths clear on the left and 7 on the right, the whole in the middle of its box.
    assert left == pytest.approx(15 + (50 - 113 * 0.33) / 2 + 11 * 0.33)
    assert top == pytest.approx(10.0)


def test_a_code_that_bends_too_far_stands_up_by_itself() -> None:
    # 50 mm box: EAN-13 bars of 42 mm; a sixth of the way round 60 mm is 31.4 mm.
    upright = laid(code("ean13", w_mm=50.0, h_mm=50.0, y_mm=5.0), around_mm=60.0)
    assert keys(upright) == {"code.turned"}
    assert lies_down(upright)
    assert not lies_down(laid(code("ean13")))
    kept = laid(code("ean13", ladder=False, h_mm=40.0), around_mm=60.0)
    assert "code.bends" in keys(kept)
    assert keys(laid(code("ean13", h_mm=40.0), around_mm=120.0)) == set()
    assert "code.bends-square" in keys(laid(code("qr", w_mm=40.0, h_mm=40.0), around_mm=50.0))


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"text": ""}, "code.empty"),
        ({"text": "6291041500214"}, "code.check-digit"),
        ({"w_mm": 25.0}, "code.bars-thin"),
        ({"h_mm": 12.0}, "code.bars-low"),
        ({"colour": "#cc2200"}, "code.colours"),
        ({"ground": "#333333"}, "code.colours"),
        ({"x_mm": 60.0}, "code.outside"),
        ({"symbol": "qr", "text": "x" * 80, "w_mm": 10.0}, "code.modules-small"),
    ],
)
def test_what_a_scanner_would_stumble_over_is_said(changes: dict[str, object], key: str) -> None:
    assert key in keys(laid(code(**{"symbol": "ean13", **changes})))


def test_nothing_else_may_stand_in_the_clear_space() -> None:
    beside = LineElement(x_mm=2.0, y_mm=5.0, w_mm=10.0, h_mm=40.0)
    inside = LineElement(x_mm=16.0, y_mm=12.0, w_mm=1.0, h_mm=10.0)
    assert "code.covered" not in keys(laid(code("ean13"), beside))
    assert "code.covered" in keys(laid(code("ean13"), inside))
    # A quarter turn about its middle takes a line out of the code, or into it.
    out = LineElement(x_mm=-10.0, y_mm=20.0, w_mm=32.0, h_mm=2.0, turn_deg=90.0)
    assert "code.covered" in keys(laid(code("ean13"), replace(out, turn_deg=0.0)))
    assert "code.covered" not in keys(laid(code("ean13"), out))


@given(
    st.sampled_from(sorted(SAID)),
    st.floats(3, 80),
    st.floats(3, 50),
    st.sampled_from([0.0, 30.0, 90.0, 200.0]),
    st.one_of(st.none(), st.floats(20, 200)),
)
def test_a_code_never_leaves_its_box(
    symbol: str, wide: float, high: float, degrees: float, around_mm: float | None
) -> None:
    element = code(symbol, x_mm=5.0, y_mm=5.0, w_mm=wide, h_mm=high, turn_deg=0.0)
    left, top, right, bottom = bars_box(laid(element, around_mm=around_mm))
    assert left >= 5.0 - 1e-6
    assert top >= 5.0 - 1e-6
    assert right <= 5.0 + wide + 1e-6
    assert bottom <= 5.0 + high + 1e-6
    turned = laid(code(symbol, w_mm=wide, h_mm=high, turn_deg=degrees))
    assert turned.key != laid(code(symbol, w_mm=wide, h_mm=high, turn_deg=degrees + 1)).key
