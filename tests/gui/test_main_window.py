"""The window as a person uses it: begin, open, undo, find, fold, theme, and where things stand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import QApplication, QLineEdit, QPushButton

from gui.sample_pages import PlainPage
from wickbench.app import shelf_edit
from wickbench.app.texts import Texts
from wickbench.app.user_settings import UserSettings
from wickbench.gui import workbench
from wickbench.gui.docks import DockSpec
from wickbench.gui.find_anything import FindAnything
from wickbench.gui.main_window import MainWindow
from wickbench.gui.stages import StageSpec

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from gui.conftest import Answers
    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Services


DOCKS = tuple(
    DockSpec(key, title, "pot", "gui.sample_dock:PotsDock")
    for key, title in (("pots", "Pots"), ("other_pots", "Other pots"))
)
STAGES = (
    StageSpec("first", "First stage", "pour-plan", "gui.sample_pages:PlainPage"),
    StageSpec("wide", "Wide stage", "labels", "gui.sample_pages:WidePage"),
)
PLACES = (StageSpec("equipment", "Equipment", "scale", "gui.sample_pages:PlainPage"),)


@pytest.fixture
def window_with_samples(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workbench, "DOCKS", DOCKS)
    monkeypatch.setattr(workbench, "STAGES", STAGES)
    monkeypatch.setattr(workbench, "PLACES", PLACES)


@pytest.fixture
def user() -> UserSettings:
    made = UserSettings(None)
    made.set_text("theme", "light")
    return made


@pytest.fixture
def bench(  # noqa: PLR0917 - fixtures
    window_with_samples: None,  # noqa: ARG001 - in place before the window is made
    qapp: QApplication,
    tmp_path: Path,
    ask: Answers,
    user: UserSettings,
    make_services: Callable[[Texts, Ask], Services],
) -> Iterator[MainWindow]:
    """The window before anything is open."""
    made = MainWindow(
        make_services, Texts("en"), lambda: tmp_path / "demo.wickbench", user=user, ask=ask
    )
    made.setWindowState(Qt.WindowState.WindowNoState)
    made.resize(1440, 900)
    made.show()
    yield made
    made.close()
    made.deleteLater()
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete)


@pytest.fixture
def opened(bench: MainWindow, ask: Answers, tmp_path: Path, qtbot: QtBot) -> MainWindow:
    """The window over a workshop that was just begun through the first-run page."""
    ask.path = tmp_path / "My candles"
    qtbot.mouseClick(bench.first_run.new, Qt.MouseButton.LeftButton)
    with qtbot.waitActive(bench):
        bench.activateWindow()
    return bench


def action_text(window: MainWindow, key: str) -> str:
    return window.menus.actions[key].text()


def test_first_run_begins_a_workshop_with_its_suffix(opened: MainWindow, tmp_path: Path) -> None:
    assert (tmp_path / "My candles.wickbench").is_file()
    assert opened.windowTitle() == "My candles"
    assert opened.status_line.stored.text() == "My candles · everything is stored"
    assert opened.stages_bar.isVisible()
    assert not opened.first_run.isVisible()


def test_nothing_is_begun_when_no_place_was_chosen(
    bench: MainWindow, qtbot: QtBot, ask: Answers
) -> None:
    qtbot.mouseClick(bench.first_run.new, Qt.MouseButton.LeftButton)
    assert ask.asked
    assert bench.workspace is None


def test_a_file_that_is_not_ours_gets_a_sentence(
    bench: MainWindow, ask: Answers, tmp_path: Path
) -> None:
    strange = tmp_path / "letter.wickbench"
    strange.write_text("Dear aunt", encoding="utf-8")
    assert not bench.open_workshop(strange)
    assert len(ask.told) == 1
    assert "(" not in ask.told[0]  # a sentence, not a key with its data
    assert bench.first_run.isVisible()


def test_a_workshop_opened_before_is_offered_again(
    opened: MainWindow, qtbot: QtBot, tmp_path: Path
) -> None:
    opened.close_workshop()
    assert opened.first_run.isVisible()
    offered = [
        one for one in opened.first_run.findChildren(QPushButton) if one.text() == "My candles"
    ]
    qtbot.mouseClick(offered[0], Qt.MouseButton.LeftButton)
    assert opened.workspace is not None
    assert opened.workspace.path == tmp_path / "My candles.wickbench"


def test_undo_and_redo_name_the_act_and_are_grey_without_one(
    opened: MainWindow, qtbot: QtBot
) -> None:
    workspace = opened.workspace
    assert workspace is not None
    assert not opened.menus.actions["undo"].isEnabled()
    shelf_edit.new_equipment(workspace, "pot", {"name": "Pitcher"})
    assert action_text(opened, "undo") == "Undo: Add equipment"
    qtbot.keyClick(opened, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert action_text(opened, "undo") == "Undo"
    assert action_text(opened, "redo") == "Redo: Add equipment"
    opened.menus.actions["redo"].trigger()
    assert action_text(opened, "undo") == "Undo: Add equipment"


def test_undo_from_a_field_reaches_the_workshop(opened: MainWindow, qtbot: QtBot) -> None:
    workspace, bench = opened.workspace, opened.workbench
    assert workspace is not None
    assert bench is not None
    shelf_edit.new_equipment(workspace, "pot", {"name": "Pitcher"})
    bench.go("pots", 1)
    name = bench.docks["pots"].form.fields["name"].editor  # type: ignore[attr-defined]  # a PotsDock
    assert isinstance(name, QLineEdit)
    name.setFocus()
    name.selectAll()
    qtbot.keyClicks(name, "Jug")
    qtbot.keyClick(name, Qt.Key.Key_Return)
    assert name.text() == "Jug"
    qtbot.keyClick(name, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert name.text() == "Pitcher"


def test_drafts_waiting_are_counted(opened: MainWindow, qtbot: QtBot) -> None:
    workspace, bench = opened.workspace, opened.workbench
    assert workspace is not None
    assert bench is not None
    assert opened.status_line.waiting.text() == ""
    shelf_edit.new_equipment(workspace, "pot", {"name": "Pitcher"})
    bench.go("pots", 1)
    brim = bench.docks["pots"].form.fields["brim_ml"].editor  # type: ignore[attr-defined]
    qtbot.keyClicks(brim, "lots")
    qtbot.keyClick(brim, Qt.Key.Key_Return)
    assert opened.status_line.waiting.text() == "1 field waits to be mended"


def test_pages_are_built_on_the_first_visit(opened: MainWindow, qtbot: QtBot) -> None:
    bench = opened.workbench
    assert bench is not None
    assert list(bench.pages) == ["first"]
    qtbot.keyClick(opened, Qt.Key.Key_2, Qt.KeyboardModifier.ControlModifier)
    assert list(bench.pages) == ["first", "wide"]
    assert bench.stage_actions["wide"].isChecked()
    assert not bench.stage_actions["first"].isChecked()


def test_a_page_that_needs_width_folds_the_docks_and_gives_them_back(opened: MainWindow) -> None:
    bench = opened.workbench
    assert bench is not None
    bench.show_page("wide")
    assert all(dock.isHidden() for dock in bench.docks.values())
    bench.show_page("first")
    assert not any(dock.isHidden() for dock in bench.docks.values())


def test_one_key_folds_the_docks_away(opened: MainWindow, qtbot: QtBot) -> None:
    bench = opened.workbench
    assert bench is not None
    for hidden in (True, False):
        qtbot.keyClick(opened, Qt.Key.Key_F9)
        assert [dock.isHidden() for dock in bench.docks.values()] == [hidden, hidden]
        assert opened.menus.actions["fold_docks"].isChecked() == hidden


def test_docks_start_in_one_row_of_tabs_310_wide_and_reset_brings_them_back(
    opened: MainWindow,
) -> None:
    bench = opened.workbench
    assert bench is not None
    pots, other = bench.docks["pots"], bench.docks["other_pots"]
    QApplication.processEvents()
    assert pots.width() == pytest.approx(310, abs=2)
    assert opened.tabifiedDockWidgets(pots) == [other]
    other.setFloating(True)
    pots.hide()
    opened.menus.actions["reset_layout"].trigger()
    assert not other.isFloating()
    assert opened.tabifiedDockWidgets(pots) == [other]


def test_the_layout_and_the_page_are_there_again(
    opened: MainWindow, user: UserSettings, tmp_path: Path
) -> None:
    bench = opened.workbench
    assert bench is not None
    opened.addDockWidget(Qt.DockWidgetArea.RightDockWidgetArea, bench.docks["other_pots"])
    bench.show_page("equipment")
    bench.docks["pots"].close()
    opened.close_workshop()
    assert user.text("stage") == "equipment"
    assert opened.open_workshop(tmp_path / "My candles.wickbench")
    again = opened.workbench
    assert again is not None
    assert list(again.pages) == ["equipment"]
    assert again.docks["pots"].isHidden()
    area = opened.dockWidgetArea(again.docks["other_pots"])
    assert area == Qt.DockWidgetArea.RightDockWidgetArea


def test_find_anything_goes_to_a_record_by_another_word(opened: MainWindow, qtbot: QtBot) -> None:
    workspace, bench = opened.workspace, opened.workbench
    assert workspace is not None
    assert bench is not None
    pot = shelf_edit.new_equipment(workspace, "pot", {"name": "Blue & white"})
    qtbot.keyClick(opened, Qt.Key.Key_K, Qt.KeyboardModifier.ControlModifier)
    finder = opened.findChild(FindAnything)
    assert finder is not None
    qtbot.keyClicks(finder.line, "pitcher")
    assert finder.found.item(0).text() == "Blue & white  ·  Pot"
    qtbot.keyClick(finder.line, Qt.Key.Key_Return)
    page = bench.pages["equipment"]
    assert isinstance(page, PlainPage)
    assert page.shown == pot


def test_find_anything_runs_commands(opened: MainWindow, qtbot: QtBot) -> None:
    opened.find_anything()
    finder = opened.findChild(FindAnything)
    assert finder is not None
    qtbot.keyClicks(finder.line, "wide")
    qtbot.keyClick(finder.line, Qt.Key.Key_Down)
    qtbot.keyClick(finder.line, Qt.Key.Key_Up)
    qtbot.keyClick(finder.line, Qt.Key.Key_Return)
    bench = opened.workbench
    assert bench is not None
    assert bench.stage_actions["wide"].isChecked()


def test_themes_change_at_once_and_are_remembered(opened: MainWindow, user: UserSettings) -> None:
    for theme, ground in (("dark", "#1f1b18"), ("light", "#fbf8f3")):
        opened.set_theme(theme)
        assert opened.palette().window().color().name() == ground
        assert user.text("theme") == theme


def test_another_workshop_takes_the_place_of_the_open_one(
    opened: MainWindow, ask: Answers, tmp_path: Path
) -> None:
    before = opened.workspace
    ask.path = tmp_path / "second.wickbench"
    opened.new_workshop()
    assert opened.workspace is not before
    assert opened.windowTitle() == "second"
    assert opened.open_workshop(tmp_path / "My candles.wickbench")
    assert opened.windowTitle() == "My candles"


def test_a_copy_is_saved_beside(opened: MainWindow, ask: Answers, tmp_path: Path) -> None:
    ask.path = tmp_path / "copy.wickbench"
    opened.save_copy()
    assert ask.path.is_file()
    assert not ask.told


def test_a_dock_becomes_a_window_of_its_own_from_the_menu(opened: MainWindow) -> None:
    bench = opened.workbench
    assert bench is not None
    dock = bench.docks["other_pots"]
    assert dock.titleBarWidget() is not None  # its tab names it
    for floating in (True, False):
        opened.docks_menu.aboutToShow.emit()
        opened.docks_menu.actions()[-1].trigger()
        assert dock.isFloating() == floating
        assert (dock.titleBarWidget() is None) == floating


def test_docks_closed_one_by_one_come_back_with_one_key(opened: MainWindow, qtbot: QtBot) -> None:
    bench = opened.workbench
    assert bench is not None
    for dock in bench.docks.values():
        dock.close()
    qtbot.keyClick(opened, Qt.Key.Key_F9)
    assert not any(dock.isHidden() for dock in bench.docks.values())


def test_find_anything_reaches_into_menus_in_menus(opened: MainWindow, user: UserSettings) -> None:
    opened.find_anything()
    finder = opened.findChild(FindAnything)
    assert finder is not None
    assert [target.title for target in finder.targets("colours dark")] == ["Dark"]
    finder.close()
    next(one for one in opened.menus.commands() if one.text() == "Dark").trigger()
    assert user.text("theme") == "dark"
    opened.set_theme("light")
