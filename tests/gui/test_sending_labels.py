"""Many labels on their way out: progress, *Stop*, and what is left of it; and the system's printer.

Places on paper are read back with pdfplumber from the file of Qt's printer and from ours.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import pdfplumber
import pypdf
import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from app.label_workshop import Kept, fill_workshop, sheet_in, view_of
from documents.samples import MM
from wickbench.app import label_arranging, label_elements, labels, print_runs, printing
from wickbench.app.label_store import stored_label
from wickbench.app.print_history import printed_before
from wickbench.app.print_words import printed_text
from wickbench.domain.errors import DomainError
from wickbench.gui.labels.labels_page import LabelsPage
from wickbench.gui.labels.sending import Sending
from wickbench.gui.labels.system_print import made_printer, printed_pages
from wickbench.gui.labels.work_bar import WorkBar

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from gui.conftest import Answers
    from wickbench.app.print_run_view import RunView
    from wickbench.app.workspace import Workspace
    from wickbench.gui.main_window import MainWindow

NEAR_MM = 0.05


@pytest.fixture
def page(window: MainWindow) -> LabelsPage:
    """The Labels page with 3 000 labels on 143 sheets."""
    assert window.workspace is not None
    assert window.workbench is not None
    run_of(window.workspace, fill_workshop(window.workspace), 3000)
    shown = window.workbench.show_page("labels")
    assert isinstance(shown, LabelsPage)
    QApplication.processEvents()
    return shown


def run_of(workspace: Workspace, kept: Kept, count: int) -> RunView:
    """So many of one label, placed."""
    run = print_runs.choose_sheet(workspace, None, kept.three_by_seven)
    label = labels.new_label(workspace, "hush", sheet_in(workspace, kept.three_by_seven))
    line = {"label_id": label, "candle_id": kept.bramble, "lot_code": "A1", "count": count}
    print_runs.add_line(workspace, run, line)
    return view_of(workspace, run)


def until_done(sending: Sending) -> None:
    """Let the event loop turn until the work is over."""
    turns = 0
    while sending.working:
        turns += 1
        QApplication.processEvents()
        assert turns < 10_000
    QApplication.processEvents()


def test_three_thousand_labels_show_their_progress_can_be_stopped_and_arrive(
    page: LabelsPage, ask: Answers, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "out"
    folder.mkdir()
    ask.path = folder / "labels.pdf"
    # one page in each turn, as on a slow computer
    monkeypatch.setattr("wickbench.gui.labels.work_bar._TURN_S", 0.0)
    QTest.mouseClick(page.export, Qt.MouseButton.LeftButton)
    assert page.work.isVisible()
    assert page.work.bar.maximum() == 143  # 3000 stickers, 21 to a sheet
    assert page.work.words.text() == "Page 0 of 143"
    # while it works nothing else can be sent, and everything else goes on
    assert not page.export.isEnabled()
    assert page.run.panel.isEnabled()
    while page.work.bar.value() < 40:
        QApplication.processEvents()
    assert 40 <= page.work.bar.value() < 143
    QTest.mouseClick(page.work.stop_button, Qt.MouseButton.LeftButton)
    QApplication.processEvents()
    assert not page.sending.working
    assert not page.work.isVisible()
    assert list(folder.iterdir()) == []
    assert printed_before(page.workspace) == ()
    assert not stored_label(page.workspace, 1).frozen
    assert "nothing is recorded" in page.run.panel.done.text()
    assert page.export.isEnabled()
    page.export.click()
    until_done(page.sending)
    assert len(pypdf.PdfReader(ask.path).pages) == 143
    assert "Print 1 is in labels.pdf" in page.run.panel.done.text()
    assert page.export.isEnabled()
    assert [one.count for one in printed_before(page.workspace)] == [3000]


def test_closing_the_workshop_stops_what_is_on_its_way(
    window: MainWindow, page: LabelsPage, ask: Answers, tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    ask.path = tmp_path / "labels.pdf"
    monkeypatch.setattr("wickbench.gui.labels.work_bar._TURN_S", 0.0)
    page.export.click()
    QApplication.processEvents()
    assert page.sending.working
    window.close_workshop()
    QApplication.processEvents()
    assert not ask.path.exists()


@pytest.fixture
def sending(qapp: QApplication, workspace: Workspace, ask: Answers) -> Iterator[Sending]:
    """What sends, without a window round it."""
    bar = WorkBar(workspace.texts)
    yield Sending(workspace, ask, bar)
    bar.stop()
    bar.deleteLater()
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def test_a_folder_that_is_gone_is_told_and_nothing_is_recorded(
    sending: Sending, workspace: Workspace, ask: Answers, tmp_path: Path
) -> None:
    view = run_of(workspace, fill_workshop(workspace), 600)
    ask.path = tmp_path / "gone" / "labels.pdf"
    job = printing.run_job(workspace, view)
    sending.write(job, "Where?", "labels.pdf", partial(printed_text, workspace.texts, ""))
    assert sending.working
    until_done(sending)
    assert "not there any more" in ask.told[-1]
    assert printed_before(workspace) == ()


def test_a_short_run_is_written_at_once(
    sending: Sending, workspace: Workspace, ask: Answers, tmp_path: Path
) -> None:
    view = run_of(workspace, fill_workshop(workspace), 12)
    ask.path = tmp_path / "labels.pdf"
    said: list[str] = []
    sending.done.connect(lambda words, _look: said.append(words))
    job = printing.run_job(workspace, view)
    sending.write(job, "Where?", "labels.pdf", partial(printed_text, workspace.texts, "Kept."))
    assert ask.path.exists()
    assert said == ["Print 1 is in labels.pdf. Print it at actual size. Kept."]


def test_what_went_to_the_printer_is_recorded_without_a_file(
    sending: Sending, workspace: Workspace, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    view = run_of(workspace, fill_workshop(workspace), 3)
    asked: list[str] = []

    def answered(printer: QPrinter, _parent: object, page_mm: tuple[float, float]) -> bool:
        asked.append(f"{printer.docName()} {page_mm}")
        printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        printer.setOutputFileName(str(tmp_path / "printed.pdf"))
        return len(asked) > 1

    monkeypatch.setattr("wickbench.gui.labels.sending.asked_printer", answered)
    said: list[str] = []
    sending.done.connect(lambda words, _look: said.append(words))
    for _ in range(2):  # the first time the person says no
        job = printing.run_job(workspace, view)
        sending.print(job, QWidget(), partial(printed_text, workspace.texts, ""))
    assert asked == ["Hush (210.0, 297.0)"] * 2
    assert said == ["Print 1 went to the printer."]
    assert [one.file_name for one in printed_before(workspace)] == [""]
    assert (tmp_path / "printed.pdf").exists()


# -- the system's printer --------------------------------------------------------------------------
def to_file(path: Path) -> QPrinter:
    printer = made_printer(210.0, 297.0, "Labels")
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(path))
    return printer


def boxes(path: Path, page: int = 0) -> list[tuple[float, float, float, float]]:
    """Left, top, right and bottom of every painted path, mm from the top left of the page."""
    with pdfplumber.open(path) as document:
        shown = document.pages[page]
        found = [*shown.rects, *shown.curves, *shown.lines]
        return sorted(
            (one["x0"] * MM, one["top"] * MM, one["x1"] * MM, one["bottom"] * MM) for one in found
        )


@pytest.mark.usefixtures("qapp")
def test_the_printer_puts_everything_where_our_pdf_does(
    workspace: Workspace, tmp_path: Path
) -> None:
    kept = fill_workshop(workspace)
    label = run_of(workspace, kept, 30).labels[0]
    every = tuple(range(len(label.design.elements)))
    label_arranging.remove_elements(workspace, label.id, every)
    at = label_elements.add_element(workspace, label.id, "frame")
    place = {"x_mm": 3.3, "y_mm": 4.7, "w_mm": 50.1, "h_mm": 20.2, "figure": "rectangle"}
    label_elements.change_element(
        workspace, label.id, at, {**place, "fill": "#a8540f", "line_mm": 0.0, "inset_mm": 0.0}
    )
    view = view_of(workspace, 1)
    list(printed_pages(to_file(tmp_path / "printed.pdf"), printing.run_job(workspace, view).draws))
    ours = printing.write_labels(workspace, view, tmp_path / "ours.pdf")
    firsts = []
    for number in range(2):
        theirs, mine = boxes(tmp_path / "printed.pdf", number), boxes(ours, number)
        assert len(theirs) == len(mine) == (21, 9)[number]
        for one, other in zip(theirs, mine, strict=True):
            assert one == pytest.approx(other, abs=NEAR_MM)
        firsts.append(mine[0][:2])
    # on the first sticker, counted from the sheet's own measures
    assert firsts[0] == pytest.approx((9.0 + 3.3, 12.5 + 4.7), abs=NEAR_MM)


@pytest.mark.usefixtures("qapp")
def test_text_goes_to_the_printer_as_outlines_not_as_dots(
    workspace: Workspace, tmp_path: Path
) -> None:
    view = run_of(workspace, fill_workshop(workspace), 2)
    draws = printing.run_job(workspace, view).draws
    list(printed_pages(to_file(tmp_path / "printed.pdf"), draws))
    with pdfplumber.open(tmp_path / "printed.pdf") as document:
        assert not document.pages[0].images
        assert len(document.pages[0].curves) > 10


@pytest.mark.usefixtures("qapp")
def test_a_print_stopped_half_way_is_taken_back(workspace: Workspace, tmp_path: Path) -> None:
    view = run_of(workspace, fill_workshop(workspace), 60)
    work = printed_pages(to_file(tmp_path / "printed.pdf"), printing.run_job(workspace, view).draws)
    next(work)
    next(work)
    work.close()
    assert not (tmp_path / "printed.pdf").exists()


@pytest.mark.usefixtures("qapp")
@pytest.mark.qt_log_ignore("QPainter::begin")
def test_a_printer_that_takes_nothing_is_told(workspace: Workspace, tmp_path: Path) -> None:
    with pytest.raises(DomainError) as refused:
        next(printed_pages(to_file(tmp_path / "gone" / "printed.pdf"), (lambda _to: None,)))
    assert workspace.texts.say(refused.value).startswith("The printer did not take the sheets")
