"""Temperatures read at the bench as they are stored, and how fast each pot cools by them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from statistics import median
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.heatings import waxes_of
from wickbench.app.texts_marker import N_
from wickbench.domain.cooling import Cooling, Reading
from wickbench.domain.cooling_fit import cooling_of
from wickbench.domain.errors import DomainError
from wickbench.domain.heat_of_waxes import congeals_c
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace
    from wickbench.storage.workshop_file import Connection

FINE_STEP_C: Final = 0.1
COARSE_STEP_C: Final = 1.0
_MS_PER_MIN: Final = 60_000.0
_NOT_HEATED: Final = "fragrance"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingRow:
    """A temperature as it was read."""

    id: int
    at_ms: int
    read_c: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PotCools:
    """What a pot on the bench needs for its curve.

    Attributes:
        readings: in the order in which they were taken.
        room_c: the room as it was read; ``None`` until then.
        congeals_c: where its wax begins to set; ``None`` without a wax.
        mass_g: what is in it.
        heated_g: grams of each material that is heated: all but the new oil.
        oils: keys of those that are oil, bound in a leftover.
        pot_id: key of the pot among the equipment.
    """

    readings: tuple[ReadingRow, ...] = ()
    room_c: float | None = None
    congeals_c: float | None = None
    mass_g: float = 0.0
    heated_g: Mapping[int, float] = field(default_factory=dict)
    oils: frozenset[int] = frozenset()
    pot_id: int | None = None


def load_cooling(workspace: Workspace, pour_pot: int, shelf: Shelf) -> PotCools:
    """The readings of a pot, and what is in it.

    Raises:
        Gone: there is no such pot.
    """
    with workspace.read() as connection:
        return _cooling(connection, records.fetch(connection, "pour_pot", pour_pot), shelf)


def _cooling(connection: Connection, row: Mapping[str, Any], shelf: Shelf) -> PotCools:
    where = {"pour_pot_id": row["id"]}
    heated: dict[int, float] = {}
    new_oil_g = 0.0
    for one in records.fetch_all(connection, "pour_amount", where):
        key, grams = int(str(one["item_id"])), _grams(one)
        if one["role"] == _NOT_HEATED:
            new_oil_g += grams
        else:
            heated[key] = heated.get(key, 0.0) + grams
    oils = _add_leftovers(connection, where, heated)
    readings = records.fetch_all(connection, "temperature_reading", where, ("at_ms", "id"))
    return PotCools(
        readings=tuple(
            ReadingRow(**{name: one[name] for name in ReadingRow.__slots__})  # type: ignore[arg-type]
            for one in readings
            if one["at_ms"] is not None and one["read_c"] is not None
        ),
        room_c=row["room_c"],
        congeals_c=sets_at(shelf, heated),
        mass_g=new_oil_g + sum(heated.values()),
        heated_g=heated,
        oils=frozenset(oils),
        pot_id=row["pot_id"],
    )


def _grams(row: Mapping[str, Any]) -> float:
    """What was weighed, until then what is planned."""
    grams = row["planned_g"] if row["weighed_g"] is None else row["weighed_g"]
    return float(grams or 0.0)


def _add_leftovers(
    connection: Connection, where: Mapping[str, object], heated: dict[int, float]
) -> set[int]:
    """Add what leftovers bring to the grams of each material; gives which of it is oil."""
    oils: set[int] = set()
    for one in records.fetch_all(connection, "pour_leftover", where):
        parts = records.fetch_all(connection, "leftover_part", {"leftover_id": one["leftover_id"]})
        whole = sum(float(str(part["mass_g"] or 0.0)) for part in parts)
        for part in parts if whole else ():
            key = int(str(part["item_id"]))
            share = float(str(part["mass_g"] or 0.0)) / whole
            heated[key] = heated.get(key, 0.0) + share * _grams(one)
            if part["role"] == _NOT_HEATED:
                oils.add(key)
    return oils


def sets_at(shelf: Shelf, materials: Iterable[object]) -> float | None:
    """Where a mix begins to set; ``None`` when nothing in it is a wax that is known."""
    waxes = waxes_of(shelf, materials)
    if not waxes:
        return None
    try:
        return congeals_c(waxes.values())
    except DomainError:
        return None


def reads_to_c(shelf: Shelf, readings: Sequence[ReadingRow]) -> float:
    """The finest step of the thermometers; without one what the typed digits say."""
    steps = [
        float(step)
        for row in shelf.equipment.thermometers
        if isinstance(step := row.get("reads_to_c"), (int, float))
    ]
    if steps:
        return min(steps)
    whole = all(float(one.read_c).is_integer() for one in readings)
    return COARSE_STEP_C if whole else FINE_STEP_C


def curve_of(cools: PotCools, shelf: Shelf) -> Cooling:
    """The curve through the readings; minutes are counted from the first.

    Raises:
        OutOfRange: as ``cooling_of``: too few, out of order, not cooling, set already.
    """
    room_c = cools.room_c if cools.room_c is not None else 0.0
    sets_c = cools.congeals_c if cools.congeals_c is not None else room_c
    return cooling_of(
        [Reading(minute_of(cools, one.at_ms), one.read_c) for one in cools.readings],
        room_c=room_c,
        congeals_c=sets_c,
        thermometer_reads_to_c=reads_to_c(shelf, cools.readings),
    )


def minute_of(cools: PotCools, at_ms: int) -> float:
    """Minutes since the first reading."""
    return (at_ms - cools.readings[0].at_ms) / _MS_PER_MIN if cools.readings else 0.0


def moment_of(cools: PotCools, minute: float) -> int:
    """The moment of a minute after the first reading, as UTC milliseconds."""
    return round(cools.readings[0].at_ms + minute * _MS_PER_MIN) if cools.readings else 0


# -- acts ----------------------------------------------------------------------------------------
def note_reading(
    workspace: Workspace, pour_pot: int, read_c: float, room_c: float, *, origin: object = None
) -> int:
    """Keep what the thermometer shows now, with the room; returns the reading's key."""
    at_ms = workspace.clock.now_ms()
    with workspace.step(N_("Note a temperature"), origin=origin) as connection:
        records.update(connection, "pour_pot", pour_pot, {"room_c": room_c})
        row = {"pour_pot_id": pour_pot, "at_ms": at_ms, "read_c": read_c}
        return records.insert(connection, "temperature_reading", row)


def set_room(
    workspace: Workspace, pour_pot: int, room_c: float | None, *, origin: object = None
) -> None:
    """Correct the temperature of the room."""
    with workspace.step(N_("Note the room temperature"), origin=origin) as connection:
        records.update(connection, "pour_pot", pour_pot, {"room_c": room_c})


def forget_readings(
    workspace: Workspace, pour_pot: int, keys: Iterable[int], *, origin: object = None
) -> None:
    """Take readings back as one act: a wrong one, or all of them when the pot was warmed again."""
    wanted = set(keys)
    with workspace.step(N_("Take temperatures back"), origin=origin) as connection:
        for row in records.fetch_all(
            connection, "temperature_reading", {"pour_pot_id": pour_pot}, ("id",)
        ):
            if row["id"] in wanted:
                records.delete(connection, "temperature_reading", int(str(row["id"])))


# -- what earlier pours tell of a pot -------------------------------------------------------------
@dataclass(frozen=True, slots=True)
class PotLoses:
    """How fast a pot loses heat, by its own earlier readings.

    Attributes:
        rates_g_per_min: k · mass of each earlier pour; k alone goes down as the mass goes up.
    """

    rates_g_per_min: tuple[float, ...]

    @property
    def pours(self) -> int:
        """How many earlier pours tell it."""
        return len(self.rates_g_per_min)

    def rate_per_min(self, mass_g: float) -> tuple[float, float, float]:
        """The pot’s k with so much in it: lowest, middle, highest."""
        rates = self.rates_g_per_min
        return (min(rates) / mass_g, median(rates) / mass_g, max(rates) / mass_g)


def losses_of_pots(workspace: Workspace, shelf: Shelf) -> dict[int, PotLoses]:
    """What is known of each pot of the equipment from pours at which it was read twice or more."""
    found: dict[int, list[float]] = {}
    with workspace.read() as connection:
        read = {row["pour_pot_id"] for row in records.fetch_all(connection, "temperature_reading")}
        pots = [_cooling(connection, records.fetch(connection, "pour_pot", int(str(key))), shelf)
                for key in sorted(read, key=str)]  # fmt: skip
    for cools in pots:
        if cools.pot_id is None or cools.room_c is None or cools.mass_g <= 0:
            continue
        try:
            curve = curve_of(cools, shelf)
        except DomainError:
            continue
        found.setdefault(cools.pot_id, []).append(curve.rate_per_min * cools.mass_g)
    return {key: PotLoses(tuple(rates)) for key, rates in found.items()}
