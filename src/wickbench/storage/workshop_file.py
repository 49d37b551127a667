"""The workshop file: made, opened, read, changed in steps, undone, copied, closed."""

from __future__ import annotations

import datetime as dt
import sqlite3
import uuid
from concurrent.futures import Future
from contextlib import suppress
from typing import TYPE_CHECKING

from sqlalchemy import Connection

from wickbench.storage import backups
from wickbench.storage.connection import engine_on, open_raw
from wickbench.storage.copies import beside, save_copy
from wickbench.storage.journal import Journal, Undone
from wickbench.storage.migrations import BrokenFile, current_version, migrate, version_of
from wickbench.storage.opening import (
    APPLICATION_ID,
    file_id_of,
    identity_of,
    open_checked,
)
from wickbench.storage.refusals import FileRefused, making
from wickbench.storage.tables import statements

if TYPE_CHECKING:
    from collections.abc import Hashable
    from contextlib import AbstractContextManager
    from pathlib import Path

    from wickbench.storage.clock import Clock

__all__ = ["Connection", "FileRefused", "Undone", "WorkshopFile", "create", "open_workshop"]


class WorkshopFile:
    """An open workshop file, locked for this window, used from the thread that opened it.

    Attributes:
        path: where it is.
        file_id: given when it was made; a saved copy has its own.
        backup: the backup begun on opening, maybe not yet finished; ``None`` when none was needed.
            Its ``result()`` raises ``FileRefused`` when the backup could not be written.
    """

    def __init__(
        self, path: Path, raw: sqlite3.Connection, clock: Clock,
        backup: Future[backups.Verified] | None = None,
    ) -> None:  # fmt: skip
        self.path = path
        self.file_id = file_id_of(raw) or ""
        self.backup = backup
        self._raw = raw
        self._engine = engine_on(raw)
        self._connection = self._engine.connect()
        self._identity = identity_of(path)
        self._journal = Journal(self._connection, raw, clock, self._is_in_place)

    def _is_in_place(self) -> bool:
        return self._identity is not None and identity_of(self.path) == self._identity

    def read(self) -> AbstractContextManager[Connection]:
        """A door for reading; inside a step it sees the step's own changes."""
        return self._journal.read()

    def step(
        self, label: str, *, merge: Hashable | None = None
    ) -> AbstractContextManager[Connection]:
        """One undoable transaction, all or nothing. See ``Journal.step``."""
        return self._journal.step(label, merge=merge)

    def unjournalled(self) -> AbstractContextManager[Connection]:
        """A transaction for settings, counters, drafts and print records, which undo leaves."""
        return self._journal.unjournalled()

    def undo(self) -> Undone:
        """Take the last step back. Raises ``CannotUndo``."""
        return self._journal.undo()

    def redo(self) -> Undone:
        """Do the step again that was taken back last. Raises ``CannotUndo``."""
        return self._journal.redo()

    @property
    def may_undo(self) -> bool:
        """Whether the last step can be taken back now."""
        return self._journal.history.may_undo

    @property
    def may_redo(self) -> bool:
        """Whether there is a step to do again."""
        return self._journal.history.may_redo

    @property
    def undo_label(self) -> str | None:
        """The act that undo would take back."""
        return self._journal.history.undo_label

    @property
    def redo_label(self) -> str | None:
        """The act that redo would do again."""
        return self._journal.history.redo_label

    @property
    def last_tables(self) -> frozenset[str]:
        """Journalled tables that the last step touched; empty when it changed nothing."""
        return self._journal.last_tables

    def seal(self, *tables: str) -> None:
        """Booked facts of these tables were printed or exported: undo no longer takes them back."""
        self._journal.history.seal(frozenset(tables))

    def save_copy(self, path: Path) -> None:
        """Write a verified copy with an id of its own; this file stays the open one.

        Raises:
            FileRefused: the same file, open in another window, or it cannot be written there.
            RuntimeError: inside an open step.
        """
        self._journal.must_be_shut("saving a copy")
        save_copy(self._raw, self.path, path)

    def close(self) -> None:
        """Let the lock go, after the backup has ended. Closing twice does nothing."""
        if self._connection.closed:
            return
        if self.backup is not None:
            self.backup.exception()
        self._connection.close()
        _tidy(self._raw)
        self._engine.dispose()


def create(path: Path, *, clock: Clock, made_by: str) -> WorkshopFile:
    """Make a new, empty workshop file and open it.

    Raises:
        FileRefused: something is there already, or it cannot be written.
    """
    if path.exists():
        raise FileRefused("file.exists", name=path.name)
    if not path.parent.is_dir():
        raise FileRefused("file.no-folder", name=str(path.parent))
    new = beside(path)
    try:
        with making(path.name):
            _make(new, clock.now_ms(), made_by)
            new.rename(path)
    finally:
        new.unlink(missing_ok=True)
    return open_workshop(path, clock=clock)


def _make(path: Path, now_ms: int, made_by: str) -> None:
    raw = open_raw(path, "rwc")
    try:
        raw.execute("BEGIN IMMEDIATE")
        for statement in statements():
            raw.execute(statement)
        raw.execute(f"PRAGMA application_id={APPLICATION_ID:d}")
        raw.execute(f"PRAGMA user_version={current_version():d}")
        raw.execute(
            "INSERT INTO workshop(file_id, made_ms, made_by) VALUES(?, ?, ?)",
            (str(uuid.uuid4()), now_ms, made_by),
        )
        raw.execute("COMMIT")
    finally:
        raw.close()


def open_workshop(path: Path, *, clock: Clock, backup_folder: Path | None = None) -> WorkshopFile:
    """Open a workshop file; back it up when it changed since the last backup; bring it up to date.

    Raises:
        FileRefused: with a key for each reason.
    """
    raw = open_checked(path)
    try:
        old = version_of(raw) < current_version()
        # A file about to be changed by a new version is always backed up, beside itself if need be.
        folder = backup_folder or (path.parent if old else None)
        backup = None if folder is None else _backup(raw, path, folder, clock)
        if old:
            _bring_up_to_date(raw, path, backup)
        return WorkshopFile(path, raw, clock, backup)
    except BaseException:
        raw.close()
        raise


def _backup(
    raw: sqlite3.Connection, path: Path, folder: Path, clock: Clock
) -> Future[backups.Verified] | None:
    try:
        own = backups.folder_for(folder, path, file_id_of(raw) or "")
        if not backups.is_needed(path, own):
            return None
        return backups.begin_backup(raw, path, own, _local_moment(clock))
    except (FileRefused, OSError) as error:
        return _failed(error, folder)


def _local_moment(clock: Clock) -> dt.datetime:
    """The clock's own day with the local time of its moment."""
    local = dt.datetime.fromtimestamp(clock.now_ms() / 1000, dt.UTC).astimezone()
    return dt.datetime.combine(clock.today(), local.timetz())


def _failed(error: Exception, folder: Path) -> Future[backups.Verified]:
    """A backup that failed at once: the file opens all the same, and the result tells."""
    refused = FileRefused("backup.not-written", name=str(folder))
    failed: Future[backups.Verified] = Future()
    failed.set_exception(error if isinstance(error, FileRefused) else refused)
    return failed


def _bring_up_to_date(
    raw: sqlite3.Connection, path: Path, backup: Future[backups.Verified] | None
) -> None:
    if backup is not None:
        backup.result()
    try:
        migrate(raw)
    except (BrokenFile, sqlite3.Error) as error:
        raise FileRefused("file.not-updated", name=path.name) from error


def _tidy(raw: sqlite3.Connection) -> None:
    """Take the empty journal away that TRUNCATE leaves beside the file."""
    with suppress(sqlite3.Error):
        raw.execute("PRAGMA locking_mode=NORMAL")
        raw.execute("SELECT 1 FROM workshop").fetchall()
        raw.execute("PRAGMA journal_mode=DELETE").fetchall()
