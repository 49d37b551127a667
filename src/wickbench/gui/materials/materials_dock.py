"""The docked catalog of everything that is bought and used up."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, ClassVar

from PySide6.QtWidgets import QCheckBox, QComboBox, QWidget
from typing_extensions import override

from wickbench.app import materials, shelf_edit
from wickbench.app.material_fields import KIND_NAMES, KIND_SHORT
from wickbench.app.texts_marker import N_
from wickbench.domain.catalog import MATERIAL_KINDS
from wickbench.gui.catalog.catalog_dock import CatalogDock
from wickbench.gui.fields.choice_field import slim
from wickbench.gui.fields.input_guards import WheelGuard
from wickbench.gui.materials.material_editor import MaterialEditor
from wickbench.gui.naming import accessible
from wickbench.gui.page import label
from wickbench.gui.tables.column import Column

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.materials import MaterialRow
    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace


class MaterialsDock(CatalogDock):
    """Materials of all nine kinds: what they are, how much is there, what they cost."""

    title: ClassVar[str] = N_("Materials")
    kinds: ClassVar[frozenset[str]] = frozenset({"materials", "stock", "settings"})
    find_text: ClassVar[str] = N_("Find a material")
    empty_text: ClassVar[str] = N_(
        "Here stands everything you buy and use up: waxes, fragrance oils, wicks, dyes, lids, "
        "sticker sheets, boxes. Begin with the wax you pour most."
    )
    new_text: ClassVar[str] = N_("Add the first material")

    def __init__(self, workspace: Workspace, ask: Ask) -> None:
        self.kind_filter: QComboBox | None = None
        self.put_away_too: QCheckBox | None = None
        super().__init__(workspace, ask)
        self.notice = label("", "quiet")
        self.notice.setObjectName("notice")
        self.notice.setVisible(False)

    # -- the list --------------------------------------------------------------------------------
    @override
    def columns(self) -> tuple[Column[Any], ...]:
        return (
            Column(
                key="name",
                title=N_("Name"),
                show=lambda row: row.title(self.texts),
                look=_look,
                stretch=True,
            ),
            Column(
                key="kind",
                title=N_("Kind"),
                show=lambda row: self.texts(KIND_SHORT[row.kind]),
                hint=lambda row: self.texts(KIND_NAMES[row.kind]),
                look=lambda _row: "quiet",
            ),
            Column(
                key="on_hand",
                title=N_("On hand"),
                show=self._there,
                hint=lambda row: row.on_hand_text(self.texts, both=True),
                look=lambda row: "quiet" if row.on_hand is None else _look(row),
                numeric=True,
            ),
        )

    def _there(self, row: MaterialRow) -> str:
        return self.texts(N_("put away")) if row.put_away else row.on_hand_text(self.texts)

    @override
    def rows(self) -> Sequence[MaterialRow]:
        kind = str(self.kind_filter.currentData() or "") if self.kind_filter else ""
        too = self.put_away_too
        if too is not None:
            too.setVisible(too.isChecked() or materials.any_put_away(self.workspace))
        put_away = too is not None and too.isChecked()
        return materials.material_rows(self.workspace, kind, put_away=put_away)

    @override
    def words(self, row: Any) -> str:
        return str(row.words)

    @override
    def _build(self) -> None:
        fresh = self.list_pane is None
        super()._build()
        if fresh and self.list_pane is not None:
            self._add_filters()

    def _add_filters(self) -> None:
        pane = self.list_pane
        layout = pane.layout() if pane is not None else None
        if pane is None or layout is None:
            return
        self.kind_filter = accessible(QComboBox(), self.texts(N_("Kind of material")))
        self.kind_filter.setObjectName("kind_filter")
        slim(self.kind_filter)
        WheelGuard(self.kind_filter)
        self.kind_filter.addItem(self.texts(N_("All kinds")), "")
        for kind in MATERIAL_KINDS:
            self.kind_filter.addItem(self.texts(KIND_NAMES[kind]), kind)
        self.put_away_too = QCheckBox(self.texts(N_("Put away too")))
        self.put_away_too.setObjectName("put_away_too")
        pane.filters.addWidget(self.kind_filter, 1)
        pane.filters.addWidget(self.put_away_too)
        layout.addWidget(self.notice)
        self.kind_filter.activated.connect(self._filter)
        self.put_away_too.toggled.connect(self._filter)
        self._filter()

    def _filter(self, *_: object) -> None:
        self._refresh(None)

    # -- the form --------------------------------------------------------------------------------
    @override
    def build_editor(self) -> QWidget:
        self.material_editor = MaterialEditor(self.workspace)
        self.material_editor.bring_back_requested.connect(self._bring_back)
        return self.material_editor

    @override
    def show_in_editor(self, record: int | None) -> str:
        view = self.material_editor.show_record(record)
        if view is None:
            return ""
        kind = self.texts(KIND_NAMES[view.kind])
        return str(view.values["name"] or "") or self.texts(N_("{kind} without a name"), kind=kind)

    @override
    def show_record(self, record: int) -> None:
        """Bring a material into the form, whatever the filters hide."""
        self.setVisible(True)
        self._build()
        if record not in {row.id for row in self.rows()}:
            self._show_everything(record)
        super().show_record(record)

    def _show_everything(self, record: int) -> None:
        if self.kind_filter is not None:
            self.kind_filter.setCurrentIndex(0)
        if self.put_away_too is not None and record not in {row.id for row in self.rows()}:
            self.put_away_too.setChecked(True)
        self._filter()

    # -- what can be done ------------------------------------------------------------------------
    @override
    def new_kinds(self) -> Sequence[tuple[str, str, str]]:
        return tuple(
            (kind, name, "sheet" if kind == "sheet" else "materials")
            for kind, name in KIND_NAMES.items()
        )

    @override
    def new_record(self, kind: str) -> int:
        self._say("")
        return materials.new_material(self.workspace, kind)

    @override
    def focus_first_field(self) -> None:
        if self.editor_pane is not None:
            self.editor_pane.ensureVisible(0, 0)
        self.material_editor.names.focus("name")

    @override
    def duplicate_record(self, record: int) -> int:
        self._say("")
        return shelf_edit.duplicate_item(self.workspace, record)

    @override
    def remove_record(self, record: int) -> None:
        said = materials.remove_material(self.workspace, record)
        self._say(self.texts.say(said))

    def _bring_back(self) -> None:
        if self.record is not None:
            self._say("")
            materials.bring_back(self.workspace, self.record)

    def _say(self, sentence: str) -> None:
        self.notice.setText(sentence)
        self.notice.setVisible(bool(sentence))


def _look(row: MaterialRow) -> str:
    return "quiet" if row.put_away else ""
