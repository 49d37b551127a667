"""What a plan comes to: labels at the left, values at the right."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QGridLayout

from wickbench.gui.page import label
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QLabel

    from wickbench.app.plan_view import Total


class TotalsCard(QFrame):
    """Rows of a quiet label and a value; showing other values reuses its widgets."""

    def __init__(self) -> None:
        super().__init__()
        set_look(self, "card")
        self._rows: list[tuple[QLabel, QLabel]] = []
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(16, 12, 16, 12)
        self._grid.setHorizontalSpacing(12)
        self._grid.setVerticalSpacing(6)
        self._grid.setColumnStretch(0, 2)
        self._grid.setColumnStretch(1, 3)

    @property
    def values(self) -> dict[str, str]:
        """What is shown, by label."""
        return {name.text(): value.text() for name, value in self._rows if not name.isHidden()}

    def show_totals(self, totals: Sequence[Total]) -> None:
        """Show these rows."""
        while len(self._rows) < len(totals):
            name, value = label("", "quiet"), label()
            at = len(self._rows)
            value.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            self._grid.addWidget(name, at, 0, Qt.AlignmentFlag.AlignTop)
            self._grid.addWidget(value, at, 1, Qt.AlignmentFlag.AlignTop)
            self._rows.append((name, value))
        for at, (name, value) in enumerate(self._rows):
            there = at < len(totals)
            if there:
                name.setText(totals[at].label)
                value.setText(totals[at].value)
            name.setVisible(there)
            value.setVisible(there)
