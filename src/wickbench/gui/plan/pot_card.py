"""The card of one pot: what goes in, how hot, what it fills, what is left, how full it is."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout

from wickbench.app.texts_marker import N_
from wickbench.gui.fonts import scaled
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.naming import name_attributes
from wickbench.gui.plan.pot_drawing import PotDrawing
from wickbench.gui.plan.weigh_row import WeighRow
from wickbench.gui.steady import SteadyBox, SteadyLabel
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from wickbench.app.plan_cards import Card
    from wickbench.app.texts import Texts


class PotCardView(QFrame):
    """One pot; shows another card in the same widgets while the person types.

    Ticks are kept by pot, lot and material for as long as the page is open.
    """

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        set_look(self, "card")
        self._texts = texts
        self._ticks: set[tuple[str, str, str]] = set()
        self.card: Card | None = None
        self.rows: list[WeighRow] = []
        self.title = SteadyLabel("", "heading")
        self.total = SteadyLabel("", "quiet")
        self.fills = SteadyLabel()
        self.facts = SteadyLabel("", "quiet")
        self.how = HowComputed(texts)
        self.drawing = PotDrawing()
        scaled(self.title, 1.1, bold=True)
        scaled(self.fills, 1.05, bold=True)
        self._lay_out()
        name_attributes(self)

    def _lay_out(self) -> None:
        words = QVBoxLayout()
        words.setSpacing(2)
        words.addWidget(self.title)
        words.addWidget(self.total)
        words.addWidget(self.fills)
        words.addStretch(1)
        head = QHBoxLayout()
        head.setSpacing(12)
        head.addLayout(words, 1)
        head.addWidget(self.drawing, 0, Qt.AlignmentFlag.AlignTop)
        box = SteadyBox()
        self.setLayout(box)
        box.setContentsMargins(16, 10, 16, 12)
        box.setSpacing(6)
        box.addLayout(head)
        self._rows = QVBoxLayout()
        self._rows.setSpacing(0)
        box.addLayout(self._rows)
        box.addWidget(self.facts)
        box.addWidget(self.how)

    def figures(self) -> list[SteadyLabel]:
        """The large amounts that are shown, from top to bottom."""
        return [row.amount for row in self.rows if not row.isHidden()]

    def show_card(self, card: Card) -> None:
        """Show a pot; nothing is done when it is the one shown already."""
        if card == self.card:
            return
        texts, self.card = self._texts, card
        self.title.setText(f"{card.title} · {card.lot}" if card.lot else card.title)
        self.total.setText(card.total)
        set_look(self.total, "stops" if card.over else "quiet")
        self.fills.setText(texts(N_("Fills {vessels}"), vessels="; ".join(card.fills)))
        self.facts.setText("\n".join(card.facts))
        self.how.explain(card.how)
        self.drawing.show_fill(card.fill_ratio, card.total, over=card.over)
        self.setAccessibleName(card.spoken)
        self._show_lines(card)

    def _show_lines(self, card: Card) -> None:
        while len(self.rows) < len(card.lines):
            self._add_row()
        for at, row in enumerate(self.rows):
            there = at < len(card.lines)
            if there:
                done = self._place(card, at) in self._ticks
                row.show_line(card.lines[at], self._texts, done=done)
            if row.isHidden() == there:
                row.setVisible(there)
        self._align()

    def _add_row(self) -> None:
        row = WeighRow()
        row.setObjectName(f"weigh_{len(self.rows) + 1}")
        row.ticked.connect(partial(self._tick, len(self.rows)))
        self.rows.append(row)
        self._rows.addWidget(row)

    def _align(self) -> None:
        """Figures of all rows stand under each other."""
        shown = [row for row in self.rows if not row.isHidden()]
        widths = [row.widths for row in shown]
        for row in shown:
            row.set_widths(max(wide for wide, _ in widths), max(wide for _, wide in widths))

    @staticmethod
    def _place(card: Card, at: int) -> tuple[str, str, str]:
        return card.title, card.lot, card.lines[at].name

    def _tick(self, at: int, done: bool) -> None:  # noqa: FBT001 - Qt's signal
        if self.card is None or at >= len(self.card.lines):
            return
        place = self._place(self.card, at)
        if done:
            self._ticks.add(place)
        else:
            self._ticks.discard(place)
