"""A workshop with two candles, two sticker sheets and labels, for tests of labels and printing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.app import print_runs, shelf_edit
from wickbench.app.label_making import LabelMaker
from wickbench.app.label_store import stored_labels
from wickbench.app.print_run_view import RunView, run_view, sheet_values
from wickbench.app.shelf import load_shelf
from wickbench.app.sticker_sheets import sheet_of
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace
    from wickbench.domain.sheets import StickerSheet

# Measures of our own: three columns of seven on A4 and 24 circles on Letter.
THREE_BY_SEVEN: dict[str, object] = {
    "page": "A4", "columns": 3, "rows": 7, "sticker_w_mm": 62.0, "sticker_h_mm": 36.0,
    "left_mm": 9.0, "top_mm": 12.5, "pitch_x_mm": 65.0, "pitch_y_mm": 39.5,
    "shape": "rounded", "corner_mm": 2.0,
}  # fmt: skip
CIRCLES: dict[str, object] = {
    "page": "Letter", "columns": 4, "rows": 6, "sticker_w_mm": 42.0, "sticker_h_mm": 42.0,
    "left_mm": 12.0, "top_mm": 9.0, "pitch_x_mm": 50.0, "pitch_y_mm": 44.0, "shape": "circle",
}  # fmt: skip
BUSINESS = {
    "business_name": "Tallow & Tide",
    "business_street": "3 Quay Row",
    "business_city": "Saltby",
    "business_postcode": "00000",
}


@dataclass(frozen=True)
class Kept:
    """Keys of what was put into the workshop."""

    three_by_seven: int
    circles: int
    bramble: int
    cedar: int


def fill_workshop(workspace: Workspace) -> Kept:
    """Put in a wax, a vessel, a wick, two candles, two sheets and the business."""
    for name, value in BUSINESS.items():
        workspace.set_setting(name, value)
    wax = shelf_edit.new_item(workspace, "wax", {"name": "Meadow soy"}, {"wax_class": "soy"})
    wick = shelf_edit.new_item(workspace, "wick", {"name": "Flat 9"}, {"wick_kind": "cotton"})
    measures: dict[str, object] = {
        "outer_height_mm": 90.0, "outer_top_mm": 80.0, "outer_bottom_mm": 80.0, "base_mm": 70.0,
        "straight_from_mm": 10.0, "straight_to_mm": 80.0, "vessel_kind": "jar", "glass": "glass",
    }  # fmt: skip
    vessel = shelf_edit.new_item(workspace, "vessel", {"name": "Tumbler"}, measures)
    sheet = shelf_edit.new_item(workspace, "sheet", {"name": "Kraft"}, THREE_BY_SEVEN)
    circles = shelf_edit.new_item(workspace, "sheet", {"name": "Rounds"}, CIRCLES)
    with workspace.step("Fill") as connection:
        recipe = records.insert(connection, "recipe", {"name": "Bramble"})
        version = records.insert(connection, "recipe_version", {"recipe_id": recipe, "number": 1})
        part = {"version_id": version, "item_id": wax, "role": "wax", "parts": 1.0}
        records.insert(connection, "recipe_part", part)
        made = []
        for name in ("Bramble & smoke", "Cedar porch"):
            row = {"name": name, "version_id": version, "vessel_id": vessel}
            candle = records.insert(connection, "candle", {**row, "declared_net_g": 221.0})
            records.insert(connection, "candle_wick", {"candle_id": candle, "item_id": wick})
            made.append(candle)
    return Kept(sheet, circles, *made)


def sheet_in(workspace: Workspace, key: int) -> StickerSheet:
    """A sheet of the workshop as drawn."""
    return sheet_of(sheet_values(workspace, key))


def view_of(workspace: Workspace, run: int | None) -> RunView:
    """A run of the workshop, placed."""
    labels = {one.id: one for one in stored_labels(workspace, archived=True)}
    stored = print_runs.print_run(workspace, run)
    return run_view(workspace, LabelMaker(workspace), load_shelf(workspace), labels, stored)


def keys_of(view: RunView) -> set[str]:
    """Keys of a view's findings."""
    return {one.key for one in view.findings}
