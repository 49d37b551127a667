"""How much of each material goes into a kilogram, a pound, or any amount typed."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from wickbench.app import edit, recipe_edit
from wickbench.app.recipe_edit import AMOUNT_FIELD, AMOUNT_OF_FIELD, KILOGRAM_G, POUND_G
from wickbench.app.recipe_shown import amount_text, how_amounts, second_amount
from wickbench.app.recipe_view import AmountRow, Wanted
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.fields.form import readings_of, without_first
from wickbench.gui.fields.line_field import QuantityField
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView

if TYPE_CHECKING:
    from wickbench.app.recipe_view import RecipeView
    from wickbench.app.workspace import Workspace

_TOTAL = 0


class AmountsPanel(QWidget):
    """The amount asked for over a table that sums to it.

    Signals:
        changed: another amount is asked for; `wanted` has it.
    """

    changed = Signal()

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self.wanted = recipe_edit.remembered_amount(workspace)
        self._step_g = 0.1
        self.title = heading(texts(N_("What goes in")))
        self.amount = QuantityField(texts(AMOUNT_FIELD.label))
        self.of = ChoiceField(
            texts(N_("Amount of")),
            [(str(one.value), texts(one.label)) for one in AMOUNT_OF_FIELD.choices],
        )
        self.kilogram = self._quick(texts(N_("1 kg")), texts(N_("Show for one kilogram")))
        self.pound = self._quick(texts(N_("1 lb")), texts(N_("Show for one pound")))
        self.nothing = label(texts(N_("Amounts stand here as soon as there is a wax.")), "quiet")
        self.model: RowModel[AmountRow] = RowModel(
            lambda: workspace.texts, self._columns(), lambda row: (row.material, row.role)
        )
        self.table = TableView(self.model, texts(N_("What goes in")), most_rows=14, fewest_rows=1)
        self.how = HowComputed(texts)
        self._lay_out()
        self._connect()
        name_attributes(self)
        self._show_wanted()

    def _quick(self, text: str, name: str) -> QPushButton:
        quick = accessible(button(text), name)
        quick.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        return quick

    def _columns(self) -> list[Column[AmountRow]]:
        return [
            Column(
                key="name", title=N_("Material"), stretch=True, look=_look,
                show=lambda row: row.name or self.workspace.texts(N_("Together")),
            ),
            Column(
                key="amount", title=N_("Weight"), numeric=True, look=_look,
                show=lambda row: amount_text(self.workspace.texts, row.mass_g, self._step_g),
            ),
            Column(
                key="second", title=N_("or"), numeric=True, look=lambda _row: "quiet",
                show=lambda row: second_amount(self.workspace.texts, row.mass_g),
            ),
        ]  # fmt: skip

    def _lay_out(self) -> None:
        asked = QHBoxLayout()
        asked.setSpacing(6)
        asked.addWidget(self.amount, 3, Qt.AlignmentFlag.AlignTop)
        asked.addWidget(self.of, 2, Qt.AlignmentFlag.AlignTop)
        quick = QHBoxLayout()
        quick.setSpacing(6)
        quick.addWidget(self.kilogram)
        quick.addWidget(self.pound)
        quick.addStretch(1)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(6)
        box.addWidget(self.title)
        box.addLayout(asked)
        box.addLayout(quick)
        box.addWidget(self.nothing)
        box.addWidget(self.table)
        box.addWidget(self.how)

    def _connect(self) -> None:
        self.amount.edited.connect(self._typed)
        self.amount.committed.connect(self._typed_out)
        self.amount.restored.connect(self._restored)
        self.of.committed.connect(self._chose_of)
        self.kilogram.clicked.connect(partial(self._take, KILOGRAM_G))
        self.pound.clicked.connect(partial(self._take, POUND_G))

    # -- showing ---------------------------------------------------------------------------------
    def show_view(self, view: RecipeView) -> None:
        """Show the amounts of a version; they sum to the last row."""
        self._step_g = view.step_g
        rows = list(view.amounts)
        if rows:
            rows.append(
                AmountRow(
                    material=_TOTAL, name="", role="", mass_g=view.total_g, share_percent=100.0
                )
            )
        self.model.set_rows(rows)
        self.table.setVisible(bool(rows))
        self.nothing.setVisible(not rows)
        self.how.explain(how_amounts(self.workspace.texts, view))

    def _show_wanted(self) -> None:
        stored = edit.shown(self.workspace, AMOUNT_FIELD, self.wanted.mass_g)
        self.amount.show_draft(stored, "")
        self.amount.show_stored(stored)
        self.amount.clear_trouble()
        self._echo(stored)
        self.of.show_stored(self.wanted.of)

    def refresh_units(self) -> None:
        """The units shown may have changed."""
        if not self.amount.under_edit:
            self._show_wanted()

    def _echo(self, typed: str) -> None:
        try:
            echo = edit.understood(self.workspace, AMOUNT_FIELD, typed)
        except DomainError:
            echo = ""
        self.amount.say(without_first(echo, typed))

    # -- asking ----------------------------------------------------------------------------------
    def _read(self, typed: str) -> float | None:
        value = edit.read_field(self.workspace, AMOUNT_FIELD, typed)
        return float(value) if isinstance(value, (int, float)) else None

    def _typed(self, typed: str) -> None:
        """Show for the amount being typed; for the one before while it cannot be read."""
        self._echo(typed)
        kept_g = recipe_edit.remembered_amount(self.workspace).mass_g
        try:
            mass_g = self._read(typed)
        except DomainError:
            mass_g = None
        self._ask(Wanted(mass_g=mass_g if mass_g is not None else kept_g, of=self.wanted.of))

    def _typed_out(self, typed: str) -> None:
        try:
            mass_g = self._read(typed)
        except DomainError as error:
            self.amount.show_trouble(self.workspace.texts.say(error), readings_of(error))
            return
        self._take(mass_g if mass_g is not None else KILOGRAM_G)

    def _restored(self) -> None:
        self._typed(self.amount.stored)

    def _take(self, mass_g: float, *_: object) -> None:
        self._ask(Wanted(mass_g=mass_g, of=self.wanted.of))
        recipe_edit.remember_amount(self.workspace, self.wanted, origin=self)
        self._show_wanted()

    def _chose_of(self, word: str) -> None:
        self._ask(Wanted(mass_g=self.wanted.mass_g, of=word))
        recipe_edit.remember_amount(self.workspace, self.wanted, origin=self)
        self.of.show_stored(word)

    def _ask(self, wanted: Wanted) -> None:
        self.wanted = wanted
        self.changed.emit()


def _look(row: AmountRow) -> str:
    return "accent" if row.material == _TOTAL else ""
