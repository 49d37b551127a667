"""The recipes dock: typed into, chosen in and undone through its own widgets."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QMainWindow, QWidget

from wickbench.app import shelf_edit
from wickbench.gui.recipes.recipes_dock import RecipesDock
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

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
    window.setCentralWidget(QWidget())
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


def test_shares_and_amounts_follow_while_parts_are_typed(qtbot: QtBot, dock: RecipesDock) -> None:
    wax = editor(dock).wax
    add_by_keyboard(qtbot, wax, "meadow")
    add_by_keyboard(qtbot, wax, "cocon")
    write_cell(qtbot, wax, 1, "300", enter=False)
    assert [plain(text) for text in cells(wax, 2)] == ["25 %", "75 %"]
    assert plain(amounts(dock)["Coast coconut"]) == "750.0 g"
    line = next(one for one in wax.table.findChildren(QLineEdit) if one.isVisible())
    qtbot.keyClick(line, Qt.Key.Key_Escape)
    QApplication.processEvents()
    assert "Coast coconut" not in amounts(dock)


def test_a_line_is_taken_out_by_key_and_comes_back(
    qtbot: QtBot, dock: RecipesDock, workspace: Workspace
) -> None:
    wax = editor(dock).wax
    add_by_keyboard(qtbot, wax, "meadow")
    wax.table.setCurrentIndex(wax.model.index(0, 0))
    qtbot.keyClick(wax.table, Qt.Key.Key_Delete)
    assert cells(wax, 0) == []
    workspace.undo()
    assert cells(wax, 0) == ["Meadow soy"]


def test_a_cell_that_cannot_be_read_says_so_and_is_there_after_a_restart(
    qtbot: QtBot, dock: RecipesDock, workspace: Workspace, ask: Answers
) -> None:
    wax = editor(dock).wax
    add_by_keyboard(qtbot, wax, "meadow")
    write_cell(qtbot, wax, 0, "a lot")
    assert wax.trouble.sentence
    assert cells(wax, 1) == ["a lot"]
    again = RecipesDock(workspace, ask)
    qtbot.addWidget(again)
    again.show()
    QApplication.processEvents()
    assert cells(editor(again).wax, 1) == ["a lot"]
    assert editor(again).wax.trouble.sentence
    again.release()
    again.close()


def test_a_name_that_is_not_on_the_shelf_gets_its_sentence(qtbot: QtBot, dock: RecipesDock) -> None:
    wax = editor(dock).wax
    add_by_keyboard(qtbot, wax, "moon wax")
    assert "moon wax" in wax.trouble.sentence
    assert cells(wax, 0) == []


def test_any_amount_of_mix_or_of_wax(qtbot: QtBot, dock: RecipesDock) -> None:
    add_by_keyboard(qtbot, editor(dock).wax, "meadow")
    add_by_keyboard(qtbot, editor(dock).fragrance, "fig")
    type_into(qtbot, editor(dock).load.fields["load_percent"], "1 oz/lb")
    panel = editor(dock).amounts
    qtbot.mouseClick(panel.pound, Qt.MouseButton.LeftButton)
    panel.of.committed.emit("wax")
    # A pound of wax and an ounce of oil: 453.59237 g and 28.349523125 g (NIST Handbook 44).
    assert [plain(text) for text in amounts(dock).values()] == ["453.6 g", "28.3 g", "481.9 g"]
    type_into(qtbot, panel.amount, "2 lb 4 oz", enter=False)
    assert plain(amounts(dock)["Meadow soy"]) == "1020.6 g"
    type_into(qtbot, panel.amount, "12 fl oz")
    assert panel.amount.trouble.sentence
    assert panel.amount.text() == "12 fl oz"
    assert plain(amounts(dock)["Meadow soy"]) == "453.6 g"


def test_findings_and_oils_follow_the_load(qtbot: QtBot, dock: RecipesDock) -> None:
    add_by_keyboard(qtbot, editor(dock).wax, "meadow")
    add_by_keyboard(qtbot, editor(dock).fragrance, "fig")
    add_by_keyboard(qtbot, editor(dock).fragrance, "oud")
    write_cell(qtbot, editor(dock).fragrance, 1, "1")
    load = editor(dock).load.fields["load_percent"]
    type_into(qtbot, load, "8", enter=False)
    checks = editor(dock).checks
    # Half of 7.41 % each: below the 5 % of the certificate.
    assert "within the 5 % its certificate allows" in plain(checks.oils.sentences[0])
    assert "sets no limit here" in checks.oils.sentences[1]
    type_into(qtbot, load, "12", enter=False)
    assert "over the 5 % its certificate allows" in plain(checks.oils.sentences[0])
    said = " ".join(plain(one) for one in checks.findings.sentences)
    assert "its certificate allows 5 %" in said
    assert "more than Meadow soy holds: 10 % of wax" in said
    assert "can catch fire from 58 °C" in said
    assert "Meadow soy holds at most 10 % of wax = 9.09 % of total." in plain(
        editor(dock).limit.text()
    )


def test_versions_freeze_and_go_on(qtbot: QtBot, dock: RecipesDock, workspace: Workspace) -> None:
    add_by_keyboard(qtbot, editor(dock).wax, "meadow")
    versions = editor(dock).versions
    versions.state.committed.emit("for_sale")
    with workspace.step("a pour") as connection:
        records.update(connection, "recipe_version", 1, {"frozen": 1})
    assert versions.frozen.isVisible()
    assert not editor(dock).load.isEnabled()
    assert not editor(dock).wax.add.isVisible()
    assert editor(dock).names.isEnabled()
    qtbot.mouseClick(versions.new, Qt.MouseButton.LeftButton)
    assert versions.version.combo.currentText() == "v2 · idea"
    assert not versions.frozen.isVisible()
    assert editor(dock).load.isEnabled()
    add_by_keyboard(qtbot, editor(dock).wax, "cocon")
    assert cells(editor(dock).wax, 0) == ["Meadow soy", "Coast coconut"]
    versions.version.committed.emit("1")
    assert versions.version.combo.currentText() == "v1 · for sale"
    assert cells(editor(dock).wax, 0) == ["Meadow soy"]
    assert dock.list_pane is not None
    assert dock.list_pane.model.rows[0].number == 2


def test_the_form_fits_a_narrow_dock_and_every_field_says_its_name(
    qtbot: QtBot, dock: RecipesDock
) -> None:
    add_by_keyboard(qtbot, editor(dock).wax, "meadow")
    add_by_keyboard(qtbot, editor(dock).fragrance, "fig")
    assert dock.editor_pane is not None
    assert dock.width() == 310
    ground = dock.editor_pane.widget()
    assert ground is not None
    assert ground.minimumSizeHint().width() <= dock.editor_pane.viewport().width()
    for widget in editor(dock).findChildren(QLineEdit) + editor(dock).findChildren(QComboBox):
        assert widget.accessibleName() or widget.parent().property("accessibleName")


def test_a_recipe_that_is_named_is_put_away_and_brought_back(
    qtbot: QtBot, dock: RecipesDock, workspace: Workspace, ask: Answers
) -> None:
    shelf_edit.new_candle(workspace, {"name": "Fig, tumbler", "version_id": 1})
    assert dock.editor_pane is not None
    assert dock.list_pane is not None
    assert "Fig, tumbler" in editor(dock).versions.used.text()
    qtbot.mouseClick(dock.editor_pane.remove, Qt.MouseButton.LeftButton)
    assert "put away" in ask.told[-1]
    assert dock.list_pane.model.rows == []
    dock.put_away_too.setChecked(True)
    assert len(dock.list_pane.model.rows) == 1
    editor(dock).put_away.bring_back.click()
    assert not dock.put_away_too.isVisible()
    assert len(dock.list_pane.model.rows) == 1


def test_typing_on_the_inviting_row_begins_a_line(qtbot: QtBot, dock: RecipesDock) -> None:
    table = editor(dock).wax.table
    table.setFocus()
    table.setCurrentIndex(editor(dock).wax.model.index(0, 0))
    qtbot.keyClick(table, "m")
    combo = next(one for one in table.findChildren(QComboBox) if one.isVisible())
    assert combo.currentText() == "m"
    qtbot.keyClicks(combo, "eadow")
    qtbot.keyClick(combo, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert cells(editor(dock).wax, 0) == ["Meadow soy"]
    assert table.currentIndex().column() == 1
    qtbot.keyClick(table, "4")
    line = next(one for one in table.findChildren(QLineEdit) if one.isVisible())
    qtbot.keyClicks(line, "0")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert cells(editor(dock).wax, 1) == ["40"]


def test_the_card_of_the_shown_version_goes_where_it_is_asked_to(
    qtbot: QtBot, dock: RecipesDock, ask: Answers, tmp_path: Path
) -> None:
    ask.path = tmp_path / "card.pdf"
    editor(dock).card.click()
    assert "Fig & cedar v1.pdf" in ask.asked[-1]
    assert ask.told == ["The recipe has no wax yet. Add at least one wax with its parts."]
    assert not ask.path.exists()
    add_by_keyboard(qtbot, editor(dock).wax, "meadow")
    editor(dock).card.click()
    assert len(ask.told) == 1
    assert "Meadow soy" in PdfReader(ask.path).pages[0].extract_text()
