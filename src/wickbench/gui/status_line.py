"""The line at the foot of the window: what is stored, what waits, which units are shown."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QLabel, QStatusBar

from wickbench.gui.naming import name_attributes
from wickbench.gui.page import label
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace


class StatusLine(QStatusBar):
    """Three texts that never take the focus."""

    def __init__(self) -> None:
        super().__init__()
        self.setSizeGripEnabled(False)
        self.stored = self._text()
        self.waiting = self._text()
        self.units = self._text()
        self.addWidget(self.stored)
        self.addWidget(self.waiting)
        self.addPermanentWidget(self.units)
        name_attributes(self)

    @staticmethod
    def _text() -> QLabel:
        return label(wrap=False)

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
