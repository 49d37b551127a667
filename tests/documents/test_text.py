"""Shaping, typefaces and fitting."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageFont

from documents.samples import MM, SAMPLE_FACES, sample_face, sample_path, shelf
from wickbench.documents.lost_letters import missing
from wickbench.documents.text import Typeface, shape, subset, width_mm
from wickbench.documents.text_fit import TextStyle, fit_size, fit_text, wrap
from wickbench.documents.typefaces import SANS, SERIF, TypefaceShelf
from wickbench.domain.errors import DomainError
from wickbench.domain.sheets import Rect

if TYPE_CHECKING:
    from pathlib import Path

words = st.text(alphabet="abcfijlmnoprstvwÄÖéß& ", min_size=1, max_size=40)


@pytest.mark.parametrize("name", SAMPLE_FACES)
def test_ink_is_where_freetype_sees_it(name: str) -> None:
    # FreeType, through Pillow, renders the same glyph at 2000 px to the em.
    face = sample_face(name)
    font = ImageFont.truetype(str(sample_path(name)), 2000, layout_engine=ImageFont.Layout.BASIC)
    for sign, height in (("x", face.x_height), ("H", face.cap_height)):
        top = -font.getbbox(sign, anchor="ls")[1]
        assert height / face.units_per_em * 2000 == pytest.approx(top, abs=2)
    box = font.getbbox("o", anchor="ls")
    assert face.o_height / face.units_per_em * 2000 == pytest.approx(box[3] - box[1], abs=3)


def test_kerning_draws_letters_together() -> None:
    face = sample_face("sans")
    apart = sum(shape(face, sign).advance for sign in "AVAVA")
    assert shape(face, "AVAVA").advance < apart - 50


@pytest.mark.parametrize("name", SAMPLE_FACES)
def test_spacing_never_parts_a_mark_from_its_letter(name: str) -> None:
    face = sample_face(name)
    q, mark, a = shape(face, "q\u0301a", 0.3).glyphs
    tight_q, tight_mark, _ = shape(face, "q\u0301a").glyphs
    assert (mark.x - q.x, mark.y) == (tight_mark.x - tight_q.x, tight_mark.y)
    assert a.x == pytest.approx(q.x + q.advance + 0.3 * face.units_per_em)


def test_spacing_adds_between_letters_only_and_breaks_ligatures() -> None:
    face = sample_face("serif")
    plain, spaced = shape(face, "HHH"), shape(face, "HHH", 0.1)
    assert spaced.advance - plain.advance == pytest.approx(0.2 * face.units_per_em)
    assert len(shape(face, "ffi", 0.1).glyphs) == 3


def test_nothing_has_no_width() -> None:
    assert shape(sample_face("sans"), "").advance == 0
    assert shape(sample_face("sans"), " ").ink_mm(10) is None


def test_missing_characters_are_listed_once_in_order() -> None:
    assert missing(sample_face("sans"), "Fig 字 und 字\n語, ok") == ("字", "語")
    assert missing(sample_face("sans"), "Łódź – “½” e\u0301\u00a0×") == ()


@pytest.mark.parametrize("name", SAMPLE_FACES)
def test_a_subset_keeps_ids_and_widths_and_drops_the_rest(name: str, tmp_path: Path) -> None:
    face = sample_face(name)
    gids = tuple(glyph.gid for glyph in shape(face, "Fig").glyphs)
    file = tmp_path / "subset.otf"
    file.write_bytes(subset(face, gids))
    small = Typeface(file)
    assert [small.advance(gid) for gid in gids] == [face.advance(gid) for gid in gids]
    assert all(small.outline(gid) == face.outline(gid) for gid in gids)
    other = shape(face, "Q").glyphs[0].gid
    assert face.outline(other)
    assert not small.outline(other)


def test_the_two_families_always_exist() -> None:
    assert shelf().families() == (SANS, SERIF)
    assert shelf().styles(SANS)[0] == "Regular"
    assert "Bold Italic" in shelf().styles(SERIF)
    face, exact = shelf().nearest(SERIF, "Bold")
    assert (face.family, face.style, exact) == (SERIF, "Bold", True)
    assert len(face.file_hash) == 64
    assert face.may_embed


def test_a_missing_typeface_is_replaced_and_said() -> None:
    assert shelf().nearest("Nowhere Grotesk", "Bold")[0].style == "Bold"
    assert shelf().nearest(SANS, "Ultra")[0].style == "Regular"
    assert not shelf().nearest(SANS, "Ultra")[1]
    with pytest.raises(DomainError) as caught:
        shelf().find("Nowhere Grotesk")
    assert caught.value.key == "typeface.not-found"


def test_installed_fonts_are_found_and_rubbish_is_passed_over(tmp_path: Path) -> None:
    shutil.copy(sample_path("serif-cff"), tmp_path / "deep.OTF")
    (tmp_path / "broken.ttf").write_bytes(b"no font at all")
    (tmp_path / "empty.ttf").write_bytes(b"")
    found = TypefaceShelf([tmp_path, tmp_path / "nowhere"])
    assert found.families() == (SANS, SERIF)
    with pytest.raises(DomainError):
        Typeface(tmp_path / "broken.ttf")
    with pytest.raises(DomainError):
        Typeface(tmp_path / "gone.ttf")


@given(words, st.floats(15, 120), st.floats(5, 20))
def test_wrapped_lines_fit_and_say_the_same(text: str, width: float, size: float) -> None:
    lines = wrap(sample_face("sans"), text, width, size)
    assert "".join("".join(run.text.split()) for run in lines) == "".join(text.split())
    assert all(run.width_mm(size) <= width + 0.01 for run in lines if len(run.text) > 1)


@given(
    words.filter(str.strip),
    st.floats(10, 80),
    st.floats(4, 40),
    st.sampled_from(("left", "centre", "right")),
    st.sampled_from(("top", "middle", "bottom")),
)
def test_text_that_fits_keeps_inside_its_box(
    text: str, width: float, height: float, align: str, vertical: str
) -> None:
    face = sample_face("serif")
    box = Rect(3, 5, width, height)
    done = fit_text(TextStyle(face, 24, 4, align, vertical), text, box)
    if not done.fits:
        assert done.size_pt == 4
        return
    for one in done.lines:
        assert box.x_mm - 0.01 <= one.x_mm
        assert one.x_mm + one.width_mm <= box.right_mm + 0.01
        ink = one.run.ink_mm(done.size_pt)
        if ink is not None:
            assert box.y_mm - 0.01 <= one.y_mm - ink[3]
            assert one.y_mm - ink[1] <= box.bottom_mm + 0.01
    if done.size_pt < 24:
        larger = done.size_pt + 0.25
        again = fit_text(TextStyle(face, larger, larger, align, vertical), text, box)
        assert not again.fits


def test_one_line_is_shrunk_to_its_width() -> None:
    face = sample_face("sans")
    size = fit_size(face, "Bramble & smoke", 30, 40, 5)
    assert size is not None
    assert width_mm(face, "Bramble & smoke", size) == pytest.approx(30)
    assert fit_size(face, "Bramble & smoke", 30, 4, 3) == 4
    assert fit_size(face, "Bramble & smoke", 3, 40, 5) is None


def test_a_point_is_a_seventy_second_of_an_inch() -> None:
    # NIST SP 811 gives the inch as 25.4 mm; PDF (ISO 32000-1, 8.3.2.3) the point as 1/72 in.
    face = sample_face("sans")
    gid = shape(face, "H").glyphs[0].gid
    em = face.advance(gid) / face.units_per_em
    assert width_mm(face, "H", 72) == pytest.approx(25.4 * em)
    assert pytest.approx(25.4 / 72) == MM


def test_a_few_words_in_a_huge_box_are_tried_on_few_lines() -> None:
    asked = []

    def narrow(top_mm: float, bottom_mm: float) -> tuple[float, float]:
        asked.append((top_mm, bottom_mm))
        return 0.0, 1.0

    style = TextStyle(sample_face("sans"), 12, 10)
    done = fit_text(style, "Far too wide", Rect(0, 0, 1, 900), narrow)
    assert not done.fits
    # nine sizes, and on each at most one to 33 lines of the 170 that there would be room for
    assert len(asked) <= 9 * 33 * 34 / 2
