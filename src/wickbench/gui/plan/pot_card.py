"""One pot of a plan: what to weigh, large; what it fills; how full it is, drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget
from typing_extensions import override

from wickbench.app.texts_marker import N_
from wickbench.gui.fonts import scaled
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import label
from wickbench.gui.plan.pot_drawing import PotDrawing
from wickbench.gui.style_sheet import set_look
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from PySide6.QtWidgets import QLabel

    from wickbench.app.plan_cards import Card, CardLine
    from wickbench.app.texts import Texts

_BOX: Final = 18
_FIGURE: Final = 1.35
_STATES: Final = {"open": N_("on the bench"), "done": N_("poured")}


class TickBox(QWidget):
    """A drawn box, ticked once its line was weighed at the bench; nothing to click."""

    def __init__(self) -> None:
        super().__init__()
        self.ticked = False
        self.setFixedSize(QSize(_BOX + 4, _BOX + 4))
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def show_tick(self, *, ticked: bool, words: str) -> None:
        """Ticked or not, and said."""
        accessible(self, words)
        if ticked != self.ticked:
            self.ticked = ticked
            self.update()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        colours = colours_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(2, 2, _BOX, _BOX)
        ink = QColor(colours.fine if self.ticked else colours.quiet)
        painter.setPen(QPen(ink, 1.75))
        painter.drawRoundedRect(box, 3, 3)
        if self.ticked:
            tick = ((6.0, 11.5), (10.0, 15.5), (16.5, 7.0))
            painter.drawPolyline([QPointF(x, y) for x, y in tick])
        painter.end()


class _Row:
    """The widgets of one line to weigh."""

    def __init__(self) -> None:
        self.box = TickBox()
        self.name = label()
        self.amount = label("", "figure", wrap=False)
        self.other = label("", "quiet", wrap=False)
        self.how = label("", "")
        scaled(self.amount, _FIGURE, bold=True)
        self.amount.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.other.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)

    @property
    def widgets(self) -> tuple[QWidget, ...]:
        return (self.box, self.name, self.amount, self.other, self.how)

    def show_line(self, line: CardLine, texts: Texts) -> None:
        state = texts(N_("weighed")) if line.weighed else texts(N_("to weigh"))
        self.box.show_tick(ticked=bool(line.weighed), words=f"{line.name}: {state}")
        self.name.setText(line.name)
        self.amount.setText(line.amount)
        self.other.setText(line.other)
        self.how.setText("\n".join(part for part in (line.when, line.scale) if part))


class PotCardView(QFrame):
    """The card of one pot; showing other values reuses its widgets."""

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        set_look(self, "card")
        self._texts = texts
        self._rows: list[_Row] = []
        self.shown: Card | None = None
        self.title = label("", "heading")
        self.lot = label("", "", wrap=False)
        self.state = label("", "fine", wrap=False)
        self.total = label("", "quiet")
        self.drawing = PotDrawing()
        self.fills = label("", "heading")
        self.facts = label("", "quiet")
        self._grid = QGridLayout()
        self._lay_out()
        name_attributes(self)

    def _lay_out(self) -> None:
        scaled(self.title, 1.12, bold=True)
        scaled(self.lot, 1.12, bold=True)
        head = QHBoxLayout()
        head.setSpacing(12)
        head.addWidget(self.title, 1)
        head.addWidget(self.state)
        head.addWidget(self.lot)
        self._grid.setHorizontalSpacing(14)
        self._grid.setVerticalSpacing(6)
        self._grid.setColumnStretch(1, 3)
        self._grid.setColumnStretch(4, 5)
        body = QHBoxLayout()
        body.setSpacing(16)
        picture = QVBoxLayout()
        picture.addWidget(self.drawing)
        picture.addStretch(1)
        body.addLayout(picture)
        body.addLayout(self._grid, 1)
        box = QVBoxLayout(self)
        box.setContentsMargins(16, 12, 16, 12)
        box.setSpacing(6)
        box.addLayout(head)
        box.addWidget(self.total)
        box.addLayout(body)
        box.addWidget(self.fills)
        box.addWidget(self.facts)

    def show_card(self, card: Card) -> None:
        """Show a pot."""
        if card == self.shown:
            return
        self.shown = card
        texts = self._texts
        self.title.setText(card.title)
        self.lot.setText(card.lot)
        self.state.setText(texts(_STATES.get(card.state, "")))
        self.state.setVisible(card.state in _STATES)
        self.total.setText(card.total)
        set_look(self.total, "stops" if card.over else "quiet")
        self.drawing.show_fill(card.fill_ratio, card.total, over=card.over)
        self.fills.setText(texts(N_("Fills {vessels}"), vessels="\n".join(card.fills)))
        self.fills.setVisible(bool(card.fills))
        self.facts.setText(" · ".join(card.facts))
        accessible(self, card.title, card.spoken)
        self._show_lines(card)

    def _show_lines(self, card: Card) -> None:
        while len(self._rows) < len(card.lines):
            row = _Row()
            for column, widget in enumerate(row.widgets):
                self._grid.addWidget(widget, len(self._rows), column)
            self._rows.append(row)
        for at, row in enumerate(self._rows):
            there = at < len(card.lines)
            if there:
                row.show_line(card.lines[at], self._texts)
            for widget in row.widgets:
                widget.setVisible(there)

    def figures(self) -> list[QLabel]:
        """The labels of what to weigh, top to bottom."""
        count = len(self.shown.lines) if self.shown else 0
        return [row.amount for row in self._rows[:count]]
