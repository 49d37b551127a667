"""Opening a workshop file: one question after the other, each refusal with its own sentence.

The live file is never opened by anything but SQLite: closing another handle on it would drop
SQLite's locks on POSIX systems (https://www.sqlite.org/howtocorrupt.html, section 2.2).
"""

from __future__ import annotations

import stat
from typing import TYPE_CHECKING

from wickbench.storage.connection import open_raw, settle
from wickbench.storage.migrations import current_version, version_of
from wickbench.storage.refusals import FileRefused, refusals

if TYPE_CHECKING:
    import os
    import sqlite3
    from pathlib import Path

APPLICATION_ID = 0x57424348  # "WBCH"


def open_checked(path: Path) -> sqlite3.Connection:
    """The one connection to a file that is ours, whole, writable and locked for us.

    Raises:
        FileRefused: with a key for each reason.
    """
    _check_place(path)
    with refusals(path.name):
        raw = open_raw(path)
        try:
            _lock_and_know(raw, path.name)
            settle(raw)
            _check_pages(raw, path.name)
        except BaseException:
            raw.close()
            raise
    return raw


def _check_place(path: Path) -> None:
    """Existence and size, from the folder's entry only."""
    found = _entry(path)
    if found is None:
        raise FileRefused("file.missing", name=path.name)
    if stat.S_ISDIR(found.st_mode):
        raise FileRefused("file.folder", name=path.name)
    if not stat.S_ISREG(found.st_mode):
        raise FileRefused("file.not-ours", name=path.name)
    if found.st_size == 0:
        raise FileRefused("file.empty", name=path.name)


def _entry(path: Path) -> os.stat_result | None:
    try:
        return path.stat()
    except PermissionError as error:
        raise FileRefused("file.read-only", name=path.name) from error
    except (OSError, ValueError):
        return None


def _lock_and_know(raw: sqlite3.Connection, name: str) -> None:
    """Take the lock that stays until the file is closed, and look whose file it is."""
    raw.execute("BEGIN EXCLUSIVE")
    if raw.execute("PRAGMA application_id").fetchone()[0] != APPLICATION_ID:
        raise FileRefused("file.not-ours", name=name)
    version = version_of(raw)
    if version > current_version():
        raise FileRefused("file.newer", name=name)
    # Rolled back: only shows whether the file and a journal beside it can be written.
    raw.execute(f"PRAGMA user_version={version:d}")
    raw.execute("ROLLBACK")


def _check_pages(raw: sqlite3.Connection, name: str) -> None:
    found = [row[0] for row in raw.execute("PRAGMA quick_check(1)").fetchall()]
    if found != ["ok"] or file_id_of(raw) is None:
        raise FileRefused("file.damaged", name=name)


def file_id_of(raw: sqlite3.Connection) -> str | None:
    """The id that the file was given when it was made."""
    row = raw.execute("SELECT file_id FROM workshop ORDER BY id LIMIT 1").fetchone()
    return None if row is None else str(row[0])


def identity_of(path: Path) -> tuple[int, int] | None:
    """Which file stands at a path now: a renamed, removed or replaced one is another."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino
