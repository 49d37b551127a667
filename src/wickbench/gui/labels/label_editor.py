"""The labels of the workshop: the list, what stands on the chosen one, and how it looks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from wickbench.app import labels
from wickbench.app.label_arranging import place_elements, whole_groups
from wickbench.app.label_element_fields import LABEL_FIELDS, shown_values, stored_value
from wickbench.app.label_shape_fields import SHAPE_FIELDS, shape_changes, shape_fields_of
from wickbench.app.texts_marker import N_
from wickbench.gui.labels.elements_box import ElementsBox, button_row
from wickbench.gui.labels.fold import Fold
from wickbench.gui.labels.label_look import LabelLook
from wickbench.gui.labels.value_form import ValueForm
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.label_store import StoredLabel
    from wickbench.domain.labels import AnyElement
    from wickbench.gui.labels.caution_panel import CautionPanel
    from wickbench.gui.labels.desk import Desk

KIND_WORDS = {
    "jar": N_("jar"),
    "lid": N_("lid"),
    "caution": N_("caution"),
    "tag": N_("tag"),
}
_CAUTION_FIELDS = frozenset({"name", "safe_mm"})


class LabelEditor(QWidget):
    """List of labels, table of elements and a large preview.

    Attributes:
        label_id: key of the label that is shown; ``None`` for none.

    Signals:
        label_shown: a label, or another element of it, is shown; the side column follows.
        new_label_requested: a label is to be begun.
    """

    label_shown = Signal()
    new_label_requested = Signal()

    def __init__(self, desk: Desk, caution_panel: CautionPanel) -> None:
        super().__init__()
        self.desk = desk
        self.label_id: int | None = None
        self._filling = False
        texts = desk.workspace.texts
        self.model: RowModel[StoredLabel] = RowModel(
            lambda: desk.workspace.texts, self._columns(), lambda row: row.id
        )
        self.list = TableView(self.model, texts("Labels"), most_rows=7)
        self.list.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.new_label = button(texts("New label"))
        self.duplicate = button(texts("Duplicate"))
        self.remove = button(texts("Remove"))
        self.form = ValueForm(desk.workspace, LABEL_FIELDS, self._store)
        self.shape = ValueForm(desk.workspace, SHAPE_FIELDS, self._store)
        self.shape_fold = Fold(desk.workspace, "shape", texts("Size and shape"), self.shape)
        self.elements = ElementsBox(desk.workspace)
        self.look = LabelLook(desk)
        self._lay_out(caution_panel)
        self._connect()
        name_attributes(self)

    def _columns(self) -> tuple[Column[StoredLabel], ...]:
        texts = self.desk.workspace.texts
        return (
            Column(key="name", title=N_("Label"), show=lambda row: row.name, stretch=True),
            Column(key="kind", title=N_("Kind"), show=lambda row: texts(KIND_WORDS[row.kind])),
        )

    def _lay_out(self, caution_panel: CautionPanel) -> None:
        box = QHBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(24)
        left = QVBoxLayout()
        left.setSpacing(8)
        left.addLayout(button_row(self.new_label, self.duplicate, self.remove))
        left.addWidget(self.list)
        left.addWidget(self.form)
        left.addWidget(self.shape_fold)
        left.addWidget(self.elements)
        left.addWidget(caution_panel)
        left.addStretch(1)
        box.addLayout(left, 5)
        box.addWidget(self.look, 6)

    def _connect(self) -> None:
        self.list.chosen.connect(self._chosen)
        self.list.remove_requested.connect(self.remove_label)
        self.new_label.clicked.connect(self.new_label_requested)
        self.duplicate.clicked.connect(self.duplicate_label)
        self.remove.clicked.connect(self.remove_label)
        self.elements.chosen.connect(self._element_chosen)
        self.look.preview.chosen_changed.connect(self._canvas_chose)
        self.look.preview.placed.connect(self._placed)
        self.look.candle_chosen.connect(self._show)

    # -- showing ---------------------------------------------------------------------------------
    @property
    def stored(self) -> StoredLabel | None:
        """The label that is shown."""
        return self.desk.labels.get(self.label_id) if self.label_id is not None else None

    @property
    def at(self) -> int | None:
        """Place of the one chosen element; ``None`` for none or several."""
        several = len(self.look.preview.chosen) > 1
        return self.elements.at if self.stored is not None and not several else None

    def refresh(self) -> None:
        """Show everything afresh."""
        kept = self.desk.offered_labels()
        if self.label_id not in {one.id for one in kept}:
            self.label_id = kept[0].id if kept else None
        self._filling = True
        self.model.set_rows(kept)
        self.look.offer_candles()
        if self.label_id is not None:
            self.list.go_to(self.label_id)
        self._filling = False
        self._show()

    def show_label(self, label_id: int, at: int | None = None) -> None:
        """Show one label, with one of its elements chosen or none."""
        self.label_id, self.elements.at = label_id, None
        self.look.preview.choose(())
        self.refresh()
        if at is not None:
            self.elements.choose(at)

    def _show(self) -> None:
        stored = self.stored
        for one in (self.duplicate, self.remove):
            one.setEnabled(stored is not None)
        self.elements.setVisible(stored is not None and stored.caution is None)
        self.form.setVisible(stored is not None)
        self.shape_fold.setVisible(stored is not None)
        if stored is not None:
            self.shape.show_record(stored.id, shown_values(stored.design))
            self.shape.show_only(shape_fields_of(stored.design))
            self.form.show_record(stored.id, {**shown_values(stored.design), "name": stored.name})
            every = {spec.name for spec in LABEL_FIELDS}
            self.form.show_only(every if stored.caution is None else _CAUTION_FIELDS)
            self.elements.show_label(stored)
        self.look.show_label(stored, self.at)
        self.label_shown.emit()

    # -- doing -----------------------------------------------------------------------------------
    def _chosen(self, key: object) -> None:
        if isinstance(key, int) and key != self.label_id and not self._filling:
            self.label_id = key
            self.look.preview.choose(())
            self._show()

    def _element_chosen(self) -> None:
        """The table went to an element: it is chosen with its group."""
        stored, at = self.stored, self.elements.at
        if stored is not None and at is not None and not self._filling:
            self.look.preview.choose(whole_groups(stored.design, (at,)))
            self.look.acts.enable()
        self.look.choose(self.at)
        self.label_shown.emit()

    def _canvas_chose(self) -> None:
        """The hand chose: the table goes along."""
        chosen = self.look.preview.chosen
        self._filling = True
        self.elements.choose(chosen[-1] if chosen else None)
        self._filling = False

    def _placed(self, placed: Mapping[int, AnyElement], words: str, merge: object) -> None:
        if self.label_id is not None:
            key = (self.label_id, *merge) if isinstance(merge, tuple) else None
            place_elements(self.desk.workspace, self.label_id, placed, words, merge=key)

    def _store(self, name: str, value: object) -> None:
        stored = self.stored
        if stored is None:
            return
        if name == "name":
            labels.rename_label(self.desk.workspace, stored.id, str(value or ""))
            return
        design = stored.design
        changes: dict[str, Any] = shape_changes(design, name, stored_value(design, name, value))
        labels.change_design(self.desk.workspace, stored.id, changes)

    def duplicate_label(self) -> None:
        """Make a copy of the label and go to it."""
        if self.label_id is not None:
            self.show_label(labels.duplicate_label(self.desk.workspace, self.label_id))

    def remove_label(self, *_: object) -> None:
        """Remove the label; undo brings it back."""
        if self.label_id is not None:
            labels.remove_label(self.desk.workspace, self.label_id)
