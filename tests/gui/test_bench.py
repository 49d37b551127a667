"""The bench through its own keys and buttons, on a real file."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt

from app.test_pouring import bench_with_plan
from wickbench.app.plans import load_plan
from wickbench.domain.bench_outcome import outcome
from wickbench.gui.bench.bench_page import BenchPage

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace


def shown(workspace: Workspace, ask: Ask, qtbot: QtBot) -> tuple[BenchPage, int]:
    plan = bench_with_plan(workspace)
    page = BenchPage(workspace, ask)
    qtbot.addWidget(page)
    page.resize(1024, 700)
    page.show()
    page.show_record(plan)
    return page, plan


def test_space_takes_what_is_shown_and_typing_moves_the_rest(
    workspace: Workspace, ask: Ask, qtbot: QtBot
) -> None:
    page, _ = shown(workspace, ask, qtbot)
    assert page.view is not None
    assert page.view.name == "Wax"
    qtbot.keyClicks(page.step.weight, "2700 g")
    qtbot.keyClick(page.step.weight, Qt.Key.Key_Return)
    assert page.view.name == "Oil"
    assert page.step.follows.text()
    qtbot.keyClick(page.step.weight, Qt.Key.Key_Space)
    assert page.session is not None
    now = outcome(page.session.state.pots[0])
    assert now.wax_g == 2700.0
    # 8 % of wax, as the recipe says, to half a step of a scale that reads to 0.1 g
    assert now.oil_g == pytest.approx(216.0, abs=0.05)


@pytest.mark.parametrize("nonsense", ["a lot", "12 fl oz", "-3 g", "1e3", "2 lb 4", "0 g"])
def test_nonsense_gets_its_sentence_and_stays(
    workspace: Workspace, ask: Ask, qtbot: QtBot, nonsense: str
) -> None:
    page, _ = shown(workspace, ask, qtbot)
    qtbot.keyClicks(page.step.weight, nonsense)
    qtbot.keyClick(page.step.weight, Qt.Key.Key_Return)
    assert page.step.trouble.text()
    assert page.step.weight.text() == nonsense
    assert page.view is not None
    assert page.view.name == "Wax"


def test_the_whole_pour_to_its_end(workspace: Workspace, ask: Ask, qtbot: QtBot) -> None:
    page, plan = shown(workspace, ask, qtbot)
    pots = len(page.session.pots) if page.session else 0
    assert pots > 1
    for _ in range(pots):
        while page.view is not None and page.view.phase == "weigh":
            qtbot.keyClick(page.step.weight, Qt.Key.Key_Space)
        assert page.fills.finish.isVisible()
        qtbot.mouseClick(page.fills.finish, Qt.MouseButton.LeftButton)
    assert page.view is not None
    assert page.view.phase == "done"
    assert "30" in page.progress.text()
    assert load_plan(workspace, plan).state == "poured"


def test_a_count_that_is_none_is_told_and_the_pot_stays_open(
    workspace: Workspace, ask: Ask, qtbot: QtBot
) -> None:
    page, _ = shown(workspace, ask, qtbot)
    while page.view is not None and page.view.phase == "weigh":
        qtbot.keyClick(page.step.weight, Qt.Key.Key_Space)
    first = next(iter(page.fills.counts.values()))
    first.setText("twelve")
    qtbot.mouseClick(page.fills.finish, Qt.MouseButton.LeftButton)
    assert page.fills.trouble.text()
    assert page.view is not None
    assert page.view.phase == "pour"


def test_taking_back_and_undo_show_the_step_again(
    workspace: Workspace, ask: Ask, qtbot: QtBot
) -> None:
    page, _ = shown(workspace, ask, qtbot)
    qtbot.keyClick(page.step.weight, Qt.Key.Key_Space)
    qtbot.mouseClick(page.step.back, Qt.MouseButton.LeftButton)
    assert page.view is not None
    assert page.view.name == "Wax"
    workspace.undo()
    assert page.view.name == "Oil"


def test_a_note_is_kept_with_the_pot(workspace: Workspace, ask: Ask, qtbot: QtBot) -> None:
    page, plan = shown(workspace, ask, qtbot)
    qtbot.keyClicks(page.note, "cold room")
    other = BenchPage(workspace, ask)
    qtbot.addWidget(other)
    other.show()
    other.show_record(plan)
    assert other.note.toPlainText() == "cold room"
