"""The page of equipment: one card for each kind of thing at the bench."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from PySide6.QtCore import QTimer
from typing_extensions import override

from wickbench.app import equipment
from wickbench.app.texts_marker import N_
from wickbench.gui.equipment.equipment_section import EquipmentSection
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import Page, label

if TYPE_CHECKING:
    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace

_ABOUT = N_("What you weigh with, pour from, heat and measure with, and print on.")


class EquipmentPage(Page):
    """Scales, pots, heat, thermometers and printers with trays."""

    kinds: ClassVar[frozenset[str]] = frozenset({"equipment", "settings"})

    def __init__(self, workspace: Workspace, ask: Ask) -> None:
        super().__init__(workspace, ask)
        self.title.setText(self.texts(N_("Equipment")))
        self.about = label(self.texts(_ABOUT), "quiet")
        self.main.addWidget(self.about)
        self.sections = {
            table: EquipmentSection(workspace, ask, table) for table in equipment.TABLES
        }
        self._part = next(iter(self.sections))
        for table, section in self.sections.items():
            section.setObjectName(f"{table}_section")
            section.edited.connect(self._typed)
            self.main.addWidget(section)
        self.main.addStretch(1)
        name_attributes(self)

    @override
    def refresh(self, changes: Changes | None) -> None:
        stored = equipment.load_equipment(self.workspace)
        view = equipment.view_equipment(stored)
        for section in self.sections.values():
            section.show_stored(stored, view)

    def _typed(self) -> None:
        """Lists and findings follow the typing; nothing is stored yet."""
        typed = equipment.load_equipment(self.workspace)
        for section in self.sections.values():
            typed = section.editor.typed(typed)
        view = equipment.view_equipment(typed)
        for section in self.sections.values():
            section.show_view(view)

    @override
    def show_part(self, part: str) -> None:
        """Bring the card of one kind of equipment into view, for example "scale" or "pot"."""
        if part in self.sections:
            self._part = part
            QTimer.singleShot(0, self.sections[part], self._bring_part_into_view)

    def _bring_part_into_view(self) -> None:
        section = self.sections[self._part]
        first = section.list.make_first if section.record is None else section.list.table
        self.verticalScrollBar().setValue(section.y() - 8)
        first.setFocus()

    @override
    def show_record(self, record: int) -> None:
        """Choose one in the card that was named last."""
        self.refresh(None)
        self.sections[self._part].choose(record)
