"""The docked catalog of recipes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, ClassVar

from PySide6.QtWidgets import QCheckBox
from typing_extensions import override

from wickbench.app import recipe_view, shelf_edit
from wickbench.app.file_names import file_name
from wickbench.app.recipe_fields import STATE_NAMES
from wickbench.app.recipe_words import load_text
from wickbench.app.shelf import Shelf, load_shelf
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.catalog.catalog_dock import CatalogDock
from wickbench.gui.recipes.put_away import PUT_AWAY_TOO
from wickbench.gui.recipes.recipe_editor import RecipeEditor
from wickbench.gui.tables.column import Column

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QWidget

    from wickbench.app.questions import Ask
    from wickbench.app.recipe_view import RecipeRow
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import RecipeVersion

_PUT_AWAY = N_(
    "A candle or a record still names this recipe, so it was put away instead of removed. "
    "Undo brings it back."
)
_STATE_LOOKS = {"for_sale": "fine", "testing": "", "idea": "quiet", "retired": "quiet"}


class RecipesDock(CatalogDock):
    """Recipes with their newest version, its state and load, over the form of one."""

    title: ClassVar[str] = N_("Recipes")
    kinds: ClassVar[frozenset[str]] = frozenset(
        {"recipes", "materials", "candles", "equipment", "settings"}
    )
    find_text: ClassVar[str] = N_("Find a recipe")
    empty_text: ClassVar[str] = N_(
        "A recipe says which waxes and oils go together, how much oil, and at what temperatures. "
        "Once it was poured or tested a version stays as it is; a change begins the next one."
    )
    new_text: ClassVar[str] = N_("Add a recipe")

    def __init__(self, workspace: Workspace, ask: Ask) -> None:
        self.editor: RecipeEditor | None = None
        self._shelf: Shelf | None = None
        self._shown: int | None = None
        self.put_away_too = QCheckBox(workspace.texts(PUT_AWAY_TOO))
        self.put_away_too.setObjectName("put_away_too")
        self.put_away_too.setVisible(False)
        super().__init__(workspace, ask)

    @override
    def columns(self) -> tuple[Column[RecipeRow], ...]:
        return (
            Column(
                key="name", title=N_("Recipe"), show=self._name, stretch=True,
                look=lambda row: "quiet" if row.put_away else "",
            ),
            Column(
                key="version", title=N_("V."), numeric=True, spare=True,
                sort=lambda row: row.number,
                show=lambda row: self.texts(N_("v{number}"), number=row.number),
                about=N_("Newest version"),
            ),
            Column(
                key="state", title=N_("State"), keeps=True,
                show=lambda row: self.texts(STATE_NAMES[row.state]),
                look=lambda row: _STATE_LOOKS[row.state],
            ),
            Column(
                key="load", title=N_("Load"), numeric=True,
                sort=lambda row: row.load.of_wax if row.load else None,
                show=lambda row: load_text(self.texts, row.load), about=N_("Fragrance load"),
            ),
        )  # fmt: skip

    def _name(self, row: RecipeRow) -> str:
        return row.name or self.texts(N_("Recipe without a name"))

    @override
    def rows(self) -> Sequence[RecipeRow]:
        self._shelf = load_shelf(self.workspace)
        rows = recipe_view.recipe_rows(self.workspace, self._shelf, put_away=True)
        any_away, too = any(row.put_away for row in rows), self.put_away_too
        too.setVisible(any_away)
        return [row for row in rows if not row.put_away or (any_away and too.isChecked())]

    @override
    def _build(self) -> None:
        fresh = self.list_pane is None
        super()._build()
        if fresh and self.list_pane is not None:
            self.list_pane.filters.addWidget(self.put_away_too)
            self.put_away_too.toggled.connect(self._filter)

    def _filter(self, *_: object) -> None:
        self._refresh(None)

    @override
    def show_record(self, record: int) -> None:
        """Bring a recipe into the form, also one that was put away."""
        self.setVisible(True)
        self._build()
        if record not in {row.id for row in self.rows()}:
            self.put_away_too.setChecked(True)
        if record in {row.id for row in self.rows()}:
            super().show_record(record)

    @override
    def words(self, row: Any) -> str:
        return str(row.words)

    @override
    def build_editor(self) -> QWidget:
        self.editor = RecipeEditor(self.workspace)
        self.editor.version_wanted.connect(self._show_version)
        self.editor.candle_wanted.connect(self._make_candle)
        self.editor.card_wanted.connect(self.export_card)
        return self.editor

    @override
    def show_in_editor(self, record: int | None) -> str:
        shelf = self._shelf or load_shelf(self.workspace)
        version = self._version_of(record, shelf)
        recipe = recipe_view.recipe_values(self.workspace, record if version else None)
        if self.editor is not None:
            self.editor.show_version(version, recipe, shelf)
        if version is None:
            return ""
        return version.name or self.texts(N_("Recipe without a name"))

    def _version_of(self, record: int | None, shelf: Shelf) -> RecipeVersion | None:
        """The version chosen last when it is of this recipe, else the newest."""
        if record is None:
            return None
        versions = recipe_view.versions_of(shelf, record)
        newest = versions[0] if versions else None
        return next((one for one in versions if one.id == self._shown), newest)

    def _show_version(self, version: int) -> None:
        self._shown = version
        self._fill_editor()

    def _make_candle(self, version: int) -> None:
        """A candle of this version, on the page of candles."""
        shelf = self._shelf or load_shelf(self.workspace)
        values = {"name": shelf.versions[version].name, "version_id": version}
        self.go_requested.emit("candles", shelf_edit.new_candle(self.workspace, values))

    def export_card(self, version: int) -> None:
        """Ask where, and write the card of a version."""
        # Text shaping and the PDF writer are wanted only now.
        from wickbench.app.recipe_card import write_recipe_cards  # noqa: PLC0415

        shelf = self._shelf or load_shelf(self.workspace)
        one = shelf.versions[version]
        name = file_name(one.name) or self.texts(N_("Recipe without a name"))
        path = self.ask.save_path(
            self.texts(N_("Where shall the recipe card be kept?")),
            f"{name} v{one.number}.pdf",
            self.texts(N_("PDF files (*.pdf)")),
        )
        if path is None:
            return
        try:
            write_recipe_cards(self.workspace, path, only=version)
        except DomainError as error:
            self.ask.tell(self.texts.say(error))

    @override
    def new_record(self, kind: str) -> int:
        return shelf_edit.new_recipe(self.workspace)

    @override
    def duplicate_record(self, record: int) -> int:
        return shelf_edit.duplicate_recipe(self.workspace, record)

    @override
    def remove_record(self, record: int) -> None:
        if not shelf_edit.remove_recipe(self.workspace, record):
            self.ask.tell(self.texts(_PUT_AWAY))

    @override
    def focus_first_field(self) -> None:
        if self.editor is not None:
            self.editor.names.focus("name")
