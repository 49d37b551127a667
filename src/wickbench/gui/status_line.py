"""The line at the foot of the window: what is stored, what waits, the next timer, the units."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QStatusBar, QToolButton

from wickbench.app.timers import next_words
from wickbench.gui.icons import set_icon
from wickbench.gui.naming import accessible, name_attributes, plain_action_text
from wickbench.gui.page import label
from wickbench.gui.style_sheet import set_look
from wickbench.gui.theme import colours_of
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace
    from wickbench.gui.timers.timer_watch import TimerWatch


class StatusLine(QStatusBar):
    """Three texts that never take the focus, and the next timer, which opens the list of them.

    Signals:
        timers_requested: the person wants to see the timers.
    """

    timers_requested = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setSizeGripEnabled(False)
        self.stored = self._text()
        self.waiting = self._text()
        self.units = self._text()
        self.timer = QToolButton()
        self.timer.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.timer.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        set_look(self.timer, "flat")
        set_icon(self.timer, "timer", colours_of(self))
        self.timer.clicked.connect(self.timers_requested)
        self.timer.setVisible(False)
        self.addWidget(self.stored)
        self.addWidget(self.waiting)
        self.addPermanentWidget(self.timer)
        self.addPermanentWidget(self.units)
        name_attributes(self)

    @staticmethod
    def _text() -> QLabel:
        return label(wrap=False)

    def show_timer(self, watch: TimerWatch) -> None:
        """Let the next timer count down; nothing while no workshop is open."""
        self.timer.setVisible(watch.workspace is not None)
        if watch.workspace is None:
            return
        words = next_words(watch.workspace.texts, watch.timers, watch.now_ms)
        if plain_action_text(words) != self.timer.text():
            self.timer.setText(plain_action_text(words))
            accessible(self.timer, words)

    def show_workshop(self, workspace: Workspace | None) -> None:
        """Say how things stand; nothing while no workshop is open."""
        if workspace is None:
            for text in (self.stored, self.waiting, self.units):
                text.setText("")
            return
        texts = workspace.texts
        self.stored.setText(texts("{name} · everything is stored", name=workspace.name))
        waiting = drafts_waiting(workspace)
        said = texts.plural("{n} field waits to be mended", "{n} fields wait to be mended", waiting)
        self.waiting.setText(said if waiting else "")
        self.units.setText(units_shown(workspace))


def drafts_waiting(workspace: Workspace) -> int:
    """How many fields hold text that could not be read."""
    with workspace.read() as connection:
        return len(records.fetch_all(connection, "draft", order=("field",)))


def units_shown(workspace: Workspace) -> str:
    """The units in use, for example ``g with lb oz · °C with °F``."""
    texts, said = workspace.texts, []
    for kind in ("mass", "volume", "length", "temperature"):
        first, second = texts.units.first(kind), texts.units.second(kind)
        said.append(texts("{first} with {second}", first=first, second=second) if second else first)
    return " · ".join(said)
