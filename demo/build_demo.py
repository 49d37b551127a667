"""Builds the demo workshop through the same operations that the window uses.

The scenario is invented: one maker, her shelf, and a pour of 36 candles before a winter fair.
"""

from __future__ import annotations

import datetime as dt
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

import label_inputs
import making_inputs
import shelf_inputs
from code_labels import fill_code_labels
from demo_calendar import fill_calendar
from demo_labels import fill_labels
from demo_making import fill_making
from demo_shelf import fill_shelf
from drawn_labels import fill_drawn_labels
from heatings import fill_heatings
from left_findings import leave_findings
from leftovers import fill_leftovers
from net_checks import fill_net_checks
from numbered_labels import fill_numbered_labels
from pour_labels import fill_pour_labels
from wax_measurements import fill_wax_measurements
from wrap_labels import fill_wrap_labels

from wickbench.app.questions import Silent
from wickbench.app.texts import Texts
from wickbench.app.workspace import Services, Workspace

MORNING = dt.datetime(2026, 11, 25, 8, 30, tzinfo=dt.UTC)


class DemoClock:
    """A morning in the scenario; each look at it is a moment later."""

    def __init__(self) -> None:
        self._looks = 0

    def now_ms(self) -> int:
        """Milliseconds since 1970 (UTC), one second further each time."""
        self._looks += 1
        return int(MORNING.timestamp() * 1000) + self._looks * 1000

    def today(self) -> dt.date:
        """The day of the scenario."""
        return MORNING.date()

    def monotonic(self) -> float:
        """Seconds, ten further each time, so that no two steps merge."""
        self._looks += 1
        return self._looks * 10.0


def build(path: Path) -> None:
    """Write the demo workshop to a new file.

    Raises:
        FileRefused: the file exists already or cannot be written there.
    """
    services = Services(clock=DemoClock(), texts=Texts(), ask=Silent())
    workspace = Workspace.create(path, services)
    try:
        keys = fill_shelf(workspace, shelf_inputs)
        fill_wax_measurements(workspace, keys)
        fill_making(workspace, making_inputs, keys)
        fill_calendar(workspace, keys)
        fill_wrap_labels(workspace, keys)
        fill_labels(workspace, label_inputs, keys)
        fill_drawn_labels(workspace, keys)
        fill_code_labels(workspace, keys)
        fill_numbered_labels(workspace, keys)
        fill_pour_labels(workspace, label_inputs, keys)
        fill_net_checks(workspace, keys)
        fill_heatings(workspace, keys)
        fill_leftovers(workspace, keys)
        leave_findings(workspace)
    finally:
        workspace.close()


if __name__ == "__main__":
    target = Path(sys.argv[1] if len(sys.argv) > 1 else "demo.wickbench")
    build(target)
    print(target)
