"""A small table of materials and how much of each: chosen by name, typed, taken out by keyboard."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QItemSelectionModel, Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from wickbench.app import edit, recipe_parts
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.trouble_line import TroubleLine
from wickbench.gui.icons import set_icon
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import button, heading
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.recipe_parts import PartLine, PartTable
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace


class PartsTable(QWidget):
    """Heading, table, *Add*, *Take out*; the last row invites to choose a material.

    Signals:
        typed: key of a line and its amount while it is typed; ``None`` when nothing is typed.
    """

    typed = Signal(object, object)

    def __init__(self, workspace: Workspace, part: PartTable) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace, self.part = workspace, part
        self.whole: int | None = None
        self._shelf: Shelf | None = None
        self._typed_shares: dict[int, str] = {}
        self._goal: int | None = None
        self._lines: Sequence[PartLine] = ()
        self.title = heading(texts(part.heading))
        self.add = self._tool("new", texts(part.add))
        self.remove = self._tool("remove", texts(part.remove))
        self.model: RowModel[PartLine] = RowModel(
            lambda: workspace.texts, self._columns(), lambda line: line.id,
            add=self._add_line, adding=part.adding,
        )  # fmt: skip
        self.table = TableView(self.model, texts(part.heading), most_rows=9, fewest_rows=1)
        self.trouble = TroubleLine()
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _tool(self, icon: str, name: str) -> QPushButton:
        tool = accessible(button("", "flat"), name)
        tool.setToolTip(name)
        set_icon(tool, icon, colours_of(self))
        return tool

    def _columns(self) -> list[Column[PartLine]]:
        item, amount = self.part.specs
        columns: list[Column[PartLine]] = [
            Column(
                key=item.name, title=item.label, stretch=True,
                show=self._name, edit_text=lambda line: str(line.item_id or ""),
                write=partial(self._write, item.name),
                choices=self._choices, look=self._name_look,
            ),
            Column(
                key=amount.name, title=amount.label, numeric=True,
                show=self._amount, write=partial(self._write, amount.name),
                look=lambda line: "stops" if amount.name in line.drafts else "",
            ),
        ]  # fmt: skip
        if amount.name == "parts":
            columns.append(
                Column(
                    key="share", title=N_("Share"), numeric=True, look=lambda _line: "quiet",
                    show=lambda line: self._typed_shares.get(line.id, line.share),
                )
            )  # fmt: skip
        return columns

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(2)
        head.addWidget(self.title, 1)
        head.addWidget(self.add)
        head.addWidget(self.remove)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(4)
        box.addLayout(head)
        box.addWidget(self.table)
        box.addWidget(self.trouble)

    def _connect(self) -> None:
        self.add.clicked.connect(self.begin_line)
        self.remove.clicked.connect(self._remove_selected)
        self.table.remove_requested.connect(self._remove)
        self.model.refused.connect(self._tell)
        self.model.rows_shown.connect(self._go)
        self.model.cell_typed.connect(self._typing)

    # -- showing ---------------------------------------------------------------------------------
    def show_lines(
        self, whole: int | None, lines: Sequence[PartLine], shelf: Shelf, *, frozen: bool = False
    ) -> None:
        """Show the lines of a thing; they wait while a cell is open.

        Args:
            whole: key of what the lines are a part of.
            lines: from top to bottom.
            shelf: what can be chosen.
            frozen: lines can be read but not changed.
        """
        self.whole, self._shelf, self._lines = whole, shelf, lines
        self.model.add = None if frozen or whole is None else self._add_line
        triggers = TableView.EditTrigger
        self.table.setEditTriggers(
            triggers.NoEditTriggers if frozen else triggers.DoubleClicked
            | triggers.EditKeyPressed | triggers.AnyKeyPressed | triggers.SelectedClicked
        )  # fmt: skip
        for tool in (self.add, self.remove):
            tool.setVisible(not frozen)
        self.model.set_rows(lines)
        self._tell_unread()
        self.setVisible(not frozen or bool(lines))

    def _tell_unread(self) -> None:
        told = [said for line in self._lines for _, said in line.drafts.values() if said]
        self.trouble.say("\n".join(dict.fromkeys(told)))

    def _tell(self, sentence: str) -> None:
        if sentence:
            self.trouble.say(sentence)
        else:
            self._tell_unread()

    def _name(self, line: PartLine) -> str:
        name = self.part.specs[0].name
        if name in line.drafts:
            return line.drafts[name][0]
        return line.name or self.workspace.texts(N_("choose…"))

    def _name_look(self, line: PartLine) -> str:
        if self.part.specs[0].name in line.drafts:
            return "stops"
        return "" if line.item_id is not None else "quiet"

    def _amount(self, line: PartLine) -> str:
        spec = self.part.specs[1]
        if spec.name in line.drafts:
            return line.drafts[spec.name][0]
        return edit.shown(self.workspace, spec, line.amount)

    def _choices(self, line: PartLine | None) -> list[tuple[str, str]]:
        return recipe_parts.choices_for(self.part, self._shelf, line) if self._shelf else []

    def _go(self) -> None:
        """Go on in the amount of the line that was just added."""
        at = self.model.row_of(self._goal) if self._goal is not None else -1
        if at >= 0:
            self._goal = None
            flags = QItemSelectionModel.SelectionFlag
            index = self.model.index(at, 1)
            self.table.selectionModel().setCurrentIndex(index, flags.ClearAndSelect | flags.Rows)

    # -- typing ----------------------------------------------------------------------------------
    def _typing(self, key: object, column: str, typed: object) -> None:
        spec = self.part.specs[1]
        amount: object = None
        if isinstance(key, int) and column == spec.name and isinstance(typed, str):
            try:
                amount = edit.read_field(self.workspace, spec, typed)
            except DomainError:
                return
            known = float(amount) if isinstance(amount, (int, float)) else None
            self._typed_shares = recipe_parts.shares_while_typing(
                self._lines, key, known, self.workspace.texts
            )
            self.table.viewport().update()
            self.typed.emit(key, known)
            return
        self._typed_shares = {}
        self.typed.emit(None, None)

    # -- changing --------------------------------------------------------------------------------
    def begin_line(self) -> None:
        """Open the inviting last row to choose a material."""
        if self.model.add is None:
            return
        index = self.model.index(self.model.rowCount() - 1, 0)
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)
        self.table.setCurrentIndex(index)
        self.table.edit(index)

    def _write(self, name: str, line: PartLine, typed: str) -> None:
        recipe_parts.write_line(self.workspace, self.part, line.id, name, typed)

    def _add_line(self, typed: dict[str, str]) -> None:
        if self.whole is not None and self._shelf is not None:
            self._goal = recipe_parts.add_line(
                self.workspace, self.part, self.whole, self._shelf, typed
            )

    def _remove_selected(self) -> None:
        keys = self.table.selected_keys()
        if not keys and self.model.rows:
            self.table.go_to(self.model.rows[-1].id)
            return
        self._remove(keys)

    def _remove(self, keys: list[int]) -> None:
        if keys and self.model.add is not None:
            recipe_parts.remove_lines(self.workspace, self.part, keys)
