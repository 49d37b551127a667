"""Puts the demo's recipes, candles, burn tests and the plan into a workshop."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wickbench.app import candle_state, plans, shelf_edit
from wickbench.app.shelf import load_shelf
from wickbench.app.texts_marker import N_
from wickbench.storage import records

if TYPE_CHECKING:
    from types import ModuleType

    from wickbench.app.workspace import Workspace

Keys = dict[str, int]
_PART = N_("Add a line")


def fill_making(workspace: Workspace, inputs: ModuleType, keys: Keys) -> None:
    """Everything that is made of the shelf; adds the key of each thing by its name or code."""
    for recipe in inputs.RECIPES:
        _recipe(workspace, recipe, keys)
    for candle in inputs.CANDLES:
        _candle(workspace, candle, keys)
    keys["plan"] = _plan(workspace, inputs.PLAN, keys)


def _recipe(workspace: Workspace, recipe: tuple[Any, ...], keys: Keys) -> None:
    name, words, state, waxes, oils, load, basis, dyes, additives, cure_days = recipe
    key = shelf_edit.new_recipe(workspace, name)
    with workspace.read() as connection:
        version = records.fetch_all(connection, "recipe_version", {"recipe_id": key})[0]["id"]
    for role, parts, amount in (
        ("wax", waxes, "parts"),
        ("fragrance", oils, "parts"),
        ("dye", dyes, "of_wax_percent"),
        ("additive", additives, "of_wax_percent"),
    ):
        for position, (material, value) in enumerate(parts.items()):
            row = {"version_id": version, "role": role, "position": position}
            row |= {"item_id": keys[material], amount: float(value)}
            shelf_edit.add_row(workspace, "recipe_part", row, _PART)
    with workspace.step(N_("Write a recipe")) as connection:
        records.update(connection, "recipe", key, {"scent_words": words})
        values = {
            "state": state,
            "load_percent": load,
            "load_basis": basis,
            "stir_min": 2,
            "cure_days": cure_days,
        }
        records.update(connection, "recipe_version", int(str(version)), values)
    keys[f"recipe {name}"] = int(str(version))


def _candle(workspace: Workspace, candle: tuple[Any, ...], keys: Keys) -> None:
    name, code, recipe, vessel, wicks, lid, identity, price, declared, tests = candle
    values = {
        "name": name,
        "code": code,
        "version_id": keys[f"recipe {recipe}"],
        "vessel_id": keys[vessel],
        "lid_id": keys[lid] if lid else None,
        "identity": identity,
        "price_money": price,
        "declared_net_g": declared,
    }
    key = shelf_edit.new_candle(workspace, values)
    for position, wick in enumerate(wicks):
        row = {"candle_id": key, "position": position, "item_id": keys[wick]}
        shelf_edit.add_row(workspace, "candle_wick", row, _PART)
    for state, who, when, note in tests:
        shelf = load_shelf(workspace)
        made = shelf.candles[key]
        candle_state.record_test(
            workspace, shelf, made, state, tested_by=who, tested_on=when, note=note
        )
    keys[code] = key


def _plan(workspace: Workspace, plan: dict[str, Any], keys: Keys) -> int:
    key = plans.new_plan(workspace)
    values = {name: plan[name] for name in ("name", "pour_on", "note", "extra_g", "extra_percent")}
    with workspace.step(N_("Write a plan")) as connection:
        records.update(connection, "plan", key, values)
    for code, count in plan["lines"]:
        plans.add_line(workspace, key, {"candle_id": keys[code], "count": count})
    return key
