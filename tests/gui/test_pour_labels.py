"""The labels of a pour in the real window: chosen from the menu, looked at, made, updated."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton

from app.pour_workshop import Poured, pour_out, pour_workshop
from wickbench.app import label_elements, labels, print_runs
from wickbench.gui.labels.labels_page import LABELS, RUN, LabelsPage
from wickbench.gui.labels.pour_dialog import PourDialog
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.gui.findings_list import FindingsList
    from wickbench.gui.main_window import MainWindow


@pytest.fixture
def kept(window: MainWindow) -> Poured:
    assert window.workspace is not None
    return pour_workshop(window.workspace)


@pytest.fixture
def page(window: MainWindow, kept: Poured) -> LabelsPage:
    assert window.workbench is not None
    assert kept.plan
    shown = window.workbench.show_page("labels")
    assert isinstance(shown, LabelsPage)
    QApplication.processEvents()
    return shown


def opened(page: LabelsPage) -> PourDialog:
    QApplication.processEvents()
    dialogs = [one for one in page.findChildren(PourDialog) if one.isVisible()]
    assert len(dialogs) == 1
    return dialogs[0]


def lead_from(findings: FindingsList, words: str) -> None:
    """Press *Show where* beside the sentence with these words."""
    buttons = [one for one in findings.findChildren(QPushButton) if words in one.accessibleName()]
    assert len(buttons) == 1, [one.accessibleName() for one in buttons]
    buttons[0].click()
    QApplication.processEvents()


def test_a_pour_chosen_from_the_menu_becomes_print_runs(page: LabelsPage, kept: Poured) -> None:
    menu = page.run.panel.for_pour.menu()
    assert menu is not None
    menu.aboutToShow.emit()
    assert [action.text() for action in menu.actions()] == ["28 November 2026 · Fair"]
    menu.actions()[0].trigger()
    dialog = opened(page)
    assert sum(line.count for line in dialog.model.rows) == 60
    assert dialog.make.text() == "Make 2 print runs"
    lots = len(dialog.model.rows)
    QTest.keyClicks(dialog.spare.line, "1")
    assert sum(line.count for line in dialog.model.rows) == 60 + lots
    dialog.make.click()
    QApplication.processEvents()
    first, second = (print_runs.print_run(page.workspace, key) for key in (1, 2))
    assert (first.plan_id, second.plan_id) == (kept.plan, kept.plan)
    assert page.desk.run_id == first.id
    assert page.tabs.currentIndex() == RUN
    assert f"{60 + lots} stickers" in page.run.panel.done.text()
    assert page.run.panel.done.isVisible()
    assert page.export.isEnabled()


def test_again_it_offers_to_update_and_says_what_changes(page: LabelsPage, kept: Poured) -> None:
    page.show_pour(kept.plan)
    opened(page).make.click()
    pour_out(page.workspace, kept.plan, broken=1)
    page.show_pour(kept.plan)
    dialog = opened(page)
    assert dialog.make.text() == "Update 2 print runs"
    shown = [dialog.model.columns[-1].show(row) for row in dialog.model.rows]
    assert sum("→" in text for text in shown) == 2
    assert dialog.runs.text().count("to be updated") == 2
    dialog.make.click()
    page.show_pour(kept.plan)
    dialog = opened(page)
    assert dialog.make.text() == "Show the print run"
    assert dialog.runs.text().count("as wanted") == 2
    dialog.reject()
    assert len(print_runs.run_ids(page.workspace)) == 2


def test_spare_stickers_that_cannot_be_read_are_told_and_nothing_is_made(
    page: LabelsPage, kept: Poured
) -> None:
    page.show_pour(kept.plan)
    dialog = opened(page)
    QTest.keyClicks(dialog.spare.line, "a few")
    assert dialog.spare.trouble.sentence
    assert not dialog.make.isEnabled()
    dialog.spare.line.setFocus()
    dialog.spare.line.clear()
    QTest.keyClicks(dialog.spare.line, "2")
    assert not dialog.spare.trouble.sentence
    assert dialog.make.isEnabled()
    dialog.reject()


def test_what_is_missing_leads_to_the_candle(
    window: MainWindow, page: LabelsPage, kept: Poured
) -> None:
    with page.workspace.step("Clear") as connection:
        records.update(connection, "candle", kept.tin, {"declared_net_g": None})
    page.show_pour(kept.plan)
    lead_from(opened(page).findings, "Garden Tin has no declared net weight")
    assert window.workbench is not None
    shown = window.workbench.pages["candles"]
    assert shown.isVisible()
    assert shown.record == kept.tin  # type: ignore[attr-defined]  # the candles' own page
    assert not [one for one in page.findChildren(PourDialog) if one.isVisible()]


@pytest.mark.parametrize("start", ["pour_plan", "bench"])
def test_plan_and_bench_lead_to_the_labels_of_their_pour(
    window: MainWindow, page: LabelsPage, kept: Poured, start: str
) -> None:
    assert window.workbench is not None
    if start == "bench":
        pour_out(page.workspace, kept.plan)
    window.workbench.go(start, kept.plan)
    QApplication.processEvents()
    button = window.workbench.pages[start].to_labels  # type: ignore[attr-defined]
    assert button.isVisible()
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    dialog = opened(page)
    assert dialog.pour.text() == str(kept.plan)
    dialog.reject()


def test_without_any_pour_it_says_so(window: MainWindow) -> None:
    assert window.workbench is not None
    shown = window.workbench.show_page("labels")
    assert isinstance(shown, LabelsPage)
    shown.show_pour()
    dialog = opened(shown)
    assert "There is no pour yet" in dialog.trouble.text()
    assert not dialog.make.isEnabled()
    dialog.reject()


# -- findings of the run lead to what they are about ----------------------------------------------
def run_with(page: LabelsPage, label: int, **values: object) -> None:
    line = {"label_id": label, "count": 1, **values}
    run, _ = print_runs.add_line(page.workspace, page.desk.run_id, line)
    page.desk.run_id = run
    page.refresh(None)
    QApplication.processEvents()


def test_a_finding_about_an_element_opens_its_label_with_it_chosen(
    page: LabelsPage, kept: Poured
) -> None:
    other = labels.new_label(page.workspace, "sill", name="Other")
    at = label_elements.add_element(page.workspace, kept.front, "text")
    change = {"text": "small", "size_pt": 3.0, "min_size_pt": 3.0}
    label_elements.change_element(page.workspace, kept.front, at, change)
    print_runs.choose_sheet(page.workspace, None, kept.sheet)
    run_with(page, other, candle_id=kept.jar)
    run_with(page, kept.front, candle_id=kept.jar)
    told = next(one for one in page.desk.view.findings if one.key == "label.type-too-small")
    lead_from(page.run.panel.findings, page.texts.say(told))
    assert page.tabs.currentIndex() == LABELS
    assert page.editor.label_id == kept.front
    assert page.editor.at == at
    assert page.element_panel.isVisible()


def test_findings_lead_to_line_candle_business_and_sheet(
    window: MainWindow, page: LabelsPage, kept: Poured
) -> None:
    assert window.workbench is not None
    print_runs.choose_sheet(page.workspace, None, kept.sheet)
    run_with(page, kept.front)
    lead_from(page.run.panel.findings, "No candle is chosen")
    assert page.run.panel.lines.hasFocus()
    lead_from(page.run.panel.findings, "business details")
    assert window.workbench.pages["business"].isVisible()
    window.workbench.show_page("labels")
    line = page.desk.run.lines[0].id
    print_runs.change_line(page.workspace, line, {"candle_id": kept.jar})
    QApplication.processEvents()
    lead_from(page.run.panel.findings, "Garden Jar has not passed")
    assert window.workbench.pages["candles"].record == kept.jar  # type: ignore[attr-defined]
    window.workbench.show_page("labels")
    with page.workspace.step("Too far") as connection:
        records.update(connection, "sheet", kept.sheet, {"columns": 4})
    QApplication.processEvents()
    told = next(one for one in page.desk.view.findings if one.key == "sheet.past-right-edge")
    lead_from(page.run.panel.findings, page.texts.say(told))
    assert page.run.panel.sheet_box.measures.isVisible()
