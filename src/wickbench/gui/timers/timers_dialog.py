"""The list of timers: begin one, stop one, let one ring later."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from wickbench.app.texts_marker import N_
from wickbench.app.timers import (
    SNOOZE_MIN,
    ends_at,
    ends_words,
    left_words,
    snooze,
    start_timer,
    stop_timer,
)
from wickbench.app.usual_timers import usual_timers
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.line_field import EchoLine
from wickbench.gui.naming import accessible, name_attributes, plain_action_text
from wickbench.gui.page import button, heading, label
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from PySide6.QtGui import QCloseEvent, QKeyEvent

    from wickbench.app.texts import Texts
    from wickbench.app.timers import Timer
    from wickbench.app.usual_timers import UsualTimer
    from wickbench.app.workspace import Workspace
    from wickbench.gui.timers.timer_watch import TimerWatch

_WIDTH: Final = 520


class _Row(QWidget):
    """One timer of the list."""

    def __init__(self, texts: Texts, timer: Timer) -> None:
        super().__init__()
        self.name = label(timer.name)
        self.left = label("", "figure", wrap=False)
        self.later = button(texts(N_("+ {n} min"), n=SNOOZE_MIN), "flat")
        self.stop = button(texts(N_("Stop")), "flat")
        accessible(self.stop, texts(N_("Stop {name}"), name=timer.name))
        accessible(self.later, texts(N_("{name} later"), name=timer.name))
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.addWidget(self.name, 1)
        for part in (self.left, self.later, self.stop):
            line.addWidget(part)


class TimersDialog(QDialog):
    """Stays open beside the work; the list counts down."""

    def __init__(self, watch: TimerWatch, workspace: Workspace, parent: QWidget) -> None:
        super().__init__(parent)
        texts = workspace.texts
        self.watch = watch
        self.workspace = workspace
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(texts(N_("Timers")))
        self.name = accessible(QLineEdit(), texts(N_("What the timer is for")))
        self.name.setPlaceholderText(texts(N_("Stir, cool, cure …")))
        self.when = accessible(EchoLine(), texts(N_("Minutes, a time or a day")))
        self.when.setPlaceholderText(texts(N_("20, 14:30 or 28 Nov")))
        self.add = button(texts(N_("Start")), "primary")
        self.trouble = label("", "trouble")
        self.trouble.setVisible(False)
        self.none = label(texts(N_("No timer runs.")), "quiet")
        self.usual: list[QWidget] = []
        self.rows: dict[int, _Row] = {}
        self._lay_out(texts)
        self._connect()
        self._show_usual()
        self.show_timers()
        self.name.setFocus()
        name_attributes(self)

    def _lay_out(self, texts: Texts) -> None:
        set_look(self, "")
        card = QFrame()
        set_look(card, "card")
        self._rows_box = QVBoxLayout(card)
        self._rows_box.setContentsMargins(16, 12, 16, 12)
        self._rows_box.addWidget(self.none)
        line = QHBoxLayout()
        line.addWidget(self.name, 3)
        line.addWidget(self.when, 3)
        line.addWidget(self.add)
        self._usual_box = QGridLayout()
        self._usual_box.setSpacing(8)
        box = QVBoxLayout(self)
        box.setContentsMargins(24, 20, 24, 20)
        box.setSpacing(12)
        box.addWidget(card)
        box.addWidget(heading(texts(N_("A new timer"))))
        box.addLayout(line)
        box.addWidget(self.trouble)
        box.addLayout(self._usual_box)
        box.addStretch(1)
        self.setMinimumWidth(_WIDTH)

    def _connect(self) -> None:
        self.add.clicked.connect(self.start_typed)
        self.when.textEdited.connect(self._understood)
        self.watch.told.connect(self.show_timers)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.start_typed()
        else:
            super().keyPressEvent(event)

    def _show_usual(self) -> None:
        for at, one in enumerate(usual_timers(self.workspace)):
            press = accessible(button(plain_action_text(one.words)), one.words)
            press.clicked.connect(partial(self._start_usual, one))
            self._usual_box.addWidget(press, at // 2, at % 2)
            self.usual.append(press)

    def show_timers(self) -> None:
        """Show what runs, and what is left of it."""
        if self.watch.workspace is not self.workspace:
            self.close()
            return
        texts, now_ms = self.workspace.texts, self.watch.now_ms
        known = {one.id for one in self.watch.timers}
        for key in [key for key in self.rows if key not in known]:
            row = self.rows.pop(key)
            row.hide()
            row.deleteLater()
        for one in self.watch.timers:
            row = self.rows.get(one.id) or self._make_row(one)
            row.left.setText(left_words(texts, one, now_ms))
        self.none.setVisible(not self.rows)

    def _make_row(self, timer: Timer) -> _Row:
        row = _Row(self.workspace.texts, timer)
        row.stop.clicked.connect(partial(self._stop, timer.id))
        row.later.clicked.connect(partial(self._later, timer.id))
        self._rows_box.addWidget(row)
        self.rows[timer.id] = row
        return row

    def _understood(self, typed: str) -> None:
        self.when.set_echo(ends_words(self.workspace, typed))
        self._say("")

    def start_typed(self) -> None:
        """Begin the timer that was typed; what cannot be read stays, with its sentence."""
        if not self.when.text().strip():
            self.when.setFocus()
            return
        try:
            ends_ms = ends_at(self.workspace, self.when.text())
        except DomainError as error:
            self._say(self.workspace.texts.say(error))
            self.when.setFocus()
            return
        start_timer(self.workspace, self.name.text(), ends_ms)
        for line in (self.name, self.when):
            line.clear()
        self._understood("")
        self.name.setFocus()

    def _start_usual(self, usual: UsualTimer, *_: object) -> None:
        start_timer(self.workspace, usual.name, usual.ends_from(self.workspace.clock.now_ms()))

    def _stop(self, key: int, *_: object) -> None:
        stop_timer(self.workspace, key)

    def _later(self, key: int, *_: object) -> None:
        snooze(self.workspace, key)

    def _say(self, sentence: str) -> None:
        self.trouble.setText(sentence)
        self.trouble.setVisible(bool(sentence))

    @override
    def closeEvent(self, event: QCloseEvent) -> None:
        self.watch.told.disconnect(self.show_timers)
        super().closeEvent(event)
