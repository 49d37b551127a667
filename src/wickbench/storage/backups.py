"""Dated backups: copied through the open connection, verified by a worker, thinned by a rule.

A backup bears the size and the time of change of the file it was copied from; as long as these
are the same, the file needs no other.
"""

from __future__ import annotations

import datetime as dt
import os
import re
import sqlite3
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from wickbench.storage.copies import copy_to, sha256_of, verify
from wickbench.storage.refusals import FileRefused

if TYPE_CHECKING:
    from collections.abc import Iterable

SUFFIX = ".wickbench"
UNFINISHED = ".unfinished"
_STAMP = re.compile(r" (\d{4}-\d\d-\d\d) (\d{6})$")

KEEP_NEWEST = 10
KEEP_MOST = 40
KEEP_BYTES = 500 * 1000 * 1000
KEEP_AT_LEAST = 3


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup by its file name, the local day it was made on, and its size."""

    name: str
    made_on: dt.date
    size: int


@dataclass(frozen=True, slots=True)
class Verified:
    """A copy that passed its check.

    Attributes:
        path: where it is.
        sha256: of the whole copy, in hex.
        is_new: false when the newest backup was the same byte for byte and stayed alone.
    """

    path: Path
    sha256: str
    is_new: bool = True


def thin(
    backups: Iterable[Backup], *, most: int = KEEP_MOST, most_bytes: int = KEEP_BYTES
) -> tuple[Backup, ...]:
    """Which backups may go: the newest ten stay, then the last of each day, up to a count and size.

    Args:
        backups: any order; names carry the moment, so that they sort by age.
        most: how many may stay.
        most_bytes: what all together may take; the newest three stay whatever they take.
    """
    newest_first = sorted(backups, key=lambda backup: (backup.made_on, backup.name), reverse=True)
    kept: list[Backup] = []
    total = 0
    for backup in newest_first:
        same_day = any(other.made_on == backup.made_on for other in kept)
        crowded = len(kept) >= KEEP_NEWEST and same_day
        full = len(kept) >= KEEP_AT_LEAST and total + backup.size > most_bytes
        if crowded or full or len(kept) >= most:
            continue
        kept.append(backup)
        total += backup.size
    return tuple(backup for backup in newest_first if backup not in kept)


def backups_in(folder: Path) -> tuple[Path, ...]:
    """Backups in a folder, newest first."""
    if not folder.is_dir():
        return ()
    found = [path for path in folder.iterdir() if made_on(path) is not None]
    return tuple(sorted(found, key=_stamp_of, reverse=True))


def _stamp_of(path: Path) -> str:
    match = _STAMP.search(path.stem)
    return match[0] if match else ""


def made_on(path: Path) -> dt.date | None:
    """The local day in the name of a backup; ``None`` for any other file."""
    match = _STAMP.search(path.stem)
    if path.suffix != SUFFIX or match is None:
        return None
    try:
        return dt.date.fromisoformat(match[1])
    except ValueError:
        return None


def folder_for(backup_folder: Path, path: Path, file_id: str) -> Path:
    """Where the backups of one workshop stand: by name, and by id for two of the same name."""
    return backup_folder / f"{path.stem} {file_id[:8]}"


def backups_of(path: Path, backup_folder: Path) -> tuple[Path, ...]:
    """Backups of all workshops of that file's name, newest first; for a file that will not open."""
    folders = [path.parent, backup_folder]
    own = re.compile(re.escape(path.stem) + " [0-9a-f]{8}")
    found = [
        backup
        for folder in {each for each in folders if each.is_dir()}
        for inner in folder.iterdir()
        if own.fullmatch(inner.name)
        for backup in backups_in(inner)
    ]
    return tuple(sorted(found, key=_stamp_of, reverse=True))


def is_needed(path: Path, folder: Path) -> bool:
    """Whether the file changed since its newest backup."""
    newest = next(iter(backups_in(folder)), None)
    if newest is None:
        return True
    live, copy = path.stat(), newest.stat()
    return (live.st_mtime_ns, live.st_size) != (copy.st_mtime_ns, copy.st_size)


def begin_backup(
    raw: sqlite3.Connection, path: Path, folder: Path, moment: dt.datetime
) -> Future[Verified]:
    """Copy now, verify and put in place in a worker that knows only paths.

    Args:
        raw: the open file.
        path: where the open file is; its size and time of change mark the copy.
        folder: of this workshop's backups; made when missing.
        moment: local time, for the name.

    Raises:
        FileRefused: "backup.not-written".
    """
    name = f"{path.stem} {moment:%Y-%m-%d %H%M%S}"
    unfinished = folder / f"{name}{UNFINISHED}"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        unfinished.unlink(missing_ok=True)
        copy_to(raw, unfinished)
        changed_ns = path.stat().st_mtime_ns
    except (sqlite3.Error, OSError) as error:
        raise FileRefused("backup.not-written", name=str(folder)) from error
    worker = ThreadPoolExecutor(1, thread_name_prefix="backup")
    try:
        return worker.submit(_finish, unfinished, folder / f"{name}{SUFFIX}", changed_ns)
    finally:
        worker.shutdown(wait=False)


def _finish(unfinished: Path, target: Path, changed_ns: int) -> Verified:
    """In the worker: check, rename into place, thin."""
    try:
        sha256 = verify(unfinished)
        newest = next(iter(backups_in(target.parent)), None)
        if newest is not None and sha256_of(newest) == sha256:
            os.utime(newest, ns=(changed_ns, changed_ns))
            return Verified(newest, sha256, is_new=False)
        os.utime(unfinished, ns=(changed_ns, changed_ns))
        unfinished.replace(target)
        _thin_folder(target.parent)
        return Verified(target, sha256)
    except OSError as error:
        raise FileRefused("backup.not-written", name=str(target.parent)) from error
    finally:
        unfinished.unlink(missing_ok=True)


def _thin_folder(folder: Path) -> None:
    backups = [
        Backup(path.name, day, path.stat().st_size)
        for path in backups_in(folder)
        if (day := made_on(path)) is not None
    ]
    for backup in thin(backups):
        (folder / backup.name).unlink(missing_ok=True)
