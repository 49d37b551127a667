"""Sheets against their page: margins, paper, gaps, doubt of the last sticker; entered twice."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.sheet_tolerances import (
    check_tolerances,
    paper_tolerance_mm,
    same_measures,
)
from wickbench.domain.sheets import StickerSheet, check_sheet

# Invented measures, of no known product.
EVEN = StickerSheet(210, 297, 9, 12, 3, 7, 65, 39.5, 62, 36, "rounded", corner_mm=3)


def _told(sheet: StickerSheet, **more: object) -> dict[str, dict[str, object]]:
    found = check_tolerances(sheet, **more)  # type: ignore[arg-type]  # the doubts
    return {one.key: dict(one.data) for one in found}


def test_an_even_sheet_has_nothing_to_tell() -> None:
    assert check_sheet(EVEN) == ()
    assert _told(EVEN) == {}


def test_uneven_margins_are_told_with_the_pitch_that_makes_them_even() -> None:
    told = _told(replace(EVEN, left_mm=7))["sheet.off-centre-across"]
    # Worked by hand: 210 - 7 - 2 * 65 - 62 = 11 at the right; 4 more over 2 pitches are 2 each.
    assert (told["near_mm"], told["far_mm"], told["off_mm"]) == pytest.approx((7, 11, 4))
    assert told["pitch_mm"] == pytest.approx(67)
    fixed = replace(EVEN, left_mm=7, pitch_x_mm=67)
    assert "sheet.off-centre-across" not in _told(fixed)
    single = StickerSheet(210, 297, 9, 12, 1, 7, 65, 39.5, 62, 36)
    assert "sheet.off-centre-across-single" in _told(single)


@pytest.mark.parametrize(
    ("length_mm", "tolerance_mm"), [(148, 1.5), (150, 1.5), (210, 2), (600, 2), (841, 3)]
)
def test_paper_is_cut_as_the_standard_allows(length_mm: float, tolerance_mm: float) -> None:
    assert paper_tolerance_mm(length_mm) == tolerance_mm  # ISO 216


def test_stickers_nearer_the_far_edge_than_the_papers_tolerance_are_told() -> None:
    tight = StickerSheet(210, 297, 1, 1, 2, 2, 104, 147.5, 104, 147.5)
    told = _told(tight)
    assert told["sheet.paper-short-across"]["tolerance_mm"] == 2
    assert {"sheet.gap-below-feed-across", "sheet.gap-below-feed-down"} <= set(told)
    # Letter is no ISO size: nothing is said of its tolerance.
    letter = StickerSheet(215.9, 279.4, 1, 1, 2, 2, 107, 138.7, 107, 138.7)
    assert "sheet.paper-short-across" not in _told(letter)


def test_a_last_row_that_is_unsure_is_told_with_its_numbers() -> None:
    told = _told(EVEN, last_doubts_mm=(0.5, 1.8))
    assert "sheet.last-unsure-across" not in told
    # sqrt(1.8² + 1²) = 2.06, worked by hand: more than the 2 mm that text stays inside.
    assert told["sheet.last-unsure-down"]["off_mm"] == pytest.approx(2.059, abs=0.001)


def test_a_sheet_that_cannot_be_is_left_to_the_other_checks() -> None:
    assert _told(replace(EVEN, columns=0)) == {}
    assert _told(replace(EVEN, sticker_w_mm=0)) == {}
    assert "sheet.off-centre-across" not in _told(replace(EVEN, columns=4))


@given(
    by=st.fixed_dictionaries(
        {
            name: st.floats(-0.29, 0.29)
            for name in ("left_mm", "top_mm", "pitch_x_mm", "sticker_w_mm", "page_h_mm")
        }
    )
)
def test_the_same_sheet_measured_twice_is_known(by: dict[str, float]) -> None:
    again = replace(EVEN, **{name: getattr(EVEN, name) + change for name, change in by.items()})
    assert same_measures(EVEN, again)
    assert same_measures(again, EVEN)


@pytest.mark.parametrize(
    "change",
    [
        {"left_mm": 9.4}, {"columns": 2}, {"shape": "oval"}, {"sticker_h_mm": 35.6},
        {"pitch_y_mm": 39.9}, {"sticker_w_mm": 0},
    ],
)  # fmt: skip
def test_another_sheet_is_another_sheet(change: dict[str, object]) -> None:
    assert not same_measures(EVEN, replace(EVEN, **change))
