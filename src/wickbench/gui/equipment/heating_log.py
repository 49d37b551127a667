"""The timed heatings of a heat source: which count, and what was learned from them."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from wickbench.app.heating_log import view_log
from wickbench.app.heatings import leave_out, remove_heating
from wickbench.app.texts_marker import N_
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.listening import Listener
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView

if TYPE_CHECKING:
    from wickbench.app.heating_log import LoggedShown
    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.workspace import Workspace

_COLUMNS = (
    ("day", N_("Day"), False),
    ("pot", N_("Pot"), True),
    ("minutes", N_("On the heat"), False),
    ("heat", N_("Heat"), True),
    ("share", N_("Arrived"), False),
    ("counts", N_("Counts"), False),
)
_NUMERIC = frozenset({"minutes", "heat", "share"})


class HeatingLog(QWidget):
    """A table, what was learned, and what can be done with a row."""

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self.source: int | None = None
        self.chosen: int | None = None
        self.title = heading(texts(N_("Timed heatings")))
        self.said = label("", "quiet")
        self.model: RowModel[LoggedShown] = RowModel(
            lambda: workspace.texts, _columns(), lambda row: row.id
        )
        self.table = TableView(self.model, texts(N_("Timed heatings")), most_rows=6)
        self.out = button("")
        self.remove = button(texts(N_("Remove")), "flat")
        self.how = HowComputed(texts)
        self._lay_out()
        self.table.chosen.connect(self._choose)
        self.table.remove_requested.connect(lambda _keys: self.remove_chosen())
        self.out.clicked.connect(self.turn_chosen)
        self.remove.clicked.connect(self.remove_chosen)
        self._listener = Listener(workspace, self, frozenset({"heatings", "settings"}), self._fresh)
        name_attributes(self)

    def _lay_out(self) -> None:
        self.table.setSelectionMode(TableView.SelectionMode.SingleSelection)
        line = QHBoxLayout()
        for part in (self.out, self.remove, self.how):
            line.addWidget(part)
        line.addStretch(1)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        for widget in (self.title, self.said, self.table):
            box.addWidget(widget)
        box.addLayout(line)

    def show_source(self, source: int | None) -> None:
        """Show the log of a heat source."""
        self.source = source
        self._fresh(None)

    def _fresh(self, _changes: Changes | None) -> None:
        if self.source is None:
            return
        view = view_log(self.workspace, self.source)
        self.said.setText(view.said)
        self.model.set_rows(view.rows)
        keys = [row.id for row in view.rows]
        if self.chosen not in keys:
            self.chosen = keys[0] if keys else None
        if self.chosen is not None:
            self.table.go_to(self.chosen)
        for part in (self.table, self.out, self.remove):
            part.setVisible(bool(keys))
        self.how.explain(view.how)
        self._name_button(view.rows)

    def _name_button(self, rows: tuple[LoggedShown, ...]) -> None:
        left_out = any(row.left_out for row in rows if row.id == self.chosen)
        words = N_("Count it again") if left_out else N_("Leave it out")
        self.out.setText(self.workspace.texts(words))

    def _choose(self, key: object) -> None:
        if isinstance(key, int):
            self.chosen = key
            self._name_button(tuple(self.model.rows))

    def turn_chosen(self, *_: object) -> None:
        """Leave the chosen one out of what is learned, or count it again."""
        row = next((row for row in self.model.rows if row.id == self.chosen), None)
        if row is not None:
            leave_out(self.workspace, row.id, out=not row.left_out)

    def remove_chosen(self, *_: object) -> None:
        """Take the chosen one out of the log; undo brings it back."""
        if self.chosen is not None:
            remove_heating(self.workspace, self.chosen)


def _columns() -> list[Column[LoggedShown]]:
    return [
        Column(
            key=key,
            title=title,
            stretch=key == "day",
            numeric=key in _NUMERIC,
            spare=spare,
            show=partial(_cell, key),
            look=_look if key == "counts" else None,
        )
        for key, title, spare in _COLUMNS
    ]


def _cell(key: str, row: LoggedShown) -> str:
    return str(getattr(row, key))


def _look(row: LoggedShown) -> str:
    return "quiet" if row.left_out else ""
