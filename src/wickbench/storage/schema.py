"""Building blocks of the tables: one MetaData, key and reference columns, named checks.

The ending of a column says its unit: ``_mg``, ``_ul``, ``_um``, ``_ppm``, ``_e4`` (money in
1/10 000), ``_c`` (°C), ``_g_per_ml``, ``_on`` (local date as text), ``_ms`` (UTC milliseconds),
``_json``.
From the ending follow the checks that every such column carries.
"""

from __future__ import annotations

from typing import Any

from sqlalchemy import REAL, CheckConstraint, Column, ForeignKey, Integer, MetaData, Table, Text

METADATA = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "pk": "pk_%(table_name)s",
    }
)

_DATE = "[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]"
# Places on a label or a page may lie left of or above its origin; everything else is a measure.
_SIGNED = frozenset({"x_um", "y_um", "left_um", "top_um"})
_MEASURES = ("_mg", "_ul", "_um", "_ppm", "_milli")


def table(
    name: str,
    *columns: Any,  # noqa: ANN401 - SQLAlchemy's own column arguments
    journalled: bool = True,
    booked: str | None = None,
    free: tuple[str, ...] = ("note",),
) -> Table:
    """A STRICT table of the workshop file.

    Args:
        name: the table's name.
        columns: columns and constraints.
        journalled: undo covers it.
        booked: SQL condition on ``{row}`` that says when a row is a booked fact; ``"1"`` is always.
            A booked row is never changed or removed by a step, only undone on its own day.
        free: columns of a booked row that may still be changed.
    """
    info = {"journalled": journalled, "booked": booked, "free": frozenset(free)}
    named = [column for column in columns if isinstance(column, Column)]
    checks = [check for column in named for check in _checks(column)]
    numbered = any(column.name == "id" for column in named)
    return Table(
        name, METADATA, *columns, *checks,
        sqlite_strict=True, sqlite_autoincrement=numbered, info=info,
    )  # fmt: skip


def _checks(column: Column[Any]) -> list[CheckConstraint]:
    """What the ending of a column's name promises about its values.

    No json_valid: with trusted_schema off SQLite 3.40 takes it for unsafe in a table's check. JSON
    is written by ``presented`` alone.
    """
    name = column.name
    if name.endswith("_on"):
        return [CheckConstraint(f"{name} IS NULL OR {name} GLOB '{_DATE}'", name=f"{name}_date")]
    if name.endswith(_MEASURES) and name not in _SIGNED:
        return [CheckConstraint(f"{name} >= 0", name=f"{name}_not_negative")]
    if column.info.get("flag"):
        return [CheckConstraint(f"{name} IN (0, 1)", name=f"{name}_flag")]
    return []


def key() -> Column[int]:
    """An integer key that is never given twice, undo or not."""
    return Column("id", Integer, primary_key=True)


def ref(name: str, target: str, *, part: bool = False, required: bool = False) -> Column[int]:
    """A reference with its index. A true part goes with its whole; anything else holds it."""
    rule = "CASCADE" if part else "RESTRICT"
    needed = part or required
    return Column(name, Integer, ForeignKey(target, ondelete=rule), nullable=not needed, index=True)


def detail_key() -> Column[int]:
    """The key of a table that tells more about an item: the item's own id."""
    whole_item = ForeignKey("item.id", ondelete="CASCADE")
    return Column("item_id", Integer, whole_item, primary_key=True, autoincrement=False)


def whole(name: str, *, default: int | None = None) -> Column[int]:
    """A whole number; nullable unless it has a default."""
    return Column(name, Integer, nullable=default is None, server_default=_written(default))


def flag(name: str) -> Column[int]:
    """Yes (1) or no (0); no unless said otherwise."""
    return Column(name, Integer, nullable=False, server_default="0", info={"flag": True})


def real(name: str) -> Column[float]:
    """A parameter such as a density or a temperature; nullable."""
    return Column(name, REAL, nullable=True)


def text(name: str, *, default: str | None = None) -> Column[str]:
    """Text; nullable unless it has a default."""
    return Column(name, Text, nullable=default is None, server_default=default)


def _written(default: int | None) -> str | None:
    return None if default is None else str(default)


def one_of(column: str, *values: str) -> CheckConstraint:
    """A named check that a column holds one of a few words, or nothing."""
    listed = ", ".join(f"'{value}'" for value in values)
    return CheckConstraint(f"{column} IS NULL OR {column} IN ({listed})", name=f"{column}_known")
