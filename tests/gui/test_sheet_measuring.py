"""A sheet measured on the Labels page: with a ruler, from a scan; begun sheets, twins, sorting."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit

from app.label_workshop import fill_workshop
from documents.scans import Look, scan_of
from wickbench.app import begun_sheets, label_elements, labels, print_runs, shelf_edit
from wickbench.app.print_run_view import sheet_values
from wickbench.gui.labels.labels_page import LabelsPage
from wickbench.gui.labels.ruler_dialog import RulerDialog
from wickbench.gui.labels.scan_dialog import ScanDialog

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from gui.conftest import Answers, StandingClock
    from wickbench.app.workspace import Workspace
    from wickbench.gui.labels.measure_fields import MeasureFields


@pytest.fixture
def page(qapp: QApplication, workspace: Workspace, ask: Answers) -> Iterator[LabelsPage]:
    """The page with a run of 30 labels on a sheet of 21."""
    kept = fill_workshop(workspace)
    run = print_runs.choose_sheet(workspace, None, kept.three_by_seven)
    label = labels.new_label(workspace, "hush")
    values = {"label_id": label, "candle_id": kept.bramble, "lot_code": "A1", "count": 30}
    print_runs.add_line(workspace, run, values)
    shown = LabelsPage(workspace, ask)
    shown.resize(1440, 900)
    shown.show()
    qapp.processEvents()
    yield shown
    shown.release()
    shown.deleteLater()
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def _type(inputs: MeasureFields, name: str, text: str) -> None:
    line = inputs.fields[name].editor
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, text)


def test_a_sheet_is_measured_with_a_ruler_in_millimetres_and_inches(page: LabelsPage) -> None:
    shop, sheet_id = page.workspace, page.desk.run.sheet_id
    assert sheet_id is not None
    page.run.panel.sheet_box.open_ruler()
    dialog = page.run.panel.sheet_box.findChild(RulerDialog)
    assert dialog is not None
    assert not dialog.take.isEnabled()
    # Worked by hand: (139.5 - 9) / 2 = 65.25 across; (286 - 36 - 12.7) / 6 = 39.55 down.
    for name, text in {
        "across_first_near_mm": "9", "across_last_near_mm": "139.5", "across_size_mm": "62",
        "down_first_near_mm": "0.5 in", "down_last_far_mm": "286", "down_size_mm": "36",
    }.items():  # fmt: skip
        _type(dialog.inputs, name, text)
    assert "65.25" in dialog.results.text()
    assert "entered is 65 mm" not in dialog.results.text()  # within what the readings can tell
    assert "Reading the top edge of the last row" in " ".join(dialog.findings.sentences)
    _type(dialog.inputs, "down_first_near_mm", "half")
    assert not dialog.inputs.values()["down_first_near_mm"]
    _type(dialog.inputs, "down_first_near_mm", "0.5 in")
    dialog.take.click()
    values = sheet_values(shop, sheet_id)
    assert values["pitch_x_mm"] == pytest.approx(65.25)
    assert values["pitch_y_mm"] == pytest.approx(39.55)
    assert values["top_mm"] == pytest.approx(12.7)
    kept = values["readings"]
    assert isinstance(kept, dict)
    assert kept["ruler"]["down"]["last_far_mm"] == 286
    shop.undo()
    assert sheet_values(shop, sheet_id)["pitch_x_mm"] == 65


def test_a_scan_is_shown_corrected_and_taken(
    page: LabelsPage, ask: Answers, tmp_path: Path
) -> None:
    shop, sheet_id = page.workspace, page.desk.run.sheet_id
    assert sheet_id is not None
    assert page.desk.sheet is not None
    ask.path = tmp_path / "empty.png"
    ask.path.write_bytes(b"no picture")
    page.run.panel.sheet_box.scan.click()
    assert len(ask.told) == 1
    ask.path.write_bytes(scan_of(page.desk.sheet, Look(dpi=90)))
    page.run.panel.sheet_box.scan.click()
    dialog = page.findChild(ScanDialog)
    assert dialog is not None
    assert dialog.seen.text().startswith("3 × 7 rounded rectangles")
    assert dialog.picture.sheet is not None
    assert dialog.picture.sheet.pitch_y_mm == pytest.approx(39.5, abs=0.05)
    _type(dialog.inputs, "top_mm", "12")
    assert dialog.picture.sheet.top_mm == 12
    dialog.take.click()
    values = sheet_values(shop, sheet_id)
    assert values["top_mm"] == 12
    assert values["left_mm"] == pytest.approx(9, abs=0.15)


def test_a_sheet_entered_twice_is_told_and_the_first_one_used(
    page: LabelsPage, clock: StandingClock
) -> None:
    box, first = page.run.panel.sheet_box, page.desk.run.sheet_id
    assert not box.use_twin.isVisibleTo(box)
    clock.wait(5)
    box.duplicate.click()
    QApplication.processEvents()
    assert page.desk.run.sheet_id != first
    assert any("“Kraft”" in said for said in box.findings.sentences)
    clock.wait(5)
    box.use_twin.click()
    QApplication.processEvents()
    assert page.desk.run.sheet_id == first
    kept = page.desk.shelf.materials.values()
    assert sorted(one.name for one in kept if one.kind == "sheet") == ["Kraft", "Rounds"]


def _click(page: LabelsPage, index: int) -> None:
    place = page.run.preview.sticker_rect(index).center().toPoint()
    QTest.mouseClick(page.run.preview, Qt.MouseButton.LeftButton, pos=place)
    QApplication.processEvents()


def test_a_click_begins_any_shown_sheet_and_it_stays_in_view(
    page: LabelsPage, clock: StandingClock
) -> None:
    clock.wait(5)
    page.run.next_sheet.click()
    _click(page, 4)
    assert [one.used for one in page.desk.run.begun] == [frozenset({4})]
    assert page.run.sheet_words.text() == "Sheet 1 of 2, begun before"
    clock.wait(5)
    _click(page, 5)
    assert [one.used for one in page.desk.run.begun] == [frozenset({4, 5})]
    assert page.run.preview.used == {4, 5}
    page.workspace.undo()
    page.workspace.undo()
    assert page.desk.run.begun == ()


def test_begun_sheets_are_marked_noted_left_out_and_thrown_away(
    page: LabelsPage, clock: StandingClock
) -> None:
    shop, panel = page.workspace, page.run.panel.begun
    sheet_id = page.desk.run.sheet_id or 0
    begun_sheets.begin_sheet(shop, sheet_id, range(18))
    clock.wait(5)
    panel.begin.click()
    panel.fresh.picture.toggled.emit(0)
    assert [row.words.text() for row in panel.rows] == [
        "3 of 21 stickers free · this run takes 3",
        "20 of 21 stickers free · this run takes 20",
    ]
    clock.wait(5)
    panel.rows[1].picture.toggled.emit(20)
    assert panel.rows[1].picture.used == {0, 20}
    panel.rows[0].large.click()
    assert page.run.preview.used == frozenset(range(18))
    clock.wait(5)
    panel.rows[0].leave.click()
    assert panel.rows[0].words.text() == "3 of 21 stickers free"
    assert page.run.panel.counts.text() == (
        "30 stickers on 2 sheets, 1 of them begun, 10 stay free"
    )
    clock.wait(5)
    panel.rows[0].throw.click()
    assert len(panel.rows) == 1
    shop.undo()
    shop.undo()
    assert [row.leave.isChecked() for row in panel.rows] == [False, False]


def test_another_sheet_has_its_own_drawer(page: LabelsPage) -> None:
    shop, panel = page.workspace, page.run.panel.begun
    begun_sheets.begin_sheet(shop, page.desk.run.sheet_id or 0, {0})
    assert len(panel.rows) == 1
    other = shelf_edit.new_item(shop, "sheet", {}, {"page": "A4", "columns": 2, "rows": 2})
    print_runs.choose_sheet(shop, page.desk.run_id, other)
    assert panel.rows == []


def test_numbers_begin_where_the_person_says(page: LabelsPage, clock: StandingClock) -> None:
    shop, box = page.workspace, page.run.panel.order
    line = page.desk.run.lines[0]
    assert not box.first.isVisibleTo(box)
    at = label_elements.add_element(shop, line.label_id or 0, "text")
    label_elements.change_element(shop, line.label_id or 0, at, {"text": "No. {number} of {of}"})
    assert box.first_words.text().endswith("1 to 30, begin with")
    clock.wait(5)
    box.first.line.setText("twelve")
    box.first.committed.emit("twelve")
    assert box.first.trouble.sentence
    box.first.committed.emit("25")
    assert page.desk.run.lines[0].first_number == 25
    assert box.first_words.text().endswith("25 to 54, begin with")
    page.run.preview.choose(2)
    assert page.run.sticker_text(2).endswith("number 27")


def test_the_order_of_stickers_is_chosen(page: LabelsPage, clock: StandingClock) -> None:
    shop, box = page.workspace, page.run.panel.order
    assert not box.order.isVisibleTo(box)  # one line has no order
    line = page.desk.run.lines[0]
    values = {"label_id": line.label_id, "candle_id": line.candle_id, "lot_code": "A2", "count": 6}
    print_runs.add_line(shop, page.desk.run_id, values)
    assert box.order.isVisibleTo(box)
    assert not box.begins.isVisibleTo(box)
    clock.wait(5)
    box.order.committed.emit("lot")
    assert box.begins.isVisibleTo(box)
    box.begins.committed.emit("sheet")
    assert page.desk.view.sheets == 3  # 30 on two sheets of 21, six on one of their own
    box.order.committed.emit("line")
    assert (page.desk.run.sorted_by, page.desk.run.begins) == ("line", "")
    assert page.desk.view.sheets == 2
