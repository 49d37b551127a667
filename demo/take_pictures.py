"""Takes the pictures that the README shows, from the real window with the demo workshop.

Run it from the project folder after ``python3 packaging/start.py test`` made the environment:
``.venv/bin/python demo/take_pictures.py``. Needs no display.
"""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
sys.path.insert(0, str(Path(__file__).parent))

import build_demo
from code_labels import BOX_LABEL
from PySide6.QtCore import QSize
from PySide6.QtWidgets import QApplication, QWidget

from wickbench.app.plans import load_plans
from wickbench.app.questions import Silent
from wickbench.app.user_settings import UserSettings
from wickbench.app.workspace import Services
from wickbench.gui.labels.gallery import Gallery
from wickbench.gui.labels.labels_page import LabelsPage
from wickbench.gui.main_window import MainWindow
from wickbench.main import make_texts

PICTURES = Path(__file__).parent / "pictures"
SIZE = QSize(1440, 900)
# Picture, theme, dock in front, page.
SHOTS = (
    ("pour-plan", "light", "vessels", "pour_plan"),
    ("pour-plan-dark", "dark", "recipes", "pour_plan"),
    ("labels", "light", "", "labels"),
    ("label-canvas", "light", "", "labels"),
    ("gallery", "light", "", "labels"),
    ("bench", "light", "", "bench"),
)


def main() -> None:
    """Open the demo, go to each place and keep what the window shows."""
    application = QApplication([])
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "demo.wickbench"
        build_demo.build(path)
        PICTURES.mkdir(exist_ok=True)
        for name, theme, dock, page in SHOTS:
            user = UserSettings(Path(folder) / f"{name}.ini")
            user.set_text("theme", theme)
            _take(path, user, (name, dock, page))
    application.quit()


def _take(path: Path, user: UserSettings, shot: tuple[str, str, str]) -> None:
    name, dock, page = shot
    window = MainWindow(
        lambda texts, _ask: Services(build_demo.DemoClock(), texts, Silent()),
        make_texts(),
        lambda: path,
        user=user,
        ask=Silent(),
    )
    window.resize(SIZE)
    window.show()
    window.open_workshop(path)
    window.resize(SIZE)
    if window.workbench is not None:
        plan = load_plans(window.workspace)[0].id if window.workspace else None
        window.workbench.go(page, plan if page == "bench" else None)
        if dock:
            window.workbench.go(dock)
    _settle(window)
    seen = _acted(window, name)
    seen.grab().save(str(PICTURES / f"{name}.png"))
    window.close()
    print(PICTURES / f"{name}.png")


def _acted(window: MainWindow, name: str) -> QWidget:
    """Do what a picture needs beside its page; gives what is to be seen."""
    page = window.workbench.pages.get("labels") if window.workbench is not None else None
    if not isinstance(page, LabelsPage) or name not in {"label-canvas", "gallery"}:
        return window
    if name == "gallery":
        page.begin_label()
        _settle(window)
        return next(one for one in page.findChildren(Gallery) if one.isVisible())
    boxes = next(one.id for one in page.desk.labels.values() if one.name == BOX_LABEL)
    page.show_begun(boxes)
    _settle(window)
    return window


def _settle(window: MainWindow) -> None:
    for _ in range(20):
        window.resize(SIZE)  # the offscreen screen is smaller; the window fits itself to it once
        QApplication.processEvents()


if __name__ == "__main__":
    main()
