"""What stands against a pour is told through the whole plan, and leads to where it is mended."""

from __future__ import annotations

from typing import TYPE_CHECKING

from app.test_pouring import bench_with_plan, seen
from wickbench.app import plans, shelf_edit
from wickbench.app.plan_words import goal_of
from wickbench.app.shelf import load_shelf
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.plan_view import PlanView
    from wickbench.app.workspace import Workspace


def change(workspace: Workspace, table: str, record: int, **values: object) -> None:
    with workspace.step("change") as connection:
        records.update(connection, table, record, values)


def told(workspace: Workspace, view: PlanView, key: str) -> tuple[str, tuple[str, object] | None]:
    """The sentence of the finding and where it leads; fails when it is not said exactly once."""
    (finding,) = (one for one in view.findings if one.key == key)
    return workspace.texts.say(finding), goal_of(finding, view, load_shelf(workspace))


def of_kind(workspace: Workspace, kind: str) -> int:
    return load_shelf(workspace).of_kind(kind)[0].id


def test_a_pot_heavier_than_the_scale_carries(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    pot = load_shelf(workshop).equipment.pots[0]
    change(workshop, "pot", int(str(pot["id"])), empty_g=7000.0)
    sentence, goal = told(workshop, seen(workshop, plan), "plan.pot-over-scale")
    assert "Pot weighs 7000 g" in sentence
    assert "carries 6000 g" in sentence
    assert "in a bowl" in sentence
    assert goal == ("equipment/scale", None)


def test_an_oil_without_density_is_estimated_and_leads_to_the_oil(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    oil = of_kind(workshop, "fragrance")
    change(workshop, "fragrance", oil, density_g_per_ml=None)
    sentence, goal = told(workshop, seen(workshop, plan), "plan.oil-no-density")
    assert sentence.startswith("Oil has no density")
    assert goal == ("materials", oil)


def test_a_vessel_that_no_pot_can_fill_leads_to_the_pots(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop, pot_ml=200.0)
    view = seen(workshop, plan)
    found = [one for one in view.findings if one.key == "plan.vessel-over-pot"]
    assert found
    shelf = load_shelf(workshop)
    assert {goal_of(one, view, shelf) for one in found} == {("equipment/pot", None)}


def test_what_is_short_leads_to_the_material(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    line = plans.load_plan(workshop, plan).lines[0]
    change(workshop, "plan_line", line.id, count=40)
    view = seen(workshop, plan)
    goals = {
        goal_of(one, view, load_shelf(workshop))
        for one in view.findings
        if one.key.startswith("plan.short-mass")
    }
    assert ("materials", of_kind(workshop, "fragrance")) in goals


def test_a_candle_that_was_not_tested_leads_to_the_candle(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    line = plans.load_plan(workshop, plan).lines[0]
    values = {"name": "Jar", "version_id": line.version_id, "vessel_id": line.vessel_id}
    candle = shelf_edit.new_candle(workshop, values)
    plans.choose_candle(workshop, line.id, candle)
    sentence, goal = told(workshop, seen(workshop, plan), "plan.candle-untested")
    assert sentence == "Jar has no burn test: pour it as a test, not for sale."
    assert goal == ("candles", candle)
