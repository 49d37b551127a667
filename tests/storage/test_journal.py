"""Steps, undo, redo, merging, and what undo leaves alone."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import text
from sqlalchemy.exc import IntegrityError
from sqlalchemy.exc import TimeoutError as NoConnectionLeft

from wickbench.domain.errors import OutOfRange
from wickbench.storage import history, records, state
from wickbench.storage.refusals import CannotUndo

if TYPE_CHECKING:
    from collections.abc import Callable

    from storage.conftest import Dump, FakeClock
    from wickbench.storage.workshop_file import WorkshopFile


def new_item(workshop: WorkshopFile, name: str = "Larch wax") -> int:
    with workshop.step("New material") as connection:
        key = records.insert(connection, "item", {"kind": "wax", "name": name})
        records.insert(connection, "wax", {"item_id": key, "liquid_g_per_ml": 0.86})
    return key


def rename(workshop: WorkshopFile, key: int, name: str, *, merge: object = None) -> None:
    with workshop.step("Rename", merge=merge) as connection:
        records.update(connection, "item", key, {"name": name})


def name_of(workshop: WorkshopFile, key: int) -> object:
    with workshop.read() as connection:
        return records.fetch(connection, "item", key)["name"]


def count(workshop: WorkshopFile, table: str) -> int:
    with workshop.read() as connection:
        return len(records.fetch_all(connection, table))


def test_a_step_is_undone_and_redone_under_its_label(workshop: WorkshopFile) -> None:
    key = new_item(workshop)
    assert (workshop.may_undo, workshop.may_redo) == (True, False)
    assert workshop.undo_label == "New material"
    assert workshop.last_tables == {"item", "wax"}
    undone = workshop.undo()
    assert (undone.label, undone.tables) == ("New material", {"item", "wax"})
    assert count(workshop, "item") == count(workshop, "wax") == 0
    assert (workshop.undo_label, workshop.redo_label) == (None, "New material")
    assert workshop.redo().tables == {"item", "wax"}
    assert name_of(workshop, key) == "Larch wax"


def test_nothing_to_undo_has_a_sentence(workshop: WorkshopFile) -> None:
    for act in (workshop.undo, workshop.redo):
        with pytest.raises(CannotUndo) as caught:
            act()
        assert caught.value.key == "storage.nothing-to-undo"


def test_a_step_that_fails_leaves_no_trace(
    workshop: WorkshopFile, dump: Callable[[WorkshopFile], Dump]
) -> None:
    key = new_item(workshop)
    before = dump(workshop)

    def fail_half_way() -> None:
        with workshop.step("Half") as connection:
            records.update(connection, "item", key, {"name": "half"})
            raise OutOfRange("quantity.not-finite")

    with pytest.raises(OutOfRange):
        fail_half_way()
    assert dump(workshop) == before
    assert workshop.undo_label == "New material"
    rename(workshop, key, "whole")
    assert name_of(workshop, key) == "whole"


def test_a_step_that_changes_nothing_is_none_and_keeps_redo(workshop: WorkshopFile) -> None:
    key = new_item(workshop)
    rename(workshop, key, "A")
    workshop.undo()
    rename(workshop, key, "Larch wax")
    assert workshop.last_tables == frozenset()
    assert workshop.undo_label == "New material"
    workshop.redo()
    assert name_of(workshop, key) == "A"


def test_a_new_step_ends_what_could_be_redone(workshop: WorkshopFile) -> None:
    key = new_item(workshop)
    rename(workshop, key, "A")
    workshop.undo()
    rename(workshop, key, "B")
    assert not workshop.may_redo
    workshop.undo()
    assert name_of(workshop, key) == "Larch wax"


def test_rapid_edits_of_one_field_are_one_step(workshop: WorkshopFile, clock: FakeClock) -> None:
    key = new_item(workshop)
    for name in ("B", "Be", "Bee"):
        rename(workshop, key, name, merge=("item", key, "name"))
        clock.seconds += 1.5
    clock.seconds += 0.1
    rename(workshop, key, "Beeswax", merge=("item", key, "name"))
    workshop.undo()
    assert name_of(workshop, key) == "Bee"
    workshop.undo()
    assert name_of(workshop, key) == "Larch wax"
    workshop.redo()
    assert name_of(workshop, key) == "Bee"
    workshop.redo()
    assert name_of(workshop, key) == "Beeswax"


def test_edits_of_another_field_or_after_undo_do_not_merge(workshop: WorkshopFile) -> None:
    key = new_item(workshop)
    rename(workshop, key, "A", merge="name")
    with workshop.step("Note", merge="note") as connection:
        records.update(connection, "item", key, {"note": "N"})
    workshop.undo()
    assert name_of(workshop, key) == "A"
    workshop.redo()
    workshop.undo()
    rename(workshop, key, "B", merge="name")
    workshop.undo()
    assert name_of(workshop, key) == "A"


def test_after_redo_an_edit_does_not_merge_with_what_was_redone(workshop: WorkshopFile) -> None:
    key = new_item(workshop)
    rename(workshop, key, "A", merge="name")
    workshop.undo()
    workshop.redo()
    rename(workshop, key, "B", merge="name")
    workshop.undo()
    assert name_of(workshop, key) == "A"


def test_rows_of_one_statement_that_refer_to_each_other_are_undone(
    workshop: WorkshopFile, dump: Callable[[WorkshopFile], Dump]
) -> None:
    item = new_item(workshop)
    before = dump(workshop)
    with workshop.step("Correct") as connection:
        connection.execute(
            text(
                "INSERT INTO stock_move(id, item_id, quantity, corrects_id) "
                "VALUES(101, :item, 5, 102), (102, :item, -5, NULL)"
            ),
            {"item": item},
        )
    after = dump(workshop)
    workshop.undo()
    assert dump(workshop) == before
    workshop.redo()
    assert dump(workshop) == after


def test_ids_are_never_given_twice(workshop: WorkshopFile) -> None:
    first = new_item(workshop)
    workshop.undo()
    assert new_item(workshop) > first


def test_a_whole_goes_and_comes_back_with_its_parts(
    workshop: WorkshopFile, dump: Callable[[WorkshopFile], Dump]
) -> None:
    with workshop.step("New recipe") as connection:
        recipe = records.insert(connection, "recipe", {"name": "Winter"})
        version = records.insert(connection, "recipe_version", {"recipe_id": recipe})
        for position in range(3):
            records.insert(
                connection,
                "recipe_part",
                {"version_id": version, "position": position, "parts": 1.5},
            )
    before = dump(workshop)
    with workshop.step("Remove recipe") as connection:
        records.delete(connection, "recipe", recipe)
    assert count(workshop, "recipe_part") == 0
    assert workshop.last_tables == {"recipe", "recipe_version", "recipe_part"}
    workshop.undo()
    assert dump(workshop) == before


def test_replacing_a_row_is_undone(
    workshop: WorkshopFile, dump: Callable[[WorkshopFile], Dump]
) -> None:
    key = new_item(workshop)
    before = dump(workshop)
    with workshop.step("Replace") as connection:
        connection.execute(text("INSERT OR REPLACE INTO place(id, name) VALUES(1, 'a'), (1, 'b')"))
        connection.execute(
            text("INSERT OR REPLACE INTO wax(item_id, pour_c) VALUES(:key, 60.5)"), {"key": key}
        )
    workshop.undo()
    assert dump(workshop) == before


@pytest.mark.parametrize(
    "value", [0.1, 1 / 3, 1e-300, -0.0, 123456789.123456789, 5e-324, 1.7976931348623157e308]
)
def test_floats_come_back_to_the_last_bit(workshop: WorkshopFile, value: float) -> None:
    key = new_item(workshop)
    with workshop.step("Pour") as connection:
        records.update(connection, "wax", key, {"pour_c": value})
    with workshop.step("Pour") as connection:
        records.update(connection, "wax", key, {"pour_c": 1.0})
    workshop.undo()
    with workshop.read() as connection:
        assert records.fetch(connection, "wax", key)["pour_c"] == value


@pytest.mark.parametrize(
    "value", ['it\'s "quoted"', "line\r\nline\ttab", "ö😀\u202e\u200f\u05d0", "", "';--"]
)
def test_texts_come_back_to_the_last_sign(workshop: WorkshopFile, value: str) -> None:
    key = new_item(workshop, value)
    rename(workshop, key, "other")
    workshop.undo()
    assert name_of(workshop, key) == value


def test_the_history_keeps_the_last_thousand(
    workshop: WorkshopFile, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert history.LIMIT == 1000
    monkeypatch.setattr(history, "LIMIT", 5)
    key = new_item(workshop, "0")
    for number in range(1, 9):
        rename(workshop, key, str(number))
    for _ in range(5):
        workshop.undo()
    assert name_of(workshop, key) == "3"
    assert not workshop.may_undo
    with workshop.read() as connection:
        kept = connection.exec_driver_sql("SELECT count(DISTINCT step) FROM journal_log").scalar()
    assert kept == 5


def test_settings_counters_and_drafts_survive_undo(workshop: WorkshopFile) -> None:
    with workshop.step("New place") as connection:
        records.insert(connection, "place", {"name": "Shelf"})
        assert state.next_number(connection, "lot") == 1
        state.set_draft(connection, "item", 1, "name", "2 lb 4")
        state.set_setting(connection, "currency", "EUR")
        state.record_print(connection, at_ms=1, kind="labels", title="x", snapshot={})
    workshop.undo()
    with workshop.read() as connection:
        assert state.drafts(connection, "item", 1) == {"name": "2 lb 4"}
        assert state.setting(connection, "currency") == "EUR"
        assert len(state.prints(connection)) == 1
    with workshop.unjournalled() as connection:
        assert state.next_number(connection, "lot") == 2
    assert workshop.redo_label == "New place"


def test_outside_the_history_a_journalled_table_is_refused(workshop: WorkshopFile) -> None:
    with pytest.raises(IntegrityError, match=r"journal_log\.step"), workshop.unjournalled() as c:
        records.insert(c, "place", {"name": "Shelf"})
    assert count(workshop, "place") == 0


def test_reading_cannot_write(workshop: WorkshopFile) -> None:
    with pytest.raises(RuntimeError, match="for reading"), workshop.read() as connection:
        state.set_setting(connection, "currency", "EUR")
    with workshop.unjournalled() as connection:
        state.set_setting(connection, "currency", "USD")
        assert state.settings(connection) == {"currency": "USD"}


def test_reading_and_settings_join_an_open_step(workshop: WorkshopFile) -> None:
    with workshop.step("New place") as connection:
        records.insert(connection, "place", {"name": "Shelf"})
        assert count(workshop, "place") == 1
        with workshop.unjournalled() as same:
            assert same is connection
        records.insert(connection, "place", {"name": "Van"})
    assert count(workshop, "place") == 2
    workshop.undo()
    assert count(workshop, "place") == 0


def test_a_step_inside_another_door_is_our_mistake(workshop: WorkshopFile) -> None:
    for door in (workshop.step("outer"), workshop.read(), workshop.unjournalled()):
        with door:
            with pytest.raises(RuntimeError, match="inside an open"), workshop.step("inner"):
                pass
            with pytest.raises(RuntimeError, match="inside an open"):
                workshop.undo()
    with workshop.read(), pytest.raises(RuntimeError), workshop.unjournalled():
        pass


def test_a_second_connection_is_refused_at_once(workshop: WorkshopFile) -> None:
    with pytest.raises(NoConnectionLeft):
        workshop._engine.connect()


def test_another_thread_is_refused(workshop: WorkshopFile) -> None:
    said: list[str] = []

    def work() -> None:
        for door in (workshop.read(), workshop.step("x"), workshop.unjournalled()):
            with pytest.raises(RuntimeError) as caught, door:
                pass
            said.append(str(caught.value))

    thread = threading.Thread(target=work)
    thread.start()
    thread.join()
    assert len(said) == 3
    assert all("thread that opened it" in each for each in said)
