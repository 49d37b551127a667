"""From a pour to its print runs: jar labels, lids and caution stickers, one run per sticker sheet.

Asked again for the same pour, it finds what was made before and offers to bring it up to date.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from wickbench.app.candle_labels import (
    CHOSEN,
    FIELD_OF_KIND,
    KINDS,
    CandleLabel,
    candle_words,
    label_of_candle,
    used_last,
)
from wickbench.app.label_sheets import sheet_for
from wickbench.app.label_store import StoredLabel, stored_labels
from wickbench.app.pour_counts import PourCounts, pour_counts
from wickbench.app.print_runs import MOST_STICKERS, PrintRun, RunLine, print_run, run_ids
from wickbench.app.proposed_lines import ProposedLine, pair_lines
from wickbench.app.shelf import Shelf, load_shelf
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Candle
    from wickbench.storage.workshop_file import Connection

USUAL_SPARE: Final = 1
"""Spare stickers for each lot and label: common practice, no source."""

NEW, SAME, CHANGED = "new", "same", "changed"
_MISSING: Final = {"jar": "pour-labels.no-jar-label", "caution": "pour-labels.no-caution"}
_PROPOSED: Final = {"used": "pour-labels.proposed-used", "only": "pour-labels.proposed-only"}
_KIND_WORDS: Final = {
    "jar": N_("jar labels"), "lid": N_("lids"), "caution": N_("caution stickers"),
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class ProposedRun:
    """A print run of a pour, as it would be stored.

    Attributes:
        sheet_id: the sticker sheet; ``None`` when none was used and none fits.
        name: what it is called.
        lines: label by label, pot by pot.
        run_id: the run that was made for this pour before.
        state: ``new``, ``same`` as stored, or ``changed``.
        gone: stored lines of this pour that are no longer wanted.
        printer, tray: as last time with this sheet.
    """

    sheet_id: int | None
    name: str
    lines: tuple[ProposedLine, ...]
    run_id: int | None = None
    state: str = NEW
    gone: tuple[int, ...] = ()
    printer: str = ""
    tray: str = ""

    @property
    def count(self) -> int:
        """Stickers in all."""
        return sum(line.count for line in self.lines)


@dataclass(frozen=True, slots=True, kw_only=True)
class PourRuns:
    """Everything that can be printed for a pour, and what is missing.

    Attributes:
        counts: the pour.
        runs: one per sticker sheet.
        findings: worst first; ``about`` names the place where each is mended.
    """

    counts: PourCounts
    runs: tuple[ProposedRun, ...] = ()
    findings: tuple[Finding, ...] = ()

    @property
    def state(self) -> str:
        """``new`` when something is to be made, ``changed``, or ``same``; empty for nothing."""
        states = {run.state for run in self.runs}
        return next((word for word in (CHANGED, NEW, SAME) if word in states), "")


def propose_runs(workspace: Workspace, plan_id: int, *, spare: int = 0) -> PourRuns:
    """What would be printed for a pour; nothing is stored.

    Args:
        workspace: the open workshop.
        plan_id: the pour's plan, planned or poured.
        spare: more stickers for each lot and label.

    Raises:
        OutOfRange: more stickers than a run may have.
    """
    shelf = load_shelf(workspace)
    counts = pour_counts(workspace, shelf, plan_id)
    labels = {one.id: one for one in stored_labels(workspace, archived=True)}
    runs = [print_run(workspace, key) for key in run_ids(workspace)]
    found, told = _lines(workspace, counts, shelf, labels, spare)
    by_sheet: dict[int | None, list[ProposedLine]] = {}
    for line in found:
        by_sheet.setdefault(sheet_for(line.label, shelf, runs, plan_id), []).append(line)
    made = [_run(workspace, counts, sheet, lines, runs) for sheet, lines in by_sheet.items()]
    made = [_beside_stored(run, counts, runs) for run in made]
    for line in by_sheet.get(None, []):
        data = {"label": line.label.name}
        told.append(Finding(Rank.WATCH, "pour-labels.no-sheet", data, ("label", line.label.id)))
    told += _left_over(made, counts, runs)
    if not counts.candles:
        told.append(Finding(Rank.WATCH, "pour-labels.nothing", {}, ("plan", plan_id)))
    for run in made:
        if run.count > MOST_STICKERS:
            raise OutOfRange("print.too-many", most=MOST_STICKERS)
    findings = sort_findings(_each_once([*counts.findings, *told]))
    return PourRuns(counts=counts, runs=tuple(made), findings=findings)


def make_runs(workspace: Workspace, wanted: PourRuns, *, origin: object = None) -> tuple[int, ...]:
    """Store the runs of a pour, bring those up to date that were made before; gives their keys.

    Lines that a person added, and runs that are right as they are, stay untouched.
    """
    kept = []
    with workspace.step(N_("Make print runs for a pour"), origin=origin) as connection:
        # The newest run stands first in lists: jar labels before lids before caution stickers.
        for run in reversed(wanted.runs):
            key = run.run_id
            if key is None:
                row = {"name": run.name, "sheet_id": run.sheet_id, "printer": run.printer}
                more = {"tray": run.tray, "plan_id": wanted.counts.plan.id}
                key = records.insert(connection, "print_run", row | more)
            kept.append(key)
            if run.state != SAME:
                _store(connection, key, run)
    return tuple(reversed(kept))


def _store(connection: Connection, key: int, run: ProposedRun) -> None:
    for line_id in run.gone:
        records.delete(connection, "print_line", line_id)
    known = records.fetch_all(connection, "print_line", {"run_id": key})
    after = max((int(str(row["position"])) for row in known), default=-1) + 1
    for at, line in enumerate(run.lines):
        if line.line_id is not None:
            records.update(connection, "print_line", line.line_id, line.values())
        else:
            row = {"run_id": key, "position": after + at, **line.values()}
            records.insert(connection, "print_line", row)


# -- what is wanted --------------------------------------------------------------------------------
def _lines(
    workspace: Workspace,
    counts: PourCounts,
    shelf: Shelf,
    labels: Mapping[int, StoredLabel],
    spare: int,
) -> tuple[list[ProposedLine], list[Finding]]:
    """The lines of all runs, and what is missing with the candles."""
    used = used_last(workspace, labels)
    found: list[ProposedLine] = []
    told: list[Finding] = []
    for kind in KINDS:
        for one in counts.candles:
            candle = shelf.candles[one.candle_id]
            label = label_of_candle(candle, kind, labels, used)
            told += _of_candle(kind, label, candle)
            if kind == "jar" and candle.declared_net_g is None:
                told.append(_candle("print.net-weight-not-declared", candle, "declared_net_g"))
            if label is not None:
                count = one.count + spare
                line = ProposedLine(label=label.label, kind=kind, candles=one, count=count)
                found.append(line)
    order = {label: at for at, label in enumerate(dict.fromkeys(one.label.id for one in found))}
    return sorted(found, key=lambda line: order[line.label.id]), told


def _of_candle(kind: str, label: CandleLabel | None, candle: Candle) -> list[Finding]:
    if label is None:
        missing = _MISSING.get(kind)
        return [_candle(missing, candle, FIELD_OF_KIND[kind])] if missing else []
    if label.why == CHOSEN:
        return []
    data = {"candle": candle_words(candle), "label": label.label.name}
    about = ("candle", candle.id, FIELD_OF_KIND[kind])
    return [Finding(Rank.NOTE, _PROPOSED[label.why], data, about)]


def _candle(finding: str, candle: Candle, field: str) -> Finding:
    data = {"candle": candle_words(candle)}
    return Finding(Rank.WATCH, finding, data, ("candle", candle.id, field))


def _run(
    workspace: Workspace,
    counts: PourCounts,
    sheet_id: int | None,
    lines: Sequence[ProposedLine],
    runs: Sequence[PrintRun],
) -> ProposedRun:
    texts = workspace.texts
    plan = counts.plan
    pour = plan.name or (texts.day(plan.pour_on) if plan.pour_on else texts(N_("Pour")))
    kinds = tuple(dict.fromkeys(line.kind for line in lines))
    said = ", ".join(texts(_KIND_WORDS[kind]) for kind in kinds)
    like = next((run for run in runs if run.sheet_id == sheet_id and run.printer), PrintRun())
    return ProposedRun(
        sheet_id=sheet_id,
        name=texts(N_("{pour}: {labels}"), pour=pour, labels=said),
        lines=tuple(lines),
        printer=like.printer,
        tray=like.tray,
    )


# -- what was made before --------------------------------------------------------------------------
def _beside_stored(
    wanted: ProposedRun, counts: PourCounts, runs: Sequence[PrintRun]
) -> ProposedRun:
    """The run with the stored lines that it brings up to date."""
    plan, sheet = counts.plan.id, wanted.sheet_id
    stored = next((run for run in runs if run.plan_id == plan and run.sheet_id == sheet), None)
    if stored is None:
        return wanted
    pairs, left = pair_lines(wanted.lines, stored.lines)
    lines = tuple(
        replace(line, line_id=old.id, was=old.count) if old is not None else line
        for line, old in pairs
    )
    candles = {one.candle_id for one in counts.candles}
    # A line for another candle was added by hand and stays.
    gone = tuple(one.id for one in left if one.candle_id in candles)
    same = not gone and all(old is not None and _equal(line, old) for line, old in pairs)
    state = SAME if same else CHANGED
    name = stored.name or wanted.name
    return replace(wanted, run_id=stored.id, lines=lines, gone=gone, state=state, name=name)


def _equal(line: ProposedLine, old: RunLine) -> bool:
    values = line.values()
    return all((getattr(old, name) or None) == (value or None) for name, value in values.items())


def _left_over(
    made: Iterable[ProposedRun], counts: PourCounts, runs: Sequence[PrintRun]
) -> list[Finding]:
    """Runs that were made for this pour and that nothing is wanted of any more."""
    known = {run.run_id for run in made}
    return [
        Finding(Rank.NOTE, "pour-labels.run-left", {"run": run.name}, ("run", run.id))
        for run in runs
        if run.plan_id == counts.plan.id and run.id not in known
    ]


def _each_once(findings: Iterable[Finding]) -> list[Finding]:
    kept: list[Finding] = []
    for one in findings:
        if all((it.key, it.data) != (one.key, one.data) for it in kept):
            kept.append(one)
    return kept
