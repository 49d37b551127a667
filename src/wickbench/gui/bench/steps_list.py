"""The ingredients of a pot beside the large one: done, now, later."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QWidget

from wickbench.app.texts_marker import N_
from wickbench.gui.fonts import scaled
from wickbench.gui.page import heading, label

if TYPE_CHECKING:
    from wickbench.app.bench_view import BenchView
    from wickbench.app.texts import Texts

_LARGE: Final = 1.25
_MARKS: Final = {"done": "✓", "now": "▸", "later": ""}
_LOOKS: Final = {"done": "quiet", "now": "heading", "later": ""}
_SPOKEN: Final = {"done": N_("weighed"), "now": N_("now"), "later": N_("to come")}


class StepsList(QWidget):
    """Rows of mark, name and amount."""

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setColumnStretch(1, 1)
        self._title = texts(N_("In this pot"))

    def show_steps(self, view: BenchView, texts: Texts) -> None:
        """Show the ingredients of the pot."""
        while (item := self._grid.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        self._grid.addWidget(heading(self._title), 0, 0, 1, 3)
        for row, step in enumerate(view.steps, 1):
            look = _LOOKS[step.state]
            mark = label(_MARKS[step.state], look, wrap=False)
            mark.setAccessibleName(texts(_SPOKEN[step.state]))
            amount = label(step.amount, look, wrap=False)
            amount.setAlignment(Qt.AlignmentFlag.AlignRight)
            for column, part in enumerate((mark, label(step.name, look), amount)):
                scaled(part, _LARGE, bold=step.state == "now")
                self._grid.addWidget(part, row, column)
