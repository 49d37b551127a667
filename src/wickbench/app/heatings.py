"""Heatings of pots: what they take, how they are logged, and what the maker's own tell."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.texts_marker import N_
from wickbench.domain.catalog import Wax
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.domain.heat import ALUMINIUM, GLASS, STEEL, Substance
from wickbench.domain.heat_learned import FEWEST_POURS, Learned, LoggedHeating, learn
from wickbench.domain.heat_of_waxes import pot_portions
from wickbench.domain.heating import Heating
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable

    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace

Row = Mapping[str, object]

BATH_TO_C: Final = 95.0
"""How hot the water of a bath gets: common practice, no source."""
_BATH_ABOVE_C: Final = 3.0
_J_PER_KJ: Final = 1000.0
_METALS: Mapping[object, Substance] = MappingProxyType(
    {"aluminium": ALUMINIUM, "steel": STEEL, "glass": GLASS}
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Heater:
    """A heat source as far as heating needs it; ``kind`` is a hot plate until it is said."""

    id: int
    name: str
    kind: str = "hotplate"
    power_w: float | None = None
    bath_g: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatingRow:
    """A timed heating as stored; ``seconds`` is ``None`` while the pot is on the heat."""

    id: int
    heat_source_id: int | None = None
    pour_pot_id: int | None = None
    logged_on: str | None = None
    heat_j: int | None = None
    power_w: int | None = None
    from_c: float | None = None
    to_c: float | None = None
    started_ms: int | None = None
    seconds: int | None = None
    left_out: bool = False
    note: str | None = None

    @property
    def minutes(self) -> float | None:
        """How long it took."""
        return None if self.seconds is None else self.seconds / 60

    @property
    def logged(self) -> LoggedHeating | None:
        """The same for the domain; ``None`` while something is missing or makes no sense."""
        if self.heat_j is None or self.power_w is None or self.minutes is None:
            return None
        try:
            return LoggedHeating(self.heat_j / _J_PER_KJ, self.power_w, self.minutes)
        except DomainError:
            return None


def heater_of(row: Row | None) -> Heater | None:
    """What a stored heat source says; ``None`` without one."""
    if row is None:
        return None
    power, bath = row.get("power_w"), row.get("bath_g")
    return Heater(
        id=int(str(row["id"])),
        name=str(row.get("name") or ""),
        kind=str(row.get("heater") or "hotplate"),
        power_w=float(power) if isinstance(power, (int, float)) else None,
        bath_g=float(bath) if isinstance(bath, (int, float)) else 0.0,
    )


def heater_with_key(shelf: Shelf, key: int | None) -> Heater | None:
    """The heat source of this key."""
    rows = (row for row in shelf.equipment.heat_sources if row.get("id") == key)
    return heater_of(next(rows, None))


def waxes_of(shelf: Shelf, materials: Iterable[object]) -> dict[object, Wax]:
    """Those of the materials that are waxes, with what is known of them."""
    found: dict[object, Wax] = {}
    for key in materials:
        material = shelf.materials.get(key) if isinstance(key, int) else None
        if material is not None and isinstance(material.details, Wax):
            found[key] = material.details
    return found


def heating_of(
    masses_g: Mapping[Any, float],
    shelf: Shelf,
    *,
    pot: Row | None,
    heater: Heater | None,
    from_c: float,
    to_c: float,
    oils: Collection[Any] = (),
) -> Heating:
    """A pot to be heated, with the water of its bath and its own metal.

    Args:
        masses_g: grams of each material, without the oil, which goes in later.
        shelf: where the waxes are known.
        pot: its row; ``None`` leaves its metal out.
        heater: what heats it; only a hot plate has a bath.
        from_c: how warm everything is before.
        to_c: how warm the wax is to be.
        oils: those of the materials that are oil, bound in a leftover.

    Raises:
        OutOfRange: as ``Heating``.
    """
    bath_g = heater.bath_g if heater is not None and heater.kind == "hotplate" else 0.0
    empty = (pot or {}).get("empty_g")
    return Heating(
        waxes=pot_portions(masses_g, waxes_of(shelf, masses_g), from_c, oils),
        to_c=to_c,
        water_g=bath_g,
        water_from_c=max(from_c, 0.0),
        water_to_c=min(max(BATH_TO_C, to_c + _BATH_ABOVE_C), 100.0),
        metal_g=float(empty) if isinstance(empty, (int, float)) else 0.0,
        metal=_METALS.get((pot or {}).get("metal"), STEEL),
        metal_from_c=from_c,
    )


# -- what was logged -----------------------------------------------------------------------------
def load_heatings(workspace: Workspace, heat_source: int | None = None) -> tuple[HeatingRow, ...]:
    """Timed heatings, the latest first; those of one heat source when it is named."""
    where = {} if heat_source is None else {"heat_source_id": heat_source}
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "heating", where, ("-started_ms", "-id"))
    return tuple(_row(row) for row in rows)


def heating_of_pot(workspace: Workspace, pour_pot: int) -> HeatingRow | None:
    """The latest heating of a pot that is being poured."""
    with workspace.read() as connection:
        rows = records.fetch_all(
            connection, "heating", {"pour_pot_id": pour_pot}, ("-started_ms", "-id")
        )
    return _row(rows[0]) if rows else None


def _row(row: Mapping[str, Any]) -> HeatingRow:
    known = {name: row[name] for name in HeatingRow.__slots__ if name in row}
    return HeatingRow(**known | {"left_out": bool(row["left_out"])})


@dataclass(frozen=True, slots=True)
class Told:
    """What the heatings of one heat source tell.

    Attributes:
        learned: ``None`` before two that count.
        far_off: keys of those that the program left out because they lie far off the others.
        trouble: why nothing can be learned though there are enough; ``None`` when nothing is wrong.
    """

    learned: Learned | None
    far_off: frozenset[int] = frozenset()
    trouble: OutOfRange | None = None


def told_by(rows: Iterable[HeatingRow]) -> Told:
    """What the maker's own heatings tell of how much of the power arrives."""
    counted = [
        (row.id, logged) for row in rows if not row.left_out and (logged := row.logged) is not None
    ]
    if len(counted) < FEWEST_POURS:
        return Told(None)
    try:
        learned = learn([logged for _, logged in counted])
    except OutOfRange as error:
        return Told(None, trouble=error)
    return Told(learned, frozenset(counted[place][0] for place in learned.left_out))


def told_by_source(workspace: Workspace) -> dict[int, Told]:
    """What is told of each heat source that has timed heatings."""
    by_source: dict[int, list[HeatingRow]] = {}
    for row in load_heatings(workspace):
        if row.heat_source_id is not None:
            by_source.setdefault(row.heat_source_id, []).append(row)
    return {key: told_by(rows) for key, rows in by_source.items()}


# -- acts ----------------------------------------------------------------------------------------
def begin_heating(
    workspace: Workspace,
    pour_pot: int | None,
    heater: Heater | None,
    from_c: float,
    *,
    origin: object = None,
) -> int:
    """A pot goes on the heat; returns the key of the heating."""
    values = {
        "heat_source_id": heater.id if heater else None,
        "pour_pot_id": pour_pot,
        "logged_on": workspace.clock.today().isoformat(),
        "power_w": None if heater is None or heater.power_w is None else int(heater.power_w),
        "from_c": from_c,
        "started_ms": workspace.clock.now_ms(),
    }
    with workspace.step(N_("Put a pot on the heat"), origin=origin) as connection:
        return records.insert(connection, "heating", values)


def end_heating(
    workspace: Workspace, heating: HeatingRow, heat: Heating, *, origin: object = None
) -> None:
    """The pot is hot: the time that it took, and the heat as it is computed now, are kept.

    Raises:
        OutOfRange: ``heat.minutes``; less than a tenth of a minute has passed.
    """
    seconds = round((workspace.clock.now_ms() - (heating.started_ms or 0)) / 1000)
    LoggedHeating(max(heat.energy_kj, 0.001), heating.power_w or 1.0, seconds / 60)
    values = _heat_values(heat) | {"seconds": seconds}
    with workspace.step(N_("Note how long heating took"), origin=origin) as connection:
        records.update(connection, "heating", heating.id, values)


def correct_heating(
    workspace: Workspace,
    heating: HeatingRow,
    heat: Heating,
    from_c: float,
    *,
    origin: object = None,
) -> None:
    """Other temperatures were read: the heat is computed again."""
    values: dict[str, object] = {"from_c": from_c}
    if heating.seconds is not None:
        values |= _heat_values(heat)
    with workspace.step(N_("Correct a heating"), origin=origin) as connection:
        records.update(connection, "heating", heating.id, values)


def _heat_values(heat: Heating) -> dict[str, object]:
    return {"heat_j": round(heat.energy_kj * _J_PER_KJ), "to_c": heat.to_c}


def leave_out(workspace: Workspace, heating: int, *, out: bool, origin: object = None) -> None:
    """Leave a heating out of what is learned, or count it again."""
    name = N_("Leave a heating out") if out else N_("Count a heating again")
    with workspace.step(name, origin=origin) as connection:
        records.update(connection, "heating", heating, {"left_out": int(out)})


def remove_heating(workspace: Workspace, heating: int, *, origin: object = None) -> None:
    """Take a heating out of the log."""
    with workspace.step(N_("Remove a heating"), origin=origin) as connection:
        records.delete(connection, "heating", heating)
