"""Putting things on the shelf, doubling them, taking them away. Each is one undoable act."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.texts_marker import N_
from wickbench.storage import records
from wickbench.storage.refusals import InUse

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.workspace import Workspace
    from wickbench.storage.workshop_file import Connection

# Parts that are copied with their whole: table, column that names the whole, its own parts.
_ITEM_PARTS = {"vessel": (("vessel_diameter", "vessel_id"),)}
_RECIPE_PARTS = (("recipe_part", "version_id"),)
_CANDLE_PARTS = (("candle_wick", "candle_id"), ("candle_extra", "candle_id"))


def new_item(
    workspace: Workspace,
    kind: str,
    values: Mapping[str, object] | None = None,
    details: Mapping[str, object] | None = None,
    *,
    origin: object = None,
) -> int:
    """A new material or vessel of a kind; returns its key."""
    with workspace.step(N_("Add to the shelf"), origin=origin) as connection:
        key = records.insert(connection, "item", {"kind": kind, **(values or {})})
        records.insert(connection, kind, {"item_id": key, **(details or {})})
    return key


def duplicate_item(workspace: Workspace, key: int, *, origin: object = None) -> int:
    """A copy of a material or vessel with "copy" to its name; weighings stay with the first."""
    with workspace.step(N_("Duplicate"), origin=origin) as connection:
        item = records.fetch(connection, "item", key)
        kind = str(item["kind"])
        copy = _copied(connection, "item", item, {"name": _copy_name(workspace, item["name"])})
        details = records.fetch(connection, kind, key)
        records.insert(connection, kind, {**details, "item_id": copy})
        for table, column in _ITEM_PARTS.get(kind, ()):
            _copy_parts(connection, table, column, key, copy)
    return copy


def remove_item(workspace: Workspace, key: int, *, origin: object = None) -> bool:
    """Take a thing off the shelf; what is still named somewhere is put away instead of deleted.

    Returns:
        Whether it was deleted; ``False`` when it was put away.
    """
    return _remove(workspace, "item", key, origin)


def new_recipe(workspace: Workspace, name: str = "", *, origin: object = None) -> int:
    """A new recipe with its first version, an idea; returns the recipe's key."""
    with workspace.step(N_("Add a recipe"), origin=origin) as connection:
        recipe = records.insert(connection, "recipe", {"name": name})
        first = {
            "recipe_id": recipe,
            "number": 1,
            "load_basis": "wax",
            "made_ms": workspace.clock.now_ms(),
        }
        records.insert(connection, "recipe_version", first)
    return recipe


def duplicate_recipe(workspace: Workspace, recipe: int, *, origin: object = None) -> int:
    """A copy of a recipe: its newest version becomes the copy's first, an idea again."""
    with workspace.step(N_("Duplicate"), origin=origin) as connection:
        old = records.fetch(connection, "recipe", recipe)
        copy = _copied(connection, "recipe", old, {"name": _copy_name(workspace, old["name"])})
        versions = records.fetch_all(
            connection, "recipe_version", {"recipe_id": recipe}, ("number",)
        )
        if versions:
            _copy_version(workspace, connection, versions[-1], {"recipe_id": copy, "number": 1})
    return copy


def new_version(workspace: Workspace, version: int, *, origin: object = None) -> int:
    """The next version of a recipe, begun as a copy of this one; returns its key."""
    with workspace.step(N_("Begin a new version"), origin=origin) as connection:
        old = records.fetch(connection, "recipe_version", version)
        known = records.fetch_all(
            connection, "recipe_version", {"recipe_id": old["recipe_id"]}, ("number",)
        )
        return _copy_version(
            workspace, connection, old, {"number": int(str(known[-1]["number"])) + 1}
        )


def _copy_version(
    workspace: Workspace,
    connection: Connection,
    old: Mapping[str, object],
    changed: Mapping[str, object],
) -> int:
    fresh = {"state": "idea", "frozen": 0, "made_ms": workspace.clock.now_ms(), **changed}
    copy = _copied(connection, "recipe_version", old, fresh)
    for table, column in _RECIPE_PARTS:
        _copy_parts(connection, table, column, old["id"], copy)
    return copy


def remove_recipe(workspace: Workspace, recipe: int, *, origin: object = None) -> bool:
    """As ``remove_item``, for a recipe with all its versions."""
    return _remove(workspace, "recipe", recipe, origin)


def new_candle(
    workspace: Workspace, values: Mapping[str, object] | None = None, *, origin: object = None
) -> int:
    """A new candle; returns its key."""
    with workspace.step(N_("Add a candle"), origin=origin) as connection:
        return records.insert(connection, "candle", {"fill_to": "line", **(values or {})})


def duplicate_candle(workspace: Workspace, candle: int, *, origin: object = None) -> int:
    """A copy of a candle, untested and without its code."""
    with workspace.step(N_("Duplicate"), origin=origin) as connection:
        old = records.fetch(connection, "candle", candle)
        fresh = {"name": _copy_name(workspace, old["name"]), "code": None}
        copy = _copied(connection, "candle", old, fresh)
        for table, column in _CANDLE_PARTS:
            _copy_parts(connection, table, column, candle, copy)
    return copy


def remove_candle(workspace: Workspace, candle: int, *, origin: object = None) -> bool:
    """As ``remove_item``, for a candle."""
    return _remove(workspace, "candle", candle, origin)


def bring_back(workspace: Workspace, table: str, key: int, *, origin: object = None) -> None:
    """Put an item, a recipe or a candle that was put away back into its list."""
    with workspace.step(N_("Bring back"), origin=origin) as connection:
        records.update(connection, table, key, {"archived": 0})


def new_equipment(
    workspace: Workspace,
    table: str,
    values: Mapping[str, object] | None = None,
    *,
    origin: object = None,
) -> int:
    """A new scale, pot, heat source, thermometer or printer; returns its key."""
    with workspace.step(N_("Add equipment"), origin=origin) as connection:
        return records.insert(connection, table, dict(values or {}))


def duplicate_equipment(
    workspace: Workspace, table: str, key: int, *, origin: object = None
) -> int:
    """A copy of a piece of equipment."""
    with workspace.step(N_("Duplicate"), origin=origin) as connection:
        old = records.fetch(connection, table, key)
        return _copied(connection, table, old, {"name": _copy_name(workspace, old["name"])})


def remove_row(
    workspace: Workspace, table: str, key: int, label: str, *, origin: object = None
) -> None:
    """Delete one row of any table as one act named ``label``.

    Raises:
        InUse: something else names it.
    """
    with workspace.step(label, origin=origin) as connection:
        records.delete(connection, table, key)


def add_row(
    workspace: Workspace,
    table: str,
    values: Mapping[str, object],
    label: str,
    *,
    origin: object = None,
) -> int:
    """Insert one row of any table as one act named ``label``; returns its key."""
    with workspace.step(label, origin=origin) as connection:
        return records.insert(connection, table, dict(values))


def _remove(workspace: Workspace, table: str, key: int, origin: object) -> bool:
    try:
        remove_row(workspace, table, key, N_("Remove"), origin=origin)
    except InUse:
        with workspace.step(N_("Put away"), origin=origin) as connection:
            records.update(connection, table, key, {"archived": 1})
        return False
    return True


def _copied(
    connection: Connection, table: str, old: Mapping[str, object], changed: Mapping[str, object]
) -> int:
    values = {name: value for name, value in old.items() if name != "id"}
    return records.insert(connection, table, {**values, **changed})


def _copy_parts(connection: Connection, table: str, column: str, old: object, new: int) -> None:
    for part in records.fetch_all(connection, table, {column: old}, ("id",)):
        _copied(connection, table, part, {column: new})


def _copy_name(workspace: Workspace, name: object) -> str:
    return workspace.texts(N_("{name} (copy)"), name=str(name or "")).strip()
