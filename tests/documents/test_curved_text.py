"""Text round an oval: lengths against elliptic integrals, circles against plain trigonometry."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.special import ellipeinc

from documents.samples import MM, SAMPLE_FACES, sample_face, shelf
from wickbench.documents.curved_text import CurvedText, curve_text
from wickbench.documents.ink import corners_of
from wickbench.documents.letters import letters_of
from wickbench.documents.ovals import oval_of
from wickbench.documents.text import Glyph, Run, shape
from wickbench.documents.text_fit import TextStyle
from wickbench.domain.capitals import has_small_letters
from wickbench.domain.sheets import Rect

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.documents.label_draws import TextDraw


BOX = Rect(5.0, 8.0, 50.0, 50.0)
SAYINGS = ("WAVE", "Süßholz & fig", "office fjord", "HAND POURED", "Łódź gypsy", "A. V. To, y")


def curved(
    text: str, curve: str = "over", box: Rect = BOX, face: str = "sans", **style: object
) -> CurvedText:
    options = {"size_pt": 12.0, "min_size_pt": 4.0, "align": "centre"} | style
    return curve_text(TextStyle(sample_face(face), **options), text, box, curve)


def middle_of(letter: TextDraw) -> tuple[float, float]:
    half, angle = letter.run.width_mm(letter.size_pt) / 2, math.radians(letter.turn_deg)
    return letter.x_mm + half * math.cos(angle), letter.y_mm + half * math.sin(angle)


def from_middle(box: Rect, spot: tuple[float, float]) -> tuple[float, float]:
    return spot[0] - box.x_mm - box.w_mm / 2, spot[1] - box.y_mm - box.h_mm / 2


# -- lengths -------------------------------------------------------------------------------------
@given(st.floats(0.5, 200), st.floats(0.5, 200), st.floats(-math.pi, math.pi))
def test_lengths_are_elliptic_integrals(across: float, down: float, t: float) -> None:
    # a E(t | 1 - b²/a²): NIST Handbook of Mathematical Functions, 19.2.5; scipy.special.ellipeinc
    wanted = across * ellipeinc(t, 1 - (down / across) ** 2)
    oval = oval_of(across, down)
    assert oval.length_mm(t) == pytest.approx(wanted, abs=1e-3 * min(across, down))
    if 0.1 < across / down < 10:
        assert oval.length_mm(t) == pytest.approx(wanted, abs=1e-6)


@given(st.floats(5, 100), st.floats(5, 100), st.floats(0, 4), st.floats(-math.pi, math.pi))
def test_a_place_is_found_again_by_its_length(
    across: float, down: float, heads: float, t: float
) -> None:
    oval = oval_of(across, down, heads)
    assert oval.at(oval.length_mm(t)) == pytest.approx(t, abs=1e-6)
    once = 2 * oval.length_mm(math.pi)
    assert oval.at(oval.length_mm(t / 2) + once) == pytest.approx(t / 2, abs=1e-6)


@given(st.floats(10, 60), st.floats(10, 60), st.floats(0.1, 2), st.floats(-1.6, 1.6))
def test_lengths_along_the_heads_are_those_of_the_line_beside(
    across: float, down: float, heads: float, t: float
) -> None:
    """The parallel line by its own derivative, integrated by scipy.integrate.quad."""
    tightest = min(across, down) ** 2 / max(across, down)
    if heads > 0.7 * tightest:
        return

    def beside(u: float) -> tuple[float, float]:
        v = math.hypot(across * math.cos(u), down * math.sin(u))
        x, y = across * math.sin(u), down * math.cos(u)
        return x - heads * down * math.sin(u) / v, y - heads * across * math.cos(u) / v

    def speed(u: float) -> float:
        (x1, y1), (x2, y2) = beside(u - 1e-5), beside(u + 1e-5)
        return math.hypot(x2 - x1, y2 - y1) / 2e-5

    wanted, _ = quad(speed, 0, t)
    assert oval_of(across, down, heads).length_mm(t) == pytest.approx(wanted, abs=1e-4)


# -- where letters stand -------------------------------------------------------------------------
@pytest.mark.parametrize("name", SAMPLE_FACES)
@pytest.mark.parametrize("text", SAYINGS)
def test_on_a_circle_angles_are_lengths_over_the_radius(name: str, text: str) -> None:
    done = curved(text, face=name)
    em = done.size_pt * MM
    letters = done.lines[0].letters
    spots = [from_middle(BOX, middle_of(letter)) for letter in letters]
    radius = math.hypot(*spots[0])
    whole = letters_of(shape(sample_face(name), text))
    wide = shape(sample_face(name), text).width_mm(done.size_pt)
    for letter, (x, y), one in zip(letters, spots, whole, strict=True):
        angle = (one.middle_em * em - wide / 2) / radius
        assert (x, y) == pytest.approx(
            (radius * math.sin(angle), -radius * math.cos(angle)), abs=1e-6
        )
        assert letter.turn_deg == pytest.approx(math.degrees(angle), abs=1e-6)


@settings(max_examples=25)
@given(
    st.floats(30, 90), st.floats(24, 60), st.sampled_from(SAYINGS),
    st.sampled_from(("left", "centre", "right")),
)  # fmt: skip
def test_on_an_oval_letters_are_as_far_apart_as_on_a_line(
    w: float, h: float, text: str, align: str
) -> None:
    box = Rect(3, 4, w, h)
    done = curved(text, box=box, align=align)
    spots = [from_middle(box, middle_of(one)) for one in done.lines[0].letters]
    # Both half-axes of the ellipse they stand on are the box's less one depth.
    depth = _depth(spots[0], w / 2, h / 2)
    across, down = w / 2 - depth, h / 2 - depth
    m = 1 - (down / across) ** 2
    lengths = []
    for x, y in spots:
        assert (x / across) ** 2 + (y / down) ** 2 == pytest.approx(1, abs=1e-6)
        lengths.append(across * ellipeinc(math.atan2(x / across, -y / down), m))
    run = letters_of(shape(sample_face("sans"), text))
    em = done.size_pt * MM
    steps = [b.middle_em - a.middle_em for a, b in pairwise(run)]
    assert [b - a for a, b in pairwise(lengths)] == pytest.approx([s * em for s in steps], abs=1e-5)
    half = across * ellipeinc(math.pi / 2, m)
    ends = (lengths[0] - run[0].middle_em * em, shape(sample_face("sans"), text).width_mm(em / MM))
    wanted = {"left": -half, "right": half - ends[1], "centre": -ends[1] / 2}[align]
    assert ends[0] == pytest.approx(wanted, abs=1e-5)


def _depth(spot: tuple[float, float], a: float, b: float) -> float:
    low, high = 0.0, min(a, b) - 1e-6
    for _ in range(80):
        middle = (low + high) / 2
        outside = (spot[0] / (a - middle)) ** 2 + (spot[1] / (b - middle)) ** 2 > 1
        low, high = (low, middle) if outside else (middle, high)
    return low


@pytest.mark.parametrize("text", ["HAND POURED", "Süßholz, gypsy"])
def test_under_a_circle_heads_have_the_distances_of_a_line(text: str) -> None:
    done = curved(text, "under")
    face = sample_face("sans")
    head = face.x_height if has_small_letters(text) else face.cap_height
    heads = head / face.units_per_em * done.size_pt * MM
    spots = [from_middle(BOX, middle_of(letter)) for letter in done.lines[0].letters]
    radius = math.hypot(*spots[0])
    angles = [math.atan2(x, y) for x, y in spots]
    run = letters_of(shape(face, text))
    for (a, b), (one, other) in zip(pairwise(angles), pairwise(run), strict=True):
        step = (other.middle_em - one.middle_em) * done.size_pt * MM
        assert (b - a) * (radius - heads) == pytest.approx(step, abs=1e-6)
    assert [one.turn_deg for one in done.lines[0].letters] == pytest.approx(
        [-math.degrees(angle) for angle in angles], abs=1e-6
    )


def quarters(letter: TextDraw, top: float) -> list[tuple[float, float]]:
    """Corners of the room of a letter from its base line to a height."""
    wide, angle = letter.run.width_mm(letter.size_pt), math.radians(letter.turn_deg)
    along, up = (math.cos(angle), math.sin(angle)), (math.sin(angle), -math.cos(angle))
    return [
        (letter.x_mm + x * along[0] + y * up[0], letter.y_mm + x * along[1] + y * up[1])
        for x, y in ((0, 0), (wide, 0), (wide, top), (0, top))
    ]


def overlap_mm(one: Sequence[tuple[float, float]], other: Sequence[tuple[float, float]]) -> float:
    """How deep two convex figures lie in each other (separating axes)."""
    least = math.inf
    for figure in (one, other):
        for a, b in zip(figure, [*figure[1:], figure[0]], strict=True):
            length = math.dist(a, b)
            if length == 0.0:
                continue
            axis = ((b[1] - a[1]) / length, (a[0] - b[0]) / length)
            first = [x * axis[0] + y * axis[1] for x, y in one]
            second = [x * axis[0] + y * axis[1] for x, y in other]
            least = min(least, max(first) - min(second), max(second) - min(first))
    return least


@settings(max_examples=40)
@given(
    st.tuples(st.floats(24, 90), st.floats(24, 90)),
    st.sampled_from((*SAYINGS, "Two lines\nof it", "ABOVE\nBELOW\nLAST")),
    st.sampled_from(("over", "under")),
    st.floats(5, 20),
    st.sampled_from(SAMPLE_FACES),
)
def test_letters_keep_their_order_apart_and_inside(
    wide: tuple[float, float], text: str, curve: str, size: float, name: str
) -> None:
    w, h = wide
    box = Rect(2, 1, w, h)
    done = curved(text, curve, box, name, size_pt=size)
    if not done.fits:
        return
    face = sample_face(name)
    head = face.x_height if has_small_letters(text) else face.cap_height
    top = head / face.units_per_em * done.size_pt * MM if curve == "under" else 0.1
    up = 1 if curve == "under" else -1
    for line in done.lines:
        spots = [from_middle(box, middle_of(letter)) for letter in line.letters]
        angles = [math.atan2(x / w, up * y / h) for x, y in spots]
        assert angles == sorted(angles)
        assert -math.pi / 2 <= angles[0]
        assert angles[-1] <= math.pi / 2
        for a, b in pairwise(quarters(letter, top) for letter in line.letters):
            assert overlap_mm(a, b) < 0.08 * done.size_pt * MM  # side bearings
        for x, y in corners_of(line):
            across, down = from_middle(box, (x, y))
            assert abs(across) <= w / 2 + 1e-3
            assert abs(down) <= h / 2 + 1e-3
            assert math.hypot(across / (w / 2), down / (h / 2)) <= 1 + 4e-3 / min(w, h)


def test_type_shrinks_where_an_oval_bends_more_sharply_than_letters_are_wide() -> None:
    steep, flat = Rect(2, 1, 24, 77), Rect(2, 1, 77, 24)
    # Radius of curvature at the end of the long half-axis: short² / long.
    assert 12**2 / 38.5 < 20 * MM < 38.5**2 / 12
    done = curved("office fjord", "under", steep, size_pt=20)
    assert done.fits
    assert done.size_pt < 15
    top = sample_face("sans").x_height / sample_face("sans").units_per_em * done.size_pt * MM
    for a, b in pairwise(quarters(letter, top) for letter in done.lines[0].letters):
        assert overlap_mm(a, b) < 0.03 * done.size_pt * MM
    assert curved("fjord", "under", flat, size_pt=20).size_pt == 20


def test_over_and_under_in_capitals_run_in_one_band() -> None:
    rings = []
    for curve in ("over", "under"):
        done = curved("HIT", curve, size_pt=14)
        far = [math.hypot(*from_middle(BOX, corner)) for corner in corners_of(done.lines[0])]
        rings.append((max(far), max(far) - min(far)))
    assert rings[0][0] == pytest.approx(25, abs=0.01)
    assert rings[1][0] == pytest.approx(25, abs=0.01)
    assert rings[0][1] == pytest.approx(rings[1][1], abs=0.35)


def test_lines_are_read_from_above_on_smaller_ovals() -> None:
    for curve, order in (("over", 1), ("under", 1)):
        done = curved("first\nsecond\nthird", curve, size_pt=9, leading=1.3)
        middles = [
            min((middle_of(one) for one in line.letters), key=lambda spot: abs(spot[0] - 30.0))
            for line in done.lines
        ]
        downs = [math.hypot(*from_middle(BOX, spot)) for spot in middles]
        steps = [b - a for a, b in pairwise(downs)]
        sign = -order if curve == "over" else order
        assert steps == pytest.approx([sign * 1.3 * 9 * MM] * 2, abs=1e-6)
        assert [line.text for line in done.lines] == ["first", "second", "third"]


# -- what letters are ----------------------------------------------------------------------------
@pytest.mark.parametrize("name", SAMPLE_FACES)
def test_ligatures_stay_whole_and_marks_with_their_letter(name: str) -> None:
    assert [one.run.text for one in letters_of(shape(sample_face(name), "ff q\u0301a"))] == [
        "ff", " ", "q\u0301", "a",
    ]  # fmt: skip
    marked = letters_of(shape(sample_face(name), "q\u0301a"))[0]
    assert len(marked.run.glyphs) >= 2


def test_text_from_right_to_left_is_read_in_its_order() -> None:
    glyphs = (Glyph(5, 0, 0, 0, "\u0301"), Glyph(4, 0, 0, 500, "b"), Glyph(3, 500, 0, 400, "a"))
    run = Run(sample_face("sans"), "ab\u0301", glyphs, 900, backwards=True)
    letters = letters_of(run)
    assert [(one.run.text, one.start_em) for one in letters] == [("a", 0.5), ("b\u0301", 0.0)]
    assert [glyph.gid for glyph in letters[1].run.glyphs] == [5, 4]


def test_lent_letters_stand_on_the_curve_too() -> None:
    face, _ = shelf().nearest("Source Serif Pro")
    text = "Aŋɔ and b"
    done = curve_text(TextStyle(face, 12, 6, "centre"), text, BOX, "over")
    letters = done.lines[0].letters
    assert "".join(one.run.text for one in letters) == text
    assert {one.run.face.family for one in letters} == {"Source Serif Pro", "Source Sans Pro"}
    radii = [math.hypot(*from_middle(BOX, middle_of(one))) for one in letters]
    assert radii == pytest.approx([radii[0]] * len(radii), abs=1e-6)
