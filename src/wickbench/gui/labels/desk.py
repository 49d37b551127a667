"""What the Labels page has in hand: the print run, its labels, and everything laid out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.label_making import LabelMaker
from wickbench.app.label_store import stored_labels
from wickbench.app.print_run_view import RunView, run_view
from wickbench.app.print_runs import PrintRun, print_run, run_ids
from wickbench.app.shelf import Shelf, load_shelf

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.label_store import StoredLabel
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Candle
    from wickbench.domain.sheets import StickerSheet


class Desk:
    """The chosen print run with fresh values; shared by the parts of the page.

    Attributes:
        run_id: chosen run; ``None`` before there is one.
        runs: keys of all runs, the newest first.
        measures: the sheet's values while they are typed, else ``None``.
    """

    def __init__(self, workspace: Workspace) -> None:
        self.workspace = workspace
        self.maker = LabelMaker(workspace)
        self.run_id: int | None = None
        self.runs: tuple[int, ...] = ()
        self.shelf = Shelf()
        self.labels: dict[int, StoredLabel] = {}
        self.run = PrintRun()
        self.view = RunView(run=self.run)
        self.measures: Mapping[str, object] | None = None

    def load(self) -> None:
        """Read everything afresh."""
        self.shelf = load_shelf(self.workspace)
        self.labels = {one.id: one for one in stored_labels(self.workspace, archived=True)}
        self.runs = run_ids(self.workspace)
        if self.run_id not in self.runs:
            self.run_id = self.runs[0] if self.runs else None
        self.run = print_run(self.workspace, self.run_id)
        self.lay_out()

    def lay_out(self) -> None:
        """Place the run again, with the sheet's measures as they are typed."""
        self.view = run_view(
            self.workspace, self.maker, self.shelf, self.labels, self.run, measures=self.measures
        )

    @property
    def sheet(self) -> StickerSheet | None:
        """The chosen sheet's measures; ``None`` while there is none."""
        return self.view.sheet

    def offered_labels(self) -> list[StoredLabel]:
        """Labels in use, by name."""
        kept = [one for one in self.labels.values() if not one.archived]
        return sorted(kept, key=lambda one: one.name.casefold())

    def candle(self, key: int | None) -> Candle | None:
        """A candle by its key."""
        return self.shelf.candles.get(key) if key is not None else None

    def entry_at(self, sheet_no: int, index: int) -> int | None:
        """Which entry of the run stands on a sticker; ``None`` for a free one."""
        pages = self.view.pages
        if pages is None:
            return None
        for one in pages.on_sheet(sheet_no):
            if one.index == index:
                return one.entry
        return None
