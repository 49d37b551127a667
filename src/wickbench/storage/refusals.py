"""What the workshop file refuses, and what SQLite's result codes mean to a person.

Result codes: https://www.sqlite.org/rescode.html. The low byte is the primary code.
"""

from __future__ import annotations

import errno
import sqlite3
from contextlib import contextmanager
from typing import TYPE_CHECKING

from wickbench.domain.errors import DomainError, OutOfRange

if TYPE_CHECKING:
    from collections.abc import Iterator

BOOKED_MARK = "booked: "
_NO_TEXT = "Could not decode to UTF-8"
"""Said by the driver, without a code, of a text column whose bytes were changed from outside."""
_PRIMARY = 0xFF
_WRITING = {
    sqlite3.SQLITE_FULL: "storage.no-room",
    sqlite3.SQLITE_IOERR: "storage.disk-error",
    sqlite3.SQLITE_CANTOPEN: "storage.disk-error",
    sqlite3.SQLITE_READONLY: "storage.read-only",
    sqlite3.SQLITE_PERM: "storage.read-only",
    sqlite3.SQLITE_BUSY: "storage.locked",
    sqlite3.SQLITE_LOCKED: "storage.locked",
    sqlite3.SQLITE_CORRUPT: "storage.damaged",
    sqlite3.SQLITE_NOTADB: "storage.damaged",
}
_OPENING = {
    sqlite3.SQLITE_NOTADB: "file.not-ours",
    sqlite3.SQLITE_BUSY: "file.locked",
    sqlite3.SQLITE_LOCKED: "file.locked",
    sqlite3.SQLITE_READONLY: "file.read-only",
    sqlite3.SQLITE_PERM: "file.read-only",
    sqlite3.SQLITE_CANTOPEN: "file.read-only",
    sqlite3.SQLITE_CORRUPT: "file.damaged",
    sqlite3.SQLITE_IOERR: "file.disk-error",
    sqlite3.SQLITE_FULL: "file.no-room",
}


class FileRefused(DomainError):
    """A file that cannot be opened, made or written; ``data`` holds its ``name``."""


class StorageError(DomainError):
    """A change that could not be kept; nothing of it was stored."""


class InUse(StorageError):
    """Something is still used elsewhere; ``by`` names the tables that hold it."""


class Gone(StorageError):
    """The row is not there any more."""


class Booked(StorageError):
    """A booked fact; it is corrected by a counter-entry."""


class CannotUndo(StorageError):
    """There is nothing to undo, or what there is must stay."""


def primary_code(error: BaseException | None) -> int:
    """SQLite's primary result code, 0 when the error did not come from SQLite."""
    return getattr(error, "sqlite_errorcode", 0) & _PRIMARY


def while_opening(error: sqlite3.Error, name: str) -> FileRefused:
    """Why a file could not be opened."""
    return FileRefused(_OPENING.get(primary_code(error), "file.damaged"), name=name)


@contextmanager
def making(name: str) -> Iterator[None]:
    """As ``refusals``, for a file that is being made: a place without leave to write is another."""
    try:
        with refusals(name):
            yield
    except FileRefused as refused:
        if refused.key != "file.read-only":
            raise
        raise FileRefused("file.folder-closed", **refused.data) from refused


@contextmanager
def refusals(name: str) -> Iterator[None]:
    """Turn what SQLite and the system say into sentences about the file of that name."""
    try:
        yield
    except sqlite3.Error as error:
        if primary_code(error) == 0:
            raise
        raise while_opening(error, name) from error
    except UnicodeDecodeError as error:
        # SQLite quotes the damaged schema in its message, and that is no text any more.
        raise FileRefused("file.damaged", name=name) from error
    except PermissionError as error:
        raise FileRefused("file.read-only", name=name) from error
    except OSError as error:
        full = error.errno in {errno.ENOSPC, errno.EDQUOT}
        raise FileRefused("file.no-room" if full else "file.disk-error", name=name) from error


def while_writing(error: sqlite3.Error) -> Exception:
    """What a person is told when a change failed; an error of ours comes back as it is."""
    said = str(error)
    if said.startswith(BOOKED_MARK):
        return Booked("storage.booked", table=said.removeprefix(BOOKED_MARK))
    if said.startswith(_NO_TEXT):
        return StorageError("storage.damaged")
    if said.endswith("_not_negative"):
        return OutOfRange("storage.negative", field=said.rpartition(" ")[2])
    known = _WRITING.get(primary_code(error))
    return error if known is None else StorageError(known)
