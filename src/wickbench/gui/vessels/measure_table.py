"""A small table of measures: typed in, pasted from a spreadsheet, with what it says beneath."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QItemSelectionModel, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget
from typing_extensions import override

from wickbench.app import vessel_parts
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.trouble_line import TroubleLine
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.icons import set_icon
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.paste import cells_of
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from wickbench.app.fields import FieldSpec
    from wickbench.app.vessel_parts import PartRow
    from wickbench.app.vessel_tables import PartTable
    from wickbench.app.workspace import Workspace
    from wickbench.domain.findings import Finding


class MeasuresView(TableView):
    """A table that hands a pasted spreadsheet over as a whole, so that it is one act."""

    def __init__(self, model: RowModel[PartRow], name: str, take: Callable[[str], None]) -> None:
        super().__init__(model, name, most_rows=14, fewest_rows=1)
        self._take = take

    @override
    def paste(self, text: str) -> None:
        self._take(text)


class MeasureTable(QWidget):
    """Heading, table, *Add*, *Paste*, *Remove*; results and findings stand under it.

    Signals:
        typed: a cell is being typed in, or was closed; `typed_cell` says which.
    """

    typed = Signal()

    def __init__(
        self, workspace: Workspace, part: PartTable, more: Sequence[Column[PartRow]] = ()
    ) -> None:
        """Build an empty table.

        Args:
            workspace: the open workshop.
            part: the table.
            more: columns after those of the table that show what follows from a row.
        """
        super().__init__()
        texts = workspace.texts
        self.workspace, self.part = workspace, part
        self.typed_cell: tuple[int, str, str] | None = None
        self._vessel: int | None = None
        self._goal: tuple[int, int] | None = None
        self.title = heading(texts(part.heading))
        self.add = self._tool("new", texts(part.add))
        self.paste = self._tool("paste", texts(part.paste))
        self.remove = self._tool("remove", texts(part.remove))
        columns = [*(self._column(spec) for spec in part.specs), *more]
        self.model: RowModel[PartRow] = RowModel(
            lambda: workspace.texts, columns, lambda row: row.id,
            add=self._add_row, adding=part.adding,
        )  # fmt: skip
        self.table = MeasuresView(self.model, texts(part.heading), self._pasted)
        self.trouble = TroubleLine()
        self.result = label()
        self.how = HowComputed(texts)
        self.findings = FindingsList()
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _tool(self, icon: str, name: str) -> QPushButton:
        tool = accessible(button("", "flat"), name)
        tool.setToolTip(name)
        set_icon(tool, icon, colours_of(self))
        return tool

    def _column(self, spec: FieldSpec) -> Column[PartRow]:
        return Column(
            key=spec.name,
            title=spec.label,
            show=partial(self._shown, spec),
            edit_text=partial(self._edited, spec),
            numeric=not spec.choices,
            stretch=spec.name == self.part.stretch,
            hint=partial(self._hint, spec),
            write=partial(self._write, spec),
            choices=partial(self._choices, spec) if spec.choices else None,
            look=lambda row: "stops" if spec.name in row.drafts else "",
            about=spec.hint,
        )

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(2)
        head.addWidget(self.title, 1)
        for tool in (self.add, self.paste, self.remove):
            head.addWidget(tool)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(6)
        box.addLayout(head)
        for widget in (self.table, self.trouble, self.result, self.how, self.findings):
            box.addWidget(widget)

    def _connect(self) -> None:
        self.add.clicked.connect(self.begin_row)
        self.paste.clicked.connect(self._paste_new)
        self.remove.clicked.connect(self._remove_selected)
        self.table.remove_requested.connect(self._remove_rows)
        self.model.rows_shown.connect(self._go)
        self.model.cell_typed.connect(self._cell_typed)

    # -- showing ---------------------------------------------------------------------------------
    def show_vessel(self, vessel: int | None) -> None:
        """Show the rows of a vessel; rows wait while a cell is open."""
        if vessel != self._vessel:
            self._goal = None
        self._vessel = vessel
        rows = vessel_parts.part_rows(self.workspace, self.part, vessel) if vessel else ()
        self.model.set_rows(rows)
        self._tell_unread(rows)

    def show_results(
        self, lines: Sequence[str], findings: Sequence[Finding], how: Sequence[str] = ()
    ) -> None:
        """Say beneath the table what its rows come to, and how that was computed."""
        self.result.setText("\n".join(lines))
        self.how.explain(how)
        self.result.setVisible(bool(lines))
        self.findings.show_findings(self.workspace.texts, findings)
        self.findings.setVisible(bool(findings))

    def _tell_unread(self, rows: Sequence[PartRow]) -> None:
        """The sentences of texts that could not be read, each once."""
        told = [sentence for row in rows for _, sentence in row.drafts.values() if sentence]
        self.trouble.say("\n".join(dict.fromkeys(told)))

    def _shown(self, spec: FieldSpec, row: PartRow) -> str:
        return vessel_parts.cell_text(self.workspace, spec, row, self.model.rows)

    def _edited(self, spec: FieldSpec, row: PartRow) -> str:
        """What stands in the open cell: the stored word of a choice, else what is shown."""
        if spec.choices and spec.name not in row.drafts:
            value = row.values.get(spec.name)
            return "" if value is None else str(value)
        return self._shown(spec, row)

    def _choices(self, spec: FieldSpec, _row: PartRow | None) -> list[tuple[str, str]]:
        texts = self.workspace.texts
        return [(str(choice.value), texts(choice.label)) for choice in spec.choices]

    def _hint(self, spec: FieldSpec, row: PartRow) -> str:
        if spec.name in row.drafts:
            return row.drafts[spec.name][1]
        value = row.values.get(spec.name)
        if not isinstance(value, (int, float)) or spec.kind == "count":
            return self._shown(spec, row)
        return self.workspace.texts.quantity(value, spec.kind)

    def _go(self) -> None:
        """Go on in the row that was just added, in the column that was typed in."""
        if self._goal is None:
            return
        key, column = self._goal
        at = self.model.row_of(key)
        if at >= 0:
            self._goal = None
            flags = QItemSelectionModel.SelectionFlag
            index = self.model.index(at, column)
            self.table.selectionModel().setCurrentIndex(index, flags.ClearAndSelect | flags.Rows)
            self.table.scrollTo(index)

    def _cell_typed(self, key: int | None, name: str, typed: str | None) -> None:
        cell = None if key is None or typed is None else (key, name, typed)
        if cell != self.typed_cell:
            self.typed_cell = cell
            self.typed.emit()

    # -- changing --------------------------------------------------------------------------------
    def begin_row(self) -> None:
        """Open the inviting last row for typing."""
        index = self.model.index(self.model.rowCount() - 1, int(self.part.numbered))
        self.table.setFocus()
        self.table.setCurrentIndex(index)
        self.table.edit(index)

    def _write(self, spec: FieldSpec, row: PartRow, typed: str) -> None:
        try:
            vessel_parts.write_part(self.workspace, self.part, row.id, spec.name, typed)
        finally:
            self.show_vessel(self._vessel)

    def _add_row(self, typed: dict[str, str]) -> None:
        typed = {name: text for name, text in typed.items() if name in self.part.names}
        if self._vessel is None or not typed:
            return
        column = max((self.part.names.index(name) for name in typed), default=0)
        key = vessel_parts.add_part(self.workspace, self.part, self._vessel, typed)
        self._goal = (key, column)
        self.show_vessel(self._vessel)

    def _pasted(self, text: str) -> None:
        """Paste from the current cell on: over the rows from there, then as new rows."""
        current = self.table.currentIndex()
        at = current.row() if current.isValid() else len(self.model.rows)
        onto = [row.id for row in self.model.rows[at:]]
        self._paste_cells(text, onto, max(0, current.column()))

    def _paste_new(self) -> None:
        self._paste_cells(QGuiApplication.clipboard().text(), [], 0)

    def _paste_cells(self, text: str, onto: Sequence[int], left: int) -> None:
        if self._vessel is None:
            return
        try:
            vessel_parts.paste_parts(
                self.workspace, self.part, self._vessel, cells_of(text), onto=onto, left=left
            )
        except DomainError as error:
            self.trouble.say(self.workspace.texts.say(error))
            return
        self.show_vessel(self._vessel)

    def _remove_selected(self) -> None:
        keys = self.table.selected_keys()
        if not keys and self.model.rows:
            self.table.go_to(self.model.rows[-1].id)
            return
        self._remove_rows(keys)

    def _remove_rows(self, keys: list[int]) -> None:
        if keys:
            vessel_parts.remove_parts(self.workspace, self.part, keys)
            self.show_vessel(self._vessel)
