"""What leaves the Labels page: PDF, proof and print of the run in hand, former prints again."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from wickbench.app import printing
from wickbench.app.file_names import file_name
from wickbench.app.print_words import printed_text, proof_text
from wickbench.app.texts_marker import N_
from wickbench.app.used_stickers import kept_sentence
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from wickbench.app.print_history import Reprint
    from wickbench.app.print_jobs import PrintJob
    from wickbench.app.questions import Ask
    from wickbench.gui.labels.desk import Desk
    from wickbench.gui.labels.sending import Sending, Words

_WHERE = N_("Where shall the labels be kept?")


class Outgoing(QObject):
    """Makes the jobs and asks where they go.

    Args:
        desk: the run in hand.
        ask: asks for files.
        sending: does the work.
        page: stands under the system's dialog.
    """

    def __init__(self, desk: Desk, ask: Ask, sending: Sending, page: QWidget) -> None:
        super().__init__(page)
        self._desk, self._ask, self._sending, self._page = desk, ask, sending, page

    def export_pdf(self) -> None:
        """Ask where, write the PDF, record the print and freeze its labels."""
        job = self._job(proof=False)
        if job is not None:
            self._sending.write(job, self._say(_WHERE), self._name(), self._words())

    def export_proof(self) -> None:
        """Ask where, and write the sheet with the edges of its stickers for plain paper."""
        job = self._job(proof=True)
        if job is not None:
            suggested = f"{self._say(N_('Proof'))} {self._name()}"
            question = self._say(N_("Where shall the proof be kept?"))
            words = partial(proof_text, self._desk.workspace.texts)
            self._sending.write(job, question, suggested, words)

    def print_sheets(self) -> None:
        """Send the sheets to a printer chosen in the system's dialog."""
        job = self._job(proof=False)
        if job is not None:
            self._sending.print(job, self._page, self._words())

    def export_again(self, shown: Reprint | None) -> None:
        """Ask where, and write the sheets of a former print as they were."""
        if shown is not None:
            day = self._desk.workspace.clock.today()
            name = file_name(f"{shown.job.title[:60]} {day:%Y-%m-%d}.pdf")
            self._sending.write(shown.job, self._say(_WHERE), name, self._again_words())

    def print_again(self, shown: Reprint | None) -> None:
        """Send the sheets of a former print to a printer."""
        if shown is not None:
            self._sending.print(shown.job, self._page, self._again_words())

    def _say(self, words: str) -> str:
        return self._desk.workspace.texts(words)

    def _name(self) -> str:
        return printing.suggested_name(self._desk.workspace, self._desk.view)

    def _job(self, *, proof: bool) -> PrintJob | None:
        workspace = self._desk.workspace
        try:
            return printing.run_job(workspace, self._desk.view, proof=proof)
        except DomainError as error:
            self._ask.tell(workspace.texts.say(error))
            return None

    def _words(self) -> Words:
        """What is said once the run is out, as its sheets are now."""
        texts = self._desk.workspace.texts
        return partial(printed_text, texts, kept_sentence(texts, self._desk.view))

    def _again_words(self) -> Words:
        return partial(printed_text, self._desk.workspace.texts, "")
