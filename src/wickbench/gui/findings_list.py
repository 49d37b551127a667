"""What the program noticed, in three ranks that look different: stops you, watch, note."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QSizePolicy, QToolButton, QVBoxLayout, QWidget

from wickbench.app.texts_marker import N_
from wickbench.domain.findings import Rank, sort_findings
from wickbench.gui.finding_row import FindingCare, FindingRow, Goal, Said
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from wickbench.app.set_aside import LeftAlone
    from wickbench.app.texts import Texts
    from wickbench.domain.findings import Finding

RANK_LOOKS: Final = {Rank.STOPS: "stops", Rank.WATCH: "watch", Rank.NOTE: "note"}
RANK_WORDS: Final = {Rank.STOPS: N_("Stops you"), Rank.WATCH: N_("Watch"), Rank.NOTE: N_("Note")}
_LEFT: Final = "left"


class FindingsList(QWidget):
    """A list of sentences with an icon and a word each, what stops you first.

    Findings that were left as they are stand folded at the end, and do not count.

    Args:
        all_well: msgid shown with a tick when there is nothing to say; empty to hide the list.

    Signals:
        go_requested: key of a page, place or dock, and the record there where it is mended.
        offer_taken: key of a way to mend a finding at once.
        left: a finding that shall stay as it is, and the note why.
        taken_up: keys of what leaves a finding that shall count again.
    """

    go_requested = Signal(str, object)
    offer_taken = Signal(str)
    left = Signal(object, str)
    taken_up = Signal(object)

    def __init__(self, all_well: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._all_well = all_well
        self._shown: list[Said] = []
        self._rows: list[QWidget] = []
        self._found: dict[Said, Finding] = {}
        self._box = QVBoxLayout(self)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(8)
        self.fold: QToolButton | None = None

    def show_findings(
        self,
        texts: Texts,
        findings: Sequence[Finding],
        *,
        goal: Callable[[Finding], Goal | None] | None = None,
        care: FindingCare | None = None,
    ) -> None:
        """Say these findings; does nothing when they are the ones shown already.

        Args:
            texts: for the sentences.
            findings: in any order.
            goal: where a finding is mended; those with a place get a button that leads there.
            care: what else can be done about them, and those that were left as they are.
        """
        kept = care or FindingCare()
        pairs = [
            (_said(texts, one, kept, _lead(one, goal)), one) for one in sort_findings([*findings])
        ]
        self._found = dict(reversed(pairs))
        said = [one for one, _ in pairs]
        if not said and self._all_well:
            said = [Said("fine", "", texts(self._all_well))]
        left = [_left(texts, one, kept) for one in kept.left]
        if left and self.fold is None:
            self.fold = self._made_fold()
        self._say(texts, [*said, *left])
        self._name_fold(texts, len(left))

    @property
    def worst(self) -> str:
        """Look of the worst that is said: "stops", "watch", "note", "fine" or nothing."""
        first = self._shown[0].look if self._shown else ""
        return "" if first == _LEFT else first

    def show_well(
        self, texts: Texts, findings: Sequence[Finding], *, care: FindingCare | None = None
    ) -> None:
        """Say what was checked and is right, each with a tick and with its rule."""
        kept = care or FindingCare()
        said = [Said("fine", "", texts.say(one), rule=kept.rule(one)) for one in findings]
        self._say(texts, said)

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
        self._place()
        self.setVisible(bool(said))

    def _place(self) -> None:
        """Put the rows in their order; the fold stands before what was left as it is."""
        counted = sum(one.look != _LEFT for one in self._shown)
        fold: list[QWidget] = [] if self.fold is None else [self.fold]
        for at, row in enumerate([*self._rows[:counted], *fold, *self._rows[counted:]]):
            item = self._box.itemAt(at)
            if item is None or item.widget() is not row:
                self._box.insertWidget(at, row)
        self._show_left()

    def _made_fold(self) -> QToolButton:
        """The heading that unfolds what was left as it is; made when it is first needed."""
        fold = QToolButton()
        fold.setObjectName("fold")
        fold.setCheckable(True)
        fold.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        fold.setArrowType(Qt.ArrowType.RightArrow)
        fold.setIconSize(QSize(12, 12))
        fold.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        set_look(fold, "section")
        fold.toggled.connect(self._show_left)
        self._box.addWidget(fold)
        return fold

    def _name_fold(self, texts: Texts, count: int) -> None:
        if self.fold is None:
            return
        self.fold.setText(
            texts.plural(
                N_("{n} finding left as it is"), N_("{n} findings left as they are"), count
            )
        )
        self.fold.setAccessibleName(self.fold.text())
        self.fold.setVisible(count > 0)

    def _show_left(self, *_: object) -> None:
        if self.fold is None:
            return
        unfolded = self.fold.isChecked()
        arrow = Qt.ArrowType.DownArrow if unfolded else Qt.ArrowType.RightArrow
        self.fold.setArrowType(arrow)
        for said, row in zip(self._shown, self._rows, strict=True):
            if said.look == _LEFT:
                row.setVisible(unfolded)

    @property
    def sentences(self) -> list[str]:
        """The sentences as shown, top to bottom."""
        return [one.sentence for one in self._shown if one.look != _LEFT]

    @property
    def left_sentences(self) -> list[str]:
        """Those that were left as they are."""
        return [one.sentence for one in self._shown if one.look == _LEFT]

    def _row(self, texts: Texts, said: Said) -> FindingRow:
        row = FindingRow(texts, said)
        row.gone_to.connect(partial(self._go, said))
        row.offered.connect(self.offer_taken)
        row.left.connect(partial(self._leave, said))
        row.taken_up.connect(partial(self._take_up, said))
        return row

    def _go(self, said: Said) -> None:
        if said.lead is not None:
            self.go_requested.emit(*said.lead)

    def _leave(self, said: Said, note: str) -> None:
        finding = self._found.get(said)
        if finding is not None:
            self.left.emit(finding, note)

    def _take_up(self, said: Said) -> None:
        self.taken_up.emit(said.left)

    def _drop(self, rows: list[QWidget]) -> None:
        for row in rows:
            self._box.removeWidget(row)
            row.hide()
            row.deleteLater()


def _said(texts: Texts, finding: Finding, care: FindingCare, lead: Goal | None) -> Said:
    return Said(
        RANK_LOOKS[finding.rank],
        texts(RANK_WORDS[finding.rank]),
        texts.say(finding),
        lead,
        care.rule(finding),
        tuple(care.offers(finding)),
        care.may_leave(finding),
    )


def _left(texts: Texts, alone: LeftAlone, care: FindingCare) -> Said:
    why = care.left_words(alone)
    return Said("left", "", texts.say(alone.finding), left=alone.ids, why=why)


def _lead(finding: Finding, goal: Callable[[Finding], Goal | None] | None) -> Goal | None:
    return None if goal is None else goal(finding)
