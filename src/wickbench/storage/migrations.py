"""Numbered steps that bring an older workshop file to the present version.

Each step is written-out SQL in a module of its own. To change the tables after a release: change
the table, add the step that turns the former version into it, store a file of the former version
with the tests.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.storage import migration_2, migration_3

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Mapping

    Steps = Mapping[int, tuple[str, ...]]

# Version 1 is the first: it has no step, it is made from the tables as they are drawn.
FIRST = 1
STEPS: Steps = {2: migration_2.STEP, 3: migration_3.STEP}


class BrokenFile(Exception):
    """A file whose references or pages do not hold after (or before) a step."""


def current_version(steps: Steps = STEPS) -> int:
    """The version that this program writes."""
    return max((FIRST, *steps))


def version_of(raw: sqlite3.Connection) -> int:
    """The version that the file says it has."""
    return int(raw.execute("PRAGMA user_version").fetchone()[0])


def migrate(raw: sqlite3.Connection, steps: Steps = STEPS) -> None:
    """Run the missing steps in one transaction, checked before it is kept.

    Raises:
        BrokenFile: a check failed; nothing was changed.
        sqlite3.Error: a statement failed; nothing was changed.
    """
    here, goal = version_of(raw), current_version(steps)
    if here >= goal:
        return
    _must_be_whole(raw)
    # Inside a transaction this pragma does nothing, and dropping a table would remove its parts.
    raw.execute("PRAGMA foreign_keys=OFF")
    try:
        _run(raw, [steps[number] for number in range(here + 1, goal + 1)], goal)
    finally:
        raw.execute("PRAGMA foreign_keys=ON")


def _run(raw: sqlite3.Connection, wanted: list[tuple[str, ...]], goal: int) -> None:
    raw.execute("BEGIN IMMEDIATE")
    try:
        for step in wanted:
            for statement in step:
                raw.execute(statement)
        raw.execute(f"PRAGMA user_version={goal:d}")
        if broken := raw.execute("PRAGMA foreign_key_check").fetchall():
            raise BrokenFile(f"references: {broken[:3]}")
        _must_be_whole(raw)
        raw.execute("COMMIT")
    finally:
        if raw.in_transaction:
            raw.execute("ROLLBACK")


def _must_be_whole(raw: sqlite3.Connection) -> None:
    found = [row[0] for row in raw.execute("PRAGMA integrity_check").fetchall()]
    if found != ["ok"]:
        raise BrokenFile("; ".join(found[:3]))
