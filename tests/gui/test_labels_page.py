"""The Labels page in a real window over a real file: typed, clicked, printed, undone."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pdfplumber
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit

from app.label_workshop import CIRCLES, THREE_BY_SEVEN, fill_workshop
from documents.samples import MM, png
from wickbench.app import labels, print_runs
from wickbench.app.label_store import stored_labels
from wickbench.app.shelf import load_shelf
from wickbench.domain.catalog import SheetMeasures
from wickbench.gui.labels.gallery import Gallery
from wickbench.gui.labels.labels_page import LABELS, RUN, LabelsPage

if TYPE_CHECKING:
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
