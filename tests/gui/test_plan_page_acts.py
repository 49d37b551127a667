"""What is done with a whole plan: chosen, written as papers, taken to the bench."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from pypdf import PdfReader
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QLabel, QPushButton, QWidget

from app.test_pouring import bench_with_plan
from gui.test_plan_page import amounts, column, page, plan, shown, type_cell
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

__all__ = ["page", "plan"]


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
