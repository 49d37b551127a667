"""The pot on the heat: one press when it goes on, one when it is hot."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout

from wickbench.app.bench_heat import FROM, TO, ring_when_hot, view_heating
from wickbench.app.heat_words import HOW_HEATED
from wickbench.app.heatings import begin_heating, correct_heating, end_heating, remove_heating
from wickbench.app.texts_marker import N_
from wickbench.app.timers import offer_words, start_timer
from wickbench.domain.errors import DomainError
from wickbench.gui.bench.value_line import ValueLine, labelled, sentence_of
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.icons import set_icon
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.style_sheet import set_look
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from wickbench.app.bench_heat import BenchPotHeat, HeatingView
    from wickbench.app.workspace import Workspace

_HIGH = 36
_BEGIN = N_("On the heat")
_AGAIN = N_("On the heat again")


class HeatingCard(QFrame):
    """What heating takes, the two temperatures, and the press of the clock."""

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self.known: BenchPotHeat | None = None
        self.view: HeatingView | None = None
        set_look(self, "card")
        self.title = heading(texts(N_("On the heat")))
        self.said = label()
        self.from_line = ValueLine(workspace, FROM)
        self.to_line = ValueLine(workspace, TO)
        self.press = button(texts(_BEGIN))
        self.back = button(texts(N_("Take it back")), "flat")
        self.ring = button(texts(N_("Ring when hot")), "flat")
        self.trouble = label("", "trouble")
        self.how = HowComputed(texts)
        self.how.explain(tuple(texts(one) for one in HOW_HEATED))
        self._lay_out()
        self.press.clicked.connect(self.clock)
        self.back.clicked.connect(self.take_back)
        self.ring.clicked.connect(self.set_timer)
        for line in (self.from_line, self.to_line):
            line.textEdited.connect(self._typed)
            line.entered.connect(self.correct)
            line.left.connect(self.correct)
        name_attributes(self)

    def _lay_out(self) -> None:
        self.press.setMinimumHeight(_HIGH)
        set_icon(self.ring, "timer", colours_of(self))
        line = QHBoxLayout()
        line.setSpacing(12)
        line.addWidget(labelled(self.from_line), 1)
        line.addWidget(labelled(self.to_line), 1)
        line.addWidget(self.press, 2, Qt.AlignmentFlag.AlignBottom)
        tools = QHBoxLayout()
        for part in (self.how, self.ring, self.back):
            tools.addWidget(part)
        tools.addStretch(1)
        box = QVBoxLayout(self)
        box.setContentsMargins(24, 14, 24, 12)
        box.setSpacing(8)
        box.addWidget(self.title)
        box.addWidget(self.said)
        box.addLayout(line)
        box.addWidget(self.trouble)
        box.addLayout(tools)

    # -- what is shown ---------------------------------------------------------------------------
    def show_pot(self, known: BenchPotHeat) -> None:
        """Show the heating of a pot."""
        self.known = known
        view = self._view(known)
        self.from_line.show_value(view.from_c)
        self.to_line.show_value(view.to_c)
        self._show(view)

    def show_again(self) -> None:
        """Time went by, or a timer was begun."""
        if self.known is not None and self.view is not None and self.view.phase == "on":
            self._show(self._view(self.known))

    def _view(self, known: BenchPotHeat) -> HeatingView:
        now_ms = self.workspace.clock.now_ms()
        try:
            typed = self.from_line, self.to_line
            from_c, to_c = (line.value() if line.isModified() else None for line in typed)
        except DomainError:
            from_c = to_c = None
        return view_heating(known, self.workspace.texts, now_ms, from_c=from_c, to_c=to_c)

    def _show(self, view: HeatingView) -> None:
        texts = self.workspace.texts
        self.view = view
        self.said.setText(view.words)
        self.said.setVisible(bool(view.words))
        words = {"off": _BEGIN, "on": N_("At temperature"), "hot": _AGAIN}[view.phase]
        self.press.setText(texts(words))
        set_look(self.press, "primary" if view.phase == "on" else "")
        self.back.setVisible(view.phase != "off")
        offer = ring_when_hot(self.known, view, texts) if self.known is not None else None
        self.ring.setVisible(offer is not None)
        if offer is not None:
            words, may = offer_words(self.workspace, (*offer, texts(N_("Ring when hot"))))
            self.ring.setText(words)
            self.ring.setEnabled(may)
        self._say(view.trouble)

    def _typed(self, *_: object) -> None:
        if self.known is None:
            return
        try:
            for line in (self.from_line, self.to_line):
                line.value()
        except DomainError as error:
            self._say(sentence_of(self.workspace, error))
            return
        self._show(self._view(self.known))

    def _say(self, sentence: str) -> None:
        self.trouble.setText(sentence)
        self.trouble.setVisible(bool(sentence))

    # -- what is done ----------------------------------------------------------------------------
    def clock(self) -> None:
        """The pot goes on the heat, or it is hot."""
        known, view = self.known, self.view
        if known is None or view is None:
            return
        try:
            from_c = self.from_line.value()
            if view.phase != "on":
                began_c = known.room_c if from_c is None or view.phase == "hot" else from_c
                begin_heating(self.workspace, known.pour_pot, known.heater, began_c)
            elif view.heat is not None and known.heating is not None:
                end_heating(self.workspace, known.heating, view.heat)
        except DomainError as error:
            self._say(sentence_of(self.workspace, error))

    def correct(self) -> None:
        """Other temperatures were read."""
        known = self.known
        view = self._view(known) if known is not None else None
        if known is None or view is None or known.heating is None or view.heat is None:
            return
        row = known.heating
        if (view.from_c, view.to_c) == (row.from_c, row.to_c):
            return
        try:
            for line in (self.from_line, self.to_line):
                line.value()
            correct_heating(self.workspace, row, view.heat, view.from_c)
        except DomainError as error:
            self._say(sentence_of(self.workspace, error))

    def take_back(self) -> None:
        """The last heating was none."""
        if self.known is not None and self.known.heating is not None:
            remove_heating(self.workspace, self.known.heating.id)

    def set_timer(self) -> None:
        """Ring when it is likely hot."""
        if self.known is None or self.view is None:
            return
        offer = ring_when_hot(self.known, self.view, self.workspace.texts)
        if offer is not None:
            start_timer(self.workspace, *offer)
