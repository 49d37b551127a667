"""The calendar of a plan: what is ordered, tested, poured and labelled when, by hand in 2026."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from app.test_pouring import bench_with_plan, seen
from wickbench.app import candle_state, edit, plans, shelf_edit
from wickbench.app.material_fields import fields_of
from wickbench.app.plan_calendar import PlanCalendar, plan_calendar
from wickbench.app.shelf import load_shelf
from wickbench.domain.pour_calendar import Step
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

FAIR = "2026-12-19"  # a Saturday; the clock of these tests says Wednesday 25 November


@pytest.fixture
def plan(workshop: Workspace) -> int:
    """18 jars and 12 tins of one recipe; the wax says 10 days of cure."""
    made = bench_with_plan(workshop)
    with workshop.step("set") as connection:
        wax = records.fetch_all(connection, "wax")[0]["item_id"]
        records.update(connection, "wax", int(str(wax)), {"cure_days": 10})
        records.update(connection, "plan", made, {"needed_on": FAIR})
    return made


def calendar(workspace: Workspace, plan: int, **changed: object) -> PlanCalendar:
    view = seen(workspace, plan)
    view = replace(view, plan=replace(view.plan, **changed))  # type: ignore[arg-type]
    today = workspace.clock.today()
    made = plan_calendar(
        view, load_shelf(workspace), workspace.settings, workspace.texts, today=today
    )
    assert made is not None
    return made


def days(shown: PlanCalendar) -> list[tuple[Step, str]]:
    return [(day.step, day.on.isoformat()) for day in shown.days]


def keys(shown: PlanCalendar) -> list[str]:
    return [one.key for one in shown.findings]


def test_without_a_day_of_need_there_is_no_calendar(workshop: Workspace, plan: int) -> None:
    view = seen(workshop, plan)
    view = replace(view, plan=replace(view.plan, needed_on=None))
    shelf, texts = load_shelf(workshop), workshop.texts
    today = workshop.clock.today()
    assert plan_calendar(view, shelf, workshop.settings, texts, today=today) is None


def test_backwards_from_the_fair_in_words(workshop: Workspace, plan: int) -> None:
    """By hand: labels on Friday 18 December, poured 10 days before on Tuesday 8."""
    shown = calendar(workshop, plan)
    assert days(shown) == [
        (Step.POUR, "2026-12-08"),
        (Step.CURED, "2026-12-18"),
        (Step.LABEL, "2026-12-18"),
        (Step.NEEDED, FAIR),
    ]
    assert shown.days[0].when == "Tuesday 8 December 2026"
    assert shown.days[0].title == "Pour all of it"
    assert (
        shown.days[0].why
        == "Days of cure: 10, so that labels can go on on Friday 18 December 2026."
    )
    assert shown.pour_on == dt.date(2026, 12, 8)
    assert keys(shown) == ["calendar.no-candle"]
    assert "Garden (Jar), Garden (Tin)" in workshop.texts.say(shown.findings[0])


def test_work_days_and_days_to_spare_come_from_settings_and_plan(
    workshop: Workspace, plan: int
) -> None:
    """By hand: 4 days to spare and no weekends: labels on Tuesday 15 December.

    10 days before is Saturday 5, so it is poured on Friday 4.
    """
    for name in ("work_sat", "work_sun"):
        workshop.set_setting(name, 0)
    shown = calendar(workshop, plan, spare_days=4)
    assert days(shown)[0] == (Step.POUR, "2026-12-04")
    assert shown.off == {5, 6}
    for name in ("work_mon", "work_tue", "work_wed", "work_thu", "work_fri"):
        workshop.set_setting(name, 0)
    shown = calendar(workshop, plan)
    assert keys(shown) == ["calendar.no-workday"]
    assert shown.days == ()


def test_what_is_short_is_ordered_as_long_before_as_its_supplier_takes(
    workshop: Workspace, plan: int
) -> None:
    """By hand: needed for the pour on Tuesday 8 December; 4 working days before is Wednesday 2."""
    line = plans.load_plan(workshop, plan).lines[0]
    with workshop.step("set") as connection:
        records.update(connection, "plan_line", line.id, {"count": 60})
    short = {one.material for one in seen(workshop, plan).result.shortages}
    assert short
    shown = calendar(workshop, plan)
    assert keys(shown).count("calendar.no-lead-days") == len(short)
    specs = {spec.name: spec for spec in fields_of("fragrance")}
    for item in short:
        edit.set_field(workshop, specs["lead_days"], item, "4")
        edit.set_field(workshop, specs["lead_in_workdays"], item, "1")
    shown = calendar(workshop, plan)
    assert "calendar.no-lead-days" not in keys(shown)
    orders = [day for day in shown.days if day.step is Step.ORDER]
    assert {day.on.isoformat() for day in orders} == {"2026-12-02"}
    assert "working days until it arrives: 4" in orders[0].why


def candle_line(workspace: Workspace, plan: int) -> int:
    """The first line pours a candle of its own, with one wick; returns its key."""
    line = plans.load_plan(workspace, plan).lines[0]
    values = {"name": "Garden jar", "version_id": line.version_id, "vessel_id": line.vessel_id}
    candle = shelf_edit.new_candle(workspace, values)
    wick = shelf_edit.new_item(workspace, "wick", {"name": "Flat 6"}, {})
    row = {"candle_id": candle, "position": 0, "item_id": wick}
    shelf_edit.add_row(workspace, "candle_wick", row, "Add a line")
    plans.choose_candle(workspace, line.id, candle)
    return candle


def test_a_candle_that_has_not_passed_is_tested_first(workshop: Workspace, plan: int) -> None:
    """By hand: 250 mL of soy weigh 220 to 240 g: at 5 g an hour 44 to 48 h, 12 burns of 4 h.

    Burned up to Monday 7 December, so from Thursday 26 November on, and poured for it on the 16th.
    """
    candle = candle_line(workshop, plan)
    each_g = seen(workshop, plan).result.lines[0].each_g
    assert 220 < each_g <= 240
    shown = calendar(workshop, plan)
    on = {day.step: day for day in shown.days}
    assert on[Step.TEST_POUR].on == dt.date(2026, 11, 16)
    assert (on[Step.TEST_BURN].on, on[Step.TEST_BURN].until) == (
        dt.date(2026, 11, 26), dt.date(2026, 12, 7),
    )  # fmt: skip
    assert on[Step.TEST_POUR].past
    assert shown.pour_on is None
    assert keys(shown)[0] == "calendar.late-test-pour"
    assert "calendar.still-in-time" in keys(shown)
    # the test candles stand there: only the burns are late
    candle_state.record_test(
        workshop, load_shelf(workshop), load_shelf(workshop).candles[candle], "in_test"
    )
    assert calendar(workshop, plan).pour_on == dt.date(2026, 12, 8)
    in_test = calendar(workshop, plan, needed_on="2026-12-17")
    assert keys(in_test)[0] == "calendar.late-test-burn"
    assert Step.TEST_POUR not in {day.step for day in in_test.days}
    # burns begin on the 25th and end on 6 December, poured the 7th, labelled the 17th
    assert in_test.earliest_on == dt.date(2026, 12, 18)
    candle_state.record_test(
        workshop, load_shelf(workshop), load_shelf(workshop).candles[candle], "passed"
    )
    assert calendar(workshop, plan).pour_on == dt.date(2026, 12, 8)


def test_the_planned_day_is_held_against_cure_and_tests(workshop: Workspace, plan: int) -> None:
    """By hand: poured on 9 December it is cured on the 19th, a day after the day for labels."""
    late = calendar(workshop, plan, pour_on="2026-12-09")
    assert "calendar.pour-too-late" in keys(late)
    assert "calendar.pour-too-late" not in keys(calendar(workshop, plan, pour_on="2026-12-08"))
    candle_line(workshop, plan)
    later = calendar(workshop, plan, pour_on="2026-12-09", needed_on="2027-02-01")
    said = [workshop.texts.say(one) for one in later.findings]
    # by hand: test pour 25 November, burned from 5 December on 12 days
    assert any("Wednesday 16 December 2026 (estimate)" in one for one in said)


def test_lanes_of_the_drawing_span_what_the_days_say(workshop: Workspace, plan: int) -> None:
    candle_line(workshop, plan)
    shown = calendar(workshop, plan, needed_on="2027-02-01")
    assert [lane.name for lane in shown.lanes] == ["Garden jar", "Garden"]
    bars = {bar.step: bar for bar in shown.lanes[0].bars}
    on = {day.step: day for day in shown.days if "Garden jar" in day.title or "all" in day.title}
    assert bars[Step.TEST_POUR].first == on[Step.TEST_POUR].on
    assert bars[Step.TEST_POUR].last == bars[Step.TEST_BURN].first == on[Step.TEST_BURN].on
    assert bars[Step.TEST_BURN].last == on[Step.TEST_BURN].until
    assert (bars[Step.POUR].last - bars[Step.POUR].first).days == 10
    assert all(day.when in shown.spoken for day in shown.days)
