"""How timers are joined with the window: the banner above the pages, the list, the status line."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QVBoxLayout, QWidget

from wickbench.gui.timers.timer_banner import TimerBanner
from wickbench.gui.timers.timers_dialog import TimersDialog

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtCore import SignalInstance
    from PySide6.QtWidgets import QMainWindow

    from wickbench.gui.timers.timer_watch import TimerWatch


class WindowTimers(QObject):
    """The parts of a window that have to do with timers.

    Attributes:
        under_banner: the window's middle: the banner above what it was given.
        banner: hidden while nothing rings.
        dialog: the list while it is open.
    """

    def __init__(self, window: QMainWindow, watch: TimerWatch, middle: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self.watch = watch
        self.dialog: TimersDialog | None = None
        self.banner = TimerBanner(watch)
        self.banner.setObjectName("timer_banner")
        self.under_banner = QWidget()
        self.under_banner.setObjectName("under_banner")
        box = QVBoxLayout(self.under_banner)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(0)
        box.addWidget(self.banner)
        box.addWidget(middle, 1)

    def join(self, show: Callable[[TimerWatch], None], requested: SignalInstance) -> None:
        """Let the next timer count down somewhere, and open the list from there."""
        self.watch.told.connect(partial(show, self.watch))
        requested.connect(self.show_list)

    def show_list(self) -> None:
        """Open the list, or bring it to the front."""
        workspace = self.watch.workspace
        if workspace is None:
            return
        if self.dialog is None:
            self.dialog = TimersDialog(self.watch, workspace, self._window)
            self.dialog.setObjectName("timers_dialog")
            self.dialog.finished.connect(self._closed)
            self.dialog.destroyed.connect(self._closed)
        self.dialog.show()
        self.dialog.raise_()
        self.dialog.activateWindow()

    def _closed(self, *_: object) -> None:
        self.dialog = None
