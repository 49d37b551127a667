"""Undo and redo: a journal kept by temporary triggers on the one connection.

Every change of a journalled table logs its inverse under the step's number. Undo replays the
inverses, which log themselves under the same number and are the redo. The history ends with the
window.
"""

from __future__ import annotations

import sqlite3
import threading
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.storage.history import History, Step
from wickbench.storage.journal_triggers import TEMP_TABLES, guard_triggers, log_triggers
from wickbench.storage.refusals import StorageError, while_writing
from wickbench.storage.tables import METADATA

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterator

    from sqlalchemy import Connection

    from wickbench.storage.clock import Clock


@dataclass(frozen=True, slots=True)
class Undone:
    """What undo or redo did: the step's label and the tables it touched."""

    label: str
    tables: frozenset[str]


class Journal:
    """The doors to an open file, and the history of what went through them.

    Attributes:
        history: what can be undone and redone.
        last_tables: journalled tables that the last step touched; empty when it changed nothing.
    """

    def __init__(
        self,
        connection: Connection,
        raw: sqlite3.Connection,
        clock: Clock,
        is_in_place: Callable[[], bool],
    ) -> None:
        self._connection = connection
        self._raw = raw
        self._clock = clock
        self._is_in_place = is_in_place
        self.history = History(clock)
        self._thread = threading.get_ident()
        self._door = ""
        self.last_tables: frozenset[str] = frozenset()
        self._install()

    def _install(self) -> None:
        journalled = [table for table in METADATA.sorted_tables if table.info["journalled"]]
        statements = list(TEMP_TABLES)
        for table in journalled:
            statements += [*log_triggers(table), *guard_triggers(table)]
        with self._transaction("install"):
            for statement in statements:
                self._raw.execute(statement)

    # Doors -----------------------------------------------------------------------------------

    @contextmanager
    def step(self, label: str, *, merge: Hashable | None = None) -> Iterator[Connection]:
        """One transaction, all or nothing, that undo takes back as a whole.

        Args:
            label: names the act.
            merge: steps with the same key within 1.5 s become one.

        Raises:
            StorageError: it could not be kept; the file is as it was before.
            RuntimeError: inside another door, or from another thread.
        """
        self._must_be_ready(f"the step {label!r}")
        self.last_tables = frozenset()
        joined = self.history.joins(merge)
        number = joined.number if joined else self.history.next_number()
        with self._transaction("step"):
            self._mark(number)
            before = self._log_end()
            yield self._connection
            self._must_be_whole()
            step = self._made(Step(number, label, merge), before)
            if step.tables:
                self._forget_log(self.history.forgotten_by(joined))
            self._mark(None)
        if step.tables:
            self.last_tables = step.tables
            self.history.remember(step, joined)

    @contextmanager
    def unjournalled(self) -> Iterator[Connection]:
        """For settings, counters, drafts and print records; inside a step it is part of the step.

        A change of a journalled table is refused here: undo would not know of it.
        """
        self._must_be_own_thread()
        if self._door == "step":
            yield self._connection
            return
        self._must_be_ready("a change outside the history")
        with self._transaction("unjournalled"):
            yield self._connection
            self._must_be_whole()

    @contextmanager
    def read(self) -> Iterator[Connection]:
        """For reading; inside an open door it sees what happened there so far."""
        self._must_be_own_thread()
        if self._door:
            yield self._connection
            return
        with self._transaction("read"), self._query_only():
            yield self._connection

    @contextmanager
    def _query_only(self) -> Iterator[None]:
        self._raw.execute("PRAGMA query_only=ON")
        try:
            yield
        except StorageError as error:
            if error.key == "storage.read-only":
                raise RuntimeError("a change through the door for reading") from error
            raise
        finally:
            self._raw.execute("PRAGMA query_only=OFF")

    @contextmanager
    def _transaction(self, door: str) -> Iterator[None]:
        self._door = door
        try:
            with self._connection.begin():
                yield
        except sqlite3.Error as error:
            raise while_writing(error) from error
        finally:
            # A COMMIT that failed leaves SQLite inside a transaction that SQLAlchemy thinks ended.
            if self._raw.in_transaction:
                self._raw.rollback()
            self._door = ""

    def _must_be_own_thread(self) -> None:
        if threading.get_ident() != self._thread:
            raise RuntimeError("the workshop file is used from the thread that opened it only")

    def must_be_shut(self, what: str) -> None:
        """Raise ``RuntimeError`` when a door is open, or from another thread."""
        self._must_be_own_thread()
        if self._door:
            raise RuntimeError(f"{what} inside an open {self._door}")

    def _must_be_ready(self, what: str) -> None:
        """Once the lock is taken SQLite no longer looks whether the file is where it was."""
        self.must_be_shut(what)
        if not self._is_in_place():
            raise StorageError("storage.moved")

    def _must_be_whole(self) -> None:
        """SQLite rolls back by itself when the disk is full, and a body may swallow the error."""
        if not self._raw.in_transaction:
            raise StorageError("storage.no-room")

    # The log ---------------------------------------------------------------------------------

    def _mark(self, number: int | None, *, replaying: bool = False) -> None:
        self._raw.execute(
            "UPDATE journal_state SET step = ?, replaying = ?", (number, int(replaying))
        )

    def _log_end(self) -> int:
        row = self._raw.execute("SELECT ifnull(max(seq), 0) FROM journal_log").fetchone()
        return int(row[0])

    def _made(self, step: Step, before: int) -> Step:
        """The step with the tables it touched since, and whether it booked anything."""
        rows = self._raw.execute(
            "SELECT tbl, max(booked) FROM journal_log WHERE seq > ? GROUP BY tbl", (before,)
        ).fetchall()
        step.at_s = self._clock.monotonic()
        step.tables = frozenset(name for name, _booked in rows)
        step.booked_on = self._clock.today() if any(booked for _name, booked in rows) else None
        return step

    def _forget_log(self, numbers: list[int]) -> None:
        steps = [(number,) for number in numbers]
        self._raw.executemany("DELETE FROM journal_log WHERE step = ?", steps)

    # Undo and redo ---------------------------------------------------------------------------

    def undo(self) -> Undone:
        """Take the last step back.

        Raises:
            CannotUndo: nothing to take back, or it must stay.
            StorageError: it could not be kept; the file is as it was before.
        """
        self._must_be_ready("undo")
        return self._replay(self.history.to_undo())

    def redo(self) -> Undone:
        """Do the step again that was taken back last. Raises as ``undo``."""
        self._must_be_ready("redo")
        return self._replay(self.history.to_redo())

    def _replay(self, step: Step) -> Undone:
        with self._transaction("replay"):
            # Rows come back in any order: foreign keys, RESTRICT too, are held at COMMIT instead.
            self._raw.execute("PRAGMA defer_foreign_keys=ON")
            wanted = "SELECT sql FROM journal_log WHERE step = ? ORDER BY seq DESC"
            inverses = self._raw.execute(wanted, (step.number,)).fetchall()
            self._forget_log([step.number])
            self._mark(step.number, replaying=True)
            for (statement,) in inverses:
                self._raw.execute(statement)
            self._mark(None)
        self.history.moved(step)
        return Undone(step.label, step.tables)
