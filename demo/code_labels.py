"""Labels of the demo with codes to scan and words on a circle: a box label and a lid seal."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from wickbench.app import begun_sheets, labels, print_runs, shelf_edit, stock
from wickbench.app.print_run_view import sheet_values
from wickbench.app.sticker_sheets import sheet_of
from wickbench.app.texts_marker import N_
from wickbench.domain.labels import CodeElement, LabelDesign, LineElement
from wickbench.domain.starting_labels import starting_design
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

Keys = dict[str, int]

BOXES: Final = "White sheet, 8 large"
ROUNDS: Final = "White rounds, 24 up"
BOX_LABEL: Final = "Box label with codes"
SEAL: Final = "Lid seal"
_BOX_SHEET: Final[dict[str, Any]] = {
    "page": "Letter",
    "page_w_mm": 215.9,
    "page_h_mm": 279.4,
    "columns": 2,
    "rows": 4,
    "shape": "rounded",
    "corner_mm": 3.0,
    "sticker_w_mm": 96.0,
    "sticker_h_mm": 62.0,
    "left_mm": 9.95,
    "top_mm": 11.7,
    "pitch_x_mm": 100.0,
    "pitch_y_mm": 65.0,
    "surface": "white matt",
}
_LEFT_MM: Final = 42.0
# GS1 General Specifications: numbers that begin with 20 to 29 are for use within a house alone.
# The maker's own twelve digits; the check digit is put on.
_OWN_NUMBER: Final = "200000000307"
# Sheet, label, candle, lot, day, stickers.
_RUNS: Final = (
    ("Boxes for the shop", BOXES, BOX_LABEL, (("BS-30", "26-311-B2", 6),)),
    ("Lids of the tumblers", ROUNDS, SEAL, (("BS-30", "26-311-B2", 10),)),
)
_POURED_ON: Final = "2026-11-07"
_BEGUN: Final = (ROUNDS, range(9), "in the drawer under the bench")


def fill_code_labels(workspace: Workspace, keys: Keys) -> None:
    """A sheet for boxes, two labels with a run of each, and a sheet that was begun."""
    keys[BOXES] = shelf_edit.new_item(
        workspace, "sheet", {"name": BOXES, "supplier": "Quire & Son"}, _BOX_SHEET
    )
    stock.buy(
        workspace, keys[BOXES], 15, 7.80, 1.50, bought_on="2026-10-16", supplier="Quire & Son"
    )
    keys[BOX_LABEL] = labels.begin_label(workspace, _box_label(), BOX_LABEL)
    rounds = sheet_of(sheet_values(workspace, keys[ROUNDS]))
    keys[SEAL] = labels.new_label(workspace, "cap", rounds, name=SEAL)
    with workspace.step(N_("Choose the labels")) as connection:
        records.update(connection, "candle", keys["BS-30"], {"lid_label_id": keys[SEAL]})
    for run in _RUNS:
        _run(workspace, run, keys)
    sheet, gone, note = _BEGUN
    begun = begun_sheets.begin_sheet(workspace, keys[sheet], gone)
    if begun is not None:
        begun_sheets.write_note(workspace, begun, note)


def _box_label() -> LabelDesign:
    """The words on the left; on the right what a till, a telephone and the stock room read."""
    width, height = _BOX_SHEET["sticker_w_mm"], _BOX_SHEET["sticker_h_mm"]
    words = starting_design("quill", _LEFT_MM, height)
    codes = (
        LineElement(x_mm=_LEFT_MM, y_mm=5.0, w_mm=0.0, h_mm=height - 10.0, line_mm=0.25),
        CodeElement(x_mm=44.0, y_mm=3.5, w_mm=38.0, h_mm=28.5, text=_OWN_NUMBER, symbol="ean13"),
        CodeElement(x_mm=51.0, y_mm=33.0, w_mm=24.0, h_mm=24.0, text="https://{web}/{code}"),
        CodeElement(
            x_mm=61.0, y_mm=26.5, w_mm=54.0, h_mm=9.0, turn_deg=90.0, text="{lot}", symbol="code128"
        ),
    )
    return replace(
        words,
        width_mm=width,
        shape="rounded",
        corner_mm=_BOX_SHEET["corner_mm"],
        kind="tag",
        elements=(*words.elements, *codes),
    )


def _run(workspace: Workspace, run: tuple[Any, ...], keys: Keys) -> None:
    name, sheet, label, lines = run
    key = print_runs.choose_sheet(workspace, None, keys[sheet])
    print_runs.rename_run(workspace, key, name)
    print_runs.choose_printer(workspace, key, "Workroom laser", "hand feed")
    for candle, lot, count in lines:
        line = {
            "label_id": keys[label],
            "candle_id": keys[candle],
            "lot_code": lot,
            "poured_on": _POURED_ON,
            "count": count,
        }
        print_runs.add_line(workspace, key, line)
