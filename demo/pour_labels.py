"""Gives the demo's candles their labels, prints the bowls', and makes those of the winter fair."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app import print_runs, printing, runs_from_pour
from wickbench.app.label_making import LabelMaker
from wickbench.app.label_store import stored_labels
from wickbench.app.print_run_view import run_view
from wickbench.app.shelf import load_shelf
from wickbench.app.texts_marker import N_
from wickbench.storage import records

if TYPE_CHECKING:
    from types import ModuleType

    from wickbench.app.workspace import Workspace

Keys = dict[str, int]


def fill_pour_labels(workspace: Workspace, inputs: ModuleType, keys: Keys) -> None:
    """Labels of candles, a print that is done, and the print runs of the planned pour."""
    with workspace.step(N_("Choose the labels")) as connection:
        for code, (front, caution) in inputs.CANDLE_LABELS.items():
            labels = {"jar_label_id": keys[front], "caution_label_id": keys.get(caution)}
            records.update(connection, "candle", keys[code], labels)
    runs = {name: run for run, name in print_runs.run_names(workspace).items()}
    _print(workspace, runs[inputs.PRINTED])
    wanted = runs_from_pour.propose_runs(workspace, keys["plan"])
    made = runs_from_pour.make_runs(workspace, wanted)
    for run in made:
        print_runs.choose_printer(workspace, run, "Workroom laser", "hand feed")
    sheet, gone = inputs.GONE
    on_sheet = [run for run in made if print_runs.print_run(workspace, run).sheet_id == keys[sheet]]
    print_runs.set_used(workspace, on_sheet[0], gone)


def _print(workspace: Workspace, run: int) -> None:
    """A run as it was sent to the printer."""
    known = {one.id: one for one in stored_labels(workspace)}
    stored = print_runs.print_run(workspace, run)
    view = run_view(workspace, LabelMaker(workspace), load_shelf(workspace), known, stored)
    printing.record_labels(workspace, view)
