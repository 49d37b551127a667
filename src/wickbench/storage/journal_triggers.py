"""SQL of the temporary triggers: they log the inverse of each row change, and guard booked facts.

They live in the temp schema: nothing of them stands in the file, and a rolled back step takes its
log with it. Texts of statements are put together from names of our own tables only.
"""

# ruff: noqa: S608  (SQL is put together from names of our own tables; nothing typed gets in)

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.storage.refusals import BOOKED_MARK

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import Table

# step is NULL outside of steps, so that a change that undo would not know of is refused.
TEMP_TABLES = (
    """CREATE TEMP TABLE journal_log(seq INTEGER PRIMARY KEY AUTOINCREMENT, step INTEGER NOT NULL,
    tbl TEXT NOT NULL, booked INTEGER NOT NULL, sql TEXT NOT NULL)""",
    "CREATE INDEX temp.journal_log_step ON journal_log(step)",
    "CREATE TEMP TABLE journal_state(step INTEGER, replaying INTEGER NOT NULL)",
    "INSERT INTO journal_state VALUES(NULL, 0)",
)


def name_of(name: str) -> str:
    """A name in double quotes."""
    return '"' + name.replace('"', '""') + '"'


def text_of(text: str) -> str:
    """A text literal."""
    return "'" + text.replace("'", "''") + "'"


def log_triggers(table: Table) -> tuple[str, str, str]:
    """Three triggers that log the inverse of each change of a row, changed columns only."""
    names = [name_of(column.name) for column in table.columns]
    keys = [name_of(column.name) for column in table.primary_key.columns]
    main = f"main.{name_of(table.name)}"
    row = _key_of("new", keys)
    removal = f"{text_of(f'DELETE FROM {main} WHERE ')}||{row}"
    change = f"{text_of(f'UPDATE {main} SET ')}||{_changes(names)}||' WHERE '||{row}"
    values = "||','||".join(f"quote(old.{name})" for name in names)
    listed = ",".join(names)
    arrival = f"{text_of(f'INSERT INTO {main}({listed}) VALUES(')}||{values}||')'"
    return (
        _trigger(table, "INSERT", "", _booked(table, "new"), removal),
        _trigger(table, "UPDATE", f"WHEN {_differ(names)}", _booked(table, "new"), change),
        _trigger(table, "DELETE", "", _booked(table, "old"), arrival),
    )


def guard_triggers(table: Table) -> tuple[str, ...]:
    """Two triggers that refuse to change or remove a booked row, except while undo replays."""
    if table.info["booked"] is None:
        return ()
    facts = [name_of(c.name) for c in table.columns if c.name not in table.info["free"]]
    return (
        _guard(table, "UPDATE", f"({_differ(facts)})"),
        _guard(table, "DELETE", "1"),
    )


def _booked(table: Table, row: str) -> str:
    condition: str | None = table.info["booked"]
    return "0" if condition is None else f"ifnull({condition.format(row=row)}, 0)"


def _trigger(table: Table, verb: str, when: str, booked: str, inverse: str) -> str:
    name = name_of(f"journal_{verb.lower()}_{table.name}")
    return (
        f"CREATE TEMP TRIGGER {name} AFTER {verb} ON main.{name_of(table.name)} {when} BEGIN "
        f"INSERT INTO journal_log(step, tbl, booked, sql) "
        f"SELECT step, {text_of(table.name)}, {booked}, {inverse} FROM journal_state; END"
    )


def _guard(table: Table, verb: str, condition: str) -> str:
    name = name_of(f"booked_{verb.lower()}_{table.name}")
    return (
        f"CREATE TEMP TRIGGER {name} BEFORE {verb} ON main.{name_of(table.name)} "
        f"WHEN (SELECT replaying FROM journal_state) = 0 AND {_booked(table, 'old')} "
        f"AND {condition} BEGIN SELECT RAISE(ABORT, {text_of(BOOKED_MARK + table.name)}); END"
    )


def _key_of(row: str, keys: Sequence[str]) -> str:
    return "||' AND '||".join(f"{text_of(key + '=')}||quote({row}.{key})" for key in keys)


def _differ(names: Sequence[str]) -> str:
    return " OR ".join(f"old.{name} IS NOT new.{name}" for name in names)


def _changes(names: Sequence[str]) -> str:
    """``a=1,b=2`` of the columns that differ; each part begins with a comma, the first is cut."""
    parts = (
        f"CASE WHEN old.{name} IS NOT new.{name} "
        f"THEN {text_of(f',{name}=')}||quote(old.{name}) ELSE '' END"
        for name in names
    )
    return f"substr({'||'.join(parts)}, 2)"
