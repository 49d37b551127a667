"""The plan page through its own cells, fields, buttons and keys, on a real file."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit

from app.test_pouring import bench_with_plan
from wickbench.app import plans, shelf_edit
from wickbench.gui.plan.plan_page import PlanPage

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from gui.conftest import Answers
    from wickbench.app.workspace import Workspace


@pytest.fixture
def plan(workspace: Workspace) -> int:
    return bench_with_plan(workspace)


@pytest.fixture
def page(workspace: Workspace, ask: Answers, qtbot: QtBot, plan: int) -> PlanPage:
    assert plan
    return shown(workspace, ask, qtbot)


def shown(workspace: Workspace, ask: Answers, qtbot: QtBot, width: int = 1100) -> PlanPage:
    made = PlanPage(workspace, ask)
    qtbot.addWidget(made)
    made.resize(width, 900)
    with qtbot.waitActive(made):
        made.show()
    return made


def column(page: PlanPage, key: str) -> int:
    return [one.key for one in page.lines.model.columns].index(key)


def text_of(page: PlanPage, row: int, key: str) -> str:
    return str(page.lines.model.index(row, column(page, key)).data())


def open_cell(page: PlanPage, row: int, key: str) -> QLineEdit | QComboBox:
    table = page.lines.table
    index = page.lines.model.index(row, column(page, key))
    table.setFocus()
    table.setCurrentIndex(index)
    table.edit(index)
    found = [one for one in table.findChildren(QComboBox) if one.isVisible()]
    lines = [one for one in table.findChildren(QLineEdit) if one.isVisible()]
    return found[0] if found else lines[0]


def type_cell(qtbot: QtBot, page: PlanPage, row: int, key: str, text: str) -> None:
    editor = open_cell(page, row, key)
    line = editor.lineEdit() if isinstance(editor, QComboBox) else editor
    assert line is not None
    line.selectAll()
    qtbot.keyClicks(editor, text)
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    QApplication.processEvents()


def amounts(page: PlanPage) -> list[str]:
    return [label.text() for card in page.cards if not card.isHidden() for label in card.figures()]


# -- empty and new ---------------------------------------------------------------------------------
def test_an_empty_page_says_what_belongs_there_and_makes_the_first_plan(
    workspace: Workspace, ask: Answers, qtbot: QtBot
) -> None:
    page = shown(workspace, ask, qtbot)
    assert page.empty.isVisible()
    assert not page.lines.isVisible()
    qtbot.mouseClick(page.make_first, Qt.MouseButton.LeftButton)
    assert page.lines.isVisible()
    assert page.to_recipes.isVisible()  # nothing to pour yet: the way to it
    assert not page.start.isEnabled()
    with qtbot.waitSignal(page.go_requested) as gone:
        qtbot.mouseClick(page.to_recipes, Qt.MouseButton.LeftButton)
    assert gone.args == ["recipes", None]
    workspace.undo()
    assert page.empty.isVisible()


def test_a_line_is_added_by_keyboard_and_goes_on_with_its_count(
    page: PlanPage, qtbot: QtBot
) -> None:
    page.lines.begin_line()
    combo = next(one for one in page.lines.table.findChildren(QComboBox) if one.isVisible())
    qtbot.keyClicks(combo, "garden")
    qtbot.keyClick(combo, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert page.plan is not None
    assert len(page.plan.lines) == 3
    assert page.lines.table.currentIndex().row() == 2
    qtbot.waitUntil(lambda: page.lines.table.currentIndex().column() == column(page, "count"))
    assert page.lines.table.currentIndex().row() == 2
    type_cell(qtbot, page, 2, "vessel", "Tin")
    type_cell(qtbot, page, 2, "count", "4")
    assert page.totals.values["Candles"].startswith("34 candles")


# -- typing ----------------------------------------------------------------------------------------
def test_tab_goes_from_the_new_line_to_its_count(page: PlanPage, qtbot: QtBot) -> None:
    page.lines.begin_line()
    combo = next(one for one in page.lines.table.findChildren(QComboBox) if one.isVisible())
    qtbot.keyClicks(combo, "garden")
    qtbot.keyClick(combo, Qt.Key.Key_Tab)
    QApplication.processEvents()
    count = next(one for one in page.lines.table.findChildren(QLineEdit) if one.isVisible())
    assert page.lines.table.currentIndex().column() == column(page, "count")
    qtbot.keyClicks(count, "5")
    qtbot.keyClick(count, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert page.plan is not None
    assert page.plan.lines[2].count == 5


def test_everything_follows_while_a_count_is_typed_and_nothing_is_stored(
    page: PlanPage, workspace: Workspace, qtbot: QtBot
) -> None:
    before, label = amounts(page), workspace.undo_label
    editor = open_cell(page, 0, "count")
    assert isinstance(editor, QLineEdit)
    editor.selectAll()
    qtbot.keyClicks(editor, "9")
    assert page.totals.values["Candles"].startswith("21 candles")
    assert amounts(page) != before
    assert workspace.undo_label == label
    qtbot.keyClick(editor, Qt.Key.Key_Escape)
    QApplication.processEvents()
    assert amounts(page) == before


def test_a_count_is_stored_undone_and_done_again(
    page: PlanPage, workspace: Workspace, qtbot: QtBot
) -> None:
    type_cell(qtbot, page, 0, "count", "9")
    assert page.totals.values["Candles"].startswith("21 candles")
    workspace.undo()
    assert text_of(page, 0, "count") == "18"
    assert page.totals.values["Candles"].startswith("30 candles")
    workspace.redo()
    assert text_of(page, 0, "count") == "9"


@pytest.mark.parametrize(
    ("key", "typed"),
    [("count", "a few"), ("count", "-2"), ("fill", "12 fl oz"), ("fill", "1,234"),
     ("what", "no such thing"), ("vessel", "<img src=x>")],
)  # fmt: skip
def test_nonsense_in_a_cell_stays_with_its_sentence_also_after_a_restart(  # noqa: PLR0917
    page: PlanPage, workspace: Workspace, ask: Answers, qtbot: QtBot, key: str, typed: str
) -> None:
    stored = page.plan
    type_cell(qtbot, page, 0, key, typed)
    assert text_of(page, 0, key) == typed
    assert page.lines.trouble.sentence
    assert page.plan == stored
    other = shown(workspace, ask, qtbot)
    assert text_of(other, 0, key) == typed
    assert other.lines.trouble.sentence
    other.lines.model.take(other.lines.model.rows[0], other.lines.model.columns[1], "7")
    assert text_of(other, 0, "count") == "7"


def test_a_net_weight_is_typed_where_the_fill_stands(page: PlanPage, qtbot: QtBot) -> None:
    type_cell(qtbot, page, 0, "fill", "7 oz")
    # 7 × 28.349523125 g (NIST SP 811, appendix B.8) in tenths of a gram, never less than asked
    assert text_of(page, 0, "mix_each") == "198.5 g"
    type_cell(qtbot, page, 0, "fill", "to the fill line")
    assert page.plan is not None
    assert page.plan.lines[0].fill_to == "line"


def test_extra_is_typed_in_its_field_and_follows_at_once(
    page: PlanPage, workspace: Workspace, qtbot: QtBot
) -> None:
    line = page.plan_settings.forms["extra_g"].fields["extra_g"].editor
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "200 g")
    left = page.totals.values["Left over"]
    assert page.view is not None
    assert page.view.result.leftover_g == pytest.approx(200.0 * len(page.view.pots), abs=4.0)
    assert plans.load_plans(workspace)[0].extra_g == plans.USUAL_EXTRA_G
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert plans.load_plans(workspace)[0].extra_g == 200.0
    assert page.totals.values["Left over"] == left


def test_extra_that_cannot_be_read_keeps_its_text_and_its_sentence(
    page: PlanPage, qtbot: QtBot
) -> None:
    field = page.plan_settings.forms["extra_g"].fields["extra_g"]
    line = field.editor
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "a splash")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert field.trouble.sentence
    assert line.text() == "a splash"


# -- lines by key ----------------------------------------------------------------------------------
def test_delete_takes_lines_out_and_alt_moves_them(
    page: PlanPage, workspace: Workspace, qtbot: QtBot
) -> None:
    table = page.lines.table
    assert page.plan is not None
    first, second = (line.id for line in page.plan.lines)
    table.setFocus()
    table.setCurrentIndex(page.lines.model.index(0, 0))
    qtbot.keyClick(table, Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier)
    assert [line.id for line in page.plan.lines] == [second, first]
    assert table.current_key == first  # the person stays with the line
    qtbot.keyClick(table, Qt.Key.Key_Delete)
    assert [line.id for line in page.plan.lines] == [second]
    workspace.undo()
    workspace.undo()
    assert [line.id for line in page.plan.lines] == [first, second]


def test_a_list_is_pasted_from_a_spreadsheet(page: PlanPage) -> None:
    table = page.lines.table
    table.setCurrentIndex(page.lines.model.index(2, 0))
    table.paste("Garden\t6\tJar\nGarden\t8\tTin\n")
    assert page.plan is not None
    assert [line.count for line in page.plan.lines] == [18, 12, 6, 8]
    assert page.totals.values["Candles"].startswith("44 candles")


# -- pots and plans --------------------------------------------------------------------------------
def test_pots_are_left_out_but_never_the_last(page: PlanPage, workspace: Workspace) -> None:
    shelf_edit.new_equipment(
        workspace, "pot", {"name": "Small & round", "brim_ml": 2500.0, "empty_g": 300.0}
    )
    assert page.plan is not None
    first, second = page.plan_settings.pots_menu.actions()
    assert second.text() == "Small && round"
    first.trigger()
    assert {card.plan.pot.name for card in page.view.pots if card.plan.pot} == {"Small & round"}  # type: ignore[union-attr]  # a plan is shown
    _, second = page.plan_settings.pots_menu.actions()
    second.trigger()
    assert len(page.plan.pot_ids) == 1
    assert page.plan_settings.pots_menu.actions()[1].isChecked()
    page.plan_settings.pots_menu.actions()[0].trigger()
    assert page.plan.pot_ids == ()  # all again
