"""The cards *What can I pour?* and *Calendar* through their own fields, table, buttons and keys."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QPushButton, QWidget

from app.test_plan_shelf import candle
from app.test_pouring import bench_with_plan
from wickbench.app import plans
from wickbench.gui.plan.calendar_card import CalendarCard
from wickbench.gui.plan.plan_page import PlanPage
from wickbench.gui.plan.shelf_card import ShelfCard
from wickbench.gui.theme import DARK, LIGHT, apply_theme
from wickbench.storage import records

if TYPE_CHECKING:
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from gui.conftest import Answers
    from wickbench.app.workspace import Workspace

# the clock of these tests says Wednesday 25 November 2026
FAIR = "2026-12-19"


@pytest.fixture
def plan(workspace: Workspace) -> int:
    made = bench_with_plan(workspace)
    with workspace.step("set") as connection:
        wax = records.fetch_all(connection, "wax")[0]["item_id"]
        records.update(connection, "wax", int(str(wax)), {"cure_days": 10})
    return made


@pytest.fixture
def page(workspace: Workspace, ask: Answers, qtbot: QtBot, plan: int) -> PlanPage:
    assert plan
    made = PlanPage(workspace, ask)
    qtbot.addWidget(made)
    made.resize(1300, 900)
    with qtbot.waitActive(made):
        made.show()
    return made


def calendar_of(page: PlanPage) -> CalendarCard:
    return next(one for one in page.panels if isinstance(one, CalendarCard))


def shelf_of(page: PlanPage, qtbot: QtBot) -> ShelfCard:
    """The shelf's card once it has computed."""
    card = next(one for one in page.panels if isinstance(one, ShelfCard))
    qtbot.waitUntil(lambda: not card.timer.isActive())
    return card


def needed(card: CalendarCard) -> QLineEdit:
    editor = card.form.fields["needed_on"].editor
    assert isinstance(editor, QLineEdit)
    return editor


def type_day(card: CalendarCard, text: str) -> None:
    editor = needed(card)
    editor.setFocus()
    editor.selectAll()
    QTest.keyClicks(editor, text)


def commit_day(card: CalendarCard, text: str) -> None:
    type_day(card, text)
    QTest.keyClick(needed(card), Qt.Key.Key_Return)
    QApplication.processEvents()


def whens(card: CalendarCard) -> list[str]:
    return [row.when.text() for row in card.rows if not row.isHidden()]


def counts(workspace: Workspace, plan: int) -> list[int | None]:
    return [line.count for line in plans.load_plan(workspace, plan).lines]


def tab_to(page: PlanPage, wanted: QWidget) -> None:
    """Press Tab until a widget has the focus."""
    for _ in range(80):
        if wanted.hasFocus():
            return
        QTest.keyClick(QApplication.focusWidget() or page, Qt.Key.Key_Tab)
    raise AssertionError(f"{wanted.objectName()} is not reached by Tab")


# -- calendar --------------------------------------------------------------------------------------
def test_another_day_changes_the_days_while_it_is_typed(
    page: PlanPage, workspace: Workspace, plan: int
) -> None:
    """By hand: 10 days of cure, a day kept: poured 11 days before it is needed."""
    card = calendar_of(page)
    assert card.invite.isVisible()
    assert whens(card) == []
    assert not card.drawing.isVisible()
    type_day(card, FAIR)
    assert whens(card)[0] == "Tuesday 8 December 2026"
    assert whens(card)[-1] == "Saturday 19 December 2026"
    assert card.drawing.accessibleName().startswith("Tuesday 8 December 2026: Pour all of it")
    assert plans.load_plan(workspace, plan).needed_on is None
    type_day(card, "2026-12-12")
    assert whens(card)[0] == "Tuesday 1 December 2026"
    QTest.keyClick(needed(card), Qt.Key.Key_Return)
    assert plans.load_plan(workspace, plan).needed_on == "2026-12-12"
    assert whens(card)[0] == "Tuesday 1 December 2026"
    workspace.undo()
    assert card.invite.isVisible()
    assert whens(card) == []


def test_what_cannot_be_read_changes_no_day_and_is_kept(page: PlanPage) -> None:
    card = calendar_of(page)
    commit_day(card, FAIR)
    before = whens(card)
    commit_day(card, "the fair")
    assert whens(card) == before
    assert needed(card).text() == "the fair"


def test_the_pour_is_planned_for_the_proposed_day(
    page: PlanPage, workspace: Workspace, plan: int, qtbot: QtBot
) -> None:
    card = calendar_of(page)
    commit_day(card, FAIR)
    assert card.pour_then.text() == "Pour on 8 December 2026"
    qtbot.mouseClick(card.pour_then, Qt.MouseButton.LeftButton)
    assert plans.load_plan(workspace, plan).pour_on == "2026-12-08"
    assert not card.pour_then.isVisible()
    assert "8 December" in page.title.text()
    workspace.undo()
    assert plans.load_plan(workspace, plan).pour_on == "2026-11-25"


def test_too_late_says_so_and_offers_a_day_that_can_be_met(
    page: PlanPage, workspace: Workspace, plan: int, qtbot: QtBot
) -> None:
    """By hand: poured today it is cured on 5 December and ready on the 6th."""
    card = calendar_of(page)
    commit_day(card, "2026-12-02")
    assert whens(card)[0] == "Saturday 21 November 2026: gone by"
    assert any("Sunday 6 December 2026" in one for one in card.findings.sentences)
    assert not card.pour_then.isVisible()
    assert card.need_later.text() == "Plan for 6 December 2026"
    qtbot.mouseClick(card.need_later, Qt.MouseButton.LeftButton)
    assert plans.load_plan(workspace, plan).needed_on == "2026-12-06"
    assert whens(card)[0] == "Wednesday 25 November 2026"
    assert not card.need_later.isVisible()


def test_the_calendar_follows_a_line_that_is_typed(page: PlanPage, qtbot: QtBot) -> None:
    """More jars than there are: what is short joins the calendar a moment later."""
    card = calendar_of(page)
    commit_day(card, FAIR)
    before = card.findings.sentences
    assert page.plan is not None
    page._typing_line(page.plan.lines[0].id, "count", "60")
    qtbot.waitUntil(lambda: card.findings.sentences != before)
    assert any("Jar is short" in one for one in card.findings.sentences)


def test_the_strip_of_days_is_painted_in_light_and_dark(
    page: PlanPage, qapp: QApplication, qtbot: QtBot
) -> None:
    card = calendar_of(page)
    commit_day(card, FAIR)
    try:
        for theme, colours in (("light", LIGHT), ("dark", DARK)):
            apply_theme(qapp, theme)
            qtbot.wait(1)
            image = card.drawing.grab().toImage()
            seen = {
                image.pixelColor(x, y).name().upper()
                for x in range(0, image.width(), 1)
                for y in range(0, image.height(), 2)
            }
            assert {colours.wash, colours.ink} <= seen
    finally:
        apply_theme(qapp, "light")


# -- what can I pour? ------------------------------------------------------------------------------
def test_plan_these_sets_the_counts_and_is_undone(
    page: PlanPage, workspace: Workspace, plan: int, qtbot: QtBot
) -> None:
    card = shelf_of(page, qtbot)
    found = card.of_plan.answer
    assert found is not None
    made = list(found.counts.values())
    assert card.of_plan.headline.text() == found.headline
    qtbot.mouseClick(card.of_plan.plan_these, Qt.MouseButton.LeftButton)
    assert counts(workspace, plan) == made
    assert page.totals.values["Candles"].startswith(f"{sum(made)} candles")
    workspace.undo()
    assert counts(workspace, plan) == [18, 12]
    workspace.redo()
    assert counts(workspace, plan) == made


def test_a_key_does_not_wait_for_the_shelf(page: PlanPage, qtbot: QtBot) -> None:
    """The answer follows a moment after the last key, and is for what is typed."""
    card = shelf_of(page, qtbot)
    before = card.of_plan.answer
    assert page.plan is not None
    page._typing_line(page.plan.lines[0].id, "count", "40")
    assert card.of_plan.answer is before
    qtbot.waitUntil(lambda: card.of_plan.answer is not before)
    assert card.of_plan.answer is not None
    jars, tins = card.of_plan.answer.counts.values()
    assert abs(tins - jars * 12 / 40) <= 0.5  # the ratio as typed


def test_candles_are_chosen_in_a_table_that_sorts(
    page: PlanPage, workspace: Workspace, plan: int, qtbot: QtBot
) -> None:
    candle(workspace, plan, 0, "Garden jar")
    candle(workspace, plan, 1, "Garden tin")
    card = shelf_of(page, qtbot)
    assert not card.table.isVisible()
    qtbot.mouseClick(card.alone, Qt.MouseButton.LeftButton)
    assert [row.name for row in card.model.rows] == ["Garden jar", "Garden tin"]
    card.table.sortByColumn(1, Qt.SortOrder.DescendingOrder)
    assert [row.name for row in card.model.rows] == ["Garden tin", "Garden jar"]
    assert not card.of_chosen.isVisible()
    card.table.selectAll()
    found = card.of_chosen.answer
    assert found is not None
    assert len(set(found.counts.values())) == 1  # as many of each
    qtbot.mouseClick(card.of_chosen.plan_these, Qt.MouseButton.LeftButton)
    assert counts(workspace, plan) == [18, 12, *found.counts.values()]
    workspace.undo()
    assert counts(workspace, plan) == [18, 12]


def test_without_lines_candles_can_be_planned_by_keyboard_alone(
    page: PlanPage, workspace: Workspace, plan: int, qtbot: QtBot
) -> None:
    candle(workspace, plan, 0, "Garden jar")
    page.make_plan()
    QTest.keyClick(QApplication.focusWidget() or page, Qt.Key.Key_Escape)
    card = shelf_of(page, qtbot)
    assert page.record is not None
    assert card.of_plan.answer is None
    assert not card.of_plan.plan_these.isVisible()
    page.chooser.setFocus()
    tab_to(page, card.alone)
    QTest.keyClick(card.alone, Qt.Key.Key_Space)
    tab_to(page, card.table)
    QTest.keyClick(card.table, Qt.Key.Key_Down)
    if not card.table.selected_keys():
        QTest.keyClick(card.table, Qt.Key.Key_Space)
    tab_to(page, card.of_chosen.plan_these)
    QTest.keyClick(card.of_chosen.plan_these, Qt.Key.Key_Return)
    (made,) = counts(workspace, page.record)
    assert made
    assert made > 12


def test_everything_in_the_cards_has_a_name(page: PlanPage, qtbot: QtBot) -> None:
    card, other = shelf_of(page, qtbot), calendar_of(page)
    for widget in (*card.findChildren(QPushButton), *other.findChildren(QPushButton)):
        if widget.isVisible():
            assert widget.accessibleName() or widget.text()
    assert card.table.accessibleName() == "Each candle alone"
    assert card.of_plan.plan_these.accessibleName().startswith("Plan these: ")


def test_the_calendar_is_printed(
    page: PlanPage, ask: Answers, qtbot: QtBot, tmp_path: Path
) -> None:
    card = calendar_of(page)
    assert not card.print_page.isVisible()
    commit_day(card, FAIR)
    ask.path = tmp_path / "calendar.pdf"
    qtbot.mouseClick(card.print_page, Qt.MouseButton.LeftButton)
    assert ask.asked == ["Where shall the calendar be kept? Calendar 2026-12-19.pdf"]
    assert "Pour all of it" in PdfReader(ask.path).pages[0].extract_text()


def test_a_section_folds_stays_folded_and_still_warns(page: PlanPage, workspace: Workspace) -> None:
    section = next(one for one in page.sections if isinstance(one.panel, CalendarCard))
    assert section.holder.isVisibleTo(page)
    section.header.setFocus()
    QTest.keyClick(section.header, Qt.Key.Key_Space)
    assert not section.holder.isVisibleTo(page)
    assert workspace.services.user.text("plan_folded") == "CalendarCard=folded"
    # Needed so soon that it is too late: the sign beside the folded heading says so.
    assert page.plan is not None
    plans.set_day(workspace, page.plan.id, "needed_on", dt.date(2026, 11, 27))
    page.refresh(None)
    QApplication.processEvents()
    assert section.sign.isVisibleTo(page)
    QTest.keyClick(section.header, Qt.Key.Key_Space)
    assert section.holder.isVisibleTo(page)
