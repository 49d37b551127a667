"""The form of one piece of equipment; for a pot also how to measure it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from wickbench.app.equipment import with_typed
from wickbench.app.equipment_fields import EQUIPMENT_FIELDS
from wickbench.gui.equipment.brim_by_water import BrimByWater
from wickbench.gui.equipment.heating_log import HeatingLog
from wickbench.gui.fields.form import FieldForm
from wickbench.gui.naming import name_attributes

if TYPE_CHECKING:
    from wickbench.app.equipment import Row
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Equipment


class PieceEditor(QWidget):
    """The fields of a piece of one kind.

    Attributes:
        brim: for a pot, how to measure it; whoever shows the editor finds it a place.
        log: for a heat source, its timed heatings; it finds its place in the same way.

    Signals:
        edited: something is being typed.
    """

    edited = Signal()

    def __init__(self, workspace: Workspace, table: str) -> None:
        super().__init__()
        self.workspace = workspace
        self.kind = table
        self.form = FieldForm(workspace, EQUIPMENT_FIELDS[table])
        self.brim = BrimByWater(workspace) if table == "pot" else None
        self.log = HeatingLog(workspace) if table == "heat_source" else None
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(14)
        box.addWidget(self.form)
        self.form.edited.connect(lambda *_: self.edited.emit())
        self.form.refused.connect(lambda *_: self.edited.emit())
        name_attributes(self)

    @property
    def record(self) -> int | None:
        """Key of the piece in the form."""
        return self.form.record

    def show_piece(self, row: Row | None) -> None:
        """Show stored values; a field that is being typed in stays as it is."""
        key = None if row is None else int(str(row["id"]))
        self.form.show_record(key, row or {})
        if self.brim is not None:
            self.brim.show_pot(key)
        if self.log is not None:
            self.log.show_source(key)

    def typed(self, equipment: Equipment) -> Equipment:
        """The equipment with what stands in the form."""
        if self.record is None:
            return equipment
        return with_typed(equipment, self.kind, self.record, self.form.values())
