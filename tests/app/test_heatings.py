"""Heatings as they are logged, what they tell, and what the plan makes of it."""

from __future__ import annotations

import datetime as dt
from contextlib import closing
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from app.test_pouring import bench_with_plan, seen, weigh_all
from wickbench.app import cooling_log, heatings, plans, pouring, shelf_edit
from wickbench.app.bench_heat import load_pot_heat, ring_when_hot, view_heating
from wickbench.app.heating_log import view_log
from wickbench.app.heatings import Told, heater_of, heating_of, told_by_source
from wickbench.app.moments import moment
from wickbench.app.plan_heat import plan_heat
from wickbench.app.pot_heat import HeatKnown
from wickbench.app.shelf import Shelf, load_shelf
from wickbench.app.workspace import Workspace
from wickbench.domain.errors import OutOfRange
from wickbench.storage import records

if TYPE_CHECKING:
    from app.told_clock import ToldClock
    from wickbench.app.bench_heat import BenchPotHeat
    from wickbench.app.pot_heat import PlanHeat
    from wickbench.app.pour_session import Session
    from wickbench.app.workspace import Services

MORNING = dt.time(8, 30)


@pytest.fixture(autouse=True)
def _a_morning(clock: ToldClock) -> None:
    clock.pace = 0.0
    clock.seconds = moment(clock.day, MORNING) / 1000


def heated_bench(workspace: Workspace, **source: object) -> int:
    """The bench of the pouring tests with a wax that melts at 50 °C and a hot plate."""
    values = {"name": "Plate", "heater": "hotplate", "power_w": 1500, "bath_g": 1500.0}
    shelf_edit.new_equipment(workspace, "heat_source", values | source)
    plan = bench_with_plan(workspace)
    with workspace.step("set") as connection:
        for row in records.fetch_all(connection, "wax"):
            wax = {"melts_from_c": 50.0, "melts_to_c": 50.0, "heat_to_c": 82.0, "add_oil_c": 85.0}
            records.update(connection, "wax", int(str(row["item_id"])), wax | {"pour_c": 57.0})
        for row in records.fetch_all(connection, "pot"):
            values = {"metal": "steel", "empty_g": 1200.0}
            records.update(connection, "pot", int(str(row["id"])), values)
    return plan


def on_the_bench(workspace: Workspace, plan: int) -> tuple[Session, BenchPotHeat]:
    session = pouring.start_pour(workspace, plan)
    return session, load_pot_heat(workspace, session, 0)


def heat_of_plan(workspace: Workspace, plan: int, **changed: object) -> PlanHeat:
    view, shelf = seen(workspace, plan), load_shelf(workspace)
    view = replace(view, plan=replace(view.plan, **changed))  # type: ignore[arg-type]
    known = HeatKnown(told_by_source(workspace), cooling_log.losses_of_pots(workspace, shelf))
    return plan_heat(view, shelf, known, workspace.settings, workspace.texts)


def wax_of(shelf: Shelf) -> int:
    return next(key for key, one in shelf.materials.items() if one.kind == "wax")


def log_one(workspace: Workspace, clock: ToldClock, known: BenchPotHeat, minutes: float) -> int:
    """Put the pot on the heat and take it off again after so many minutes."""
    key = heatings.begin_heating(workspace, known.pour_pot, known.heater, 21.0)
    clock.seconds += minutes * 60
    row = next(one for one in heatings.load_heatings(workspace) if one.id == key)
    heat = view_heating(known, workspace.texts, clock.now_ms()).heat
    assert heat is not None
    heatings.end_heating(workspace, row, heat)
    return key


# -- arithmetic ----------------------------------------------------------------------------------
def test_wax_bath_and_metal_are_summed(workshop: Workspace) -> None:
    """By hand: 2.5 kg of soy 618.50 kJ, 1.5 kg of water 470.93, 1.2 kg of steel 45.00.

    Water takes 4.186 and steel 0.50 kJ for each kg and °C (handbook values), both up to 95 °C.
    """
    heated_bench(workshop)
    shelf = load_shelf(workshop)
    heater = heater_of(shelf.equipment.heat_sources[0])
    heat = heating_of(
        {wax_of(shelf): 2500.0}, shelf, pot=shelf.equipment.pots[0], heater=heater, from_c=20.0,
        to_c=82.0,
    )  # fmt: skip
    assert heat.wax_kj == pytest.approx(2.5 * (1.9 * 30 + 120 + 2.2 * 32), abs=5e-3)
    assert heat.water_kj == pytest.approx(1.5 * 4.186 * 75)
    assert heat.metal_kj == pytest.approx(1.2 * 0.5 * 75)


def test_a_melter_has_no_bath(workshop: Workspace) -> None:
    heated_bench(workshop, heater="melter")
    shelf = load_shelf(workshop)
    heater = heater_of(shelf.equipment.heat_sources[0])
    heat = heating_of(
        {wax_of(shelf): 100.0}, shelf, pot=None, heater=heater, from_c=20.0, to_c=82.0
    )
    assert heat.water_kj == heat.metal_kj == 0.0


def test_the_oil_cools_the_pot_by_the_rule_of_mixing(workshop: Workspace) -> None:
    """T = Σ m c T / Σ m c with 2.2 for liquid soy and 2.0 for the oil (an estimate)."""
    plan = heated_bench(workshop)
    (pot, *_) = heat_of_plan(workshop, plan, room_c=20.0).pots
    wax_g = sum(line.weigh_g for line in pot.plan.weigh if line.role.value == "wax")
    oil_g = sum(line.weigh_g for line in pot.plan.weigh if line.role.value == "fragrance")
    by_hand = (wax_g * 2.2 * 85 + oil_g * 2.0 * 20) / (wax_g * 2.2 + oil_g * 2.0)
    assert pot.mixed is not None
    assert pot.mixed.celsius == pytest.approx(by_hand)
    warm = (wax_g * 2.2 * 85 + oil_g * 2.0 * (85 - 20)) / (wax_g * 2.2)
    assert pot.warm_c == pytest.approx(warm)


def test_at_best_and_usual_until_two_pours_tell(workshop: Workspace, clock: ToldClock) -> None:
    """Usual 0.4 to 0.6 under a water bath: common practice, no source."""
    plan = heated_bench(workshop)
    (pot, *_) = heat_of_plan(workshop, plan).pots
    assert pot.time is not None
    assert pot.energy_kj is not None
    assert pot.time.at_best_min == pytest.approx(pot.energy_kj / 1.5 / 60)
    assert pot.time.high_min == pytest.approx(pot.energy_kj / (0.4 * 1.5) / 60)
    assert "at best" in heat_of_plan(workshop, plan).words[0][1][0]
    _, known = on_the_bench(workshop, plan)
    log_one(workshop, clock, known, 40.0)
    assert heat_of_plan(workshop, plan).pots[0].time.learned is False  # type: ignore[union-attr]
    log_one(workshop, clock, known, 40.0)
    learned = heat_of_plan(workshop, plan)
    assert learned.pots[0].time is not None
    assert learned.pots[0].time.likely_min == pytest.approx(40.0, rel=0.01)
    assert "by your own 2 pours: about 40" in learned.words[0][1][0]


def test_what_is_missing_is_asked_for(workshop: Workspace) -> None:
    plan = heated_bench(workshop, power_w=None, bath_g=None)
    keys = [one.key for one in heat_of_plan(workshop, plan).findings]
    assert keys == ["plan-heat.no-power", "plan-heat.not-read"]
    assert (
        heat_of_plan(workshop, plan, heat_source_id=None).findings[0].key == "plan-heat.no-heater"
    )
    with workshop.step("set") as connection:
        records.update(connection, "heat_source", 1, {"power_w": 1500})
    assert heat_of_plan(workshop, plan).findings[0].key == "plan-heat.no-bath"


def test_too_many_vessels_for_a_pot_that_cools(workshop: Workspace, clock: ToldClock) -> None:
    """From 57 to 50 °C at k = 0.02/min over 21 °C takes ln(36/29)/0.02 = 10.8 min."""
    plan = heated_bench(workshop)
    session, known = on_the_bench(workshop, plan)
    for read_c in (75.0, 65.2095):  # 21 + 54·e^(−0.02·10)
        cooling_log.note_reading(workshop, known.pour_pot, read_c, 21.0)
        clock.seconds += 600
    shown = heat_of_plan(workshop, plan, vessel_seconds=120)
    (pot, *_) = shown.pots
    assert pot.window is not None
    assert pot.wait_min is not None
    pour_pot = session.pots[0]
    mass_g = sum(step.planned_g for step in session.state.pots[0].steps)
    assert pour_pot.pour_c == pytest.approx(57.0)
    # more in the pot cools slower by as much as there is more
    rate = 0.02 * mass_g / pot.plan.total_g
    lasts = (pot.window.closes_min - pot.window.opens_min) * rate
    assert lasts == pytest.approx(0.2162, abs=2e-3)  # ln(36/29)
    assert pot.window.at_best < pot.vessels
    assert "plan-heat.too-many-vessels" in {one.key for one in shown.findings}
    quick = heat_of_plan(workshop, plan, vessel_seconds=10)
    assert not {one.key for one in quick.findings} & {
        "plan-heat.too-many-vessels", "plan-heat.hardly-in-time",
    }  # fmt: skip


# -- the log -------------------------------------------------------------------------------------
def test_a_heating_is_timed_kept_and_undone(
    workshop: Workspace, services: Services, clock: ToldClock
) -> None:
    plan = heated_bench(workshop)
    session, known = on_the_bench(workshop, plan)
    assert view_heating(known, workshop.texts, clock.now_ms()).phase == "off"
    heatings.begin_heating(workshop, known.pour_pot, known.heater, 21.0)
    clock.seconds += 600
    on = view_heating(load_pot_heat(workshop, session, 0), workshop.texts, clock.now_ms())
    assert on.phase == "on"
    assert "08:30, 10 min" in on.words
    name, ends_ms = ring_when_hot(load_pot_heat(workshop, session, 0), on, workshop.texts) or (
        "",
        0,
    )
    assert name.endswith("is hot")
    assert ends_ms > clock.now_ms()
    workshop.undo()
    assert heatings.heating_of_pot(workshop, known.pour_pot) is None
    key = log_one(workshop, clock, known, 30.0)
    workshop.close()
    with closing(Workspace.open(workshop.path, services)) as again:
        (row,) = heatings.load_heatings(again)
        assert (row.id, row.seconds, row.to_c) == (key, 1800, 82.0)
        assert row.heat_j is not None
        assert row.logged is not None
        # η = E / (P · t)
        assert row.logged.efficiency == pytest.approx(row.heat_j / (1500 * 1800))


def test_other_temperatures_change_the_heat(workshop: Workspace, clock: ToldClock) -> None:
    plan = heated_bench(workshop, bath_g=0.0)
    session, known = on_the_bench(workshop, plan)
    log_one(workshop, clock, known, 30.0)
    before = heatings.heating_of_pot(workshop, known.pour_pot)
    known = load_pot_heat(workshop, session, 0)
    typed = view_heating(known, workshop.texts, clock.now_ms(), to_c=92.0)
    assert before is not None
    assert typed.heat is not None
    heatings.correct_heating(workshop, before, typed.heat, 21.0)
    after = heatings.heating_of_pot(workshop, known.pour_pot)
    assert after is not None
    assert before.heat_j is not None
    assert after.heat_j is not None
    wax_kg = sum(known.cools.heated_g.values()) / 1000
    # ten degrees more of liquid wax and of the steel of the pot
    assert after.heat_j - before.heat_j == pytest.approx((wax_kg * 2.2 + 1.2 * 0.5) * 10_000, abs=2)


def test_no_heating_takes_no_time(workshop: Workspace) -> None:
    plan = heated_bench(workshop)
    _, known = on_the_bench(workshop, plan)
    heatings.begin_heating(workshop, known.pour_pot, known.heater, 21.0)
    row = heatings.heating_of_pot(workshop, known.pour_pot)
    heat = view_heating(known, workshop.texts, workshop.clock.now_ms()).heat
    assert row is not None
    assert heat is not None
    with pytest.raises(OutOfRange) as refused:
        heatings.end_heating(workshop, row, heat)
    assert refused.value.key == "heat.minutes"


def test_one_left_out_is_not_learned_from(workshop: Workspace, clock: ToldClock) -> None:
    plan = heated_bench(workshop)
    _, known = on_the_bench(workshop, plan)
    keys = [log_one(workshop, clock, known, minutes) for minutes in (30.0, 31.0, 60.0)]
    heatings.leave_out(workshop, keys[2], out=True)
    log = view_log(workshop, 1)
    assert [row.counts for row in log.rows] == ["left out", "counts", "counts"]
    assert "By 2 heatings" in log.said
    assert log.how
    heatings.remove_heating(workshop, keys[1])
    assert "Time 1 more heating" in view_log(workshop, 1).said
    workshop.undo()
    workshop.undo()
    assert "By 3 heatings" in view_log(workshop, 1).said


def test_impossible_times_are_told_instead_of_learned(
    workshop: Workspace, clock: ToldClock
) -> None:
    plan = heated_bench(workshop)
    _, known = on_the_bench(workshop, plan)
    for minutes in (0.5, 30.0):
        log_one(workshop, clock, known, minutes)
    told = told_by_source(workshop)[1]
    assert told.learned is None
    assert told.trouble is not None
    assert "heat.log-impossible" in {one.key for one in heat_of_plan(workshop, plan).findings}
    assert told != Told(None)


def test_a_leftover_is_heated_along(workshop: Workspace) -> None:
    """A leftover of the same mix takes as much heat as its wax, and its oil without melting."""
    plan = heated_bench(workshop, bath_g=0.0)
    session, known = on_the_bench(workshop, plan)
    wax, oil = (wax_of(load_shelf(workshop)), next(
        key for key, one in load_shelf(workshop).materials.items() if one.kind == "fragrance"
    ))  # fmt: skip
    before = view_heating(known, workshop.texts, 0).heat
    with workshop.step("set") as connection:
        kept = records.insert(connection, "leftover", {"name": "Rest"})
        for item, role, grams in ((wax, "wax", 450.0), (oil, "fragrance", 50.0)):
            row = {"leftover_id": kept, "item_id": item, "role": role, "mass_g": grams}
            records.insert(connection, "leftover_part", row)
        row = {"pour_pot_id": known.pour_pot, "leftover_id": kept, "planned_g": 200.0}
        records.insert(connection, "pour_leftover", row)
    after = view_heating(load_pot_heat(workshop, session, 0), workshop.texts, 0).heat
    assert before is not None
    assert after is not None
    wax_kj = 0.180 * (1.9 * 29 + 120 + 2.2 * 32)
    assert after.wax_kj - before.wax_kj == pytest.approx(wax_kj + 0.020 * 2.0 * 61)


def test_weighed_amounts_count_once_they_are_known(workshop: Workspace) -> None:
    plan = heated_bench(workshop)
    session, known = on_the_bench(workshop, plan)
    session = weigh_all(workshop, session, 0)
    again = load_pot_heat(workshop, session, 0)
    assert again.cools.mass_g == pytest.approx(known.cools.mass_g, abs=1.0)
    assert plans.load_plan(workshop, plan).state == "pouring"


def test_how_fast_one_pours_is_a_setting_that_a_plan_may_overrule(workshop: Workspace) -> None:
    plan = heated_bench(workshop)
    usual = heat_of_plan(workshop, plan)
    assert usual.assumed["vessel_seconds"] == "usually 20"
    workshop.set_settings({"vessel_seconds": 45.0})
    assert heat_of_plan(workshop, plan).assumed["vessel_seconds"] == "usually 45"
