"""The printer's position, begun sheets and running numbers of print runs."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pdfplumber
import pypdf
import pytest

from app.label_workshop import fill_workshop, sheet_in, view_of
from app.test_print_runs import NEAR_MM, _letters, _run
from documents.samples import MM
from wickbench.app import (
    begun_sheets,
    calibrations,
    label_elements,
    print_runs,
    printing,
    shelf_edit,
)
from wickbench.app.labels import CAUTION
from wickbench.app.running_numbers import last_number, numbers_of
from wickbench.app.used_stickers import kept_sentence
from wickbench.documents.calibration import crosshairs

if TYPE_CHECKING:
    from pathlib import Path

    from wickbench.app.workspace import Workspace


# -- the printer's position ----------------------------------------------------------------------
def test_a_measured_printer_is_corrected_so_that_ink_lands_where_it_was_meant(
    workshop: Workspace, tmp_path: Path
) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 1))
    print_runs.choose_printer(workshop, run, "laser", "tray 2")
    view = view_of(workshop, run)
    plain = printing.write_labels(workshop, view, tmp_path / "plain.pdf")
    # This printer puts everything 1.5 mm to the right and 0.8 mm down, 0.3 % too large.
    page = (210.0, 297.0)
    measured = [(x * 1.003 + 1.5, y * 1.003 + 0.8) for x, y in crosshairs(*page)]
    calibrations.keep_calibration(workshop, "laser", "tray 2", page, measured)
    fixed = printing.write_labels(workshop, view, tmp_path / "fixed.pdf")
    meant, sent = _letters(plain), _letters(fixed)
    assert len(meant) == len(sent)
    for (_, left, _, _), (_, sent_left, _, _) in zip(meant, sent, strict=True):
        assert sent_left * 1.003 + 1.5 == pytest.approx(left, abs=NEAR_MM)
    calibrations.forget_calibration(workshop, "laser", "tray 2")
    assert calibrations.kept_calibration(workshop, "laser", "tray 2") is None
    workshop.undo()
    known = calibrations.kept_calibration(workshop, "laser", "tray 2")
    assert known is not None
    assert known.fitted is not None
    assert known.fitted.shift_x_mm == pytest.approx(1.5 + 0.003 * 105, abs=0.001)
    assert calibrations.kept_calibration(workshop, "laser", "tray 1") is None


def test_a_print_fitted_to_the_page_is_found_by_its_crosshairs() -> None:
    page = (210.0, 297.0)
    shrunk = [(x * 0.94 + 6, y * 0.94 + 9) for x, y in crosshairs(*page)]
    found = calibrations.measured_findings(page, shrunk)
    assert [one.key for one in found] == ["calibration.fit-to-page"]
    assert calibrations.measured_findings(page, [(1, 1)] * 4)[0].key == "calibration.in-line"


def test_the_calibration_page_has_a_bar_of_100_mm_and_four_crosshairs(
    workshop: Workspace, tmp_path: Path
) -> None:
    page = (210.0, 297.0)
    path = printing.write_calibration_page(workshop, page, tmp_path / "page.pdf")
    with pdfplumber.open(io.BytesIO(path.read_bytes())) as document:
        lines = [
            (one["x0"] * MM, one["x1"] * MM, one["top"] * MM, one["bottom"] * MM)
            for one in document.pages[0].lines
        ]
    bars = [one for one in lines if one[1] - one[0] == pytest.approx(100.0, abs=0.02)]
    assert len(bars) == 1
    for x, y in crosshairs(*page):
        middles = [((a + b) / 2, (c + d) / 2) for a, b, c, d in lines]
        near = [one for one in middles if one == pytest.approx((x, y), abs=0.02)]
        assert len(near) == 2  # one line along, one down


def test_a_new_sheet_knows_its_page_by_name(workshop: Workspace) -> None:
    key = shelf_edit.new_item(workshop, "sheet", {}, {"page": "Letter", "columns": 2, "rows": 3})
    sheet = sheet_in(workshop, key)
    assert (sheet.page_w_mm, sheet.page_h_mm) == (215.9, 279.4)  # 8 1/2 × 11 in of 25.4 mm


def test_a_run_is_shown_by_its_name(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    run = print_runs.choose_sheet(workshop, None, kept.three_by_seven)
    assert print_runs.run_names(workshop) == {run: ""}
    print_runs.rename_run(workshop, run, "  Winter fair ")
    assert print_runs.run_names(workshop) == {run: "Winter fair"}
    workshop.undo()
    assert print_runs.run_names(workshop) == {run: ""}


# -- begun sheets and running numbers ------------------------------------------------------------
def test_a_print_uses_up_begun_sheets_and_undo_gives_the_stickers_back(
    workshop: Workspace, tmp_path: Path
) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 30))
    begun_sheets.begin_sheet(workshop, kept.three_by_seven, range(18))  # 3 of 21 left
    begun_sheets.begin_sheet(workshop, kept.three_by_seven, range(14))  # 7 of 21 left
    before = print_runs.print_run(workshop, run).begun
    view = view_of(workshop, run)
    # 3 and 7 free first, then 20 of the 21 of a new sheet: one sticker is left.
    assert (view.need.from_partly_used, view.need.new_sheets, view.need.left) == (10, 1, 1)
    assert kept_sentence(workshop.texts, view).startswith("1 sticker of the last sheet stays free")
    printing.export_labels(workshop, view, tmp_path / "labels.pdf")
    after = print_runs.print_run(workshop, run).begun
    assert [one.used for one in after] == [frozenset(range(20))]
    workshop.undo()
    assert print_runs.print_run(workshop, run).begun == before


def test_a_begun_sheet_thrown_away_or_marked_while_it_is_printed_is_no_trouble(
    workshop: Workspace,
) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 5))
    keys = [begun_sheets.begin_sheet(workshop, kept.three_by_seven, range(18)) for _ in range(2)]
    view = view_of(workshop, run)
    begun_sheets.throw_away(workshop, keys[0] or 0)
    begun_sheets.mark_used(workshop, kept.three_by_seven, keys[1], range(1, 20))
    printing.record_labels(workshop, view)
    # Two of the three on the second sheet were printed: 1 to 19, and those two.
    after = print_runs.print_run(workshop, run).begun
    assert [(one.id, one.used) for one in after] == [(keys[1], frozenset(range(1, 20)))]


def test_as_few_begun_sheets_as_can_be_go_through_the_printer_again(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 5))
    for used in (18, 1, 16):  # 3, 20 and 5 stickers left
        begun_sheets.begin_sheet(workshop, kept.three_by_seven, range(used))
    begun = print_runs.print_run(workshop, run).begun
    assert [21 - len(one.used) for one in begun] == [5, 3, 20]
    assert view_of(workshop, run).sheets == 1
    print_runs.leave_out(workshop, run, begun[0].id, out=True)
    left = print_runs.print_run(workshop, run)
    assert [21 - len(one.used) for one in left.begun] == [20, 3]
    assert left.not_taken == begun[:1]
    begun_sheets.throw_away(workshop, begun[0].id)
    assert print_runs.print_run(workshop, run).not_taken == ()
    workshop.undo()
    workshop.undo()
    assert print_runs.print_run(workshop, run).begun == begun


def test_a_click_on_a_new_sheet_begins_it(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 40))
    first = print_runs.toggle_used(workshop, run, 4)
    second = print_runs.toggle_used(workshop, run, 9, sheet_no=1)
    used = {one.id: one.used for one in print_runs.print_run(workshop, run).begun}
    assert used == {first: {4}, second: {9}}
    begun_sheets.write_note(workshop, first or 0, " top drawer ")
    noted = print_runs.print_run(workshop, run).begun
    assert {one.note for one in noted} == {"top drawer", ""}


def test_stickers_of_a_candle_stand_side_by_side_when_sorted_by_candle(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    run = _run(
        workshop, kept.three_by_seven, ("hush", kept.bramble, 3), (CAUTION, kept.bramble, 3)
    )  # fmt: skip
    print_runs.sort_run(workshop, run, "set", "row")
    stored = print_runs.print_run(workshop, run)
    assert (stored.sorted_by, stored.begins) == ("set", "row")
    pages = view_of(workshop, run).pages
    assert pages is not None
    assert [one.entry for one in pages.placements] == [0, 1, 0, 1, 0, 1]
    workshop.undo()
    assert print_runs.print_run(workshop, run).sorted_by == "line"


def test_running_numbers_go_through_both_lines_of_a_lot(
    workshop: Workspace, tmp_path: Path
) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 12))
    label = view_of(workshop, run).labels[0].id
    at = label_elements.add_element(workshop, label, "text")
    label_elements.change_element(workshop, label, at, {"text": "No. {number} of {of}"})
    values = {"label_id": label, "candle_id": kept.bramble, "lot_code": "26-332-A1"}
    print_runs.add_line(workshop, run, {**values, "count": 8})
    view = view_of(workshop, run)
    path = printing.write_labels(workshop, view, tmp_path / "labels.pdf")
    said = pypdf.PdfReader(path).pages[0].extract_text()
    for number in range(1, 21):
        assert said.count(f"No. {number} of 20") == 1
    stored = print_runs.print_run(workshop, run)
    assert numbers_of(stored, stored.lines[1]) == range(13, 21)
    print_runs.change_line(workshop, stored.lines[1].id, {"first_number": 101})
    stored = print_runs.print_run(workshop, run)
    assert numbers_of(stored, stored.lines[1]) == range(101, 109)
    assert last_number(stored, stored.lines[0]) == 108
