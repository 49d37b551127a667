"""The page of candles: a searchable list beside the form of one."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLineEdit, QSizePolicy, QWidget
from typing_extensions import override

from wickbench.app import candles, shelf_edit
from wickbench.app.candle_shown import STATE_ICONS, STATE_LOOKS
from wickbench.app.recipe_fields import TEST_STATE_NAMES
from wickbench.app.search import matches
from wickbench.app.shelf import Shelf, load_shelf
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.candles.candle_editor import CandleEditor
from wickbench.gui.fields.input_guards import TextGuard
from wickbench.gui.icons import set_icon
from wickbench.gui.naming import accessible, name_attributes, plain_hint
from wickbench.gui.page import Page, button, label, title_label
from wickbench.gui.recipes.put_away import PUT_AWAY_TOO
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from PySide6.QtWidgets import QPushButton

    from wickbench.app.candles import CandleRow
    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace

_WIDE_CHARACTERS = 150
"""The list has seven columns: the form drops below it sooner than on other pages."""
_PUT_AWAY = N_(
    "A plan, a label or a pour still names this candle, so it was put away instead of removed. "
    "Undo brings it back."
)
_EMPTY = N_(
    "A candle is what you sell: a recipe in a vessel with its wick and lid. Make one, and its net "
    "weight is proposed, its tests are kept, and it can be planned and labelled."
)


class CandlesPage(Page):
    """Candles with code, recipe, vessel, wicks, declared weight and tested state."""

    kinds: ClassVar[frozenset[str]] = frozenset(
        {
            "candles", "recipes", "vessels", "materials", "equipment", "settings", "net_checks",
            "labels", "print_runs",
        }
    )  # fmt: skip

    def __init__(self, workspace: Workspace, ask: Ask) -> None:
        super().__init__(workspace, ask)
        self.wide_characters = _WIDE_CHARACTERS
        self.record: int | None = None
        self._shelf: Shelf | None = None
        self._filling = False
        self._part = ""
        self._rows: tuple[CandleRow, ...] = ()
        self.title.setText(self.texts(N_("Candles")))
        self.search = accessible(QLineEdit(), self.texts(N_("Find a candle")))
        self.new = button(self.texts(N_("New candle")))
        self.duplicate = self._tool("duplicate", self.texts(N_("Duplicate")))
        self.remove = self._tool("remove", self.texts(N_("Remove")))
        self.model: RowModel[CandleRow] = RowModel(
            lambda: self.texts, self._columns(), lambda row: row.id
        )
        self.table = TableView(self.model, self.texts(N_("Candles")), most_rows=12, fewest_rows=3)
        self.put_away_too = QCheckBox(self.texts(PUT_AWAY_TOO))
        self.nothing = label(self.texts(N_("Nothing here is called that.")), "quiet")
        self.empty = label(self.texts(_EMPTY), "quiet")
        self.make_first = button(self.texts(N_("Make a candle")))
        self.name = title_label()
        self.editor = CandleEditor(workspace)
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _tool(self, icon: str, name: str) -> QPushButton:
        tool = accessible(button("", "flat"), name)
        tool.setToolTip(name)
        set_icon(tool, icon, colours_of(self))
        return tool

    def _columns(self) -> list[Column[CandleRow]]:
        return [
            Column(key="code", title=N_("Code"), show=lambda row: row.code, keeps=True),
            Column(key="name", title=N_("Name"), show=self._name, stretch=True),
            Column(key="recipe", title=N_("Recipe"), show=lambda row: row.recipe, spare=True),
            Column(key="vessel", title=N_("Vessel"), show=lambda row: row.vessel),
            Column(key="wicks", title=N_("Wicks"), show=lambda row: row.wicks, spare=True),
            Column(
                key="declared", title=N_("Declared"), numeric=True, show=self._declared,
                sort=lambda row: row.declared_g, about=N_("Declared net weight"),
            ),
            Column(
                key="state", title=N_("Tests"), keeps=True,
                show=lambda row: self.texts(TEST_STATE_NAMES[row.state]),
                look=lambda row: STATE_LOOKS[row.state], icon=lambda row: STATE_ICONS[row.state],
            ),
        ]  # fmt: skip

    def _name(self, row: CandleRow) -> str:
        return row.name or self.texts(N_("Candle without a name"))

    def _declared(self, row: CandleRow) -> str:
        if row.declared_g is None:
            return ""
        return self.texts.units.full(row.declared_g, "mass")

    def _lay_out(self) -> None:
        self.search.setPlaceholderText(self.texts(N_("Find a candle")))
        self.search.setClearButtonEnabled(True)
        TextGuard(self.search, self._clear_search)
        set_icon(self.new, "new", colours_of(self))
        self.table.setSelectionMode(TableView.SelectionMode.SingleSelection)
        self.table.allow_sorting()
        self.make_first.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.buttons.addWidget(self.new)
        for widget in (
            self.search, self.put_away_too, self.nothing, self.table, self.editor.results,
            self.empty, self.make_first,
        ):  # fmt: skip
            self.main.addWidget(widget)
        self.main.addStretch(1)
        head = QHBoxLayout()
        head.setSpacing(4)
        head.addWidget(self.name, 1)
        head.addWidget(self.duplicate)
        head.addWidget(self.remove)
        self.side.addLayout(head)
        self.side.addWidget(self.editor)

    def _connect(self) -> None:
        self.search.textChanged.connect(self._fill_list)
        self.put_away_too.toggled.connect(self._filter)
        self.table.chosen.connect(self._choose)
        self.table.remove_requested.connect(self._remove)
        for new in (self.new, self.make_first):
            new.clicked.connect(self.make_candle)
        self.duplicate.clicked.connect(self._duplicate)
        self.remove.clicked.connect(self._remove)
        self.editor.go_requested.connect(self.go_requested)

    # -- showing ---------------------------------------------------------------------------------
    @override
    def refresh(self, changes: Changes | None) -> None:
        self._shelf = load_shelf(self.workspace)
        rows = candles.candle_rows(self._shelf, self.texts, put_away=True)
        any_away, too = any(row.put_away for row in rows), self.put_away_too
        too.setVisible(any_away)
        self._rows = tuple(
            row for row in rows if not row.put_away or (any_away and too.isChecked())
        )
        keys = [row.id for row in self._rows]
        if self.record not in keys:
            self.record = keys[0] if keys else None
        self._fill_list()
        self._fill_form()

    def _fill_list(self) -> None:
        """Show what is searched for; the candle in the form stays the one it is."""
        self._filling = True
        self._fill_rows()
        if self.record is not None:
            self.table.go_to(self.record)
        self._filling = False

    def _fill_rows(self) -> None:
        sought = self.search.text()
        found = [row for row in self._rows if matches(sought, row.words)]
        self.model.set_rows(found)
        self.nothing.setVisible(bool(self._rows) and not found)
        shown: list[tuple[QWidget, bool]] = [
            (self.search, bool(self._rows)), (self.table, bool(found)),
            (self.new, bool(self._rows)), (self.empty, not self._rows),
            (self.make_first, not self._rows),
        ]  # fmt: skip
        for widget, there in shown:
            widget.setVisible(there)

    def _fill_form(self) -> None:
        shelf = self._shelf or load_shelf(self.workspace)
        candle = shelf.candles.get(self.record) if self.record is not None else None
        self.show_side(shown=candle is not None)
        self.editor.results.setVisible(candle is not None)
        self.editor.show_candle(candle, shelf)
        if candle is not None:
            name = candle.name or self.texts(N_("Candle without a name"))
            self.name.setText(name)
            self.name.setToolTip(plain_hint(name))

    @override
    def show_record(self, record: int) -> None:
        """Bring a candle into the form, whatever the search hides."""
        self.search.clear()
        shelf = load_shelf(self.workspace)
        if record in shelf.candles and shelf.candles[record].archived:
            self.put_away_too.setChecked(True)
        self.record = record
        self.refresh(None)
        part, self._part = self._part, ""
        self.editor.focus(part)

    @override
    def show_part(self, part: str) -> None:
        """Go to this field of the candle that is shown next, for example "jar_label_id"."""
        self._part = part

    def _filter(self, *_: object) -> None:
        self.refresh(None)

    def _choose(self, record: object) -> None:
        if isinstance(record, int) and record != self.record and not self._filling:
            self.record = record
            self._fill_form()

    def _clear_search(self) -> bool:
        had = bool(self.search.text())
        self.search.clear()
        return had

    # -- what can be done ------------------------------------------------------------------------
    def make_candle(self) -> None:
        """Make an empty candle and go to its name."""
        self.show_record(shelf_edit.new_candle(self.workspace))
        self.editor.first.focus("name")

    def _duplicate(self) -> None:
        if self.record is not None:
            self.show_record(shelf_edit.duplicate_candle(self.workspace, self.record))

    def _remove(self, *_: object) -> None:
        if self.record is None:
            return
        try:
            removed = shelf_edit.remove_candle(self.workspace, self.record)
        except DomainError as error:
            self.ask.tell(self.texts.say(error))
            return
        if not removed:
            self.ask.tell(self.texts(_PUT_AWAY))
