"""Sticker sheets: places, checks, counts, print runs."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Rank
from wickbench.domain.sheet_runs import place_run, sheets_needed
from wickbench.domain.sheets import (
    END_MM,
    SHAPES,
    Rect,
    StickerSheet,
    check_sheet,
    count_per_sheet,
)

# Invented measures, of no known product.
JARS = StickerSheet(210, 297, 9, 12.5, 3, 7, 65, 39.5, 62, 36, "rounded", corner_mm=3)
LIDS = StickerSheet(215.9, 279.4, 9.95, 14.2, 4, 6, 52, 42.6, 38, 38, "circle")


def _keys(sheet: StickerSheet) -> set[str]:
    return {finding.key for finding in check_sheet(sheet)}


def test_stickers_stand_row_by_row_from_the_top_left() -> None:
    assert JARS.count == 21
    assert JARS.sticker(0) == Rect(9, 12.5, 62, 36)
    assert JARS.sticker(4) == Rect(9 + 65, 12.5 + 39.5, 62, 36)
    assert LIDS.sticker(23) == Rect(9.95 + 3 * 52, 14.2 + 5 * 42.6, 38, 38)
    # Common practice, no source: cell 7 of a sheet three wide is row 3, column 1.
    assert JARS.row_and_column(6) == (2, 0)
    for index in (-1, 21):
        with pytest.raises(OutOfRange):
            JARS.sticker(index)


def test_sensible_sheets_have_no_finding() -> None:
    assert check_sheet(JARS) == ()
    assert check_sheet(LIDS) == ()


@pytest.mark.parametrize(
    ("change", "key"),
    [
        ({"pitch_x_mm": 61.9}, "sheet.columns-overlap"),
        ({"pitch_y_mm": 35}, "sheet.rows-overlap"),
        ({"left_mm": 20}, "sheet.past-right-edge"),
        ({"top_mm": 40}, "sheet.past-bottom-edge"),
        ({"left_mm": 3, "columns": 2}, "sheet.near-left-edge"),
        ({"top_mm": 2}, "sheet.near-top-edge"),
        ({"left_mm": 16}, "sheet.near-right-edge"),
        ({"top_mm": 18}, "sheet.near-bottom-edge"),
        ({"shape": "circle"}, "sheet.circle-not-round"),
        ({"corner_mm": 19}, "sheet.corner-too-large"),
        ({"columns": 0}, "sheet.no-stickers"),
        ({"rows": 0}, "sheet.no-stickers"),
        ({"page_w_mm": 0}, "sheet.no-page-w"),
        ({"page_h_mm": 0}, "sheet.no-page-h"),
        ({"sticker_w_mm": 0}, "sheet.no-sticker-w"),
        ({"sticker_h_mm": 0}, "sheet.no-sticker-h"),
    ],
)
def test_each_fault_of_a_sheet_is_named(change: dict[str, object], key: str) -> None:
    assert key in _keys(replace(JARS, **change))


@pytest.mark.parametrize(
    "change",
    [
        {"left_mm": -0.1},
        {"pitch_x_mm": math.nan},
        {"page_h_mm": math.inf},
        {"columns": -1},
        {"rows": 2.5},
        {"shape": "star"},
    ],
)
def test_senseless_measures_are_refused(change: dict[str, object]) -> None:
    with pytest.raises(OutOfRange):
        replace(JARS, **change)


measures = st.floats(0, 80, allow_nan=False)


@given(
    st.builds(
        StickerSheet,
        st.sampled_from([210.0, 215.9, 100.0]),
        st.sampled_from([297.0, 279.4, 150.0]),
        measures,
        measures,
        st.integers(0, 20),
        st.integers(0, 25),
        measures,
        measures,
        measures,
        measures,
        st.sampled_from(SHAPES),
    )
)
def test_without_stopping_findings_no_stickers_overlap_and_all_are_on_the_page(
    sheet: StickerSheet,
) -> None:
    boxes = [sheet.sticker(index) for index in range(sheet.count)]
    hair = 1e-5
    off_page = any(
        box.right_mm > sheet.page_w_mm + hair or box.bottom_mm > sheet.page_h_mm + hair
        for box in boxes
    )
    overlap = any(
        one.x_mm < other.right_mm - hair
        and other.x_mm < one.right_mm - hair
        and one.y_mm < other.bottom_mm - hair
        and other.y_mm < one.bottom_mm - hair
        for at, one in enumerate(boxes[:60])
        for other in boxes[:at]
    )
    if not any(finding.rank is Rank.STOPS for finding in check_sheet(sheet)):
        assert boxes
        assert not off_page
        assert not overlap
    elif overlap or off_page:
        assert check_sheet(sheet)[0].rank is Rank.STOPS


@given(
    columns=st.integers(1, 20),
    rows=st.integers(1, 25),
    gap=st.floats(0, 3),
    shape=st.sampled_from(SHAPES),
)
def test_sheets_cut_from_a_page_with_margins_pass(
    columns: int, rows: int, gap: float, shape: str
) -> None:
    margin = 8.0
    width = (210 - 2 * margin + gap) / columns - gap
    height = (297 - 2 * margin + gap) / rows - gap
    if shape == "circle":
        width = height = min(width, height)
    sheet = StickerSheet(
        210, 297, margin, margin, columns, rows, width + gap, height + gap, width, height, shape
    )
    assert 1 <= sheet.count <= 500
    assert check_sheet(sheet) == ()
    last = sheet.sticker(sheet.count - 1)
    assert last.bottom_mm <= 297 - END_MM
    assert sheet.bleed_limit_mm <= gap / 2 + 1e-9 or sheet.count in {columns, rows}


def test_how_many_stickers_a_page_holds() -> None:
    # floor((page − 2 margins + gap) / (sticker + gap)), computed by hand.
    letter = count_per_sheet((215.9, 279.4), (50.8, 50.8), margin_mm=12.7, gap_mm=6.35)
    assert letter.upright == (3, 4)
    a4 = count_per_sheet((210, 297), (90, 50), margin_mm=10, gap_mm=2)
    assert (a4.upright, a4.turned, a4.best) == ((2, 5), (3, 3), 10)
    assert count_per_sheet((210, 297), (70, 297)).upright == (3, 1)
    for bad in ((0, 5), (5, math.nan), (-1, 5)):
        with pytest.raises(OutOfRange):
            count_per_sheet((210, 297), bad)


def test_partly_used_sheets_come_first() -> None:
    # 23 + 14 + 8 = 45 labels on sheets of ten with 4 and 7 stickers free: 34 remain, 4 sheets.
    need = sheets_needed([23, 14, 8], 10, [4, 7])
    assert (need.from_partly_used, need.new_sheets, need.left) == (11, 4, 6)
    assert sheets_needed([23, 14, 8], 10).new_sheets == 5
    assert sheets_needed([23, 14, 8], 10, one_design_per_sheet=True).new_sheets == 6
    placed = place_run([2, 1], 4, [frozenset({0, 2, 3}), frozenset({0, 1, 2, 3})])
    assert [(one.entry, one.sheet_no, one.index) for one in placed] == [
        (0, 0, 1),
        (0, 2, 0),
        (1, 2, 1),
    ]


@given(
    counts=st.lists(st.integers(0, 40), max_size=5),
    per_sheet=st.integers(1, 30),
    used=st.lists(st.frozensets(st.integers(0, 29)), max_size=3),
)
def test_every_label_gets_a_free_sticker_of_its_own(
    counts: list[int], per_sheet: int, used: list[frozenset[int]]
) -> None:
    placed = place_run(counts, per_sheet, used)
    spots = [(one.sheet_no, one.index) for one in placed]
    assert len(set(spots)) == len(spots) == sum(counts)
    assert spots == sorted(spots)
    assert [one.entry for one in placed] == sorted(one.entry for one in placed)
    for sheet_no, index in spots:
        assert 0 <= index < per_sheet
        assert sheet_no >= len(used) or index not in used[sheet_no]
    free = [per_sheet - len([at for at in gone if at < per_sheet]) for gone in used]
    need = sheets_needed(counts, per_sheet, free)
    assert need.new_sheets == len({no for no, _ in spots if no >= len(used)})
    assert need.from_partly_used == sum(no < len(used) for no, _ in spots)


def test_broken_counts_are_refused() -> None:
    with pytest.raises(OutOfRange):
        place_run([-1], 4)
    with pytest.raises(OutOfRange):
        place_run([1], 0)
    assert place_run([0], 0) == ()
