"""The one connection of an open workshop file.

The pool holds one connection and refuses a second at once, so nobody can work beside a step.
"""

from __future__ import annotations

import math
import os
import sqlite3
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.pool import QueuePool

from wickbench.domain.errors import OutOfRange
from wickbench.storage.refusals import while_writing

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from sqlalchemy.engine import ExceptionContext

# Pragmas that do not touch the file; the others wait until it is known to be ours.
_BEFORE_OPENING = (
    "foreign_keys=ON",
    "recursive_triggers=ON",
    "trusted_schema=OFF",
    "cell_size_check=ON",
    "locking_mode=EXCLUSIVE",
)
_ONCE_OURS = ("journal_mode=TRUNCATE", "synchronous=FULL")


def address(path: Path, mode: str) -> str:
    """The file as SQLite's URI; ``mode`` is ``ro``, ``rw`` (must exist) or ``rwc``."""
    plain = path.absolute().as_posix()
    rooted = plain if plain.startswith("/") else f"/{plain}"
    return f"file://{quote(os.fsencode(rooted))}?mode={mode}"


def open_raw(path: Path, mode: str = "rw") -> sqlite3.Connection:
    """A bare connection in autocommit that waits for nobody."""
    raw = sqlite3.connect(address(path, mode), uri=True, timeout=0, isolation_level=None)
    for pragma in _BEFORE_OPENING:
        raw.execute(f"PRAGMA {pragma}")
    return raw


def settle(raw: sqlite3.Connection) -> None:
    """The pragmas that touch the file, once it is known to be a workshop file."""
    for pragma in _ONCE_OURS:
        raw.execute(f"PRAGMA {pragma}").fetchall()


def engine_on(raw: sqlite3.Connection) -> Engine:
    """An engine whose only connection is the one given."""
    given = iter((raw,))
    engine = create_engine(
        "sqlite://",
        creator=lambda: next(given),
        poolclass=QueuePool,
        pool_size=1,
        max_overflow=0,
        pool_timeout=0,
        pool_reset_on_return=None,
    )
    event.listen(engine, "begin", _begin)
    event.listen(engine, "before_cursor_execute", _check_statement)
    event.listen(engine, "handle_error", _say_what_it_means)
    return engine


def _begin(connection: Connection) -> None:
    connection.exec_driver_sql("BEGIN IMMEDIATE")


def _say_what_it_means(context: ExceptionContext) -> None:
    """Raise the error that has a sentence in place of the driver's, where there is one."""
    error = context.original_exception
    if isinstance(error, sqlite3.Error) and (said := while_writing(error)) is not error:
        raise said from error


def _check_statement(
    _connection: Connection,
    cursor: sqlite3.Cursor,
    statement: str,
    parameters: Any,  # noqa: ANN401 - one row of values or several, as SQLAlchemy has them
    _context: object,
    executemany: bool,  # noqa: FBT001 - the event's own signature
) -> None:
    """The door that every statement passes: inside a transaction, with values that can be kept.

    SQLite rolls back by itself when the disk is full; a statement after that would be kept alone.
    """
    if not cursor.connection.in_transaction and not statement.startswith("BEGIN"):
        raise RuntimeError(f"outside a transaction: {statement}")
    for row in parameters if executemany else (parameters,):
        check_values(row.values() if isinstance(row, dict) else row)


def check_values(values: Iterable[object]) -> None:
    """Refuse what SQLite or the journal would cut short or turn into nothing.

    Raises:
        OutOfRange: text with U+0000 or half a character pair, a number that is not finite or
            does not fit in 64 bits.
    """
    for value in values:
        if isinstance(value, str):
            _check_text(value)
        elif isinstance(value, float) and not math.isfinite(value):
            raise OutOfRange("storage.not-finite")
        elif isinstance(value, int) and not -(2**63) <= value < 2**63:
            raise OutOfRange("storage.too-large")


def _check_text(text: str) -> None:
    if "\0" in text or any("\ud800" <= sign <= "\udfff" for sign in text):
        raise OutOfRange("storage.nul")
