"""The banner of timers that ring: it stays until it was seen, and never takes the keyboard."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtGui import QAccessible, QAccessibleEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from wickbench.app.texts_marker import N_
from wickbench.app.timers import SNOOZE_MIN, over_words, snooze, stop_timer
from wickbench.gui.fonts import scaled
from wickbench.gui.icons import set_icon
from wickbench.gui.naming import accessible
from wickbench.gui.page import button, label
from wickbench.gui.style_sheet import set_look
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from wickbench.app.texts import Texts
    from wickbench.app.timers import Timer
    from wickbench.gui.timers.timer_watch import TimerWatch

_LARGE = 1.25


class _Ringing(QWidget):
    """One timer that rings: what is over, and what can be done."""

    def __init__(self, texts: Texts, key: int) -> None:
        super().__init__()
        self.key = key
        self.said = label("", "watch")
        self.later = button(texts.plural("{n} minute more", "{n} minutes more", SNOOZE_MIN))
        self.seen = button(texts(N_("Seen")), "primary")
        scaled(self.said, _LARGE, bold=True)
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(12)
        line.addWidget(self.said, 1)
        line.addWidget(self.later)
        line.addWidget(self.seen)

    def show_timer(self, texts: Texts, timer: Timer, now_ms: int) -> None:
        """Say what is over."""
        words = over_words(texts, timer, now_ms)
        if self.said.text() == words:
            return
        self.said.setText(words)
        for press in (self.later, self.seen):
            accessible(press, f"{press.text()}: {timer.name}")


class TimerBanner(QFrame):
    """A row for each timer that rings; hidden while none does."""

    def __init__(self, watch: TimerWatch) -> None:
        super().__init__()
        self.watch = watch
        set_look(self, "card")
        self.rows: dict[int, _Ringing] = {}
        self._box = QVBoxLayout(self)
        self._box.setContentsMargins(24, 10, 24, 10)
        self._box.setSpacing(6)
        watch.told.connect(self.show_ringing)
        self.setVisible(False)

    def show_ringing(self) -> None:
        """Show what rings now."""
        workspace = self.watch.workspace
        ringing = [one for one in self.watch.timers if one.rings]
        keys = {one.id for one in ringing}
        for key in [key for key in self.rows if key not in keys]:
            self._drop(key)
        if workspace is not None:
            for one in ringing:
                self._row(one.id).show_timer(workspace.texts, one, self.watch.now_ms)
        fresh = bool(ringing) and self.isHidden()
        self.setVisible(bool(ringing))
        if fresh:
            QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.Alert))

    @property
    def sentences(self) -> list[str]:
        """What is said, from top to bottom."""
        return [row.said.text() for row in self.rows.values()]

    def _row(self, key: int) -> _Ringing:
        if key not in self.rows and self.watch.workspace is not None:
            row = _Ringing(self.watch.workspace.texts, key)
            row.seen.clicked.connect(partial(self._seen, key))
            row.later.clicked.connect(partial(self._later, key))
            set_icon(row.later, "timer", colours_of(self))
            self.rows[key] = row
            self._box.addWidget(row)
        return self.rows[key]

    def _drop(self, key: int) -> None:
        row = self.rows.pop(key)
        self._box.removeWidget(row)
        row.hide()
        row.deleteLater()

    def _seen(self, key: int, *_: object) -> None:
        if self.watch.workspace is not None:
            stop_timer(self.watch.workspace, key)

    def _later(self, key: int, *_: object) -> None:
        if self.watch.workspace is not None:
            snooze(self.watch.workspace, key)
