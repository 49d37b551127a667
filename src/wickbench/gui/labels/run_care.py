"""What can be done about the findings of a print run: leave one as it is, take one up again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from wickbench.app.label_rules import rule_words
from wickbench.app.set_aside import leave_all, left_words, take_up_again
from wickbench.gui.finding_row import FindingCare

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickbench.domain.findings import Finding
    from wickbench.gui.findings_list import FindingsList
    from wickbench.gui.labels.desk import Desk


class RunCare(QObject):
    """Leaves findings of the run in hand, and takes them up again.

    Args:
        desk: what the page has in hand.
        listed: the list that shows them.
    """

    def __init__(self, desk: Desk, listed: FindingsList) -> None:
        super().__init__(listed)
        self._desk = desk
        listed.left.connect(self._leave)
        listed.taken_up.connect(self._take_up)

    def care(self) -> FindingCare:
        """For the findings of the run as it is now."""
        told, texts = self._desk.view.told, self._desk.workspace.texts
        return FindingCare(
            rule=lambda one: rule_words(texts, one),
            may_leave=lambda one: bool(told.owners_of(one)),
            left=told.left,
            left_words=lambda one: left_words(texts, one),
        )

    def _leave(self, finding: Finding, note: str) -> None:
        leave_all(self._desk.workspace, self._desk.view.told.owners_of(finding), note)

    def _take_up(self, ids: Iterable[int]) -> None:
        take_up_again(self._desk.workspace, ids)
