"""Puts the demo's sticker sheets, labels and print runs into a workshop."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wickbench.app import labels, print_runs, shelf_edit, stock
from wickbench.app.print_run_view import sheet_values
from wickbench.app.sticker_sheets import sheet_of
from wickbench.app.texts_marker import N_
from wickbench.storage import records

if TYPE_CHECKING:
    from types import ModuleType

    from wickbench.app.workspace import Workspace

Keys = dict[str, int]


def fill_labels(workspace: Workspace, inputs: ModuleType, keys: Keys) -> None:
    """Everything that is printed; adds the key of each thing by its name."""
    for name, details, bought in inputs.SHEETS:
        keys[name] = _sheet(workspace, name, details, bought)
    for name, starting, sheet in inputs.LABELS:
        measures = sheet_of(sheet_values(workspace, keys[sheet]))
        keys[name] = labels.new_label(workspace, starting, measures, name=name)
    for run in inputs.RUNS:
        _run(workspace, run, keys)


def _sheet(
    workspace: Workspace, name: str, details: dict[str, Any], bought: tuple[int, float, float]
) -> int:
    key = shelf_edit.new_item(
        workspace, "sheet", {"name": name, "supplier": "Quire & Son"}, details
    )
    sheets, paid, freight = bought
    stock.buy(workspace, key, sheets, paid, freight, bought_on="2026-10-16", supplier="Quire & Son")
    return key


def _run(workspace: Workspace, run: tuple[Any, ...], keys: Keys) -> None:
    name, sheet, used, lines = run
    key = print_runs.choose_sheet(workspace, None, keys[sheet])
    with workspace.step(N_("Name a print run")) as connection:
        records.update(connection, "print_run", key, {"name": name})
    print_runs.choose_printer(workspace, key, "Workroom laser", "hand feed")
    if used:
        print_runs.set_used(workspace, key, used)
    for label, candle, lot, count in lines:
        line = {
            "label_id": keys[label],
            "candle_id": keys[candle],
            "lot_code": lot,
            "poured_on": "2026-11-28",
            "count": count,
        }
        print_runs.add_line(workspace, key, line)
