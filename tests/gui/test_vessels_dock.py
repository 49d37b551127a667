"""The vessels dock with real widgets over a real file: typed, pasted, removed, undone."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QAbstractButton, QApplication, QLineEdit, QMainWindow, QWidget

from wickbench.app import shelf_edit, vessel_parts
from wickbench.app.shelf import load_shelf
from wickbench.app.vessel_tables import DIAMETERS, LINE_WEIGHINGS
from wickbench.gui.tables.row_model import LOOK_ROLE
from wickbench.gui.theme import apply_theme
from wickbench.gui.vessels.vessels_dock import VesselsDock
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot

    from gui.conftest import Answers
    from wickbench.app.workspace import Workspace
    from wickbench.gui.vessels.measure_table import MeasureTable
    from wickbench.gui.vessels.vessel_editor import VesselEditor

NARROW = 310


@pytest.fixture
def dock(qtbot: QtBot, workspace: Workspace, ask: Answers) -> Iterator[VesselsDock]:
    window = QMainWindow()
    qtbot.addWidget(window)
    made = VesselsDock(workspace, ask)
    window.addDockWidget(Qt.DockWidgetArea.LeftDockWidgetArea, made)
    window.resize(NARROW, 700)
    with qtbot.waitActive(window):
        window.show()
    yield made
    made.release()
    window.close()


@pytest.fixture
def jar(workspace: Workspace) -> int:
    details = {"vessel_kind": "jar", "height_mm": 85.0, "fill_mm": 66.0, "nominal_ml": 300.0}
    key = shelf_edit.new_item(workspace, "vessel", {"name": "Amber tumbler"}, details)
    vessel_parts.paste_parts(workspace, DIAMETERS, key, [["0", "64"], ["85", "76"]])
    return key


def editor_of(dock: VesselsDock) -> VesselEditor:
    assert dock.editor is not None
    return dock.editor


def enter(qtbot: QtBot, editor: QWidget, text: str, key: Qt.Key = Qt.Key.Key_Return) -> None:
    """Type and leave the cell; the view takes Enter in its next turn."""
    qtbot.keyClicks(editor, text)
    qtbot.keyClick(editor, key)
    QApplication.processEvents()


def type_in(qtbot: QtBot, table: MeasureTable, row: int, column: int, text: str) -> None:
    """Go to a cell, type, press Enter."""
    index = table.model.index(row, column)
    table.table.setFocus()
    table.table.setCurrentIndex(index)
    table.table.edit(index)
    editor = QApplication.focusWidget()
    assert isinstance(editor, QLineEdit)
    editor.clear()
    enter(qtbot, editor, text)


def test_an_empty_dock_offers_the_first_vessel(qtbot: QtBot, dock: VesselsDock) -> None:
    assert dock.editor_pane is not None
    assert dock.editor_pane.empty.isVisible()
    qtbot.mouseClick(dock.editor_pane.first, Qt.MouseButton.LeftButton)
    editor = editor_of(dock)
    name = editor.first.fields["name"].editor
    assert QApplication.focusWidget() is name
    qtbot.keyClicks(name, "Tin & lid")
    qtbot.keyClick(name, Qt.Key.Key_Return)
    assert dock.editor_pane.title.text() == "Tin & lid"
    assert "Nobody is named who rated" in " ".join(editor.findings.sentences)
    assert not editor.picture.isVisible()


def test_a_vessel_is_measured_by_keyboard(
    qtbot: QtBot, dock: VesselsDock, workspace: Workspace, jar: int
) -> None:
    dock.show_record(jar)
    editor = editor_of(dock)
    readings = (("212.4", "465.8"), ("209,8", "465"), ("214.1 g", "466.9"))
    for number, (empty, filled) in enumerate(readings):
        qtbot.mouseClick(editor.line.add, Qt.MouseButton.LeftButton)
        cell = QApplication.focusWidget()
        assert isinstance(cell, QLineEdit)
        enter(qtbot, cell, empty, Qt.Key.Key_Tab)
        cell = QApplication.focusWidget()
        assert isinstance(cell, QLineEdit)
        enter(qtbot, cell, filled)
        if number == 0:
            type_in(qtbot, editor.line, 0, 3, "72 F")
    rows = vessel_parts.part_rows(workspace, LINE_WEIGHINGS, jar)
    assert [row.values["vessel_no"] for row in rows] == [1, 2, 3]
    assert [row.values["filled_g"] for row in rows] == [465.8, 465.0, 466.9]
    # 253.4, 255.2 and 252.8 g of water at 22 °C, Z = 1.0033 mL/g (ISO 8655-6): 254.6 mL.
    said = editor.line.result.text()
    assert said.startswith("255 mL")
    assert "The next jar out of the box: within about 6 mL." in said
    assert dock.list_pane is not None
    assert dock.list_pane.model.index(0, 2).data() == "255 mL"
    assert "The box says 300 mL; it holds" in editor.box.text()


def test_a_pasted_sheet_with_nonsense_in_it(
    qtbot: QtBot, dock: VesselsDock, workspace: Workspace, jar: int
) -> None:
    dock.show_record(jar)
    editor = editor_of(dock)
    cells = "Jar\tEmpty\tWith water\tWater\n1\t212,4\t465,8\t22\n2\tabc\t465\t22\n3\t470\t214\t22\n"
    QGuiApplication.clipboard().setText(cells)
    qtbot.mouseClick(editor.line.paste, Qt.MouseButton.LeftButton)
    assert editor.line.model.rowCount() == 4
    assert "abc" in editor.line.trouble.sentence
    told = " ".join(editor.line.findings.sentences)
    assert "Weighing 3: filled with water the vessel must weigh more" in told
    assert editor.line.result.text().startswith("254 mL")
    type_in(qtbot, editor.line, 1, 1, "209.8")
    assert not editor.line.trouble.isVisible()
    assert editor.line.result.text().startswith("255 mL")
    workspace.undo()
    workspace.undo()
    assert editor.line.model.rowCount() == 1


def test_the_keys_of_the_clipboard_copy_and_paste(
    qtbot: QtBot, dock: VesselsDock, jar: int
) -> None:
    dock.show_record(jar)
    table = editor_of(dock).diameters
    table.table.setFocus()
    table.table.selectAll()
    qtbot.keyClick(table.table, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert QGuiApplication.clipboard().text() == "0 mm\t64 mm\n85 mm\t76 mm\n"
    QGuiApplication.clipboard().setText("40\t70,5")
    table.table.setCurrentIndex(table.model.index(2, 0))
    qtbot.keyClick(table.table, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    found = [tuple(row.values[name] for name in DIAMETERS.names) for row in table.model.rows]
    assert found == [(0.0, 64.0), (40.0, 70.5), (85.0, 76.0)]


def test_what_could_not_be_read_is_shown_again(
    dock: VesselsDock, workspace: Workspace, jar: int
) -> None:
    vessel_parts.add_part(workspace, LINE_WEIGHINGS, jar, {"empty_g": "heavy"})
    dock.show_record(jar)
    table = editor_of(dock).line
    cell = table.model.index(0, 1)
    assert cell.data() == "heavy"
    assert cell.data(LOOK_ROLE) == "stops"
    assert "heavy" in table.trouble.sentence
    assert "heavy" in str(cell.data(Qt.ItemDataRole.ToolTipRole))


def test_rows_go_with_the_delete_key_and_come_back(
    qtbot: QtBot, dock: VesselsDock, workspace: Workspace, jar: int
) -> None:
    dock.show_record(jar)
    table = editor_of(dock).diameters
    table.table.setFocus()
    table.table.selectRow(0)
    qtbot.keyClick(table.table, Qt.Key.Key_Delete)
    assert [row.values["diameter_mm"] for row in table.model.rows] == [76.0]
    assert workspace.undo_label == "Remove diameters"
    workspace.undo()
    assert [row.values["diameter_mm"] for row in table.model.rows] == [64.0, 76.0]


def test_the_drawing_follows_the_typing_and_escape_takes_it_back(
    qtbot: QtBot, dock: VesselsDock, workspace: Workspace, jar: int
) -> None:
    dock.show_record(jar)
    editor = editor_of(dock)
    fill = editor.first.fields["fill_mm"].editor
    assert isinstance(fill, QLineEdit)
    fill.setFocus()
    fill.selectAll()
    qtbot.keyClicks(fill, "50")
    assert "fill line (hot) 50 mm" in editor.picture.accessibleDescription()
    assert load_shelf(workspace).vessels[jar].fill_mm == 66.0
    qtbot.keyClick(fill, Qt.Key.Key_Escape)
    assert "fill line (hot) 66 mm" in editor.picture.accessibleDescription()
    qtbot.keyClicks(fill, "")
    fill.selectAll()
    qtbot.keyClicks(fill, "2 in")
    qtbot.keyClick(fill, Qt.Key.Key_Return)
    # 1 in = 25.4 mm, exact by definition.
    assert load_shelf(workspace).vessels[jar].fill_mm == pytest.approx(50.8)


def test_a_recipe_fills_it_and_is_remembered(
    dock: VesselsDock, workspace: Workspace, jar: int
) -> None:
    wax = shelf_edit.new_item(workspace, "wax", {"name": "Orchard wax"}, {"wax_class": "soy"})
    recipe = shelf_edit.new_recipe(workspace, "Cedar porch")
    with workspace.step("Write") as connection:
        (first,) = records.fetch_all(connection, "recipe_version", {"recipe_id": recipe})
        values = {"version_id": first["id"], "role": "wax", "item_id": wax, "parts": 1.0}
        records.insert(connection, "recipe_part", values)
    dock.show_record(jar)
    editor = editor_of(dock)
    assert editor.recipe.combo.currentText() == "Cedar porch, version 1"
    assert "of mix to the hot line (estimate)" in editor.holds.text()
    assert "(estimate)" in editor.picture.accessibleDescription()
    editor.recipe.combo.setCurrentIndex(0)
    editor.recipe.combo.activated.emit(0)
    assert not editor.holds.isVisible()
    assert "set level" not in editor.picture.accessibleDescription()
    dock.show_record(jar)
    assert editor.recipe.combo.currentIndex() == 0


def test_what_stands_on_the_shelf_is_counted_here(
    qtbot: QtBot, dock: VesselsDock, jar: int
) -> None:
    dock.show_record(jar)
    panel = editor_of(dock).stock
    qtbot.mouseClick(panel.count, Qt.MouseButton.LeftButton)
    assert panel.form is not None
    field = panel.form.fields["quantity"].editor
    qtbot.keyClicks(field, "46")
    qtbot.mouseClick(panel.form.accept, Qt.MouseButton.LeftButton)
    assert dock.list_pane is not None
    assert dock.list_pane.model.index(0, 3).data() == "46"


def test_a_vessel_in_use_is_put_away(
    qtbot: QtBot, dock: VesselsDock, workspace: Workspace, ask: Answers, jar: int
) -> None:
    shelf_edit.new_candle(workspace, {"name": "Cedar 30", "vessel_id": jar})
    dock.show_record(jar)
    assert dock.editor_pane is not None
    qtbot.mouseClick(dock.editor_pane.remove, Qt.MouseButton.LeftButton)
    assert "put away" in ask.told[0]
    assert dock.list_pane is not None
    assert dock.list_pane.model.rowCount() == 0
    workspace.undo()
    assert dock.list_pane.model.rowCount() == 1


def test_how_it_is_computed_names_its_sources(
    dock: VesselsDock, workspace: Workspace, jar: int
) -> None:
    typed = {"empty_g": "212.4", "filled_g": "465.8", "water_c": "22"}
    vessel_parts.add_part(workspace, LINE_WEIGHINGS, jar, typed)
    dock.show_record(jar)
    frame = editor_of(dock).line.how.popover()
    said = " ".join(child.text() for child in frame.findChildren(QWidget) if hasattr(child, "text"))
    assert "Metrologia 38 (2001) 301" in said
    assert "ISO 8655-6" in said
    frame.close()


def test_nothing_scrolls_sideways_in_a_narrow_dock(
    qtbot: QtBot, dock: VesselsDock, workspace: Workspace, jar: int
) -> None:
    typed = {"empty_g": "1212.45", "filled_g": "2465.85", "water_c": "22.5"}
    vessel_parts.add_part(workspace, LINE_WEIGHINGS, jar, typed)
    dock.show_record(jar)
    assert dock.editor_pane is not None
    qtbot.wait(1)
    pane = dock.editor_pane
    assert pane.widget().width() <= pane.viewport().width()
    assert pane.widget().minimumSizeHint().width() <= NARROW


def test_everything_that_takes_the_focus_has_a_name(dock: VesselsDock, jar: int) -> None:
    dock.show_record(jar)
    for widget in editor_of(dock).findChildren(QWidget):
        takes = widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        if takes and widget.isVisible() and not widget.objectName().startswith("qt_"):
            spoken = widget.text() if isinstance(widget, QAbstractButton) else ""
            assert widget.accessibleName() or spoken, widget


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_the_drawing_is_painted_in_both_themes(
    qapp: QApplication, dock: VesselsDock, jar: int, theme: str
) -> None:
    sheet, palette = qapp.styleSheet(), qapp.palette()
    try:
        colours = apply_theme(qapp, theme)
        dock.show_record(jar)
        image = editor_of(dock).picture.grab().toImage()
        names = {
            image.pixelColor(x, y).name()
            for x in range(0, image.width(), 2)
            for y in range(0, image.height(), 2)
        }
        assert {colours.sheet.lower(), colours.wash.lower()} <= names
    finally:
        qapp.setStyleSheet(sheet)
        qapp.setPalette(palette)


@pytest.mark.parametrize("language", ["xx"])
def test_no_bare_words(dock: VesselsDock, workspace: Workspace, jar: int) -> None:
    typed = {"empty_g": "212.4", "filled_g": "465.8", "water_c": "22"}
    vessel_parts.add_part(workspace, LINE_WEIGHINGS, jar, typed)
    dock.show_record(jar)
    editor = editor_of(dock)
    shown = [
        *editor.line.result.text().split("\n"),
        editor.box.text(),
        editor.line.title.text(),
        *editor.findings.sentences,
        *editor.line.findings.sentences,
        editor.line.how.text(),
    ]
    assert all(text.startswith("⟦") for text in shown)
