"""Plans: their lines typed cell by cell, what follows from them, and what the page says."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.test_pouring import bench_with_plan, seen, weigh_all
from wickbench.app import edit, plan_lines, plans, pouring, shelf_edit, stock
from wickbench.app.plan_cards import planned_cards, session_cards
from wickbench.app.plan_fields import PLAN_FIELDS
from wickbench.app.plan_lines import LineWords
from wickbench.app.plan_view import PlanView, view_plan
from wickbench.app.plan_words import goal_of, plan_name, plan_title
from wickbench.app.pour_codes import taken_codes
from wickbench.app.pour_session import load_session
from wickbench.app.shelf import load_shelf
from wickbench.domain.errors import CannotRead, DomainError
from wickbench.domain.quantities import parse
from wickbench.storage import records
from wickbench.storage.refusals import InUse

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.app.plans import LineRow
    from wickbench.app.workspace import Workspace
    from wickbench.domain.findings import Finding

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


def test_lines_that_are_not_complete_say_what_is_missing(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    add(workshop, plan, vessel="Jar")
    add(workshop, plan, what="Garden")
    add(workshop, plan, what="Garden", vessel="Jar")
    said = keys(seen(workshop, plan))
    for key in ("plan.line-no-recipe", "plan.line-no-vessel", "plan.line-no-count"):
        assert key in said
    assert seen(workshop, plan).result.candles == 30


# -- what follows ----------------------------------------------------------------------------------
def test_what_was_never_weighed_is_told(workshop: Workspace) -> None:
    view = seen(workshop, bench_with_plan(workshop))
    told = [one for one in view.findings if one.key == "plan.fill-from-nominal"]
    assert {one.data["vessel"] for one in told} == {"Jar", "Tin"}
    shelf = load_shelf(workshop)
    pages = {goal_of(one, view, shelf) for one in told}
    assert pages == {("vessels", key) for key in shelf.vessels}


def test_a_shortage_says_how_many_fewer(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)  # 500 g of oil are there
    write(workshop, plan, 0, "count", "60")

    def oil_short() -> list[Finding]:
        told = seen(workshop, plan).findings
        return [
            one for one in told if one.key.startswith("plan.short") and one.data["name"] == "Oil"
        ]

    (short,) = oil_short()
    fewer = int(str(short.data["fewer"]))
    names = {"Jar": 0, "Tin": 1}
    at = names[str(short.data["vessel"])]
    count = plans.load_plan(workshop, plan).lines[at].count or 0
    write(workshop, plan, at, "count", str(count - fewer))
    assert not oil_short()  # that many fewer are enough
    write(workshop, plan, at, "count", str(count - fewer + 1))
    assert oil_short()


def test_equipment_that_says_too_little_is_left_out_and_told(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    shelf_edit.new_equipment(workshop, "pot", {"name": "Kettle"})
    shelf_edit.new_equipment(workshop, "scale", {"name": "Old", "maximum_g": 100.0})
    odd = {"name": "Odd", "maximum_g": 1.0, "step_g": 5.0}
    shelf_edit.new_equipment(workshop, "scale", odd)
    said = keys(seen(workshop, plan))
    for key in ("plan.pot-no-brim", "plan.scale-unknown", "equipment.scale-step-above-maximum"):
        assert key in said


def test_a_pot_too_small_for_a_vessel_and_no_pot_at_all(workshop: Workspace) -> None:
    small = seen(workshop, bench_with_plan(workshop, pot_ml=200.0))
    assert "plan.vessel-over-pot" in keys(small)
    row = replace(small.plan)
    shelf = replace(load_shelf(workshop), equipment=type(load_shelf(workshop).equipment)())
    view = view_plan(row, shelf, workshop.settings, workshop.texts, today=workshop.clock.today())
    assert {"plan.no-pot", "plan.no-scale"} <= set(keys(view))


def test_wicks_lids_and_vessels_count_in_stock_and_cost(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    bare = seen(workshop, plan).result.lines[0].cost_e4
    wick = shelf_edit.new_item(workshop, "wick", {"name": "Flat 6"}, {})
    lid = shelf_edit.new_item(workshop, "lid", {"name": "Cork"}, {})
    stock.buy(workshop, wick, 100, 20.0)
    candle = candle_of(workshop, plan, lid_id=lid)
    row = {"candle_id": candle, "position": 0, "item_id": wick}
    for at in range(2):
        shelf_edit.add_row(workshop, "candle_wick", row | {"position": at}, "Add a line")
    write(workshop, plan, 0, "what", f"c{candle}")
    view = seen(workshop, plan)
    assert view.result.needs[wick] == 36
    assert view.result.needs[lid] == 18
    assert view.result.lines[0].cost_e4 - bare == 2 * 2000  # two wicks at 0.20 each
    assert "plan.unpriced" in keys(view)  # the lid was never bought
    costs = {one.label: one.value for one in view.totals}
    assert costs["Garden jar"].startswith("at least $")


def test_what_it_comes_to(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    with workshop.step("set") as connection:
        records.update(connection, "plan", plan, {"pour_on": "2026-11-28"})
        version = plans.load_plan(workshop, plan).lines[0].version_id
        assert version is not None
        values = {"pour_c": 57.0, "cure_days": 10}
        records.update(connection, "recipe_version", version, values)
    view = seen(workshop, plan)
    totals = {one.label: one.value for one in view.totals}
    assert totals["Candles"] == "30 candles in 2 pots"
    assert totals["Pour at"] == "57 °C · 135 °F"
    assert totals["All cured"] == "8 December 2026"  # 28 November and ten days
    assert sum(pot.total_g for pot in view.result.pots) == pytest.approx(view.result.total_g)


def test_estimated_temperatures_are_marked_on_the_card(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    shelf = load_shelf(workshop)
    (first, *_) = planned_cards(seen(workshop, plan), shelf, workshop.texts)
    assert any("estimate" in fact for fact in first.facts)
    version = plans.load_plan(workshop, plan).lines[0].version_id
    assert version is not None
    own = {"heat_to_c": 82.0, "add_oil_c": 77.0, "pour_c": 57.0}
    with workshop.step("set") as connection:
        records.update(connection, "recipe_version", version, own)
    (first, *_) = planned_cards(seen(workshop, plan), load_shelf(workshop), workshop.texts)
    assert not any("estimate" in fact for fact in first.facts)


def test_cards_of_a_pour_tick_what_was_weighed(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    session = weigh_all(workshop, pouring.start_pour(workshop, plan), 0)
    first, second, *_ = session_cards(session, workshop.texts)
    assert all(line.weighed for line in first.lines)
    assert not any(line.weighed for line in second.lines)
    pouring.finish_pot(workshop, session, 0)
    again = load_session(workshop, plan)
    assert again is not None
    assert [card.state for card in session_cards(again, workshop.texts)][:2] == ["done", "open"]
    assert "26-" in first.spoken


def test_the_day_of_a_plan_without_one_is_today(workshop: Workspace) -> None:
    row = plans.load_plan(workshop, plans.new_plan(workshop))
    assert plans.pour_day(replace(row, pour_on=None), dt.date(2026, 2, 3)) == dt.date(2026, 2, 3)
    assert row.extra_g == plans.USUAL_EXTRA_G


def test_extra_below_nothing_is_refused(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    extra = next(spec for spec in PLAN_FIELDS if spec.name == "extra_g")
    with pytest.raises(DomainError):
        edit.set_field(workshop, extra, plan, "-5 g")
    assert plans.load_plan(workshop, plan).extra_g == plans.USUAL_EXTRA_G


@pytest.fixture
def view_of(workshop: Workspace) -> Callable[[int, int, float, float], PlanView]:
    plan = bench_with_plan(workshop)
    row, shelf = plans.load_plan(workshop, plan), load_shelf(workshop)

    def made(jars: int, tins: int, extra_g: float, extra_percent: float) -> PlanView:
        lines = tuple(
            replace(line, count=count) for line, count in zip(row.lines, (jars, tins), strict=True)
        )
        changed = replace(row, lines=lines, extra_g=extra_g, extra_percent=extra_percent)
        today = workshop.clock.today()
        return view_plan(changed, shelf, workshop.settings, workshop.texts, today=today)

    return made


@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_whatever_is_planned_closes_to_the_milligram(
    view_of: Callable[[int, int, float, float], PlanView], data: st.DataObject
) -> None:
    view = view_of(
        data.draw(st.integers(0, 80)),
        data.draw(st.integers(0, 80)),
        data.draw(st.floats(0, 300)),
        data.draw(st.floats(0, 20)),
    )
    result = view.result
    counts = {line.id: line.count or 0 for line in view.plan.lines}
    poured: dict[object, int] = {}
    for pot in result.pots:
        weighed = sum(round(line.weigh_g * 1000) for line in pot.weigh)
        filled = sum(round(fill.each_g * 1000) * fill.count for fill in pot.fills)
        assert weighed == filled + round(pot.leftover_g * 1000)
        assert pot.fill_ratio is not None
        assert pot.fill_ratio <= 1 + 1e-6
        for fill in pot.fills:
            poured[fill.line_key] = poured.get(fill.line_key, 0) + fill.count
    assert poured == {key: count for key, count in counts.items() if count}
