"""SVG drawings as our own paths: compared with Qt's renderer, with PDFium, and with geometry.

Qt's renderer knows SVG Tiny 1.2 only, and draws arcs roughly; what it lacks is measured against
the standard's own formulas.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pypdfium2
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPainterPathStroker, QTransform
from PySide6.QtSvg import QSvgRenderer

from documents.samples import shelf
from wickbench.documents.label_drawings import draw_path
from wickbench.documents.label_layout import draw_label, lay_out_label
from wickbench.documents.pdf import PdfSurface
from wickbench.documents.pictograms import path_bounds
from wickbench.documents.svg_arcs import arc_to
from wickbench.documents.svg_geometry import path_of, transform
from wickbench.documents.svg_paths import Drawing, svg_drawing
from wickbench.documents.svg_strokes import Stroke, flattened, is_plain, outlined
from wickbench.domain.labels import LabelDesign, PictureElement
from wickbench.gui.painting import ScreenSurface, painter_path

SIDE = 400
HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'


def svg(inside: str, box: str = "0 0 100 100") -> bytes:
    return f'{HEAD} viewBox="{box}">{inside}</svg>'.encode()


def _pixels(image: QImage) -> np.ndarray:
    whole = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.width(), 4)
    return whole[:, :, :3].astype(int)


def _white() -> QImage:
    image = QImage(SIDE, SIDE, QImage.Format.Format_RGB32)
    image.fill(QColor("white"))
    return image


def _by_qt(data: bytes) -> np.ndarray:
    image = _white()
    painter = QPainter(image)
    renderer = QSvgRenderer(QByteArray(data))
    renderer.setAspectRatioMode(Qt.AspectRatioMode.IgnoreAspectRatio)
    renderer.render(painter, QRectF(0, 0, SIDE, SIDE))
    painter.end()
    return _pixels(image)


def _by_us(drawing: Drawing) -> np.ndarray:
    image = _white()
    painter = QPainter(image)
    surface = ScreenSurface(painter, SIDE / drawing.width, page=None)
    for draw in drawing.draws:
        draw_path(surface, draw)
    surface.finish()
    painter.end()
    return _pixels(image)


def _spots(one: np.ndarray, other: np.ndarray) -> int:
    """Places where two pictures differ over at least 3 × 3 dots: more than an edge."""
    differs = np.abs(one - other).max(axis=2) > 80
    whole = differs.copy()
    for down in (-1, 0, 1):
        for across in (-1, 0, 1):
            whole &= np.roll(np.roll(differs, down, 0), across, 1)
    return int(whole.sum())


DRAWINGS = {
    "shapes": '<rect x="5" y="5" width="30" height="20" rx="6" fill="#c42"/>'
    '<rect x="40" y="5" width="20" height="20" rx="9" ry="4" fill="olive"/>'
    '<circle cx="80" cy="15" r="10" fill="teal" stroke="black" stroke-width="2"/>'
    '<ellipse cx="20" cy="45" rx="15" ry="8" fill="gold"/>'
    '<line x1="45" y1="35" x2="60" y2="55" stroke="#333" stroke-width="3"/>'
    '<polygon points="70,35 90,35 80,55" fill="rgb(10,90,160)"/>'
    '<polyline points="5,70 15,90 25,70 35,90" fill="none" stroke="purple" stroke-width="2"/>',
    "curves": '<path d="M5 30 C 20 0 40 60 55 30 S 80 0 90 30" fill="none" stroke="#04a"'
    ' stroke-width="3"/><path d="m5,70 q10,-30 20,0 t20,0 t20,0 V95 H5z" fill="#862"/>',
    "rules": '<path d="M20 5 l30 0 l-24 18 l9 -29 l9 29z" fill-rule="evenodd" fill="#246"/>'
    '<path d="M60 45h30v30h-30z M68 53v14h14v-14z" fill="#642"/>'
    '<path d="M10 45h30v30h-30z M18 53h14v14h-14z" fill="#642"/>',
    "transforms": '<g transform="translate(20 20) scale(1.5 .8) skewX(15)" fill="#a33">'
    '<rect width="20" height="20"/><g transform="rotate(30 40 10)"><rect x="30" width="20"'
    ' height="20"/></g></g><rect width="20" height="20" fill="navy"'
    ' transform="matrix(.8 .3 -.2 1 60 60)"/>',
    "strokes": '<polyline points="10,40 20,10 30,40 40,10" fill="none" stroke="#a0a"'
    ' stroke-width="7" stroke-linejoin="round" stroke-linecap="round"/>'
    '<polyline points="55,40 65,10 75,40 85,10" fill="none" stroke="#0a0" stroke-width="7"'
    ' stroke-linejoin="bevel" stroke-linecap="square"/><polygon points="20,90 25,55 30,90"'
    ' fill="none" stroke="#800" stroke-width="3"/><line x1="50" y1="70" x2="95" y2="70"'
    ' stroke="#444" stroke-width="6"/>',
    "looks": '<g fill="#b52" style="stroke:#225;stroke-width:2px"><rect x="5" y="5" width="20"'
    ' height="20"/><rect x="35" y="5" width="20" height="20" style="fill:none"/></g>'
    '<g color="green"><rect x="65" y="5" width="20" height="20" fill="currentColor"/></g>'
    '<rect x="5" y="40" width="20" height="20" fill="#369" opacity=".4"/>'
    '<rect x="35" y="40" width="20" height="20" fill="#369" fill-opacity=".25"/>'
    '<rect x="65" y="40" width="20" height="20" display="none"/>'
    '<rect x="5" y="70" width="20" height="20" visibility="hidden"/>',
    "use": '<defs><g id="g"><rect width="15" height="15" fill="#27a"/></g></defs>'
    '<use xlink:href="#g" x="5" y="5"/><use xlink:href="#g" transform="translate(40 5) scale(2)"/>',
}  # fmt: skip


@pytest.mark.parametrize("name", DRAWINGS)
def test_it_looks_as_qt_draws_it(name: str) -> None:
    data = svg(DRAWINGS[name])
    drawing = svg_drawing(data)
    assert set(drawing.left_out) <= {"transparent"}
    assert _spots(_by_us(drawing), _by_qt(data)) == 0


@pytest.mark.parametrize("name", DRAWINGS)
def test_on_paper_it_looks_as_qt_draws_it(name: str) -> None:
    data = svg(DRAWINGS[name])
    element = PictureElement(x_mm=0, y_mm=0, w_mm=40, h_mm=40, picture="it")
    design = LabelDesign(width_mm=40, height_mm=40, kind="tag", elements=(element,))
    surface = PdfSurface()
    surface.begin_page(40, 40)
    draw_label(lay_out_label(design, {}, shelf().nearest, lambda _: data), surface)
    page = pypdfium2.PdfDocument(surface.finish())[0]
    paper = page.render(scale=SIDE / (40 / 25.4 * 72)).to_pil().convert("RGB").resize((SIDE, SIDE))
    seen = np.asarray(paper)[:, :, ::-1].astype(int)
    assert _spots(seen, _by_qt(data)) == 0


@settings(max_examples=30)
@given(
    st.tuples(st.floats(-50, 50), st.floats(-50, 50)),
    st.tuples(st.floats(-50, 50), st.floats(-50, 50)),
    st.floats(1, 120),
    st.sampled_from([(0, 0), (0, 1), (1, 0), (1, 1)]),
)
def test_an_arc_of_a_circle_has_its_radius_length_and_side(
    begin: tuple[float, float], end: tuple[float, float], radius: float, flags: tuple[int, int]
) -> None:
    # Plane geometry: a chord c of a circle of radius r spans 2 asin(c / 2r); SVG 2, 9.5.1: too
    # small a radius grows to half the chord.
    chord = math.dist(begin, end)
    assume(chord > 1.0)
    radius = max(radius, chord / 2 + 1e-6)
    path = (("m", *begin), *arc_to(begin, (radius, radius), 0.0, flags, end))
    points = flattened(path, radius * 1e-5)[0].points
    assert points[-1] == pytest.approx(end)
    angle = 2 * math.asin(min(1.0, chord / 2 / radius))
    wanted = radius * (2 * math.pi - angle if flags[0] else angle)
    length = math.fsum(math.dist(a, b) for a, b in pairwise(points))
    assert length == pytest.approx(wanted, rel=2e-3)
    a, b, c = points[0], points[len(points) // 2], points[-1]
    side = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    assert (side > 0) == bool(flags[1])  # y down: sweep 1 turns clockwise, the way on the left


@settings(max_examples=20)
@given(st.floats(2, 40), st.floats(2, 40), st.floats(-180, 180), st.floats(10, 350))
def test_an_elliptic_arc_lies_on_its_ellipse(
    rx: float, ry: float, turned: float, swept: float
) -> None:
    # The equation of an ellipse; a quarter as one cubic is off by 2.7e-4 of the radius at most.
    cosine, sine = math.cos(math.radians(turned)), math.sin(math.radians(turned))

    def at(degrees: float) -> tuple[float, float]:
        x, y = rx * math.cos(math.radians(degrees)), ry * math.sin(math.radians(degrees))
        return cosine * x - sine * y, sine * x + cosine * y

    begin, end = at(0.0), at(swept)
    assume(math.dist(begin, end) > 0.5)
    path = (("m", *begin), *arc_to(begin, (rx, ry), turned, (int(swept > 180), 1), end))
    for x, y in flattened(path, 1e-4)[0].points:
        along, across = cosine * x + sine * y, -sine * x + cosine * y
        assert (along / rx) ** 2 + (across / ry) ** 2 == pytest.approx(1.0, abs=2e-3)


@pytest.mark.parametrize(
    ("short", "full"),
    [
        # SVG 2, 9.3.9: superfluous white space and separators can be left out.
        ("M 100-200", "M 100 -200"),
        ("M 0.6.5", "M 0.6 0.5"),
        ("M 100 100 L 200 200", "M100 100L200 200"),
        ("M 100 200 L 200 100 -100 -200", "M 100 200 L 200 100 L -100 -200"),
        ("m 1 2 3 4 z", "M 1 2 L 4 6 Z"),
        ("M0 0a1 1 0 01.5.5", "M 0 0 A 1 1 0 0 1 0.5 0.5"),
        ("M1e1,2E0H-3v4", "M 10 2 L -3 2 L -3 6"),
        ("M0 0C1 1 2 2 3 3s2 2 3 3", "M0 0 C 1 1 2 2 3 3 C 4 4 5 5 6 6"),
        ("M0 0Q1 2 3 0t3 0", "M0 0 Q 1 2 3 0 Q 5 -2 6 0"),
    ],
)
def test_path_data_may_be_written_short(short: str, full: str) -> None:
    assert path_of(short)[1]
    for one, other in zip(path_of(short)[0], path_of(full)[0], strict=True):
        assert one[0] == other[0]
        assert one[1:] == pytest.approx(other[1:])


def test_a_mistake_ends_a_path_there_and_is_told() -> None:
    # SVG 2, 9.5.4: render up to the last segment that can be read.
    drawing = svg_drawing(svg('<path d="M0 0 L 10 10 20 x" stroke="black"/>'))
    assert drawing.draws[-1].path == (("m", 0.0, 0.0), ("l", 10.0, 10.0))
    assert drawing.left_out == ("path",)


@given(
    st.lists(
        st.one_of(
            st.tuples(st.just("translate"), st.floats(-9, 9), st.floats(-9, 9)),
            st.tuples(st.just("scale"), st.floats(0.2, 3), st.floats(0.2, 3)),
            st.tuples(st.just("rotate"), st.floats(-180, 180)),
            st.tuples(st.just("skewX"), st.floats(-60, 60)),
            st.tuples(st.just("skewY"), st.floats(-60, 60)),
        ),
        max_size=5,
    ),
    st.floats(-9, 9),
    st.floats(-9, 9),
)
def test_transforms_follow_each_other_as_in_qt(
    steps: list[tuple[str, float]], x: float, y: float
) -> None:
    said = " ".join(f"{name}({','.join(repr(n) for n in numbers)})" for name, *numbers in steps)
    theirs = QTransform()
    for name, *numbers in steps:
        match name:
            case "translate":
                theirs.translate(*numbers)
            case "scale":
                theirs.scale(*numbers)
            case "rotate":
                theirs.rotate(numbers[0])
            case "skewX":
                theirs.shear(math.tan(math.radians(numbers[0])), 0.0)
            case _:
                theirs.shear(0.0, math.tan(math.radians(numbers[0])))
    assert transform(said).apply(x, y) == pytest.approx(theirs.map(x, y), rel=1e-5, abs=1e-4)


CAPS = {
    "butt": Qt.PenCapStyle.FlatCap,
    "round": Qt.PenCapStyle.RoundCap,
    "square": Qt.PenCapStyle.SquareCap,
}
JOINS = {
    "miter": Qt.PenJoinStyle.SvgMiterJoin,
    "round": Qt.PenJoinStyle.RoundJoin,
    "bevel": Qt.PenJoinStyle.BevelJoin,
}


@pytest.mark.parametrize("cap", CAPS)
@pytest.mark.parametrize("join", JOINS)
@pytest.mark.parametrize("end", ["", "z"])
def test_the_area_of_a_stroke_is_that_of_qts_stroker(cap: str, join: str, end: str) -> None:
    path = path_of(f"M60 300 L 120 80 L 180 300 C 220 60 330 60 340 200 L 300 330{end}")[0]
    stroker = QPainterPathStroker()
    stroker.setWidth(30)
    stroker.setCapStyle(CAPS[cap])
    stroker.setJoinStyle(JOINS[join])
    stroker.setMiterLimit(4)
    theirs, ours = _white(), _white()
    for image, shape in (
        (theirs, stroker.createStroke(painter_path(path))),
        (ours, painter_path(outlined(path, Stroke(30, cap, join), 0.05))),
    ):
        shape.setFillRule(Qt.FillRule.WindingFill)
        painter = QPainter(image)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillPath(shape, QColor("black"))
        painter.end()
    assert _spots(_pixels(theirs), _pixels(ours)) == 0


def test_dashes_begin_where_asked_and_are_as_long_as_asked() -> None:
    # SVG 2, 13.5.6: dashes 5 gaps 3, begun 4 into the pattern: 1 dash, 3 gap, 5, 3, 5, 3.
    stroke = Stroke(2.0, dashes=(5.0, 3.0), offset=4.0)
    area = outlined((("m", 0.0, 0.0), ("l", 20.0, 0.0)), stroke, 0.01)
    boxes = sorted(path_bounds(one)[::2] for one in _figures(area))
    assert boxes == [pytest.approx(one) for one in ((0, 1), (4, 9), (12, 17))]


def _figures(path: tuple) -> list[tuple]:
    found: list[list] = []
    for command in path:
        if command[0] == "m":
            found.append([])
        found[-1].append(command)
    return [tuple(one) for one in found]


def test_what_paper_draws_the_same_stays_a_line() -> None:
    square = path_of("M0 0h10v10h-10z")[0]
    assert is_plain(square, Stroke(1.0))
    assert is_plain(square, Stroke(1.0, cap="round"))
    assert not is_plain(square, Stroke(1.0, join="round"))
    assert not is_plain(path_of("M0 0h10")[0], Stroke(1.0, cap="round"))
    # 1 / sin(θ / 2) ≤ 4 is an angle of 29° (SVG 2, 13.5.5); paper cuts at 10, which is 11.5°.
    sharp = path_of("M0 4 L20 0 L0 -4")[0]  # 22.6°
    assert not is_plain(sharp, Stroke(1.0))
    assert is_plain(sharp, Stroke(1.0, limit=10.0))


@pytest.mark.parametrize(
    ("align", "left", "top", "k"),
    [
        # SVG 2, 8.6 and 8.7: a view box of 20 × 10 in a viewport of 40 × 40.
        ("xMidYMid", 0, 10, 2),
        ("xMinYMin meet", 0, 0, 2),
        ("xMaxYMax meet", 0, 20, 2),
        ("xMinYMin slice", 0, 0, 4),
        ("xMidYMid slice", -20, 0, 4),
        ("xMaxYMax slice", -40, 0, 4),
    ],
)
def test_a_view_box_is_fitted_as_asked(align: str, left: float, top: float, k: float) -> None:
    data = (
        f'{HEAD} viewBox="0 0 20 10" width="40" height="40" preserveAspectRatio="{align}">'
        '<rect width="20" height="10"/></svg>'
    ).encode()
    drawing = svg_drawing(data)
    assert (drawing.width, drawing.height) == (40, 40)
    assert path_bounds(drawing.draws[0].path) == pytest.approx(
        (left, top, left + 20 * k, top + 10 * k)
    )
    assert bool(drawing.draws[0].clips) == ("slice" in align and align[:4] != "none")
