"""From a key pressed in a plan to its figures painted, in the real window.

Not collected with the tests:  QT_QPA_PLATFORM=offscreen python tests/benchmarks/bench_typing.py
"""

# ruff: noqa: T201  (a benchmark prints)

from __future__ import annotations

import statistics
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

from bench_plan import FRAME_MS, Watch, bench_workshop, floor_seconds, milliseconds, timed
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit

from wickbench.app import plans
from wickbench.app.questions import Silent
from wickbench.app.shelf import load_shelf
from wickbench.app.workspace import Services, Workspace
from wickbench.gui.application import prepare_application
from wickbench.gui.plan.plan_page import PlanPage

if TYPE_CHECKING:
    from wickbench.app.texts import Texts

KEYS = 40
WARM = 4
TURNS = 200
CASES = ((3, 12), (10, 20), (20, 10), (200, 1))


def open_count(page: PlanPage) -> QLineEdit:
    """The cell of the first line's count, open."""
    table = page.lines.table
    index = page.lines.model.index(0, 1)
    table.setFocus()
    table.setCurrentIndex(index)
    table.edit(index)
    QApplication.processEvents()
    return next(one for one in table.findChildren(QLineEdit) if one.isVisible())


def keys(editor: QLineEdit) -> tuple[list[float], list[float]]:
    """Seconds of processor time until painted, and until everything out of sight follows too."""
    painted, settled = [], []
    for number in range(KEYS):
        editor.selectAll()
        QTest.qWait(1)
        began = time.thread_time()
        QTest.keyClick(editor, Qt.Key(ord("1") + number % 9))
        QCoreApplication.sendPostedEvents()
        painted.append(time.thread_time() - began)
        for _ in range(TURNS):
            QApplication.processEvents()
        settled.append(time.thread_time() - began)
    return painted[WARM:], settled[WARM:]


def page_of(workspace: Workspace, width: int = 1100, height: int = 860) -> PlanPage:
    """The page as the window shows it."""
    page = PlanPage(workspace, Silent())
    page.resize(width, height)
    page.show()
    QApplication.processEvents()
    return page


def reopened(workspace: Workspace, texts: Texts) -> Workspace:
    """The same file, read afresh."""
    path = workspace.path
    workspace.close()
    return Workspace.open(path, Services(Watch(), texts, Silent()))


def main() -> None:
    """Print one row for each plan: figures computed, a plain floor, painted, all settled."""
    application = QApplication.instance() or QApplication([])
    assert application is not None
    prepare_application("light")
    print(f"processor time of one key; it may take {FRAME_MS:g} ms until painted")
    print("lines vessels pots | computed | plain floor | painted | all of it settled")
    with tempfile.TemporaryDirectory() as folder:
        for lines, each in CASES:
            made, plan = bench_workshop(Path(folder), lines, each)
            workspace = reopened(made, made.texts)
            shelf, row = load_shelf(workspace), plans.load_plan(workspace, plan)
            whole = statistics.median(timed(row, shelf, workspace)) * 1000
            floor = statistics.median(floor_seconds(lines, each)) * 1000
            page = page_of(workspace)
            painted, settled = keys(open_count(page))
            pots = sum(not card.isHidden() for card in page.cards)
            print(
                f"{lines:4d} {lines * each:6d} {pots:5d} | {whole:6.2f} ms | {floor:6.2f} ms | "
                f"{milliseconds(painted)} | {milliseconds(settled)}"
            )
            page.release()
            page.close()
            workspace.close()


if __name__ == "__main__":
    main()
