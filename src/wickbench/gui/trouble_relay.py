"""Carries a sentence about trouble from any thread to the window's own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, Signal

if TYPE_CHECKING:
    from wickbench.app.questions import Ask


class TroubleRelay(QObject):
    """Tells the person one trouble at a time, in the thread that made this relay.

    A fault in painting comes back with every repaint; while one is being told, others are only
    written to the log.
    """

    _happened = Signal(str)

    def __init__(self, ask: Ask, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._ask = ask
        self._telling = False
        self._happened.connect(self._show, Qt.ConnectionType.QueuedConnection)

    def tell(self, sentence: str) -> None:
        """Passes a sentence on; may be called from any thread."""
        self._happened.emit(sentence)

    def _show(self, sentence: str) -> None:
        if self._telling:
            return
        self._telling = True
        try:
            self._ask.tell(sentence)
        finally:
            self._telling = False
