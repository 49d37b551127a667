"""The Labels page in a real window over a real file: typed, clicked, printed, undone."""

from __future__ import annotations

import io
import time
from typing import TYPE_CHECKING, Any

import pdfplumber
import pypdfium2
import pytest
from PIL import Image, ImageChops
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QImage, QPainter
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit

from app.label_workshop import CIRCLES, THREE_BY_SEVEN, fill_workshop
from documents.samples import MM, png
from wickbench.app import calibrations, labels, print_runs, printing, shelf_edit
from wickbench.app.label_store import stored_labels
from wickbench.app.shelf import load_shelf
from wickbench.documents.calibration import crosshairs
from wickbench.domain.catalog import SheetMeasures
from wickbench.gui.labels.calibration_dialog import CalibrationDialog
from wickbench.gui.labels.gallery import Gallery
from wickbench.gui.labels.labels_page import LABELS, RUN, LabelsPage
from wickbench.gui.labels.sheet_painting import paint_sheet
from wickbench.gui.labels.system_print import made_printer, print_drawing

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from gui.conftest import Answers, StandingClock
    from wickbench.app.workspace import Workspace
    from wickbench.gui.fields.form import FieldForm
    from wickbench.gui.main_window import MainWindow

DOTS_PER_MM = 300 / 25.4


@pytest.fixture
def shop(window: MainWindow) -> Workspace:
    assert window.workspace is not None
    return window.workspace


@pytest.fixture
def page(window: MainWindow) -> LabelsPage:
    assert window.workbench is not None
    shown = window.workbench.show_page("labels")
    assert isinstance(shown, LabelsPage)
    QApplication.processEvents()
    return shown


def type_into(form: FieldForm, name: str, text: str, clock: StandingClock) -> None:
    """Type into a field as a person does, and leave it."""
    line = form.fields[name].editor
    assert isinstance(line, QLineEdit)
    clock.wait(5)
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, text)
    QTest.keyClick(line, Qt.Key.Key_Return)
    QApplication.processEvents()


def choose(field: Any, word: str) -> None:  # noqa: ANN401 - any field with a combo box
    at = field.combo.findData(word)
    assert at >= 0, word
    field.combo.setCurrentIndex(at)
    field.combo.activated.emit(at)
    QApplication.processEvents()


def click_sticker(page: LabelsPage, index: int) -> None:
    place = page.run.preview.sticker_rect(index).center().toPoint()
    QTest.mouseClick(page.run.preview, Qt.MouseButton.LeftButton, pos=place)
    QApplication.processEvents()


def enter_sheet(page: LabelsPage, measures: dict[str, object], clock: StandingClock) -> None:
    """A sticker sheet typed in on the page."""
    box = page.run.panel.sheet_box
    clock.wait(5)
    box.new_sheet.click()
    QApplication.processEvents()
    for name, value in measures.items():
        form = next(one for one in (box.name_form, box.across, box.down) if name in one.fields)
        if name in {"page", "shape"}:
            clock.wait(5)
            choose(form.fields[name], str(value))
        else:
            type_into(form, name, f"{value:g}", clock)


def test_an_empty_workshop_says_what_to_do_and_nothing_can_be_printed(page: LabelsPage) -> None:
    assert "Choose a sticker sheet" in page.run.panel.counts.text()
    assert not page.export.isEnabled()
    assert not page.print_button.isEnabled()
    page.tabs.setCurrentIndex(LABELS)
    assert page.editor.look.nothing.isVisibleTo(page)
    assert not page.editor.duplicate.isEnabled()


@pytest.mark.parametrize("measures", [THREE_BY_SEVEN, CIRCLES], ids=["3 × 7 on A4", "24 on Letter"])
def test_a_sheet_is_entered_drawn_and_printed_with_four_stickers_used(
    page: LabelsPage, ask: Answers, clock: StandingClock, tmp_path: Path,
    measures: dict[str, object],
) -> None:  # fmt: skip
    shop = page.workspace
    shop.set_setting("business_name", "Tallow & Tide")
    enter_sheet(page, measures, clock)
    kept = load_shelf(shop).materials[page.desk.run.sheet_id or 0].details
    assert isinstance(kept, SheetMeasures)
    assert {name: getattr(kept, name) for name in measures} == measures
    assert page.run.preview.sheet is not None
    count = page.run.preview.sheet.count
    assert count == (21 if measures is THREE_BY_SEVEN else 24)
    clock.wait(5)
    page.run.panel.new_label.click()
    gallery = page.findChild(Gallery)
    assert gallery is not None
    next(one for one in gallery.tiles if one.objectName() == "design_hush").click()
    page.tabs.setCurrentIndex(RUN)
    QApplication.processEvents()
    model = page.run.panel.model
    label = stored_labels(shop)[0]
    clock.wait(5)
    assert model.setData(model.index(0, 0), str(label.id))
    clock.wait(5)
    count_at = next(at for at, one in enumerate(model.columns) if one.key == "count")
    assert model.setData(model.index(0, count_at), "6")
    for index in range(4):
        clock.wait(5)
        click_sticker(page, index)
    assert page.desk.run.used == {0, 1, 2, 3}
    assert page.run.panel.used.text() == "4"
    words = f"6 stickers on 1 sheet, {count - 10} stay free"
    assert page.run.panel.counts.text() == words
    ask.path = tmp_path / "labels.pdf"
    page.export.click()
    assert ask.told == []
    with pdfplumber.open(ask.path) as document:
        assert len(document.pages) == 1
        tops = sorted({round(one["top"] * MM, 1) for one in document.pages[0].chars})
        lefts = [one["x0"] * MM for one in document.pages[0].chars if one["top"] * MM < tops[0] + 6]
    fourth = page.run.preview.sheet.sticker(4)
    assert tops[0] > fourth.y_mm
    assert min(lefts) > fourth.x_mm - 0.01
    assert stored_labels(shop)[0].frozen


def test_everything_done_on_the_page_is_undone_and_redone(
    page: LabelsPage, shop: Workspace, window: MainWindow, clock: StandingClock
) -> None:
    enter_sheet(page, THREE_BY_SEVEN, clock)
    page.desk.load()
    labels.new_label(shop, "sill", page.desk.sheet)
    clock.wait(5)
    click_sticker(page, 7)
    page.run.preview.setFocus()
    clock.wait(5)
    QTest.keyClick(page.run.preview, Qt.Key.Key_Right)
    QTest.keyClick(page.run.preview, Qt.Key.Key_Space)
    assert page.desk.run.used == {7, 8}

    def state() -> tuple[object, ...]:
        runs = tuple(print_runs.print_run(shop, key) for key in print_runs.run_ids(shop))
        return runs, stored_labels(shop), dict(load_shelf(shop).materials)

    states = [state()]
    while shop.may_undo:
        window.undo()
        QApplication.processEvents()
        states.append(state())
    assert states[-1] == ((), (), {})
    assert page.run.preview.sheet is None
    for wanted in reversed(states[:-1]):
        window.redo()
        QApplication.processEvents()
        assert state() == wanted
    assert page.run.preview.used == {7, 8}


def test_nonsense_in_a_measure_gets_a_sentence_and_is_kept(
    page: LabelsPage, clock: StandingClock
) -> None:
    enter_sheet(page, THREE_BY_SEVEN, clock)
    box = page.run.panel.sheet_box
    type_into(box.across, "columns", "three", clock)
    assert box.across.fields["columns"].trouble.sentence
    assert box.across.fields["columns"].text() == "three"
    type_into(box.across, "columns", "4", clock)
    assert any("right edge" in one for one in box.findings.sentences)
    assert any("right edge" in one for one in page.run.panel.findings.sentences)
    assert not page.export.isEnabled()
    assert page.run.preview.sheet is not None  # still drawn, so that one sees why
    type_into(box.across, "columns", "3", clock)
    assert not any("right edge" in one for one in page.run.panel.findings.sentences)
    page.run.panel.used.line.setText("many")
    page.run.panel.used.line.editingFinished.emit()
    assert page.run.panel.used.trouble.sentence
    assert page.run.panel.used.text() == "many"


def test_the_sheet_is_drawn_while_its_measures_are_typed(
    page: LabelsPage, clock: StandingClock
) -> None:
    enter_sheet(page, THREE_BY_SEVEN, clock)
    line = page.run.panel.sheet_box.down.fields["rows"].editor
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, "5")
    assert page.run.preview.sheet is not None
    assert page.run.preview.sheet.rows == 5
    QTest.keyClick(line, Qt.Key.Key_Escape)
    QApplication.processEvents()
    assert page.run.preview.sheet.rows == 7


@pytest.fixture
def filled(page: LabelsPage, shop: Workspace) -> LabelsPage:
    """The page with a run of ten labels for one candle, first four stickers used."""
    kept = fill_workshop(shop)
    page.desk.run_id = print_runs.choose_sheet(shop, None, kept.three_by_seven)
    page.desk.load()
    label = labels.new_label(shop, "hush", page.desk.sheet)
    values = {"label_id": label, "candle_id": kept.bramble, "lot_code": "26-332-A1", "count": 10}
    print_runs.add_line(shop, page.desk.run_id, values)
    print_runs.set_used(shop, page.desk.run_id, range(4))
    QApplication.processEvents()
    return page


def test_a_chosen_sticker_says_what_is_on_it_and_opens_its_label(filled: LabelsPage) -> None:
    filled.run.marking.setChecked(False)
    click_sticker(filled, 4)
    assert filled.desk.run.used == {0, 1, 2, 3}
    assert "Hush" in filled.run.sticker_words.text()
    assert "Bramble & smoke" in filled.run.sticker_words.text()
    assert filled.side_panel.vessel_heading.text()
    filled.run.preview.setFocus()
    QTest.keyClick(filled.run.preview, Qt.Key.Key_Return)
    assert filled.tabs.currentIndex() == LABELS
    assert filled.editor.stored is not None
    assert filled.editor.stored.name == "Hush"


def test_an_element_is_edited_with_the_preview_following(
    filled: LabelsPage, shop: Workspace, clock: StandingClock
) -> None:
    filled.show_record(stored_labels(shop)[0].id)
    filled.editor.elements.choose(1)
    panel = filled.element_panel
    note: Any = panel.forms["text"].fields["text"].editor
    was = note.toPlainText()
    note.setFocus()
    note.selectAll()
    QTest.keyClicks(note, "Hand made")
    laid = filled.editor.look.preview.laid
    assert laid is not None
    assert laid.texts[0].text == "HAND MADE"
    assert getattr(stored_labels(shop)[0].design.elements[1], "text", "") == was
    panel.insert_field("net_weight")
    QApplication.processEvents()
    text = getattr(stored_labels(shop)[0].design.elements[1], "text", "")
    assert text == "Hand made{net weight}"
    type_into(panel.forms["text"], "size_pt", "12", clock)
    assert getattr(stored_labels(shop)[0].design.elements[1], "size_pt", 0) == 12.0
    type_into(panel.forms["text"], "colour", "reddish", clock)
    assert "no colour" in panel.forms["text"].fields["colour"].trouble.sentence
    clock.wait(5)
    before = stored_labels(shop)[0].design.elements[1]
    filled.editor.look.preview.setFocus()
    QTest.keyClick(filled.editor.look.preview, Qt.Key.Key_Down)
    after = stored_labels(shop)[0].design.elements[1]
    assert after.y_mm == pytest.approx(before.y_mm + 0.5)
    shop.undo()
    assert stored_labels(shop)[0].design.elements[1] == before


def test_elements_are_added_ordered_and_taken_off(filled: LabelsPage, shop: Workspace) -> None:
    filled.show_record(stored_labels(shop)[0].id)
    editor = filled.editor
    count = len(stored_labels(shop)[0].design.elements)
    for kind in ("picture", "frame", "line", "text"):
        editor.elements.add_element(kind)
        assert editor.at == len(stored_labels(shop)[0].design.elements) - 1
        assert kind in filled.element_panel.forms
        assert filled.element_panel.forms[kind].isVisibleTo(filled)
    editor.elements.behind.click()
    assert editor.at == count + 2
    editor.elements.take_off.click()
    assert len(stored_labels(shop)[0].design.elements) == count + 3
    editor.duplicate.click()
    assert [one.name for one in stored_labels(shop)] == ["Hush", "Hush copy"]
    editor.remove.click()
    assert [one.name for one in stored_labels(shop)] == ["Hush"]


def test_a_damaged_picture_is_told_and_a_good_one_is_shown(
    filled: LabelsPage, shop: Workspace, ask: Answers, tmp_path: Path
) -> None:
    filled.show_record(stored_labels(shop)[0].id)
    filled.editor.elements.add_element("picture")
    ask.path = tmp_path / "bad.png"
    ask.path.write_bytes(b"\x89PNG\r\n\x1a\nnot really")
    filled.element_panel.choose_picture.click()
    sentence = (
        "This picture is damaged or of an unknown kind. Open it in a picture program, save it as "
        "PNG or JPEG, and choose it again."
    )
    assert ask.told == [sentence]
    ask.path.write_bytes(png(400, 300))
    filled.element_panel.choose_picture.click()
    assert len(ask.told) == 1
    laid = filled.editor.look.preview.laid
    assert laid is not None
    assert any(type(draw).__name__ == "ImageDraw" for draw in laid.draws)


def test_a_caution_sticker_gets_languages_region_and_own_words(
    filled: LabelsPage, shop: Workspace
) -> None:
    filled.side_panel.make.click()
    QApplication.processEvents()
    panel = filled.caution_panel
    assert panel.isVisibleTo(filled)
    assert panel.source.text()
    for code in ("de", "fr"):
        panel.languages[code].click()
    choose(panel.region, "UK")
    wish = next(one.caution for one in stored_labels(shop) if one.caution)
    assert (wish.region, wish.languages) == ("UK", ("en", "de", "fr"))
    row = panel.model.row_of(("caution.children", "en"))
    assert panel.model.setData(panel.model.index(row, 0), "Not for small hands.")
    assert panel.model.at(panel.model.index(row, 0)).own  # type: ignore[union-attr]
    drawn = filled.editor.look.preview.laid
    assert drawn is not None
    assert "small hands" in " ".join(" ".join(one.text for one in drawn.texts).split())
    panel.languages["en"].click()
    panel.languages["de"].click()
    panel.languages["fr"].click()  # the last one stays
    assert panel.languages["fr"].isChecked()


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
