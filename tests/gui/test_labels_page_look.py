"""Paper, printer and the look of the Labels page: pictures, narrow windows, names, days."""

from __future__ import annotations

import io
import time
from typing import TYPE_CHECKING

import pypdfium2
import pytest
from PIL import Image, ImageChops
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QImage, QPainter
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit

from app.label_workshop import THREE_BY_SEVEN
from gui.test_labels_page import DOTS_PER_MM, choose, filled, page, shop
from wickbench.app import calibrations, labels, print_runs, printing, shelf_edit
from wickbench.documents.calibration import crosshairs
from wickbench.gui.labels.calibration_dialog import CalibrationDialog
from wickbench.gui.labels.labels_page import LABELS, RUN, LabelsPage
from wickbench.gui.labels.sheet_painting import paint_sheet
from wickbench.gui.labels.system_print import made_printer, print_drawing

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from gui.conftest import Answers, StandingClock
    from wickbench.app.workspace import Workspace
    from wickbench.gui.main_window import MainWindow

__all__ = ["filled", "page", "shop"]


def test_screen_and_pdf_show_the_same(filled: LabelsPage, shop: Workspace, tmp_path: Path) -> None:
    view = filled.desk.view
    path = printing.write_labels(shop, view, tmp_path / "labels.pdf")
    wide, high = round(210 * DOTS_PER_MM), round(297 * DOTS_PER_MM)
    image = QImage(wide, high, QImage.Format.Format_RGB888)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    # The labels alone: edges of stickers are on the screen only.
    from wickbench.documents.sheet_layout import draw_sheets
    from wickbench.gui.painting import ScreenSurface

    surface = ScreenSurface(painter, DOTS_PER_MM)
    assert view.pages is not None
    draw_sheets(surface, view.pages)
    surface.finish()
    painter.end()
    rows = bytes(image.constBits())
    screen = Image.frombytes("RGB", (wide, high), rows, "raw", "RGB", image.bytesPerLine(), 1)
    document = pypdfium2.PdfDocument(path)
    paper = document[0].render(scale=300 / 72).to_pil().convert("RGB").resize((wide, high))
    document.close()
    difference = ImageChops.difference(screen.convert("L"), paper.convert("L"))
    strong = difference.point(lambda one: 255 if one > 200 else 0).histogram()[255]
    ink = screen.convert("L").point(lambda one: 255 if one < 128 else 0).histogram()[255]
    assert ink > 5_000
    # Two renderers smooth edges in their own ways; a shift of one dot would differ everywhere.
    assert strong < ink * 0.02
    boxes = [ImageChops.invert(one.convert("L")).point(lambda v: 255 if v > 90 else 0).getbbox()
             for one in (screen, paper)]  # fmt: skip
    assert boxes[0] == pytest.approx(boxes[1], abs=1)


def test_a_sheet_of_200_stickers_is_painted_without_lag(
    filled: LabelsPage, shop: Workspace
) -> None:
    measures: dict[str, object] = {
        "page": "A4", "columns": 10, "rows": 20, "sticker_w_mm": 18.0, "sticker_h_mm": 12.0,
        "left_mm": 8.0, "top_mm": 10.0, "pitch_x_mm": 19.5, "pitch_y_mm": 13.8,
    }  # fmt: skip
    sheet = shelf_edit.new_item(shop, "sheet", {}, measures)
    print_runs.choose_sheet(shop, filled.desk.run_id, sheet)
    print_runs.change_line(shop, filled.desk.run.lines[0].id, {"count": 200})
    QApplication.processEvents()
    # The label is larger than such a sticker, which is told; it is painted all the same.
    image = QImage(700, 990, QImage.Format.Format_RGB32)
    took = []
    for _ in range(3):
        painter = QPainter(image)
        started = time.process_time()
        paint_sheet(painter, 3.3, filled.desk.view.sheet, filled.desk.view.pages)
        took.append(time.process_time() - started)
        painter.end()
    assert filled.desk.view.count == 200
    assert min(took) < 0.5


def test_the_system_printer_gets_the_same_page(
    filled: LabelsPage, shop: Workspace, tmp_path: Path
) -> None:
    view = filled.desk.view
    printer = made_printer(210.0, 297.0, "Labels")
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    assert print_drawing(printer, printing.run_drawing(shop, view))
    ours = printing.write_labels(shop, view, tmp_path / "labels.pdf")
    boxes = []
    for path in (tmp_path / "printed.pdf", ours):
        document = pypdfium2.PdfDocument(io.BytesIO(path.read_bytes()))
        assert len(document) == 1
        drawn = document[0].render(scale=300 / 72).to_pil().convert("L")
        boxes.append(ImageChops.invert(drawn).point(lambda one: 255 if one > 90 else 0).getbbox())
        document.close()
    # Qt rounds the page to whole points: 1/72 in is 4 dots at 300 dpi.
    assert boxes[0] == pytest.approx(boxes[1], abs=4)


def test_a_printers_position_is_measured_and_kept(
    filled: LabelsPage, shop: Workspace, ask: Answers, tmp_path: Path
) -> None:
    filled.run.panel.position.click()
    dialog = filled.findChild(CalibrationDialog)
    assert dialog is not None
    ask.path = tmp_path / "calibration.pdf"
    dialog.page_button.click()
    assert ask.path.exists()
    dialog.keep.click()
    assert dialog.findings.sentences  # says what is missing
    for pair, (x, y) in zip(dialog.fields, crosshairs(210.0, 297.0), strict=True):
        pair[0].line.setText(f"{x + 1:g}")
        pair[1].line.setText(f"{y - 0.5:g}")
    dialog.keep.click()
    known = calibrations.kept_calibration(shop, "", "")
    assert known is not None
    assert known.fitted is not None
    assert known.fitted.shift_x_mm == pytest.approx(1.0, abs=0.01)
    shop.undo()
    assert calibrations.kept_calibration(shop, "", "") is None


def test_real_size_and_several_sheets(filled: LabelsPage, shop: Workspace) -> None:
    print_runs.change_line(shop, filled.desk.run.lines[0].id, {"count": 40})
    QApplication.processEvents()
    assert filled.run.sheet_words.text() == "Sheet 1 of 3, begun before"
    filled.run.next_sheet.click()
    assert filled.run.sheet_words.text() == "Sheet 2 of 3"
    assert filled.run.preview.used == frozenset()
    filled.run.real_size.click()
    preview = filled.run.preview
    assert preview.pixels_per_mm == pytest.approx(preview.physicalDpiX() / 25.4)
    assert preview.width() >= 210 * preview.pixels_per_mm


def test_the_page_needs_no_sideways_scrolling_at_1024(
    filled: LabelsPage, window: MainWindow
) -> None:
    window.resize(1024, 768)
    QApplication.processEvents()
    for tab in (RUN, LABELS):
        filled.tabs.setCurrentIndex(tab)
        QApplication.processEvents()
        assert filled.horizontalScrollBar().maximum() == 0
        assert filled.main_column.width() <= filled.viewport().width()
        corner = filled.export.mapTo(filled.viewport(), QPoint(filled.export.width(), 0))
        assert corner.x() <= filled.viewport().width()


def test_the_links_under_the_checks_keep_their_words_where_both_have_no_room_abreast(
    filled: LabelsPage, window: MainWindow
) -> None:
    window.resize(1024, 768)
    filled.tabs.setCurrentIndex(RUN)
    panel = filled.run.panel
    links = (panel.position, panel.remove_run)
    panel.setFixedWidth(sum(link.sizeHint().width() for link in links) - 8)
    QApplication.processEvents()
    for link in links:
        assert link.width() >= link.sizeHint().width()


def test_labels_and_sheets_are_found_by_ctrl_k(
    filled: LabelsPage, shop: Workspace, window: MainWindow
) -> None:
    from wickbench.app.search import find

    assert window.workbench is not None
    hit = next(one for one in find(shop, "Hush") if one.icon == "labels")
    window.workbench.go(hit.place, hit.record)
    assert filled.tabs.currentIndex() == LABELS
    assert filled.editor.label_id == hit.record
    sheet = next(one for one in find(shop, "Kraft") if one.icon == "sheet")
    assert sheet.place in {*window.workbench.docks, *window.workbench.pages}


def test_an_earlier_print_run_is_chosen_again(filled: LabelsPage, shop: Workspace) -> None:
    panel = filled.run.panel
    assert not panel.runs.isVisibleTo(filled)
    first = filled.desk.run
    panel.new_run.click()
    QApplication.processEvents()
    assert filled.desk.run.lines == ()
    assert filled.desk.run.sheet_id == first.sheet_id
    assert panel.runs.isVisibleTo(filled)
    choose(panel.runs, str(first.id))
    assert filled.desk.run == first
    assert filled.run.preview.used == {0, 1, 2, 3}
    panel.remove_run.click()
    QApplication.processEvents()
    assert filled.desk.run_id != first.id
    shop.undo()
    assert first.id in print_runs.run_ids(shop)


def test_what_was_written_is_said_and_a_folder_that_is_gone_is_told(
    filled: LabelsPage, ask: Answers, tmp_path: Path
) -> None:
    ask.path = tmp_path / "gone" / "labels.pdf"
    filled.export.click()
    assert len(ask.told) == 1
    assert "not there any more" in ask.told[0]
    ask.path = tmp_path / "labels.pdf"
    filled.export.click()
    assert filled.run.panel.done.text() == (
        "Print 1 is in labels.pdf. Print it at actual size. "
        "7 stickers of the last sheet stay free; the sheet is kept as begun."
    )
    ask.path = tmp_path / "proof.pdf"
    filled.proof.click()
    assert ask.path.exists()


# -- narrow, named, dated --------------------------------------------------------------------------
def laid_out(page: LabelsPage, width: int) -> None:
    page.resize(width, 900)
    QApplication.processEvents()


@pytest.fixture
def loose(workspace: Workspace, ask: Answers, qapp: QApplication) -> Iterator[LabelsPage]:
    """The page by itself, to be as narrow as one likes, with a run of one line."""
    made = LabelsPage(workspace, ask)
    key = labels.new_label(workspace, "hush", None)
    values = {"label_id": key, "count": 4, "lot_code": "26-332-A1", "poured_on": "2026-11-28"}
    made.desk.run_id, _ = print_runs.add_line(workspace, None, values)
    sheet = shelf_edit.new_item(workspace, "sheet", {"name": "3 × 7"}, THREE_BY_SEVEN)
    print_runs.choose_sheet(workspace, made.desk.run_id, sheet)
    made.refresh(None)
    made.show()
    yield made
    made.release()
    made.close()
    # A page that stays would be dressed anew with every window of the tests to come.
    made.deleteLater()
    qapp.sendPostedEvents(made, QEvent.Type.DeferredDelete)


@pytest.mark.parametrize(("width", "stacked"), [(480, True), (700, True), (1300, False)])
def test_sheet_and_panel_never_lie_over_each_other(
    loose: LabelsPage,
    width: int,
    stacked: bool,  # noqa: FBT001 - a row of the table
) -> None:
    laid_out(loose, width)
    run = loose.run
    assert run.stacked == stacked
    panel = run.panel.geometry()
    for part in (run.area, run.marking):
        assert not panel.intersects(part.geometry())
    assert run.minimumSizeHint().width() <= run.width()


@pytest.mark.parametrize("width", [480, 700, 1300])
def test_no_button_loses_its_words(loose: LabelsPage, width: int) -> None:
    laid_out(loose, width)
    for one in (loose.proof, loose.print_button, loose.export, loose.run.panel.new_run):
        needed = one.fontMetrics().horizontalAdvance(one.text())
        assert one.width() >= needed + 8, one.text()


def test_a_print_run_is_renamed_in_its_field(
    loose: LabelsPage, workspace: Workspace, clock: StandingClock
) -> None:
    panel = loose.run.panel
    assert panel.name_words.isVisibleTo(panel)
    assert panel.name_words.text() == "Name of this print run"
    line = panel.name.editor
    assert isinstance(line, QLineEdit)
    clock.wait(5)
    line.setFocus()
    QTest.keyClicks(line, "Winter fair")
    QTest.keyClick(line, Qt.Key.Key_Return)
    run = loose.desk.run_id
    assert run is not None
    assert print_runs.print_run(workspace, run).name == "Winter fair"
    workspace.undo()
    assert print_runs.print_run(workspace, run).name == ""
    assert panel.name.text() == ""


def test_the_day_of_pouring_stands_in_the_table_and_can_be_changed(
    loose: LabelsPage, workspace: Workspace
) -> None:
    laid_out(loose, 760)
    model = loose.run.panel.model
    at = next(at for at, one in enumerate(model.columns) if one.key == "poured_on")
    assert not loose.run.panel.lines.isColumnHidden(at)
    assert model.index(0, at).data() == "28 November 2026"
    assert model.setData(model.index(0, at), "2026-11-27", Qt.ItemDataRole.EditRole)
    run = loose.desk.run_id
    assert run is not None
    (line,) = print_runs.print_run(workspace, run).lines
    assert line.poured_on == "2026-11-27"
