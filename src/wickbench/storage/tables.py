"""All tables of the workshop file, in one MetaData."""

from __future__ import annotations

from sqlalchemy.dialects import sqlite
from sqlalchemy.schema import CreateIndex, CreateTable

from wickbench.storage import (
    tables_bench,
    tables_catalog,
    tables_house,
    tables_labels,
    tables_making,
)
from wickbench.storage.schema import METADATA

__all__ = [
    "METADATA",
    "statements",
    "tables_bench",
    "tables_catalog",
    "tables_house",
    "tables_labels",
    "tables_making",
]


def statements() -> tuple[str, ...]:
    """The SQL that makes all tables and their indexes in an empty file."""
    dialect = sqlite.dialect()
    made: list[str] = []
    for table in METADATA.sorted_tables:
        made.append(str(CreateTable(table).compile(dialect=dialect)))
        indexes = sorted(table.indexes, key=lambda index: str(index.name))
        made += [str(CreateIndex(index).compile(dialect=dialect)) for index in indexes]
    return tuple(made)
