"""Plans: their lines typed cell by cell, what follows from them, and what the page says."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from app.test_pouring import bench_with_plan, seen
from wickbench.app import edit, plan_lines, plans, pouring, shelf_edit
from wickbench.app.plan_fields import PLAN_FIELDS
from wickbench.app.plan_lines import LineWords
from wickbench.app.plan_view import PlanView, view_plan
from wickbench.app.plan_words import plan_name, plan_title
from wickbench.app.pour_codes import taken_codes
from wickbench.app.shelf import load_shelf
from wickbench.domain.errors import CannotRead, DomainError
from wickbench.domain.quantities import parse
from wickbench.storage import records
from wickbench.storage.refusals import InUse

if TYPE_CHECKING:
    from wickbench.app.plans import LineRow
    from wickbench.app.workspace import Workspace

POUND_G = 453.59237  # NIST SP 811, appendix B.8: exactly
OUNCE_G = POUND_G / 16


def write(workspace: Workspace, plan: int, at: int, cell: str, typed: str) -> LineRow:
    """Type into a cell of a line, as the table does, and read the line back."""
    shelf = load_shelf(workspace)
    row = plans.load_plan(workspace, plan).lines[at]
    words = LineWords(workspace, shelf)
    plan_lines.write_cell(workspace, words, shelf, row, cell, typed)
    return plans.load_plan(workspace, plan).lines[at]


def add(workspace: Workspace, plan: int, **typed: str) -> LineRow:
    shelf = load_shelf(workspace)
    row = plans.load_plan(workspace, plan)
    key = plan_lines.add_typed_line(workspace, LineWords(workspace, shelf), shelf, row, typed)
    return next(one for one in plans.load_plan(workspace, plan).lines if one.id == key)


def keys(view: PlanView) -> list[str]:
    return [finding.key for finding in view.findings]


def candle_of(workspace: Workspace, plan: int, **more: object) -> int:
    """A candle of the first line's recipe and vessel."""
    line = plans.load_plan(workspace, plan).lines[0]
    values = {"name": "Garden jar", "version_id": line.version_id, "vessel_id": line.vessel_id}
    return shelf_edit.new_candle(workspace, values | more)


# -- a fact of the trade ---------------------------------------------------------------------------
def test_four_vessels_of_nine_ounces_leave_two_ounces_of_two_and_a_quarter_pounds(
    workshop: Workspace,
) -> None:
    # common practice, no source: 2 1/4 lb of wax at one ounce of oil to the pound make 38 1/4 oz;
    # four vessels of 9 oz take 36 of them
    plan = bench_with_plan(workshop)
    wax_g = parse("2¼ lb", "mass")
    load = parse("1 oz/lb", "load")
    plans.remove_lines(workshop, (plans.load_plan(workshop, plan).lines[1].id,))
    version = plans.load_plan(workshop, plan).lines[0].version_id
    assert version is not None
    with workshop.step("set") as connection:
        records.update(connection, "recipe_version", version, {"load_percent": load})
        records.update(connection, "plan", plan, {"extra_g": 0.0})
    write(workshop, plan, 0, "count", "4")
    write(workshop, plan, 0, "fill", "9 oz")
    needed = seen(workshop, plan).result
    assert needed.filled_g == pytest.approx(4 * 9 * OUNCE_G, abs=0.4)
    # as much mix as that much wax makes, instead of only what is needed
    over_g = wax_g * (1 + load / 100) - 4 * 9 * OUNCE_G
    with workshop.step("set") as connection:
        records.update(connection, "plan", plan, {"extra_g": over_g})
    (pot,) = seen(workshop, plan).result.pots
    wax, oil = pot.weigh
    assert wax.weigh_g == pytest.approx(2.25 * POUND_G, abs=0.5)
    assert oil.weigh_g == pytest.approx(2.25 * OUNCE_G, abs=0.1)
    assert pot.leftover_g / OUNCE_G == pytest.approx(2.0, abs=0.3)


# -- plans as a whole ------------------------------------------------------------------------------
def test_plans_stand_by_date_and_what_was_poured_comes_last(workshop: Workspace) -> None:
    made = [plans.new_plan(workshop) for _ in range(4)]
    days = ["2026-12-24", "2026-11-30", None, "2026-11-01"]
    with workshop.step("set") as connection:
        for key, day in zip(made, days, strict=True):
            records.update(connection, "plan", key, {"pour_on": day})
        records.update(connection, "plan", made[3], {"state": "poured"})
    rows = plans.load_plans(workshop)
    assert [row.pour_on for row in rows] == ["2026-11-30", "2026-12-24", None, "2026-11-01"]
    texts = workshop.texts
    assert plan_name(texts, rows[3]) == "1 November 2026 · poured"
    assert plan_title(texts, rows[0]) == "Pour on Monday 30 November 2026"
    assert plan_title(texts, rows[2]) == "Pour plan"


def test_the_same_again_brings_lines_pots_and_last_times_notes(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    pot = int(str(load_shelf(workshop).equipment.pots[0]["id"]))
    plans.choose_pots(workshop, plan, (pot,))
    note = next(spec for spec in PLAN_FIELDS if spec.name == "note")
    edit.set_field(workshop, note, plan, "warm the jars")
    session = pouring.start_pour(workshop, plan)
    pouring.set_note(workshop, session, 0, "room at 17 °C")
    again = plans.load_plan(workshop, plans.same_again(workshop, plan))
    old = plans.load_plan(workshop, plan)
    assert again.state == "planned"
    assert again.pot_ids == (pot,)
    assert [(one.vessel_id, one.count) for one in again.lines] == [
        (one.vessel_id, one.count) for one in old.lines
    ]
    lot = session.pots[0].lot_code
    assert again.note == f"warm the jars\nLast time, {lot}: room at 17 °C"
    # the new plan's pots never share a lot code with those on the bench
    shelf = load_shelf(workshop)
    view = view_plan(
        again, shelf, workshop.settings, workshop.texts,
        today=workshop.clock.today(), taken_codes=taken_codes(workshop, again.id),
    )  # fmt: skip
    assert not {card.lot_code for card in view.pots} & {one.lot_code for one in session.pots}


def test_a_plan_that_was_begun_stays(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    pouring.start_pour(workshop, plan)
    with pytest.raises(InUse):
        plans.remove_plan(workshop, plan)
    workshop.undo()
    plans.remove_plan(workshop, plan)
    assert plans.load_plans(workshop) == ()


def test_every_act_on_a_plan_is_undone_and_done_again(workshop: Workspace) -> None:
    before = plans.load_plans(workshop)
    plan = bench_with_plan(workshop)
    write(workshop, plan, 0, "count", "7")
    add(workshop, plan, what="Garden", count="3")
    row = plans.load_plan(workshop, plan)
    plan_lines.move_line(workshop, row, row.lines[0].id, 1)
    plans.remove_lines(workshop, (row.lines[1].id,))
    plans.same_again(workshop, plan)
    after = plans.load_plans(workshop)
    while workshop.may_undo:
        workshop.undo()
    assert plans.load_plans(workshop) == before
    while workshop.may_redo:
        workshop.redo()
    assert plans.load_plans(workshop) == after


# -- lines -----------------------------------------------------------------------------------------
def test_lines_are_put_in_another_order(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    third = add(workshop, plan, what="Garden", vessel="Tin", count="2")
    row = plans.load_plan(workshop, plan)
    plan_lines.move_line(workshop, row, third.id, -5)
    assert plans.load_plan(workshop, plan).lines[0].id == third.id
    label = workshop.undo_label
    plan_lines.move_line(workshop, plans.load_plan(workshop, plan), third.id, -1)
    assert workshop.undo_label == label  # already first: nothing happens


def test_a_line_is_typed_by_names(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    shelf_edit.new_item(workshop, "wick", {"name": "Flat 6"}, {})
    line = add(workshop, plan, what="garden", vessel="tin", wick="2 × flat 6", count="5", fill="")
    shelf = load_shelf(workshop)
    assert line.vessel_id is not None
    assert shelf.vessels[line.vessel_id].name == "Tin"
    assert line.wick_count == 2
    assert line.count == 5
    assert line.fill_to == "line"


def test_a_candle_brings_its_fill_and_another_vessel_makes_it_no_candle(
    workshop: Workspace,
) -> None:
    plan = bench_with_plan(workshop)
    candle = candle_of(workshop, plan, declared_net_g=190.0, fill_to="net")
    line = write(workshop, plan, 1, "what", f"c{candle}")
    assert (line.candle_id, line.fill_to, line.net_g) == (candle, "net", 190.0)
    assert line.vessel_id is None
    view = seen(workshop, plan)
    assert "plan.candle-untested" in keys(view)
    assert view.lines[1].vessel == "Jar"
    line = write(workshop, plan, 1, "vessel", "Tin")
    assert line.candle_id is None
    assert line.version_id is not None
    assert "plan.line-no-candle" in keys(seen(workshop, plan))


def test_less_than_declared_stands_out(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    candle = candle_of(workshop, plan, declared_net_g=190.0)
    write(workshop, plan, 0, "what", f"c{candle}")
    line = write(workshop, plan, 0, "fill", "180 g")
    assert line.net_g == 180.0
    view = seen(workshop, plan)
    assert view.result.lines[0].over_declared_g == pytest.approx(-10.0)
    assert "plan.below-declared" in keys(view)
    assert view.lines[0].net == "180.0 g · 6.3 oz, declared 190.0 g"


@pytest.mark.parametrize(
    ("cell", "typed"),
    [
        ("what", "nothing of that name"),
        ("vessel", "7th heaven"),
        ("wick", "a rope"),
        ("count", "a few"),
        ("count", "-3"),
        ("count", "2.5"),
        ("count", "99999"),
        ("fill", "12 fl oz"),
        ("fill", "2 lb 4"),
        ("fill", "1,234"),
        ("fill", "0 g"),
        ("fill", "300 kg"),
    ],
)
def test_nonsense_in_a_cell_gets_its_sentence_and_is_kept(
    workshop: Workspace, cell: str, typed: str
) -> None:
    plan = bench_with_plan(workshop)
    before = plans.load_plan(workshop, plan)
    with pytest.raises(DomainError) as refused:
        write(workshop, plan, 0, cell, typed)
    said = workshop.texts.say(refused.value)
    assert refused.value.key not in said
    assert "{" not in said
    assert plans.load_plan(workshop, plan) == before
    drafts = plan_lines.line_drafts(workshop, before.lines)
    assert drafts == {(before.lines[0].id, cell): typed}


def test_a_good_value_clears_the_draft(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    with pytest.raises(CannotRead):
        write(workshop, plan, 0, "count", "many")
    write(workshop, plan, 0, "count", "18")
    assert plan_lines.line_drafts(workshop, plans.load_plan(workshop, plan).lines) == {}


def test_a_name_that_two_things_have_is_not_guessed(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    for name in ("Jar, tall", "Jar, low"):
        shelf_edit.new_item(workshop, "vessel", {"name": name}, {"vessel_kind": "jar"})
    with pytest.raises(CannotRead) as refused:
        write(workshop, plan, 0, "vessel", "jar,")
    assert refused.value.key == "plan.many-choices"
    assert write(workshop, plan, 0, "vessel", "jar").vessel_id is not None  # its whole name
