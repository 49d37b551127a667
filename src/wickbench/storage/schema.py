"""Building blocks of the tables: one MetaData, key and reference columns, named checks.

The ending of a column says its unit: ``_mg``, ``_ul``, ``_um``, ``_ppm``, ``_e4`` (money in 1/10 000),
``_c`` (°C), ``_g_per_ml``, ``_on`` (local date as text), ``_ms`` (UTC milliseconds), ``_json``.
"""

from __future__ import annotations

from typing import Any

from sqlalchemy import CheckConstraint, Column, ForeignKey, Integer, MetaData, REAL, Table, Text

METADATA = MetaData()


def table(name: str, *columns: Any, journalled: bool = True, booked: bool = False, **options: Any) -> Table:  # noqa: ANN401 - SQLAlchemy's own column arguments
    """A STRICT table of the workshop file.

    Args:
        journalled: undo covers it.
        booked: rows are facts; only undone on the day they were written.
    """
    info = {"journalled": journalled, "booked": booked}
    return Table(name, METADATA, *columns, sqlite_strict=True, info=info, **options)


def key() -> Column[int]:
    """An integer key that is never given twice."""
    return Column("id", Integer, primary_key=True)


def ref(name: str, target: str, *, part: bool = False, required: bool = False) -> Column[int]:
    """A reference. A true part goes with its whole; anything else holds it."""
    rule = "CASCADE" if part else "RESTRICT"
    return Column(
        name, Integer, ForeignKey(target, ondelete=rule), nullable=not (part or required), index=True
    )


def whole(name: str, *, default: int | None = None) -> Column[int]:
    """A whole number; nullable unless it has a default."""
    extra = {} if default is None else {"server_default": str(default)}
    return Column(name, Integer, nullable=default is None, **extra)


def real(name: str) -> Column[float]:
    """A parameter such as a density or a temperature; nullable."""
    return Column(name, REAL, nullable=True)


def text(name: str, *, default: str | None = None) -> Column[str]:
    """Text; nullable unless it has a default."""
    extra = {} if default is None else {"server_default": default}
    return Column(name, Text, nullable=default is None, **extra)


def one_of(column: str, *values: str) -> CheckConstraint:
    """A named check that a column holds one of a few words, or nothing."""
    listed = ", ".join(f"'{value}'" for value in values)
    return CheckConstraint(f"{column} IS NULL OR {column} IN ({listed})", name=f"{column}_known")


def positive(*columns: str) -> tuple[CheckConstraint, ...]:
    """Named checks that what is measured is not negative."""
    return tuple(CheckConstraint(f"{name} >= 0", name=f"{name}_not_negative") for name in columns)
