"""A finding of the demo that the maker looked at and left as it is, with the reason."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app import print_runs
from wickbench.app.label_making import LabelMaker
from wickbench.app.label_store import stored_labels
from wickbench.app.print_run_view import run_view
from wickbench.app.set_aside import leave_all
from wickbench.app.shelf import load_shelf

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

# Name of the print run, key of the finding, why it is left.
LEFT: Final = (
    ("Bowls", "wrap.round-rises", "Tried on three bowls: the soft paper lies flat enough."),
)


def leave_findings(workspace: Workspace) -> None:
    """Leave what the maker has looked at."""
    labels = {one.id: one for one in stored_labels(workspace, archived=True)}
    names = {name: key for key, name in print_runs.run_names(workspace).items()}
    for run, finding, note in LEFT:
        stored = print_runs.print_run(workspace, names[run])
        view = run_view(workspace, LabelMaker(workspace), load_shelf(workspace), labels, stored)
        told = next((one for one in view.findings if one.key == finding), None)
        if told is not None:
            leave_all(workspace, view.told.owners_of(told), note)
