"""The demo workshop, built once for all tests that look at what it prints; nobody changes it."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

from wickbench.app.label_making import LabelMaker, MadeLabel, around_of
from wickbench.app.label_store import StoredLabel, stored_labels
from wickbench.app.label_values import sample_values
from wickbench.app.print_run_view import RunView, label_texts, run_view
from wickbench.app.print_runs import print_run, run_ids
from wickbench.app.questions import Silent
from wickbench.app.shelf import Shelf, load_shelf
from wickbench.app.texts import Texts
from wickbench.app.workspace import Services, Workspace

DEMO = Path(__file__).resolve().parents[1] / "demo"


@dataclass(frozen=True)
class DemoPapers:
    """What the demo prints.

    Attributes:
        workspace: open; to be read only.
        shelf: its snapshot.
        labels: every label, also those put away.
        runs: every print run that has labels.
    """

    workspace: Workspace
    shelf: Shelf
    labels: tuple[StoredLabel, ...]
    runs: tuple[RunView, ...]

    def made(self) -> list[tuple[str, MadeLabel]]:
        """A label for each line of a run, and those that no run prints as they stand: names too."""
        maker = LabelMaker(self.workspace)
        printed = {label.id for run in self.runs for label in run.labels}
        rest = [one for one in self.labels if one.id not in printed]
        found = [(f"{one.name} as it stands", self._bare(maker, one)) for one in rest]
        for run in self.runs:
            lines = zip(run.labels, run.made, run.lines, strict=True)
            found += [(f"{label.name} {line.lot_code}", made) for label, made, line in lines]
        return found

    def _bare(self, maker: LabelMaker, label: StoredLabel) -> MadeLabel:
        if label.caution is not None:
            return maker.caution(label.caution, label.design, self.shelf, None)
        values = sample_values(self.workspace.settings, label_texts(self.workspace))
        return maker.label(label.design, values, around_mm=around_of(label.kind, None, self.shelf))


def open_demo(folder: Path) -> DemoPapers:
    """Build the demo workshop in a folder and open it."""
    sys.path.insert(0, str(DEMO))
    try:
        import build_demo
    finally:
        sys.path.remove(str(DEMO))
    path = folder / "demo.wickbench"
    build_demo.build(path)
    workspace = Workspace.open(path, Services(build_demo.DemoClock(), Texts(), Silent()))
    shelf, labels = load_shelf(workspace), stored_labels(workspace, archived=True)
    known = {label.id: label for label in labels}
    maker = LabelMaker(workspace)
    views = [
        run_view(workspace, maker, shelf, known, print_run(workspace, key))
        for key in run_ids(workspace)
    ]
    return DemoPapers(workspace, shelf, labels, tuple(one for one in views if one.sheets))
