"""The drawing follows while the person types, in fields and in cells; real widgets."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit, QMainWindow

from wickbench.app import shelf_edit, vessel_parts
from wickbench.app.shelf import load_shelf
from wickbench.app.vessel_tables import DIAMETERS, LINE_WEIGHINGS
from wickbench.gui.vessels.vessels_dock import VesselsDock

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot

    from gui.conftest import Answers
    from wickbench.app.workspace import Workspace
    from wickbench.gui.vessels.measure_table import MeasureTable
    from wickbench.gui.vessels.vessel_editor import VesselEditor


@pytest.fixture
def jar(workspace: Workspace) -> int:
    details = {"vessel_kind": "jar", "height_mm": 85.0, "fill_mm": 66.0}
    key = shelf_edit.new_item(workspace, "vessel", {"name": "Amber tumbler"}, details)
    vessel_parts.paste_parts(workspace, DIAMETERS, key, [["0", "70"], ["85", "70"]])
    return key


@pytest.fixture
def editor(qtbot: QtBot, workspace: Workspace, ask: Answers, jar: int) -> Iterator[VesselEditor]:
    window = QMainWindow()
    qtbot.addWidget(window)
    made = VesselsDock(workspace, ask)
    window.addDockWidget(Qt.DockWidgetArea.LeftDockWidgetArea, made)
    window.resize(310, 700)
    with qtbot.waitActive(window):
        window.show()
    made.show_record(jar)
    assert made.editor is not None
    yield made.editor
    made.release()
    window.close()


def begin(qtbot: QtBot, editor: VesselEditor, name: str, text: str) -> QLineEdit:
    """Type into a field without leaving it."""
    line = editor.first.fields[name].editor
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, text)
    return line


def begin_cell(qtbot: QtBot, table: MeasureTable, row: int, column: int, text: str) -> QLineEdit:
    """Type into a cell without leaving it."""
    index = table.model.index(row, column)
    table.table.setFocus()
    table.table.setCurrentIndex(index)
    table.table.edit(index)
    line = QApplication.focusWidget()
    assert isinstance(line, QLineEdit)
    line.selectAll()
    qtbot.keyClicks(line, text)
    return line


def told(editor: VesselEditor) -> str:
    return editor.picture.accessibleDescription()


def sides(editor: VesselEditor) -> tuple[tuple[float, float], ...]:
    drawing = editor.picture.drawing
    assert drawing is not None
    return drawing.of("wall")[0].points


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("fill_mm", "50", "fill line (hot) 50 mm"),
        ("fill_mm", "50", "headspace 35 mm (hot)"),
        ("height_mm", "80", "headspace 14 mm (hot)"),
    ],
)
def test_words_follow_a_field(
    qtbot: QtBot, editor: VesselEditor, name: str, text: str, said: str
) -> None:
    assert said not in told(editor)
    begin(qtbot, editor, name, text)
    assert said in told(editor)


@pytest.mark.parametrize(("name", "text"), [("base_fillet_mm", "9"), ("push_up_mm", "5")])
def test_the_base_follows_its_field_and_is_stored(
    qtbot: QtBot, editor: VesselEditor, workspace: Workspace, name: str, text: str
) -> None:
    (jar,) = load_shelf(workspace).vessels
    before = sides(editor)
    line = begin(qtbot, editor, name, text)
    assert sides(editor) != before
    assert getattr(load_shelf(workspace).vessels[jar], name) is None
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert getattr(load_shelf(workspace).vessels[jar], name) == float(text)
    workspace.undo()
    assert getattr(load_shelf(workspace).vessels[jar], name) is None
    assert sides(editor) == before


def test_a_base_that_does_not_fit_is_refused_beside_its_field(
    qtbot: QtBot, editor: VesselEditor
) -> None:
    field = editor.first.fields["push_up_mm"]
    begin(qtbot, editor, "push_up_mm", "40")
    assert "between 0 mm and 35 mm" in field.trouble.sentence.replace("\N{NO-BREAK SPACE}", " ")
    assert field.text() == "40"
    line = begin(qtbot, editor, "push_up_mm", "4")
    assert field.trouble.sentence == ""
    begin(qtbot, editor, "push_up_mm", "40")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert field.trouble.sentence
    assert editor.picture.isVisible()


def test_a_fill_line_above_the_brim_is_refused_beside_its_field(
    qtbot: QtBot, editor: VesselEditor
) -> None:
    begin(qtbot, editor, "fill_mm", "99")
    assert "above the brim" in editor.first.fields["fill_mm"].trouble.sentence
    begin(qtbot, editor, "fill_mm", "66")
    assert editor.first.fields["fill_mm"].trouble.sentence == ""


def test_the_shape_follows_a_diameter_s_cell_and_escape_takes_it_back(
    qtbot: QtBot, editor: VesselEditor
) -> None:
    before = sides(editor)
    line = begin_cell(qtbot, editor.diameters, 1, 1, "90")
    assert sides(editor) != before
    assert "inside Ø 70–90 mm" in told(editor)
    qtbot.keyClick(line, Qt.Key.Key_Escape)
    QApplication.processEvents()
    assert sides(editor) == before


def test_the_capacity_follows_a_weighing_s_cell(
    qtbot: QtBot, editor: VesselEditor, workspace: Workspace, jar: int
) -> None:
    typed = {"empty_g": "210", "filled_g": "460", "water_c": "22"}
    vessel_parts.add_part(workspace, LINE_WEIGHINGS, jar, typed)
    assert editor.line.result.text().startswith("251 mL")
    before = sides(editor)
    line = begin_cell(qtbot, editor.line, 0, 2, "470")
    # 260 g of water at 22 °C, Z = 1.0033 mL/g (ISO 8655-6): 260.9 mL.
    assert editor.line.result.text().startswith("261 mL")
    assert sides(editor) != before
    qtbot.keyClick(line, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert load_shelf(workspace).vessels[jar].weighings[0].filled_g == 470.0
    assert editor.line.result.text().startswith("261 mL")


def test_water_at_120_degrees_is_refused_under_its_table(
    qtbot: QtBot, editor: VesselEditor, workspace: Workspace, jar: int
) -> None:
    typed = {"empty_g": "210", "filled_g": "460", "water_c": "22"}
    vessel_parts.add_part(workspace, LINE_WEIGHINGS, jar, typed)
    line = begin_cell(qtbot, editor.line, 0, 3, "120 °C")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert "40 °C" in editor.line.trouble.sentence.replace("\N{NO-BREAK SPACE}", " ")
    assert load_shelf(workspace).vessels[jar].weighings[0].water_c == 22.0
    index = editor.line.model.index(0, 3)
    assert index.data() == "120 °C"


def test_two_diameters_at_one_height_are_told_under_the_table(
    qtbot: QtBot, editor: VesselEditor
) -> None:
    begin_cell(qtbot, editor.diameters, 1, 0, "0")
    assert "Two diameters stand at" in " ".join(editor.diameters.findings.sentences)
