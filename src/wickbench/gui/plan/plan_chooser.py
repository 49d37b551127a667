"""Which plan is shown: a list by date, and what can be done with a plan as a whole."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from wickbench.app.plan_words import plan_name
from wickbench.app.texts_marker import N_
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.icons import set_icon
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import button
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.plans import PlanRow
    from wickbench.app.texts import Texts


class PlanChooser(QWidget):
    """A list of plans, *New plan*, *Same again*, *Remove*.

    Signals:
        chosen: key of a plan.
        new_requested, again_requested, remove_requested: a button was pressed.
    """

    chosen = Signal(int)
    new_requested = Signal()
    again_requested = Signal()
    remove_requested = Signal()

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        self.plans = ChoiceField(texts(N_("Plan")), [])
        self.new = self._tool("new", texts(N_("New plan")))
        self.again = self._tool("duplicate", texts(N_("Same again")))
        self.remove = self._tool("remove", texts(N_("Remove the plan")))
        box = QHBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(4)
        box.addWidget(self.plans, 1)
        for tool in (self.new, self.again, self.remove):
            box.addWidget(tool)
        self.plans.committed.connect(self._choose)
        self.new.clicked.connect(self.new_requested)
        self.again.clicked.connect(self.again_requested)
        self.remove.clicked.connect(self.remove_requested)
        name_attributes(self)

    def _tool(self, icon: str, name: str) -> QPushButton:
        tool = accessible(button("", "flat"), name)
        tool.setToolTip(name)
        set_icon(tool, icon, colours_of(self))
        return tool

    def show_plans(self, rows: Sequence[PlanRow], chosen: int | None, texts: Texts) -> None:
        """List these plans."""
        self.plans.set_pairs([(str(row.id), plan_name(texts, row)) for row in rows])
        self.plans.show_stored("" if chosen is None else str(chosen))

    def _choose(self, word: str) -> None:
        if word:
            self.chosen.emit(int(word))
