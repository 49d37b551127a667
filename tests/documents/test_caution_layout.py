"""The caution sticker: inside its safe zone, whole, and as large as it goes."""

import itertools
import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wickbench.app.standards import caution_rules
from wickbench.documents.caution_blocks import Content
from wickbench.documents.caution_checks import Base
from wickbench.documents.caution_design import CautionDesign
from wickbench.documents.caution_layout import (
    STEP_PT,
    LaidOutCaution,
    fits,
    lay_out_caution,
)
from wickbench.documents.label_draws import PathDraw, TextDraw
from wickbench.documents.label_layout import draw_label
from wickbench.documents.pictograms import path_bounds
from wickbench.documents.sticker_shape import StickerShape
from wickbench.documents.surface import RecordingSurface
from wickbench.documents.typefaces import SANS, TypefaceShelf
from wickbench.domain.caution_statements import CandleFacts, CautionLine
from wickbench.domain.cautions import caution_lines, choose_set
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Rank

RULES = caution_rules()
SHELF = TypefaceShelf([])
DESIGN = CautionDesign(SHELF.find(SANS), SHELF.find(SANS, "Bold"))
JAR = CandleFacts("container", "cotton", trim_mm=6, longest_burn_h=4, stop_mm=12)

ROUND_50 = StickerShape("circle", 50, 50)
SHAPES = [
    ROUND_50,
    StickerShape("circle", 76.2, 76.2),
    StickerShape("oval", 80, 45),
    StickerShape("oval", 40, 70),
    StickerShape("rectangle", 63.5, 38),
    StickerShape("rounded", 60, 60, 6),
    StickerShape("rounded", 60, 40, 20),
]


def laid(
    shape: StickerShape,
    region: str = "EU",
    languages: tuple[str, ...] = ("en",),
    *,
    pictures: str = "none",
    base: Base | None = None,
    facts: CandleFacts = JAR,
) -> LaidOutCaution:
    rule = choose_set(RULES, region, facts.kind)
    lines = caution_lines(RULES, region, languages, facts)
    words = [rule.signal[language] for language in languages]
    design = replace(DESIGN, pictures=pictures)
    return lay_out_caution(lines, words, rule.symbol, shape, design, base=base)


def texts_of(caution: LaidOutCaution) -> list[TextDraw]:
    return [draw for draw in caution.label.draws if isinstance(draw, TextDraw)]


def printed(caution: LaidOutCaution) -> str:
    return " ".join(draw.run.text for draw in texts_of(caution))


def keys(caution: LaidOutCaution) -> list[str]:
    return [finding.key for finding in caution.findings]


def corners(caution: LaidOutCaution) -> list[tuple[float, float]]:
    """Corners of the ink of every run and figure, mm from the sticker's corner."""
    found: list[tuple[float, float]] = []
    for draw in caution.label.draws:
        if isinstance(draw, TextDraw):
            ink = draw.run.ink_mm(draw.size_pt)
            assert ink is not None
            left, right = draw.x_mm + ink[0], draw.x_mm + ink[2]
            top, bottom = draw.y_mm - ink[3], draw.y_mm - ink[1]
        else:
            assert isinstance(draw, PathDraw)
            left, top, right, bottom = path_bounds(draw.path)
        found += [(x, y) for x in (left, right) for y in (top, bottom)]
    return found


def distance_to_edge_mm(shape: StickerShape, x_mm: float, y_mm: float) -> float:
    """Distance of a point inside to the sticker's edge, by walking along the edge."""
    a, b = shape.width_mm / 2, shape.height_mm / 2
    x, y = abs(x_mm - a), abs(y_mm - b)
    if shape.shape in {"circle", "oval"}:
        assert (x / a) ** 2 + (y / b) ** 2 < 1.0
        edge = [
            (a * math.cos(t), b * math.sin(t)) for t in (i * math.pi / 4000 for i in range(2001))
        ]
        return min(math.hypot(x - u, y - v) for u, v in edge)
    corner = min(shape.corner_mm, a, b) if shape.shape == "rounded" else 0.0
    into_x, into_y = x - (a - corner), y - (b - corner)
    if into_x > 0 and into_y > 0:
        return corner - math.hypot(into_x, into_y)
    return min(a - x, b - y)


@pytest.mark.parametrize("shape", SHAPES, ids=lambda s: f"{s.shape}-{s.width_mm}x{s.height_mm}")
@pytest.mark.parametrize("pictures", ["none", "beside"])
def test_all_ink_keeps_the_safe_distance(shape: StickerShape, pictures: str) -> None:
    caution = laid(shape, languages=("en", "de"), pictures=pictures)
    assert len(corners(caution)) > 20
    for x_mm, y_mm in corners(caution):
        assert distance_to_edge_mm(shape, x_mm, y_mm) >= shape.safe_mm - 0.05


@settings(max_examples=25)
@given(
    st.sampled_from(["circle", "oval", "rectangle", "rounded"]),
    st.floats(24, 110),
    st.floats(0.5, 1.0),
    st.sampled_from(["US", "EU", "UK"]),
    st.lists(st.sampled_from(["en", "de", "fr", "es"]), min_size=1, max_size=3, unique=True),
)
def test_mandatory_statements_are_there_in_each_language_and_text_is_maximal(
    figure: str, width_mm: float, proportion: float, region: str, languages: list[str]
) -> None:
    height_mm = width_mm if figure == "circle" else width_mm * proportion
    shape = StickerShape(figure, width_mm, height_mm, corner_mm=4 if figure == "rounded" else 0)
    caution = laid(shape, region, tuple(languages))
    rule = choose_set(RULES, region, "container")
    said = printed(caution)
    if caution.size_pt == 0.0:
        assert keys(caution)[0].startswith("caution.does-not-fit")
        return
    for statement in rule.statements:
        if statement.mandatory and "container" in statement.kinds:
            for language in languages:
                assert statement.texts[language] in said
    assert all(rule.signal[language] in said for language in languages)
    words = tuple(rule.signal[language] for language in languages)
    content = Content(caution.lines, words, rule.symbol)
    if "caution.symbol-small" not in keys(caution):
        assert fits(content, shape, DESIGN, caution.size_pt)
        assert not fits(content, shape, DESIGN, caution.size_pt + STEP_PT)
    assert (caution.size_pt >= 5.0) or any(f.rank is Rank.STOPS for f in caution.findings)


def test_symbol_and_signal_word_come_first_on_one_line() -> None:
    # ASTM F2058-07(2021), abstract: the symbol followed immediately by the word in capitals
    caution = laid(ROUND_50, "US")
    word = texts_of(caution)[0]
    symbol = caution.label.draws[0]
    assert isinstance(symbol, PathDraw)
    left, top, right, bottom = path_bounds(symbol.path)
    assert word.run.text == "WARNING"
    assert word.run.face.style == "Bold"
    assert left < right < word.x_mm < right + 2
    assert top < word.y_mm < bottom
    assert bottom - top >= 5.0 - 1e-6
    assert all(draw.y_mm > word.y_mm for draw in texts_of(caution)[1:])


@pytest.mark.parametrize("pictures", ["beside", "instead"])
def test_drawings_are_at_least_five_millimetres_high(pictures: str) -> None:
    # EN 15494:2019 cl. 4.3, from summaries of it
    caution = laid(StickerShape("circle", 60, 60), pictures=pictures)
    rings = [
        path_bounds(draw.path)
        for draw in caution.label.draws
        if isinstance(draw, PathDraw) and draw.stroke and draw.path[-1][0] == "z"
    ]
    widths = [
        draw.width_mm
        for draw in caution.label.draws
        if isinstance(draw, PathDraw) and draw.stroke and draw.path[-1][0] == "z"
    ]
    heights = [box[3] - box[1] + w for box, w in zip(rings, widths, strict=True)]
    assert sum(height >= 5.0 - 1e-6 for height in heights) >= 5


def test_drawings_instead_of_words_keep_the_figures() -> None:
    said = printed(laid(StickerShape("circle", 60, 60), pictures="instead"))
    assert "unattended" not in said
    assert "6 mm" in said
    assert "4 hours" in said


def test_fewer_words_or_more_room_give_larger_text() -> None:
    small, large = laid(ROUND_50), laid(StickerShape("circle", 76.2, 76.2))
    assert large.size_pt > small.size_pt > laid(ROUND_50, languages=("en", "de")).size_pt


def test_care_lines_go_before_text_becomes_too_small_and_say_so() -> None:
    caution = laid(StickerShape("circle", 30, 30))
    assert caution.size_pt >= 5.0
    assert caution.dropped
    assert not any(line.mandatory for line in caution.dropped)
    assert keys(caution).count("caution.care-dropped") == len(caution.dropped)
    assert caution.needed_mm is not None
    assert caution.needed_mm > 30


def test_the_size_that_is_asked_for_is_just_enough() -> None:
    needed_mm = laid(StickerShape("circle", 30, 30), languages=("en", "de")).needed_mm
    assert needed_mm is not None
    enough = laid(StickerShape("circle", needed_mm, needed_mm), languages=("en", "de"))
    assert enough.size_pt >= 5.0
    assert not enough.dropped
    less = laid(StickerShape("circle", needed_mm - 1, needed_mm - 1), languages=("en", "de"))
    assert less.dropped


def test_text_too_small_to_read_stops_and_keeps_every_mandatory_statement() -> None:
    caution = laid(StickerShape("circle", 36, 36), languages=("en", "de", "fr"))
    assert 0 < caution.size_pt < 5.0
    assert keys(caution)[0] == "caution.too-small"
    assert "Ne jamais laisser une bougie allumée sans surveillance." in printed(caution)


def test_a_sticker_far_too_small_is_refused_with_the_size_needed() -> None:
    caution = laid(StickerShape("circle", 8, 8), languages=("en", "de", "fr"))
    assert caution.label.draws == ()
    assert caution.lines == ()
    assert keys(caution) == ["caution.does-not-fit"]
    assert caution.findings[0].rank is Rank.STOPS


@pytest.mark.parametrize(
    ("shape", "base", "too_large"),
    [
        (ROUND_50, Base(50), False),
        (ROUND_50, Base(49), True),
        # a square of 50 mm measures 70.7 mm from corner to corner
        (StickerShape("rectangle", 50, 50), Base(70), True),
        (StickerShape("rectangle", 50, 50), Base(71), False),
        (StickerShape("rectangle", 50, 40), Base(40, 50), False),
        (StickerShape("rectangle", 50, 45), Base(50, 44), True),
        (StickerShape("rounded", 50, 50, 25), Base(50), False),
    ],
)
def test_a_sticker_larger_than_the_base_stops(
    shape: StickerShape, base: Base, *, too_large: bool
) -> None:
    assert ("caution.larger-than-base" in keys(laid(shape, base=base))) is too_large


def test_signs_without_glyph_stop() -> None:
    line = CautionLine("caution.x", "en", "Keep 蠟 away.", True, "s", "2026", "own")
    caution = lay_out_caution([line], ["WARNING"], "safety-alert", ROUND_50, DESIGN)
    assert keys(caution) == ["caution.missing-glyph"]
    assert caution.findings[0].data["signs"] == "蠟"


def test_equal_stickers_share_a_key_and_different_ones_do_not() -> None:
    one, same, other = laid(ROUND_50), laid(ROUND_50), laid(ROUND_50, "US")
    assert one.label.key == same.label.key != other.label.key


def test_it_is_drawn_like_any_label() -> None:
    caution = laid(ROUND_50)
    surface = RecordingSurface()
    surface.begin_page(50, 50)
    draw_label(caution.label, surface)
    assert [drawn.run.text for drawn in surface.texts] == [d.run.text for d in texts_of(caution)]
    assert len(surface.paths) == 3
    assert caution.label.smallest_pt == caution.size_pt


def test_no_line_ends_with_a_number_cut_from_its_unit() -> None:
    for shape in SHAPES:
        for draw in texts_of(laid(shape)):
            assert not draw.run.text.split(" ")[-1].isdigit()


@pytest.mark.parametrize(
    "senseless",
    [
        lambda: StickerShape("star", 50, 50),
        lambda: StickerShape("circle", 50, 40),
        lambda: StickerShape("circle", 3, 3),
        lambda: StickerShape("oval", float("nan"), 40),
        lambda: replace(DESIGN, pictures="some"),
        lambda: lay_out_caution([], ["WARNING"], "safety-alert", ROUND_50, DESIGN),
    ],
)
def test_senseless_input_is_refused(senseless: object) -> None:
    assert callable(senseless)
    with pytest.raises(OutOfRange):
        senseless()


def test_what_has_room_stands_in_the_middle() -> None:
    lines = [CautionLine("caution.x", "en", "Keep away.", True, "s", "2026", "own")]
    shape = StickerShape("rectangle", 30, 80)
    caution = lay_out_caution(lines, ["WARNING"], "safety-alert", shape, DESIGN)
    tops = [y_mm for _, y_mm in corners(caution)]
    xs = [x_mm for x_mm, _ in corners(caution)]
    assert min(tops) + max(tops) == pytest.approx(80, abs=3)
    assert min(xs) + max(xs) == pytest.approx(30, abs=0.5)


def test_lines_of_a_text_stand_eighteen_percent_apart() -> None:
    caution = laid(StickerShape("rectangle", 60, 60))
    baselines = [draw.y_mm for draw in texts_of(caution)[1:]]
    leading_mm = caution.size_pt * 25.4 / 72 * 1.18
    gaps = [below - above for above, below in itertools.pairwise(baselines)]
    assert gaps == pytest.approx([leading_mm] * len(gaps))


def test_a_symbol_that_must_shrink_stops_and_names_the_size_needed() -> None:
    caution = laid(StickerShape("rectangle", 11, 60), "US")
    assert "caution.symbol-small" in keys(caution)
    assert caution.needed_mm is not None
    assert caution.needed_mm > 11


def test_care_lines_stay_when_dropping_them_gains_nothing() -> None:
    # the signal word is too wide for 5 pt here, whatever else is left out
    caution = laid(StickerShape("rectangle", 20, 90), "US")
    assert caution.size_pt < 5.0
    assert not caution.dropped
