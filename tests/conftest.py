"""The same surroundings for every test, on every machine, set before anything else is imported."""

# ruff: noqa: E402  (the surroundings stand before the imports, because Qt reads them once)

from __future__ import annotations

import os

SURROUNDINGS = {
    "QT_QPA_PLATFORM": "offscreen",
    "QT_SCALE_FACTOR": "1",
    "QT_FONT_DPI": "96",
    "LC_ALL": "C.UTF-8",
    "LANG": "C.UTF-8",
    "LANGUAGE": "",
    "TZ": "UTC",
}
os.environ.update(SURROUNDINGS)

import sys
import threading
import time
from importlib import resources
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, settings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from PySide6.QtWidgets import QApplication

    from demo_papers import DemoPapers

if hasattr(time, "tzset"):
    time.tzset()

settings.register_profile(
    "wickbench",
    derandomize=True,
    deadline=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("wickbench")

FONT_PACKAGES = ("font_source_sans_pro", "font_source_serif_pro")
TEST_FONT = ("Source Sans Pro", 11)
# Qt's own threads (fonts, input, dbus) have no Python name; only threads of ours are counted.
PATIENCE_S = 2.0


@pytest.fixture(scope="session", autouse=True)
def _own_user_folders(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Keeps the person's own settings and backups out of the tests' reach."""
    home = tmp_path_factory.mktemp("person")
    for name in ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME"):
        os.environ[name] = str(home / name.lower())


@pytest.fixture(scope="session")
def qapp(qapp: QApplication) -> QApplication:
    """The application with the two shipped typefaces: a bare machine has none, and draws blanks."""
    from PySide6.QtGui import QFont, QFontDatabase

    for package in FONT_PACKAGES:
        for file in (resources.files(package) / "files").iterdir():
            if file.name.endswith(".ttf"):
                QFontDatabase.addApplicationFontFromData(file.read_bytes())
    qapp.setFont(QFont(*TEST_FONT))
    return qapp


def leftover_threads(before: set[threading.Thread]) -> list[str]:
    """Names of the Python threads that a test began and that do not end when waited for."""
    begun = [thread for thread in threading.enumerate() if thread not in before]
    for thread in begun:
        thread.join(PATIENCE_S)
    return [thread.name for thread in begun if thread.is_alive()]


def gui_leftovers() -> list[str]:
    """Windows still shown and timers still running on them, after a test with Qt."""
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication

    application = QApplication.instance()
    if not isinstance(application, QApplication):
        return []
    application.processEvents()
    shown = [window for window in application.topLevelWidgets() if window.isVisible()]
    timers = [timer for timer in application.findChildren(QTimer) if timer.isActive()]
    for window in shown:
        timers += [timer for timer in window.findChildren(QTimer) if timer.isActive()]
        window.close()
    left = [f"window {window.objectName() or type(window).__name__}" for window in shown]
    return left + [f"timer {timer.objectName() or 'without name'}" for timer in timers]


@pytest.fixture(autouse=True)
def _leaves_nothing_behind() -> Iterator[None]:
    """Fails a test that leaves a thread, a timer or a window to the next one."""
    before = set(threading.enumerate())
    yield
    left = [f"thread {name}" for name in leftover_threads(before)]
    if "PySide6.QtWidgets" in sys.modules:
        left += gui_leftovers()
    if left:
        pytest.fail("left behind: " + ", ".join(left))


@pytest.fixture(scope="session")
def demo_papers(tmp_path_factory: pytest.TempPathFactory) -> Iterator[DemoPapers]:
    """What the demo workshop prints; built once, to be read only."""
    from demo_papers import open_demo

    papers = open_demo(tmp_path_factory.mktemp("demo"))
    yield papers
    papers.workspace.close()
