"""What a pot fills: how many of each were really poured."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtWidgets import QFrame, QGridLayout, QLineEdit, QVBoxLayout, QWidget

from wickbench.app.texts_marker import N_
from wickbench.domain.quantities import parse
from wickbench.gui.fonts import scaled
from wickbench.gui.naming import accessible
from wickbench.gui.page import button, heading, label
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from wickbench.app.bench_view import BenchView
    from wickbench.app.texts import Texts
    from wickbench.domain.errors import DomainError

_LARGE: Final = 1.5


class FillsCard(QFrame):
    """The vessels of a pot; their counts can be corrected once everything is weighed."""

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        set_look(self, "card")
        self.words = heading(texts(N_("Fills")))
        self.rows = QWidget()
        self.grid = QGridLayout(self.rows)
        self.grid.setContentsMargins(0, 0, 0, 0)
        self.trouble = label("", "trouble")
        self.finish = button(texts(N_("The pot is poured out")), "primary")
        self.finish.setMinimumHeight(64)
        scaled(self.finish, 1.25)
        self.counts: dict[int, QLineEdit] = {}
        box = QVBoxLayout(self)
        box.setContentsMargins(16, 12, 16, 12)
        for part in (self.words, self.rows, self.trouble, self.finish):
            box.addWidget(part)

    def show_fills(self, view: BenchView, texts: Texts) -> None:
        """Show the vessels; with fields for the counts while pouring."""
        self.setVisible(bool(view.fills))
        self._clear()
        pouring = view.phase == "pour"
        for row, fill in enumerate(view.fills):
            each = texts.quantity(fill.each_g, "mass", step=0.1)
            words = label(texts(N_("{vessel}, {each} each"), vessel=fill.vessel, each=each))
            scaled(words, _LARGE)
            if pouring:
                name = texts(N_("Filled: {vessel}"), vessel=fill.vessel)
                count: QWidget = accessible(QLineEdit(str(fill.count)), name)
                self.counts[fill.id] = count  # type: ignore[assignment]  # a line, as made above
                count.setMaximumWidth(110)
            else:
                count = label(f"{fill.count} ×", "figure", wrap=False)
            scaled(count, _LARGE, bold=True)
            self.grid.addWidget(count, row, 0)
            self.grid.addWidget(words, row, 1)
        self.grid.setColumnStretch(1, 1)
        self.finish.setVisible(pouring)
        self.show_trouble("")

    def typed_counts(self, locale: str) -> dict[int, int]:
        """What was really poured, by row.

        Raises:
            CannotRead: a count that is none.
        """
        return {
            key: int(parse(line.text(), "count", locale=locale))
            for key, line in self.counts.items()
        }

    def show_trouble(self, sentence: str | DomainError) -> None:
        """Say what is wrong with a count; empty for nothing."""
        self.trouble.setText(str(sentence))
        self.trouble.setVisible(bool(str(sentence)))

    def _clear(self) -> None:
        self.counts = {}
        while (item := self.grid.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
