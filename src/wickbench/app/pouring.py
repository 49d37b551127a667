"""A pouring session as it is stored: begun from a plan, weighed step by step, resumed, finished."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wickbench.app import stock_use
from wickbench.app.held_back import held_texts
from wickbench.app.leftovers_poured import leftovers_kept
from wickbench.app.mixes import main_wax, wax_defaults
from wickbench.app.plan_inputs import items_of, resolve
from wickbench.app.plan_view import PlanView, view_plan
from wickbench.app.plans import load_plan, pour_day
from wickbench.app.pour_codes import taken_codes
from wickbench.app.pour_session import Session, load_session
from wickbench.app.shelf import load_shelf
from wickbench.app.texts_marker import N_
from wickbench.domain import bench, bench_outcome
from wickbench.domain.errors import DomainError
from wickbench.domain.recipe_checks import strictest_load
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.plan_pots import PotCard
    from wickbench.app.plans import PlanRow
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace
    from wickbench.domain.bench import Place
    from wickbench.domain.recipe_checks import Facts
    from wickbench.storage.workshop_file import Connection

SNAPSHOT = 1


def start_pour(workspace: Workspace, plan: int, *, origin: object = None) -> Session:
    """Begin pouring a plan, or go on with what was begun.

    What is planned for each pot is kept with it, so that a later change of recipe or shelf does
    not change what stands on the bench. The recipe versions are frozen from here on.

    Raises:
        DomainError: ``pour.nothing`` for a plan without pots.
    """
    known = load_session(workspace, plan)
    if known is not None:
        return known
    row, shelf = load_plan(workspace, plan), load_shelf(workspace)
    view = view_plan(
        row,
        shelf,
        workspace.settings,
        workspace.texts,
        today=workspace.clock.today(),
        taken_codes=taken_codes(workspace),
    )
    if not view.pots:
        raise DomainError("pour.nothing")
    pots = {str(one["name"]): one["id"] for one in shelf.equipment.pots}
    day = pour_day(row, workspace.clock.today()).isoformat()
    with workspace.step(N_("Start pouring"), origin=origin) as connection:
        for card in view.pots:
            head = {
                "plan_id": plan,
                "number": card.index + 1,
                "version_id": card.plan.recipe_key,
                "pot_id": pots.get(card.pot),
                "lot_code": card.lot_code,
                "poured_on": day,
                "started_ms": workspace.clock.now_ms(),
                "plan": _snapshot(card, view.prepared.inputs.facts, shelf)
                | {"pour_window_c": _window(card, shelf), "held": _held(card, workspace)},
            }
            _store_pot(connection, records.insert(connection, "pour_pot", head), card, view)
            frozen = int(str(card.plan.recipe_key))
            records.update(connection, "recipe_version", frozen, {"frozen": 1})
        records.update(connection, "plan", plan, {"state": "pouring"})
    begun = load_session(workspace, plan)
    if begun is None:
        raise DomainError("pour.nothing")
    return begun


def _held(card: PotCard, workspace: Workspace) -> str:
    """What is held back for a top-up or a second pour, in words; empty for nothing."""
    return " ".join(held_texts(card.plan, workspace.texts))


def _window(card: PotCard, shelf: Shelf) -> list[float] | None:
    """Where pouring is usual for the class of the pot's main wax, in °C."""
    version = shelf.versions.get(int(str(card.plan.recipe_key)))
    wax = main_wax(version, shelf) if version is not None else None
    return list(wax_defaults(wax).pour_c) if wax is not None else None


def _snapshot(card: PotCard, facts: Facts, shelf: Shelf) -> dict[str, Any]:
    pot = card.plan
    mix = pot.made or pot.recipe
    strictest = strictest_load(mix, facts)
    density = pot.total_g / pot.volume_ml if pot.volume_ml else None
    new = [one for one in card.weigh if one.role != "leftover"]
    certificates = {
        str(oil): limit
        for oil in mix.fragrance
        if (limit := facts.oil(oil).ifra_percent) is not None and limit < 100  # noqa: PLR2004 - 100 sets none
    }
    return {
        "version": SNAPSHOT,
        "title": card.title,
        "pot": card.pot,
        "pour_c": pot.recipe.pour_c,
        "holds_g": pot.pot.safe_ml * density if pot.pot and density else None,
        "max_load": [strictest[1].percent, strictest[1].basis] if strictest else None,
        "certificates": certificates,
        "keys": [[one.material, one.role.value] for one in pot.weigh],
        "when": [one.when for one in new],
        "scales": [one.scale for one in new],
        "steps_g": [one.step_g for one in pot.weigh],
        "leftovers": leftovers_kept(card, shelf),
    }


def _store_pot(connection: Connection, key: int, card: PotCard, view: PlanView) -> None:
    for position, old in enumerate(card.plan.leftovers):
        row = {
            "pour_pot_id": key,
            "position": position,
            "leftover_id": old.brings.key,
            "planned_g": old.weigh_g,
        }
        records.insert(connection, "pour_leftover", row)
    for position, line in enumerate(card.plan.weigh):
        amount = {
            "pour_pot_id": key,
            "position": position,
            "item_id": line.material,
            "role": line.role.value,
            "planned_g": line.weigh_g,
        }
        records.insert(connection, "pour_amount", amount)
    resolved = {one.row.id: one for one in view.prepared.resolved}
    for fill in card.plan.fills:
        line_key = int(str(fill.line_key))
        one = resolved[line_key]
        row = {
            "pour_pot_id": key,
            "plan_line_id": line_key,
            "candle_id": one.candle.id if one.candle else None,
            "vessel_id": one.vessel.id if one.vessel else None,
            "count": fill.count,
            "each_g": fill.each_g,
        }
        records.insert(connection, "pour_fill", row)


def weigh(
    workspace: Workspace,
    session: Session,
    place: Place,
    actual_g: float,
    *,
    origin: object = None,
) -> Session:
    """Note what was really weighed; the rest follows so that the load holds.

    Raises:
        OutOfRange: a weight that makes no sense; nothing is stored then.
    """
    bench.weigh(session.state, place, actual_g)
    table, row = session.row_at(place)
    values = {"weighed_g": actual_g, "at_ms": workspace.clock.now_ms()}
    with workspace.step(N_("Weigh at the bench"), origin=origin) as connection:
        records.update(connection, table, row, values)
    return _again(workspace, session)


def unweigh(
    workspace: Workspace, session: Session, place: Place, *, origin: object = None
) -> Session:
    """Take a reading back."""
    table, row = session.row_at(place)
    with workspace.step(N_("Take a weight back"), origin=origin) as connection:
        records.update(connection, table, row, {"weighed_g": None, "at_ms": None})
    return _again(workspace, session)


def add_wax(workspace: Workspace, session: Session, pot: int, *, origin: object = None) -> Session:
    """Take the offer of more wax after too much oil: its steps are added at the end of the pot.

    Raises:
        OutOfRange: nothing was offered.
    """
    old = list(session.state.pots[pot].new)
    wanted = bench_outcome.accept_wax(session.state, pot).pots[pot].new
    one = session.pots[pot]
    ids = iter(one.amount_ids[len(one.amount_ids) - len(old) :])
    with workspace.step(N_("Add wax to the pot"), origin=origin) as connection:
        for position, step in enumerate(wanted):
            if old and step == old[0]:
                old.pop(0)
                records.update(connection, "pour_amount", next(ids), {"position": position})
                continue
            row = {
                "pour_pot_id": one.id,
                "position": position,
                "item_id": step.material,
                "role": step.role.value,
                "planned_g": step.planned_g,
            }
            records.insert(connection, "pour_amount", row)
    return _again(workspace, session)


def set_note(
    workspace: Workspace, session: Session, pot: int, note: str, *, origin: object = None
) -> None:
    """Keep a note with a pot."""
    with workspace.step(
        N_("Write a note"), merge=("pour_note", session.pots[pot].id), origin=origin
    ) as connection:
        records.update(connection, "pour_pot", session.pots[pot].id, {"note": note.strip() or None})


def finish_pot(
    workspace: Workspace,
    session: Session,
    pot: int,
    poured: Mapping[int, int] | None = None,
    *,
    origin: object = None,
) -> Session:
    """A pot is poured out: what was used leaves the shelf, and the pot becomes a fact.

    Args:
        workspace: the open workshop.
        session: as it stands.
        pot: which pot.
        poured: vessels really filled by row of ``pour_fill``; as planned where not given.
        origin: who began it.

    Raises:
        DomainError: ``pour.not-weighed`` while something is still to be weighed.
    """
    state = session.state.pots[pot]
    if any(step.weighed_g is None for step in state.steps):
        raise DomainError("pour.not-weighed")
    one = session.pots[pot]
    shelf, plan = load_shelf(workspace), load_plan(workspace, session.plan)
    with workspace.step(N_("Finish a pot"), origin=origin) as connection:
        used: dict[int, float] = {}
        for step in state.new:
            used[step.material] = used.get(step.material, 0.0) + (step.weighed_g or 0.0)
        for fill in one.fills:
            count = (poured or {}).get(fill.id, fill.count)
            records.update(connection, "pour_fill", fill.id, {"poured": count})
            for item, pieces in _items(fill.line_id, plan, shelf).items():
                used[item] = used.get(item, 0.0) + pieces * count
        stock_use.take(workspace, connection, used, one.id)
        ended = {"state": "done", "ended_ms": workspace.clock.now_ms()}
        records.update(connection, "pour_pot", one.id, ended)
        if all(other.state == "done" for other in session.pots if other.id != one.id):
            records.update(connection, "plan", session.plan, {"state": "poured"})
    return _again(workspace, session)


def _items(line: int | None, plan: PlanRow, shelf: Shelf) -> dict[int, int]:
    found = [resolve(row, shelf) for row in plan.lines if row.id == line]
    return items_of(found[0]) if found else {}


def _again(workspace: Workspace, session: Session) -> Session:
    fresh = load_session(workspace, session.plan)
    if fresh is None:
        raise DomainError("pour.nothing")
    return fresh
