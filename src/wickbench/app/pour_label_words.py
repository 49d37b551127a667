"""The labels of a pour in words: which pours there are, what each print run would hold."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.plan_words import plan_name
from wickbench.app.plans import load_plans
from wickbench.app.runs_from_pour import CHANGED, NEW, SAME
from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from wickbench.app.print_history import PrintedBefore
    from wickbench.app.proposed_lines import ProposedLine
    from wickbench.app.runs_from_pour import PourRuns, ProposedRun
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace

MOST_POURS: Final = 12
"""So many pours stand in the menu; the dialog lists all."""
_STATES: Final = {
    NEW: N_("New: {run}. {stickers}, {sheet}."),
    SAME: N_("There already, as wanted: {run}. {stickers}, {sheet}."),
    CHANGED: N_("There already, to be updated: {run}. {stickers}, {sheet}."),
}


def pours(workspace: Workspace) -> list[tuple[int, str]]:
    """Every pour with its words: what is to be poured by date, then the latest poured."""
    return [(row.id, plan_name(workspace.texts, row)) for row in load_plans(workspace)]


def pour_of(workspace: Workspace, plan_id: int) -> str:
    """The words of one pour; empty when it is no longer there."""
    return dict(pours(workspace)).get(plan_id, "")


def run_sentence(
    texts: Texts, run: ProposedRun, shelf: Shelf, printed: PrintedBefore | None = None
) -> str:
    """A run: "New: Winter fair: jar labels. 36 stickers, Kraft sheet, 3 across."."""
    sheet = shelf.names.get(run.sheet_id or 0) or texts(N_("no sticker sheet yet"))
    stickers = texts.plural(N_("{n} sticker"), N_("{n} stickers"), run.count)
    said = texts(_STATES[run.state], run=run.name, stickers=stickers, sheet=sheet)
    if printed is None:
        return said
    before = N_("Printed on {day}: print {number}, {count} stickers.")
    day, count = texts.day(printed.day), str(printed.count)
    return f"{said} {texts(before, day=day, number=str(printed.number), count=count)}"


def count_text(line: ProposedLine) -> str:
    """How many stickers; with how many stand there now, where that changes: "17 → 18"."""
    changed = line.was is not None and line.was != line.count
    return f"{line.was} → {line.count}" if changed else str(line.count)


def act_text(texts: Texts, found: PourRuns) -> str:
    """What the button does now."""
    new = sum(run.state == NEW for run in found.runs)
    changed = sum(run.state == CHANGED for run in found.runs)
    if changed:
        return texts.plural(N_("Update {n} print run"), N_("Update {n} print runs"), new + changed)
    if new:
        return texts.plural(N_("Make {n} print run"), N_("Make {n} print runs"), new)
    return texts(N_("Show the print run"))


def done_text(texts: Texts, found: PourRuns) -> str:
    """What was made, to be said beside the run."""
    stickers = sum(run.count for run in found.runs)
    return texts.plural(
        N_("The labels of this pour are in one print run: {count} stickers."),
        N_("The labels of this pour are in {n} print runs: {count} stickers in all."),
        len(found.runs),
        count=stickers,
    )
