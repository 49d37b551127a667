"""Whatever is put onto a label: nothing lies outside, and no letter is lost, without being told."""

from __future__ import annotations

import math
from collections import Counter
from itertools import pairwise
from typing import TYPE_CHECKING

from hypothesis import given, settings

from documents.random_labels import PICTURES, VALUES, designs
from documents.samples import MM, shelf
from wickbench.app.texts import all_sentences
from wickbench.documents.label_draws import CurvedDraw, ImageDraw, PathDraw, TextDraw
from wickbench.documents.label_layout import LaidOutLabel, lay_out_label
from wickbench.domain.labels import CodeElement, FrameElement, PictureElement
from wickbench.domain.sheets import SHAPES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.documents.label_draws import AnyDraw
    from wickbench.documents.surface import Path
    from wickbench.domain.labels import AnyElement, LabelDesign

    Spot = tuple[float, float]

NEAR_MM = 0.1
STEPS = 8
BEYOND = {
    "label.text-outside-sticker",
    "label.text-too-long",
    "label.picture-cut",
    "label.line-cut",
    "label.nothing-on-sticker",
    "code.outside",
    "ornament.cut",
}
LOST = {"label.text-too-long", "label.missing-glyphs"}


def laid(design: LabelDesign) -> LaidOutLabel:
    return lay_out_label(design, VALUES, shelf().nearest, PICTURES.get)


def beyond_mm(design: LabelDesign, spot: Spot) -> float:
    """How far a point lies outside the sticker's edge; negative inside. Worked out here anew."""
    x, y = abs(spot[0] - design.width_mm / 2), abs(spot[1] - design.height_mm / 2)
    a, b = design.width_mm / 2, design.height_mm / 2
    if design.shape in {"circle", "oval"}:
        value = (x / a) ** 2 + (y / b) ** 2 - 1.0
        slope = math.hypot(2 * x / a**2, 2 * y / b**2)
        return value / slope if slope > 1e-9 else -min(a, b)
    if design.shape == "rounded":
        r = min(design.corner_mm, a, b)
        in_x, in_y = x - (a - r), y - (b - r)
        if in_x > 0 and in_y > 0:
            return math.hypot(in_x, in_y) - r
    return max(x - a, y - b)


def spots(draw: AnyDraw) -> Iterator[Spot]:
    """Points all along the outermost ink of a draw, line widths included."""
    if isinstance(draw, CurvedDraw):
        for letter in draw.letters:
            yield from spots(letter)
    elif isinstance(draw, TextDraw):
        yield from letter_spots(draw)
    elif isinstance(draw, ImageDraw):
        yield from image_spots(draw)
    elif not draw.clips:
        half = draw.width_mm / 2 if draw.stroke else 0.0
        yield from (spot for one in flattened(draw.path) for spot in beside(one, half))


def letter_spots(draw: TextDraw) -> Iterator[Spot]:
    """Ends of the curves of real glyph outlines where they stand."""
    turn = math.radians(draw.turn_deg)
    for start, part in draw.run.pieces(draw.size_pt):
        k = draw.size_pt * MM / part.face.units_per_em
        for glyph in part.glyphs:
            for _, *numbers in part.face.outline(glyph.gid):
                if numbers:
                    right = start + (glyph.x + float(numbers[-2])) * k
                    down = -(glyph.y + float(numbers[-1])) * k
                    yield (
                        draw.x_mm + right * math.cos(turn) - down * math.sin(turn),
                        draw.y_mm + right * math.sin(turn) + down * math.cos(turn),
                    )


def image_spots(draw: ImageDraw) -> Iterator[Spot]:
    """Corners of a picture that is not cut to a box of its own, else of that box."""
    if draw.clip is not None:
        yield from (end for one in flattened(draw.clip) for end in one)
        return
    turn = math.radians(draw.turn_deg)
    for right in (0.0, draw.w_mm):
        for down in (0.0, draw.h_mm):
            yield (
                draw.x_mm + right * math.cos(turn) - down * math.sin(turn),
                draw.y_mm + right * math.sin(turn) + down * math.cos(turn),
            )


def flattened(path: Path) -> Iterator[tuple[Spot, Spot]]:
    """Short pieces of a path."""
    here = start = (0.0, 0.0)
    for command, *numbers in path:
        values = [float(one) for one in numbers]
        ends = list(zip(values[::2], values[1::2], strict=True))
        if command == "m":
            here = start = ends[0]
            continue
        control = [here, *(ends or [start])]
        for step in range(1, STEPS + 1):
            there = bezier(control, step / STEPS)
            yield here, there
            here = there


def bezier(control: list[Spot], t: float) -> Spot:
    """A point of a line or curve, by de Casteljau."""
    while len(control) > 1:
        control = [
            (p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t) for p, q in pairwise(control)
        ]
    return control[0]


def beside(piece: tuple[Spot, Spot], half: float) -> Iterator[Spot]:
    """The piece's ends, and the edges of a line of a width there."""
    (x1, y1), (x2, y2) = piece
    length = math.hypot(x2 - x1, y2 - y1)
    across = (-(y2 - y1) / length * half, (x2 - x1) / length * half) if length > 1e-9 else (0, 0)
    for x, y in piece:
        yield x, y
        yield x + across[0], y + across[1]
        yield x - across[0], y - across[1]


def is_background(element: AnyElement, draw: AnyDraw) -> bool:
    """Filled areas and pictures that fill a box may run over the edge, as backgrounds do."""
    if isinstance(draw, PathDraw):
        return isinstance(element, FrameElement | CodeElement) and draw.stroke in {None, draw.fill}
    return isinstance(element, PictureElement) and element.fit == "cover"


def told_of(label: LaidOutLabel, at: int) -> set[str]:
    return {one.key for one in label.findings if one.about == ("element", at)}


@settings(max_examples=90)
@given(designs(shapes=SHAPES))
def test_nothing_lies_outside_the_sticker_without_being_told(design: LabelDesign) -> None:
    label = laid(design)
    for at, element in enumerate(design.elements):
        draws = label.draws_of(at)
        worst = max(
            (
                beyond_mm(design, spot)
                for one in draws
                if not is_background(element, one)
                for spot in spots(one)
            ),
            default=-math.inf,
        )
        if worst > NEAR_MM:
            assert told_of(label, at) & BEYOND, (element, worst)
        area = [spot for one in draws for spot in spots(one)]
        if area and all(beyond_mm(design, spot) > NEAR_MM for spot in area) and apart(design, area):
            assert told_of(label, at) & BEYOND, element


@settings(max_examples=40)
@given(designs(shapes=("wrap",)))
def test_nothing_lies_outside_a_bent_label_without_being_told(design: LabelDesign) -> None:
    label = laid(design)
    if label.bent is None:
        return
    edge = [spot for piece in flattened(label.bent.outline(-NEAR_MM)) for spot in piece]
    lines = [one for one in label.bent.draws if not isinstance(one, PathDraw) or one.stroke]
    whole = [one for one in lines if not (isinstance(one, ImageDraw) and one.clip)]
    if any(not holds(edge, spot) for one in whole for spot in spots(one)):
        assert {one.key for one in label.findings} & BEYOND


def holds(edge: list[Spot], spot: Spot) -> bool:
    """Whether a closed chain of points goes round a point: rays cross it an odd number of times."""
    inside = False
    for (x1, y1), (x2, y2) in pairwise([*edge, edge[0]]):
        if (y1 > spot[1]) != (y2 > spot[1]):
            inside ^= spot[0] < x1 + (spot[1] - y1) * (x2 - x1) / (y2 - y1)
    return inside


def apart(design: LabelDesign, area: list[Spot]) -> bool:
    """Whether the box round an area does not even touch the box round the sticker."""
    xs, ys = zip(*area, strict=True)
    across = max(xs) < 0 or min(xs) > design.width_mm
    return across or max(ys) < 0 or min(ys) > design.height_mm


@settings(max_examples=90)
@given(designs())
def test_no_letter_is_lost_without_being_told(design: LabelDesign) -> None:
    label = laid(design)
    said = {text.element: "" for text in label.texts}
    for text in label.texts:
        said[text.element] += text.text
    for at, wanted in said.items():
        drawn = "".join(text_of(draw) for draw in label.draws_of(at))
        lost = letters(wanted) - letters(drawn)
        assert not lost or told_of(label, at) & LOST, (wanted, drawn)
        if any(glyph_missing(draw) for draw in label.draws_of(at)):
            assert "label.missing-glyphs" in told_of(label, at)
    if label.bent is not None:
        flat = "".join(text_of(draw) for draw in label.draws)
        assert letters(flat) == letters("".join(text_of(draw) for draw in label.bent.draws))


def letters(text: str) -> Counter[str]:
    return Counter(sign for sign in text if not sign.isspace())


def text_of(draw: AnyDraw) -> str:
    if isinstance(draw, TextDraw):
        return draw.run.text
    return draw.text if isinstance(draw, CurvedDraw) else ""


def glyph_missing(draw: AnyDraw) -> bool:
    """Whether the box for a missing glyph would be printed."""
    if isinstance(draw, CurvedDraw):
        return any(glyph_missing(letter) for letter in draw.letters)
    if not isinstance(draw, TextDraw):
        return False
    return any(
        glyph.gid == 0 and not glyph.text.isspace()
        for _, part in draw.run.pieces(draw.size_pt)
        for glyph in part.glyphs
    )


@settings(max_examples=40)
@given(designs())
def test_every_finding_has_its_sentence_and_names_an_element_that_is_there(
    design: LabelDesign,
) -> None:
    sentences = all_sentences()
    for one in laid(design).findings:
        assert sentences[one.key].format(**one.data)
        if one.about:
            assert one.about[0] == "element"
            assert 0 <= one.about[1] < len(design.elements)
