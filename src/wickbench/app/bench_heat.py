"""The pot on the bench and its heat: what it takes, how long it is on, what was logged of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.cooling_log import PotCools, load_cooling
from wickbench.app.fields import FieldSpec, field
from wickbench.app.heat_words import energy_words, heating_words, in_minutes
from wickbench.app.heatings import (
    Heater,
    HeatingRow,
    Told,
    heater_with_key,
    heating_of,
    heating_of_pot,
    load_heatings,
    told_by,
)
from wickbench.app.mixes import temperatures
from wickbench.app.moments import time_of_day
from wickbench.app.plans import PlanRow, load_plan
from wickbench.app.shelf import Shelf, load_shelf
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.domain.heat_learned import heating_time
from wickbench.domain.heating import Heating
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.pour_session import Session
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace

_MS_PER_MIN: Final = 60_000
FROM: Final[FieldSpec] = field("heating", "from_c", N_("From"), "temperature", low=-20, high=150)
TO: Final[FieldSpec] = field("heating", "to_c", N_("to"), "temperature", low=20, high=200)


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchPotHeat:
    """Everything that heating and cooling of one pot on the bench are computed from.

    Attributes:
        pour_pot: key of its row.
        called: its lot code, or its title.
        plan: of the session.
        shelf: where waxes are known.
        pot: row of the pot; ``None`` where the pour names none.
        heater: of the plan.
        told: what the maker's own heatings of that heater tell.
        heating: the latest heating of this pot.
        cools: its readings.
        heat_to_c: how hot the recipe wants it.
        pour_c: when to pour.
        usual_c: where pouring is usual for such a wax.
        room_c: the room: read for this pot, of the plan, or of the settings.
        vessels: to be filled.
        filled_g: mix that goes into them.
        vessel_seconds: from one vessel to the next: of the plan, or of the settings.
    """

    pour_pot: int
    called: str
    plan: PlanRow
    shelf: Shelf
    pot: dict[str, object] | None
    heater: Heater | None
    told: Told
    heating: HeatingRow | None
    cools: PotCools
    heat_to_c: float | None
    pour_c: float | None
    usual_c: tuple[float, float] | None
    room_c: float
    vessels: int
    filled_g: float
    vessel_seconds: int


def load_pot_heat(
    workspace: Workspace, session: Session, place: int, shelf: Shelf | None = None
) -> BenchPotHeat:
    """Read what is known of the heat of one pot of a session."""
    known = load_shelf(workspace) if shelf is None else shelf
    one, plan = session.pots[place], load_plan(workspace, session.plan)
    with workspace.read() as connection:
        row = records.fetch(connection, "pour_pot", one.id)
    heater = heater_with_key(known, plan.heat_source_id)
    cools = load_cooling(workspace, one.id, known)
    return BenchPotHeat(
        pour_pot=one.id,
        called=one.lot_code or one.title,
        plan=plan,
        shelf=known,
        pot=next((pot for pot in known.equipment.pots if pot.get("id") == row["pot_id"]), None),
        heater=heater,
        told=told_by(load_heatings(workspace, heater.id)) if heater else Told(None),
        heating=heating_of_pot(workspace, one.id),
        cools=cools,
        heat_to_c=_heat_to(known, row["version_id"]),
        pour_c=one.pour_c,
        usual_c=one.pour_window_c,
        room_c=_room(workspace, plan, cools),
        vessels=sum(fill.count for fill in one.fills),
        filled_g=sum(fill.count * fill.each_g for fill in one.fills),
        vessel_seconds=plan.vessel_seconds or int(workspace.settings.number("vessel_seconds")),
    )


def _room(workspace: Workspace, plan: PlanRow, cools: PotCools) -> float:
    for known in (cools.room_c, plan.room_c):
        if known is not None:
            return known
    return workspace.settings.number("room_c")


def _heat_to(shelf: Shelf, version: Any) -> float | None:  # noqa: ANN401 - a stored key or none
    known = shelf.versions.get(version)
    return None if known is None else temperatures(known, shelf).get("heat_to_c")


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatingView:
    """The pot on the heat, in words.

    Attributes:
        phase: "off" (not yet), "on" or "hot".
        words: how long it takes, is on, or took.
        from_c, to_c: the temperatures that the heat is computed with.
        heat: the heating; ``None`` when it cannot be computed.
        trouble: why not; empty when it can.
    """

    phase: str
    words: str
    from_c: float
    to_c: float | None
    heat: Heating | None
    trouble: str


def view_heating(
    known: BenchPotHeat,
    texts: Texts,
    now_ms: int,
    *,
    from_c: float | None = None,
    to_c: float | None = None,
) -> HeatingView:
    """Put the heating of a pot into words, with typed temperatures in place of stored ones."""
    row = known.heating
    phase = "off" if row is None else "on" if row.seconds is None else "hot"
    began = _first(from_c, row.from_c if row else None, known.room_c) or 0.0
    goal = _first(to_c, row.to_c if row else None, known.heat_to_c)
    heat, trouble = _heat(known, began, goal, texts)
    words = {"off": _off, "on": _on, "hot": _hot}[phase](known, heat, texts, now_ms)
    return HeatingView(
        phase=phase, words=words, from_c=began, to_c=goal, heat=heat, trouble=trouble
    )


def _first(*values: float | None) -> float | None:
    return next((value for value in values if value is not None), None)


def _heat(
    known: BenchPotHeat, from_c: float, to_c: float | None, texts: Texts
) -> tuple[Heating | None, str]:
    if to_c is None:
        return None, texts(N_("Enter how hot it is to be."))
    try:
        heat = heating_of(
            known.cools.heated_g, known.shelf, oils=known.cools.oils, pot=known.pot,
            heater=known.heater, from_c=from_c, to_c=to_c,
        )  # fmt: skip
    except DomainError as error:
        return None, texts.say(error)
    return heat, ""


def _off(known: BenchPotHeat, heat: Heating | None, texts: Texts, now_ms: int) -> str:  # noqa: ARG001
    if heat is None:
        return ""
    energy = energy_words(texts, heat.energy_kj)
    if known.heater is None or known.heater.power_w is None:
        return texts(N_("It takes {energy}."), energy=energy)
    time = heating_time(
        heat.energy_kj, known.heater.power_w, heater=known.heater.kind, learned=known.told.learned
    )
    said = heating_words(texts, time, known.told.learned)
    return texts(
        N_("On “{name}” {time}; {energy}."), name=known.heater.name, time=said, energy=energy
    )


def _on(known: BenchPotHeat, heat: Heating | None, texts: Texts, now_ms: int) -> str:
    started = (known.heating.started_ms if known.heating else None) or now_ms
    since = time_of_day(started)
    on_for = in_minutes(texts, (now_ms - started) / _MS_PER_MIN)
    if heat is None or known.heater is None or known.heater.power_w is None:
        return texts(N_("On the heat since {since}, {minutes}."), since=since, minutes=on_for)
    time = heating_time(
        heat.energy_kj, known.heater.power_w, heater=known.heater.kind, learned=known.told.learned
    )
    low, high = (
        time_of_day(started + round(minutes * _MS_PER_MIN))
        for minutes in (time.low_min, time.high_min)
    )
    return texts(
        N_("On the heat since {since}, {minutes}; hot between {low} and {high}."),
        since=since, minutes=on_for, low=low, high=high,
    )  # fmt: skip


def _hot(known: BenchPotHeat, heat: Heating | None, texts: Texts, now_ms: int) -> str:  # noqa: ARG001
    row = known.heating
    took = in_minutes(texts, row.minutes or 0.0) if row else ""
    logged = row.logged if row else None
    if logged is None:
        return texts(N_("It was hot after {minutes}."), minutes=took)
    share = texts.number(100 * logged.efficiency, 0)
    return texts(
        N_("It was hot after {minutes}: {share} % of the heater’s power arrived."),
        minutes=took, share=share,
    )  # fmt: skip


def ring_when_hot(known: BenchPotHeat, view: HeatingView, texts: Texts) -> tuple[str, int] | None:
    """Name and moment of a timer for when the pot is likely hot; ``None`` when it is not on."""
    row, heater = known.heating, known.heater
    if view.phase != "on" or view.heat is None or row is None or row.started_ms is None:
        return None
    if heater is None or heater.power_w is None:
        return None
    time = heating_time(
        view.heat.energy_kj, heater.power_w, heater=heater.kind, learned=known.told.learned
    )
    minutes = time.likely_min if time.likely_min is not None else time.low_min
    name = texts(N_("{pot} is hot"), pot=known.called)
    return name, row.started_ms + round(minutes * _MS_PER_MIN)
