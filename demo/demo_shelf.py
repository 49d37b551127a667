"""Puts the demo's business, equipment, materials and vessels into a workshop."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import vessel_inputs

from wickbench.app import shelf_edit, stock
from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from types import ModuleType

    from wickbench.app.workspace import Workspace

Keys = dict[str, int]
BOUGHT_ON = "2026-10-16"
_ROW = N_("Add a row")


def fill_shelf(workspace: Workspace, inputs: ModuleType) -> Keys:
    """Everything that is bought or owned; returns the key of each thing by its name."""
    for name, value in inputs.BUSINESS.items():
        workspace.set_setting(name, value)
    keys: Keys = {}
    for table, rows in (
        ("scale", inputs.SCALES),
        ("pot", inputs.POTS),
        ("heat_source", inputs.HEAT),
        ("thermometer", inputs.THERMOMETERS),
        ("printer", inputs.PRINTERS),
    ):
        for row in rows:
            keys[str(row["name"])] = shelf_edit.new_equipment(workspace, table, row)
    _materials(workspace, inputs, keys)
    for vessel in vessel_inputs.VESSELS:
        keys[str(vessel["name"])] = _vessel(workspace, vessel, keys)
    for name, quantity in inputs.COUNTED:
        stock.count(workspace, keys[name], quantity)
    return keys


def _materials(workspace: Workspace, inputs: ModuleType, keys: Keys) -> None:
    for name, supplier, details, bought in inputs.WAXES:
        keys[name] = _material(workspace, "wax", (name, supplier), details, bought)
    for name, supplier, details, bought in inputs.OILS:
        keys[name] = _material(workspace, "fragrance", (name, supplier), details, bought)
    for kind, rows in (
        ("wick", inputs.WICKS),
        ("dye", inputs.DYES),
        ("additive", inputs.ADDITIVES),
        ("lid", inputs.LIDS),
        ("packaging", inputs.PACKAGING),
        ("supplies", inputs.SUPPLIES),
    ):
        for name, details, bought in rows:
            keys[name] = _material(workspace, kind, (name, "Ostrand Supply"), details, bought)


def _material(
    workspace: Workspace,
    kind: str,
    named: tuple[str, str],
    details: dict[str, Any],
    bought: tuple[float, float, float],
) -> int:
    name, supplier = named
    key = shelf_edit.new_item(workspace, kind, {"name": name, "supplier": supplier}, details)
    quantity, paid, freight = bought
    stock.buy(workspace, key, quantity, paid, freight, bought_on=BOUGHT_ON, supplier=supplier)
    return key


def _vessel(workspace: Workspace, vessel: dict[str, Any], keys: Keys) -> int:
    supplier = vessel["supplier"]
    details = dict(vessel["details"])
    if vessel.get("lid"):
        details["lid_id"] = keys[vessel["lid"]]
    key = shelf_edit.new_item(
        workspace, "vessel", {"name": vessel["name"], "supplier": supplier}, details
    )
    for height, diameter in vessel["diameters"]:
        row = {"vessel_id": key, "height_mm": height, "diameter_mm": diameter}
        shelf_edit.add_row(workspace, "vessel_diameter", row, _ROW)
    for level, number, empty, filled, water in vessel["weighings"]:
        row = {
            "vessel_id": key,
            "level": level,
            "vessel_no": number,
            "empty_g": empty,
            "filled_g": filled,
            "water_c": water,
        }
        shelf_edit.add_row(workspace, "weighing", row, _ROW)
    pieces, paid, freight = vessel["bought"]
    stock.buy(workspace, key, pieces, paid, freight, bought_on=BOUGHT_ON, supplier=supplier)
    return key
