"""Which wicks stand in a candle: none for a melt, up to three."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from wickbench.app.candles import MOST_WICKS
from wickbench.app.references import reference_choices, reference_name
from wickbench.app.texts_marker import N_
from wickbench.gui.fields.choice_field import ReferenceField
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import label

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.workspace import Workspace

_NAMES = (N_("Wick"), N_("Second wick"), N_("Third wick"))


class WicksField(QWidget):
    """One choice per wick; the next one shows when the one before is chosen.

    Signals:
        committed: keys of the wicks in their order.
    """

    committed = Signal(list)

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        self.workspace = workspace
        self._stored: list[int] = []
        texts = workspace.texts
        self.fields = [ReferenceField(texts(name), self._offered, self._name_of) for name in _NAMES]
        self._names = [label(texts(name), "quiet", wrap=False) for name in _NAMES]
        self.passed = label("", "quiet")
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(4)
        for at, (name, field) in enumerate(zip(self._names, self.fields, strict=True)):
            field.setObjectName(f"wick_{at + 1}")
            name.setBuddy(field.editor)
            field.committed.connect(partial(self._chosen, at))
            box.addWidget(name)
            box.addWidget(field)
        box.addWidget(self.passed)
        name_attributes(self)

    def _offered(self) -> list[tuple[str, str]]:
        found = reference_choices(self.workspace, "wick")
        none = self.workspace.texts(N_("no wick"))
        return [("", none), *((str(key), name) for key, name in found)]

    def _name_of(self, key: str) -> str:
        return reference_name(self.workspace, "wick", int(key))

    def show_wicks(self, wicks: Sequence[int]) -> None:
        """Show stored wicks."""
        self._stored = list(wicks)
        for at, field in enumerate(self.fields):
            field.show_stored(str(wicks[at]) if at < len(wicks) else "")
            for widget in (self._names[at], field):
                widget.setVisible(at <= len(wicks))

    def show_passed(self, passed: str) -> None:
        """Say which wicks passed before in this vessel."""
        self.passed.setText(passed)
        self.passed.setVisible(bool(passed))

    def _chosen(self, at: int, word: str) -> None:
        wicks = list(self._stored)
        if at < len(wicks):
            wicks[at : at + 1] = [int(word)] if word else []
        elif word:
            wicks.append(int(word))
        self.committed.emit(wicks[:MOST_WICKS])
