"""One kind of equipment on its card: a small list, the form of one, and what is amiss."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QBoxLayout, QFrame, QHBoxLayout, QVBoxLayout
from typing_extensions import override

from wickbench.app import equipment, shelf_edit
from wickbench.app.equipment_fields import EQUIPMENT_NAMES
from wickbench.app.equipment_shown import ADD_ONE, DUPLICATE_ONE, REMOVE_ONE
from wickbench.domain.errors import DomainError
from wickbench.gui.equipment.kind_list import KindList
from wickbench.gui.equipment.piece_editor import PieceEditor
from wickbench.gui.icons import set_icon
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import button, heading
from wickbench.gui.style_sheet import set_look
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent
    from PySide6.QtWidgets import QPushButton

    from wickbench.app.equipment import EquipmentView
    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Equipment

_WIDE_CHARACTERS: Final = 96


class EquipmentSection(QFrame):
    """The card of one kind of equipment.

    Signals:
        edited: something is being typed in the form.
    """

    edited = Signal()

    def __init__(self, workspace: Workspace, ask: Ask, table: str) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self.kind = table
        self.record: int | None = None
        self._ask = ask
        self._stored: Equipment | None = None
        set_look(self, "card")
        name = texts(EQUIPMENT_NAMES[table])
        self.title = heading(name)
        self.new = button(texts(ADD_ONE[table]))
        self.duplicate = self._tool("duplicate", texts(DUPLICATE_ONE[table]))
        self.remove = self._tool("remove", texts(REMOVE_ONE[table]))
        self.list = KindList(workspace, table, name)
        self.editor = PieceEditor(workspace, table)
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _tool(self, icon: str, name: str) -> QPushButton:
        tool = accessible(button("", "flat"), name)
        tool.setToolTip(name)
        set_icon(tool, icon, colours_of(self))
        return tool

    def _lay_out(self) -> None:
        for new in (self.new, self.list.make_first):
            set_icon(new, "new", colours_of(self))
        head = QHBoxLayout()
        head.setSpacing(4)
        head.addWidget(self.title, 1)
        for tool in (self.duplicate, self.remove, self.new):
            head.addWidget(tool)
        self._halves = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._halves.setSpacing(20)
        for half in (self.list, self.editor):
            column = QVBoxLayout()
            column.addWidget(half)
            more = self.editor.brim or self.editor.log
            if half is self.list and more is not None:
                column.addSpacing(6)
                column.addWidget(more)
            column.addStretch(1)
            self._halves.addLayout(column, 1)
        box = QVBoxLayout(self)
        box.setContentsMargins(16, 12, 16, 14)
        box.setSpacing(8)
        box.addLayout(head)
        box.addLayout(self._halves)

    def _connect(self) -> None:
        self.list.chosen.connect(self._choose)
        self.list.remove_requested.connect(self.remove_chosen)
        self.list.new_requested.connect(self.make_new)
        self.new.clicked.connect(self.make_new)
        self.duplicate.clicked.connect(self.duplicate_chosen)
        self.remove.clicked.connect(self.remove_chosen)
        self.editor.edited.connect(self.edited)

    # -- showing ---------------------------------------------------------------------------------
    def show_stored(self, stored: Equipment, view: EquipmentView) -> None:
        """Show fresh values; the chosen piece stays chosen."""
        self._stored = stored
        self.show_view(view)
        self._fill_form()

    def show_view(self, view: EquipmentView) -> None:
        """Show list and findings anew, and leave the form alone."""
        keys = [row["id"] for row in view.rows[self.kind]]
        if self.record not in keys:
            self.record = int(str(keys[-1])) if keys else None
        self.list.show_view(view, self.record)
        own = (self.editor, self.editor.brim, self.editor.log)
        for widget in (*own, self.duplicate, self.remove, self.new):
            if widget is not None:
                widget.setVisible(bool(keys))

    def _fill_form(self) -> None:
        if self._stored is not None:
            rows = equipment.rows_of(self._stored, self.kind)
            self.editor.show_piece(next((row for row in rows if row["id"] == self.record), None))

    def choose(self, record: int) -> None:
        """Bring one into the form."""
        self.record = record
        if self._stored is not None:
            self.show_stored(self._stored, equipment.view_equipment(self._stored))

    def _choose(self, record: int) -> None:
        if record != self.record:
            self.choose(record)

    # -- what can be done ------------------------------------------------------------------------
    def make_new(self, *_: object) -> None:
        """Add one and go to its name."""
        self._take(shelf_edit.new_equipment(self.workspace, self.kind))

    def duplicate_chosen(self, *_: object) -> None:
        """Copy the chosen one and go to the copy's name."""
        if self.record is not None:
            made = shelf_edit.duplicate_equipment(self.workspace, self.kind, self.record)
            self._take(made)

    def _take(self, record: int) -> None:
        self.choose(record)
        self.editor.form.focus("name")

    def remove_chosen(self, *_: object) -> None:
        """Remove the chosen one; undo brings it back."""
        if self.record is None:
            return
        try:
            equipment.remove_equipment(self.workspace, self.kind, self.record)
        except DomainError as error:
            self._ask.tell(self.workspace.texts.say(error))

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        wide = event.size().width() >= self.fontMetrics().averageCharWidth() * _WIDE_CHARACTERS
        direction = QBoxLayout.Direction
        self._halves.setDirection(direction.LeftToRight if wide else direction.TopToBottom)
        super().resizeEvent(event)
