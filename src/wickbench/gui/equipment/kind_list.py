"""The list of one kind of equipment: what it is for, a small table, what to do when it is empty."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from wickbench.app.equipment_shown import (
    ADD_ONE,
    NUMERIC,
    SPARE,
    WHAT_FOR,
    cell,
    heads,
    named,
    shown_name,
)
from wickbench.app.texts_marker import N_
from wickbench.domain.findings import Finding, Rank
from wickbench.gui.findings_list import RANK_LOOKS, FindingsList
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, label
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView

if TYPE_CHECKING:
    from wickbench.app.equipment import EquipmentView, Row
    from wickbench.app.workspace import Workspace


class KindList(QWidget):
    """Every piece of one kind.

    Signals:
        chosen: key of the piece that the person went to.
        new_requested: the person wants to enter one.
        remove_requested: the Delete key was pressed on a row.
    """

    chosen = Signal(int)
    new_requested = Signal()
    remove_requested = Signal()

    def __init__(self, workspace: Workspace, table: str, name: str) -> None:
        super().__init__()
        self.workspace = workspace
        self.kind = table
        self._ranks: dict[object, Rank] = {}
        self._filling = False
        self.what_for = label(workspace.texts(WHAT_FOR[table]), "quiet")
        self.model: RowModel[Row] = RowModel(
            lambda: workspace.texts, self._columns(), lambda row: row["id"]
        )
        self.table = TableView(self.model, name, most_rows=8, fewest_rows=2)
        self.make_first = button(workspace.texts(ADD_ONE[table]))
        self.findings = FindingsList()
        self._lay_out()
        name_attributes(self)

    def _columns(self) -> list[Column[Row]]:
        name: Column[Row] = Column(
            key="name",
            title=N_("Name"),
            stretch=True,
            show=lambda row: shown_name(self.workspace.texts, self.kind, row),
            icon=self._icon,
        )
        return [
            name,
            *(
                Column(
                    key=key,
                    title=title,
                    numeric=key in NUMERIC,
                    spare=key in SPARE,
                    show=partial(self._cell, key),
                    sort=partial(_value, key) if key in NUMERIC else None,
                )
                for key, title in heads(self.kind)
            ),
        ]

    def _cell(self, column: str, row: Row) -> str:
        return cell(self.workspace.texts, self.kind, row, column)

    def _icon(self, row: Row) -> str:
        rank = self._ranks.get(row["id"])
        return RANK_LOOKS[rank] if rank is not None and rank > Rank.NOTE else ""

    def _lay_out(self) -> None:
        self.table.setSelectionMode(TableView.SelectionMode.SingleSelection)
        self.make_first.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(12)
        for widget in (self.what_for, self.table, self.make_first, self.findings):
            box.addWidget(widget)
        self.table.chosen.connect(self._choose)
        self.table.remove_requested.connect(lambda _keys: self.remove_requested.emit())
        self.make_first.clicked.connect(self.new_requested)

    def show_view(self, view: EquipmentView, key: int | None) -> None:
        """Show the pieces, with one of them in front."""
        rows = view.rows[self.kind]
        self._ranks = {
            row["id"]: max((one.rank for one in self._of(view, row)), default=Rank.NOTE)
            for row in rows
        }
        self._filling = True
        self.model.set_rows(rows)
        if key is not None:
            self.table.go_to(key)
        self._filling = False
        self.table.setVisible(bool(rows))
        self.make_first.setVisible(not rows)
        self.findings.show_findings(self.workspace.texts, self._findings(view, key))

    def _findings(self, view: EquipmentView, key: int | None) -> tuple[Finding, ...]:
        """About the piece in front, then about the kind; nothing while the list is empty."""
        if key is None:
            return ()
        found = (*view.of(self.kind, key), *view.of(self.kind))
        return named(self.workspace.texts, self.kind, found)

    def _of(self, view: EquipmentView, row: Row) -> tuple[Finding, ...]:
        return view.of(self.kind, int(str(row["id"])))

    def _choose(self, key: object) -> None:
        if isinstance(key, int) and not self._filling:
            self.chosen.emit(key)


def _value(key: str, row: Row) -> object:
    return row.get(key)
