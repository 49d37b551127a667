"""What was checked about a recipe: oils against their certificates, density, findings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout, QWidget

from wickbench.app.recipe_shown import (
    CHECKED_LOOKS,
    checked_text,
    density_text,
    flash_text,
    how_dense,
)
from wickbench.app.recipe_words import percent
from wickbench.app.texts_marker import N_
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import heading, label
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView

if TYPE_CHECKING:
    from wickbench.app.recipe_view import OilRow, RecipeView
    from wickbench.app.workspace import Workspace


class ChecksPanel(QWidget):
    """Findings first, then each oil against its certificate, then the density of the mix."""

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self.title = heading(texts(N_("Worth knowing")))
        self.findings = FindingsList()
        self.oils_title = heading(texts(N_("Oils against their certificates (category 12)")))
        self.model: RowModel[OilRow] = RowModel(
            lambda: workspace.texts, self._columns(), lambda row: row.material
        )
        self.table = TableView(
            self.model, texts(N_("Oils against their certificates")), fewest_rows=1
        )
        self.flash = label("", "quiet")
        self.density = label()
        self.how = HowComputed(texts)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(6)
        for widget in (
            self.title, self.findings, self.oils_title, self.table, self.flash, self.density,
            self.how,
        ):  # fmt: skip
            box.addWidget(widget)
        name_attributes(self)

    def _columns(self) -> list[Column[OilRow]]:
        return [
            Column(key="name", title=N_("Oil"), stretch=True, show=lambda row: row.name),
            Column(
                key="share", title=N_("In candle"), numeric=True,
                show=lambda row: percent(self.workspace.texts, row.share_percent),
                about=N_("Share of the finished candle"),
            ),
            Column(
                key="limit", title=N_("Certificate"),
                show=lambda row: checked_text(self.workspace.texts, row),
                look=lambda row: CHECKED_LOOKS[row.state],
                about=N_("Most of it that the certificate allows in the finished candle"),
            ),
        ]  # fmt: skip

    def show_view(self, view: RecipeView) -> None:
        """Show what was checked."""
        texts = self.workspace.texts
        self.findings.show_findings(texts, view.findings)
        self.title.setVisible(bool(view.findings))
        self.model.set_rows(view.oils)
        for widget in (self.oils_title, self.table):
            widget.setVisible(bool(view.oils))
        for shown, said in (
            (self.flash, flash_text(texts, view)),
            (self.density, density_text(texts, view.mix)),
        ):
            shown.setText(said)
            shown.setVisible(bool(said))
        self.how.explain(how_dense(texts, view))
