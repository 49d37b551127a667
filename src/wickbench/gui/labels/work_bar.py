"""Work that takes long: how far it is, and a button that stops it; the window stays alive."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QProgressBar, QWidget

from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import button, label

if TYPE_CHECKING:
    from wickbench.app.print_jobs import Work
    from wickbench.app.texts import Texts

_HIGH: Final = 12
_TURN_S: Final = 0.03
"""So long it works at a stretch before keys, clicks and painting have their turn."""


class WorkBar(QWidget):
    """A plain bar with the count of pages and *Stop*; hidden while nothing is worked on.

    Signals:
        finished: what the work gave at its end.
        stopped: the person stopped it.
        failed: the error with which it ended.
    """

    finished = Signal(object)
    stopped = Signal()
    failed = Signal(object)

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        self._texts = texts
        self._work: Work | None = None
        self.words = label("", "quiet", wrap=False)
        self.bar = accessible(QProgressBar(), texts(N_("How far it is")))
        self.bar.setTextVisible(False)
        self.bar.setFixedHeight(_HIGH)
        self.stop_button = button(texts(N_("Stop")))
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(12)
        line.addWidget(self.words)
        line.addWidget(self.bar, 1)
        line.addWidget(self.stop_button)
        self._timer = QTimer(self)
        self._timer.setInterval(0)
        self._timer.timeout.connect(self._turn)
        self.stop_button.clicked.connect(self.stop)
        name_attributes(self)
        self.setVisible(False)

    @property
    def working(self) -> bool:
        """Whether something is being done."""
        return self._work is not None

    def start(self, work: Work, pages: int) -> None:
        """Do this, page by page, whenever nothing else waits.

        Args:
            work: gives how many pages are done.
            pages: how many there are.
        """
        self._work = work
        self.bar.setRange(0, pages)
        self._show(0)
        self.setVisible(True)
        self.stop_button.setFocus()
        self._timer.start()

    def stop(self, *_: object) -> None:
        """End it where it is; nothing of it is left."""
        if self._end() is not None:
            self.stopped.emit()

    def _turn(self) -> None:
        """Work for a moment; what goes wrong ends it."""
        until = time.monotonic() + _TURN_S
        try:
            while self._work is not None:
                self._show(next(self._work))
                if time.monotonic() >= until:
                    return
        except StopIteration as end:
            self._end()
            self.finished.emit(end.value)
        except DomainError as error:
            self._end()
            self.failed.emit(error)
        except BaseException:
            self._end()
            raise

    def _end(self) -> Work | None:
        work, self._work = self._work, None
        self._timer.stop()
        self.setVisible(False)
        if work is not None:
            work.close()
        return work

    def _show(self, done: int) -> None:
        self.bar.setValue(done)
        said = N_("Page {at} of {of}")
        self.words.setText(self._texts(said, at=str(done), of=str(self.bar.maximum())))
