"""Stored integers with a unit in the column's name, and the same values as floats for the app.

``mass_mg`` = 3070000 is presented as ``mass_g`` = 3070.0; see ``ENDINGS``.
"""

from __future__ import annotations

import datetime as dt
import json
import math
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from sqlalchemy import REAL, Column, DefaultClause, Integer, Table

from wickbench.domain.errors import OutOfRange
from wickbench.domain.rounding import half_up_decimal
from wickbench.storage.connection import check_values
from wickbench.storage.tables import METADATA

if TYPE_CHECKING:
    from collections.abc import Mapping

# stored ending → presented ending and how many stored units make one presented unit.
ENDINGS: dict[str, tuple[str, int]] = {
    "_mg": ("_g", 1000),
    "_ul": ("_ml", 1000),
    "_um": ("_mm", 1000),
    "_ppm": ("_percent", 10_000),
    "_e4": ("_money", 10_000),
    "_milli": ("", 1000),
    "_mdeg": ("_deg", 1000),
}
_JSON = "_json"
_DATE = "_on"


class Presented(NamedTuple):
    """A column as the app sees it.

    Attributes:
        name: presented name.
        stored: the column's own name.
        kind: "scaled", "json", "date", "whole", "real" or "text".
        scale: stored units per presented unit; 1 unless scaled.
    """

    name: str
    stored: str
    kind: str
    scale: int = 1


def table_named(name: str) -> Table:
    """A table of the workshop file.

    Raises:
        ValueError: there is none of that name.
    """
    if name not in METADATA.tables:
        raise ValueError(f"no table {name!r}")
    return METADATA.tables[name]


@cache
def columns_of(table: str) -> Mapping[str, Presented]:
    """The columns of a table by presented name.

    Raises:
        ValueError: no such table.
    """
    found = (_presented(column) for column in table_named(table).columns)
    return {each.name: each for each in found}


def _presented(column: Column[object]) -> Presented:
    for ending, (shown, scale) in ENDINGS.items():
        if column.name.endswith(ending):
            return Presented(column.name.removesuffix(ending) + shown, column.name, "scaled", scale)
    if column.name.endswith(_JSON):
        return Presented(column.name.removesuffix(_JSON), column.name, "json")
    if column.name.endswith(_DATE):
        return Presented(column.name, column.name, "date")
    return Presented(column.name, column.name, _plain_kind(column))


def _plain_kind(column: Column[object]) -> str:
    if isinstance(column.type, Integer):
        return "whole"
    return "real" if isinstance(column.type, REAL) else "text"


def column_for(table: str, name: str) -> Presented:
    """The column behind a presented name.

    Raises:
        ValueError: no such table or column.
    """
    columns = columns_of(table)
    if name not in columns:
        raise ValueError(f"no column {name!r} in {table!r}")
    return columns[name]


def present(table: str, row: Mapping[str, object]) -> dict[str, object]:
    """A stored row in presented names and units; ``None`` stays ``None``.

    Raises:
        ValueError: no such table.
    """
    return {each.name: _shown(each, row[each.stored]) for each in columns_of(table).values()}


def _shown(column: Presented, value: object) -> object:
    if value is None:
        return None
    if column.kind == "scaled" and isinstance(value, int):
        return value / column.scale
    if column.kind == "json":
        return json.loads(str(value))
    return value


def to_stored(table: str, values: Mapping[str, object]) -> dict[str, object]:
    """Presented values as columns: half up to the stored integer.

    ``None`` in a column that is never empty, such as a name, is that column's default.

    Raises:
        ValueError: no such table or column.
        OutOfRange: a value that cannot be kept, with ``field`` its presented name.
    """
    found = {name: column_for(table, name) for name in values}
    stored = {found[name].stored: stored_value(found[name], values[name]) for name in values}
    return {
        name: _emptied(table, name) if value is None else value for name, value in stored.items()
    }


def _emptied(table: str, stored: str) -> object:
    """What stands in a column when nothing is filled in."""
    column = table_named(table).columns[stored]
    default = column.server_default
    if column.nullable or not isinstance(default, DefaultClause):
        return None
    written = str(default.arg)
    return int(written) if isinstance(column.type, Integer) else written


def stored_value(column: Presented, value: object) -> object:
    """One presented value as it is stored.

    Raises:
        OutOfRange: it cannot be kept.
        TypeError: of a type that the column cannot have.
    """
    try:
        kept = None if value is None else _KINDS[column.kind](column, value)
        check_values((kept,))
    except OutOfRange as error:
        raise OutOfRange(error.key, **{**error.data, "field": column.name}) from error
    return kept


def _number(value: object) -> float | int:
    if not isinstance(value, int | float):
        raise TypeError(f"{value!r} is not a number")
    if not math.isfinite(value):
        raise OutOfRange("storage.not-finite")
    return value


def _scaled(column: Presented, value: object) -> int:
    digits = len(str(column.scale)) - 1
    return int(half_up_decimal(_number(value), digits).scaleb(digits))


def _whole(_column: Presented, value: object) -> int:
    number = _number(value)
    if number != int(number):
        raise OutOfRange("storage.not-whole")
    return int(number)


def _real(_column: Presented, value: object) -> float:
    return float(_number(value))


def _text(_column: Presented, value: object) -> str:
    if not isinstance(value, str):
        raise TypeError(f"{value!r} is not text")
    return value


def _date(_column: Presented, value: object) -> str:
    if isinstance(value, dt.date) and not isinstance(value, dt.datetime):
        return value.isoformat()
    try:
        return dt.date.fromisoformat(str(value)).isoformat()
    except ValueError as error:
        raise OutOfRange("storage.not-a-date") from error


def _json(_column: Presented, value: object) -> str:
    _check_leaves(value)
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


def _check_leaves(value: object) -> None:
    """Texts and numbers inside a JSON value keep the rules of plain columns."""
    if isinstance(value, dict):
        for name, inner in value.items():
            check_values((name,))
            _check_leaves(inner)
    elif isinstance(value, list | tuple):
        for inner in value:
            _check_leaves(inner)
    else:
        check_values((value,))


_KINDS = {
    "scaled": _scaled,
    "json": _json,
    "date": _date,
    "whole": _whole,
    "real": _real,
    "text": _text,
}
