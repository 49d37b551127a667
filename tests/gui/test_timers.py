"""Timers in the window: counting down, ringing on any page, never taking the keyboard."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit

from wickbench.app.timers import ends_at, load_timers, start_timer

if TYPE_CHECKING:
    from gui.conftest import StandingClock
    from wickbench.gui.main_window import MainWindow
    from wickbench.gui.timers.timers_dialog import TimersDialog


@pytest.fixture
def beeps(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What was heard and seen: beeps, and the window's entry in the task bar."""
    heard: list[str] = []
    monkeypatch.setattr(QApplication, "beep", lambda: heard.append("beep"))
    monkeypatch.setattr(QApplication, "alert", lambda *_: heard.append("alert"))
    return heard


def begin(window: MainWindow, name: str, typed: str) -> None:
    assert window.workspace is not None
    start_timer(window.workspace, name, ends_at(window.workspace, typed))


def wait(window: MainWindow, clock: StandingClock, seconds: float) -> None:
    """Time goes by; the window's own timer is told that a second is over."""
    clock.wait(seconds)
    window.timer_watch.tick()


def dialog_of(window: MainWindow) -> TimersDialog:
    window.menus.actions["show_timers"].trigger()
    QApplication.processEvents()
    assert window.timers.dialog is not None
    return window.timers.dialog


def running(window: MainWindow) -> list[QTimer]:
    return [one for one in window.timer_watch.findChildren(QTimer) if one.isActive()]


def test_the_next_one_counts_down_in_the_status_line(
    window: MainWindow, clock: StandingClock, beeps: list[str]
) -> None:
    assert window.status_line.timer.text() == "Timers"
    assert not running(window)
    begin(window, "Cool & wait", "20")
    begin(window, "Stir", "2")
    assert window.status_line.timer.text() == "Stir 2:00"
    wait(window, clock, 26)
    assert window.status_line.timer.text() == "Stir 1:34"
    assert window.status_line.timer.accessibleName() == "Stir 1:34"
    assert running(window)
    assert not beeps


def test_it_rings_on_any_page_and_leaves_the_keyboard_alone(
    window: MainWindow, clock: StandingClock, beeps: list[str]
) -> None:
    assert window.workbench is not None
    for page in ("pour_plan", "labels", "equipment", "bench"):
        window.workbench.show_page(page)
        QApplication.processEvents()
        window.workbench.dock_actions["materials"].trigger()
        focused = window.focusWidget()
        assert isinstance(focused, QLineEdit)
        focused.clear()
        QTest.keyClicks(focused, "so")
        begin(window, "Stir", "2")
        wait(window, clock, 120)
        QApplication.processEvents()
        assert beeps[:2] == ["beep", "alert"]
        assert window.timers.banner.isVisible()
        assert window.timers.banner.sentences == [f"“Stir”: time is up ({ended(window)})."]
        assert window.focusWidget() is focused, page
        QTest.keyClicks(focused, "y")
        assert focused.text() == "soy"
        (row,) = window.timers.banner.rows.values()
        QTest.mouseClick(row.seen, Qt.MouseButton.LeftButton)
        assert not window.timers.banner.isVisible()
        assert not running(window)
        beeps.clear()


def ended(window: MainWindow) -> str:
    from wickbench.app.moments import time_of_day

    return time_of_day(window.timer_watch.timers[0].ends_ms)


def test_it_rings_again_later_when_asked(
    window: MainWindow, clock: StandingClock, beeps: list[str]
) -> None:
    begin(window, "Stir", "2")
    wait(window, clock, 121)
    (row,) = window.timers.banner.rows.values()
    assert "5 minutes more" in row.later.text()
    QTest.mouseClick(row.later, Qt.MouseButton.LeftButton)
    assert not window.timers.banner.isVisible()
    beeps.clear()
    wait(window, clock, 299)
    assert not beeps
    wait(window, clock, 1)
    assert "beep" in beeps


def test_it_beeps_on_for_a_while_and_then_waits_in_silence(
    window: MainWindow, clock: StandingClock, beeps: list[str]
) -> None:
    begin(window, "Stir", "2")
    wait(window, clock, 120)
    for _ in range(600):
        wait(window, clock, 1)
    assert 5 < beeps.count("beep") < 40
    assert beeps.count("alert") == 1
    assert window.timers.banner.isVisible()


def test_the_list_is_used_by_keyboard(window: MainWindow, beeps: list[str]) -> None:
    assert window.menus.actions["show_timers"].shortcut().toString() == "Ctrl+T"
    dialog = dialog_of(window)
    assert dialog.none.isVisible()
    QTest.keyClicks(dialog.name, "Cure")
    dialog.when.setFocus()
    QTest.keyClicks(dialog.when, "5 Dec")
    assert "rings at 09:00 on 5 December 2026" in dialog.when.echo
    QTest.keyClick(dialog.when, Qt.Key.Key_Return)
    assert [one.name for one in window.timer_watch.timers] == ["Cure"]
    assert dialog.when.text() == ""
    (row,) = dialog.rows.values()
    assert "days" in row.left.text()
    QTest.mouseClick(row.stop, Qt.MouseButton.LeftButton)
    assert not window.timer_watch.timers
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    QApplication.processEvents()
    assert window.timers.dialog is None
    assert not beeps


def test_nonsense_stays_with_its_sentence(window: MainWindow) -> None:
    dialog = dialog_of(window)
    for nonsense in ("soon", "0", "-5", "yesterday", "31 Feb", "99:99", "1e3"):
        dialog.when.clear()
        QTest.keyClicks(dialog.when, nonsense)
        assert not dialog.trouble.isVisible(), nonsense
        QTest.keyClick(dialog.when, Qt.Key.Key_Return)
        assert dialog.trouble.text(), nonsense
        assert dialog.when.text() == nonsense
        assert not window.timer_watch.timers
    dialog.close()


def test_a_usual_one_is_one_press(window: MainWindow) -> None:
    dialog = dialog_of(window)
    (stir,) = dialog.usual
    QTest.mouseClick(stir, Qt.MouseButton.LeftButton)
    assert [one.name for one in window.timer_watch.timers] == ["Stir"]
    assert window.status_line.timer.text() == "Stir 2:00"
    dialog.close()


def test_it_outlives_the_closed_workshop_and_says_what_was_missed(
    window: MainWindow, clock: StandingClock, beeps: list[str]
) -> None:
    assert window.workspace is not None
    path = window.workspace.path
    begin(window, "Cool", "10")
    dialog = dialog_of(window)
    window.close_workshop()
    assert not dialog.isVisible()
    assert not running(window)
    assert not window.status_line.timer.isVisible()
    wait(window, clock, 3600)
    assert not beeps
    assert window.open_workshop(path)
    assert beeps[:2] == ["beep", "alert"]
    (said,) = window.timers.banner.sentences
    assert "before Wickbench could ring" in said
    assert len(load_timers(window.workspace)) == 1
    window.close_workshop()
    assert not window.timers.banner.isVisible()
    beeps.clear()
    assert window.open_workshop(path)
    assert window.timers.banner.sentences == [said]
    assert "beep" in beeps
