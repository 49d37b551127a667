"""What went to paper, whole: drawing, sheet, stickers, and what each label was made of.

A record never changes. It draws the same sheets again whatever becomes of label, candle or sheet.
"""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.calibrations import correction
from wickbench.app.candle_labels import candle_words
from wickbench.app.label_store import caution_values, design_values, element_values
from wickbench.app.label_values import LabelSubject, label_values
from wickbench.app.print_run_view import label_texts
from wickbench.app.shelf import load_shelf
from wickbench.storage import state

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from wickbench.app.label_making import MadeLabel
    from wickbench.app.label_store import StoredLabel
    from wickbench.app.print_run_view import RunView
    from wickbench.app.print_runs import RunLine
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace
    from wickbench.documents.affine import Affine

COUNTER: Final = "label_print"
SNAPSHOT_VERSION: Final = 2
"""Version 1 kept the texts of each label alone, and no drawing."""


def keep_print(
    workspace: Workspace,
    title: str,
    printed: Mapping[str, Any],
    path: Path | None,
    pictures: Mapping[str, bytes] | None = None,
) -> int:
    """Keep a print; gives its number.

    Args:
        workspace: the open workshop.
        title: what the document is called.
        printed: from `snapshot`, with its ``drawing``.
        path: the file, if it is one.
        pictures: files of the pictures drawn, by SHA-256; they are kept in the workshop file.
    """
    sha256 = hashlib.sha256(path.read_bytes()).hexdigest() if path is not None else None
    with workspace.unjournalled("print_runs") as connection:
        for data in (pictures or {}).values():
            state.store_blob(connection, data, _media_type(data))
        number = state.next_number(connection, COUNTER)
        state.record_print(
            connection,
            at_ms=workspace.clock.now_ms(),
            kind="labels",
            title=title,
            snapshot={**printed, "number": number},
            file_name=path.name if path is not None else None,
            sha256=sha256,
        )
    return number


def snapshot(workspace: Workspace, view: RunView) -> dict[str, Any]:
    """What is printed: sheet, stickers used, and each label's design, values and texts."""
    sheet, run = view.sheet, view.run
    measures = {} if sheet is None else {name: getattr(sheet, name) for name in sheet.__slots__}
    shelf = load_shelf(workspace)
    return {
        "version": SNAPSHOT_VERSION,
        "run": run.id,
        "run_name": run.name,
        "plan": run.plan_id,
        "sheet_id": run.sheet_id,
        "sheet_name": shelf.names.get(run.sheet_id or 0, ""),
        "sheet": measures,
        "used": sorted(run.used),
        "begun": [sorted(one.used) for one in run.begun],
        "sorted_by": run.sorted_by,
        "printer": [run.printer, run.tray],
        "correction": numbers_of(correction(workspace, run.printer, run.tray)),
        "lines": [
            _line(workspace, shelf, line, label, made)
            for line, label, made in zip(view.lines, view.labels, view.made, strict=True)
        ],
        "stickers": [
            [one.sheet_no, one.index, one.entry]
            for one in (view.pages.placements if view.pages else ())
        ],
    }


def numbers_of(fix: Affine) -> list[float]:
    """A printer's correction as it is kept."""
    return [fix.a, fix.b, fix.c, fix.d, fix.e, fix.f]


def _line(
    workspace: Workspace, shelf: Shelf, line: RunLine, label: StoredLabel, made: MadeLabel
) -> dict[str, Any]:
    candle = shelf.candles.get(line.candle_id or 0)
    subject = LabelSubject(
        candle_id=line.candle_id, lot_code=line.lot_code, poured_on=line.poured_on
    )
    values = label_values(shelf, workspace.settings, label_texts(workspace), subject)
    return {
        "label": label.name,
        "label_version": [label.id, label.number],
        "kind": label.kind,
        "candle": line.candle_id,
        "candle_name": candle_words(candle) if candle is not None else "",
        "lot": line.lot_code,
        "poured_on": line.poured_on,
        "pot": line.pour_pot_id,
        "count": line.count,
        "first_number": line.first_number,
        "texts": [text.text for text in made.laid.texts],
        "values": {name: value for name, value in values.items() if value},
        "design": design_values(made.laid.design),
        "elements": [element_values(one) for one in label.design.elements],
        "caution": caution_values(label.caution) if label.caution is not None else None,
    }


def _media_type(data: bytes) -> str:
    return "image/png" if data.startswith(b"\x89PNG") else "image/jpeg"
