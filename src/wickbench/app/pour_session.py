"""The pouring session of a plan as it lies in the file: read back at any time, as it was left."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wickbench.app.leftovers_poured import (
    leftover_ids,
    leftover_lots,
    leftover_steps,
    leftover_words,
)
from wickbench.domain.bench import BenchPot, BenchState, BenchStep, Place, with_top_ups_marked
from wickbench.domain.plan_values import PotFill
from wickbench.domain.recipes import Load, Role
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.workspace import Workspace
    from wickbench.storage.workshop_file import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class FillRow:
    """Vessels that a pot fills, as stored."""

    id: int
    line_id: int | None
    vessel: str
    count: int
    each_g: float
    poured: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionPot:
    """One pot of the session.

    Attributes:
        id: key of its row.
        title, pot, lot_code, note, state: as stored; state is open, done or dropped.
        amount_ids: keys of the rows of its steps, in their order; those of leftovers first.
        leftovers: how many of the first steps weigh leftovers.
        lots_in_it: their names, each with the lot that it came from.
        when, scales: words of each planned step, as on the weigh sheet.
        pour_c: when to pour.
        pour_window_c: where pouring is usual for such a wax; ``None`` where that is not known.
        held: what is held back for a top-up or second pour, in words; empty for nothing.
        fills: what it fills.
    """

    id: int
    title: str
    pot: str
    lot_code: str
    note: str
    state: str
    amount_ids: tuple[int, ...]
    when: tuple[str, ...]
    scales: tuple[str, ...]
    pour_c: float | None
    pour_window_c: tuple[float, float] | None
    fills: tuple[FillRow, ...]
    held: str = ""
    leftovers: int = 0
    lots_in_it: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Session:
    """A session: its stored pots, and the same as the domain's state."""

    plan: int
    pots: tuple[SessionPot, ...]
    state: BenchState

    def row_at(self, place: Place) -> tuple[str, int]:
        """Table and key of the row of a step."""
        pot = self.pots[place.pot]
        table = "pour_leftover" if place.step < pot.leftovers else "pour_amount"
        return table, pot.amount_ids[place.step]

    @property
    def done(self) -> bool:
        """Whether every pot is poured out."""
        return all(pot.state != "open" for pot in self.pots)

    @property
    def open_pot(self) -> int | None:
        """The first pot that is not poured out; ``None`` when all are."""
        return next((at for at, pot in enumerate(self.pots) if pot.state == "open"), None)


def load_session(workspace: Workspace, plan: int) -> Session | None:
    """The session of a plan; ``None`` when it was not begun."""
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "pour_pot", {"plan_id": plan}, ("number", "id"))
        names = {row["id"]: str(row["name"]) for row in records.fetch_all(connection, "item")}
        pots = [_pot(connection, row, names) for row in rows if row["state"] != "dropped"]
    if not pots:
        return None
    return Session(
        plan=plan,
        pots=tuple(pot for pot, _ in pots),
        state=BenchState(tuple(state for _, state in pots)),
    )


def _pot(
    connection: Connection, row: Mapping[str, Any], names: Mapping[object, str]
) -> tuple[SessionPot, BenchPot]:
    plan: dict[str, Any] = row["plan"] or {}
    where = {"pour_pot_id": row["id"]}
    amounts = records.fetch_all(connection, "pour_amount", where, ("position", "id"))
    fills = [
        _fill(one, names) for one in records.fetch_all(connection, "pour_fill", where, ("id",))
    ]
    old = leftover_steps(connection, row["id"], plan, names)
    steps = (*old, *with_top_ups_marked(_step(one, plan, names) for one in amounts))
    ids = (*leftover_ids(connection, row["id"]), *(int(str(one["id"])) for one in amounts))
    pot = SessionPot(
        id=row["id"],
        title=plan.get("title") or "",
        pot=plan.get("pot") or "",
        lot_code=row["lot_code"] or "",
        note=row["note"] or "",
        state=row["state"],
        amount_ids=ids,
        when=(*leftover_words(plan, "when", len(old)), *_words(plan, "when", amounts)),
        scales=(*leftover_words(plan, "scale", len(old)), *_words(plan, "scales", amounts)),
        pour_c=plan.get("pour_c"),
        pour_window_c=_pair(plan.get("pour_window_c")),
        fills=tuple(fills),
        held=plan.get("held") or "",
        leftovers=len(old),
        lots_in_it=leftover_lots(plan),
    )
    return pot, _state(pot, plan, steps)


def _pair(stored: list[float] | None) -> tuple[float, float] | None:
    return (stored[0], stored[1]) if stored else None


def _state(pot: SessionPot, plan: Mapping[str, Any], steps: tuple[BenchStep, ...]) -> BenchPot:
    limit = plan.get("max_load")
    certificates = plan.get("certificates") or {}
    return BenchPot(
        name=pot.lot_code or pot.title,
        steps=steps,
        fills=tuple(PotFill(one.line_id, one.vessel, one.count, one.each_g) for one in pot.fills),
        holds_g=plan.get("holds_g"),
        max_load=Load(limit[0], limit[1]) if limit else None,
        certificate_percent={int(item): percent for item, percent in certificates.items()},
    )


def _fill(row: Mapping[str, Any], names: Mapping[object, str]) -> FillRow:
    return FillRow(
        id=row["id"],
        line_id=row["plan_line_id"],
        vessel=names.get(row["vessel_id"], ""),
        count=row["count"],
        each_g=row["each_g"] or 0.0,
        poured=row["poured"],
    )


def _step(
    row: Mapping[str, Any], plan: Mapping[str, Any], names: Mapping[object, str]
) -> BenchStep:
    return BenchStep(
        material=row["item_id"],
        name=names.get(row["item_id"], ""),
        role=Role(row["role"]),
        planned_g=row["planned_g"] or 0.0,
        step_g=_steps_of(plan).get((row["item_id"], row["role"]), 0.1),
        weighed_g=row["weighed_g"],
    )


def _steps_of(plan: Mapping[str, Any]) -> dict[tuple[int, str], float]:
    """What the scale of each planned step reads to, by material and role."""
    known = zip(plan.get("keys") or (), plan.get("steps_g") or (), strict=False)
    return {(int(key[0]), str(key[1])): float(step) for key, step in known}


def _words(plan: Mapping[str, Any], name: str, amounts: list[dict[str, Any]]) -> tuple[str, ...]:
    """Words of each row, by material and role; a top-up has those of its first."""
    known = zip(plan.get("keys") or (), plan.get(name) or (), strict=False)
    said = {(int(key[0]), str(key[1])): str(words) for key, words in known}
    return tuple(said.get((row["item_id"], row["role"]), "") for row in amounts)
