"""One row of a list of findings: what was found, where its rule stands, and what can be done."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from wickbench.app.set_aside import LeftAlone
from wickbench.app.texts_marker import N_
from wickbench.domain.findings import Finding
from wickbench.gui.fields.input_guards import TextGuard
from wickbench.gui.icons import icon_pixmap
from wickbench.gui.naming import accessible, name_attributes, plain_action_text
from wickbench.gui.page import button, label
from wickbench.gui.style_sheet import set_look
from wickbench.gui.tables.cell_editor import look_ink
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from wickbench.app.texts import Texts

Goal = tuple[str, object]
"""Key of a page, place or dock, and the record there."""

GO_THERE: Final = N_("Show where")
LEAVE: Final = N_("Leave it as it is…")
TAKE_UP: Final = N_("Take up again")
_ICON: Final = 18
_QUIET: Final = frozenset({"note", "left"})


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingCare:
    """What a person can do about findings beside mending them by hand.

    Attributes:
        rule: where a finding's rule stands, and who decides; empty for none.
        offers: ways to mend it at once: key and words of each.
        may_leave: whether it can be left as it is.
        left: those that were, with why.
        left_words: since when one is left, and why.
    """

    rule: Callable[[Finding], str] = lambda _finding: ""
    offers: Callable[[Finding], Sequence[tuple[str, str]]] = lambda _finding: ()
    may_leave: Callable[[Finding], bool] = lambda _finding: False
    left: Sequence[LeftAlone] = ()
    left_words: Callable[[LeftAlone], str] = lambda _alone: ""


@dataclass(frozen=True, slots=True)
class Said:
    """Everything that a row shows; equal rows are kept as they stand.

    Attributes:
        look: stops, watch, note, fine, or left for what was left as it is.
        word: the look in words.
        sentence: what was found.
        lead: where it is mended.
        rule: where its rule stands.
        offers: ways to mend it at once.
        may_leave: whether it can be left as it is.
        left: keys of what leaves it.
        why: since when it is left, and why.
    """

    look: str
    word: str
    sentence: str
    lead: Goal | None = None
    rule: str = ""
    offers: tuple[tuple[str, str], ...] = ()
    may_leave: bool = False
    left: tuple[int, ...] = ()
    why: str = ""


class FindingRow(QWidget):
    """Icon, word and sentence; below them its rule and what can be done.

    Signals:
        gone_to: it shall be shown where it is mended.
        offered: key of the way that shall mend it.
        left: it shall stay as it is, with this note.
        taken_up: it shall count again.
    """

    gone_to = Signal()
    offered = Signal(str)
    left = Signal(str)
    taken_up = Signal()

    def __init__(self, texts: Texts, said: Said) -> None:
        super().__init__()
        self._texts = texts
        self._said = said
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(8)
        line.addWidget(self._icon(), 0, Qt.AlignmentFlag.AlignTop)
        self._words = QVBoxLayout()
        self._words.setSpacing(2)
        line.addLayout(self._words, 1)
        if said.word and said.look not in _QUIET:
            self._words.addWidget(label(said.word, said.look))
        self._words.addWidget(self._sentence())
        for quiet in (said.rule, said.why):
            if quiet:
                self._words.addWidget(label(quiet, "quiet"))
        self._add_offers()
        self._add_buttons()
        self._note: NoteLine | None = None

    def _icon(self) -> QLabel:
        picture = QLabel()
        quiet = self._said.look in _QUIET
        look = "note" if self._said.look == "left" else self._said.look
        ink = look_ink(colours_of(self), "quiet" if quiet else look).name()
        picture.setPixmap(icon_pixmap(look, ink, _ICON, self.devicePixelRatioF()))
        return picture

    def _sentence(self) -> QLabel:
        look, word, sentence = self._said.look, self._said.word, self._said.sentence
        text = label(sentence, "note" if look in _QUIET else "")
        text.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        set_look(text, "note" if look in _QUIET else look if look == "fine" else "")
        return accessible(text, f"{word}: {sentence}" if word else sentence)

    def _add_offers(self) -> None:
        for key, words in self._said.offers:
            offer = self._flat(words)
            offer.clicked.connect(partial(self._offer, key))
            self._words.addWidget(offer, 0, Qt.AlignmentFlag.AlignLeft)

    def _add_buttons(self) -> None:
        said = self._said
        wanted = (
            (said.lead is not None, GO_THERE, self._go),
            (said.may_leave, LEAVE, self._open_note),
            (bool(said.left), TAKE_UP, self._take_up),
        )
        row = QHBoxLayout()
        row.setSpacing(4)
        for shown, words, act in wanted:
            if shown:
                made = self._flat(self._texts(words))
                made.clicked.connect(act)
                row.addWidget(made)
        if row.count():
            row.addStretch(1)
            self._words.addLayout(row)

    def _flat(self, words: str) -> QPushButton:
        made = button(plain_action_text(words), "flat")
        return accessible(made, f"{words}: {self._said.sentence}")

    # -- doing -----------------------------------------------------------------------------------
    def _go(self, *_: object) -> None:
        self.gone_to.emit()

    def _offer(self, key: str, *_: object) -> None:
        self.offered.emit(key)

    def _take_up(self, *_: object) -> None:
        self.taken_up.emit()

    def _open_note(self, *_: object) -> None:
        """Ask why; typing goes there at once."""
        asked = self.sender()
        if self._note is None:
            self._note = NoteLine(self._texts, self._said.sentence)
            self._note.kept.connect(self.left)
            self._words.addWidget(self._note)
            if isinstance(asked, QPushButton):
                self._note.closed.connect(asked.setFocus)
        self._note.open()


class NoteLine(QWidget):
    """One line for why a finding is left as it is; Enter leaves it, Escape does not.

    Signals:
        kept: it shall be left, with this note.
        closed: it stays after all.
    """

    kept = Signal(str)
    closed = Signal()

    def __init__(self, texts: Texts, sentence: str) -> None:
        super().__init__()
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 4, 0, 4)
        box.setSpacing(4)
        question = texts(N_("Why do you leave it? Your note stays with it."))
        self.line = accessible(QLineEdit(), f"{question} {sentence}")
        self.line.setPlaceholderText(texts(N_("for example: checked with the assessor")))
        self.leave = accessible(button(texts(N_("Leave it"))), texts(N_("Leave it")))
        self.back = accessible(button(texts(N_("Back")), "flat"), texts(N_("Back")))
        box.addWidget(label(question, "quiet"))
        box.addWidget(self.line)
        row = QHBoxLayout()
        row.addWidget(self.leave)
        row.addWidget(self.back)
        row.addStretch(1)
        box.addLayout(row)
        TextGuard(self.line, self.close_note)
        self.line.returnPressed.connect(self._keep)
        self.leave.clicked.connect(self._keep)
        self.back.clicked.connect(self.close_note)
        name_attributes(self)

    def open(self) -> None:
        """Show it and type there."""
        self.setVisible(True)
        self.line.setFocus()

    def close_note(self, *_: object) -> bool:
        """Hide it; what was typed stays for the next time."""
        self.setVisible(False)
        self.closed.emit()
        return True

    def _keep(self, *_: object) -> None:
        self.kept.emit(self.line.text())
