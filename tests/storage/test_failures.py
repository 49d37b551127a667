"""What happens when a statement, a COMMIT or the drive fails: a sentence, and nothing is lost."""

from __future__ import annotations

import os
import shutil
import sqlite3
from contextlib import contextmanager, suppress
from typing import TYPE_CHECKING, Any

import pytest
from sqlalchemy import event
from sqlalchemy.exc import OperationalError

from wickbench.app.sentences.files import SENTENCES
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.storage import records, state, workshop_file
from wickbench.storage.refusals import StorageError, while_opening, while_writing

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from storage.conftest import Dump, FakeClock
    from wickbench.storage.workshop_file import WorkshopFile


class Planted(Exception):
    """A fault put there by the test."""


@contextmanager
def fault_at(workshop: WorkshopFile, number: int) -> Iterator[list[int]]:
    """Make the statement with that number fail; counts from 1."""
    seen = [0]

    def before(*_arguments: Any) -> None:  # noqa: ANN401 - the event's own signature
        seen[0] += 1
        if seen[0] == number:
            raise Planted

    event.listen(workshop._engine, "before_cursor_execute", before)
    try:
        yield seen
    finally:
        event.remove(workshop._engine, "before_cursor_execute", before)


def one_step(workshop: WorkshopFile) -> None:
    with workshop.step("New recipe") as connection:
        recipe = records.insert(connection, "recipe", {"name": "Winter"})
        version = records.insert(connection, "recipe_version", {"recipe_id": recipe})
        records.insert(connection, "recipe_part", {"version_id": version, "parts": 1.0})
        records.update(connection, "recipe", recipe, {"name": "Winter evening"})
        state.next_number(connection, "lot")


def test_a_fault_at_any_statement_leaves_the_file_as_it_was(
    workshop: WorkshopFile, dump: Callable[[WorkshopFile], Dump]
) -> None:
    one_step(workshop)
    before = dump(workshop)
    with fault_at(workshop, 10_000) as seen:
        one_step(workshop)
        statements = seen[0]
    workshop.undo()
    assert statements >= 6
    for number in range(1, statements + 1):
        with fault_at(workshop, number), pytest.raises(Planted):
            one_step(workshop)
        assert dump(workshop) == before, f"fault at statement {number}"
        assert workshop.undo_label == "New recipe"
    one_step(workshop)
    with workshop.unjournalled() as connection:
        assert state.next_number(connection, "lot") == 4
    workshop.undo()
    assert dump(workshop) == before


def break_commit(workshop: WorkshopFile) -> None:
    """A part without a whole, noticed only when the step is kept."""
    with workshop.step("Orphan") as connection:
        connection.exec_driver_sql("PRAGMA defer_foreign_keys=ON")
        records.insert(connection, "recipe_part", {"version_id": 4711})


def test_a_commit_that_fails_is_rolled_back_and_the_next_step_works(
    workshop: WorkshopFile, dump: Callable[[WorkshopFile], Dump]
) -> None:
    one_step(workshop)
    before = dump(workshop)
    with pytest.raises(Exception, match="FOREIGN KEY"):
        break_commit(workshop)
    assert not workshop._raw.in_transaction
    assert dump(workshop) == before
    assert workshop.undo_label == "New recipe"
    one_step(workshop)
    workshop.undo()
    assert dump(workshop) == before


@contextmanager
def full_drive(workshop: WorkshopFile) -> Iterator[None]:
    """SQLite's own limit on pages gives the very error of a full drive (SQLITE_FULL).

    https://www.sqlite.org/pragma.html#pragma_max_page_count
    """
    pages = workshop._raw.execute("PRAGMA page_count").fetchone()[0]
    usual = workshop._raw.execute("PRAGMA max_page_count").fetchone()[0]
    workshop._raw.execute(f"PRAGMA max_page_count={pages}")
    try:
        yield
    finally:
        workshop._raw.execute(f"PRAGMA max_page_count={usual}")


def much(workshop: WorkshopFile) -> None:
    with workshop.step("Much") as connection:
        for _ in range(400):
            records.insert(connection, "place", {"name": "x" * 500})


def test_a_full_drive_has_a_sentence_and_loses_nothing(
    workshop: WorkshopFile, dump: Callable[[WorkshopFile], Dump]
) -> None:
    one_step(workshop)
    before = dump(workshop)
    with full_drive(workshop):
        with pytest.raises(StorageError) as caught:
            much(workshop)
        assert caught.value.key == "storage.no-room"
        assert dump(workshop) == before
    much(workshop)
    workshop.undo()
    assert dump(workshop) == before


def test_a_full_drive_while_undoing_keeps_the_step(
    workshop: WorkshopFile, dump: Callable[[WorkshopFile], Dump]
) -> None:
    much(workshop)
    with workshop.step("Empty") as connection:
        for row in records.fetch_all(connection, "place"):
            records.delete(connection, "place", int(str(row["id"])))
    workshop._raw.execute("VACUUM")
    before = dump(workshop)
    with full_drive(workshop), pytest.raises(StorageError):
        workshop.undo()
    assert dump(workshop) == before
    assert workshop.undo_label == "Empty"
    workshop.undo()
    with workshop.read() as connection:
        assert len(records.fetch_all(connection, "place")) == 400


def fail_as_on_a_full_drive(workshop: WorkshopFile) -> None:
    workshop._raw.rollback()  # what SQLite does by itself on a full drive
    raise Planted


def test_a_step_that_swallows_the_error_is_not_kept_by_halves(
    workshop: WorkshopFile, dump: Callable[[WorkshopFile], Dump]
) -> None:
    before = dump(workshop)

    def swallow() -> None:
        with workshop.step("Careless") as connection:
            with suppress(Planted):
                fail_as_on_a_full_drive(workshop)
            records.insert(connection, "place", {"name": "second half"})

    with pytest.raises(RuntimeError, match="outside a transaction"):
        swallow()
    assert dump(workshop) == before


def test_a_swallowed_error_at_the_end_of_a_step_is_told(workshop: WorkshopFile) -> None:
    def swallow() -> None:
        with workshop.step("Careless") as connection, suppress(Planted):
            records.insert(connection, "place", {"name": "gone"})
            fail_as_on_a_full_drive(workshop)

    with pytest.raises(StorageError):
        swallow()
    with workshop.read() as connection:
        assert records.fetch_all(connection, "place") == []


def interrupt_after(workshop: WorkshopFile, looks: int) -> None:
    """Let SQLite stop itself at the given look at the handler, one every ten operations.

    https://www.sqlite.org/c3ref/progress_handler.html
    """
    left = iter(range(looks))
    workshop._raw.set_progress_handler(lambda: next(left, None) is None, 10)


def test_undo_interrupted_anywhere_leaves_the_file_as_it_was(
    workshop: WorkshopFile, dump: Callable[[WorkshopFile], Dump]
) -> None:
    with workshop.step("Much") as connection:
        for number in range(20):
            records.insert(connection, "place", {"name": f"{number}"})
    before = dump(workshop)
    interrupted = 0
    while not workshop.may_redo:
        interrupt_after(workshop, 1 + interrupted * 5)
        with suppress(sqlite3.OperationalError, OperationalError):
            workshop.undo()
        workshop._raw.set_progress_handler(None, 0)
        if not workshop.may_redo:
            interrupted += 1
            assert dump(workshop) == before
    assert interrupted > 20
    workshop.redo()
    assert dump(workshop) == before


@pytest.mark.skipif(os.name == "nt", reason="an open file stays where it is there")
@pytest.mark.parametrize("act", ["renamed", "deleted", "replaced"])
def test_a_file_taken_away_while_open_takes_no_more_changes(
    workshop: WorkshopFile, clock: FakeClock, tmp_path: Path, act: str
) -> None:
    one_step(workshop)
    aside = workshop.path.rename(tmp_path / "aside.wickbench")
    if act == "deleted":
        aside.unlink()
    if act == "replaced":
        shutil.copy(aside, workshop.path)
    for change in (lambda: one_step(workshop), workshop.undo):
        with pytest.raises(StorageError) as caught:
            change()
        assert caught.value.key == "storage.moved"
    with pytest.raises(StorageError), workshop.unjournalled():
        pass
    workshop.save_copy(tmp_path / "rescued.wickbench")
    rescued = workshop_file.open_workshop(tmp_path / "rescued.wickbench", clock=clock)
    with rescued.read() as connection:
        assert len(records.fetch_all(connection, "recipe")) == 1
    rescued.close()
    if act == "renamed":
        aside.rename(workshop.path)
        one_step(workshop)


@pytest.mark.parametrize(
    ("code", "key"),
    [
        (sqlite3.SQLITE_FULL, "storage.no-room"),
        (sqlite3.SQLITE_IOERR_WRITE, "storage.disk-error"),
        (sqlite3.SQLITE_IOERR_FSYNC, "storage.disk-error"),
        (sqlite3.SQLITE_READONLY_DIRECTORY, "storage.read-only"),
        (sqlite3.SQLITE_CORRUPT, "storage.damaged"),
    ],
)
def test_result_codes_have_sentences(code: int, key: str) -> None:
    error = sqlite3.OperationalError("said by SQLite")
    error.sqlite_errorcode = code
    said = while_writing(error)
    assert isinstance(said, DomainError)
    assert said.key == key
    assert key in SENTENCES
    assert while_opening(error, "x").key in SENTENCES


def test_a_name_whose_bytes_are_no_text_any_more_says_damaged(workshop: WorkshopFile) -> None:
    with workshop.step("Raw") as connection:
        connection.exec_driver_sql("INSERT INTO place(name) VALUES(CAST(x'ab61' AS TEXT))")
    with pytest.raises(StorageError) as caught, workshop.read() as connection:
        records.fetch_all(connection, "place")
    assert caught.value.key == "storage.damaged"


@pytest.mark.parametrize(
    ("value", "key"),
    [
        ("a\0b", "storage.nul"),
        ("half \ud83d", "storage.nul"),
        (float("nan"), "storage.not-finite"),
        (float("inf"), "storage.not-finite"),
        (2**63, "storage.too-large"),
    ],
)
def test_values_that_would_be_cut_short_do_not_pass_the_door(
    workshop: WorkshopFile, value: object, key: str
) -> None:
    with pytest.raises(OutOfRange) as caught, workshop.step("Raw") as connection:
        connection.exec_driver_sql("INSERT INTO place(name) VALUES(?)", (value,))
    assert caught.value.key == key
    assert key in SENTENCES
