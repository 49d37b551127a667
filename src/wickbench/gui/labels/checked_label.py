"""What there is to say of one label: findings, ways to mend or leave them, what nobody checks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout, QWidget

from wickbench.app.label_making import MadeLabel, around_of
from wickbench.app.label_rules import rule_words
from wickbench.app.label_store import StoredLabel
from wickbench.app.label_told import LabelChecks, label_checks
from wickbench.app.net_proposals import (
    TOO_SMALL,
    NetProposal,
    apply_proposal,
    is_mended,
    net_proposals,
)
from wickbench.app.required_heights import panel_of
from wickbench.app.run_findings import once
from wickbench.app.run_told import owners_in, told_key
from wickbench.app.set_aside import (
    Owned,
    Settled,
    leave_all,
    left_words,
    may_set_aside,
    settle,
    take_up_again,
)
from wickbench.app.texts_marker import N_
from wickbench.domain.catalog import Candle
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding
from wickbench.gui.finding_row import FindingCare
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.labels.not_checked import NotChecked
from wickbench.gui.naming import name_attributes

_MOST_TRIED = 200
_NO_WAY = N_(
    "Neither larger type, capitals, two lines nor a wider box makes room here. Give it room, or "
    "take a larger label."
)

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterable

    from wickbench.app.label_check import LabelCheck
    from wickbench.documents.label_layout import LaidOutLabel
    from wickbench.domain.labels import LabelDesign
    from wickbench.gui.finding_row import Goal
    from wickbench.gui.labels.desk import Desk


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownLabel:
    """A label as it is looked at.

    Attributes:
        stored: the label.
        made: laid out; ``None`` when it cannot be.
        candle: it is looked at with.
        values: what its fields are filled with.
        found: findings of the layout and of the vessel.
    """

    stored: StoredLabel
    made: MadeLabel | None
    candle: Candle | None
    values: Mapping[str, str]
    found: Sequence[Finding]


class CheckedLabel(QWidget):
    """Findings of one label, and the line that says what nobody looked at.

    Args:
        desk: what the page has in hand.
        goal: where a finding is mended.
        offers: ways to mend a finding beside those about the net weight.
    """

    def __init__(
        self,
        desk: Desk,
        goal: Callable[[Finding], Goal | None],
        offers: Callable[[Finding], Sequence[tuple[str, str]]],
    ) -> None:
        super().__init__()
        self._desk = desk
        self._goal = goal
        self._more_offers = offers
        self._checks: LabelChecks | None = None
        self._shown: ShownLabel | None = None
        self._offers: dict[str, NetProposal] = {}
        self._tried: dict[Hashable, tuple[NetProposal, ...]] = {}
        self.list = FindingsList(N_("Nothing to mend on this label."))
        self.not_checked = NotChecked(desk.workspace.texts)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        box.addWidget(self.list)
        box.addWidget(self.not_checked)
        self.list.offer_taken.connect(self._mend)
        self.list.left.connect(self._leave)
        self.list.taken_up.connect(self._take_up)
        name_attributes(self)

    def forget(self) -> None:
        """Something in the file changed: read afresh what checks need."""
        self._checks = None

    def show_label(self, shown: ShownLabel, *, settled: bool) -> None:
        """Say what is to be said.

        Args:
            shown: the label as it is just now.
            settled: nothing of it is being dragged or typed, so ways to mend it are looked for.
        """
        self._shown = shown
        self._offers = {}
        parted = settle(self._owned(shown), self.checks.aside)
        found = once([one.finding for one in parted.found])
        self.list.show_findings(
            self._desk.workspace.texts,
            found,
            goal=self._goal,
            care=self._care(parted, found if settled else ()),
        )

    @property
    def checks(self) -> LabelChecks:
        """What checks need from the file; read when it is first asked for."""
        if self._checks is None:
            desk = self._desk
            self._checks = label_checks(desk.workspace, desk.shelf, desk.labels)
        return self._checks

    def _owned(self, shown: ShownLabel) -> list[Owned]:
        found = [*shown.found]
        if shown.made is not None and shown.stored.caution is None:
            found += self.checks.of(shown.made, shown.candle, shown.values).wrong
        candle_id = shown.candle.id if shown.candle is not None else None
        return [Owned(finding=one, label_id=shown.stored.id, candle_id=candle_id) for one in found]

    def _care(self, parted: Settled, mended: Sequence[Finding]) -> FindingCare:
        texts = self._desk.workspace.texts
        offers = {id(one): self._offers_for(one) for one in mended}
        return FindingCare(
            rule=lambda one: self._rule(one, stuck=not offers.get(id(one), (one,))),
            offers=lambda one: offers.get(id(one), ()),
            may_leave=may_set_aside,
            left=parted.left,
            left_words=lambda one: left_words(texts, one),
        )

    def _rule(self, finding: Finding, *, stuck: bool) -> str:
        """Where the rule stands; and that no way was found, where ways were looked for."""
        texts = self._desk.workspace.texts
        words = [rule_words(texts, finding)]
        if stuck and finding.key in TOO_SMALL:
            words.append(texts(_NO_WAY))
        return "\n".join(word for word in words if word)

    def _offers_for(self, finding: Finding) -> tuple[tuple[str, str], ...]:
        shown, texts = self._shown, self._desk.workspace.texts
        if shown is None or shown.made is None:
            return tuple(self._more_offers(finding))
        check = self.checks.look_at(shown.made, shown.candle, shown.values)
        if not is_mended(check, finding):
            return tuple(self._more_offers(finding))
        found = []
        for one in self._proposals(check, finding):
            key = f"{finding.key} {one.key}"
            self._offers[key] = one
            found.append((key, texts(one.words, **one.data)))
        return tuple(found)

    def _proposals(self, check: LabelCheck, finding: Finding) -> tuple[NetProposal, ...]:
        """Ways that work; tried once for a label as it is, since each takes a layout."""
        candle, values = check.candle, tuple(sorted(check.values.items()))
        declared_g = candle.declared_net_g if candle is not None else None
        as_it_is = (check.laid.key, values, check.regions, declared_g, panel_of(check))
        key = (as_it_is, told_key(finding), finding.about)
        if key not in self._tried:
            if len(self._tried) >= _MOST_TRIED:
                self._tried.clear()
            self._tried[key] = net_proposals(check, finding, self._lay_out)
        return self._tried[key]

    def _lay_out(self, design: LabelDesign) -> LaidOutLabel:
        desk, shown = self._desk, self._shown
        if shown is None:
            raise DomainError("label.no-such-element")
        around_mm = around_of(shown.stored.kind, shown.candle, desk.shelf)
        return desk.maker.label(design, shown.values, around_mm=around_mm).laid

    # -- doing -----------------------------------------------------------------------------------
    def _mend(self, key: str) -> None:
        if self._shown is not None and key in self._offers:
            apply_proposal(self._desk.workspace, self._shown.stored.id, self._offers[key])

    def _leave(self, finding: Finding, note: str) -> None:
        if self._shown is None:
            return
        same = owners_in(finding, self._owned(self._shown))
        self.forget()
        leave_all(self._desk.workspace, same, note)

    def _take_up(self, ids: Iterable[int]) -> None:
        self.forget()
        take_up_again(self._desk.workspace, ids)
