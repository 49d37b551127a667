"""Booked facts: not changed by a step, undone on their day while nothing of them is on paper."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.storage import records
from wickbench.storage.refusals import Booked, CannotUndo

if TYPE_CHECKING:
    from storage.conftest import FakeClock
    from wickbench.storage.workshop_file import WorkshopFile


def new_item(workshop: WorkshopFile, name: str = "Larch wax") -> int:
    with workshop.step("New material") as connection:
        key = records.insert(connection, "item", {"kind": "wax", "name": name})
        records.insert(connection, "wax", {"item_id": key, "liquid_g_per_ml": 0.86})
    return key


def count(workshop: WorkshopFile, table: str) -> int:
    with workshop.read() as connection:
        return len(records.fetch_all(connection, table))


def book(workshop: WorkshopFile) -> int:
    item = new_item(workshop)
    with workshop.step("Buy") as connection:
        values = {
            "item_id": item,
            "quantity": 5_000_000,
            "paid_money": 42.5,
            "bought_on": "2026-03-14",
        }
        return records.insert(connection, "material_lot", values)


@pytest.mark.parametrize("act", ["update", "delete"])
def test_a_booked_fact_is_not_changed_by_a_step(workshop: WorkshopFile, act: str) -> None:
    lot = book(workshop)

    def change() -> None:
        with workshop.step("Cheat") as connection:
            if act == "update":
                records.update(connection, "material_lot", lot, {"paid_money": 1.0})
            else:
                records.delete(connection, "material_lot", lot)

    with pytest.raises(Booked) as caught:
        change()
    assert caught.value.key == "storage.booked"
    assert caught.value.data["table"] == "material_lot"
    with workshop.read() as connection:
        assert records.fetch(connection, "material_lot", lot)["paid_money"] == 42.5


def test_a_refusal_is_told_where_it_happens_and_the_rest_of_the_step_stays(
    workshop: WorkshopFile,
) -> None:
    lot = book(workshop)
    with workshop.step("Careful") as connection:
        records.insert(connection, "place", {"name": "before"})
        with pytest.raises(Booked):
            records.update(connection, "material_lot", lot, {"paid_money": 1.0})
        with pytest.raises(OutOfRange):
            records.insert(connection, "pot", {"brim_ml": -1.0})
        records.insert(connection, "place", {"name": "after"})
    assert count(workshop, "place") == 2


def test_the_note_of_a_booked_fact_may_change(workshop: WorkshopFile) -> None:
    lot = book(workshop)
    with workshop.step("Note") as connection:
        records.update(connection, "material_lot", lot, {"note": "box was open"})
    workshop.undo()
    workshop.undo()
    assert count(workshop, "material_lot") == 0


def test_a_booked_fact_is_undone_on_its_day_and_not_on_the_next(
    workshop: WorkshopFile, clock: FakeClock
) -> None:
    book(workshop)
    workshop.undo()
    workshop.redo()
    assert workshop.may_undo
    clock.day += dt.timedelta(days=1)
    assert not workshop.may_undo
    with pytest.raises(CannotUndo) as caught:
        workshop.undo()
    assert caught.value.key == "storage.booked-earlier"
    assert count(workshop, "material_lot") == 1


def test_what_was_taken_back_yesterday_is_not_booked_again_today(
    workshop: WorkshopFile, clock: FakeClock
) -> None:
    book(workshop)
    workshop.undo()
    clock.day += dt.timedelta(days=1)
    assert not workshop.may_redo
    with pytest.raises(CannotUndo):
        workshop.redo()


def test_a_booked_fact_on_paper_is_not_undone(workshop: WorkshopFile) -> None:
    book(workshop)
    workshop.seal("stock_move")
    assert workshop.may_undo
    workshop.seal("material_lot")
    with pytest.raises(CannotUndo) as caught:
        workshop.undo()
    assert caught.value.key == "storage.on-paper"


def test_a_booking_that_merged_into_a_step_binds_the_step(
    workshop: WorkshopFile, clock: FakeClock
) -> None:
    item = new_item(workshop)
    with workshop.step("Note", merge="m") as connection:
        records.update(connection, "item", item, {"note": "cheap"})
    with workshop.step("Note", merge="m") as connection:
        records.insert(connection, "stock_move", {"item_id": item, "quantity": 5})
    clock.day += dt.timedelta(days=1)
    assert workshop.undo_label == "Note"
    assert not workshop.may_undo


def test_nothing_merges_into_a_step_that_is_on_paper(workshop: WorkshopFile) -> None:
    item = new_item(workshop)
    with workshop.step("Count", merge="m") as connection:
        records.insert(connection, "stock_move", {"item_id": item, "quantity": 5})
    workshop.seal("stock_move")
    with workshop.step("Note", merge="m") as connection:
        records.update(connection, "item", item, {"note": "later"})
    assert workshop.undo().label == "Note"
    assert not workshop.may_undo
    assert count(workshop, "stock_move") == 1


def test_sealing_leaves_what_is_not_booked_free(workshop: WorkshopFile) -> None:
    new_item(workshop)
    workshop.seal("item", "wax")
    workshop.undo()
    assert count(workshop, "item") == 0


def pour(workshop: WorkshopFile) -> tuple[int, int]:
    item = new_item(workshop)
    with workshop.step("Start pouring") as connection:
        plan = records.insert(connection, "plan", {"name": "Monday"})
        pot = records.insert(connection, "pour_pot", {"plan_id": plan})
        values = {"pour_pot_id": pot, "item_id": item, "planned_g": 1000.0}
        return pot, records.insert(connection, "pour_amount", values)


def test_an_open_pot_may_change_a_done_one_not(workshop: WorkshopFile) -> None:
    pot, amount = pour(workshop)
    with workshop.step("Weigh") as connection:
        records.update(connection, "pour_amount", amount, {"weighed_g": 1001.0})
    with workshop.step("Finish pot") as connection:
        records.update(connection, "pour_pot", pot, {"state": "done", "lot_code": "A1"})
    for table, key, values in (
        ("pour_amount", amount, {"weighed_g": 990.0}),
        ("pour_pot", pot, {"lot_code": "A2"}),
        ("pour_pot", pot, {"state": "open"}),
    ):
        with pytest.raises(Booked), workshop.step("Cheat") as connection:
            records.update(connection, table, key, values)
    with pytest.raises(Booked), workshop.step("Cheat") as connection:
        records.delete(connection, "pour_pot", pot)
    with workshop.step("Note") as connection:
        records.update(connection, "pour_pot", pot, {"ended_ms": 5, "note": "spilled a little"})


def test_finishing_a_pot_is_undone_on_its_day_only_weighing_on_any(
    workshop: WorkshopFile, clock: FakeClock
) -> None:
    pot, amount = pour(workshop)
    with workshop.step("Weigh") as connection:
        records.update(connection, "pour_amount", amount, {"weighed_g": 1001.0})
    clock.day += dt.timedelta(days=1)
    workshop.undo()
    with workshop.step("Finish pot") as connection:
        records.update(connection, "pour_pot", pot, {"state": "done"})
    workshop.undo()
    workshop.redo()
    clock.day += dt.timedelta(days=1)
    with pytest.raises(DomainError):
        workshop.undo()
