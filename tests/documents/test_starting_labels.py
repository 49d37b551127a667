"""The starting designs laid out on stickers of many measures, with short and with long words."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from documents.samples import shelf
from wickbench.documents.ink import corners_of
from wickbench.documents.label_draws import CurvedDraw, TextDraw
from wickbench.documents.label_layout import lay_out_label
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Rank
from wickbench.domain.starting_labels import STARTING_DESIGNS, starting_design

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.documents.label_layout import LaidOutLabel

USUAL = {
    "candle": "Bramble & smoke",
    "identity": "scented soy candle",
    "lot": "26-332-A",
    "business": "Harbour Lane",
    "business_address": "4 Quay Row, Saltby",
    "net_weight": "Net wt 7.8 oz (221 g)",
    "poured_on": "28 November 2026",
    "burn_time": "Burn at most 4 hours at a time",
    "ingredients": "Limonene; linalool; coumarin",
    "price": "$24.00",
    "web": "harbour-lane.example",
}
# A name of 35 letters, a house and its place of 76 together, a word that cannot be broken.
LONG = {
    **USUAL,
    "candle": "Winterapfel mit Zimtrinde und Nelke",
    "identity": "Duftkerze aus Rapswachs",
    "lot": "Charge 26-332-A1",
    "business": "Kerzenmanufaktur Lindenhof Wallau",
    "business_address": "Alte Gerbergasse 114, 99999 Oberhausstett",
    "net_weight": "Nettogewicht 220 g",
    "poured_on": "28. November 2026",
    "burn_time": "Höchstens 4 Stunden am Stück brennen",
}
WORD = {**USUAL, "candle": "Lavendelblütenfeldabend", "net_weight": "Net weight 220 g"}
SHORT = {**USUAL, "candle": "Fig", "identity": "wax melts"}
SLACK_MM = 0.05
NAMES = st.sampled_from(STARTING_DESIGNS)
Box = tuple[float, float, float, float]


def laid_out(name: str, values: dict[str, str], size: tuple[str, float, float]) -> LaidOutLabel:
    """A design with its words on a sticker: shape, width and height."""
    shape, width, height = size
    overlap = 8.0 if shape == "wrap" else 0.0
    design = starting_design(name, width, height, shape=shape, corner_mm=3, overlap_mm=overlap)
    return lay_out_label(design, values, shelf().nearest)


def sizes(least: float) -> st.SearchStrategy[tuple[str, float, float]]:
    """Stickers from this side on, of every shape."""
    side, long = st.floats(least, 200), st.floats(max(120, least), 360)
    straight = st.tuples(st.sampled_from(("rectangle", "rounded", "oval")), side, side)
    circle = side.map(lambda wide: ("circle", wide, wide))
    wrap = st.tuples(st.just("wrap"), long, st.floats(least, 110))
    return st.one_of(straight, circle, wrap)


def ink_boxes(laid: LaidOutLabel) -> Iterator[tuple[int, Box]]:
    """Where the ink of each line lies, by element; curved lines by the middles of their letters.

    A letter's upright box is larger than the letter when that is turned.
    """
    for text in laid.texts:
        for draw in laid.draws_of(text.element):
            if isinstance(draw, TextDraw) and (corners := list(corners_of(draw))):
                xs, ys = zip(*corners, strict=True)
                yield text.element, (min(xs), min(ys), max(xs), max(ys))
            elif isinstance(draw, CurvedDraw):
                for letter in draw.letters:
                    if corners := list(corners_of(letter)):
                        xs, ys = zip(*corners, strict=True)
                        x, y = sum(xs) / len(xs), sum(ys) / len(ys)
                        yield text.element, (x - 0.3, y - 0.3, x + 0.3, y + 0.3)


def over_each_other(one: Box, other: Box) -> bool:
    """Whether two boxes share more than the slack."""
    return (
        one[0] < other[2] - SLACK_MM
        and other[0] < one[2] - SLACK_MM
        and one[1] < other[3] - SLACK_MM
        and other[1] < one[3] - SLACK_MM
    )


@settings(max_examples=60)
@given(NAMES, sizes(36), st.sampled_from((USUAL, SHORT)))
def test_usual_words_are_whole_inside_and_apart(
    name: str, size: tuple[str, float, float], values: dict[str, str]
) -> None:
    laid = laid_out(name, values, size)
    assert [one for one in laid.findings if one.rank is not Rank.NOTE] == []
    boxes = list(ink_boxes(laid))
    for (first, box), (second, other) in itertools.combinations(boxes, 2):
        assert first == second or not over_each_other(box, other), (first, second)


@settings(max_examples=40)
@given(NAMES, sizes(46), st.sampled_from((LONG, WORD)))
def test_long_words_are_whole_inside_and_apart(
    name: str, size: tuple[str, float, float], values: dict[str, str]
) -> None:
    laid = laid_out(name, values, size)
    assert [one for one in laid.findings if one.rank is Rank.STOPS] == []
    boxes = list(ink_boxes(laid))
    for (first, box), (second, other) in itertools.combinations(boxes, 2):
        assert first == second or not over_each_other(box, other), (first, second)


@settings(max_examples=40)
@given(NAMES, sizes(30), st.sampled_from((USUAL, SHORT, LONG, WORD)))
def test_no_word_is_lost_without_a_finding(
    name: str, size: tuple[str, float, float], values: dict[str, str]
) -> None:
    laid = laid_out(name, values, size)
    told = {one.about for one in laid.findings if one.rank is Rank.STOPS}
    for text in laid.texts:
        drawn = " ".join(
            one.run.text if isinstance(one, TextDraw) else one.text
            for one in laid.draws_of(text.element)
            if isinstance(one, TextDraw | CurvedDraw)
        )
        whole = "".join(text.text.split()) in "".join(drawn.split())
        assert whole or ("element", text.element) in told


def test_there_are_at_least_eight_and_no_other_names() -> None:
    assert len(STARTING_DESIGNS) >= 8
    with pytest.raises(OutOfRange):
        starting_design("nothing", 60, 40)
