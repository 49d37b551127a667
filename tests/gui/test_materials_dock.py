"""The materials dock and the stock panel, used through their own widgets on a real file."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QWidget

from wickbench.app import shelf_edit, stock
from wickbench.app.material_fields import DETAIL_FIELDS, KIND_NAMES
from wickbench.gui.materials.materials_dock import MaterialsDock
from wickbench.gui.materials.sheet_drawing import SheetDrawing
from wickbench.gui.materials.stock_panel import StockPanel
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gui.conftest import Answers
    from wickbench.app.workspace import Workspace


pytestmark = pytest.mark.usefixtures("qapp")


@pytest.fixture
def dock(workspace: Workspace, ask: Answers) -> Iterator[MaterialsDock]:
    made = MaterialsDock(workspace, ask)
    made.resize(310, 760)
    made.show()
    yield made
    _forget(made)


@pytest.fixture
def panel(workspace: Workspace) -> Iterator[StockPanel]:
    made = StockPanel(workspace)
    made.resize(310, 600)
    made.show()
    yield made
    _forget(made)


def _forget(widget: QWidget) -> None:
    widget.close()
    widget.deleteLater()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def add(dock: MaterialsDock, kind: str) -> int:
    """Choose a kind in the menu of *New*."""
    assert dock.list_pane is not None
    (action,) = [
        one
        for one in dock.list_pane.new.menu().actions()
        if one.text() == dock.texts(KIND_NAMES[kind])
    ]
    action.trigger()
    assert dock.record is not None
    return dock.record


def type_into(dock: MaterialsDock, name: str, text: str) -> QLineEdit:
    """Type into a field and leave it with Enter."""
    editor = dock.material_editor
    form = editor.details if editor.details and name in editor.details.fields else editor.names
    line = form.fields[name].editor
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, text)
    QTest.keyClick(line, Qt.Key.Key_Return)
    return line


def shown(dock: MaterialsDock) -> list[tuple[str, ...]]:
    assert dock.list_pane is not None
    model = dock.list_pane.model
    return [tuple(column.show(row) for column in model.columns) for row in model.rows]


def stored(dock: MaterialsDock, table: str, key: int) -> dict[str, object]:
    with dock.workspace.read() as connection:
        return records.fetch(connection, table, key)


# -- the list ------------------------------------------------------------------------------------
def test_an_empty_shelf_says_what_belongs_there(dock: MaterialsDock) -> None:
    assert dock.editor_pane is not None
    assert dock.editor_pane.empty.isVisible()
    assert not dock.material_editor.isVisible()
    assert "wax" in dock.editor_pane.empty.text()
    assert dock.editor_pane.first.menu().actions()


@pytest.mark.parametrize("kind", list(KIND_NAMES))
def test_each_kind_is_made_from_the_menu_and_shows_its_own_fields(
    dock: MaterialsDock, kind: str
) -> None:
    key = add(dock, kind)
    assert stored(dock, "item", key)["kind"] == kind
    details = dock.material_editor.details
    assert details is not None
    assert set(details.fields) == {spec.name for spec in DETAIL_FIELDS[kind]}
    assert details.isVisible()
    assert dock.material_editor.names.fields["name"].editor.hasFocus()
    dock.workspace.undo()
    assert shown(dock) == []


def test_the_list_tells_name_kind_and_what_is_there(dock: MaterialsDock) -> None:
    soy = shelf_edit.new_item(dock.workspace, "wax", {"name": "Soft soy"})
    shelf_edit.new_item(dock.workspace, "fragrance", {"name": "Fig"})
    stock.buy(dock.workspace, soy, 4200)
    assert shown(dock) == [("Fig", "Oil", "unknown"), ("Soft soy", "Wax", "4.2 kg")]


def test_kind_filter_and_search_narrow_the_list(dock: MaterialsDock) -> None:
    shelf_edit.new_item(dock.workspace, "wax", {"name": "Soft", "supplier": "Mill"})
    shelf_edit.new_item(dock.workspace, "wick", {"name": "Cedar", "code": "MILL-7"})
    assert dock.kind_filter is not None
    assert dock.list_pane is not None
    dock.list_pane.search.setText("mill")
    assert len(shown(dock)) == 2
    dock.kind_filter.setCurrentIndex(dock.kind_filter.findData("wick"))
    dock.kind_filter.activated.emit(dock.kind_filter.currentIndex())
    assert [row[0] for row in shown(dock)] == ["Cedar"]


def test_a_new_thing_is_shown_whatever_the_filter_hides(dock: MaterialsDock) -> None:
    add(dock, "wick")
    assert dock.kind_filter is not None
    dock.kind_filter.setCurrentIndex(dock.kind_filter.findData("wick"))
    dock.kind_filter.activated.emit(dock.kind_filter.currentIndex())
    key = add(dock, "wax")
    assert dock.record == key
    assert len(shown(dock)) == 2
    assert dock.kind_filter.currentData() == ""


# -- the form ------------------------------------------------------------------------------------
def test_a_wax_is_typed_in_with_estimates_until_overwritten(dock: MaterialsDock) -> None:
    key = add(dock, "wax")
    type_into(dock, "name", "Soft soy")
    details = dock.material_editor.details
    assert details is not None
    choice = details.fields["wax_class"].editor
    assert isinstance(choice, QComboBox)
    choice.setCurrentIndex(choice.findData("soy"))
    choice.activated.emit(choice.currentIndex())
    density = details.fields["liquid_g_per_ml"].editor
    assert isinstance(density, QLineEdit)
    assert density.text() == ""
    assert density.placeholderText() == "0.855–0.885 g/mL (estimate)"
    type_into(dock, "heat_to_c", "185 F")
    assert stored(dock, "wax", key)["heat_to_c"] == pytest.approx(85.0)
    assert stored(dock, "wax", key)["liquid_g_per_ml"] is None
    assert stored(dock, "item", key)["name"] == "Soft soy"
    assert shown(dock)[0][0] == "Soft soy"
    assert dock.editor_pane is not None
    assert dock.editor_pane.title.text() == "Soft soy"


def test_findings_follow_the_typing_before_anything_is_stored(dock: MaterialsDock) -> None:
    key = add(dock, "fragrance")
    details = dock.material_editor.details
    assert details is not None
    line = details.fields["flash_c"].editor
    assert isinstance(line, QLineEdit)
    line.setFocus()
    QTest.keyClicks(line, "58")
    sentences = dock.material_editor.findings.sentences
    assert any(sentence.startswith("Its vapour can catch fire from 58") for sentence in sentences)
    assert "1 to watch" in dock.material_editor.summary.text()
    assert stored(dock, "fragrance", key)["flash_c"] is None


def test_a_wooden_wick_trimmed_like_cotton_is_watched(dock: MaterialsDock) -> None:
    key = shelf_edit.new_item(
        dock.workspace, "wick", {"name": "Cedar"}, {"wick_kind": "wooden", "trim_mm": 6.0}
    )
    dock.show_record(key)
    assert any("3–5 mm" in one for one in dock.material_editor.findings.sentences)


def test_what_cannot_be_read_keeps_its_text_and_gets_a_sentence(dock: MaterialsDock) -> None:
    key = add(dock, "wax")
    other = add(dock, "wax")
    dock.show_record(key)
    type_into(dock, "heat_to_c", "hot")
    details = dock.material_editor.details
    assert details is not None
    assert details.fields["heat_to_c"].trouble.sentence
    dock.show_record(other)
    assert details.fields["heat_to_c"].text() == ""
    dock.show_record(key)
    assert details.fields["heat_to_c"].text() == "hot"
    assert details.fields["heat_to_c"].trouble.sentence


def test_a_name_can_be_emptied(dock: MaterialsDock) -> None:
    add(dock, "lid")
    line = type_into(dock, "name", "Bamboo")
    line.selectAll()
    QTest.keyClick(line, Qt.Key.Key_Backspace)
    QTest.keyClick(line, Qt.Key.Key_Return)
    assert shown(dock)[0][0] == "Lid without a name"


def test_a_sheet_is_drawn_as_it_is_typed(dock: MaterialsDock) -> None:
    values = {"page": "A4", "columns": 3, "rows": 7, "sticker_w_mm": 60.0, "sticker_h_mm": 36.0}
    key = shelf_edit.new_item(dock.workspace, "sheet", {"name": "Ours"}, values)
    dock.show_record(key)
    drawing = dock.material_editor.drawing
    assert drawing.isVisible()
    assert drawing.accessibleName() == "3 by 7 stickers on a page"
    details = dock.material_editor.details
    assert details is not None
    line = details.fields["columns"].editor
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, "5")
    assert drawing.accessibleName().startswith("5 by 7")
    assert any("right edge" in one for one in dock.material_editor.findings.sentences)
    dock.show_record(add(dock, "wax"))
    assert not drawing.isVisible()


def test_the_drawing_is_to_scale(workspace: Workspace) -> None:
    drawing = SheetDrawing()
    drawing.resize(400, 240)
    one = {"page": "free", "page_w_mm": 100.0, "page_h_mm": 100.0, "left_mm": 25.0, "top_mm": 25.0}
    drawing.show_values(workspace.texts, {**one, "sticker_w_mm": 50.0, "sticker_h_mm": 50.0})
    image = drawing.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
    middle = image.pixel(200, 120)
    inside = [x for x in range(400) if image.pixel(x, 120) == middle]
    # The page is 232 pixels (240 less two edges of 4) for 100 mm, so 50 mm are 116 pixels.
    assert len(inside) == pytest.approx(116, abs=3)
    _forget(drawing)


def test_units_change_at_once(dock: MaterialsDock) -> None:
    key = shelf_edit.new_item(dock.workspace, "wax", {"name": "Soft"}, {"heat_to_c": 85.0})
    stock.buy(dock.workspace, key, 453.59237)
    dock.show_record(key)
    dock.workspace.set_setting("temperature_unit", "°F")
    dock.workspace.set_setting("mass_unit", "lb oz")
    details = dock.material_editor.details
    assert details is not None
    assert details.fields["heat_to_c"].text() == "185 °F"
    assert shown(dock)[0][2].startswith("1 lb")
    assert dock.material_editor.stock.on_hand.text().startswith("On hand 1 lb")


# -- duplicate, remove, put away -----------------------------------------------------------------
def test_duplicate_and_remove_with_undo(dock: MaterialsDock) -> None:
    key = shelf_edit.new_item(dock.workspace, "wax", {"name": "Soft"})
    dock.show_record(key)
    assert dock.editor_pane is not None
    dock.editor_pane.duplicate.click()
    assert [row[0] for row in shown(dock)] == ["Soft", "Soft (copy)"]
    dock.editor_pane.remove.click()
    assert [row[0] for row in shown(dock)] == ["Soft"]
    assert dock.notice.isVisible()
    assert "Soft (copy) was removed" in dock.notice.text()
    dock.workspace.undo()
    assert len(shown(dock)) == 2


def test_what_is_in_use_is_put_away_and_brought_back(dock: MaterialsDock) -> None:
    key = shelf_edit.new_item(dock.workspace, "wax", {"name": "Soft"})
    stock.buy(dock.workspace, key, 1000)
    dock.show_record(key)
    assert dock.put_away_too is not None
    assert dock.editor_pane is not None
    assert not dock.put_away_too.isVisible()
    dock.editor_pane.remove.click()
    assert shown(dock) == []
    assert "put away" in dock.notice.text()
    assert dock.put_away_too.isVisible()
    dock.put_away_too.click()
    assert shown(dock) == [("Soft", "Wax", "put away")]
    assert dock.material_editor.put_away.isVisible()
    dock.material_editor.bring_back.click()
    assert shown(dock) == [("Soft", "Wax", "1 kg")]
    assert not dock.material_editor.put_away.isVisible()
