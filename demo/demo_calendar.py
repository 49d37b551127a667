"""Gives the demo's suppliers their lead times, its maker a day off, and its plan a day of need."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.texts_marker import N_
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

NEEDED_ON = "2026-12-19"
"""The winter fair, a Saturday."""

# name: days until it is there, whether the supplier counts working days
LEAD_DAYS = {
    "Meadow soy": (6, False),
    "Coast coconut": (6, False),
    "Field rapeseed": (9, False),
    "Hive beeswax": (9, False),
    "Bramble": (4, True),
    "Amber tumbler 30 cl": (12, False),
    "Seamless tin 8 cm": (12, False),
    "Cork lid 75": (8, True),
    "Tin lid 77": (8, True),
}


def fill_calendar(workspace: Workspace, keys: dict[str, int]) -> None:
    """Lead times by the names of things, Sundays off, and the plan needed for the fair."""
    with workspace.step(N_("Note how long it takes to arrive")) as connection:
        for name, (days, in_workdays) in LEAD_DAYS.items():
            values = {"lead_days": days, "lead_in_workdays": int(in_workdays)}
            records.update(connection, "item", keys[name], values)
    workspace.set_setting("work_sun", 0)
    with workspace.step(N_("Choose the day")) as connection:
        records.update(connection, "plan", keys["plan"], {"needed_on": NEEDED_ON, "spare_days": 2})
