"""A label on its vessel from the front: against points, curves and pictures made in space."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from PIL import Image, ImageDraw
from scipy.integrate import solve_ivp
from scipy.spatial.transform import Rotation

from documents.samples import png, sample_face, shelf
from wickbench.documents.flattening import Chain, chains, dashed, ribbon
from wickbench.documents.front_view import (
    FrontArea,
    FrontEdge,
    FrontLabel,
    FrontPaper,
    FrontPicture,
    draw_front,
    lay_on_wall,
    seen_from_front,
)
from wickbench.documents.label_layout import lay_out_label
from wickbench.documents.outlines import oval, rectangle
from wickbench.documents.surface import RecordingSurface
from wickbench.documents.text import shape
from wickbench.documents.wall_map import WallMap
from wickbench.domain.labels import FrameElement, LabelDesign, PictureElement, TextElement
from wickbench.domain.starting_labels import STARTING, starting_design
from wickbench.domain.wrap_fit import Wall, Zone, fit_wrap

if TYPE_CHECKING:
    from wickbench.documents.label_layout import LaidOutLabel

GLASS = Wall(66.0, 82.0, 96.0)
TIN = Wall(78.0, 78.0, 53.0)
PER_MM = 10


def laid_out(design: LabelDesign, picture: bytes | None = None) -> LaidOutLabel:
    return lay_out_label(design, {}, shelf().nearest, lambda _key: picture)


def fitted(wall: Wall, *elements: TextElement | FrameElement) -> tuple[LabelDesign, float]:
    """A wrap as it is fitted to a wall, and the height of its middle."""
    zone = Zone(wall, 0.1 * wall.height_mm, 0.9 * wall.height_mm)
    size = fit_wrap(zone)
    design = LabelDesign(
        width_mm=size.width_mm,
        height_mm=size.height_mm,
        shape="wrap",
        overlap_mm=size.overlap_mm,
        wrap_bottom_mm=size.bottom_mm,
        wrap_top_mm=size.top_mm,
        elements=elements,
    )
    return design, zone.middle_mm


def in_space(wall: Wall, angle: float, height: float) -> np.ndarray:
    """A point of the wall: x to the right, y up, z towards who looks."""
    radius = np.interp(height, [0.0, wall.height_mm], [wall.bottom_mm / 2, wall.top_mm / 2])
    return np.array([radius * math.sin(angle), height, radius * math.cos(angle)])


def areas(front: FrontLabel, fill: str) -> list[FrontArea]:
    return [one for one in front.items if isinstance(one, FrontArea) and one.fill == fill]


def points(path: tuple[tuple[str | float, ...], ...]) -> np.ndarray:
    return np.array([[float(one) for one in row[1:]] for row in path if row[0] != "z"])


# -- laid on the wall ------------------------------------------------------------------------------
@given(
    st.floats(-25, 25), st.floats(-15, 15), st.floats(-math.pi, math.pi), st.floats(40.0, 120.0),
    st.floats(40.0, 120.0),
)  # fmt: skip
def test_paper_keeps_its_lengths_on_every_wall(
    x: float, y: float, direction: float, bottom: float, top: float
) -> None:
    """An isometry, as paper is: a tenth of a millimetre stays one, measured through space."""
    wall = Wall(bottom, top, 90.0)
    label = WallMap(laid_out(LabelDesign(width_mm=60.0, height_mm=36.0)), wall, 45.0)
    step = 0.1
    here = (30.0 + x, 18.0 + y)
    there = (here[0] + step * math.cos(direction), here[1] + step * math.sin(direction))
    ends = [in_space(wall, *label.place(*one)) for one in (here, there)]
    assert np.linalg.norm(ends[1] - ends[0]) == pytest.approx(step, rel=2e-3)


@pytest.mark.parametrize(("bottom", "top"), [(66.0, 82.0), (82.0, 66.0), (60.0, 100.0)])
def test_the_middle_line_of_a_straight_label_runs_as_the_shortest_way_on_the_cone(
    bottom: float, top: float
) -> None:
    """A geodesic by Clairaut's relation, r·cos(heading) constant, integrated by scipy."""
    wall = Wall(bottom, top, 90.0)
    label = WallMap(laid_out(LabelDesign(width_mm=100.0, height_mm=30.0)), wall, 45.0)
    lean = math.atan((top - bottom) / 2 / 90.0)
    start = (bottom + top) / 4

    def step(_s: float, state: np.ndarray) -> list[float]:
        _angle, _up, heading = state
        radius = start + state[1] * math.tan(lean)
        around = math.cos(heading) / radius
        return [around, math.sin(heading) * math.cos(lean), around * math.sin(lean)]

    way = solve_ivp(step, (0.0, 50.0), [0.0, 0.0, 0.0], rtol=1e-10, atol=1e-12)
    angle, height = label.place(100.0, 15.0)
    assert angle == pytest.approx(way.y[0, -1], abs=1e-6)
    assert height == pytest.approx(45.0 + way.y[1, -1], abs=1e-5)


@given(st.floats(50.0, 120.0), st.floats(50.0, 120.0), st.floats(0.02, 0.98))
def test_a_wrap_made_for_its_wall_lies_level_all_the_way_round(
    bottom: float, top: float, share: float
) -> None:
    wall = Wall(bottom, top, 90.0)
    assume(bottom == top or abs(top - bottom) > 0.5)
    design, middle = fitted(wall)
    laid = laid_out(design)
    label = WallMap(laid, wall, middle)
    ring = laid.bent.ring if laid.bent is not None else None
    half = design.height_mm / 2 / wall.stretch
    for y, up in ((0.0, half), (design.height_mm, -half)):
        flat = (share * design.width_mm, y)
        angle, height = label.place(*(ring.to_paper(*flat) if ring is not None else flat))
        assert height == pytest.approx(middle + up, abs=0.06)
        front = (design.width_mm - design.overlap_mm) / 2
        around = (flat[0] - front) / (wall.diameter_mm(middle) / 2)
        assert angle == pytest.approx(around, abs=0.004)


# -- seen from the front ---------------------------------------------------------------------------
@settings(max_examples=25)
@given(st.floats(0.0, 360.0), st.sampled_from([GLASS, TIN]))
def test_what_is_seen_is_the_half_that_faces_the_eye_after_a_turn_in_space(
    degrees: float, wall: Wall
) -> None:
    """Turned about the upright axis by scipy's rotation, then dropped onto the front plane."""
    middle = wall.height_mm / 2
    laid = laid_out(LabelDesign(width_mm=70.0, height_mm=20.0, background="#aa0000"))
    on = lay_on_wall(laid, wall, middle)
    front = seen_from_front(on, degrees)
    spun = Rotation.from_euler("y", degrees, degrees=True)
    edge = [(70.0 * n / 400, y) for n in range(401) for y in (0.0, 20.0)]
    space = spun.apply(np.array([in_space(wall, *on.wall_map.place(*one)) for one in edge]))
    facing = space[space[:, 2] > 0.0]
    if not len(facing):
        assert not front.items
        return
    drawn = np.vstack([points(path) for path in front.paper])
    for side in (np.min, np.max):
        assert side(drawn[:, 0]) == pytest.approx(side(facing[:, 0]), abs=0.05)
    middle_line = [on.wall_map.place(70.0 * n / 400, 10.0) for n in range(401)]
    turned = spun.apply(np.array([in_space(wall, *one) for one in middle_line]))
    assert front.seen_share == pytest.approx(np.mean(turned[:, 2] > 0.0), abs=0.005)


def painted(front: FrontLabel, wall: Wall) -> Image.Image:
    """The areas filled by Pillow, the axis in the middle, the foot at the bottom."""
    wide = round(max(wall.bottom_mm, wall.top_mm) * PER_MM)
    picture = Image.new("RGB", (wide, round(wall.height_mm * PER_MM)), "#000000")
    pen = ImageDraw.Draw(picture)
    for item in front.items:
        if isinstance(item, FrontArea | FrontPaper):
            fill = item.fill if isinstance(item, FrontArea) else "#ffffff"
            spots = points(item.path) * PER_MM + [wide / 2, wall.height_mm * PER_MM]
            pen.polygon([tuple(spot) for spot in spots], fill=fill)
    return picture


@pytest.mark.parametrize("degrees", [0.0, 40.0, 150.0, 180.0, 275.0])
def test_every_place_shows_the_colour_that_a_ray_from_the_eye_meets(degrees: float) -> None:
    """Rays traced backwards: from the picture to the wall by arcsine, unrolled to the label."""
    colours = ("#ff0000", "#00ff00", "#0000ff", "#ffff00")
    design, middle = fitted(TIN)
    round_mm = math.pi * 78.0
    quarters = tuple(
        FrameElement(x_mm=round_mm / 4 * n, y_mm=8.0, w_mm=round_mm / 4, h_mm=20.0, line_mm=0.0,
                     fill=colour)
        for n, colour in enumerate(colours)
    )  # fmt: skip
    on = lay_on_wall(laid_out(replace(design, elements=quarters)), TIN, middle)
    picture = painted(seen_from_front(on, degrees), TIN)
    top = middle + design.height_mm / 2
    rng = np.random.default_rng(4)
    for x, z in zip(rng.uniform(-38.5, 38.5, 400), rng.uniform(15, 38, 400), strict=True):
        angle = math.asin(x / 39.0) - math.radians(degrees)
        along = (angle * 39.0 + round_mm / 2) % round_mm
        down = top - z
        near = min(along % (round_mm / 4), -along % (round_mm / 4))
        if near < 0.6 or not 8.3 < down < 27.7:
            continue
        want = colours[int(along // (round_mm / 4))]
        spot = (picture.width / 2 + x * PER_MM, (TIN.height_mm - z) * PER_MM)
        shown = picture.getpixel((round(spot[0]), round(spot[1])))
        assert shown == tuple(int(want[at : at + 2], 16) for at in (1, 3, 5)), (x, z)


def test_letters_are_as_much_narrower_as_the_wall_turns_away() -> None:
    """The ink of a word stands between r·sin(s/r) of its ends, by the typeface's own extents."""
    word = TextElement(x_mm=66, y_mm=5, w_mm=24, h_mm=10, text="EHE", size_pt=14, align="right")
    laid = laid_out(LabelDesign(width_mm=100.0, height_mm=20.0, elements=(word,)))
    front = seen_from_front(lay_on_wall(laid, TIN, 26.0))
    ink = np.vstack([points(one.path) for one in areas(front, "#000000")])
    draw = laid.draws[0]
    left, _, right, _ = draw.run.ink_mm(draw.size_pt)  # type: ignore[union-attr,misc]
    ends = [39.0 * math.sin((draw.x_mm + side - 50.0) / 39.0) for side in (left, right)]  # type: ignore[union-attr]
    assert np.min(ink[:, 0]) == pytest.approx(ends[0], abs=0.02)
    assert np.max(ink[:, 0]) == pytest.approx(ends[1], abs=0.02)


def test_the_beginning_of_a_wrap_lies_over_its_end_and_nothing_of_the_end_shows_there() -> None:
    end = FrameElement(x_mm=236.0, y_mm=5.0, w_mm=20.0, h_mm=10.0, line_mm=0.0, fill="#ff0000")
    design, middle = fitted(TIN, end)
    front = seen_from_front(lay_on_wall(laid_out(design), TIN, middle), 180.0)
    picture = painted(front, TIN)
    row = round((TIN.height_mm - middle - design.height_mm / 2 + 10.0) * PER_MM)
    # At the back the seam lies in the middle: the red end is seen up to it, not beyond.
    red = [x for x in range(picture.width) if picture.getpixel((x, row)) == (255, 0, 0)]
    assert max(red) / PER_MM == pytest.approx(39.0, abs=0.2)
    assert (max(red) - min(red)) / PER_MM == pytest.approx(math.pi * 78 - 236.0, abs=0.3)


@pytest.mark.parametrize("name", [one for one, kept in STARTING.items() if kept.kind == "jar"])
def test_nothing_of_any_design_is_seen_beside_its_vessel_from_any_side(name: str) -> None:
    """By the outline of a cone from far away: x² ≤ r(z)², straight from foot to rim."""
    zone = Zone(GLASS, 10.0, 88.0)
    size = fit_wrap(zone)
    wrap = starting_design(
        name, size.width_mm, size.height_mm, shape="wrap", overlap_mm=size.overlap_mm
    )
    bent = replace(wrap, wrap_bottom_mm=size.bottom_mm, wrap_top_mm=size.top_mm)
    for design in (bent, starting_design(name, 62.0, 36.0)):
        on = lay_on_wall(laid_out(design), GLASS, zone.middle_mm)
        for degrees in (0.0, 75.0, 190.0):
            for item in seen_from_front(on, degrees).items:
                if isinstance(item, FrontArea):
                    x, y = points(item.path).T
                    edge = np.interp(-y, [0.0, 96.0], [33.0, 41.0])
                    assert np.all(np.abs(x) <= edge + 1e-6)


def test_what_bleeds_is_cut_and_what_lies_behind_is_not_there() -> None:
    design = LabelDesign(width_mm=60.0, height_mm=20.0, background="#aa0000", bleed_mm=2.0)
    on = lay_on_wall(laid_out(design), TIN, 26.0)
    ground = areas(seen_from_front(on), "#aa0000")
    assert all(len(one.clips) >= 2 for one in ground)
    edge = points(ground[0].clips[0])
    assert np.max(-edge[:, 1]) - np.min(-edge[:, 1]) == pytest.approx(20.0)
    assert np.max(edge[:, 0]) == pytest.approx(39.0 * math.sin(30.0 / 39.0))
    assert seen_from_front(on, 180.0).items == ()


def test_a_picture_is_drawn_in_strips_that_meet_and_keep_to_the_wall() -> None:
    element = PictureElement(x_mm=5, y_mm=2, w_mm=50, h_mm=16, picture="leaf", fit="stretch")
    for degrees in (0.0, 90.0):
        one = replace(element, turn_deg=degrees)
        laid = laid_out(LabelDesign(width_mm=60.0, height_mm=20.0, elements=(one,)), png(300, 96))
        front = seen_from_front(lay_on_wall(laid, TIN, 26.0))
        strips = [item for item in front.items if isinstance(item, FrontPicture)]
        assert len(strips) == 24
        for at, strip in enumerate(strips):
            part = (at + 0.5) / 24
            place = (part, 0.5) if not degrees else (0.5, part)
            across = 5 + 50 * place[0] - 30 if not degrees else -(2 + 16 * place[1] - 10)
            down = 2 + 16 * place[1] if not degrees else 10 + (5 + 50 * place[0] - 30)
            seen = (39.0 * math.sin(across / 39.0), -(36.0 - down))
            assert strip.unit.apply(*place) == pytest.approx(seen, abs=0.02)
        surface = RecordingSurface()
        draw_front(front, surface)
        assert len(surface.images) == 24


def test_edges_are_stroked_and_every_clip_is_taken_back() -> None:
    design, middle = fitted(GLASS)
    front = seen_from_front(lay_on_wall(laid_out(design), GLASS, middle), 180.0)
    surface = RecordingSurface()
    draw_front(front, surface, edge="#123456")
    edges = [one for one in front.items if isinstance(one, FrontEdge)]
    assert edges
    assert sum(path.stroke == "#123456" for path in surface.paths) == len(edges)
    assert surface._stack == []


# -- paths as chains -------------------------------------------------------------------------------
def area(chain: Chain) -> float:
    """Signed area by the surveyor's formula."""
    x, y = np.array(chain.points).T
    return float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))) / 2


def test_a_circle_keeps_its_area_and_a_line_becomes_the_ring_round_it() -> None:
    (circle,) = chains(oval(0.0, 0.0, 20.0, 20.0))
    assert area(circle) == pytest.approx(math.pi * 100, rel=2e-3)
    inner, outer = sorted(abs(area(one)) for one in ribbon(circle, 2.0))
    assert outer - inner == pytest.approx(math.pi * (11**2 - 9**2), rel=5e-3)


def test_a_line_round_a_rectangle_has_mitred_corners() -> None:
    (box,) = chains(rectangle(10.0, 10.0, 40.0, 20.0))
    sides = sorted(abs(area(one)) for one in ribbon(box, 1.0))
    assert sides == pytest.approx([39.0 * 19.0, 41.0 * 21.0])


@given(
    st.lists(st.floats(0.3, 4.0), min_size=1, max_size=4),
    st.lists(st.tuples(st.floats(-20, 20), st.floats(-20, 20)), min_size=2, max_size=6),
)
def test_dashes_are_as_long_as_asked_and_lie_on_the_line(
    dashes: list[float], spots: list[tuple[float, float]]
) -> None:
    assume(all(math.dist(a, b) > 0.1 for a, b in pairwise(spots)))
    whole = sum(math.dist(a, b) for a, b in pairwise(spots))
    lengths = [
        sum(math.dist(a, b) for a, b in pairwise(piece.points))
        for piece in dashed(Chain(tuple(spots)), dashes)
    ]
    wanted = dashes if len(dashes) % 2 == 0 else dashes * 2
    for at, long in enumerate(lengths[:-1]):
        assert long == pytest.approx(wanted[2 * at % len(wanted)], abs=1e-6)
    assert sum(lengths) <= whole + 1e-6


def test_a_letter_keeps_its_own_area() -> None:
    """The outline of a capital I against its box: it is a plain bar in this face."""
    face = sample_face("sans")
    gid = shape(face, "I").glyphs[0].gid
    (bar,) = chains(face.outline(gid), step=math.inf, curve_step=50.0)
    box = face.ink(gid)
    assert box is not None
    assert abs(area(bar)) == pytest.approx((box[2] - box[0]) * (box[3] - box[1]))
