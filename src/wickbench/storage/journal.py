"""Undo and redo: a journal kept by temporary triggers on the one connection.

Every change of a journalled table logs its inverse under the step's number. Undo replays the
inverses, which log themselves under the same number and are the redo. The history ends with the
window.
"""

from __future__ import annotations

import datetime as dt
import sqlite3
import threading
from collections.abc import Hashable
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy.exc import DBAPIError

from wickbench.storage.journal_triggers import TEMP_TABLES, guard_triggers, log_triggers
from wickbench.storage.refusals import CannotUndo, StorageError, while_writing
from wickbench.storage.tables import METADATA

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy import Connection

    from wickbench.storage.clock import Clock

LIMIT = 1000
MERGE_WITHIN_S = 1.5


@dataclass(frozen=True, slots=True)
class Undone:
    """What undo or redo did: the step's label and the tables it touched."""

    label: str
    tables: frozenset[str]


@dataclass(slots=True)
class _Step:
    number: int
    label: str
    merge: Hashable | None
    at_s: float
    tables: frozenset[str]
    booked_on: dt.date | None
    on_paper: bool = False

    def take_in(self, later: _Step) -> None:
        """Make a rapid edit of the same thing part of this step."""
        self.at_s = later.at_s
        self.tables |= later.tables
        self.booked_on = self.booked_on or later.booked_on


class Journal:
    """The doors to an open file, and the history of what went through them.

    Attributes:
        last_tables: journalled tables that the last step touched; empty when it changed nothing.
    """

    def __init__(self, connection: Connection, raw: sqlite3.Connection, clock: Clock) -> None:
        self._connection = connection
        self._raw = raw
        self._clock = clock
        self._thread = threading.get_ident()
        self._door = ""
        self._done: list[_Step] = []
        self._undone: list[_Step] = []
        self._number = 0
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
        self.must_be_shut(f"the step {label!r}")
        self.last_tables = frozenset()
        joined = self._joins(merge)
        number = joined.number if joined else self._number + 1
        with self._transaction("step"):
            self._mark(number)
            before = self._log_end()
            yield self._connection
            self._must_be_whole()
            step = self._made(_Step(number, label, merge, 0.0, frozenset(), None), before)
            if step.tables:
                self._forget_log([*self._undone, *self._overflow(joined)])
            self._mark(None)
        if step.tables:
            self._remember(step, joined)

    @contextmanager
    def unjournalled(self) -> Iterator[Connection]:
        """For settings, counters, drafts and print records; inside a step it is part of the step.

        A change of a journalled table is refused here: undo would not know of it.
        """
        self._must_be_own_thread()
        if self._door == "step":
            yield self._connection
            return
        self.must_be_shut("a change outside the history")
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
        finally:
            self._raw.execute("PRAGMA query_only=OFF")

    @contextmanager
    def _transaction(self, door: str) -> Iterator[None]:
        self._door = door
        try:
            with self._connection.begin():
                yield
        except (DBAPIError, sqlite3.Error) as error:
            said = while_writing(error)
            if said is error:
                raise
            raise said from error
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

    def _made(self, step: _Step, before: int) -> _Step:
        """The step with the tables it touched since, and whether it booked anything."""
        rows = self._raw.execute(
            "SELECT tbl, max(booked) FROM journal_log WHERE seq > ? GROUP BY tbl", (before,)
        ).fetchall()
        step.at_s = self._clock.monotonic()
        step.tables = frozenset(name for name, _booked in rows)
        step.booked_on = self._clock.today() if any(booked for _name, booked in rows) else None
        return step

    def _forget_log(self, steps: list[_Step]) -> None:
        numbers = [(step.number,) for step in steps]
        self._raw.executemany("DELETE FROM journal_log WHERE step = ?", numbers)

    # The history -----------------------------------------------------------------------------

    def _joins(self, merge: Hashable | None) -> _Step | None:
        top = self._done[-1] if self._done else None
        if merge is None or top is None or self._undone or top.merge != merge:
            return None
        late = self._clock.monotonic() - top.at_s > MERGE_WITHIN_S
        return None if late or self._why_not(top) else top

    def _overflow(self, joined: _Step | None) -> list[_Step]:
        return self._done[:1] if joined is None and len(self._done) >= LIMIT else []

    def _remember(self, step: _Step, joined: _Step | None) -> None:
        self.last_tables = step.tables
        self._undone.clear()
        if joined:
            joined.take_in(step)
            return
        del self._done[: len(self._overflow(None))]
        self._done.append(step)
        self._number = step.number

    def _why_not(self, step: _Step) -> str:
        """The key of the sentence that says why a step must stay; empty when it need not."""
        if step.booked_on is None:
            return ""
        if step.on_paper:
            return "storage.on-paper"
        return "" if step.booked_on == self._clock.today() else "storage.booked-earlier"

    def may_undo(self) -> bool:
        """Whether the last step can be taken back now."""
        return bool(self._done) and not self._why_not(self._done[-1])

    def may_redo(self) -> bool:
        """Whether the step taken back last can be done again now."""
        return bool(self._undone) and not self._why_not(self._undone[-1])

    def undo_label(self) -> str | None:
        """The act on top of the history."""
        return self._done[-1].label if self._done else None

    def redo_label(self) -> str | None:
        """The act that was taken back last."""
        return self._undone[-1].label if self._undone else None

    def seal(self, tables: frozenset[str]) -> None:
        """Steps that booked something in these tables stay: it was printed or exported."""
        for step in (*self._done, *self._undone):
            if step.booked_on is not None and step.tables & tables:
                step.on_paper = True

    def undo(self) -> Undone:
        """Take the last step back.

        Raises:
            CannotUndo: nothing to take back, or it must stay.
            StorageError: it could not be kept; the file is as it was before.
        """
        return self._replay(self._done, self._undone)

    def redo(self) -> Undone:
        """Do the step again that was taken back last. Raises as ``undo``."""
        return self._replay(self._undone, self._done)

    def _replay(self, source: list[_Step], target: list[_Step]) -> Undone:
        self.must_be_shut("undo")
        if not source:
            raise CannotUndo("storage.nothing-to-undo")
        step = source[-1]
        if reason := self._why_not(step):
            raise CannotUndo(reason)
        with self._transaction("undo"):
            self._run_inverses(step.number)
        target.append(source.pop())
        step.merge = None
        return Undone(step.label, step.tables)

    def _run_inverses(self, number: int) -> None:
        # Rows come back in any order: foreign keys, RESTRICT too, are held at COMMIT instead.
        self._raw.execute("PRAGMA defer_foreign_keys=ON")
        wanted = "SELECT sql FROM journal_log WHERE step = ? ORDER BY seq DESC"
        inverses = self._raw.execute(wanted, (number,)).fetchall()
        self._raw.execute("DELETE FROM journal_log WHERE step = ?", (number,))
        self._mark(number, replaying=True)
        for (statement,) in inverses:
            self._raw.execute(statement)
        self._mark(None)
