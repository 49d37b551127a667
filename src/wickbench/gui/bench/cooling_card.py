"""The pot that cools: temperatures typed as they are read, the curve, and when it can be poured."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout

from wickbench.app import cooling_log
from wickbench.app.cooling_view import (
    READ_C,
    ROOM_C,
    check_moment,
    check_reading,
    view_cooling,
)
from wickbench.app.heat_words import HOW_COOLED
from wickbench.app.texts_marker import N_
from wickbench.app.timers import offer_words, start_timer
from wickbench.domain.errors import DomainError
from wickbench.gui.bench.cooling_curve import CoolingCurve
from wickbench.gui.bench.value_line import ValueLine, labelled, sentence_of
from wickbench.gui.fonts import scaled
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.icons import set_icon
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.style_sheet import set_look
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from PySide6.QtWidgets import QPushButton

    from wickbench.app.bench_heat import BenchPotHeat
    from wickbench.app.cooling_view import CoolingView
    from wickbench.app.workspace import Workspace

_HIGH = 36
_LARGE = 1.35


class CoolingCard(QFrame):
    """Two readings and the room, and the answer stands here."""

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self.known: BenchPotHeat | None = None
        self.view: CoolingView | None = None
        set_look(self, "card")
        self.title = heading(texts(N_("Cooling")))
        self.answer = label()
        self.more = label()
        self.needed = label("", "quiet")
        self.read = ValueLine(workspace, READ_C)
        self.room = ValueLine(workspace, ROOM_C)
        self.note = button(texts(N_("Note it")))
        self.trouble = label("", "trouble")
        self.curve = CoolingCurve(texts(N_("Curve of cooling")), texts(N_("now")))
        self.readings: QLabel = label("", "quiet")
        self.ring = button("")
        self.closes = button("", "flat")
        self.last_back = button(texts(N_("Take the last reading back")), "flat")
        self.anew = button(texts(N_("Begin anew")), "flat")
        self.how = HowComputed(texts)
        self.how.explain(tuple(texts(one) for one in HOW_COOLED))
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _lay_out(self) -> None:
        scaled(self.answer, _LARGE, bold=True)
        self.note.setMinimumHeight(_HIGH)
        for press in (self.ring, self.closes):
            set_icon(press, "timer", colours_of(self))
        line = QHBoxLayout()
        line.setSpacing(12)
        line.addWidget(labelled(self.read), 1)
        line.addWidget(labelled(self.room), 1)
        line.addWidget(self.note, 2, Qt.AlignmentFlag.AlignBottom)
        rings = _row(self.ring, self.closes)
        tools = _row(self.how, self.last_back, self.anew)
        box = QVBoxLayout(self)
        box.setContentsMargins(24, 14, 24, 12)
        box.setSpacing(8)
        box.addWidget(self.title)
        box.addWidget(self.answer)
        box.addWidget(self.needed)
        box.addWidget(self.more)
        box.addLayout(line)
        for part in (self.trouble, self.curve, self.readings):
            box.addWidget(part)
        box.addLayout(rings)
        box.addLayout(tools)

    def _connect(self) -> None:
        self.read.entered.connect(self.note_reading)
        self.note.clicked.connect(self.note_reading)
        self.room.entered.connect(self.correct_room)
        self.room.left.connect(self.correct_room)
        self.read.textEdited.connect(self._typed)
        self.room.textEdited.connect(self._typed)
        self.ring.clicked.connect(partial(self._set_timer, "ring"))
        self.closes.clicked.connect(partial(self._set_timer, "closes"))
        self.last_back.clicked.connect(self.take_last_back)
        self.anew.clicked.connect(self.begin_anew)

    # -- what is shown ---------------------------------------------------------------------------
    def show_pot(self, known: BenchPotHeat) -> None:
        """Show the readings of a pot."""
        if self.known is not None and self.known.pour_pot != known.pour_pot:
            self.read.clear()
        self.known = known
        self.room.show_value(known.cools.room_c)
        self.room.show_assumed(known.room_c)
        self._show(self._view_of(known))

    def show_again(self) -> None:
        """Time went by, or a timer was begun: the line of now moves on."""
        if self.known is not None and self.known.cools.readings:
            trouble = self.trouble.text()
            self._show(self._view_of(self.known))
            self._say(trouble or self.trouble.text())

    def _view_of(self, known: BenchPotHeat) -> CoolingView:
        return view_cooling(known, self.workspace.texts, self.workspace.clock.now_ms())

    def _show(self, view: CoolingView) -> None:
        self.view = view
        answer = view.answer if view.drawn else ""
        for part, words in ((self.answer, answer), (self.more, view.more)):
            part.setText(words)
            part.setVisible(bool(words))
        self.needed.setText("" if view.drawn else view.answer)
        self.needed.setVisible(bool(self.needed.text()))
        self.curve.show_curve(view.drawn)
        self.readings.setText("   ".join(one.words for one in view.readings))
        self.readings.setVisible(bool(view.readings))
        for press, offer in ((self.ring, view.ring), (self.closes, view.closes)):
            press.setVisible(offer is not None)
            if offer is not None:
                words, may = offer_words(self.workspace, offer)
                press.setText(words)
                press.setEnabled(may)
        for press in (self.last_back, self.anew):
            press.setVisible(bool(view.readings))
        self._say(view.trouble)

    def _typed(self, *_: object) -> None:
        self._say(self.view.trouble if self.view is not None else "")

    def _say(self, sentence: str) -> None:
        self.trouble.setText(sentence)
        self.trouble.setVisible(bool(sentence))

    # -- what is done ----------------------------------------------------------------------------
    def note_reading(self) -> None:
        """Keep what the thermometer shows; what cannot be stays typed, with its sentence."""
        known = self.known
        if known is None:
            return
        try:
            read_c, room_c = self.read.value(), self.room.value()
            if read_c is None:
                self.read.setFocus()
                return
            room = known.room_c if room_c is None else room_c
            check_reading(known, read_c, room)
            check_moment(known, self.workspace.clock.now_ms())
            self.read.clear()
            self.read.set_echo("")
            cooling_log.note_reading(self.workspace, known.pour_pot, read_c, room)
        except DomainError as error:
            self._say(sentence_of(self.workspace, error))
            self.read.setFocus()

    def correct_room(self) -> None:
        """The room was read again."""
        known = self.known
        if known is None:
            return
        try:
            room_c = self.room.value()
        except DomainError as error:
            self._say(sentence_of(self.workspace, error))
            return
        if room_c != known.cools.room_c and room_c is not None:
            self.room.setModified(False)
            cooling_log.set_room(self.workspace, known.pour_pot, room_c)

    def take_last_back(self) -> None:
        """The last reading was wrong."""
        if self.known is not None and self.known.cools.readings:
            last = self.known.cools.readings[-1].id
            cooling_log.forget_readings(self.workspace, self.known.pour_pot, (last,))

    def begin_anew(self) -> None:
        """The pot was warmed again: no reading of before counts."""
        if self.known is not None:
            keys = [one.id for one in self.known.cools.readings]
            cooling_log.forget_readings(self.workspace, self.known.pour_pot, keys)

    def _set_timer(self, which: str, *_: object) -> None:
        offer = getattr(self.view, which) if self.view is not None else None
        if offer is not None:
            start_timer(self.workspace, offer[0], offer[1])


def _row(*parts: QPushButton | HowComputed) -> QHBoxLayout:
    line = QHBoxLayout()
    for part in parts:
        line.addWidget(part)
    line.addStretch(1)
    return line
