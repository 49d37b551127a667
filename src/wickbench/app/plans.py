"""Pour plans as they are stored: which candles, how many, in which pots. Each act is one step."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wickbench.app.texts_marker import N_
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.workspace import Workspace
    from wickbench.storage.workshop_file import Connection

USUAL_EXTRA_G = 30.0
_POURED = "poured"


@dataclass(frozen=True, slots=True, kw_only=True)
class LineRow:
    """One line of a plan as stored, maybe incomplete.

    A candle brings its recipe, vessel and wicks along; without one they are named here.
    """

    id: int
    position: int = 0
    candle_id: int | None = None
    version_id: int | None = None
    vessel_id: int | None = None
    wick_id: int | None = None
    wick_count: int | None = None
    count: int | None = None
    fill_to: str = "line"
    net_g: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedLeftover:
    """A leftover that goes into the pots of a recipe version; no mass for as much as fits."""

    id: int
    leftover_id: int
    version_id: int | None = None
    mass_g: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRow:
    """A plan as stored: its head, lines, leftovers and chosen pots (none: all of the equipment)."""

    id: int
    name: str = ""
    pour_on: str | None = None
    note: str | None = None
    extra_g: float = 0.0
    extra_percent: float = 0.0
    heat_source_id: int | None = None
    needed_on: str | None = None
    spare_days: int | None = None
    state: str = "planned"
    room_c: float | None = None
    vessel_seconds: int | None = None
    lines: tuple[LineRow, ...] = ()
    pot_ids: tuple[int, ...] = ()
    leftovers: tuple[PlannedLeftover, ...] = ()


def load_plan(workspace: Workspace, plan: int) -> PlanRow:
    """Read one plan.

    Raises:
        Gone: there is no such plan.
    """
    with workspace.read() as connection:
        return _plan(connection, records.fetch(connection, "plan", plan))


def load_plans(workspace: Workspace) -> tuple[PlanRow, ...]:
    """All plans: what is still to be poured by date, then what was poured, the latest first."""
    with workspace.read() as connection:
        rows = [_plan(connection, row) for row in records.fetch_all(connection, "plan")]
    to_pour = sorted(
        (row for row in rows if row.state != _POURED), key=lambda row: (row.pour_on or "9", row.id)
    )
    poured = [row for row in rows if row.state == _POURED]
    return (*to_pour, *sorted(poured, key=lambda row: (row.pour_on or "", row.id), reverse=True))


def _plan(connection: Connection, row: Mapping[str, Any]) -> PlanRow:
    lines = records.fetch_all(connection, "plan_line", {"plan_id": row["id"]}, ("position", "id"))
    pots = records.fetch_all(connection, "plan_pot", {"plan_id": row["id"]}, ("position", "id"))
    leftovers = records.fetch_all(connection, "plan_leftover", {"plan_id": row["id"]})
    known: dict[str, Any] = {name: row[name] for name in PlanRow.__slots__ if name in row}
    return PlanRow(
        **known,
        lines=tuple(_line(line) for line in lines),
        pot_ids=tuple(int(str(pot["pot_id"])) for pot in pots),
        leftovers=tuple(_planned(one) for one in leftovers),
    )


def _planned(row: Mapping[str, Any]) -> PlannedLeftover:
    return PlannedLeftover(**{name: row[name] for name in PlannedLeftover.__slots__})


def _line(row: Mapping[str, Any]) -> LineRow:
    return LineRow(**{name: row[name] for name in LineRow.__slots__ if name in row})


def new_plan(workspace: Workspace, *, origin: object = None) -> int:
    """A new plan for today with the usual extra; returns its key."""
    today = workspace.clock.today().isoformat()
    with workspace.step(N_("Begin a plan"), origin=origin) as connection:
        heat = records.fetch_all(connection, "heat_source")
        values = {
            "pour_on": today,
            "extra_g": USUAL_EXTRA_G,
            "heat_source_id": heat[0]["id"] if heat else None,
        }
        return records.insert(connection, "plan", values)


def same_again(workspace: Workspace, plan: int, *, origin: object = None) -> int:
    """The same pour for another day, with last time's note beside it; returns its key."""
    with workspace.step(N_("Plan the same again"), origin=origin) as connection:
        old = records.fetch(connection, "plan", plan)
        fresh = {
            "pour_on": workspace.clock.today().isoformat(),
            "needed_on": None,
            "state": "planned",
            "recorded": None,
            "note": _last_note(workspace, connection, old),
        }
        copy = records.insert(
            connection, "plan", {k: v for k, v in old.items() if k != "id"} | fresh
        )
        for table in ("plan_line", "plan_pot"):
            for part in records.fetch_all(connection, table, {"plan_id": plan}, ("id",)):
                values = {name: value for name, value in part.items() if name != "id"}
                records.insert(connection, table, values | {"plan_id": copy})
    return copy


def _last_note(workspace: Workspace, connection: Connection, plan: Mapping[str, Any]) -> str | None:
    """The plan's own note, and what was noted with its pots at the bench."""
    pots = records.fetch_all(connection, "pour_pot", {"plan_id": plan["id"]}, ("number", "id"))
    said = [f"{pot['lot_code'] or pot['number']}: {pot['note']}" for pot in pots if pot["note"]]
    own = [str(plan["note"])] if plan["note"] else []
    last = [workspace.texts(N_("Last time, {notes}"), notes="; ".join(said))] if said else []
    return "\n".join((*own, *last)) or None


def remove_plan(workspace: Workspace, plan: int, *, origin: object = None) -> None:
    """Delete a plan; print runs made from it stay, and know no plan any more.

    Raises:
        InUse: pots were weighed for it; what was poured stays.
    """
    with workspace.step(N_("Remove a plan"), origin=origin) as connection:
        for run in records.fetch_all(connection, "print_run", {"plan_id": plan}):
            records.update(connection, "print_run", int(str(run["id"])), {"plan_id": None})
        records.delete(connection, "plan", plan)


def add_line(
    workspace: Workspace,
    plan: int,
    values: Mapping[str, object] | None = None,
    *,
    origin: object = None,
) -> int:
    """A new line at the end; returns its key. A candle brings its own way of filling."""
    with workspace.step(N_("Add a line"), origin=origin) as connection:
        known = records.fetch_all(connection, "plan_line", {"plan_id": plan}, ("position",))
        after = max((int(str(line["position"])) for line in known), default=-1) + 1
        given = {"plan_id": plan, "position": after, "fill_to": "line", **(values or {})}
        if given.get("candle_id") is not None:
            given |= _of_candle(connection, given["candle_id"])
        return records.insert(connection, "plan_line", given | dict(values or {}))


def choose_candle(
    workspace: Workspace, line: int, candle: int | None, *, origin: object = None
) -> None:
    """Make a line pour this candle; its fill comes along."""
    with workspace.step(N_("Choose a candle"), origin=origin) as connection:
        values: dict[str, object] = {"candle_id": candle}
        if candle is not None:
            values |= {"version_id": None, "vessel_id": None, "wick_id": None, "wick_count": None}
            values |= _of_candle(connection, candle)
        records.update(connection, "plan_line", line, values)


def _of_candle(connection: Connection, candle: object) -> dict[str, object]:
    row = records.fetch(connection, "candle", int(str(candle)))
    net = row["declared_net_g"] if row["fill_to"] == "net" else None
    return {"fill_to": row["fill_to"] or "line", "net_g": net}


def remove_lines(workspace: Workspace, lines: tuple[int, ...], *, origin: object = None) -> None:
    """Delete lines of a plan as one act."""
    with workspace.step(N_("Remove lines"), origin=origin) as connection:
        for line in lines:
            records.delete(connection, "plan_line", line)


def choose_pots(
    workspace: Workspace, plan: int, pots: tuple[int, ...], *, origin: object = None
) -> None:
    """Which pots the plan may use; none means all of the equipment."""
    with workspace.step(N_("Choose the pots"), origin=origin) as connection:
        for old in records.fetch_all(connection, "plan_pot", {"plan_id": plan}):
            records.delete(connection, "plan_pot", int(str(old["id"])))
        for position, pot in enumerate(pots):
            values = {"plan_id": plan, "pot_id": pot, "position": position}
            records.insert(connection, "plan_pot", values)


def set_day(
    workspace: Workspace, plan: int, name: str, day: dt.date, *, origin: object = None
) -> None:
    """Give a plan the day that its calendar proposes: ``pour_on`` or ``needed_on``."""
    with workspace.step(N_("Choose the day"), origin=origin) as connection:
        records.update(connection, "plan", plan, {name: day.isoformat()})


def pour_day(plan: PlanRow, today: dt.date) -> dt.date:
    """The day of the pour; today while none is given."""
    return dt.date.fromisoformat(plan.pour_on) if plan.pour_on else today
