"""What the program noticed, in three ranks that look different: stops you, watch, note."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from wickbench.app.texts_marker import N_
from wickbench.domain.findings import Rank, sort_findings
from wickbench.gui.icons import icon_pixmap
from wickbench.gui.naming import accessible
from wickbench.gui.page import button, label
from wickbench.gui.style_sheet import set_look
from wickbench.gui.tables.cell_editor import look_ink
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from wickbench.app.texts import Texts
    from wickbench.domain.findings import Finding

    Goal = tuple[str, object]
    Said = tuple[str, str, str, Goal | None]

_ICON: Final = 18
RANK_LOOKS: Final = {Rank.STOPS: "stops", Rank.WATCH: "watch", Rank.NOTE: "note"}
RANK_WORDS: Final = {Rank.STOPS: N_("Stops you"), Rank.WATCH: N_("Watch"), Rank.NOTE: N_("Note")}
GO_THERE: Final = N_("Show where")


class FindingsList(QWidget):
    """A list of sentences with an icon and a word each, what stops you first.

    Args:
        all_well: msgid shown with a tick when there is nothing to say; empty to hide the list.

    Signals:
        go_requested: key of a page, place or dock, and the record there where it is mended.
    """

    go_requested = Signal(str, object)

    def __init__(self, all_well: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._all_well = all_well
        self._shown: list[Said] = []
        self._rows: list[QWidget] = []
        self._box = QVBoxLayout(self)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(8)

    def show_findings(
        self,
        texts: Texts,
        findings: Sequence[Finding],
        *,
        goal: Callable[[Finding], Goal | None] | None = None,
    ) -> None:
        """Say these findings; does nothing when they are the ones shown already.

        Args:
            texts: for the sentences.
            findings: in any order.
            goal: where a finding is mended; those with a place get a button that leads there.
        """
        said: list[Said] = [
            (RANK_LOOKS[one.rank], texts(RANK_WORDS[one.rank]), texts.say(one), _lead(one, goal))
            for one in sort_findings(list(findings))
        ]
        if not said and self._all_well:
            said = [("fine", "", texts(self._all_well), None)]
        self._say(texts, said)

    @property
    def worst(self) -> str:
        """Look of the worst that is said: "stops", "watch", "note", "fine" or nothing."""
        return self._shown[0][0] if self._shown else ""

    def show_well(self, texts: Texts, findings: Sequence[Finding]) -> None:
        """Say what was checked and is right, each with a tick."""
        self._say(texts, [("fine", "", texts.say(one), None) for one in findings])

    def _say(self, texts: Texts, said: list[Said]) -> None:
        """Show these rows; those that stand here already are kept, since making one takes time."""
        if said == self._shown and self._box.count():
            return
        left: dict[Said, list[QWidget]] = {}
        for old, row in zip(self._shown, self._rows, strict=True):
            left.setdefault(old, []).append(row)
        self._shown = said
        self._rows = [left[one].pop(0) if left.get(one) else self._row(texts, one) for one in said]
        for unused in left.values():
            self._drop(unused)
        for at, row in enumerate(self._rows):
            item = self._box.itemAt(at)
            if item is None or item.widget() is not row:
                self._box.insertWidget(at, row)
        self.setVisible(bool(said))

    @property
    def sentences(self) -> list[str]:
        """The sentences as shown, top to bottom."""
        return [sentence for _, _, sentence, _ in self._shown]

    def _leading(self, texts: Texts, sentence: str, lead: Goal) -> QWidget:
        there = accessible(button(texts(GO_THERE), "flat"), f"{texts(GO_THERE)}: {sentence}")
        there.clicked.connect(partial(self._go, lead))
        return there

    def _go(self, lead: Goal, *_: object) -> None:
        self.go_requested.emit(*lead)

    def _row(self, texts: Texts, said: Said) -> QWidget:
        look, word, sentence, lead = said
        row = QWidget()
        line = QHBoxLayout(row)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(8)
        picture = QLabel()
        ink = look_ink(colours_of(self), "quiet" if look == "note" else look).name()
        picture.setPixmap(icon_pixmap(look, ink, _ICON, self.devicePixelRatioF()))
        line.addWidget(picture, 0, Qt.AlignmentFlag.AlignTop)
        words = QVBoxLayout()
        words.setSpacing(0)
        if word and look != "note":
            words.addWidget(label(word, look))
        words.addWidget(_sentence(look, word, sentence))
        if lead is not None:
            words.addWidget(self._leading(texts, sentence, lead), 0, Qt.AlignmentFlag.AlignLeft)
        line.addLayout(words, 1)
        return row

    def _drop(self, rows: list[QWidget]) -> None:
        for row in rows:
            self._box.removeWidget(row)
            row.hide()
            row.deleteLater()


def _sentence(look: str, word: str, sentence: str) -> QLabel:
    text = label(sentence, "note" if look == "note" else "")
    text.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    set_look(text, look if look in {"fine", "note"} else "")
    text.setAccessibleName(f"{word}: {sentence}" if word else sentence)
    return text


def _lead(finding: Finding, goal: Callable[[Finding], Goal | None] | None) -> Goal | None:
    return None if goal is None else goal(finding)
