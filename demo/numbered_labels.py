"""Numbered labels of the demo: a small run of a limited candle, each with its own number.

The sheet they stand on was measured with a ruler, and is put in order lot by lot.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app import label_elements, labels, print_runs, sheet_readings
from wickbench.app.print_run_view import sheet_values
from wickbench.app.sticker_sheets import sheet_of
from wickbench.domain.sheet_measuring import SideReadings

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

Keys = dict[str, int]

SHEET: Final = "Kraft sheet, 3 across"
LABEL: Final = "Numbered back label"
# Read with a ruler in half millimetres: from the paper's edge, and one sticker.
_RULER: Final = {
    "across": SideReadings(first_near_mm=10.0, last_near_mm=143.0, last_far_mm=206.0, size_mm=63.0),
    "down": SideReadings(first_near_mm=15.5, last_near_mm=225.5, last_far_mm=263.5, size_mm=38.0),
}
_NUMBER: Final = {"x_mm": 34.0, "y_mm": 20.7, "w_mm": 26.5, "h_mm": 3.6, "align": "right"}
# Lot and stickers; the second line's numbers go on from the first one's.
_LINES: Final = (("26-311-B2", 14), ("26-311-B2", 10))


def fill_numbered_labels(workspace: Workspace, keys: Keys) -> None:
    """The ruler's readings of a sheet, a numbered label, and its run."""
    values = sheet_values(workspace, keys[SHEET])
    sheet_readings.take_measures(workspace, keys[SHEET], {}, ruler=_RULER)
    keys[LABEL] = labels.new_label(workspace, "ledger", sheet_of(values), name=LABEL)
    at = label_elements.add_element(workspace, keys[LABEL], "text")
    text = {"text": "No. {number} of {of}", "size_pt": 7.0, "min_size_pt": 6.0}
    label_elements.change_element(workspace, keys[LABEL], at, {**_NUMBER, **text})
    run = print_runs.choose_sheet(workspace, None, keys[SHEET])
    print_runs.rename_run(workspace, run, "Numbered, for the winter fair")
    print_runs.choose_printer(workspace, run, "Workroom laser", "hand feed")
    for lot, count in _LINES:
        line = {
            "label_id": keys[LABEL], "candle_id": keys["BS-30"], "lot_code": lot,
            "poured_on": "2026-11-07", "count": count,
        }  # fmt: skip
        print_runs.add_line(workspace, run, line)
    print_runs.sort_run(workspace, run, "lot")
