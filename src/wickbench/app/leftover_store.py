"""Leftovers as they lie in the file: what each is made of, where it came from, where it went."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wickbench.domain.leftovers_sale import as_recipe
from wickbench.domain.recipes import Recipe, Role
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wickbench.storage.workshop_file import Connection

_MG = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRow:
    """So much of a material in a leftover; ``role`` is wax, fragrance, dye or additive."""

    item_id: int
    role: str
    mass_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class UseRow:
    """Where some of a leftover went.

    Attributes:
        kind: "pour" for a pot, "layered" for vessels filled in layers.
        mass_g: how much of it.
        used_on: ISO date, or empty.
        name: the pot's lot code, or the name of the layered candle.
        plan_id: the plan of the pot.
        candle_id: the layered candle.
    """

    kind: str
    mass_g: float
    used_on: str = ""
    name: str = ""
    plan_id: int | None = None
    candle_id: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftoverRow:
    """A leftover with its materials.

    Attributes:
        source: "pot" (left in a pot), "scooped" (out of candles), "other".
        version_id: recipe version that it was mixed by.
        pour_pot_id: the pot it came from.
        lot_code: the lot of that pot; empty for none.
    """

    id: int
    name: str = ""
    source: str = "pot"
    version_id: int | None = None
    pour_pot_id: int | None = None
    kept_on: str | None = None
    archived: int = 0
    note: str | None = None
    lot_code: str = ""
    parts: tuple[PartRow, ...] = ()
    uses: tuple[UseRow, ...] = ()

    @property
    def mass_g(self) -> float:
        """What was kept."""
        return _sum_g(part.mass_g for part in self.parts)

    @property
    def left_g(self) -> float:
        """What is left of it: kept less what went into pots and layered vessels."""
        return self.left_for(None)

    def left_for(self, plan: int | None) -> float:
        """What a plan can count on: what is left, and what its own pots took already."""
        used = _sum_g(one.mass_g for one in self.uses if plan is None or one.plan_id != plan)
        return max(round((self.mass_g - used) * _MG) / _MG, 0.0)

    def recipe(self, like: Recipe | None = None) -> Recipe:
        """The recipe by which such a mix would be made, with the heat of another.

        Raises:
            OutOfRange: ``recipe.no-wax``.
        """
        masses: defaultdict[tuple[Role, object], float] = defaultdict(float)
        for part in self.parts:
            masses[Role(part.role), part.item_id] += part.mass_g
        return as_recipe(masses, like or Recipe(name=self.name))


def _sum_g(masses: Iterable[float]) -> float:
    """Sum of stored masses, exact to the milligram."""
    return math.fsum(masses)


def read_leftovers(connection: Connection) -> dict[int, LeftoverRow]:
    """Every leftover, put away or not, by its key."""
    parts = _by(records.fetch_all(connection, "leftover_part", order=("position", "id")))
    uses = _uses(connection)
    lots = {
        row["id"]: str(row["lot_code"] or "") for row in records.fetch_all(connection, "pour_pot")
    }
    found = {}
    for row in records.fetch_all(connection, "leftover", order=("id",)):
        known: dict[str, Any] = {name: row[name] for name in LeftoverRow.__slots__ if name in row}
        found[int(str(row["id"]))] = LeftoverRow(
            **known,
            lot_code=lots.get(row["pour_pot_id"], ""),
            parts=tuple(_part(one) for one in parts.get(row["id"], ())),
            uses=tuple(uses.get(row["id"], ())),
        )
    return found


def _by(rows: Iterable[dict[str, Any]]) -> dict[object, list[dict[str, Any]]]:
    grouped: defaultdict[object, list[dict[str, Any]]] = defaultdict(list)
    for row in rows:
        grouped[row["leftover_id"]].append(row)
    return grouped


def _part(row: Mapping[str, Any]) -> PartRow:
    return PartRow(item_id=row["item_id"], role=row["role"], mass_g=row["mass_g"] or 0.0)


def _uses(connection: Connection) -> dict[object, list[UseRow]]:
    """What was weighed into pots that were not given up, and what went into layered vessels."""
    found: defaultdict[object, list[UseRow]] = defaultdict(list)
    pots = {row["id"]: row for row in records.fetch_all(connection, "pour_pot")}
    for row in records.fetch_all(connection, "pour_leftover", order=("id",)):
        pot = pots[row["pour_pot_id"]]
        if row["weighed_g"] and pot["state"] != "dropped":
            use = UseRow(
                kind="pour",
                mass_g=float(str(row["weighed_g"])),
                used_on=str(pot["poured_on"] or ""),
                name=str(pot["lot_code"] or ""),
                plan_id=int(str(pot["plan_id"])),
            )
            found[row["leftover_id"]].append(use)
    jars = {row["id"]: row for row in records.fetch_all(connection, "layered")}
    for row in records.fetch_all(connection, "layer", order=("id",)):
        jar = jars[row["layered_id"]]
        mass_g = float(str(row["mass_g"] or 0.0)) * int(str(jar["count"] or 1))
        use = UseRow(
            kind="layered",
            mass_g=mass_g,
            used_on=str(jar["made_on"] or ""),
            name=str(jar["name"] or ""),
            candle_id=None if jar["candle_id"] is None else int(str(jar["candle_id"])),
        )
        found[row["leftover_id"]].append(use)
    return found
