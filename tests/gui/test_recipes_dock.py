"""The recipes dock: typed into, chosen in and undone through its own widgets."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QMainWindow

from wickbench.app import shelf_edit
from wickbench.gui.recipes.recipes_dock import RecipesDock

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot

    from gui.conftest import Answers
    from wickbench.app.workspace import Workspace
    from wickbench.gui.fields.field import Field
    from wickbench.gui.recipes.parts_table import PartsTable
    from wickbench.gui.recipes.recipe_editor import RecipeEditor


@pytest.fixture
def shelf(workspace: Workspace) -> dict[str, int]:
    """Two waxes and two oils, all invented."""

    def item(kind: str, name: str, **details: object) -> int:
        return shelf_edit.new_item(workspace, kind, {"name": name}, details)

    return {
        "soy": item(
            "wax", "Meadow soy", wax_class="soy", max_load_percent=10, max_load_basis="wax"
        ),
        "coconut": item("wax", "Coast coconut", wax_class="coconut"),
        "fig": item("fragrance", "Fig & cedar", flash_c=93, ifra_12_percent=5),
        "oud": item("fragrance", "Smoked oud", flash_c=58, ifra_12_percent=100),
        "dye": item("dye", "Plum dye", usual_percent=0.1, max_percent=0.3),
    }


@pytest.fixture
def dock(
    qtbot: QtBot, workspace: Workspace, ask: Answers, shelf: dict[str, int]
) -> Iterator[RecipesDock]:
    assert shelf
    window = QMainWindow()
    qtbot.addWidget(window)
    made = RecipesDock(workspace, ask)
    window.addDockWidget(Qt.DockWidgetArea.LeftDockWidgetArea, made)
    window.resize(700, 900)
    with qtbot.waitActive(window):
        window.show()
    shelf_edit.new_recipe(workspace, "Fig & cedar")
    window.resizeDocks([made], [310], Qt.Orientation.Horizontal)
    QApplication.processEvents()
    yield made
    made.release()
    window.close()


def editor(dock: RecipesDock) -> RecipeEditor:
    assert dock.editor is not None
    return dock.editor


def type_into(qtbot: QtBot, field: Field, text: str, *, enter: bool = True) -> None:
    line = field.editor
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, text)
    if enter:
        qtbot.keyClick(line, Qt.Key.Key_Return)


def add_by_keyboard(qtbot: QtBot, table: PartsTable, part_of_name: str) -> None:
    table.begin_line()
    combo = next(one for one in table.table.findChildren(QComboBox) if one.isVisible())
    qtbot.keyClicks(combo, part_of_name)
    qtbot.keyClick(combo, Qt.Key.Key_Tab)
    QApplication.processEvents()


def write_cell(qtbot: QtBot, table: PartsTable, row: int, text: str, *, enter: bool = True) -> None:
    index = table.model.index(row, 1)
    table.table.setCurrentIndex(index)
    table.table.edit(index)
    line = next(one for one in table.table.findChildren(QLineEdit) if one.isVisible())
    line.selectAll()
    qtbot.keyClicks(line, text)
    if enter:
        qtbot.keyClick(line, Qt.Key.Key_Return)
        QApplication.processEvents()


def cells(table: PartsTable, column: int) -> list[str]:
    return [str(table.model.index(row, column).data()) for row in range(len(table.model.rows))]


def amounts(dock: RecipesDock) -> dict[str, str]:
    panel = editor(dock).amounts
    return {
        str(panel.model.index(row, 0).data()): str(panel.model.index(row, 1).data())
        for row in range(len(panel.model.rows))
    }


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ").replace("\N{NARROW NO-BREAK SPACE}", " ")


def test_materials_are_chosen_by_part_of_their_name_and_shares_sum_to_a_hundred(
    qtbot: QtBot, dock: RecipesDock
) -> None:
    wax = editor(dock).wax
    add_by_keyboard(qtbot, wax, "meadow")
    add_by_keyboard(qtbot, wax, "cocon")
    assert cells(wax, 0) == ["Meadow soy", "Coast coconut"]
    write_cell(qtbot, wax, 1, "50")
    assert [plain(text) for text in cells(wax, 2)] == ["66.7 %", "33.3 %"]


def test_amounts_change_while_parts_and_load_are_typed(qtbot: QtBot, dock: RecipesDock) -> None:
    add_by_keyboard(qtbot, editor(dock).wax, "meadow")
    add_by_keyboard(qtbot, editor(dock).fragrance, "fig")
    type_into(qtbot, editor(dock).load.fields["load_percent"], "8", enter=False)
    shown = {name: plain(text) for name, text in amounts(dock).items()}
    # 8 % of wax in 1000 g: oil 1000 × 0.08 / 1.08 = 74.07 g, by hand
    assert shown == {"Meadow soy": "925.9 g", "Fig & cedar": "74.1 g", "Together": "1000.0 g"}
    assert plain(editor(dock).load_echo.text()) == "8 % of wax = 7.41 % of total"


def test_an_ounce_to_the_pound_is_of_wax_whatever_the_basis_was(
    qtbot: QtBot, dock: RecipesDock, workspace: Workspace
) -> None:
    add_by_keyboard(qtbot, editor(dock).wax, "meadow")
    add_by_keyboard(qtbot, editor(dock).fragrance, "fig")
    load = editor(dock).load
    type_into(qtbot, load.fields["load_percent"], "7")
    load.fields["load_basis"].committed.emit("total")
    type_into(qtbot, load.fields["load_percent"], "1 oz/lb")
    # 1 oz in 16 oz: 6.25 % (NIST Handbook 44, Appendix C: 16 oz to the pound)
    assert plain(editor(dock).load_echo.text()).startswith("6.25 % of wax")
    assert load.fields["load_basis"].text() == "wax"
    workspace.undo()
    assert load.fields["load_basis"].text() == "total"
    assert plain(load.fields["load_percent"].text()) == "7 %"
