"""Everything about one recipe: its versions, what goes in, temperatures, what was checked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from wickbench.app import recipe_edit, recipe_parts, recipe_view, shelf_edit
from wickbench.app.recipe_fields import RECIPE_FIELDS, RECIPE_NOTE, VERSION_FIELDS
from wickbench.app.recipe_shown import assumed_texts, limit_text, step_of
from wickbench.app.recipe_words import beside_the_oil, both_bases
from wickbench.app.texts_marker import N_
from wickbench.gui.fields.form import FieldForm
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, label
from wickbench.gui.recipes.amounts_panel import AmountsPanel
from wickbench.gui.recipes.checks_panel import ChecksPanel
from wickbench.gui.recipes.load_form import LoadForm
from wickbench.gui.recipes.parts_table import PartsTable
from wickbench.gui.recipes.put_away import PutAwayBanner
from wickbench.gui.recipes.version_bar import VersionBar

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import RecipeVersion

_HEAT = ("heat_to_c", "add_oil_c", "stir_min", "pour_c", "cure_days")


class RecipeEditor(QWidget):
    """The form of one recipe and one of its versions; results follow while the person types.

    Signals:
        version_wanted: key of the version to show from now on.
        candle_wanted: key of the version that a candle is to be made of.
        card_wanted: key of the version that is wanted on paper.
    """

    version_wanted = Signal(int)
    candle_wanted = Signal(int)
    card_wanted = Signal(int)

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        self.workspace = workspace
        self._shelf: Shelf | None = None
        self._version: RecipeVersion | None = None
        self._amounts: dict[int, float | None] = {}
        self.put_away = PutAwayBanner(workspace.texts)
        self.names = FieldForm(workspace, RECIPE_FIELDS)
        self.versions = VersionBar(workspace)
        self.wax, self.fragrance, self.dye, self.additive = (
            PartsTable(workspace, part) for part in recipe_parts.RECIPE_TABLES
        )
        self.load = LoadForm(workspace)
        self.load_echo = label("", "quiet")
        self.limit = label("", "quiet")
        self.amounts = AmountsPanel(workspace)
        self.checks = ChecksPanel(workspace)
        self.heat = FieldForm(workspace, [s for s in VERSION_FIELDS if s.name in _HEAT])
        self.version_note = FieldForm(workspace, [s for s in VERSION_FIELDS if s.name == "note"])
        self.notes = FieldForm(workspace, (RECIPE_NOTE,))
        self.card = button(workspace.texts(N_("Recipe card as PDF…")))
        self.card.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self._lay_out()
        self._connect()
        name_attributes(self)

    @property
    def tables(self) -> tuple[PartsTable, ...]:
        """The four tables of parts."""
        return (self.wax, self.fragrance, self.dye, self.additive)

    def _lay_out(self) -> None:
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(14)
        groups: tuple[tuple[QWidget, ...], ...] = (
            (self.put_away,),
            (self.names,),
            (self.versions,),
            (self.wax,),
            (self.fragrance,),
            (self.load, self.load_echo, self.limit),
            (self.dye,),
            (self.additive,),
            (self.amounts,),
            (self.checks,),
            (self.heat,),
            (self.version_note,),
            (self.notes,),
            (self.card,),
        )
        for group in groups:
            inner = QVBoxLayout()
            inner.setSpacing(4)
            for widget in group:
                inner.addWidget(widget)
            box.addLayout(inner)

    def _connect(self) -> None:
        for form in (self.load, self.heat):
            form.edited.connect(self._typed)
            form.refused.connect(self._typed)
        for table in self.tables:
            table.typed.connect(self._typed_part)
        self.amounts.changed.connect(self._typed)
        self.put_away.bring_back_requested.connect(self._bring_back)
        self.versions.chosen.connect(self.version_wanted)
        self.versions.state_chosen.connect(self._set_state)
        self.versions.new_requested.connect(self.begin_version)
        self.versions.candle_requested.connect(self._want_candle)
        self.card.clicked.connect(self._want_card)

    # -- showing ---------------------------------------------------------------------------------
    def show_version(
        self, version: RecipeVersion | None, recipe: Mapping[str, object], shelf: Shelf
    ) -> None:
        """Show stored values; fields and cells under the person's hands stay as they are.

        Args:
            version: the one to show; ``None`` empties the form.
            recipe: presented row of the recipe.
            shelf: fresh.
        """
        self._shelf, self._version = shelf, version
        recipe_id = version.recipe_id if version else None
        for form in (self.names, self.notes):
            form.show_record(recipe_id, recipe)
        self._show_fields(version)
        self.put_away.setVisible(bool(recipe.get("archived")))
        if version is None:
            return
        candles = [
            one.name
            for one in shelf.candles.values()
            if one.version_id == version.id and not one.archived
        ]
        self.versions.show_versions(
            recipe_view.versions_of(shelf, version.recipe_id), version, candles
        )
        for table in self.tables:
            lines = recipe_parts.recipe_lines(self.workspace, table.part, version, shelf)
            table.show_lines(version.id, lines, shelf, frozen=version.frozen)
        self.amounts.refresh_units()
        self._typed()

    def _show_fields(self, version: RecipeVersion | None) -> None:
        values = _fields_of(version)
        key = version.id if version else None
        for form in (self.load, self.heat, self.version_note):
            form.show_record(key, values)
        if version is not None and version.frozen:
            self.load.setEnabled(False)
            self.heat.setEnabled(False)

    def _typed_part(self, key: object, amount: object) -> None:
        known = float(amount) if isinstance(amount, (int, float)) else None
        self._amounts = {key: known} if isinstance(key, int) else {}
        self._typed()

    def _typed(self, *_: object) -> None:
        """Work out and show what the values say, stored or as they are being typed."""
        if self._version is None or self._shelf is None:
            return
        typed = self.load.values() | {name: self.heat.values()[name] for name in _HEAT}
        draft = recipe_view.drafted(self._version, typed, self._amounts)
        missing = typed.get("load_percent") is not None and typed.get("load_basis") is None
        texts = self.workspace.texts
        view = recipe_view.view_recipe(
            draft, self._shelf, self.amounts.wanted, step_of(texts), basis_missing=missing
        )
        for shown, said in (
            (self.load_echo, both_bases(texts, draft.load, beside_the_oil(draft))),
            (self.limit, limit_text(texts, view)),
        ):
            shown.setText(said)
            shown.setVisible(bool(said))
        self.heat.show_assumed(assumed_texts(texts, draft, self._shelf))
        self.amounts.show_view(view)
        self.checks.show_view(view)

    # -- changing --------------------------------------------------------------------------------
    def _set_state(self, word: str) -> None:
        if self._version is not None:
            recipe_edit.set_state(self.workspace, self._version.id, word)

    def _want_candle(self) -> None:
        if self._version is not None:
            self.candle_wanted.emit(self._version.id)

    def _want_card(self) -> None:
        if self._version is not None:
            self.card_wanted.emit(self._version.id)

    def _bring_back(self) -> None:
        if self._version is not None:
            shelf_edit.bring_back(self.workspace, "recipe", self._version.recipe_id)

    def begin_version(self) -> None:
        """Begin the next version as a copy of the one that is shown."""
        if self._version is not None:
            made = shelf_edit.new_version(self.workspace, self._version.id)
            self.version_wanted.emit(made)


def _fields_of(version: RecipeVersion | None) -> dict[str, object]:
    if version is None:
        return {}
    values: dict[str, object] = {name: getattr(version, name) for name in (*_HEAT, "note")}
    load = version.load
    return values | {
        "load_percent": load.percent if load else None,
        "load_basis": load.basis if load else "wax",
    }
