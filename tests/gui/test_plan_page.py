"""The plan page through its own cells, fields, buttons and keys, on a real file."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from pypdf import PdfReader
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QLineEdit, QPushButton, QWidget

from app.test_pouring import bench_with_plan
from wickbench.app import edit, plans, pouring, shelf_edit
from wickbench.app.plan_fields import LINE_FIELDS
from wickbench.app.shelf import load_shelf
from wickbench.domain.bench import Place
from wickbench.gui.plan.plan_page import PlanPage

if TYPE_CHECKING:
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from gui.conftest import Answers
    from wickbench.app.workspace import Workspace
    from wickbench.gui.main_window import MainWindow


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


def test_the_next_plan_is_shown_and_others_are_chosen(
    page: PlanPage, workspace: Workspace, qtbot: QtBot, plan: int
) -> None:
    qtbot.mouseClick(page.chooser.again, Qt.MouseButton.LeftButton)
    again = page.record
    assert again != plan
    assert len(plans.load_plan(workspace, again or 0).lines) == 2
    page.chooser.plans.combo.setCurrentIndex(page.chooser.plans.combo.findData(str(plan)))
    page.chooser.plans.combo.activated.emit(0)
    assert page.record == plan
    qtbot.mouseClick(page.chooser.remove, Qt.MouseButton.LeftButton)
    assert page.record == again


def test_a_plan_with_weighed_pots_is_not_removed_and_says_so(
    page: PlanPage, workspace: Workspace, ask: Answers, qtbot: QtBot, plan: int
) -> None:
    pouring.start_pour(workspace, plan)
    qtbot.mouseClick(page.chooser.remove, Qt.MouseButton.LeftButton)
    assert ask.told
    assert page.record == plan


# -- before and after ------------------------------------------------------------------------------
def test_weigh_sheets_are_written_where_the_person_says(
    page: PlanPage, ask: Answers, qtbot: QtBot, tmp_path: Path
) -> None:
    qtbot.mouseClick(page.print_sheets, Qt.MouseButton.LeftButton)  # nowhere: nothing happens
    ask.path = tmp_path / "sheets.pdf"
    qtbot.mouseClick(page.print_sheets, Qt.MouseButton.LeftButton)
    assert "Weigh sheets 2026-11-25.pdf" in ask.asked[-1]
    words = "".join(one.extract_text() for one in PdfReader(ask.path).pages)
    for amount in amounts(page):
        assert amount.replace("\u00a0", " ") in words.replace("\u00a0", " ")
    ask.path = tmp_path / "no folder" / "sheets.pdf"
    qtbot.mouseClick(page.print_sheets, Qt.MouseButton.LeftButton)
    assert ask.told


def test_starting_goes_to_the_bench_and_asks_first_while_something_stops_the_pour(
    page: PlanPage, ask: Answers, qtbot: QtBot, plan: int
) -> None:
    with qtbot.waitSignal(page.go_requested) as gone:
        qtbot.mouseClick(page.start, Qt.MouseButton.LeftButton)
    assert gone.args == ["bench", plan]
    type_cell(qtbot, page, 0, "count", "60")  # more oil than there is
    with qtbot.assertNotEmitted(page.go_requested):
        qtbot.mouseClick(page.start, Qt.MouseButton.LeftButton)
    assert "Oil" in ask.asked[-1]
    notes = [one for one in page.findings.sentences if one not in ask.asked[-1]]
    assert notes  # only what stops is asked about
    assert not any("estimate" in one for one in ask.asked[-1].splitlines())
    ask.agree = True
    with qtbot.waitSignal(page.go_requested):
        qtbot.mouseClick(page.start, Qt.MouseButton.LeftButton)


def test_a_plan_on_the_bench_is_shown_as_it_stands_there_and_is_not_changed(
    page: PlanPage, workspace: Workspace, qtbot: QtBot, plan: int
) -> None:
    codes = [card.card.lot for card in page.cards if card.card]
    session = pouring.start_pour(workspace, plan)
    assert page.start.text() == "Go on pouring"
    assert [card.card.lot for card in page.cards if card.card] == codes
    pouring.weigh(workspace, session, Place(0, 0), 2700.0)
    assert amounts(page)[0] == "2700 g"
    assert page.lines.model.add is None
    assert not page.plan_settings.forms["extra_g"].isEnabled()
    qtbot.keyClick(page.lines.table, Qt.Key.Key_Delete)
    assert page.plan is not None
    assert len(page.plan.lines) == 2
    workspace.undo()
    workspace.undo()
    assert page.start.text() == "Start pouring"
    assert page.lines.model.add is not None


def test_a_finding_leads_to_where_it_is_mended(
    page: PlanPage, workspace: Workspace, qtbot: QtBot
) -> None:
    vessels = set(load_shelf(workspace).vessels)
    goes: list[tuple[str, object]] = []
    page.go_requested.connect(lambda key, record: goes.append((key, record)))
    for press in page.findings.findChildren(QPushButton):
        qtbot.mouseClick(press, Qt.MouseButton.LeftButton)
    assert {record for key, record in goes if key == "vessels"} == vessels


def test_a_double_click_on_a_figure_opens_the_candle(
    page: PlanPage, workspace: Workspace, plan: int, qtbot: QtBot
) -> None:
    line = plans.load_plan(workspace, plan).lines[0]
    values = {"name": "Jar", "version_id": line.version_id, "vessel_id": line.vessel_id}
    candle = shelf_edit.new_candle(workspace, values)
    plans.choose_candle(workspace, line.id, candle)
    cell = page.lines.table.visualRect(page.lines.model.index(0, column(page, "mix_each")))
    viewport = page.lines.table.viewport()
    with qtbot.waitSignal(page.go_requested) as went:
        qtbot.mouseClick(viewport, Qt.MouseButton.LeftButton, pos=cell.center())
        qtbot.mouseDClick(viewport, Qt.MouseButton.LeftButton, pos=cell.center())
    assert went.args == ["candles", candle]


# -- the look --------------------------------------------------------------------------------------
@pytest.mark.parametrize("width", [640, 1100])
def test_nothing_is_wider_than_the_page_and_everything_has_a_name(
    workspace: Workspace, ask: Answers, qtbot: QtBot, plan: int, width: int
) -> None:
    assert plan
    page = shown(workspace, ask, qtbot, width)
    QApplication.processEvents()
    ground = page.widget()
    assert ground is not None
    assert ground.width() <= page.viewport().width()
    assert ground.minimumSizeHint().width() <= page.viewport().width()
    for widget in page.findChildren(QWidget):
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus and widget.isVisible():
            named = widget.accessibleName() or getattr(widget, "text", str)()
            assert named, f"{type(widget).__name__} {widget.objectName()} has no name"
    for card in page.cards:
        corner = card.mapTo(ground, QPoint(card.width(), 0))
        assert corner.x() <= ground.width()


def test_a_name_is_text_and_never_markup(page: PlanPage, workspace: Workspace, plan: int) -> None:
    row = plans.load_plan(workspace, plan).lines[0]
    name = next(spec for spec in LINE_FIELDS if spec.name == "vessel_id")
    odd = shelf_edit.new_item(
        workspace, "vessel", {"name": "<b>Jar</b> & co"}, {"nominal_ml": 200.0}
    )
    edit.store_field(workspace, name, row.id, odd)
    assert any("<b>Jar</b> & co" in card.card.fills[0] for card in page.cards if card.card)
    for words in page.findChildren(QLabel):
        assert not words.text() or words.textFormat() == Qt.TextFormat.PlainText


# -- the whole window ------------------------------------------------------------------------------
def test_from_the_plan_to_the_bench_and_back_in_the_window(
    window: MainWindow, ask: Answers, qtbot: QtBot
) -> None:
    assert window.workbench is not None
    workspace = window.workbench.workspace
    plan = bench_with_plan(workspace)
    page = window.workbench.show_page("pour_plan")
    assert isinstance(page, PlanPage)
    qtbot.mouseClick(page.start, Qt.MouseButton.LeftButton)
    assert not ask.told
    assert window.workbench.folded  # the bench takes the whole width
    assert plans.load_plan(workspace, plan).state == "pouring"
    window.workbench.go("pour_plan", plan)
    assert not window.workbench.folded
    assert page.start.text() == "Go on pouring"
