"""Sends pages to a file or a printer: at once when few, with progress and *Stop* when many."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QObject, Signal

from wickbench.app.print_jobs import done_at_once, recorded, written
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.labels.system_print import asked_printer, made_printer, printed_pages

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from wickbench.app.print_jobs import PrintJob, Work
    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace
    from wickbench.gui.labels.work_bar import WorkBar

_PDF: Final = N_("PDF files (*.pdf)")
_MANY_PAGES: Final = 12
_MANY_STICKERS: Final = 500

Words = Callable[[int | None, Path | None], str]
"""From the number of the print and its file to what is said when all is done."""


class Sending(QObject):
    """One thing at a time goes out.

    Signals:
        done: what to say once everything is out, and the look of it; "quiet" when it was stopped.
        changed: work began, or ended in any way.
    """

    done = Signal(str, str)
    changed = Signal()

    def __init__(self, workspace: Workspace, ask: Ask, bar: WorkBar) -> None:
        super().__init__(bar)
        self._workspace, self._ask, self._bar = workspace, ask, bar
        self._after: Callable[[object], object] = lambda _number: None
        bar.finished.connect(self._finished)
        bar.stopped.connect(self._stopped)
        bar.failed.connect(self._failed)

    @property
    def working(self) -> bool:
        """Whether something is on its way."""
        return self._bar.working

    def write(self, job: PrintJob, question: str, suggested: str, words: Words) -> None:
        """Ask where, and write a job's PDF."""
        path = self._ask.save_path(question, suggested, self._workspace.texts(_PDF))
        if path is not None:
            self._send(job, written(job, path), words, path)

    def print(self, job: PrintJob, parent: QWidget, words: Words) -> None:
        """Ask for a printer in the system's dialog, and print a job on it."""
        printer = made_printer(*job.page_mm, job.title)
        if asked_printer(printer, parent, job.page_mm):
            self._send(job, recorded(job, printed_pages(printer, job.draws)), words, None)

    def _send(self, job: PrintJob, work: Work, words: Words, path: Path | None) -> None:
        if self.working:
            return

        def after(number: object) -> None:
            self.done.emit(words(number if isinstance(number, int) else None, path), "fine")

        self._after = after
        if len(job.draws) > _MANY_PAGES or job.stickers >= _MANY_STICKERS:
            self._bar.start(work, len(job.draws))
            self.changed.emit()
            return
        try:
            after(done_at_once(work))
        except DomainError as error:
            self._ask.tell(self._workspace.texts.say(error))

    def _finished(self, number: object) -> None:
        self.changed.emit()
        self._after(number)

    def _stopped(self) -> None:
        self.changed.emit()
        said = N_("Stopped: nothing was written, and nothing is recorded as printed.")
        self.done.emit(self._workspace.texts(said), "quiet")

    def _failed(self, error: DomainError) -> None:
        self.changed.emit()
        self._ask.tell(self._workspace.texts.say(error))
