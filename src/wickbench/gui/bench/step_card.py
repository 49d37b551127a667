"""What to do now, to be read from a metre away."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from wickbench.app.texts_marker import N_
from wickbench.gui.bench.weight_line import WeightLine
from wickbench.gui.fonts import scaled
from wickbench.gui.naming import accessible
from wickbench.gui.page import button, label
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from wickbench.app.bench_view import BenchView
    from wickbench.app.texts import Texts

_HUGE: Final = 5.6
_LARGE: Final = 2.2
_PLAIN: Final = 1.5
_BUTTON_HEIGHT: Final = 64


class StepCard(QFrame):
    """Name, amount and temperature in large letters, the line for the weight, one big button."""

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        set_look(self, "card")
        self.name = label()
        self.amount = label("", "figure", wrap=False)
        self.other = label("", "quiet")
        self.how = label()
        self.follows = label("", "quiet")
        self.weight = accessible(WeightLine(), texts(N_("What the scale showed")))
        self.weight.setPlaceholderText(texts(N_("or type it")))
        self.trouble = label("", "trouble")
        self.as_shown = button(texts(N_("As shown (space bar)")), "primary")
        self.back = button(texts(N_("Take the last one back")))
        for part, factor in ((self.name, _LARGE), (self.amount, _HUGE)):
            scaled(part, factor, bold=True)
        for part in (self.other, self.how):
            scaled(part, _PLAIN)
        for press in (self.as_shown, self.back):
            scaled(press, 1.25)
        scaled(self.follows, 1.2)
        scaled(self.weight, _LARGE)
        self.as_shown.setMinimumHeight(_BUTTON_HEIGHT)
        self.back.setMinimumHeight(_BUTTON_HEIGHT)
        self.weight.setMinimumHeight(_BUTTON_HEIGHT)
        self._lay_out()

    def _lay_out(self) -> None:
        box = QVBoxLayout(self)
        box.setContentsMargins(24, 20, 24, 20)
        box.setSpacing(8)
        for part in (self.name, self.amount, self.other, self.how, self.follows):
            box.addWidget(part)
        self.line = QWidget()
        line = QHBoxLayout(self.line)
        line.setContentsMargins(0, 8, 0, 0)
        line.addWidget(self.weight, 2)
        line.addWidget(self.as_shown, 3)
        line.addWidget(self.back, 2)
        box.addWidget(self.line)
        box.addWidget(self.trouble)

    def show_step(self, view: BenchView) -> None:
        """Show what is to be done now."""
        self.name.setText(view.name)
        self.amount.setText(view.amount)
        self.other.setText(view.other)
        self.how.setText(view.how)
        self.follows.setText(view.follows)
        for part in (self.name, self.amount, self.other, self.follows):
            part.setVisible(bool(part.text()))
        self.weight.setVisible(view.phase == "weigh")
        self.as_shown.setVisible(view.phase == "weigh")
        self.line.setVisible(view.phase != "done")
        self.show_trouble("")

    def show_trouble(self, sentence: str) -> None:
        """Say what is wrong with the typed weight; empty for nothing."""
        self.trouble.setText(sentence)
        self.trouble.setVisible(bool(sentence))
