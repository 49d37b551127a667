"""Which version of a recipe is shown, its state, and the way to the next one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFormLayout, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from wickbench.app.recipe_fields import STATE_NAMES
from wickbench.app.recipe_words import version_name
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.icons import set_icon
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, label
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import RecipeVersion


class VersionBar(QWidget):
    """Version and state to choose; a frozen version says so and offers the next.

    Signals:
        chosen: key of the version to show.
        state_chosen: word of the state that the version shall have.
        new_requested: begin the next version from this one.
        candle_requested: make a candle of this version.
    """

    chosen = Signal(int)
    state_chosen = Signal(str)
    new_requested = Signal()
    candle_requested = Signal()

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self.version = ChoiceField(texts(N_("Version")), [])
        self.state = ChoiceField(
            texts(N_("State")), [(word, texts(name)) for word, name in STATE_NAMES.items()]
        )
        self.new = button(texts(N_("New version")))
        set_icon(self.new, "new", colours_of(self))
        self.frozen = label(texts.say(DomainError("recipe-dock.frozen")), "note")
        self.used = label("", "quiet")
        self.candle = button(texts(N_("Make a candle of it")), "flat")
        self.candle.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        set_icon(self.candle, "candle", colours_of(self))
        self._lay_out()
        self.version.committed.connect(self._chose)
        self.state.committed.connect(self.state_chosen)
        self.new.clicked.connect(self.new_requested)
        self.candle.clicked.connect(self.candle_requested)
        name_attributes(self)

    def _lay_out(self) -> None:
        texts = self.workspace.texts
        first = QHBoxLayout()
        first.setSpacing(6)
        first.addWidget(self.version, 1)
        first.addWidget(self.new)
        rows = QFormLayout()
        rows.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapAllRows)
        rows.setHorizontalSpacing(16)
        rows.setVerticalSpacing(8)
        for name, field in ((N_("Version"), first), (N_("State"), self.state)):
            rows.addRow(label(texts(name), "quiet", wrap=False), field)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(6)
        box.addLayout(rows)
        box.addWidget(self.frozen)
        box.addWidget(self.used)
        box.addWidget(self.candle)

    def show_versions(
        self, versions: Sequence[RecipeVersion], shown: RecipeVersion, candles: Sequence[str]
    ) -> None:
        """Show the versions, the newest first, and which one is in the form.

        Args:
            versions: of the recipe.
            shown: the one in the form.
            candles: names of the candles made to it.
        """
        texts = self.workspace.texts
        self.version.set_pairs([(str(one.id), version_name(texts, one)) for one in versions])
        self.version.show_stored(str(shown.id))
        self.state.show_stored(shown.state)
        self.frozen.setVisible(shown.frozen)
        said = texts(N_("Candles made to it: {names}"), names=", ".join(candles))
        self.used.setText(said if candles else "")
        self.used.setVisible(bool(candles))

    def _chose(self, word: str) -> None:
        if word:
            self.chosen.emit(int(word))
