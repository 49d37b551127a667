"""Copies of the open file: written through its own connection, verified, renamed into place."""

from __future__ import annotations

import hashlib
import sqlite3
import uuid
from typing import TYPE_CHECKING

from wickbench.storage.connection import open_raw
from wickbench.storage.refusals import FileRefused, making, primary_code

if TYPE_CHECKING:
    from pathlib import Path

_CHUNK = 1 << 20


def beside(path: Path) -> Path:
    """A name in the same folder that nothing has yet, for a file that is not finished."""
    return path.with_name(f".{path.name}.{uuid.uuid4().hex[:8]}")


def copy_to(raw: sqlite3.Connection, target: Path) -> None:
    """Copy the open file, as last committed, to a path that does not exist yet.

    Raises:
        sqlite3.Error: it could not be written; nothing is left there.
    """
    try:
        copy = open_raw(target, "rwc")
        try:
            raw.backup(copy)
        finally:
            copy.close()
    except BaseException:
        target.unlink(missing_ok=True)
        raise


def verify(path: Path) -> str:
    """Check a copy page by page and give its SHA-256 in hex.

    Raises:
        FileRefused: "backup.damaged".
    """
    try:
        raw = open_raw(path, "ro")
        try:
            found = [row[0] for row in raw.execute("PRAGMA integrity_check(1)").fetchall()]
        finally:
            raw.close()
    except sqlite3.Error as error:
        raise FileRefused("backup.damaged", name=path.name) from error
    if found != ["ok"]:
        raise FileRefused("backup.damaged", name=path.name)
    return sha256_of(path)


def sha256_of(path: Path) -> str:
    """SHA-256 of a file that nobody has open, in hex."""
    digest = hashlib.sha256()
    with path.open("rb") as file:
        while chunk := file.read(_CHUNK):
            digest.update(chunk)
    return digest.hexdigest()


def save_copy(raw: sqlite3.Connection, live: Path, target: Path) -> None:
    """Write a verified copy with an id of its own, over a file that is there already if need be.

    Raises:
        FileRefused: it is the open file itself, is open in another window, or cannot be written.
    """
    with making(target.name):
        _check_target(live, target)
        unfinished = beside(target)
        try:
            copy_to(raw, unfinished)
            _give_new_id(unfinished)
            verify(unfinished)
            unfinished.replace(target)
        finally:
            unfinished.unlink(missing_ok=True)


def _check_target(live: Path, target: Path) -> None:
    if not target.parent.is_dir():
        raise FileRefused("file.no-folder", name=str(target.parent))
    if not target.exists():
        return
    if target.is_dir():
        raise FileRefused("file.folder", name=target.name)
    if live.exists() and target.samefile(live):
        raise FileRefused("file.same", name=target.name)
    _must_not_be_open(target)


def _must_not_be_open(target: Path) -> None:
    """Replacing a file that another window works in would lose that window's work."""
    raw = open_raw(target)
    try:
        raw.execute("BEGIN IMMEDIATE")
    except sqlite3.DatabaseError as error:
        if primary_code(error) in {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}:
            raise
    finally:
        raw.close()


def _give_new_id(path: Path) -> None:
    raw = open_raw(path)
    try:
        raw.execute("UPDATE workshop SET file_id = ?", (str(uuid.uuid4()),))
    finally:
        raw.close()
