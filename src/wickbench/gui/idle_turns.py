"""Work that waits until the window has been painted: one piece in each turn of the event loop."""

from __future__ import annotations

from collections import deque
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    Piece = Callable[[], object]


class IdleTurns(QObject):
    """Pieces of work of which the last batch alone counts.

    Keys, painting and everything else come first: a piece runs when nothing waits, and after each
    piece the event loop has its turn. A new batch takes the place of what is left of the former
    one, so that nothing out of date is ever worked on.
    """

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._pieces: deque[Piece] = deque()
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._turn)

    @property
    def waiting(self) -> int:
        """How many pieces are left."""
        return len(self._pieces)

    def replace(self, pieces: Iterable[Piece], *, after_ms: int = 0) -> None:
        """Do these, one by one, once so much time has passed; forget what was left."""
        self._pieces = deque(pieces)
        if self._pieces:
            self._timer.start(after_ms)
        else:
            self._timer.stop()

    def finish(self) -> None:
        """Do at once what is left."""
        self._timer.stop()
        while self._pieces:
            self._pieces.popleft()()

    def _turn(self) -> None:
        if not self._pieces:
            return
        piece = self._pieces.popleft()
        if self._pieces:
            self._timer.start(0)
        piece()
