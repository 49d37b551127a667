"""The docked catalog of vessels."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, ClassVar, Final

from typing_extensions import override

from wickbench.app import shelf_edit, vessels
from wickbench.app.papers import write_vessel_cards
from wickbench.app.shelf import Shelf, load_shelf
from wickbench.app.texts_marker import N_
from wickbench.app.vessel_texts import volume
from wickbench.domain.errors import DomainError
from wickbench.gui.catalog.catalog_dock import CatalogDock
from wickbench.gui.tables.column import Column
from wickbench.gui.vessels.vessel_editor import VesselEditor

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QWidget

    from wickbench.app.vessels import VesselRow

_PUT_AWAY = N_(
    "A candle or a record still names this vessel, so it was put away instead of removed. "
    "Undo brings it back."
)

_NOT_IN_FILES: Final = '<>:"/\\|?*'
"""What some systems take in no name of a file."""


class VesselsDock(CatalogDock):
    """Vessels with brim, fill line and how many stand on the shelf, over the form of one."""

    title: ClassVar[str] = N_("Vessels")
    kinds: ClassVar[frozenset[str]] = frozenset(
        {"vessels", "stock", "materials", "recipes", "candles", "equipment", "settings", "drafts"}
    )
    find_text: ClassVar[str] = N_("Find a vessel")
    empty_text: ClassVar[str] = N_(
        "Jars, tins, cups, moulds and clamshells stand here. Add one, measure its inside with a "
        "ruler, and weigh a few of them dry and filled with water: then it is known what each "
        "holds to the brim and to the fill line."
    )
    new_text: ClassVar[str] = N_("Add a vessel")

    _shelf: Shelf | None = None
    editor: VesselEditor | None = None

    @override
    def columns(self) -> tuple[Column[VesselRow], ...]:
        return (
            Column(key="name", title=N_("Vessel"), show=self._name, stretch=True),
            Column(
                key="brim", title=N_("Brim"), numeric=True, sort=lambda row: row.brim_ml,
                show=lambda row: self._volume(row.brim_ml),
                look=lambda row: "" if row.brim_measured else "quiet",
                hint=lambda row: self._told(row.brim_ml, measured=row.brim_measured),
            ),
            Column(
                key="line", title=N_("Line"), numeric=True, sort=lambda row: row.line_ml,
                show=lambda row: self._volume(row.line_ml),
                look=lambda row: "" if row.line_measured else "quiet",
                hint=lambda row: self._told(row.line_ml, measured=row.line_measured),
            ),
            Column(
                key="on_hand", title=N_("Shelf"), numeric=True, sort=lambda row: row.on_hand,
                show=lambda row: "" if row.on_hand is None else f"{row.on_hand:.0f}",
                about=N_("Pieces on hand"), spare=True,
            ),
        )  # fmt: skip

    def _name(self, row: VesselRow) -> str:
        return row.name or self.texts(N_("Vessel without a name"))

    def _volume(self, value_ml: float | None) -> str:
        return "" if value_ml is None else volume(self.texts, value_ml, both=False)

    def _told(self, value_ml: float | None, *, measured: bool) -> str:
        if value_ml is None:
            return self.texts(N_("Not known yet"))
        said = volume(self.texts, value_ml)
        return said if measured else self.texts(N_("{volume} (not weighed)"), volume=said)

    @override
    def rows(self) -> Sequence[VesselRow]:
        self._shelf = load_shelf(self.workspace)
        return vessels.vessel_rows(self._shelf, self.workspace.settings, self.texts)

    @override
    def words(self, row: Any) -> str:
        return str(row.words)

    @override
    def build_editor(self) -> QWidget:
        self.editor = VesselEditor(self.workspace)
        self.editor.card_requested.connect(self.export_card)
        return self.editor

    @override
    def show_in_editor(self, record: int | None) -> str:
        shelf = self._shelf or load_shelf(self.workspace)
        vessel = shelf.vessels.get(record) if record is not None else None
        if self.editor is not None:
            self.editor.show_vessel(vessel, shelf)
        if vessel is None:
            return ""
        return vessel.name or self.texts(N_("Vessel without a name"))

    @override
    def new_record(self, kind: str) -> int:
        return shelf_edit.new_item(self.workspace, "vessel", details={"vessel_kind": "jar"})

    @override
    def duplicate_record(self, record: int) -> int:
        return shelf_edit.duplicate_item(self.workspace, record)

    @override
    def remove_record(self, record: int) -> None:
        if not shelf_edit.remove_item(self.workspace, record):
            self.ask.tell(self.texts(_PUT_AWAY))

    def export_card(self) -> None:
        """Ask where, and write the card of the vessel that is shown."""
        shelf = load_shelf(self.workspace)
        if self.record is None or self.record not in shelf.vessels:
            return
        name = shelf.vessels[self.record].name or self.texts(N_("Vessel without a name"))
        path = self.ask.save_path(
            self.texts(N_("Where shall the vessel card be kept?")),
            f"{''.join(one for one in name if one not in _NOT_IN_FILES)}.pdf",
            self.texts(N_("PDF files (*.pdf)")),
        )
        if path is None:
            return
        try:
            write_vessel_cards(self.workspace, shelf, path, only=self.record)
        except DomainError as error:
            self.ask.tell(self.texts.say(error))

    @override
    def focus_first_field(self) -> None:
        if self.editor is not None:
            self.editor.first.focus("name")
