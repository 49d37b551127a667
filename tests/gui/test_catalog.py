"""A catalog dock: built on first show, searched, and its things made, doubled and removed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QMainWindow

from gui.sample_dock import PotsDock
from wickbench.app import shelf_edit

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot

    from gui.conftest import Answers
    from wickbench.app.workspace import Workspace


@pytest.fixture
def dock(qtbot: QtBot, workspace: Workspace, ask: Answers) -> Iterator[PotsDock]:
    window = QMainWindow()
    qtbot.addWidget(window)
    made = PotsDock(workspace, ask)
    window.addDockWidget(Qt.DockWidgetArea.LeftDockWidgetArea, made)
    window.resize(700, 600)
    assert made.list_pane is None
    with qtbot.waitActive(window):
        window.show()
    yield made
    made.release()
    window.close()


def names(dock: PotsDock) -> list[str]:
    assert dock.list_pane is not None
    return [str(row["name"]) for row in dock.list_pane.model.rows]


def test_an_empty_catalog_says_what_belongs_there(dock: PotsDock) -> None:
    assert dock.editor_pane is not None
    assert dock.editor_pane.empty.isVisible()
    assert dock.editor_pane.empty.text() == PotsDock.empty_text
    assert not dock.form.isVisible()


def test_the_next_step_makes_the_first_thing_and_goes_to_its_name(
    qtbot: QtBot, dock: PotsDock
) -> None:
    assert dock.editor_pane is not None
    qtbot.mouseClick(dock.editor_pane.first, Qt.MouseButton.LeftButton)
    assert dock.form.isVisible()
    assert QApplication.focusWidget() is dock.form.fields["name"].editor
    qtbot.keyClicks(dock.form.fields["name"].editor, "Copper pot")
    qtbot.keyClick(dock.form.fields["name"].editor, Qt.Key.Key_Return)
    assert names(dock) == ["Copper pot"]
    assert dock.editor_pane.title.text() == "Copper pot"


def test_search_finds_by_parts_and_says_when_nothing_fits(
    dock: PotsDock, workspace: Workspace
) -> None:
    for name in ("Blue pitcher", "Übertopf", "Copper pot"):
        shelf_edit.new_equipment(workspace, "pot", {"name": name})
    assert dock.list_pane is not None
    dock.list_pane.search.setText("uber")
    assert names(dock) == ["Übertopf"]
    dock.list_pane.search.setText("zzz")
    assert dock.list_pane.nothing.isVisible()
    dock.list_pane.search.clear()
    assert len(names(dock)) == 3
    assert not dock.list_pane.nothing.isVisible()


def test_duplicate_and_remove_are_acts_that_can_be_undone(
    qtbot: QtBot, dock: PotsDock, workspace: Workspace
) -> None:
    shelf_edit.new_equipment(workspace, "pot", {"name": "Pitcher"})
    assert dock.editor_pane is not None
    qtbot.mouseClick(dock.editor_pane.duplicate, Qt.MouseButton.LeftButton)
    assert names(dock) == ["Pitcher", "Pitcher (copy)"]
    assert dock.editor_pane.title.text() == "Pitcher (copy)"
    qtbot.mouseClick(dock.editor_pane.remove, Qt.MouseButton.LeftButton)
    assert names(dock) == ["Pitcher"]
    workspace.undo()
    workspace.undo()
    assert names(dock) == ["Pitcher"]
    workspace.undo()
    assert names(dock) == []


def test_changes_while_hidden_are_shown_with_the_dock(dock: PotsDock, workspace: Workspace) -> None:
    dock.hide()
    shelf_edit.new_equipment(workspace, "pot", {"name": "Pitcher"})
    assert names(dock) == []
    dock.show()
    assert names(dock) == ["Pitcher"]


def test_typing_goes_on_while_something_else_changes(
    qtbot: QtBot, dock: PotsDock, workspace: Workspace
) -> None:
    shelf_edit.new_equipment(workspace, "pot", {"name": "Pitcher"})
    name = dock.form.fields["name"].editor
    name.setFocus()
    qtbot.keyClick(name, Qt.Key.Key_End)
    qtbot.keyClicks(name, " two")
    shelf_edit.new_equipment(workspace, "pot", {"name": "Other"})
    assert dock.form.fields["name"].text() == "Pitcher two"
    assert names(dock) == ["Pitcher", "Other"]
