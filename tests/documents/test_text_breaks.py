"""Words too long for a line, text that must shrink, and tabs: as people paste them."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from documents.samples import sample_face
from wickbench.documents.lost_letters import missing
from wickbench.documents.text import shape
from wickbench.documents.text_fit import TextStyle, fit_text, wrap
from wickbench.domain.sheets import Rect

SIGNS = "aemnWil.-ö\u0301\u0308"


def _width(text: str, size: float) -> float:
    return shape(sample_face("sans"), text).width_mm(size)


@given(
    word=st.text(SIGNS, min_size=1, max_size=60), width=st.floats(0.5, 30), size=st.floats(4, 20)
)
def test_a_long_word_is_broken_where_no_further_letter_fits(
    word: str, width: float, size: float
) -> None:
    pieces = [run.text for run in wrap(sample_face("sans"), word, width, size)]
    assert "".join(pieces) == word
    for at, piece in enumerate(pieces):
        letters = sum(not unicodedata.combining(sign) for sign in piece)
        assert _width(piece, size) <= width + 1e-6 or letters <= 1
        if at + 1 < len(pieces):
            rest = "".join(pieces[at + 1 :])
            assert not unicodedata.combining(rest[0])
            more = 1
            while more < len(rest) and unicodedata.combining(rest[more]):
                more += 1
            # Kerning may pull a letter back by a hair.
            assert _width(piece + rest[:more], size) > width - 0.02 * size


@given(
    words=st.lists(st.sampled_from(("a", "soy", "candle", "bergamot")), min_size=1, max_size=30),
    width=st.floats(8, 60),
    height=st.floats(4, 40),
)
def test_text_takes_the_largest_size_that_goes(
    words: list[str], width: float, height: float
) -> None:
    text, face = " ".join(words), sample_face("sans")
    style = TextStyle(face, 14.0, 5.0, leading=1.2)
    done = fit_text(style, text, Rect(0, 0, width, height))
    if not done.fits:
        assert done.size_pt == 5.0
        return
    assert " ".join(line.run.text for line in done.lines) == text
    assert done.height_mm <= height + 1e-6
    assert all(line.width_mm <= width + 1e-6 for line in done.lines)
    larger = done.size_pt + 0.25
    if larger <= 14.0:
        lines = _greedy(words, width, larger)
        top, low = face.cap_height, _low(text)
        k = larger * 25.4 / 72 / face.units_per_em
        needed = (max(top, _high(text)) - low) * k + (len(lines) - 1) * 1.2 * larger * 25.4 / 72
        too_wide = any(_width(line, larger) > width for line in lines)
        assert too_wide or needed > height


def _greedy(words: list[str], width: float, size: float) -> list[str]:
    lines = [words[0]]
    for word in words[1:]:
        if _width(f"{lines[-1]} {word}", size) <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def _boxes(text: str) -> list[tuple[float, float, float, float]]:
    face = sample_face("sans")
    found = [face.ink(glyph.gid) for one in (text, "p") for glyph in shape(face, one).glyphs]
    return [box for box in found if box is not None]


def _high(text: str) -> float:
    return max(box[3] for box in _boxes(text))


def _low(text: str) -> float:
    return min(box[1] for box in _boxes(text))


def test_breaking_a_very_long_word_shapes_little() -> None:
    # A pasted address of two thousand letters is asked for at every key: halving, not one by one.
    word = "".join(chr(ord("a") + at * 7 % 26) for at in range(2000))
    before = shape.cache_info().misses
    lines = wrap(sample_face("sans"), word, 50, 6)
    assert len(lines) > 40
    assert shape.cache_info().misses - before < 20 * len(lines)


def test_the_size_of_a_long_text_is_found_without_trying_every_number_of_lines() -> None:
    words = " ".join(f"word{at}" for at in range(300))
    style = TextStyle(sample_face("sans"), 40.0, 2.0)
    before = shape.cache_info()
    done = fit_text(style, words, Rect(0, 0, 54, 34))
    after = shape.cache_info()
    assert done.fits
    asked = after.hits + after.misses - before.hits - before.misses
    assert asked < 3 * 300 * (1 + (40 - done.size_pt) / 0.25)


@pytest.mark.parametrize("name", ["sans", "serif-cff"])
def test_a_tab_is_a_blank_and_no_box(name: str) -> None:
    run = shape(sample_face(name), "a\tb")
    assert [glyph.gid for glyph in run.glyphs] == [
        glyph.gid for glyph in shape(sample_face(name), "a b").glyphs
    ]
    assert run.text == "a\tb"
    assert not missing(sample_face(name), "a\tb")
