"""A small catalog of pots, for tests of what all catalogs share."""

from __future__ import annotations

from typing import TYPE_CHECKING

from typing_extensions import override

from wickbench.app import shelf_edit
from wickbench.app.fields import FieldSpec
from wickbench.gui.catalog.catalog_dock import CatalogDock
from wickbench.gui.fields.form import FieldForm
from wickbench.gui.tables.column import Column
from wickbench.storage import records

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

Row = dict[str, object]
FIELDS = (
    FieldSpec(name="name", label="Name", kind="text", table="pot"),
    FieldSpec(name="brim_ml", label="Brim", kind="volume", table="pot", low=0),
)


class PotsDock(CatalogDock):
    """Pots by name and brim."""

    title = "Pots"
    kinds = frozenset({"equipment"})
    find_text = "Find a pot"
    empty_text = "Pots that you melt and pour with belong here."
    new_text = "Add the first pot"

    @override
    def columns(self) -> tuple[Column[Row], ...]:
        return (
            Column(key="name", title="Pot", show=lambda row: str(row["name"]), stretch=True),
            Column(
                key="brim", title="Brim", numeric=True, show=lambda row: str(row["brim_ml"] or "")
            ),
        )

    @override
    def rows(self) -> list[Row]:
        with self.workspace.read() as connection:
            return [dict(row) for row in records.fetch_all(connection, "pot", order=("id",))]

    @override
    def key(self, row: Row) -> int:
        return int(str(row["id"]))

    @override
    def build_editor(self) -> QWidget:
        self.form = FieldForm(self.workspace, FIELDS)
        return self.form

    @override
    def show_in_editor(self, record: int | None) -> str:
        if record is None:
            self.form.show_record(None, {})
            return ""
        with self.workspace.read() as connection:
            row = records.fetch(connection, "pot", record)
        self.form.show_record(record, row)
        return str(row["name"])

    @override
    def new_record(self, kind: str) -> int:
        return shelf_edit.new_equipment(self.workspace, "pot", {"name": ""})

    @override
    def duplicate_record(self, record: int) -> int:
        return shelf_edit.duplicate_equipment(self.workspace, "pot", record)

    @override
    def remove_record(self, record: int) -> None:
        shelf_edit.remove_row(self.workspace, "pot", record, "Remove")
