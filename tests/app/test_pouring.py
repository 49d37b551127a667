"""The pouring session: stored as it goes, resumed, the load held when the wax is over-poured."""

from __future__ import annotations

from contextlib import closing
from typing import TYPE_CHECKING

import pytest

from wickbench.app import plans, pouring, shelf_edit, stock
from wickbench.app.plan_view import view_plan
from wickbench.app.pour_session import Session, load_session
from wickbench.app.shelf import load_shelf
from wickbench.app.workspace import Workspace
from wickbench.domain.bench import next_place, target_g
from wickbench.domain.bench_outcome import outcome, wax_offer
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.plan_view import PlanView
    from wickbench.app.workspace import Services


def bench_with_plan(workspace: Workspace, *, pot_ml: float = 5000.0) -> int:
    """A small workshop: one wax, one oil, one jar, one tin, and a plan of 18 and 12."""
    shelf_edit.new_equipment(workspace, "scale", {"name": "S", "maximum_g": 6000.0, "step_g": 1.0})
    shelf_edit.new_equipment(workspace, "scale", {"name": "F", "maximum_g": 500.0, "step_g": 0.1})
    shelf_edit.new_equipment(workspace, "pot", {"name": "Pot", "brim_ml": pot_ml, "empty_g": 400.0})
    wax = shelf_edit.new_item(
        workspace, "wax", {"name": "Wax"}, {"wax_class": "soy", "liquid_g_per_ml": 0.87}
    )
    oil = shelf_edit.new_item(
        workspace, "fragrance", {"name": "Oil"}, {"density_g_per_ml": 0.97, "flash_c": 90.0}
    )
    stock.buy(workspace, wax, 10_000.0, 60.0)
    stock.buy(workspace, oil, 500.0, 20.0)
    recipe = shelf_edit.new_recipe(workspace, "Garden")
    with workspace.step("set") as connection:
        version = records.fetch_all(connection, "recipe_version", {"recipe_id": recipe})[0]["id"]
        records.update(connection, "recipe_version", version, {"load_percent": 8.0})
        for role, item in (("wax", wax), ("fragrance", oil)):
            row = {"version_id": version, "role": role, "item_id": item, "parts": 1.0}
            records.insert(connection, "recipe_part", row)
    plan = plans.new_plan(workspace)
    for name, nominal, count in (("Jar", 250.0, 18), ("Tin", 200.0, 12)):
        vessel = shelf_edit.new_item(
            workspace, "vessel", {"name": name}, {"nominal_ml": nominal, "vessel_kind": "jar"}
        )
        stock.buy(workspace, vessel, 40, 40.0)
        line = {"version_id": version, "vessel_id": vessel, "wick_count": 0, "count": count}
        plans.add_line(workspace, plan, line)
    return plan


def seen(workspace: Workspace, plan: int) -> PlanView:
    shelf = load_shelf(workspace)
    row = plans.load_plan(workspace, plan)
    return view_plan(row, shelf, workspace.settings, workspace.texts, today=workspace.clock.today())


def weigh_all(workspace: Workspace, session: Session, pot: int) -> Session:
    while (place := next_place(session.state)) is not None and place.pot == pot:
        session = pouring.weigh(workspace, session, place, target_g(session.state, place))
    return session


def test_a_plan_of_eighteen_jars_and_twelve_tins_closes_to_the_gram(workshop: Workspace) -> None:
    view = seen(workshop, bench_with_plan(workshop))
    assert view.result.candles == 30
    for pot in view.result.pots:
        weighed = sum(round(line.weigh_g * 1000) for line in pot.weigh)
        filled = sum(round(fill.each_g * 1000) * fill.count for fill in pot.fills)
        assert weighed == filled + round(pot.leftover_g * 1000)
        assert pot.leftover_g == pytest.approx(30.0, abs=2.0)


def test_over_poured_wax_is_followed_by_the_oil_and_the_load_holds(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    session = pouring.start_pour(workshop, plan)
    first = next_place(session.state)
    assert first is not None
    planned = target_g(session.state, first)
    session = pouring.weigh(workshop, session, first, planned + 60.0)
    session = weigh_all(workshop, session, 0)
    # the load is oil by wax: 8 % of wax within half a step of the oil's scale
    now = outcome(session.state.pots[0])
    assert now.wax_g == pytest.approx(planned + 60.0)
    assert now.oil_g / now.wax_g == pytest.approx(0.08, abs=0.05 / now.wax_g + 1e-9)


def test_a_session_is_resumed_as_it_was_left(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    session = pouring.start_pour(workshop, plan)
    place = next_place(session.state)
    assert place is not None
    session = pouring.weigh(workshop, session, place, 2500.0)
    assert load_session(workshop, plan) == session
    assert pouring.start_pour(workshop, plan) == session
    codes = [pot.lot_code for pot in session.pots]
    assert len(set(codes)) == len(codes)
    assert all(codes)


def test_a_session_is_there_after_the_file_was_closed(
    workshop: Workspace, services: Services
) -> None:
    plan = bench_with_plan(workshop)
    session = weigh_all(workshop, pouring.start_pour(workshop, plan), 0)
    pouring.set_note(workshop, session, 0, "cold room")
    kept = load_session(workshop, plan)
    workshop.close()
    with closing(Workspace.open(workshop.path, services)) as again:
        assert load_session(again, plan) == kept
        assert pouring.start_pour(again, plan) == kept
        assert plans.load_plan(again, plan).state == "pouring"


def test_a_plan_that_was_poured_is_not_poured_again(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    session = pouring.start_pour(workshop, plan)
    for pot in range(len(session.pots)):
        session = pouring.finish_pot(workshop, weigh_all(workshop, session, pot), pot)
    assert pouring.start_pour(workshop, plan) == session


def test_a_version_is_frozen_by_its_pour(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    version = plans.load_plan(workshop, plan).lines[0].version_id
    assert version is not None
    assert not load_shelf(workshop).versions[version].frozen
    pouring.start_pour(workshop, plan)
    assert load_shelf(workshop).versions[version].frozen
    workshop.undo()
    assert not load_shelf(workshop).versions[version].frozen


def test_a_later_change_of_the_recipe_does_not_reach_the_bench(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    session = pouring.start_pour(workshop, plan)
    version = plans.load_plan(workshop, plan).lines[0].version_id
    assert version is not None
    with workshop.step("set") as connection:
        records.update(connection, "recipe_version", version, {"load_percent": 2.0})
    assert load_session(workshop, plan) == session


def test_a_senseless_weight_changes_nothing(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    session = pouring.start_pour(workshop, plan)
    place = next_place(session.state)
    assert place is not None
    for wrong in (-1.0, float("nan"), 1e9, 0.0):
        with pytest.raises(OutOfRange):
            pouring.weigh(workshop, session, place, wrong)
    assert load_session(workshop, plan) == session


def test_too_much_oil_offers_wax_that_brings_the_load_back(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    session = pouring.start_pour(workshop, plan)
    place = next_place(session.state)
    assert place is not None
    session = pouring.weigh(workshop, session, place, target_g(session.state, place))
    oil = next_place(session.state)
    assert oil is not None
    session = pouring.weigh(workshop, session, oil, target_g(session.state, oil) * 1.1)
    assert wax_offer(session.state.pots[0]) is not None
    session = pouring.add_wax(workshop, session, 0)
    session = weigh_all(workshop, session, 0)
    now = outcome(session.state.pots[0])
    assert now.oil_g / now.wax_g == pytest.approx(0.08, abs=1e-4)
    assert load_session(workshop, plan) == session


def test_a_finished_pot_takes_what_it_used_off_the_shelf(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    before = load_shelf(workshop)
    session = pouring.start_pour(workshop, plan)
    with pytest.raises(DomainError, match="not-weighed"):
        pouring.finish_pot(workshop, session, 0)
    for pot in range(len(session.pots)):
        session = weigh_all(workshop, session, pot)
        session = pouring.finish_pot(workshop, session, pot)
    assert session.done
    after = load_shelf(workshop)
    assert plans.load_plan(workshop, plan).state == "poured"
    used: dict[int, float] = {}
    for state in session.state.pots:
        for step in state.steps:
            used[step.material] = used.get(step.material, 0.0) + (step.weighed_g or 0.0)
    for material, grams in used.items():
        there, now = before.on_hand[material], after.on_hand[material]
        assert there is not None
        assert now == pytest.approx(there - grams)
    pieces = [before.on_hand[key] - after.on_hand[key] for key in before.vessels]  # type: ignore[operator]
    assert sorted(pieces) == [12, 18]


def test_everything_is_taken_back_and_done_again(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    session = pouring.start_pour(workshop, plan)
    session = weigh_all(workshop, session, 0)
    while load_session(workshop, plan) is not None:
        workshop.undo()
    assert plans.load_plan(workshop, plan).state == "planned"
    while workshop.may_redo:
        workshop.redo()
    assert load_session(workshop, plan) == session


def test_a_whole_pour_is_taken_back_and_done_again(workshop: Workspace) -> None:
    before = load_shelf(workshop)
    plan = bench_with_plan(workshop)
    session = pouring.start_pour(workshop, plan)
    for pot in range(len(session.pots)):
        session = pouring.finish_pot(workshop, weigh_all(workshop, session, pot), pot)
    after = load_shelf(workshop)
    while workshop.may_undo:
        workshop.undo()
    assert load_shelf(workshop) == before
    while workshop.may_redo:
        workshop.redo()
    assert load_shelf(workshop) == after
    assert load_session(workshop, plan) == session
    assert plans.load_plan(workshop, plan).state == "poured"
