"""Above a print run that was made for a pour: which one, and the way back to it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from wickbench.app.pour_label_words import pour_of
from wickbench.app.texts_marker import N_
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, label

if TYPE_CHECKING:
    from wickbench.app.print_runs import PrintRun
    from wickbench.app.workspace import Workspace


class PourLine(QWidget):
    """One quiet line; hidden for a run of one's own.

    Signals:
        pour_requested: key of the pour to be looked at again.
    """

    pour_requested = Signal(object)

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        self._workspace = workspace
        self._plan: int | None = None
        self.words = label("", "quiet")
        self.again = button(workspace.texts(N_("Compare with the pour…")), "flat")
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.addWidget(self.words, 1)
        line.addWidget(self.again, 0, Qt.AlignmentFlag.AlignTop)
        self.again.clicked.connect(lambda: self.pour_requested.emit(self._plan))
        name_attributes(self)

    def show_run(self, run: PrintRun) -> None:
        """Show what a run was made for."""
        self._plan = run.plan_id
        said = pour_of(self._workspace, run.plan_id) if run.plan_id is not None else ""
        texts = self._workspace.texts
        self.words.setText(texts(N_("Made for the pour of {pour}"), pour=said) if said else "")
        self.setVisible(bool(said))
