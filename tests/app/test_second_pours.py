"""Filling until the set wax meets the line, and second pours, from the plan to bench and paper."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from app.test_plans import candle_of, keys, write
from app.test_pouring import bench_with_plan, seen, weigh_all
from wickbench.app import pouring
from wickbench.app.bench_view import view_bench
from wickbench.app.candles import view_candle
from wickbench.app.material_estimates import estimate_texts
from wickbench.app.plan_cards import planned_cards, session_cards
from wickbench.app.plan_lines import LineWords
from wickbench.app.pour_session import load_session
from wickbench.app.shelf import load_shelf
from wickbench.app.weigh_sheets import sheets_of
from wickbench.domain.errors import CannotRead
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace


def change_wax(workspace: Workspace, **values: object) -> None:
    with workspace.step("Change") as connection:
        (wax,) = records.fetch_all(connection, "wax")
        records.update(connection, "wax", int(str(wax["item_id"])), values)


MEASURED = {"liquid_measured": 1, "set_g_per_ml": 0.9, "set_measured": 1}


def test_the_fill_cell_takes_the_three_ways(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    words = LineWords(workshop, load_shelf(workshop))
    assert [word for word, _ in words.fill(None)] == ["line", "set"]
    assert write(workshop, plan, 0, "fill", "set at the line").fill_to == "set"
    assert seen(workshop, plan).lines[0].fill == "set at the line"
    assert write(workshop, plan, 0, "fill", "set").fill_to == "set"
    assert write(workshop, plan, 0, "fill", "fill line").fill_to == "line"
    with pytest.raises(CannotRead):
        write(workshop, plan, 0, "fill", "l")
    workshop.undo()
    assert seen(workshop, plan).lines[0].fill == "set at the line"


def test_until_set_weighs_set_volume_and_stops_at_the_brim(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    change_wax(workshop, **MEASURED)
    write(workshop, plan, 0, "fill", "set")
    view = seen(workshop, plan)
    # 8 % of wax is 1/1.08 and 0.08/1.08 of the mix; 250 mL to the line, worked by hand.
    cold = 1 / (1 / 1.08 / 0.9 + 0.08 / 1.08 / 0.97)
    assert view.result.lines[0].exact_g == pytest.approx(250 * cold)
    # The size on the box is all that is known: line and brim are one, hot wax would run over.
    assert "plan.set-passes-brim" in keys(view)
    said = next(one for one in view.findings if one.key == "plan.set-passes-brim")
    assert "Jar" in workshop.texts.say(said)
    assert "250 mL" in workshop.texts.say(said)


def test_a_candle_brings_its_fill_and_weighs_it(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    change_wax(workshop, **MEASURED)
    candle = candle_of(workshop, plan, fill_to="set")
    assert write(workshop, plan, 0, "what", f"c{candle}").fill_to == "set"
    shelf = load_shelf(workshop)
    net = view_candle(shelf.candles[candle], shelf, workshop.settings, workshop.texts).net
    assert net is not None
    assert net.until_set
    assert net.net_g == pytest.approx(seen(workshop, plan).result.lines[0].exact_g)


def test_a_second_pour_stands_on_card_sheet_and_bench(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    change_wax(workshop, **MEASURED, finish="second")
    view = seen(workshop, plan)
    shelf, texts = load_shelf(workshop), workshop.texts
    held_g = sum(pot.held_g for pot in view.result.pots)
    assert held_g > 0
    assert held_g == pytest.approx(sum(line.held_g * n for line, n in
                                       zip(view.result.lines, (18, 12), strict=True)))  # fmt: skip
    (fact,) = [one for one in planned_cards(view, shelf, texts)[0].facts if "hold back" in one]
    assert "for the second pour" in fact
    assert "g each" in fact
    sheet = sheets_of(view, shelf, workshop.settings, texts)[0]
    assert fact in sheet.facts
    session = pouring.start_pour(workshop, plan)
    assert fact in session_cards(session, texts)[0].facts
    weigh_all(workshop, session, 0)
    stored = load_session(workshop, plan)
    assert stored is not None
    assert view_bench(stored, texts).how.startswith(fact)


def test_one_pour_holds_nothing_back(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    cards = planned_cards(seen(workshop, plan), load_shelf(workshop), workshop.texts)
    assert not any("hold back" in fact for card in cards for fact in card.facts)


def test_the_class_says_what_is_usual_and_the_wax_overrides_it(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    change_wax(workshop, wax_class="paraffin", liquid_g_per_ml=0.77)
    assert seen(workshop, plan).result.pots[0].finish == "second"
    said = estimate_texts(workshop.texts, "wax", {"wax_class": "paraffin"})
    assert said["finish"] == "with a second pour (usual for paraffin)"
    change_wax(workshop, finish="single")
    assert seen(workshop, plan).result.pots[0].finish == "single"
