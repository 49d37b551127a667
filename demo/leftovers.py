"""Leftovers of the demo: the rest of a pour, and wax out of candles that failed: all invented."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from heatings import PourClock

from wickbench.app import leftover_keeping as keeping
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

Keys = dict[str, int]
SCOOPED_ON = dt.date(2026, 11, 16)
SCOOPED = ("CP-32", 2, 388.0, "Cedar porch, drowned wicks")
TRIAL_ON = dt.date(2026, 10, 5)
TRIAL = ("Bramble & smoke", 236.0, "Bramble, after the tin tests")


def fill_leftovers(workspace: Workspace, keys: Keys) -> None:
    """Keep what was left of the earlier pour, of a trial, and of candles that were scooped out."""
    today = workspace.clock
    try:
        workspace.clock = PourClock(TRIAL_ON)
        recipe, mass_g, name = TRIAL
        keeping.keep_other(workspace, keys[f"recipe {recipe}"], mass_g, name)
        workspace.clock = PourClock(SCOOPED_ON)
        code, count, mass_g, name = SCOOPED
        keeping.keep_scooped(workspace, keys[code], mass_g, count=count, name=name)
        _of_pots(workspace)
    finally:
        workspace.clock = today


def _of_pots(workspace: Workspace) -> None:
    """What is left by the weights in the first pot that was poured out."""
    with workspace.read() as connection:
        done = records.fetch_all(connection, "pour_pot", {"state": "done"})[:1]
    for row in done:
        offer = keeping.offer_of_pot(workspace, int(str(row["id"])))
        if offer.mass_g > 0:
            keeping.keep_from_pot(workspace, offer.pour_pot, round(offer.mass_g))
