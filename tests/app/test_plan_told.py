"""What a plan tells: gaps, shortages, costs, cards; and that every gram is accounted for."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.test_plans import add, candle_of, keys, write
from app.test_pouring import bench_with_plan, seen, weigh_all
from wickbench.app import edit, plans, pouring, shelf_edit, stock
from wickbench.app.plan_cards import planned_cards, session_cards
from wickbench.app.plan_fields import PLAN_FIELDS
from wickbench.app.plan_view import PlanView, view_plan
from wickbench.app.plan_words import goal_of
from wickbench.app.pour_session import load_session
from wickbench.app.shelf import load_shelf
from wickbench.domain.errors import DomainError
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.app.workspace import Workspace
    from wickbench.domain.findings import Finding


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
