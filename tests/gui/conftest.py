"""A real workshop in a file of its own, with a clock that stands still, and a real window."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from wickbench.app.texts import Texts
from wickbench.app.user_settings import UserSettings
from wickbench.app.workspace import Services, Workspace

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from PySide6.QtWidgets import QApplication

    from wickbench.app.questions import Ask
    from wickbench.gui.main_window import MainWindow

LANGUAGE = "en"


class StandingClock:
    """A clock that moves only when told."""

    def __init__(self) -> None:
        self.seconds = 1_000.0

    def now_ms(self) -> int:
        return 1_795_600_000_000 + int(self.seconds * 1000)

    def today(self) -> dt.date:
        return dt.date(2026, 11, 25)

    def monotonic(self) -> float:
        return self.seconds

    def wait(self, seconds: float) -> None:
        self.seconds += seconds


class Answers:
    """Answers prepared by a test; what was told and asked is kept."""

    def __init__(self) -> None:
        self.told: list[str] = []
        self.asked: list[str] = []
        self.agree = False
        self.path: Path | None = None

    def tell(self, sentence: str) -> None:
        self.told.append(sentence)

    def confirm(self, question: str, action: str) -> bool:
        self.asked.append(f"{question} {action}")
        return self.agree

    def open_path(self, title: str, kinds: str) -> Path | None:  # noqa: ARG002 - as the protocol
        self.asked.append(title)
        return self.path

    def save_path(self, title: str, suggested: str, kinds: str) -> Path | None:  # noqa: ARG002
        self.asked.append(f"{title} {suggested}")
        return self.path

    def folder(self, title: str) -> Path | None:
        self.asked.append(title)
        return self.path


@pytest.fixture
def clock() -> StandingClock:
    return StandingClock()


@pytest.fixture
def ask() -> Answers:
    return Answers()


@pytest.fixture
def language() -> str:
    """Language of texts; a test that overrides this fixture gets another one."""
    return LANGUAGE


@pytest.fixture
def make_services(clock: StandingClock) -> Callable[[Texts, Ask], Services]:
    return lambda texts, ask: Services(clock, texts, ask)


@pytest.fixture
def workspace(
    tmp_path: Path,
    ask: Answers,
    language: str,
    make_services: Callable[[Texts, Ask], Services],
) -> Iterator[Workspace]:
    """An empty workshop, open, on its own."""
    path = tmp_path / "workshop.wickbench"
    made = Workspace.create(path, make_services(Texts(language), ask))
    yield made
    made.close()


@pytest.fixture
def window(
    qapp: QApplication,
    tmp_path: Path,
    ask: Answers,
    language: str,
    make_services: Callable[[Texts, Ask], Services],
) -> Iterator[MainWindow]:
    """The window over an empty workshop, 1440 × 900, shown."""
    from PySide6.QtCore import QEvent, Qt
    from PySide6.QtTest import QTest

    from wickbench.gui.main_window import MainWindow

    path = tmp_path / "workshop.wickbench"
    Workspace.create(path, make_services(Texts(language), ask)).close()
    user = UserSettings(None)
    user.set_text("theme", "light")
    made = MainWindow(
        make_services, Texts(language), lambda: tmp_path / "demo.wickbench", user=user, ask=ask
    )
    made.setWindowState(Qt.WindowState.WindowNoState)
    made.resize(1440, 900)
    made.show()
    assert made.open_workshop(path)
    made.activateWindow()  # some platforms give the focus to a window only when it is asked for
    assert QTest.qWaitForWindowActive(made)
    yield made
    made.close()
    made.deleteLater()
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete)
