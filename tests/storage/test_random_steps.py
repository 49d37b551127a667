"""Hundreds of random steps over several tables, undone and redone twice: every state comes back."""

from __future__ import annotations

import random
from contextlib import suppress
from typing import TYPE_CHECKING, Any

import pytest

from wickbench.storage import records
from wickbench.storage.refusals import InUse

if TYPE_CHECKING:
    from collections.abc import Callable

    from sqlalchemy import Connection

    from storage.conftest import Dump, FakeClock
    from wickbench.storage.workshop_file import WorkshopFile

STEPS = 300
TEXTS = ("", "Larch", "it's", "ö😀", "a,b||'c'", None)


def keys(connection: Connection, table: str) -> list[int]:
    name = records.key_of(table).name
    return [int(str(row[name])) for row in records.fetch_all(connection, table)]


class RandomMaker:
    """Somebody who adds, changes and removes whatever comes to hand."""

    def __init__(self, seed: int) -> None:
        self.dice = random.Random(seed)  # noqa: S311 - repeatable, not secret

    def act(self, connection: Connection) -> None:
        acts = (
            self.add_wax,
            self.add_recipe,
            self.add_part,
            self.add_candle,
            self.add_lot,
            self.change,
            self.change,
            self.remove,
            self.swap_numbers,
        )
        for _ in range(self.dice.randint(1, 4)):
            self.dice.choice(acts)(connection)

    def one(self, connection: Connection, table: str) -> int | None:
        found = keys(connection, table)
        return self.dice.choice(found) if found else None

    def number(self) -> float | None:
        return self.dice.choice(
            (None, 0.0, -1.5, self.dice.random() * 10.0 ** self.dice.randint(-9, 9))
        )

    def add_wax(self, connection: Connection) -> None:
        key = records.insert(
            connection, "item", {"kind": "wax", "name": self.dice.choice(TEXTS[:5])}
        )
        records.insert(connection, "wax", {"item_id": key, "pour_c": self.number()})

    def add_recipe(self, connection: Connection) -> None:
        recipe = records.insert(connection, "recipe", {"note": self.dice.choice(TEXTS)})
        for number in range(1, self.dice.randint(2, 4)):
            records.insert(connection, "recipe_version", {"recipe_id": recipe, "number": number})

    def add_part(self, connection: Connection) -> None:
        version, item = self.one(connection, "recipe_version"), self.one(connection, "item")
        if version is not None:
            values = {"version_id": version, "item_id": item, "parts": self.dice.randint(0, 9) / 8}
            records.insert(connection, "recipe_part", values)

    def add_candle(self, connection: Connection) -> None:
        candle = records.insert(
            connection, "candle", {"version_id": self.one(connection, "recipe_version")}
        )
        records.insert(
            connection,
            "candle_wick",
            {"candle_id": candle, "item_id": self.one(connection, "item")},
        )

    def add_lot(self, connection: Connection) -> None:
        item = self.one(connection, "item")
        if item is not None:
            records.insert(connection, "material_lot", {"item_id": item, "paid_money": 12.5})

    def change(self, connection: Connection) -> None:
        table = self.dice.choice(("item", "wax", "recipe", "candle", "recipe_version"))
        key = self.one(connection, table)
        values: dict[str, Any] = {
            "wax": {"pour_c": self.number(), "flash_c": self.number()},
            "recipe_version": {"heat_to_c": self.number()},
            "item": {"note": self.dice.choice(TEXTS)},
        }.get(table, {"note": self.dice.choice(TEXTS), "archived": self.dice.randint(0, 1)})
        if key is not None:
            records.update(connection, table, key, values)

    def swap_numbers(self, connection: Connection) -> None:
        """Two versions change numbers, which are unique, over a third one."""
        recipe = self.one(connection, "recipe")
        rows = records.fetch_all(connection, "recipe_version", {"recipe_id": recipe})[:2]
        if len(rows) == 2:
            first, second = (int(str(row["id"])) for row in rows)
            records.update(connection, "recipe_version", first, {"number": 999})
            records.update(connection, "recipe_version", second, {"number": rows[0]["number"]})
            records.update(connection, "recipe_version", first, {"number": rows[1]["number"]})

    def remove(self, connection: Connection) -> None:
        table = self.dice.choice(("item", "recipe", "candle", "recipe_version", "recipe_part"))
        key = self.one(connection, table)
        if key is not None:
            with suppress(InUse):
                records.delete(connection, table, key)


@pytest.mark.parametrize("seed", [1, 2])
def test_every_state_comes_back_twice(
    workshop: WorkshopFile, clock: FakeClock, dump: Callable[[WorkshopFile], Dump], seed: int
) -> None:
    maker = RandomMaker(seed)
    states = [dump(workshop)]
    for number in range(STEPS):
        clock.seconds += maker.dice.choice((0.2, 5.0))
        with workshop.step(f"step {number}", merge=maker.dice.choice((None, "a"))) as connection:
            maker.act(connection)
        if workshop.last_tables:
            merged = len(workshop._journal.history._done) < len(states)
            states[len(states) - merged :] = [dump(workshop)]
    assert len(states) > STEPS * 0.6
    for _ in range(2):
        for state in reversed(states[:-1]):
            workshop.undo()
            assert dump(workshop) == state
        assert not workshop.may_undo
        for state in states[1:]:
            workshop.redo()
            assert dump(workshop) == state
        assert not workshop.may_redo
    with workshop.read() as connection:
        assert connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall() == []
        assert connection.exec_driver_sql("PRAGMA integrity_check").scalar() == "ok"
