"""A menu of pours, filled each time it opens: what is planned, and what was poured lately."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QMenu

from wickbench.app.pour_label_words import MOST_POURS, pours
from wickbench.app.texts_marker import N_
from wickbench.gui.naming import plain_action_text

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget

    from wickbench.app.workspace import Workspace


class PourMenu(QMenu):
    """Pours by name; the last entry leads to all of them."""

    def __init__(
        self, workspace: Workspace, parent: QWidget, chosen: Callable[[object], object]
    ) -> None:
        """Make it.

        Args:
            workspace: the open workshop.
            parent: Qt parent.
            chosen: called with the plan's key, or ``None`` for any.
        """
        super().__init__(parent)
        self._workspace = workspace
        self._chosen = chosen
        self.aboutToShow.connect(self.fill)

    def fill(self) -> None:
        """List the pours as they are now."""
        self.clear()
        known = pours(self._workspace)
        for key, words in known[:MOST_POURS]:
            self._add(f"pour_{key}", plain_action_text(words), key)
        if not known or len(known) > MOST_POURS:
            self._add("any_pour", self._workspace.texts(N_("Another pour…")), None)

    def _add(self, name: str, words: str, key: int | None) -> None:
        action = self.addAction(words)
        action.setObjectName(name)
        action.triggered.connect(partial(self._choose, key))

    def _choose(self, key: int | None, *_: object) -> None:
        self._chosen(key)
