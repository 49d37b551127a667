"""Leftovers kept from pots, worked into other pots and poured: every gram is followed."""

from __future__ import annotations

import math
from collections import defaultdict
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.test_pouring import bench_with_plan, seen, weigh_all
from wickbench.app import leftover_keeping as keeping
from wickbench.app import plans, pouring
from wickbench.app.pour_session import load_session
from wickbench.app.shelf import load_shelf
from wickbench.domain.bench import next_place, target_g
from wickbench.domain.bench_outcome import outcome
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.app.workspace import Workspace

Masses = dict[int, float]


def poured(workspace: Workspace, plan: int) -> int:
    """Pour all pots of a plan as shown; the key of its first pot."""
    session = pouring.start_pour(workspace, plan)
    for pot in range(len(session.pots)):
        session = weigh_all(workspace, session, pot)
        session = pouring.finish_pot(workspace, session, pot)
    return session.pots[0].id


def another_plan(workspace: Workspace, plan: int) -> int:
    return plans.same_again(workspace, plan)


def with_leftover(workspace: Workspace, plan: int, leftover: int, mass_g: float | None) -> None:
    version = plans.load_plan(workspace, plan).lines[0].version_id
    with workspace.step("set") as connection:
        row = {"plan_id": plan, "leftover_id": leftover, "version_id": version, "mass_g": mass_g}
        records.insert(connection, "plan_leftover", row)


def everything(workspace: Workspace) -> Masses:
    """Grams of each material wherever it is: on the shelf, in vessels and pots, in leftovers."""
    shelf = load_shelf(workspace)
    held: defaultdict[int, float] = defaultdict(float)
    for item, on_hand in shelf.on_hand.items():
        if item in shelf.materials and shelf.materials[item].kind in {"wax", "fragrance"}:
            held[item] += on_hand or 0.0
    with workspace.read() as connection:
        done = [
            int(str(row["id"]))
            for row in records.fetch_all(connection, "pour_pot")
            if row["state"] == "done"
        ]
        for pot in done:
            for (_, item), mass_g in keeping.pot_masses(connection, pot).items():
                held[item] += mass_g
    for row in shelf.leftovers.values():
        # what was kept left its pot, what was used is in another one
        whole = sum(part.mass_g for part in row.parts)
        for part in row.parts:
            held[part.item_id] -= part.mass_g * (whole - row.left_g) / whole
    return dict(held)


def test_what_is_left_by_the_weights_is_proposed_and_kept_oil_by_oil(workshop: Workspace) -> None:
    pot = poured(workshop, bench_with_plan(workshop))
    offer = keeping.offer_of_pot(workshop, pot)
    session = load_session(workshop, plans.load_plans(workshop)[0].id)
    assert session is not None
    assert offer.mass_g == pytest.approx(outcome(session.state.pots[0]).leftover_g, abs=1e-6)
    key = keeping.keep_from_pot(workshop, pot, offer.mass_g)
    row = load_shelf(workshop).leftovers[key]
    assert row.mass_g == pytest.approx(offer.mass_g, abs=1e-9)
    assert row.lot_code == session.pots[0].lot_code
    weighed = {step.material: step.weighed_g for step in session.state.pots[0].steps}
    wax, oil = row.parts
    # the leftover is mixed as the pot was: oil by wax as weighed, to half a milligram of oil
    assert oil.mass_g == pytest.approx(
        wax.mass_g * (weighed[oil.item_id] or 0) / (weighed[wax.item_id] or 1), abs=1e-3
    )
    assert keeping.offer_of_pot(workshop, pot).mass_g == pytest.approx(0.0, abs=1e-6)


def test_keeping_is_undone_and_done_again(workshop: Workspace) -> None:
    pot = poured(workshop, bench_with_plan(workshop))
    key = keeping.keep_from_pot(workshop, pot, 25.0, "Rest")
    row = load_shelf(workshop).leftovers[key]
    workshop.undo()
    assert key not in load_shelf(workshop).leftovers
    workshop.redo()
    assert load_shelf(workshop).leftovers[key] == row


def test_more_than_went_in_and_nothing_are_refused(workshop: Workspace) -> None:
    pot = poured(workshop, bench_with_plan(workshop))
    with pytest.raises(OutOfRange, match=r"leftovers\.more-than-pot"):
        keeping.keep_from_pot(workshop, pot, 1e5)
    for senseless in (0.0, -1.0, math.nan):
        with pytest.raises(OutOfRange, match=r"leftovers\.no-mass"):
            keeping.keep_from_pot(workshop, pot, senseless)


def test_a_pot_without_weights_has_nothing_to_keep(workshop: Workspace) -> None:
    session = pouring.start_pour(workshop, bench_with_plan(workshop))
    with pytest.raises(DomainError, match=r"leftovers\.pot-not-weighed"):
        keeping.keep_from_pot(workshop, session.pots[0].id, 20.0)


def test_a_leftover_is_worked_into_a_pot_poured_and_traced(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    key = keeping.keep_from_pot(workshop, poured(workshop, plan), 400.0, "Rest")
    again = another_plan(workshop, plan)
    plain = seen(workshop, again).result
    with_leftover(workshop, again, key, 300.0)
    view = seen(workshop, again)
    assert view.pots[0].weigh[0].weigh_g == 300.0
    assert view.pots[0].weigh[0].role == "leftover"
    # by wax 8 of 108: 300 g bring 277.8 g of wax and 22.2 g of oil
    wax, oil = plain.pots[0].weigh
    assert plain.needs[wax.material] - view.result.needs[wax.material] == pytest.approx(
        277.8, abs=1.1
    )
    assert plain.needs[oil.material] - view.result.needs[oil.material] == pytest.approx(
        22.2, abs=0.2
    )
    before = everything(workshop)
    poured(workshop, again)
    assert everything(workshop) == pytest.approx(before, abs=2e-3)
    row = load_shelf(workshop).leftovers[key]
    assert row.left_g == pytest.approx(100.0)
    (use,) = row.uses
    assert (use.kind, use.plan_id, use.mass_g) == ("pour", again, 300.0)
    assert use.name
    # the plan that used it does not miss what it took itself
    assert not [one for one in seen(workshop, again).findings if one.key.startswith("leftovers.")]


def test_the_session_with_a_leftover_is_resumed_as_it_was_left(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    key = keeping.keep_from_pot(workshop, poured(workshop, plan), 400.0)
    again = another_plan(workshop, plan)
    with_leftover(workshop, again, key, None)
    session = pouring.start_pour(workshop, again)
    place = next_place(session.state)
    assert place is not None
    assert session.state.at(place).leftover is not None
    assert target_g(session.state, place) == 400.0
    session = pouring.weigh(workshop, session, place, 350.0)
    assert load_session(workshop, again) == session
    session = pouring.unweigh(workshop, session, place)
    assert next_place(session.state) == place


def test_too_much_oil_with_a_leftover_takes_more_wax(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    key = keeping.keep_from_pot(workshop, poured(workshop, plan), 400.0)
    again = another_plan(workshop, plan)
    with_leftover(workshop, again, key, None)
    session = pouring.start_pour(workshop, again)
    for _ in range(3):
        place = next_place(session.state)
        assert place is not None
        more = 15.0 if place.step == 2 else 0.0
        session = pouring.weigh(workshop, session, place, target_g(session.state, place) + more)
    session = pouring.add_wax(workshop, session, 0)
    added = session.state.pots[0].steps[3]
    assert added.top_up
    session = pouring.weigh(workshop, session, next_place(session.state) or place, added.planned_g)
    now = outcome(session.state.pots[0])
    assert now.load.of_wax == pytest.approx(8.0, abs=0.05)


@given(kept=st.floats(30, 1500), used=st.floats(5, 1400), really=st.floats(0.5, 1.2))
@settings(max_examples=5, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_no_material_is_lost_or_made_up(
    new_workshop: Callable[[], Workspace], kept: float, used: float, really: float
) -> None:
    workshop = new_workshop()
    plan = bench_with_plan(workshop)
    key = keeping.keep_from_pot(workshop, poured(workshop, plan), kept)
    again = another_plan(workshop, plan)
    with_leftover(workshop, again, key, min(used, kept))
    before = everything(workshop)
    session = pouring.start_pour(workshop, again)
    place = next_place(session.state)
    assert place is not None
    there = session.state.at(place)
    mass_g = round(min(there.planned_g * really, kept), 1)
    if there.leftover is not None:
        session = pouring.weigh(workshop, session, place, mass_g)
    for pot in range(len(session.pots)):
        session = pouring.finish_pot(workshop, weigh_all(workshop, session, pot), pot)
    assert everything(workshop) == pytest.approx(before, abs=5e-3)
    left = load_shelf(workshop).leftovers[key].left_g
    assert left == pytest.approx(round(kept, 3) - mass_g, abs=2e-3)


def test_scooped_and_other_are_kept_by_the_recipe(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    version = plans.load_plan(workshop, plan).lines[0].version_id
    assert version is not None
    key = keeping.keep_other(workshop, version, 216.0)
    row = load_shelf(workshop).leftovers[key]
    # 216 g at 8 % of wax: 200 g of wax, 16 g of oil
    assert [part.mass_g for part in row.parts] == pytest.approx([200.0, 16.0], abs=1e-3)
    assert row.name.startswith("Garden")


def test_a_used_leftover_is_put_away_and_an_unused_one_deleted(workshop: Workspace) -> None:
    plan = bench_with_plan(workshop)
    pot = poured(workshop, plan)
    used = keeping.keep_from_pot(workshop, pot, 100.0)
    other = keeping.keep_from_pot(workshop, pot, 50.0)
    again = another_plan(workshop, plan)
    with_leftover(workshop, again, used, None)
    poured(workshop, again)
    assert keeping.remove(workshop, other)
    assert not keeping.remove(workshop, used)
    assert load_shelf(workshop).leftovers[used].archived
    keeping.bring_back(workshop, used)
    assert not load_shelf(workshop).leftovers[used].archived
