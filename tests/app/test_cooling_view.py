"""What the bench says of a pot that cools: when it can be poured, and what it needs to tell."""

from __future__ import annotations

import datetime as dt
import math
import re
from contextlib import closing
from typing import TYPE_CHECKING

import numpy as np
import pytest
from scipy.optimize import curve_fit

from app.test_heatings import heated_bench, on_the_bench
from wickbench.app import cooling_log
from wickbench.app.bench_heat import load_pot_heat
from wickbench.app.cooling_view import (
    check_moment,
    check_reading,
    cooling_offers,
    view_cooling,
)
from wickbench.app.moments import moment, time_of_day
from wickbench.app.pour_session import load_session
from wickbench.app.shelf import load_shelf
from wickbench.app.timers import offer_words, start_timer
from wickbench.app.usual_timers import usual_timers
from wickbench.app.workspace import Workspace
from wickbench.domain.errors import OutOfRange
from wickbench.storage import records

if TYPE_CHECKING:
    from app.told_clock import ToldClock
    from wickbench.app.bench_heat import BenchPotHeat
    from wickbench.app.cooling_view import CoolingView
    from wickbench.app.pour_session import Session
    from wickbench.app.workspace import Services

MINUTE_S = 60
ROOM_C = 21.0


@pytest.fixture(autouse=True)
def _a_morning(clock: ToldClock) -> None:
    clock.pace = 0.0
    clock.seconds = moment(clock.day, dt.time(8, 30)) / 1000


@pytest.fixture
def pot(workshop: Workspace) -> tuple[Workspace, Session, BenchPotHeat]:
    plan = heated_bench(workshop)
    with workshop.step("set") as connection:
        row = {"name": "Probe", "reads_to_c": 0.1}
        records.insert(connection, "thermometer", row)
    session, known = on_the_bench(workshop, plan)
    return workshop, session, known


def read(
    workspace: Workspace, clock: ToldClock, pour_pot: int, readings: list[tuple[float, float]]
) -> None:
    """Note temperatures at minutes after now."""
    begun = clock.seconds
    for minute, read_c in readings:
        clock.seconds = begun + minute * MINUTE_S
        cooling_log.note_reading(workspace, pour_pot, read_c, ROOM_C)


def shown(workspace: Workspace, session: Session) -> CoolingView:
    known = load_pot_heat(workspace, session, 0)
    return view_cooling(known, workspace.texts, workspace.clock.now_ms())


Pot = tuple[Workspace, "Session", "BenchPotHeat"]


def test_two_readings_tell_when_it_can_be_poured(pot: Pot, clock: ToldClock) -> None:
    """82 → 74 °C in 10 min, room 21: to 57 °C 37.5123 min after the first (Newton, by hand)."""
    workspace, session, known = pot
    assert "type what the thermometer shows" in shown(workspace, session).answer
    read(workspace, clock, known.pour_pot, [(0, 82.0)])
    assert shown(workspace, session).answer.startswith("One more reading")
    read(workspace, clock, known.pour_pot, [(10, 74.0)])
    rate = math.log(61 / 53) / 10
    minutes = math.log(61 / 36) / rate
    assert minutes == pytest.approx(37.5123, abs=5e-5)
    view = shown(workspace, session)
    assert view.answer.endswith("at about 09:07.")
    assert view.ring is not None
    begun = moment(clock.day, dt.time(8, 30))
    assert view.ring[1] == pytest.approx(begun + minutes * 60_000, abs=1)
    # down to where it sets, 50 °C: ln(61/29)/k after the first
    closes = begun + math.log(61 / 29) / rate * 60_000
    assert f"Pour until about {time_of_day(round(closes))} (50" in view.more


def test_six_readings_are_fitted(pot: Pot, clock: ToldClock) -> None:
    """scipy's curve_fit of the same readings gives the same minute."""
    workspace, session, known = pot
    minutes = np.array([0.0, 5, 10, 15, 20, 25])
    celsius = np.array([85, 80.6, 76.4, 72.7, 69.2, 66.1])
    read(workspace, clock, known.pour_pot, list(zip(minutes, map(float, celsius), strict=True)))

    def newton(t: np.ndarray, height: float, rate: float) -> np.ndarray:
        return np.asarray(ROOM_C + height * np.exp(-rate * t))

    (height, rate), _ = curve_fit(newton, minutes, celsius, p0=(60, 0.01), xtol=1e-12)
    wanted = math.log(height / (57 - ROOM_C)) / rate
    ring = shown(workspace, session).ring
    assert ring is not None
    begun = moment(clock.day, dt.time(8, 30))
    assert (ring[1] - begun) / 60_000 == pytest.approx(wanted, abs=1e-3)


@pytest.mark.parametrize(
    ("second", "key"),
    [((5, 82.5), "cooling.not-colder"), ((5, 82.0), "cooling.not-colder"),
     ((5, 49.0), "cooling.read-after-set"), ((5, 20.0), "cooling.room-not-colder")],
)  # fmt: skip
def test_a_reading_that_cannot_be_is_refused(
    pot: Pot, clock: ToldClock, second: tuple[float, float], key: str
) -> None:
    workspace, session, known = pot
    read(workspace, clock, known.pour_pot, [(0, 82.0)])
    with pytest.raises(OutOfRange) as refused:
        check_reading(load_pot_heat(workspace, session, 0), second[1], ROOM_C)
    assert refused.value.key == key
    assert not re.search(r"[{}]", workspace.texts.say(refused.value))


def test_readings_at_one_moment_are_out_of_order(pot: Pot, clock: ToldClock) -> None:
    workspace, session, known = pot
    read(workspace, clock, known.pour_pot, [(0, 82.0)])
    with pytest.raises(OutOfRange) as refused:
        check_moment(load_pot_heat(workspace, session, 0), clock.now_ms())
    assert refused.value.key == "cooling.order"
    check_moment(load_pot_heat(workspace, session, 0), clock.now_ms() + 1000)


def test_a_warmer_room_noted_later_is_told(pot: Pot, clock: ToldClock) -> None:
    workspace, session, known = pot
    read(workspace, clock, known.pour_pot, [(0, 82.0), (10, 74.0)])
    cooling_log.set_room(workspace, known.pour_pot, 76.0)
    view = shown(workspace, session)
    assert "must be colder" in view.trouble
    assert view.drawn is None
    workspace.undo()
    assert not shown(workspace, session).trouble


def test_the_curve_is_drawn_to_scale_and_ends_where_the_wax_sets(
    pot: Pot, clock: ToldClock
) -> None:
    workspace, session, known = pot
    read(workspace, clock, known.pour_pot, [(0, 82.0), (10, 74.0)])
    drawn = shown(workspace, session).drawn
    assert drawn is not None
    rate = math.log(61 / 53) / 10
    for minute, celsius in drawn.curve:
        assert celsius == pytest.approx(21 + 61 * math.exp(-rate * minute))
    assert drawn.curve[-1][1] == pytest.approx(50.0)
    assert {celsius for _, celsius in drawn.flat} == {50.0}
    assert drawn.window_c == (50.0, 57.0)
    assert drawn.now_min == pytest.approx(10.0)
    low, high = drawn.celsius
    assert all(low < celsius < high for celsius, _ in drawn.celsius_marks)
    assert [words for _, words in drawn.minute_marks][:2] == ["08:30", "08:40"]


def test_after_its_time_it_says_so(pot: Pot, clock: ToldClock) -> None:
    workspace, session, known = pot
    read(workspace, clock, known.pour_pot, [(0, 82.0), (10, 74.0)])
    clock.seconds += 30 * MINUTE_S
    view = shown(workspace, session)
    assert view.answer.startswith("It came down to 57")
    assert view.ring is None
    clock.seconds += 60 * MINUTE_S
    assert "warm it again" in shown(workspace, session).more


def test_readings_survive_the_closed_file_and_are_undone(
    pot: Pot, clock: ToldClock, services: Services
) -> None:
    workspace, session, known = pot
    read(workspace, clock, known.pour_pot, [(0, 82.0), (10, 74.0)])
    before = shown(workspace, session)
    workspace.undo()
    assert len(shown(workspace, session).readings) == 1
    workspace.redo()
    assert shown(workspace, session) == before
    keys = [one.id for one in before.readings]
    cooling_log.forget_readings(workspace, known.pour_pot, keys)
    assert not shown(workspace, session).readings
    workspace.undo()
    workspace.close()
    with closing(Workspace.open(workspace.path, services)) as again:
        kept = load_session(again, session.plan)
        assert kept is not None
        assert shown(again, kept) == before


def test_the_window_closing_and_the_pour_are_offered_as_timers(pot: Pot, clock: ToldClock) -> None:
    workspace, session, known = pot
    read(workspace, clock, known.pour_pot, [(0, 82.0), (10, 74.0)])
    offers = cooling_offers(workspace, session.plan, load_shelf(workspace))
    assert [name for name, _ in offers] == [
        f"{known.called} at 57 °C", f"{known.called}: pour it out",
    ]  # fmt: skip
    names = [one.name for one in usual_timers(workspace)]
    assert names[:3] == ["Stir", *(name for name, _ in offers)]
    assert names[3].endswith("is cured")
    ring = shown(workspace, session).ring
    assert ring is not None
    assert offer_words(workspace, ring) == ("Ring at 57 °C", True)
    start_timer(workspace, ring[0], ring[1])
    assert offer_words(workspace, ring) == ("Rings at 09:07", False)
    assert offer_words(workspace, (ring[0], ring[1] + 120_000, "")) == (
        "Ring at 09:09 instead",
        True,
    )


def test_a_whole_degree_is_a_coarse_thermometer(workshop: Workspace, clock: ToldClock) -> None:
    """Without a thermometer the typed digits say how finely it was read."""
    plan = heated_bench(workshop)
    session, known = on_the_bench(workshop, plan)
    read(workshop, clock, known.pour_pot, [(0, 82.0), (10, 74.0)])
    coarse = shown(workshop, session).answer
    spans = re.findall(r"\d\d:(\d\d)", coarse)
    assert len(spans) == 3
    assert int(spans[2]) - int(spans[1]) > 4
