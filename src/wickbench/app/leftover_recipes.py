"""Writing a mix that came about by leftovers down as a recipe of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.texts_marker import N_
from wickbench.domain.recipes import Role
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace
    from wickbench.domain.recipes import Recipe
    from wickbench.storage.workshop_file import Connection

_BLEND = ((Role.WAX, "wax"), (Role.FRAGRANCE, "fragrance"))
_BESIDE = ((Role.DYE, "dye"), (Role.ADDITIVE, "additives"))


def write_mix(workspace: Workspace, mix: Recipe, name: str, *, origin: object = None) -> int:
    """Write a mix as a recipe, to be tested; returns the recipe's key."""
    with workspace.step(N_("Write this mix as a recipe"), origin=origin) as connection:
        return insert_mix(workspace, connection, mix, name)[0]


def insert_mix(
    workspace: Workspace, connection: Connection, mix: Recipe, name: str
) -> tuple[int, int]:
    """The same inside a step; keys of the recipe and of its version."""
    recipe = records.insert(connection, "recipe", {"name": name})
    head: dict[str, object] = {
        "recipe_id": recipe,
        "number": 1,
        "state": "testing",
        "made_ms": workspace.clock.now_ms(),
        "load_basis": mix.load.basis if mix.load is not None else "wax",
        "load_percent": mix.load.percent if mix.load is not None else None,
        "heat_to_c": mix.heat_to_c,
        "add_oil_c": mix.add_c,
        "pour_c": mix.pour_c,
        "stir_min": None if mix.stir_min is None else round(mix.stir_min),
        "cure_days": mix.cure_days,
    }
    version = records.insert(connection, "recipe_version", head)
    for row in _parts(mix):
        records.insert(connection, "recipe_part", {"version_id": version, **row})
    return recipe, version


def _parts(mix: Recipe) -> list[dict[str, object]]:
    """Blends as percent of their kind, the rest in percent of the wax."""
    rows: list[dict[str, object]] = []
    for role, name in _BLEND:
        whole = sum(getattr(mix, name).values())
        for position, (item, parts) in enumerate(getattr(mix, name).items()):
            share = {"parts": round(100 * parts / whole, 3)}
            rows.append({"role": role.value, "position": position, "item_id": item, **share})
    for role, name in _BESIDE:
        for position, (item, of_wax) in enumerate(getattr(mix, name).items()):
            share = {"of_wax_percent": round(of_wax, 4)}
            rows.append({"role": role.value, "position": position, "item_id": item, **share})
    return rows
