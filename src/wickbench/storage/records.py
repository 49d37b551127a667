"""Rows by table name, in presented names.

Order by name is binary in SQL (Ä after Z): whoever shows names sorts them with a collator.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import Column, ColumnElement, Table, func, select

from wickbench.storage.presented import (
    column_for,
    columns_of,
    present,
    stored_value,
    table_named,
    to_stored,
)
from wickbench.storage.refusals import Gone, InUse
from wickbench.storage.tables import METADATA

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from sqlalchemy import Connection


def key_of(table: str) -> Column[int]:
    """The single key column of a table.

    Raises:
        ValueError: no such table, or its key has several columns or is a text.
    """
    columns = list(table_named(table).primary_key.columns)
    if len(columns) != 1 or columns[0].name not in {"id", "item_id"}:
        raise ValueError(f"{table!r} has no single number as its key")
    return columns[0]


def insert(connection: Connection, table: str, values: Mapping[str, object]) -> int:
    """Add a row and give its key. Columns left out take their default.

    Raises:
        ValueError: no such table or column.
        OutOfRange: a value that cannot be kept.
    """
    key_of(table)
    stored = to_stored(table, values)
    result = connection.execute(table_named(table).insert().values(**stored))
    return int(result.inserted_primary_key[0])  # type: ignore[index]  # a single row has one


def update(connection: Connection, table: str, key: int, values: Mapping[str, object]) -> None:
    """Change columns of a row.

    Raises:
        ValueError: no such table or column.
        OutOfRange: a value that cannot be kept.
        Gone: there is no such row.
        Booked: the row is a booked fact (raised when the step ends).
    """
    stored = to_stored(table, values)
    if not stored:
        fetch(connection, table, key)
        return
    statement = table_named(table).update().where(key_of(table) == key).values(**stored)
    if connection.execute(statement).rowcount == 0:
        raise Gone("storage.gone", table=table)


def delete(connection: Connection, table: str, key: int) -> None:
    """Remove a row and its parts.

    Raises:
        ValueError: no such table.
        InUse: something else refers to it or to a part of it; ``by`` names the tables.
        Gone: there is no such row.
    """
    if by := users_of(connection, table, key):
        raise InUse("storage.in-use", by=by, table=table)
    statement = table_named(table).delete().where(key_of(table) == key)
    if connection.execute(statement).rowcount == 0:
        raise Gone("storage.gone", table=table)


def fetch(connection: Connection, table: str, key: int) -> dict[str, object]:
    """One row.

    Raises:
        ValueError: no such table.
        Gone: there is no such row.
    """
    statement = select(table_named(table)).where(key_of(table) == key)
    row = connection.execute(statement).mappings().one_or_none()
    if row is None:
        raise Gone("storage.gone", table=table)
    return present(table, dict(row))


def fetch_all(
    connection: Connection,
    table: str,
    where: Mapping[str, object] | None = None,
    order: Sequence[str] = (),
) -> list[dict[str, object]]:
    """Rows that have all the given values, in the given order.

    Args:
        connection: an open door.
        table: its name.
        where: presented names and values; ``None`` as a value finds what is not filled in.
        order: presented names, ``"-at_ms"`` for the largest first; rows that are equal there come
            by position, when they have one, and by key.

    Raises:
        ValueError: no such table or column.
    """
    drawn = table_named(table)
    statement = select(drawn)
    for name, value in (where or {}).items():
        column = column_for(table, name)
        statement = statement.where(drawn.c[column.stored].is_not_distinct_from(
            stored_value(column, value)))  # fmt: skip
    rows = connection.execute(statement.order_by(*_order(drawn, order))).mappings()
    return [present(table, dict(row)) for row in rows]


def _order(table: Table, names: Sequence[str]) -> list[ColumnElement[object]]:
    usual = [name for name in ("position",) if name in columns_of(table.name)]
    found: list[ColumnElement[object]] = []
    for name in (*names, *usual):
        column = table.c[column_for(table.name, name.removeprefix("-")).stored]
        found.append(column.desc() if name.startswith("-") else column)
    return [*found, *table.primary_key.columns]


def users_of(connection: Connection, table: str, key: int) -> tuple[str, ...]:
    """Names of the tables whose rows keep this row, or a part of it, from being removed."""
    return tuple(sorted(_users(connection, table_named(table), [key])))


def _users(connection: Connection, table: Table, keys: Sequence[int]) -> set[str]:
    found: set[str] = set()
    for user, column, is_part in _references_to(table):
        if is_part:
            parts = select(key_of(user.name)).where(column.in_(keys))
            inner = list(connection.execute(parts).scalars())
            found |= _users(connection, user, inner) if inner else set()
        elif connection.execute(select(func.count()).where(column.in_(keys))).scalar_one():
            found.add(user.name)
    return found


def _references_to(table: Table) -> Iterable[tuple[Table, Column[int], bool]]:
    for user in METADATA.sorted_tables:
        for link in user.foreign_keys:
            if link.column.table is table:
                yield user, link.parent, link.ondelete == "CASCADE"
