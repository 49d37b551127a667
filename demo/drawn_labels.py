"""A back label of the demo: the maker's own drawing, facts in a frame, caution drawings."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Final

from wickbench.app import label_elements, labels, print_runs
from wickbench.app.print_run_view import sheet_values
from wickbench.app.sticker_sheets import sheet_of
from wickbench.domain.labels import (
    FactsElement,
    FrameElement,
    LabelDesign,
    OrnamentElement,
    PictogramElement,
    PictureElement,
    TextElement,
)

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace
    from wickbench.domain.sheets import StickerSheet

Keys = dict[str, int]

BACK: Final = "Back label, facts"
SHEET: Final = "Kraft sheet, 3 across"
_RUN: Final = "Backs of the tumblers"
_INK: Final = "#3a2a1c"
_PICTURE_AT: Final = 1
# Label, candle, lot, day, stickers.
_LINE: Final = ("BS-30", "26-311-B2", "2026-11-07", 6)

# A gate with two posts on mossy ground, drawn for this demo.
GATE: Final = """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 48 40">
<style>.bar{fill:none;stroke:#3a2a1c;stroke-width:2;stroke-linecap:round}</style>
<defs><g id="post"><rect x="0" y="6" width="5" height="28" rx="1" fill="#3a2a1c"/>
<circle cx="2.5" cy="4" r="3" fill="#3a2a1c"/></g></defs>
<use href="#post" x="3"/><use href="#post" x="40"/>
<path class="bar" d="M9 14 Q24 6 39 14 M9 20H39 M9 28H39"/>
<path class="bar" d="M15 12.2V32 M21 10.6V32 M27 10.6V32 M33 12.2V32"/>
<path d="M0 38c3-4 6-4 8-2 3-4 7-3 9 0 2-3 6-3 8 0 3-4 6-3 8 0 2-3 6-4 8 0 2-2 5-2 7 2z"
 fill="#6b7a3a"/></svg>
"""


def fill_drawn_labels(workspace: Workspace, keys: Keys) -> None:
    """The back label, the drawing on it, and a print run."""
    sheet = sheet_of(sheet_values(workspace, keys[SHEET]))
    keys[BACK] = labels.begin_label(workspace, _design(sheet), BACK)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "gate.svg"
        path.write_text(GATE, encoding="utf-8")
        label_elements.set_picture(workspace, keys[BACK], _PICTURE_AT, path)
    _run(workspace, keys)


def _design(sheet: StickerSheet) -> LabelDesign:
    wide, high = sheet.sticker_w_mm, sheet.sticker_h_mm
    cautions = ("never-unattended", "away-from-children-and-pets", "trim-wick")
    return LabelDesign(
        width_mm=wide,
        height_mm=high,
        shape=sheet.shape,
        corner_mm=sheet.corner_mm,
        kind="tag",
        elements=(
            FrameElement(
                x_mm=2.0, y_mm=2.0, w_mm=wide - 4.0, h_mm=high - 4.0, figure="rounded",
                corners="hollow", corner_mm=3.0, line_mm=0.4, second_mm=0.7, colour=_INK,
            ),
            PictureElement(x_mm=5.0, y_mm=5.6, w_mm=15.0, h_mm=12.0),
            TextElement(
                x_mm=4.2, y_mm=18.0, w_mm=16.6, h_mm=5.0, text="{business}", size_pt=7.0,
                min_size_pt=5.0, style="Semibold", colour=_INK,
            ),
            OrnamentElement(
                x_mm=5.0, y_mm=23.6, w_mm=15.0, h_mm=2.2, ornament="rule-leaf", colour=_INK
            ),
            *(
                PictogramElement(
                    x_mm=4.6 + 5.5 * at, y_mm=27.0, w_mm=5.2, h_mm=5.2, pictogram=name, colour=_INK
                )
                for at, name in enumerate(cautions)
            ),
            FactsElement(
                x_mm=23.5, y_mm=6.0, w_mm=wide - 29.5, h_mm=high - 12.0, colour=_INK,
                facts=("identity", "net_weight", "lot", "poured_on", "burn_time",
                       "business_address"),
            ),
        ),
    )  # fmt: skip


def _run(workspace: Workspace, keys: Keys) -> None:
    candle, lot, day, count = _LINE
    key = print_runs.choose_sheet(workspace, None, keys[SHEET])
    print_runs.rename_run(workspace, key, _RUN)
    print_runs.choose_printer(workspace, key, "Workroom laser", "hand feed")
    line = {
        "label_id": keys[BACK],
        "candle_id": keys[candle],
        "lot_code": lot,
        "poured_on": day,
        "count": count,
    }
    print_runs.add_line(workspace, key, line)
