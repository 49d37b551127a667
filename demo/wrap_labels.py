"""Labels of the demo that are made for a vessel: a curved front and a wrap, cut out by hand."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from wickbench.app import labels, print_runs, shelf_edit, stock
from wickbench.app.label_wraps import wrap_plan
from wickbench.app.shelf import load_shelf
from wickbench.app.texts_marker import N_
from wickbench.domain.labels import FactsElement
from wickbench.domain.starting_labels import starting_design
from wickbench.domain.wrap_fit import FRONT_SHARE
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

Keys = dict[str, int]

# Pages without cuts, bought as paper that sticks: name and measures.
_SHEETS: Final[tuple[tuple[str, dict[str, Any]], ...]] = (
    (
        "White sheet, two halves to cut",
        {
            "page": "Letter",
            "page_w_mm": 215.9,
            "page_h_mm": 279.4,
            "columns": 1,
            "rows": 2,
            "shape": "rectangle",
            "sticker_w_mm": 195.9,
            "sticker_h_mm": 126.0,
            "left_mm": 10.0,
            "top_mm": 10.0,
            "pitch_x_mm": 195.9,
            "pitch_y_mm": 133.4,
            "surface": "white matt",
        },
    ),
    (
        "White sheet across, strips to cut",
        {
            "page_w_mm": 279.4,
            "page_h_mm": 215.9,
            "columns": 1,
            "rows": 4,
            "shape": "rectangle",
            "sticker_w_mm": 259.4,
            "sticker_h_mm": 46.0,
            "left_mm": 10.0,
            "top_mm": 10.0,
            "pitch_x_mm": 259.4,
            "pitch_y_mm": 49.9,
            "surface": "white matt",
        },
    ),
)
# Label, starting design, vessel, share of the way round (None: all of it).
_LABELS: Final = (
    ("Tapered glass, curved front", "orchard", "Tapered clear glass", FRONT_SHARE),
    ("Tin, all the way round", "sill", "Seamless tin 8 cm", None),
)
# Name, sheet, label, candle, lot, stickers.
_RUNS: Final = (
    ("Curved fronts to try", _SHEETS[0][0], _LABELS[0][0], "CP-32", "26-311-C1", 2),
    ("Wraps for the tins", _SHEETS[1][0], _LABELS[1][0], "BS-8", "26-311-B1", 4),
)


def fill_wrap_labels(workspace: Workspace, keys: Keys) -> None:
    """Sheets to cut from, two labels made for their vessels, and a run of each."""
    for name, details in _SHEETS:
        keys[name] = shelf_edit.new_item(
            workspace, "sheet", {"name": name, "supplier": "Quire & Son"}, details
        )
        stock.buy(
            workspace, keys[name], 10, 5.50, 1.00, bought_on="2026-10-16", supplier="Quire & Son"
        )
    for name, starting, vessel, share in _LABELS:
        keys[name] = _label(workspace, name, starting, keys[vessel], share)
    for name, sheet, label, candle, lot, count in _RUNS:
        run = print_runs.choose_sheet(workspace, None, keys[sheet])
        with workspace.step(N_("Name a print run")) as connection:
            records.update(connection, "print_run", run, {"name": name})
        print_runs.choose_printer(workspace, run, "Workroom laser", "hand feed")
        line = {
            "label_id": keys[label],
            "candle_id": keys[candle],
            "lot_code": lot,
            "poured_on": "2026-11-07",
            "count": count,
        }
        print_runs.add_line(workspace, run, line)


def _label(workspace: Workspace, name: str, starting: str, vessel: int, share: float | None) -> int:
    plan = wrap_plan(load_shelf(workspace).vessels[vessel], workspace.texts, share=share)
    size = plan.size
    design = starting_design(
        starting,
        size.width_mm,
        size.height_mm,
        shape="rectangle" if share else "wrap",
        overlap_mm=size.overlap_mm,
    )
    # The oil of these candles says nothing of what it contains, so the wrap does not either.
    told = tuple(
        replace(one, facts=tuple(name for name in one.facts if name != "ingredients"))
        if isinstance(one, FactsElement)
        else one
        for one in design.elements
    )
    bent = replace(
        design,
        shape="wrap",
        wrap_bottom_mm=size.bottom_mm,
        wrap_top_mm=size.top_mm,
        elements=told,
    )
    return labels.begin_label(workspace, bent, name)
