"""How name and place stand on labels in one region, and what its rules find missing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout, QWidget

from wickbench.app.business import REGION_NAMES
from wickbench.app.texts_marker import N_
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import heading, label
from wickbench.gui.setup.name_picture import NamePicture

if TYPE_CHECKING:
    from wickbench.app.business import BusinessView
    from wickbench.app.texts import Texts


class RegionCard(QWidget):
    """The label of one region as a picture, with findings and the rules behind them."""

    def __init__(self, texts: Texts, region: str) -> None:
        super().__init__()
        name = texts(REGION_NAMES[region])
        self.title = heading(name)
        self.picture = NamePicture(
            texts(N_("Name and place on a label: {region}"), region=name),
            texts(N_("Nothing is filled in yet.")),
        )
        self.findings = FindingsList(N_("Everything that was looked for is filled in."))
        self.looked_at = label("", "quiet")
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 8)
        box.setSpacing(8)
        for widget in (self.title, self.picture, self.findings, self.looked_at):
            box.addWidget(widget)
        name_attributes(self)

    def show_view(self, texts: Texts, view: BusinessView) -> None:
        """Show lines, findings and rules."""
        self.picture.show_lines(view.lines)
        self.findings.show_findings(texts, view.findings)
        rules = "; ".join(f"{rule.source} ({rule.date})" for rule in view.rules)
        said = texts(
            N_("Looked at: {rules}. Local rules and a licensed assessor decide."), rules=rules
        )
        self.looked_at.setText(said)
