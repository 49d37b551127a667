"""The tables keep the rules of the house, and SQLite holds values to them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from sqlalchemy import REAL, Integer, LargeBinary, Table, Text
from sqlalchemy.exc import IntegrityError

from wickbench.app.kinds_of_change import changes_of
from wickbench.storage.tables import METADATA

if TYPE_CHECKING:
    from wickbench.storage.workshop_file import WorkshopFile

TABLES = sorted(METADATA.tables)


def pragma(workshop: WorkshopFile, text: str) -> list[tuple[object, ...]]:
    with workshop.read() as connection:
        return [tuple(row) for row in connection.exec_driver_sql(f"PRAGMA {text}")]


@pytest.mark.parametrize("name", TABLES)
def test_columns_have_one_of_four_types(name: str) -> None:
    for column in METADATA.tables[name].columns:
        assert type(column.type) in {Integer, REAL, Text, LargeBinary}, column.name


@pytest.mark.parametrize("name", TABLES)
def test_a_table_of_records_never_gives_a_key_twice(name: str) -> None:
    table = METADATA.tables[name]
    assert ("id" in table.columns) == table.dialect_options["sqlite"]["autoincrement"]


def test_sqlite_holds_every_table_to_its_types(workshop: WorkshopFile) -> None:
    strict = {row[1]: row[5] for row in pragma(workshop, "table_list") if row[0] == "main"}
    assert {name for name, is_strict in strict.items() if is_strict} == set(TABLES)


def test_every_reference_has_its_index(workshop: WorkshopFile) -> None:
    for name in TABLES:
        indexed = {
            pragma(workshop, f"index_info({row[1]})")[0][2]
            for row in pragma(workshop, f"index_list({name})")
        }
        keys = {row[1] for row in pragma(workshop, f"table_info({name})") if row[5] == 1}
        references = {row[3] for row in pragma(workshop, f"foreign_key_list({name})")}
        assert references <= indexed | keys, name


def test_every_check_has_a_name() -> None:
    for name in TABLES:
        for constraint in METADATA.tables[name].constraints:
            assert constraint.name or not list(constraint.columns), name


def unjournalled_references(table: Table) -> list[str]:
    return [link.parent.name for link in table.foreign_keys if link.column.table.info["journalled"]]


def test_what_undo_leaves_alone_refers_to_nothing_that_undo_removes() -> None:
    for name in TABLES:
        if not METADATA.tables[name].info["journalled"]:
            assert unjournalled_references(METADATA.tables[name]) == [], name


@pytest.mark.parametrize(
    "name", [name for name in TABLES if METADATA.tables[name].info["journalled"]]
)
def test_somebody_is_told_of_each_journalled_table(name: str) -> None:
    assert changes_of([name]).kinds


@pytest.mark.parametrize(
    ("statement", "reason"),
    [
        ("INSERT INTO place(name) VALUES(x'00')", "cannot store BLOB"),
        ("INSERT INTO scale(step_mg) VALUES('one')", "cannot store TEXT"),
        ("INSERT INTO scale(step_mg) VALUES(1.5)", "cannot store REAL"),
        ("INSERT INTO stock_move(item_id, quantity) VALUES(1, NULL)", "NOT NULL"),
        ("INSERT INTO item(kind) VALUES('anvil')", "ck_item_kind_known"),
        ("INSERT INTO item(archived) VALUES(2)", "ck_item_archived_flag"),
        ("INSERT INTO plan(pour_on) VALUES('14.3.2026')", "ck_plan_pour_on_date"),
        ("INSERT INTO wax(item_id) VALUES(4711)", "FOREIGN KEY"),
        ("INSERT INTO weighing(vessel_id) VALUES(4711)", "FOREIGN KEY"),
    ],
)
def test_what_a_table_cannot_have_is_refused(
    workshop: WorkshopFile, statement: str, reason: str
) -> None:
    with pytest.raises(IntegrityError, match=reason), workshop.step("Bad") as connection:
        connection.exec_driver_sql(statement)
    assert not workshop.may_undo
