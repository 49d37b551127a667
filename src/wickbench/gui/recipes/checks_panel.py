"""What was checked about a recipe: findings, oils against their certificates, density."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from wickbench.app.recipe_shown import (
    CHECKED_LOOKS,
    blend_lines,
    density_text,
    how_dense,
    oil_text,
)
from wickbench.app.texts_marker import N_
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.icons import icon_pixmap
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import heading, label
from wickbench.gui.tables.cell_editor import look_ink
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from wickbench.app.recipe_view import RecipeView
    from wickbench.app.workspace import Workspace

_ICON = 18


class OilsList(QWidget):
    """One line for each oil: an icon, its share, what its certificate allows, its flash point."""

    def __init__(self) -> None:
        super().__init__()
        self._shown: list[tuple[str, str]] = []
        self._box = QVBoxLayout(self)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(6)

    @property
    def sentences(self) -> list[str]:
        """The lines as shown, top to bottom."""
        return [sentence for _, sentence in self._shown]

    def show_lines(self, lines: list[tuple[str, str]]) -> None:
        """Show these looks and sentences; does nothing when they are shown already."""
        if lines == self._shown:
            return
        self._shown = lines
        while (item := self._box.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for look, sentence in lines:
            self._box.addWidget(self._line(look, sentence))

    def _line(self, look: str, sentence: str) -> QWidget:
        line = QWidget()
        row = QHBoxLayout(line)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        picture = QLabel()
        ink = look_ink(colours_of(self), "quiet" if look in {"note", "how"} else look).name()
        picture.setPixmap(icon_pixmap(look, ink, _ICON, self.devicePixelRatioF()))
        row.addWidget(picture, 0, Qt.AlignmentFlag.AlignTop)
        text = label(sentence)
        text.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        row.addWidget(text, 1)
        return line


class ChecksPanel(QWidget):
    """Findings first, then each oil against its certificate, then the density of the mix."""

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self.title = heading(texts(N_("Worth knowing")))
        self.findings = FindingsList()
        self.oils_title = heading(texts(N_("Oils and their certificates (category 12)")))
        self.oils = OilsList()
        self.blend = label("", "quiet")
        self.density_title = heading(texts(N_("Density")))
        self.density = label()
        self.how = HowComputed(texts)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(6)
        for widget in (
            self.title, self.findings, self.oils_title, self.oils, self.blend,
            self.density_title, self.density, self.how,
        ):  # fmt: skip
            box.addWidget(widget)
        name_attributes(self)

    def show_view(self, view: RecipeView) -> None:
        """Show what was checked."""
        texts = self.workspace.texts
        self.findings.show_findings(texts, view.findings)
        self.title.setVisible(bool(view.findings))
        self.oils.show_lines(
            [(CHECKED_LOOKS[row.state], oil_text(texts, row)) for row in view.oils]
        )
        for widget in (self.oils_title, self.oils):
            widget.setVisible(bool(view.oils))
        blend = "\n".join(blend_lines(texts, view))
        self.blend.setText(blend)
        self.blend.setVisible(bool(blend))
        said = density_text(texts, view.mix)
        self.density.setText(said)
        for widget in (self.density_title, self.density):
            widget.setVisible(bool(said))
        self.how.explain(how_dense(texts, view))
