"""What a plan comes to: labels at the left, values at the right."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QWidget

from wickbench.gui.steady import SteadyBox, SteadyFigure, SteadyLabel
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.plan_view import Total


class _Row(QWidget):
    """A quiet label that wraps, and a value that does not."""

    def __init__(self) -> None:
        super().__init__()
        self.name = SteadyLabel("", "quiet")
        self.value = SteadyFigure()
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(12)
        line.addWidget(self.name, 1, Qt.AlignmentFlag.AlignTop)
        line.addWidget(self.value, 0, Qt.AlignmentFlag.AlignTop)

    def show_total(self, total: Total) -> None:
        """Show another label and value in the same widgets."""
        self.name.setText(total.label)
        self.value.show_figure(total.value)
        self.value.setVisible(bool(total.value))


class TotalsCard(QFrame):
    """Rows of a quiet label and a value; showing other values reuses its widgets."""

    def __init__(self) -> None:
        super().__init__()
        set_look(self, "card")
        self._rows: list[_Row] = []
        self._box = SteadyBox()
        self.setLayout(self._box)
        self._box.setContentsMargins(16, 12, 16, 12)
        self._box.setSpacing(6)

    @property
    def values(self) -> dict[str, str]:
        """What is shown, by label."""
        return {row.name.text(): row.value.text() for row in self._rows if not row.isHidden()}

    def show_totals(self, totals: Sequence[Total]) -> None:
        """Show these rows."""
        while len(self._rows) < len(totals):
            row = _Row()
            self._box.addWidget(row)
            self._rows.append(row)
        for at, row in enumerate(self._rows):
            there = at < len(totals)
            if there:
                row.show_total(totals[at])
            row.setVisible(there)
