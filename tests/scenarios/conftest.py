"""The window before anything is open, and the hands of somebody who sits down at it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from gui.conftest import ask, clock, language, make_services
from scenarios.hands import Hands
from wickbench.app.texts import Texts
from wickbench.app.user_settings import UserSettings

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from PySide6.QtWidgets import QApplication

    from gui.conftest import Answers, StandingClock
    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Services
    from wickbench.gui.main_window import MainWindow

__all__ = ["ask", "clock", "language", "make_services"]  # fixtures that the scenarios share

SMALL = (1024, 768)


@pytest.fixture
def new_window(
    qapp: QApplication,
    tmp_path: Path,
    ask: Answers,
    make_services: Callable[[Texts, Ask], Services],
) -> Iterator[Callable[[], MainWindow]]:
    """Makes a window as the program starts with; each is closed at the end."""
    from PySide6.QtCore import QEvent, Qt
    from PySide6.QtTest import QTest

    from wickbench.gui.main_window import MainWindow

    made: list[MainWindow] = []

    def make() -> MainWindow:
        user = UserSettings(None)
        user.set_text("theme", "light")
        demo = tmp_path / "demo.wickbench"
        window = MainWindow(make_services, Texts("en"), lambda: demo, user=user, ask=ask)
        window.setWindowState(Qt.WindowState.WindowNoState)
        window.resize(*SMALL)
        window.show()
        window.activateWindow()
        assert QTest.qWaitForWindowActive(window)
        made.append(window)
        return window

    yield make
    for window in made:
        window.close()
        window.deleteLater()
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete)


@pytest.fixture
def hands(
    new_window: Callable[[], MainWindow],
    ask: Answers,
    clock: StandingClock,
    tmp_path: Path,
) -> Hands:
    """Somebody at a new window who has just begun an empty workshop with its own button."""
    window = new_window()
    ask.path = tmp_path / "workshop"
    made = Hands(window, clock)
    made.press(window.first_run.new)
    assert window.workspace is not None
    assert window.workspace.path == tmp_path / "workshop.wickbench"
    return made
