"""What was printed before, in the real window: found, looked at, exported again, begun anew."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pypdf
import pytest
from PySide6.QtCore import QEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.label_workshop import fill_workshop, sheet_in, view_of
from wickbench.app import labels, print_runs, printing
from wickbench.app.print_history import printed_before
from wickbench.gui.labels.labels_page import PRINTED, RUN, LabelsPage
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from gui.conftest import Answers
    from wickbench.app.workspace import Workspace


@pytest.fixture
def loose(qapp: QApplication, workspace: Workspace, ask: Answers) -> Iterator[LabelsPage]:
    """The page without the window round it."""
    made = LabelsPage(workspace, ask)
    made.resize(1280, 860)
    made.show()
    QApplication.processEvents()
    yield made
    made.release()
    made.close()
    made.deleteLater()
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete)


@pytest.fixture
def page(loose: LabelsPage, tmp_path: Path) -> LabelsPage:
    """Two prints: 24 of one label for one candle, 3 of it for another; then the page."""
    workspace = loose.workspace
    kept = fill_workshop(workspace)
    label = labels.new_label(workspace, "hush", sheet_in(workspace, kept.three_by_seven))
    for candle, count, lot in ((kept.bramble, 24, "26-332-A1"), (kept.cedar, 3, "26-300-B1")):
        run = print_runs.new_run(workspace)
        print_runs.choose_sheet(workspace, run, kept.three_by_seven)
        line = {"label_id": label, "candle_id": candle, "lot_code": lot, "count": count}
        print_runs.add_line(workspace, run, line)
        printing.export_labels(workspace, view_of(workspace, run), tmp_path / f"{count}.pdf")
    loose.tabs.setCurrentIndex(PRINTED)
    QApplication.processEvents()
    return loose


def test_prints_are_found_looked_at_and_exported_again_as_they_were(
    page: LabelsPage, ask: Answers, tmp_path: Path
) -> None:
    history = page.history
    assert [row.number for row in history.model.rows] == [2, 1]
    assert not page.export.isVisible()  # what is in hand on the other tab is not meant here
    QTest.keyClicks(history.search, "332-A1")
    assert [row.number for row in history.model.rows] == [1]
    history.table.go_to(history.model.rows[0].id)
    QApplication.processEvents()
    assert "24 × " in history.stood.text()
    assert "Bramble" in history.stood.text()
    assert history.page_words.text() == "Sheet 1 of 2"
    history.next.click()
    assert history.page_words.text() == "Sheet 2 of 2"
    assert not history.next.isEnabled()
    grabbed = history.sheet.grab().toImage()
    inks = {grabbed.pixelColor(x, y).lightness() for x in range(0, grabbed.width(), 2)
            for y in range(0, grabbed.height() // 3, 2)}  # fmt: skip
    assert min(inks) < 120  # letters stand on it
    with page.workspace.step("Another name") as connection:
        for row in records.fetch_all(connection, "candle"):
            records.update(connection, "candle", int(str(row["id"])), {"name": "Other"})
    ask.path = tmp_path / "again.pdf"
    history.export_again.click()
    first, again = (pypdf.PdfReader(tmp_path / name) for name in ("24.pdf", "again.pdf"))
    texts = [one.extract_text() for one in first.pages]
    assert [one.extract_text() for one in again.pages] == texts
    assert "Print 3 is in again.pdf" in history.done.text()
    history.search.clear()
    assert [row.number for row in history.model.rows] == [3, 2, 1]


def test_a_new_run_is_begun_with_todays_data_and_shown(page: LabelsPage) -> None:
    before = print_runs.run_ids(page.workspace)
    page.history.table.go_to(printed_before(page.workspace)[1].id)
    QApplication.processEvents()
    page.history.new_run.click()
    QApplication.processEvents()
    assert page.tabs.currentIndex() == RUN
    assert page.desk.run_id not in before
    assert [line.count for line in page.desk.run.lines] == [24]
    page.workspace.undo()
    assert print_runs.run_ids(page.workspace) == before


def test_nothing_printed_yet_says_what_will_stand_here(loose: LabelsPage) -> None:
    loose.tabs.setCurrentIndex(PRINTED)
    QApplication.processEvents()
    assert "Nothing was printed yet" in loose.history.nothing.text()
    assert not loose.history.export_again.isVisible()
    assert not loose.history.table.isVisible()
