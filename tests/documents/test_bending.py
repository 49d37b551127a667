"""Labels bent for tapered vessels: rolled back onto the cone in space, nothing is stretched."""

from __future__ import annotations

import io
import math
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np
import pypdf
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from documents.samples import MM, png, shelf
from wickbench.app.texts import all_sentences
from wickbench.documents.bent_paths import bend_path
from wickbench.documents.ink import corners_of
from wickbench.documents.label_draws import CurvedDraw, PathDraw
from wickbench.documents.label_layout import (
    draw_flat_label,
    draw_label,
    label_outline,
    lay_out_label,
)
from wickbench.documents.outlines import line, oval, rectangle, rounded
from wickbench.documents.pdf import PdfSurface
from wickbench.documents.ring import Ring, ring_of
from wickbench.documents.sheet_layout import label_content
from wickbench.documents.surface import RecordingSurface
from wickbench.documents.text import shape
from wickbench.domain.labels import (
    FrameElement,
    LabelDesign,
    LineElement,
    TextElement,
)
from wickbench.domain.starting_labels import STARTING_DESIGNS, starting_design
from wickbench.domain.wraps import partial_wrap, wrap_development

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.documents.label_draws import TextDraw
    from wickbench.documents.label_layout import LaidOutLabel
    from wickbench.documents.surface import Path
    from wickbench.domain.labels import AnyElement

NARROW_BELOW, NARROW_ABOVE = (62.0, 78.0), (78.0, 62.0)
WAYS = pytest.mark.parametrize("wall", [NARROW_BELOW, NARROW_ABOVE])
TAPERS = st.tuples(st.floats(40, 100), st.floats(40, 100)).filter(
    lambda wall: 1 < abs(wall[0] - wall[1]) < 50
)


def design_of(
    wall: tuple[float, float], *elements: AnyElement, w: float = 180.0, h: float = 60.0,
    **changes: object,
) -> LabelDesign:  # fmt: skip
    return LabelDesign(
        width_mm=w, height_mm=h, shape="wrap", kind="tag", elements=elements,
        wrap_bottom_mm=wall[0], wrap_top_mm=wall[1], **changes,
    )  # fmt: skip


def bent(wall: tuple[float, float], *elements: AnyElement, **changes: object) -> LaidOutLabel:
    design = design_of(wall, *elements, **changes)
    return lay_out_label(design, {}, shelf().nearest, {"pic": png(300, 200)}.get)


def ring(wall: tuple[float, float], w: float = 180.0, h: float = 60.0) -> Ring:
    found = ring_of(design_of(wall, w=w, h=h))
    assert found is not None
    return found


def text_at(x: float, y: float, w: float, said: str, **changes: object) -> TextElement:
    return TextElement(**({"x_mm": x, "y_mm": y, "w_mm": w, "h_mm": 12.0, "text": said} | changes))


# -- the map -------------------------------------------------------------------------------------
def on_cone(wall: tuple[float, float], one: Ring, spot: tuple[float, float]) -> np.ndarray:
    """A place of the paper on the wall, by school geometry: apex at the origin, axis upwards."""
    slope = abs(wall[1] - wall[0]) / 2 / one.height_mm  # sine of the half angle at the apex
    middle = one.middle
    far = math.dist(spot, middle)
    across, down = spot[0] - middle[0], (middle[1] - spot[1]) * one.side
    around = math.atan2(across, down) / slope
    out, up = far * slope, far * math.sqrt(1 - slope**2)
    return np.array([out * math.sin(around), out * math.cos(around), up])


@given(TAPERS, st.floats(0, 1), st.floats(0, 1), st.floats(0, math.tau))
def test_rolled_back_onto_the_cone_every_small_step_keeps_its_length(
    wall: tuple[float, float], x: float, y: float, way: float
) -> None:
    one = ring(wall)
    spot = one.to_paper(180 * x, 60 * y)
    step = (spot[0] + 1e-4 * math.cos(way), spot[1] + 1e-4 * math.sin(way))
    far = float(np.linalg.norm(on_cone(wall, one, spot) - on_cone(wall, one, step)))
    assert far == pytest.approx(1e-4, rel=1e-4)


@WAYS
def test_the_edges_have_the_diameters_of_the_wall(wall: tuple[float, float]) -> None:
    one = ring(wall)
    for y, diameter in ((0.0, wall[1]), (30.0, sum(wall) / 2), (60.0, wall[0])):
        place = on_cone(wall, one, one.to_paper(90, y))
        assert 2 * math.hypot(place[0], place[1]) == pytest.approx(diameter)
    heights = [on_cone(wall, one, one.to_paper(90, y))[2] for y in (0, 60)]
    assert abs(heights[0] - heights[1]) == pytest.approx(math.sqrt(60**2 - 8**2))


@WAYS
def test_a_label_once_round_meets_itself(wall: tuple[float, float]) -> None:
    around = math.pi * sum(wall) / 2
    one = ring(wall, w=around)
    for y in (0.0, 17.0, 60.0):
        ends = [on_cone(wall, one, one.to_paper(x, y)) for x in (0.0, around)]
        assert ends[0] == pytest.approx(ends[1], abs=1e-9)


@WAYS
def test_the_middle_line_keeps_its_length_in_space(wall: tuple[float, float]) -> None:
    one = ring(wall)

    def speed(x: float) -> float:
        a, b = (on_cone(wall, one, one.to_paper(x + d, 30)) for d in (-1e-4, 1e-4))
        return float(np.linalg.norm(a - b)) / 2e-4

    assert quad(speed, 0, 180)[0] == pytest.approx(180, abs=1e-4)


@given(TAPERS, st.floats(-5, 185), st.floats(-5, 65))
def test_a_place_is_found_again(wall: tuple[float, float], x: float, y: float) -> None:
    one = ring(wall)
    assert one.to_flat(*one.to_paper(x, y)) == pytest.approx((x, y), abs=1e-7)


@WAYS
def test_it_is_the_development_of_the_wall(wall: tuple[float, float]) -> None:
    whole = wrap_development(*wall, math.sqrt(60**2 - 8**2))
    wanted = partial_wrap(whole, 180, 60)
    found = ring(wall).sector
    assert found.inner_radius_mm == pytest.approx(wanted.inner_radius_mm)
    assert found.outer_radius_mm == pytest.approx(wanted.outer_radius_mm)
    assert found.angle_deg == pytest.approx(wanted.angle_deg)


def test_it_opens_as_the_wall_does() -> None:
    below, above = ring(NARROW_BELOW), ring(NARROW_ABOVE)
    # Narrow below: the middle of the upper edge is the highest point, as of a rainbow.
    assert below.to_paper(90, 0)[1] < below.to_paper(0, 0)[1]
    assert above.to_paper(90, 0)[1] > above.to_paper(0, 0)[1]
    assert below.turn_deg(0) < 0 < above.turn_deg(0)
    for one in (below, above):
        assert one.turn_deg(90) == 0.0


def test_straight_walls_and_other_shapes_stay_as_they_are() -> None:
    straight = bent((70.0, 70.0), text_at(10, 10, 80, "Straight"), overlap_mm=6)
    assert straight.bent is None
    assert (straight.width_mm, straight.height_mm, straight.bleed_mm) == (180, 60, 0)
    assert bent((70.0, 70.000001)).bent is None
    assert bent(NARROW_BELOW).bent is not None
    first, second = RecordingSurface(), RecordingSurface()
    for surface, draw in ((first, draw_label), (second, draw_flat_label)):
        surface.begin_page(200, 200)
        draw(straight, surface)
    assert first.texts == second.texts
    assert ring_of(LabelDesign(width_mm=60, height_mm=40)) is None


@pytest.mark.parametrize(
    ("wall", "w", "h", "key"),
    [
        ((20.0, 90.0), 60.0, 30.0, "shape.wrap-height"),
        ((0.0, 60.0), 60.0, 60.0, "shape.wrap-diameter"),
        ((60.0, 70.0), 4000.0, 60.0, "shape.label-length"),
    ],
)
def test_a_wall_that_cannot_be_is_told_and_drawn_flat(
    wall: tuple[float, float], w: float, h: float, key: str
) -> None:
    laid = bent(wall, w=w, h=h)
    assert laid.bent is None
    assert [one.key for one in laid.findings] == [key]
    assert all_sentences()[key].format(**{n: str(v) for n, v in laid.findings[0].data.items()})


# -- paths ---------------------------------------------------------------------------------------
def along(path: Path) -> Iterator[tuple[float, float]]:
    """Points of a path of lines and cubic curves, twenty of each piece."""
    here = start = (0.0, 0.0)
    for command, *numbers in path:
        values = [float(one) for one in numbers]
        points = [here, *zip(values[::2], values[1::2], strict=True)]
        if command == "m":
            start = here = points[1]
            continue
        if command == "z":
            points = [here, start]
        for step in range(21):
            t = step / 20
            piece = points
            while len(piece) > 1:
                piece = [
                    (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])) for a, b in pairwise(piece)
                ]
            yield piece[0]
        here = points[-1]


@given(TAPERS, st.floats(-3, 150), st.floats(-3, 40), st.floats(1, 180), st.floats(1, 60))
def test_bent_lines_lie_on_the_true_ones(
    wall: tuple[float, float], x: float, y: float, w: float, h: float
) -> None:
    one = ring(wall)
    for spot in along(bend_path(one, rectangle(x, y, w, h))):
        u, v = one.to_flat(*spot)
        off = min(abs(u - x), abs(u - x - w), abs(v - y), abs(v - y - h))
        assert off < 0.02
        assert x - 0.02 < u < x + w + 0.02
        assert y - 0.02 < v < y + h + 0.02
    for spot in along(bend_path(one, oval(x, y, w, h))):
        u, v = one.to_flat(*spot)
        off = math.hypot((u - x) / w * 2 - 1, (v - y) / h * 2 - 1) - 1
        # four cubic curves are 0.03 % of the radius off a true ellipse
        assert abs(off) * min(w, h) / 2 < 0.02 + 0.0003 * max(w, h)


@WAYS
def test_ends_of_a_bent_path_meet(wall: tuple[float, float]) -> None:
    for path in (rectangle(3, 3, 100, 40), rounded(3, 3, 100, 40, 5), line(0, 5, 180, 55)):
        done = bend_path(ring(wall), path)
        assert [one[0] for one in done if one[0] in "mz"] == [
            one[0] for one in path if one[0] in "mz"
        ]
        if done[-1][0] == "z":
            assert math.dist(done[0][1:3], done[-2][-2:]) < 0.01


def test_clips_and_colours_go_along() -> None:
    frame = FrameElement(
        x_mm=10, y_mm=10, w_mm=60, h_mm=30, figure="rectangle", fill="#aabbcc", line_mm=0.5,
        dash_mm=(1, 1),
    )  # fmt: skip
    rule = LineElement(x_mm=0, y_mm=50, w_mm=180, h_mm=0)
    laid = bent(NARROW_BELOW, frame, rule)
    assert laid.bent is not None
    flat, curved = laid.draws[0], laid.bent.draws[0]
    assert isinstance(flat, PathDraw)
    assert isinstance(curved, PathDraw)
    assert (curved.fill, curved.stroke, curved.width_mm, curved.dash_mm) == (
        flat.fill, flat.stroke, flat.width_mm, flat.dash_mm,
    )  # fmt: skip
    lower = laid.bent.draws[1]
    assert isinstance(lower, PathDraw)
    radii = [math.dist(spot, laid.bent.ring.middle) for spot in along(lower.path)]
    assert radii == pytest.approx([laid.bent.ring.radius_mm - 20] * len(radii), abs=0.02)


# -- text ----------------------------------------------------------------------------------------
def middle_of(letter: TextDraw) -> tuple[float, float]:
    half, angle = letter.run.width_mm(letter.size_pt) / 2, math.radians(letter.turn_deg)
    return letter.x_mm + half * math.cos(angle), letter.y_mm + half * math.sin(angle)


@WAYS
@pytest.mark.parametrize("align", ["left", "centre", "right"])
@pytest.mark.parametrize("y", [3.0, 42.0])
def test_letters_stand_on_their_arc_as_far_apart_as_on_a_line(
    wall: tuple[float, float], align: str, y: float
) -> None:
    said = "WAVE to office, Łódź"
    laid = bent(wall, text_at(20, y, 90, said, align=align, size_pt=14))
    assert laid.bent is not None
    line_of, one = laid.draws[0], laid.bent.ring
    drawn = laid.bent.draws[0]
    assert isinstance(drawn, CurvedDraw)
    assert drawn.text == said
    spots = [middle_of(letter) for letter in drawn.letters]
    radii = [math.dist(spot, one.middle) for spot in spots]
    base = one.radius_mm + one.side * (30 - line_of.y_mm)
    assert radii == pytest.approx([base] * len(radii), abs=1e-9)
    angles = [math.atan2(x - one.middle[0], (one.middle[1] - v) * one.side) for x, v in spots]
    run = shape(drawn.letters[0].run.face, said)
    pens = [0.0]
    for glyph in run.glyphs:
        pens.append(pens[-1] + glyph.advance)
    mids = [(a + b) / 2 for a, b in pairwise(pens)]
    k = 14 * MM / run.face.units_per_em
    assert [(b - a) * base for a, b in pairwise(angles)] == pytest.approx(
        [(b - a) * k for a, b in pairwise(mids)], abs=1e-6
    )
    # the edge or middle that it is aligned to lies where the box has it
    share = {"left": 0.0, "centre": 0.5, "right": 1.0}[align]
    fixed = angles[0] + (share * run.advance - mids[0]) * k / base
    assert fixed == pytest.approx((20 + 90 * share - 90) / one.radius_mm, abs=1e-6)
    for letter, angle in zip(drawn.letters, angles, strict=True):
        assert letter.turn_deg == pytest.approx(math.degrees(angle) * one.side, abs=1e-6)


@given(TAPERS, st.floats(0, 360), st.floats(20, 160), st.floats(10, 50))
def test_turned_lines_keep_their_distances_too(
    wall: tuple[float, float], turn_deg: float, x: float, y: float
) -> None:
    element = text_at(x - 15, y - 3, 30, "AVANT gold", turn_deg=turn_deg, h_mm=6.0, size_pt=10)
    laid = bent(wall, element)
    assert laid.bent is not None
    flat, drawn = laid.draws[0], laid.bent.draws[0]
    assert isinstance(drawn, CurvedDraw)
    spots = [middle_of(letter) for letter in drawn.letters]
    straight = flat.run.width_mm(flat.size_pt)
    first, last = (drawn.letters[at].run.width_mm(flat.size_pt) / 2 for at in (0, -1))
    walked = sum(math.dist(a, b) for a, b in pairwise(spots))
    assert walked == pytest.approx(straight - first - last, rel=0.005)


@WAYS
def test_a_line_as_wide_as_the_label_gets_less_room_where_the_ring_is_narrow(
    wall: tuple[float, float],
) -> None:
    narrow = 44.0 if wall == NARROW_BELOW else 4.0
    said = "A line that would take all of the room there is " * 2
    element = text_at(2, narrow, 176, said, size_pt=30, min_size_pt=4, wrap=False)
    laid = bent(wall, element)
    assert laid.findings == ()
    assert laid.bent is not None
    edge = laid.bent.ring
    drawn = laid.bent.draws[0]
    assert isinstance(drawn, CurvedDraw)
    for corner in corners_of(drawn):
        assert 1.9 < edge.to_flat(*corner)[0] < 178.1


def test_letters_beyond_the_bent_edge_are_found() -> None:
    wide = text_at(-3, 40, 180, "At the very left edge of it", align="left")
    assert [one.key for one in bent(NARROW_BELOW, wide).findings] == ["label.text-outside-sticker"]
    near = text_at(0.5, 40, 180, "Near the left edge of it", align="left")
    assert [one.key for one in bent(NARROW_BELOW, near).findings] == ["label.text-outside-safe"]


@WAYS
@pytest.mark.parametrize("family", ["Source Sans Pro", "Source Serif Pro"])
def test_bent_text_is_read_back_unchanged(wall: tuple[float, float], family: str) -> None:
    said = "Süßholz & fig: office fjord, naïve café"
    label = bent(wall, text_at(10, 20, 160, said, family=family))
    surface = PdfSurface()
    surface.begin_page(250, 150)
    content = label_content(label)
    surface.form("label", content.width_mm, content.height_mm, content.draw)
    surface.place("label", 10, 10)
    data = surface.finish()
    assert pypdf.PdfReader(io.BytesIO(data)).pages[0].extract_text().strip() == said
    assert pypdfium2.PdfDocument(data)[0].get_textpage().get_text_range().strip() == said


def encloses(polygon: np.ndarray, spot: tuple[float, float]) -> bool:
    """Whether a place lies in a polygon: a ray from it crosses the edge an odd number of times."""
    x1, y1 = polygon.T
    x2, y2 = np.roll(polygon, -1, axis=0).T
    spans = (y1 > spot[1]) != (y2 > spot[1])
    with np.errstate(divide="ignore", invalid="ignore"):
        at = x1 + (spot[1] - y1) * (x2 - x1) / (y2 - y1)
    return bool((spans & (at > spot[0])).sum() % 2)


VALUES = {
    "candle": "Bramble & smoke", "identity": "scented soy candle", "lot": "26-332-A",
    "business": "Harbour Lane", "business_address": "4 Quay Row, Saltby",
    "net_weight": "Net wt 7.8 oz (221 g)",
}  # fmt: skip


@settings(max_examples=30)
@given(st.sampled_from(STARTING_DESIGNS), TAPERS, st.floats(90, 240), st.floats(40, 80))
def test_whatever_text_is_not_told_of_lies_inside_the_cut_line(
    name: str, wall: tuple[float, float], w: float, h: float
) -> None:
    flat = starting_design(name, w, h)
    design = replace(flat, shape="wrap", wrap_bottom_mm=wall[0], wrap_top_mm=wall[1])
    laid = lay_out_label(design, VALUES, shelf().nearest)
    if laid.bent is None:
        return
    told = {one.about for one in laid.findings if one.key == "label.text-outside-sticker"}
    edge = np.array(list(along(label_outline(laid, -0.1))))
    for at, (first, end) in enumerate(laid.parts):
        if ("element", at) in told:
            continue
        for draw in laid.bent.draws[first:end]:
            if isinstance(draw, CurvedDraw):
                assert all(encloses(edge, corner) for corner in corners_of(draw))
    assert not told
