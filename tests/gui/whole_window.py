"""A window over a workshop with one of everything, walked through page by page."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QApplication

from wickbench.app import shelf_edit
from wickbench.app.references import ITEM_KINDS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.app.workspace import Workspace
    from wickbench.gui.main_window import MainWindow

EQUIPMENT = ("scale", "pot", "heat_source", "thermometer", "printer")


def mine(text: str) -> str:
    """User data, marked so that a walk can tell it from the program's sentences."""
    return f"«{text}»"


def fill(workspace: Workspace) -> None:
    """One of every kind of thing."""
    for kind in sorted(ITEM_KINDS):
        shelf_edit.new_item(workspace, kind, {"name": mine(kind), "supplier": mine("by")})
    for table in EQUIPMENT:
        shelf_edit.new_equipment(workspace, table, {"name": mine(table)})
    recipe = shelf_edit.new_recipe(workspace, mine("recipe"))
    shelf_edit.new_candle(workspace, {"name": mine("candle")})
    shelf_edit.new_version(workspace, recipe)


def stations(window: MainWindow) -> Iterator[str]:
    """Goes to each dock, each page, and each thing in a dock; yields where it is."""
    bench = window.workbench
    assert bench is not None
    for key, dock in bench.docks.items():
        bench.go(key)
        for record in [dock.key(row) for row in dock.rows()]:
            dock.show_record(record)
            QApplication.processEvents()
            yield f"{key} {record}"
    for key in (*bench.stage_actions, *bench.place_actions):
        bench.show_page(key)
        QApplication.processEvents()
        yield key
    with suppress(RuntimeError):  # the popup deletes itself
        window.find_anything()
        QApplication.processEvents()
        yield "find_anything"
        popup = QApplication.activePopupWidget()
        if popup is not None:
            popup.close()
