"""Card beside the plan: how long the pots take on the heat, and how many vessels are in time."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget
from typing_extensions import override

from wickbench.app.cooling_log import losses_of_pots
from wickbench.app.heat_words import how_heat
from wickbench.app.heatings import told_by_source
from wickbench.app.plan_heat import HEAT_FIELDS, plan_heat
from wickbench.app.pot_heat import HeatKnown
from wickbench.app.texts_marker import N_
from wickbench.gui.fields.form import FieldForm
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import heading, label
from wickbench.gui.plan.panels import PlanPanel
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from wickbench.app.plan_view import PlanView
    from wickbench.app.pot_heat import PlanHeat
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace
    from wickbench.domain.findings import Finding


class _PotWords(QWidget):
    """One pot: its title, and sentences that wrap."""

    def __init__(self) -> None:
        super().__init__()
        self.title = heading()
        self.said = label()
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(2)
        box.addWidget(self.title)
        box.addWidget(self.said)

    def show_words(self, title: str, said: tuple[str, ...]) -> None:
        """Change only what differs: laying out again is what takes time."""
        words = "\n".join(said)
        if self.title.text() != title:
            self.title.setText(title)
        if self.said.text() != words:
            self.said.setText(words)


class HeatCard(PlanPanel):
    """Minutes on the heat, what the oil cools, and vessels before a pot is too cold."""

    name_words = N_("Heating and pouring")
    open_at_first = False

    def __init__(self, workspace: Workspace) -> None:
        super().__init__(workspace)
        self.known = HeatKnown()
        self.shown: PlanHeat | None = None
        self._stale = True
        self._last: tuple[PlanView, Shelf] | None = None
        self.card = QFrame()
        set_look(self.card, "card")
        self.pots: list[_PotWords] = []
        self.form = FieldForm(workspace, HEAT_FIELDS)
        self.form.prepare_narrow()
        self.how = HowComputed(self.texts)
        self.how.explain(how_heat(self.texts))
        self.findings = FindingsList()
        self._pots_box = QVBoxLayout()
        self._pots_box.setSpacing(12)
        inside = QVBoxLayout(self.card)
        inside.setContentsMargins(16, 12, 16, 12)
        inside.setSpacing(12)
        inside.addLayout(self._pots_box)
        inside.addWidget(self.form)
        for part in (self.card, self.how, self.findings):
            self.box.addWidget(part)
        self.form.edited.connect(self._typed)
        self.findings.go_requested.connect(self.go_requested)
        name_attributes(self)

    @override
    def refresh(self) -> None:
        self._stale = True

    @override
    def show_plan(self, view: PlanView, shelf: Shelf) -> None:
        self._last = (view, shelf)
        if self._stale:
            self._stale = False
            told, loses = told_by_source(self.workspace), losses_of_pots(self.workspace, shelf)
            self.known = HeatKnown(told, loses)
        values = {spec.name: getattr(view.plan, spec.name) for spec in HEAT_FIELDS}
        self.form.show_record(view.plan.id, values)
        self.form.setEnabled(view.plan.state != "poured")
        self._show(view, shelf)

    def _typed(self, *_: object) -> None:
        """The figures follow while room or seconds are typed."""
        if self._last is None:
            return
        view, shelf = self._last
        values = self.form.values()
        self._show(replace(view, plan=replace(view.plan, **values)), shelf)  # type: ignore[arg-type]

    def _show(self, view: PlanView, shelf: Shelf) -> None:
        texts = self.workspace.texts
        shown = plan_heat(view, shelf, self.known, self.workspace.settings, texts)
        self.shown = shown
        self.setVisible(bool(shown.words))
        while len(self.pots) < len(shown.words):
            made = _PotWords()
            self.pots.append(made)
            self._pots_box.addWidget(made)
        for at, pot in enumerate(self.pots):
            there = at < len(shown.words)
            if there:
                pot.show_words(*shown.words[at])
            pot.setVisible(there)
        self.form.show_assumed(shown.assumed)
        self.findings.show_findings(texts, shown.findings, goal=_goal)
        self.findings.setVisible(bool(shown.findings))


def _goal(finding: Finding) -> tuple[str, object] | None:
    """Where a finding is mended: with the equipment."""
    if finding.about[:1] == ("heat_source",):
        return ("equipment/heat_source", finding.about[1] if len(finding.about) > 1 else None)
    return None
