"""Watches the timers of the open workshop, second by second, and rings."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtWidgets import QApplication, QWidget

from wickbench.app.timers import load_timers, ring_due

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.timers import Timer
    from wickbench.app.workspace import Workspace

_SECOND_MS: Final = 1000
_BEEP_EVERY_S: Final = 5
_BEEPS: Final = 24
"""It beeps for two minutes and then waits in silence."""


class TimerWatch(QObject):
    """Tells each second how things stand, while there is a timer at all.

    Attributes:
        timers: as last told.

    Signals:
        told: the timers changed, or a second went by.
        rang: names of those that began to ring just now.
    """

    told = Signal()
    rang = Signal(tuple)

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self.setObjectName("timer_watch")
        self.workspace: Workspace | None = None
        self.timers: tuple[Timer, ...] = ()
        self._window = window
        self._stop: Callable[[], None] = _nothing
        self._beeps = self._ticks = 0
        self._second = QTimer(self)
        self._second.setInterval(_SECOND_MS)
        self._second.timeout.connect(self.tick)

    def follow(self, workspace: Workspace | None) -> None:
        """Watch the timers of this workshop; ``None`` when it is being closed."""
        self._stop()
        self._stop = _nothing
        self.workspace = workspace
        self.timers = ()
        self._second.stop()
        if workspace is not None:
            self._stop = workspace.subscribe(self._changed)
            self._ring(begun=True)
        self.told.emit()

    def tick(self) -> None:
        """A second went by."""
        if self.workspace is None:
            return
        self._ring()
        self._beep_on()
        self.told.emit()

    def _ring(self, *, begun: bool = False) -> None:
        if self.workspace is None:
            return
        due = ring_due(self.workspace)
        self._read()
        if due or (begun and any(one.rings for one in self.timers)):
            self._beeps, self._ticks = _BEEPS, 0
            QApplication.beep()
            QApplication.alert(self._window)
            self.rang.emit(tuple(one.name for one in due))

    def _beep_on(self) -> None:
        """Beep again now and then until the ringing was seen."""
        if not any(one.rings for one in self.timers):
            self._beeps = 0
            return
        self._ticks += 1
        if self._beeps and self._ticks % _BEEP_EVERY_S == 0:
            self._beeps -= 1
            QApplication.beep()

    def _read(self) -> None:
        if self.workspace is None:
            return
        self.timers = load_timers(self.workspace)
        if self.timers and not self._second.isActive():
            self._second.start()
        elif not self.timers:
            self._second.stop()

    def _changed(self, changes: Changes) -> None:
        if changes.touch("timers"):
            self._read()
            self.told.emit()

    @property
    def now_ms(self) -> int:
        """The workshop's clock; 0 while none is open."""
        return self.workspace.clock.now_ms() if self.workspace is not None else 0


def _nothing() -> None:
    """Nothing is watched yet."""
