"""The docked catalog editors, each built on first show.

To add a dock: write the class (``XDock(CatalogDock)`` with ``__init__(workspace, ask)``) and give
it a row here.
"""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module
from typing import TYPE_CHECKING, Final

from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace
    from wickbench.gui.catalog.catalog_dock import CatalogDock


@dataclass(frozen=True, slots=True)
class DockSpec:
    """One dock.

    Attributes:
        key: name for code; its object name is ``<key>_dock``.
        title: msgid.
        icon: name of an icon.
        factory: ``"module:Class"``.
    """

    key: str
    title: str
    icon: str
    factory: str

    def build(self, workspace: Workspace, ask: Ask) -> CatalogDock:
        """Import and make the dock; its content waits for the first show."""
        module, name = self.factory.split(":")
        dock: CatalogDock = getattr(import_module(module), name)(workspace, ask)
        return dock


DOCKS: Final[tuple[DockSpec, ...]] = (
    DockSpec(
        "materials",
        N_("Materials"),
        "materials",
        "wickbench.gui.materials.materials_dock:MaterialsDock",
    ),
    DockSpec(
        "vessels",
        N_("Vessels"),
        "vessels",
        "wickbench.gui.vessels.vessels_dock:VesselsDock",
    ),
    DockSpec(
        "recipes",
        N_("Recipes"),
        "recipes",
        "wickbench.gui.recipes.recipes_dock:RecipesDock",
    ),
)
"""From left to right in the row of tabs."""
