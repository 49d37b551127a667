"""From a planned or recorded pour to its print runs: counts, lots, sheets, findings, once only.

The figures are counts of the plan itself: 18 jars and 12 tins, whatever pots they come from.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from app.label_workshop import view_of
from app.pour_workshop import Poured, pour_out, pour_workshop
from wickbench.app import (
    labels,
    plans,
    pour_session,
    pouring,
    print_runs,
    runs_from_pour,
    shelf_edit,
)
from wickbench.app.runs_from_pour import CHANGED, NEW, SAME, make_runs, propose_runs
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Rank
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.print_runs import PrintRun
    from wickbench.app.runs_from_pour import PourRuns
    from wickbench.app.workspace import Workspace


@pytest.fixture
def kept(workshop: Workspace) -> Poured:
    return pour_workshop(workshop)


def _made(workshop: Workspace, plan: int, spare: int = 0) -> list[PrintRun]:
    keys = make_runs(workshop, propose_runs(workshop, plan, spare=spare))
    return [print_runs.print_run(workshop, key) for key in keys]


def _told(found: PourRuns) -> set[str]:
    return {one.key for one in found.findings}


def _set(workshop: Workspace, table: str, key: int, **values: object) -> None:
    with workshop.step("Set") as connection:
        records.update(connection, table, key, values)


def test_a_planned_pour_gives_a_run_per_sheet_with_lots_and_days(
    workshop: Workspace, kept: Poured
) -> None:
    fronts, bases = _made(workshop, kept.plan)
    assert (fronts.sheet_id, bases.sheet_id) == (kept.sheet, kept.circles)
    assert {run.plan_id for run in (fronts, bases)} == {kept.plan}
    for run, label in ((fronts, kept.front), (bases, kept.caution)):
        assert {line.label_id for line in run.lines} == {label}
        assert sum(line.count for line in run.lines if line.candle_id == kept.jar) == 18
        assert sum(line.count for line in run.lines if line.candle_id == kept.tin) == 12
        assert {line.poured_on for line in run.lines} == {"2026-11-28"}
        # 28 November is day 332 of 2026; one letter for the recipe, then the pot
        assert {line.lot_code for line in run.lines} == {"26-332-A1", "26-332-A2", "26-332-A3"}
    assert fronts.name == "Fair: jar labels"


def test_a_recorded_pour_counts_what_was_really_filled_pot_by_pot(
    workshop: Workspace, kept: Poured
) -> None:
    pour_out(workshop, kept.plan, broken=2)
    session = pour_session.load_session(workshop, kept.plan)
    assert session is not None
    fronts, _ = _made(workshop, kept.plan)
    assert sum(line.count for line in fronts.lines) == 28
    codes = {pot.id: pot.lot_code for pot in session.pots}
    for line in fronts.lines:
        assert codes[line.pour_pot_id or 0] == line.lot_code
    filled = {pot.id: sum(fill.poured or 0 for fill in pot.fills) for pot in session.pots}
    by_pot = {
        pot: sum(line.count for line in fronts.lines if line.pour_pot_id == pot) for pot in filled
    }
    assert by_pot == filled


def test_making_the_runs_is_one_act(workshop: Workspace, kept: Poured) -> None:
    keys = {run.id for run in _made(workshop, kept.plan)}
    assert len(keys) == 2
    workshop.undo()
    assert print_runs.run_ids(workshop) == ()


def test_spare_stickers_come_on_top_for_each_lot_and_label(
    workshop: Workspace, kept: Poured
) -> None:
    lots = len(propose_runs(workshop, kept.plan).runs[0].lines)
    fronts, bases = _made(workshop, kept.plan, spare=2)
    for run in (fronts, bases):
        assert sum(line.count for line in run.lines) == 30 + 2 * lots
    with pytest.raises(OutOfRange, match=r"print\.too-many"):
        propose_runs(workshop, kept.plan, spare=16_000)


def test_asked_again_it_says_what_exists_and_doubles_nothing(
    workshop: Workspace, kept: Poured
) -> None:
    first = _made(workshop, kept.plan)
    again = propose_runs(workshop, kept.plan)
    assert [run.run_id for run in again.runs] == [run.id for run in first]
    assert {run.state for run in again.runs} == {SAME}
    assert again.state == SAME
    assert _made(workshop, kept.plan) == first


def test_after_the_pour_the_runs_made_from_the_plan_are_brought_up_to_date(
    workshop: Workspace, kept: Poured
) -> None:
    first = _made(workshop, kept.plan)
    own = print_runs.add_line(workshop, first[0].id, {"label_id": kept.front, "count": 3})[1]
    pour_out(workshop, kept.plan, broken=1)
    found = propose_runs(workshop, kept.plan)
    assert {run.state for run in found.runs} == {CHANGED}
    lines = [line for line in found.runs[0].lines if line.was != line.count]
    assert [(line.was or 0) - line.count for line in lines] == [1]
    fronts = _made(workshop, kept.plan)[0]
    assert fronts.id == first[0].id
    # what the person added for herself stays
    assert own in {line.id for line in fronts.lines}
    assert sum(line.count for line in fronts.lines) == 29 + 3
    assert len(print_runs.run_ids(workshop)) == 2


def test_a_candle_taken_out_of_the_plan_leaves_the_run(workshop: Workspace, kept: Poured) -> None:
    _made(workshop, kept.plan)
    lines = plans.load_plan(workshop, kept.plan).lines
    tins = next(one.id for one in lines if one.candle_id == kept.tin)
    _set(workshop, "plan_line", tins, count=6)
    fronts, bases = _made(workshop, kept.plan)
    for run in (fronts, bases):
        assert sum(line.count for line in run.lines) == 24


def test_the_chosen_label_comes_before_what_was_used_and_that_before_the_only_one(
    workshop: Workspace, kept: Poured
) -> None:
    found = propose_runs(workshop, kept.plan)
    assert "pour-labels.proposed-only" in _told(found)
    other = labels.duplicate_label(workshop, kept.front)
    # two of a kind and none chosen or used: nothing is taken, and it says so
    found = propose_runs(workshop, kept.plan)
    assert "pour-labels.no-jar-label" in _told(found)
    assert {line.kind for run in found.runs for line in run.lines} == {"caution"}
    about = next(one.about for one in found.findings if one.key == "pour-labels.no-jar-label")
    assert about == ("candle", kept.jar, "jar_label_id")
    print_runs.add_line(workshop, None, {"label_id": other, "candle_id": kept.jar, "count": 1})
    found = propose_runs(workshop, kept.plan)
    used = {line.label.id for run in found.runs for line in run.lines if line.kind == "jar"}
    assert used == {other}
    assert "pour-labels.proposed-used" in _told(found)
    _set(workshop, "candle", kept.jar, jar_label_id=kept.front)
    found = propose_runs(workshop, kept.plan)
    chosen = {
        line.label.id
        for run in found.runs
        for line in run.lines
        if line.kind == "jar" and line.candles.candle_id == kept.jar
    }
    assert chosen == {kept.front}


def test_a_lid_label_is_printed_only_for_candles_with_a_lid(
    workshop: Workspace, kept: Poured
) -> None:
    lid_label = labels.new_label(workshop, "hush", name="Lid")
    _set(workshop, "label", lid_label, kind="lid")
    lid = shelf_edit.new_item(workshop, "lid", {"name": "Cork"}, {})
    _set(workshop, "candle", kept.jar, lid_id=lid)
    found = propose_runs(workshop, kept.plan)
    lids = [line for run in found.runs for line in run.lines if line.kind == "lid"]
    assert {line.candles.candle_id for line in lids} == {kept.jar}
    assert sum(line.count for line in lids) == 18
    # jar label and lid label fit the same sheet: both go on one run
    assert {line.label.id for line in found.runs[0].lines} == {kept.front, lid_label}


def test_the_sheet_used_last_comes_before_one_that_only_fits(
    workshop: Workspace, kept: Poured
) -> None:
    with workshop.read() as connection:
        row = records.fetch(connection, "sheet", kept.sheet)
    measures = {name: value for name, value in row.items() if name not in {"item_id", "readings"}}
    twin = shelf_edit.new_item(workshop, "sheet", {"name": "White"}, measures)
    assert propose_runs(workshop, kept.plan).runs[0].sheet_id == kept.sheet
    run = print_runs.choose_sheet(workshop, None, twin)
    print_runs.choose_printer(workshop, run, "laser", "hand feed")
    print_runs.add_line(workshop, run, {"label_id": kept.front, "count": 1})
    found = propose_runs(workshop, kept.plan).runs[0]
    assert (found.sheet_id, found.printer, found.tray) == (twin, "laser", "hand feed")
    _set(workshop, "item", twin, archived=1)
    assert propose_runs(workshop, kept.plan).runs[0].sheet_id == kept.sheet


def test_a_label_that_no_sheet_fits_is_told_and_kept_without_a_sheet(
    workshop: Workspace, kept: Poured
) -> None:
    labels.change_design(workshop, kept.front, {"width_mm": 70.0})
    found = propose_runs(workshop, kept.plan)
    told = next(one for one in found.findings if one.key == "pour-labels.no-sheet")
    assert told.about == ("label", kept.front)
    assert told.rank is Rank.WATCH
    assert {run.sheet_id for run in found.runs} == {None, kept.circles}
    run = next(key for key in make_runs(workshop, found))
    assert view_of(workshop, run).pages is None


def test_what_is_missing_is_told_and_leads_to_its_place(workshop: Workspace, kept: Poured) -> None:
    _set(workshop, "candle", kept.tin, declared_net_g=None)
    _set(workshop, "plan", kept.plan, pour_on=None)
    line = plans.load_plan(workshop, kept.plan).lines[0]
    _set(workshop, "plan_line", line.id, candle_id=None)
    found = propose_runs(workshop, kept.plan)
    about = {one.key: one.about for one in found.findings}
    assert about["print.net-weight-not-declared"] == ("candle", kept.tin, "declared_net_g")
    assert about["pour-labels.no-day"] == ("plan", kept.plan)
    assert about["pour-labels.no-candle"] == ("plan", kept.plan)
    # without a day there is no lot, and none is made up
    assert {one.lot_code for one in found.counts.candles} == {""}
    assert sum(one.count for one in found.counts.candles) == 12


def test_without_pots_the_counts_stay_and_the_lot_is_open(
    workshop: Workspace, kept: Poured
) -> None:
    with workshop.step("Clear") as connection:
        for row in records.fetch_all(connection, "recipe_part"):
            records.delete(connection, "recipe_part", int(str(row["id"])))
    found = propose_runs(workshop, kept.plan)
    assert "pour-labels.no-pot" in _told(found)
    assert sum(one.count for one in found.counts.candles) == 30


def test_a_pot_still_open_is_told(workshop: Workspace, kept: Poured) -> None:
    pouring.start_pour(workshop, kept.plan)
    found = propose_runs(workshop, kept.plan)
    assert "pour-labels.pot-open" in _told(found)
    assert sum(one.count for one in found.counts.candles) == 30


def test_an_empty_plan_says_what_to_do(workshop: Workspace) -> None:
    plan = plans.new_plan(workshop)
    found = propose_runs(workshop, plan)
    assert _told(found) == {"pour-labels.nothing"}
    assert found.state == ""
    assert make_runs(workshop, found) == ()


def test_a_plan_with_print_runs_can_still_be_removed(workshop: Workspace, kept: Poured) -> None:
    runs = _made(workshop, kept.plan)
    plans.remove_plan(workshop, kept.plan)
    assert print_runs.print_run(workshop, runs[0].id).plan_id is None
    workshop.undo()
    assert print_runs.print_run(workshop, runs[0].id).plan_id == kept.plan


def test_the_usual_spare_is_one() -> None:
    assert runs_from_pour.USUAL_SPARE == 1  # common practice, no source
    assert NEW != SAME
