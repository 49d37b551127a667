"""From a key pressed in any field of docks and pages to its figures painted; the slowest fields.

Not collected with the tests:  QT_QPA_PLATFORM=offscreen python tests/benchmarks/bench_fields.py
"""

# ruff: noqa: T201  (a benchmark prints)

from __future__ import annotations

import statistics
import tempfile
import time
from pathlib import Path

from bench_plan import FRAME_MS, Watch, bench_workshop
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QMainWindow, QPlainTextEdit, QWidget

from wickbench.app import plans, shelf_edit
from wickbench.app.label_store import stored_labels
from wickbench.app.questions import Silent
from wickbench.app.texts import Texts
from wickbench.app.workspace import Services, Workspace
from wickbench.gui.application import prepare_application
from wickbench.gui.candles.candles_page import CandlesPage
from wickbench.gui.labels.labels_page import LabelsPage
from wickbench.gui.materials.materials_dock import MaterialsDock
from wickbench.gui.recipes.recipes_dock import RecipesDock
from wickbench.gui.vessels.vessels_dock import VesselsDock
from wickbench.main import demo_file

LINES = 200
KEYS, WARM = 16, 3
SLOWEST = 3


def one_field(line: QLineEdit | QPlainTextEdit) -> float:
    """Median milliseconds of processor time for a key, until it is painted."""
    seconds = []
    line.setFocus()
    for number in range(KEYS):
        line.selectAll()
        QTest.qWait(1)
        began = time.thread_time()
        QTest.keyClick(line, Qt.Key(ord("1") + number % 9))
        QCoreApplication.sendPostedEvents()
        QApplication.processEvents()
        seconds.append(time.thread_time() - began)
    QTest.keyClick(line, Qt.Key.Key_Escape)
    return statistics.median(seconds[WARM:]) * 1000


def told(name: str, widget: QWidget) -> None:
    """Print the slowest fields of what is shown."""
    QTest.qWait(50)
    found = [*widget.findChildren(QLineEdit), *widget.findChildren(QPlainTextEdit)]
    lines = [one for one in found if one.isVisible() and one.isEnabled()]
    slow = sorted(((one_field(one), one.accessibleName()) for one in lines), reverse=True)
    said = "; ".join(f"{ms:6.2f} ms {field}" for ms, field in slow[:SLOWEST])
    print(f"{name:14s} {len(lines):3d} fields | {said}", flush=True)


def in_dock(
    workspace: Workspace, make: type[VesselsDock | MaterialsDock | RecipesDock], record: int
) -> None:
    """A dock in a window of its own, at one record."""
    window = QMainWindow()
    dock = make(workspace, Silent())
    window.addDockWidget(Qt.DockWidgetArea.LeftDockWidgetArea, dock)
    window.resize(420, 1000)
    window.show()
    dock.show_record(record)
    told(make.__name__, dock)
    dock.release()
    window.close()


def on_candles(workspace: Workspace, record: int) -> None:
    """The page of candles, at one of them."""
    page = CandlesPage(workspace, Silent())
    page.resize(1100, 860)
    page.show()
    page.show_record(record)
    told("CandlesPage", page)
    page.release()
    page.close()


def on_labels(workspace: Workspace) -> None:
    """The labels page at the demo's first label: its fields, and the words of each element."""
    page = LabelsPage(workspace, Silent())
    page.resize(1400, 900)
    page.show()
    page.show_record(stored_labels(workspace)[0].id)
    told("LabelsPage", page)
    for number in range(3):
        page.editor.elements.choose(number)
        told(f"  element {number}", page.element_panel)
    page.release()
    page.close()


def main() -> None:
    """Print one row for each dock and page."""
    application = QApplication.instance() or QApplication([])
    assert application is not None
    prepare_application("light")
    print(f"processor time of one key until painted, slowest fields; it may take {FRAME_MS:g} ms")
    with tempfile.TemporaryDirectory() as folder:
        workspace, plan = bench_workshop(Path(folder), LINES, 1)
        line = plans.load_plan(workspace, plan).lines[0]
        of = {"version_id": line.version_id, "vessel_id": line.vessel_id}
        candles = [
            shelf_edit.new_candle(workspace, {"name": f"Candle {number}"} | of)
            for number in range(LINES)
        ]
        wax = shelf_edit.new_item(workspace, "wax", {"name": "Soft"}, {"wax_class": "soy"})
        assert line.vessel_id is not None
        in_dock(workspace, VesselsDock, line.vessel_id)
        in_dock(workspace, MaterialsDock, wax)
        in_dock(workspace, RecipesDock, 1)
        on_candles(workspace, candles[0])
        workspace.close()
        workspace = Workspace.open(demo_file(Path(folder)), Services(Watch(), Texts(), Silent()))
        on_labels(workspace)
        workspace.close()


if __name__ == "__main__":
    main()
