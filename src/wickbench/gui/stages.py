"""The stages of the work and the other places of the window, each a page built on first visit.

To add a page: write the class (``XPage(Page)`` with ``__init__(workspace, ask)``) and give it a row
here.
"""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module
from typing import TYPE_CHECKING, Final

from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace
    from wickbench.gui.page import Page


@dataclass(frozen=True, slots=True)
class StageSpec:
    """One page.

    Attributes:
        key: name for code, unique among stages and places.
        title: msgid.
        icon: name of an icon.
        factory: ``"module:Class"``, imported when the page is first visited.
        shortcut: key of a place in portable form; stages are numbered instead.
    """

    key: str
    title: str
    icon: str
    factory: str
    shortcut: str = ""

    def build(self, workspace: Workspace, ask: Ask) -> Page:
        """Import and make the page."""
        module, name = self.factory.split(":")
        page: Page = getattr(import_module(module), name)(workspace, ask)
        return page


STAGES: Final[tuple[StageSpec, ...]] = (
    StageSpec("pour_plan", N_("Pour plan"), "pour-plan", "wickbench.gui.plan.plan_page:PlanPage"),
    StageSpec("labels", N_("Labels"), "labels", "wickbench.gui.labels.labels_page:LabelsPage"),
)
"""In the order of the work; a stage stands here when it does something real."""

PLACES: Final[tuple[StageSpec, ...]] = (
    StageSpec(
        "candles",
        N_("Candles"),
        "candle",
        "wickbench.gui.candles.candles_page:CandlesPage",
        "Ctrl+Shift+C",
    ),
    StageSpec(
        "bench", N_("The bench"), "pot", "wickbench.gui.bench.bench_page:BenchPage", "Ctrl+B"
    ),
    StageSpec(
        "leftovers",
        N_("Leftovers"),
        "leftover",
        "wickbench.gui.leftovers.leftovers_page:LeftoversPage",
        "Ctrl+Shift+L",
    ),
    StageSpec(
        "equipment",
        N_("Equipment"),
        "scale",
        "wickbench.gui.equipment.equipment_page:EquipmentPage",
        "Ctrl+Shift+E",
    ),
    StageSpec(
        "business",
        N_("Business details"),
        "business",
        "wickbench.gui.setup.business_page:BusinessPage",
    ),
    StageSpec(
        "settings",
        N_("Settings"),
        "settings",
        "wickbench.gui.setup.settings_page:SettingsPage",
        "Ctrl+,",
    ),
)
"""Pages that are reached from the Go menu, from other pages and by Ctrl+K."""
