"""Keeping what is left: from a pot by its real weights, scooped out of candles, or as typed."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wickbench.app.mixes import recipe_of
from wickbench.app.shelf import load_shelf
from wickbench.app.texts_marker import N_
from wickbench.domain.costs import share_out
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.domain.recipes import Role, mix_parts
from wickbench.domain.rounding import half_up
from wickbench.storage import records
from wickbench.storage.refusals import InUse

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.workspace import Workspace
    from wickbench.storage.workshop_file import Connection

    Masses = Mapping[tuple[Role, int], float]

_HEAVIEST_G = 1e6
_ORDER = list(Role)


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """What could be kept of a pot.

    Attributes:
        pour_pot: the pot.
        mass_g: what is left in it by the weights; 0 when nothing is.
        total_g: everything that was weighed into it.
        name: what it would be called.
        kept_g: what was kept of it already.
    """

    pour_pot: int
    mass_g: float
    total_g: float
    name: str
    kept_g: float = 0.0


def offer_of_pot(workspace: Workspace, pour_pot: int) -> Offer:
    """What is left in a pot: everything weighed into it less what was filled into vessels."""
    with workspace.read() as connection:
        row = records.fetch(connection, "pour_pot", pour_pot)
        total_g = math.fsum(pot_masses(connection, pour_pot).values())
        filled_g = math.fsum(
            (fill["count"] if fill["poured"] is None else fill["poured"]) * (fill["each_g"] or 0.0)
            for fill in _rows(connection, "pour_fill", pour_pot)
        )
        kept = records.fetch_all(connection, "leftover", {"pour_pot_id": pour_pot, "source": "pot"})
        kept_g = math.fsum(_kept_g(connection, one["id"]) for one in kept)
        name = _version_name(workspace, connection, row["version_id"])
    left_g = max(total_g - filled_g - kept_g, 0.0)
    day = str(row["poured_on"] or workspace.clock.today().isoformat())
    return Offer(
        pour_pot=pour_pot,
        mass_g=round(left_g, 3),
        total_g=total_g,
        name=_proposed_name(workspace, name, day),
        kept_g=kept_g,
    )


def _rows(connection: Connection, table: str, pour_pot: int) -> list[dict[str, Any]]:
    return records.fetch_all(connection, table, {"pour_pot_id": pour_pot})


def _kept_g(connection: Connection, leftover: object) -> float:
    parts = records.fetch_all(connection, "leftover_part", {"leftover_id": leftover})
    return math.fsum(float(str(part["mass_g"] or 0.0)) for part in parts)


def _version_name(workspace: Workspace, connection: Connection, version: object) -> str:
    if version is None:
        return ""
    row = records.fetch(connection, "recipe_version", int(str(version)))
    recipe = records.fetch(connection, "recipe", int(str(row["recipe_id"])))
    return str(recipe["name"] or "") or workspace.texts(N_("Leftover"))


def _proposed_name(workspace: Workspace, recipe: str, day: str) -> str:
    texts = workspace.texts
    return texts(N_("{recipe}, {day}"), recipe=recipe or texts(N_("Leftover")), day=texts.day(day))


def pot_masses(connection: Connection, pour_pot: int) -> dict[tuple[Role, int], float]:
    """Grams of each material that was really weighed into a pot, leftovers counted oil by oil."""
    masses: defaultdict[tuple[Role, int], list[float]] = defaultdict(list)
    for amount in _rows(connection, "pour_amount", pour_pot):
        masses[Role(amount["role"]), amount["item_id"]].append(amount["weighed_g"] or 0.0)
    for row in _rows(connection, "pour_leftover", pour_pot):
        shares = _shares(connection, row["leftover_id"])
        for key, share in shares.items():
            masses[key].append((row["weighed_g"] or 0.0) * share)
    return {key: math.fsum(each) for key, each in masses.items() if any(each)}


def _shares(connection: Connection, leftover: int) -> dict[tuple[Role, int], float]:
    rows = records.fetch_all(connection, "leftover_part", {"leftover_id": leftover})
    whole_g = math.fsum(float(str(row["mass_g"] or 0.0)) for row in rows)
    shares: defaultdict[tuple[Role, int], float] = defaultdict(float)
    for row in rows if whole_g else ():
        key = (Role(str(row["role"])), int(str(row["item_id"])))
        shares[key] += float(str(row["mass_g"] or 0.0)) / whole_g
    return dict(shares)


# -- keeping ---------------------------------------------------------------------------------------
def keep_from_pot(
    workspace: Workspace, pour_pot: int, mass_g: float, name: str = "", *, origin: object = None
) -> int:
    """Keep what is left in a pot, with each material as it was really weighed; returns its key.

    Raises:
        OutOfRange: ``leftovers.no-mass``, ``leftovers.more-than-pot`` (more than went into it).
        DomainError: ``leftovers.pot-not-weighed``.
    """
    offer = offer_of_pot(workspace, pour_pot)
    if offer.total_g <= 0:
        raise DomainError("leftovers.pot-not-weighed")
    _check(mass_g)
    most_g = offer.total_g - offer.kept_g
    if mass_g > most_g + _slack(most_g):
        raise OutOfRange("leftovers.more-than-pot", mass_g=mass_g, most_g=most_g)
    with workspace.step(N_("Keep a leftover"), origin=origin) as connection:
        row = records.fetch(connection, "pour_pot", pour_pot)
        head = {
            "name": name.strip() or offer.name,
            "source": "pot",
            "version_id": row["version_id"],
            "pour_pot_id": pour_pot,
        }
        return _store(workspace, connection, head, pot_masses(connection, pour_pot), mass_g)


def keep_scooped(
    workspace: Workspace,
    candle: int,
    mass_g: float,
    *,
    count: int | None = None,
    pour_pot: int | None = None,
    name: str = "",
    origin: object = None,
) -> int:
    """Keep wax that was scooped out of candles; returns its key.

    Args:
        workspace: the open workshop.
        candle: which candle.
        mass_g: all of it, without vessels and wicks.
        count: out of how many, for the note.
        pour_pot: the pot they came from, when their lot is known: its real weights are taken.
        name: what to call it.
        origin: who began it.

    Raises:
        OutOfRange: ``leftovers.no-mass``; ``recipe.no-wax`` when the recipe is unfinished.
        DomainError: ``leftovers.no-recipe`` for a candle without a recipe.
    """
    _check(mass_g)
    shelf = load_shelf(workspace)
    made = shelf.candles[candle]
    if made.version_id is None:
        raise DomainError("leftovers.no-recipe", name=made.name)
    masses = _by_recipe(workspace, made.version_id)
    note = None
    if count:
        note = workspace.texts.plural("Out of {n} candle", "Out of {n} candles", count)
    with workspace.step(N_("Keep a leftover"), origin=origin) as connection:
        version: object = made.version_id
        if pour_pot is not None:
            masses = pot_masses(connection, pour_pot)
            version = records.fetch(connection, "pour_pot", pour_pot)["version_id"]
        today = workspace.clock.today().isoformat()
        head = {
            "name": name.strip() or _proposed_name(workspace, made.name, today),
            "source": "scooped",
            "version_id": version,
            "pour_pot_id": pour_pot,
            "note": note,
        }
        return _store(workspace, connection, head, masses, mass_g)


def keep_other(
    workspace: Workspace, version: int, mass_g: float, name: str = "", *, origin: object = None
) -> int:
    """Keep mix of a recipe that no pot here was weighed for; returns its key.

    Raises:
        OutOfRange: ``leftovers.no-mass``; ``recipe.no-wax`` when the recipe is unfinished.
    """
    _check(mass_g)
    masses = _by_recipe(workspace, version)
    with workspace.step(N_("Keep a leftover"), origin=origin) as connection:
        recipe = _version_name(workspace, connection, version)
        today = workspace.clock.today().isoformat()
        head = {
            "name": name.strip() or _proposed_name(workspace, recipe, today),
            "source": "other",
            "version_id": version,
        }
        return _store(workspace, connection, head, masses, mass_g)


def _by_recipe(workspace: Workspace, version: int) -> Masses:
    shelf = load_shelf(workspace)
    parts = mix_parts(recipe_of(shelf.versions[version], shelf))
    return {(part.role, int(str(part.material))): part.share for part in parts}


def _check(mass_g: float) -> None:
    if not math.isfinite(mass_g) or not 0 < mass_g <= _HEAVIEST_G:
        raise OutOfRange("leftovers.no-mass", mass_g=mass_g)


def _slack(mass_g: float) -> float:
    """A scale may show a little more than went in: its step, and wax stuck to the pot before."""
    return max(1.0, 0.005 * mass_g)


def _store(
    workspace: Workspace,
    connection: Connection,
    head: Mapping[str, object],
    masses: Masses,
    mass_g: float,
) -> int:
    """The leftover and its materials; together they weigh what was kept, to the milligram."""
    kept = {"kept_on": workspace.clock.today().isoformat(), **head}
    key = records.insert(connection, "leftover", kept)
    named = sorted(masses, key=lambda one: _ORDER.index(one[0]))
    shares = share_out(int(half_up(mass_g * 1000)), [masses[one] for one in named])
    for position, ((role, item), mass_mg) in enumerate(zip(named, shares, strict=True)):
        if mass_mg:
            part = {
                "leftover_id": key,
                "position": position,
                "item_id": item,
                "role": role.value,
                "mass_g": mass_mg / 1000,
            }
            records.insert(connection, "leftover_part", part)
    return key


# -- putting away ----------------------------------------------------------------------------------
def put_away(workspace: Workspace, leftover: int, *, origin: object = None) -> None:
    """It is used up or was thrown away: it leaves the list, and stays where it was used."""
    with workspace.step(N_("Put a leftover away"), origin=origin) as connection:
        records.update(connection, "leftover", leftover, {"archived": 1})


def bring_back(workspace: Workspace, leftover: int, *, origin: object = None) -> None:
    """Put it back into the list."""
    with workspace.step(N_("Bring back"), origin=origin) as connection:
        records.update(connection, "leftover", leftover, {"archived": 0})


def remove(workspace: Workspace, leftover: int, *, origin: object = None) -> bool:
    """Delete a leftover that was kept by mistake; one that was used is put away instead.

    Returns:
        Whether it was deleted.
    """
    try:
        with workspace.step(N_("Remove a leftover"), origin=origin) as connection:
            records.delete(connection, "leftover", leftover)
    except InUse:
        put_away(workspace, leftover, origin=origin)
        return False
    return True
