"""Timed heatings of the demo, and an earlier pour whose pots were read as they cooled: invented."""

from __future__ import annotations

import datetime as dt
import math
from typing import TYPE_CHECKING, NamedTuple

from wickbench.app import cooling_log, heatings, plans, pouring
from wickbench.app.bench_heat import load_pot_heat, view_heating
from wickbench.app.shelf import load_shelf
from wickbench.app.texts_marker import N_
from wickbench.domain.bench import next_place, target_g
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.heatings import Heater
    from wickbench.app.pour_session import Session
    from wickbench.app.workspace import Workspace

Keys = dict[str, int]


class Once(NamedTuple):
    """A heating of an earlier day."""

    day: dt.date
    wax: str
    wax_g: float
    from_c: float
    to_c: float
    minutes: float


EARLIER = (
    Once(dt.date(2026, 10, 17), "Meadow soy", 2400.0, 20.0, 82.0, 29.0),
    Once(dt.date(2026, 10, 31), "Coast coconut", 1500.0, 19.0, 80.0, 22.5),
)
POUR_DAY = dt.date(2026, 11, 14)
POUR_NAME = "Tins and bowls for the craft table"
POUR = (("CP-8", 14), ("PB-2", 4))
ROOM_C = 20.5
# Minutes on the heat of each pot, then how fast it cooled.
POTS = ((28.0, 0.0094), (21.0, 0.0121))
READ_AT_MIN = (0, 6, 13, 21)
FIRST_C = 73.0
COLDEST_C = 54.0


class PourClock:
    """The clock of an earlier day; it moves on only when told."""

    def __init__(self, day: dt.date) -> None:
        start = dt.datetime.combine(day, dt.time(10), dt.UTC)
        self._day = day
        self._now_ms = int(start.timestamp() * 1000)
        self._looks = 0

    def now_ms(self) -> int:
        """The moment of that day."""
        return self._now_ms

    def today(self) -> dt.date:
        """That day."""
        return self._day

    def monotonic(self) -> float:
        """Seconds, far enough apart that no two steps merge."""
        self._looks += 1
        return self._looks * 10.0

    def wait(self, minutes: float) -> None:
        """Let time go by."""
        self._now_ms += round(minutes * 60_000)


def fill_heatings(workspace: Workspace, keys: Keys) -> None:
    """Say what the hot plate is, and log what was heated and read on earlier days."""
    heater = _equipment(workspace)
    today = workspace.clock
    try:
        for once in EARLIER:
            _log(workspace, heater, {keys[once.wax]: once.wax_g}, once)
        clock = PourClock(POUR_DAY)
        workspace.clock = clock
        _pour(workspace, clock, keys)
    finally:
        workspace.clock = today


def _equipment(workspace: Workspace) -> Heater:
    with workspace.step(N_("Add to the equipment")) as connection:
        (source,) = records.fetch_all(connection, "heat_source")
        values = {"heater": "hotplate", "bath_g": 1800.0}
        records.update(connection, "heat_source", int(str(source["id"])), values)
        for row in records.fetch_all(connection, "thermometer"):
            records.update(connection, "thermometer", int(str(row["id"])), {"reads_to_c": 0.1})
    heater = heatings.heater_of({**source, **values})
    if heater is None:
        raise LookupError("the demo has a heat source")
    return heater


def _log(workspace: Workspace, heater: Heater, masses: dict[int, float], once: Once) -> None:
    clock = PourClock(once.day)
    workspace.clock = clock
    shelf = load_shelf(workspace)
    key = heatings.begin_heating(workspace, None, heater, once.from_c)
    clock.wait(once.minutes)
    row = next(one for one in heatings.load_heatings(workspace) if one.id == key)
    pot = shelf.equipment.pots[0]
    heat = heatings.heating_of(
        masses, shelf, pot=pot, heater=heater, from_c=once.from_c, to_c=once.to_c
    )
    heatings.end_heating(workspace, row, heat)


def _pour(workspace: Workspace, clock: PourClock, keys: Keys) -> None:
    plan = plans.new_plan(workspace)
    with workspace.step(N_("Write a plan")) as connection:
        values = {"name": POUR_NAME, "room_c": ROOM_C, "vessel_seconds": 18}
        records.update(connection, "plan", plan, values)
    for code, count in POUR:
        plans.add_line(workspace, plan, {"candle_id": keys[code], "count": count})
    session = pouring.start_pour(workspace, plan)
    for place, (minutes, rate) in enumerate(POTS):
        session = _heat_and_weigh(workspace, clock, session, place, minutes)
        _read(workspace, clock, session, place, rate)
        session = pouring.finish_pot(workspace, session, place)


def _heat_and_weigh(
    workspace: Workspace, clock: PourClock, session: Session, place: int, minutes: float
) -> Session:
    known = load_pot_heat(workspace, session, place)
    heatings.begin_heating(workspace, known.pour_pot, known.heater, ROOM_C)
    clock.wait(minutes)
    view = view_heating(load_pot_heat(workspace, session, place), workspace.texts, clock.now_ms())
    row = heatings.heating_of_pot(workspace, known.pour_pot)
    if row is not None and view.heat is not None:
        heatings.end_heating(workspace, row, view.heat)
    while (at := next_place(session.state)) is not None and at.pot == place:
        clock.wait(1)
        session = pouring.weigh(workspace, session, at, target_g(session.state, at))
    clock.wait(3)
    return session


def _read(
    workspace: Workspace, clock: PourClock, session: Session, place: int, rate: float
) -> None:
    """Read the thermometer while the pot cools by Newton's law, to a tenth of a degree."""
    pot, before = session.pots[place].id, 0
    for minute in READ_AT_MIN:
        clock.wait(minute - before)
        before = minute
        read_c = round(ROOM_C + (FIRST_C - ROOM_C) * math.exp(-rate * minute), 1)
        if read_c > COLDEST_C:
            cooling_log.note_reading(workspace, pot, read_c, ROOM_C)
    clock.wait(20)
