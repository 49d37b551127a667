"""Cards beside the plan, each about one question; the page shows them below what the plan comes to.

To add one: write the class (a ``PlanPanel`` with ``__init__(workspace)``) and give it a row here.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, ClassVar, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

if TYPE_CHECKING:
    from wickbench.app.plan_view import PlanView
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace


class PlanPanel(QWidget):
    """A card beside the plan; it hides itself when it has nothing to say.

    Signals:
        go_requested: the person wants to see something: name of the place, and a record or None.

    Attributes:
        name_words: msgid of its heading; the section that it stands in shows it.
        open_at_first: shown before the person folds it.
        box: where its parts go, from top to bottom.
    """

    go_requested = Signal(str, object)
    name_words: ClassVar[str] = ""
    open_at_first: ClassVar[bool] = True

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        self.workspace = workspace
        self.texts = workspace.texts
        self.box = QVBoxLayout(self)
        self.box.setContentsMargins(0, 0, 0, 0)
        self.box.setSpacing(8)

    def show_plan(self, view: PlanView, shelf: Shelf) -> None:
        """Show a plan, stored or as it is being typed: must be quick, a key waits for it.

        What takes longer than a few milliseconds belongs behind a button or into ``refresh``.
        """

    def refresh(self) -> None:
        """Read afresh what does not change while the plan is typed. Comes before ``show_plan``."""


PANELS: Final[tuple[str, ...]] = (
    "wickbench.gui.plan.shelf_card:ShelfCard",
    "wickbench.gui.leftovers.plan_card:LeftoverCard",
    "wickbench.gui.plan.calendar_card:CalendarCard",
    "wickbench.gui.plan.heat_card:HeatCard",
)
"""``"module:Class"`` of each card, in the order in which they stand."""


def build_panels(workspace: Workspace) -> tuple[PlanPanel, ...]:
    """All cards."""
    made = []
    for factory in PANELS:
        module, name = factory.split(":")
        panel: PlanPanel = getattr(import_module(module), name)(workspace)
        made.append(panel)
    return tuple(made)
