"""The labels of a pour in the real window: chosen from the menu, looked at, made, updated."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton

from app.label_workshop import view_of
from app.pour_workshop import Poured, pour_out, pour_workshop
from wickbench.app import label_elements, labels, print_runs, printing
from wickbench.gui.labels.labels_page import LABELS, RUN, LabelsPage
from wickbench.gui.labels.pour_dialog import PourDialog
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from wickbench.app.workspace import Workspace
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
    every = [one for one in findings.findChildren(QPushButton) if one.isVisible()]
    buttons = [
        one
        for one in every
        if one.accessibleName().startswith("Show where") and words in one.accessibleName()
    ]
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
    runs = [print_runs.print_run(page.workspace, key) for key in page.desk.runs]
    # the newest run stands first in the list: the jar labels
    assert [run.name for run in runs] == ["Fair: jar labels", "Fair: caution stickers"]
    assert {run.plan_id for run in runs} == {kept.plan}
    assert page.desk.run_id == runs[0].id
    assert page.tabs.currentIndex() == RUN
    assert f"{60 + lots} stickers" in page.run.panel.done.text()
    assert page.run.panel.done.isVisible()
    assert page.export.isEnabled()
    # the run says what it was made for, and leads back to it
    assert "28 November 2026 · Fair" in page.run.panel.pour_line.words.text()
    page.run.panel.pour_line.again.click()
    dialog = opened(page)
    assert dialog.pour.text() == str(kept.plan)
    assert dialog.runs.text().count("to be updated") == 2  # no spare ones are asked for now
    dialog.reject()


# -- the dialog alone ------------------------------------------------------------------------------
@pytest.fixture
def alone(qapp: QApplication, workspace: Workspace) -> Iterator[Callable[[int | None], PourDialog]]:
    """Opens the dialog without a window round it."""
    made: list[PourDialog] = []

    def make(plan: int | None) -> PourDialog:
        made.append(PourDialog(workspace, plan, None))
        made[-1].open()
        return made[-1]

    yield make
    for one in made:
        one.close()
        one.deleteLater()
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def test_again_it_offers_to_update_and_says_what_changes(
    alone: Callable[[int | None], PourDialog], workspace: Workspace
) -> None:
    plan = pour_workshop(workspace).plan
    alone(plan).make.click()
    pour_out(workspace, plan, broken=1)
    printing.record_labels(workspace, view_of(workspace, print_runs.run_ids(workspace)[0]))
    dialog = alone(plan)
    assert dialog.make.text() == "Update 2 print runs"
    shown = [dialog.model.columns[-1].show(row) for row in dialog.model.rows]
    assert sum("→" in text for text in shown) == 2
    assert dialog.runs.text().count("to be updated") == 2
    assert dialog.runs.text().count("print 1, 30 stickers") == 1
    dialog.make.click()
    dialog = alone(plan)
    assert dialog.make.text() == "Show the print run"
    assert dialog.runs.text().count("as wanted") == 2
    assert len(print_runs.run_ids(workspace)) == 2


def test_spare_stickers_that_cannot_be_read_are_told_and_nothing_is_made(
    alone: Callable[[int | None], PourDialog], workspace: Workspace
) -> None:
    dialog = alone(pour_workshop(workspace).plan)
    QTest.keyClicks(dialog.spare.line, "a few")
    assert dialog.spare.trouble.sentence
    assert not dialog.make.isEnabled()
    dialog.spare.line.clear()
    QTest.keyClicks(dialog.spare.line, "2")
    assert not dialog.spare.trouble.sentence
    assert dialog.make.isEnabled()


def test_what_is_missing_leads_to_the_candle_and_closes_the_dialog(
    alone: Callable[[int | None], PourDialog], workspace: Workspace
) -> None:
    kept = pour_workshop(workspace)
    with workspace.step("Clear") as connection:
        records.update(connection, "candle", kept.tin, {"declared_net_g": None})
    dialog = alone(kept.plan)
    led: list[tuple[str, object]] = []
    dialog.go_requested.connect(lambda key, record: led.append((key, record)))
    lead_from(dialog.findings, "Garden Tin has no declared net weight")
    assert led == [("candles/declared_net_g", kept.tin)]
    assert not dialog.isVisible()


def test_without_any_pour_it_says_so(alone: Callable[[int | None], PourDialog]) -> None:
    dialog = alone(None)
    assert "There is no pour yet" in dialog.trouble.text()
    assert not dialog.make.isEnabled()


# -- from the plan and the bench -------------------------------------------------------------------
def test_plan_and_bench_lead_to_the_labels_of_their_pour(
    window: MainWindow, page: LabelsPage, kept: Poured
) -> None:
    assert window.workbench is not None
    for start in ("pour_plan", "bench"):
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
        QApplication.processEvents()


# -- findings of the run lead to what they are about ----------------------------------------------
def run_with(page: LabelsPage, label: int, **values: object) -> None:
    line = {"label_id": label, "count": 1, **values}
    run, _ = print_runs.add_line(page.workspace, page.desk.run_id, line)
    page.desk.run_id = run
    page.refresh(None)
    QApplication.processEvents()


def test_findings_lead_to_element_line_candle_business_and_sheet(
    window: MainWindow, page: LabelsPage, kept: Poured
) -> None:
    assert window.workbench is not None
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

    page.tabs.setCurrentIndex(RUN)
    page.desk.run_id = print_runs.new_run(page.workspace, like=page.desk.run)
    run_with(page, kept.front)
    lead_from(page.run.panel.findings, "No candle is chosen")
    assert page.run.panel.lines.hasFocus()
    lead_from(page.run.panel.findings, "{business}, {business address}")
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
