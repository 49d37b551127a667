"""The labels of the workshop: the list, what stands on the chosen one, and how it looks."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QMenu, QSizePolicy, QVBoxLayout, QWidget

from wickbench.app import label_elements, labels
from wickbench.app.label_element_fields import (
    ELEMENT_WORDS,
    LABEL_FIELDS,
    element_words,
    shown_values,
    stored_value,
)
from wickbench.app.label_making import MadeLabel, design_for, trouble
from wickbench.app.label_store import AnyElement, StoredLabel, kind_of
from wickbench.app.label_values import LabelSubject, label_values, sample_values
from wickbench.app.print_run_view import label_texts, once
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.labels.label_preview import LabelPreview
from wickbench.gui.labels.value_form import ValueForm
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView

if TYPE_CHECKING:
    from wickbench.domain.catalog import Candle
    from wickbench.domain.findings import Finding
    from wickbench.gui.labels.caution_panel import CautionPanel
    from wickbench.gui.labels.desk import Desk

KIND_WORDS = {
    "jar": N_("jar"),
    "lid": N_("lid"),
    "caution": N_("caution"),
    "tag": N_("tag"),
}


@dataclass(frozen=True, slots=True)
class ElementRow:
    """One line of the table of elements."""

    at: int
    element: AnyElement


class LabelEditor(QWidget):
    """List of labels, table of elements and a large preview.

    Signals:
        label_shown: a label, or another element of it, is shown; the side column follows.
    """

    label_shown = Signal()

    def __init__(self, desk: Desk, new_menu: QMenu, caution_panel: CautionPanel) -> None:
        super().__init__()
        self.desk = desk
        self.label_id: int | None = None
        self.at: int | None = None
        self._offered = self._filling = False
        texts = desk.workspace.texts
        self.model: RowModel[StoredLabel] = RowModel(
            lambda: desk.workspace.texts, self._label_columns(), lambda row: row.id
        )
        self.list = TableView(self.model, texts("Labels"), most_rows=7)
        self.list.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.new_label = button(texts("New label"))
        self.new_label.setMenu(new_menu)
        self.duplicate = button(texts("Duplicate"))
        self.remove = button(texts("Remove"))
        self.form = ValueForm(desk.workspace, LABEL_FIELDS, self._store)
        self.elements_model: RowModel[ElementRow] = RowModel(
            lambda: desk.workspace.texts, self._element_columns(), lambda row: row.at
        )
        self.elements = TableView(self.elements_model, texts("On this label"), most_rows=8)
        self.elements.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.add = button(texts("Add"))
        self.add.setMenu(self._add_menu())
        self.behind = button(texts("Further back"))
        self.before = button(texts("Further front"))
        self.take_off = button(texts("Take off"))
        self.size_words = label("", "quiet")
        self.fit = button(texts("Fit to the chosen sheet"), "flat")
        self.preview = LabelPreview(texts("The label, enlarged"))
        self.preview.shows_safe_zone = True
        self.preview.setFocusPolicy(self.list.focusPolicy())
        self.candle = ChoiceField(texts("Shown for"), ())
        self.findings = FindingsList(N_("Nothing to mend on this label."))
        self.nothing = label(texts("Begin with “New label”: choose a design, then make it yours."))
        self._lay_out(caution_panel)
        self._connect()
        name_attributes(self)

    def _label_columns(self) -> tuple[Column[StoredLabel], ...]:
        texts = self.desk.workspace.texts
        return (
            Column(key="name", title=N_("Label"), show=lambda row: row.name, stretch=True),
            Column(key="kind", title=N_("Kind"), show=lambda row: texts(KIND_WORDS[row.kind])),
        )

    def _element_columns(self) -> tuple[Column[ElementRow], ...]:
        texts = self.desk.workspace.texts
        return (
            Column(
                key="kind",
                title=N_("From back to front"),
                show=lambda row: texts(ELEMENT_WORDS[kind_of(row.element)]),
            ),
            Column(
                key="text",
                title=N_("Text"),
                show=lambda row: element_words(row.element),
                stretch=True,
            ),
        )

    def _add_menu(self) -> QMenu:
        menu = QMenu(self)
        for kind, word in ELEMENT_WORDS.items():
            action = menu.addAction(self.desk.workspace.texts(word))
            action.setObjectName(f"add_{kind}")
            action.triggered.connect(partial(self.add_element, kind))
        return menu

    def _lay_out(self, caution_panel: CautionPanel) -> None:
        box = QHBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(24)
        left = QVBoxLayout()
        left.setSpacing(8)
        left.addLayout(_row(self.new_label, self.duplicate, self.remove))
        left.addWidget(self.list)
        left.addWidget(self.form)
        left.addWidget(self.elements)
        left.addLayout(_row(self.add, self.behind, self.before, self.take_off))
        left.addWidget(caution_panel)
        left.addStretch(1)
        right = QVBoxLayout()
        right.setSpacing(8)
        texts = self.desk.workspace.texts
        line = QHBoxLayout()
        line.addWidget(label(texts("Shown for"), "quiet", wrap=False))
        line.addWidget(self.candle, 1)
        right.addLayout(line)
        right.addWidget(self.preview, 1)
        right.addWidget(self.size_words)
        fit = QHBoxLayout()
        fit.addWidget(self.fit)
        fit.addStretch(1)
        right.addLayout(fit)
        right.addWidget(heading(texts("Before you print")))
        right.addWidget(self.findings)
        right.addWidget(self.nothing)
        right.addStretch(1)
        box.addLayout(left, 5)
        box.addLayout(right, 6)

    def _connect(self) -> None:
        self.list.chosen.connect(self._chosen)
        self.elements.chosen.connect(self._element_chosen)
        self.duplicate.clicked.connect(self.duplicate_label)
        self.remove.clicked.connect(self.remove_label)
        self.list.remove_requested.connect(lambda _keys: self.remove_label())
        self.behind.clicked.connect(lambda: self._reorder(-1))
        self.before.clicked.connect(lambda: self._reorder(1))
        self.take_off.clicked.connect(self.take_element_off)
        self.elements.remove_requested.connect(lambda _keys: self.take_element_off())
        self.preview.pressed.connect(self.choose_element)
        self.preview.nudged.connect(self._nudge)
        self.candle.committed.connect(lambda _word: self._show())
        self.candle.edited.connect(self.candle.show_stored)
        self.fit.clicked.connect(self._fit)

    # -- showing ---------------------------------------------------------------------------------
    def refresh(self) -> None:
        """Show everything afresh."""
        kept = self.desk.offered_labels()
        if self.label_id not in {one.id for one in kept}:
            self.label_id = kept[0].id if kept else None
        self._filling = True
        self.model.set_rows(kept)
        self._offer_candles()
        if self.label_id is not None:
            self.list.go_to(self.label_id)
        self._filling = False
        self._show()

    def show_label(self, label_id: int) -> None:
        """Show one label."""
        self.label_id, self.at = label_id, None
        self.refresh()

    @property
    def stored(self) -> StoredLabel | None:
        """The label that is shown."""
        return self.desk.labels.get(self.label_id) if self.label_id is not None else None

    @property
    def shown_candle(self) -> Candle | None:
        """The candle that the label is looked at with."""
        word = self.candle.text()
        return self.desk.candle(int(word)) if word else None

    def _offer_candles(self) -> None:
        kept = [one for one in self.desk.shelf.candles.values() if not one.archived]
        kept.sort(key=lambda one: one.name.casefold())
        sample = self.desk.workspace.texts(N_("a sample"))
        chosen = self.candle.stored
        self.candle.set_pairs([("", sample), *((str(one.id), one.name) for one in kept)])
        if not chosen and kept and not self._offered:
            chosen, self._offered = str(kept[0].id), True
        self.candle.show_stored(chosen)

    def _show(self) -> None:
        stored = self.stored
        for one in (self.duplicate, self.remove):
            one.setEnabled(stored is not None)
        made_of_elements = stored is not None and stored.caution is None
        parts = (self.elements, self.add, self.behind, self.before, self.take_off)
        for part in parts:
            part.setVisible(made_of_elements)
        self.nothing.setVisible(stored is None)
        for widget in (self.preview, self.findings, self.size_words, self.fit, self.form):
            widget.setVisible(stored is not None)
        if stored is None:
            self.preview.show_label(None)
            self.label_shown.emit()
            return
        self.form.show_record(stored.id, {**shown_values(stored.design), "name": stored.name})
        self.form.show_only(self._own_fields(stored))
        rows = [ElementRow(at, one) for at, one in enumerate(stored.design.elements)]
        if self.at is not None and self.at >= len(rows):
            self.at = None
        self._filling = True
        self.elements_model.set_rows(rows)
        if self.at is not None:
            self.elements.go_to(self.at)
        else:
            self.elements.clearSelection()
        self._filling = False
        self.show_design(stored)
        self._say_size(stored)
        self.label_shown.emit()

    @staticmethod
    def _own_fields(stored: StoredLabel) -> set[str]:
        every = {spec.name for spec in LABEL_FIELDS}
        return every if stored.caution is None else {"name", "safe_mm"}

    def show_design(self, stored: StoredLabel, draft: AnyElement | None = None) -> None:
        """Draw the label, with one element as it is being typed."""
        design = stored.design
        if draft is not None and self.at is not None:
            elements = (*design.elements[: self.at], draft, *design.elements[self.at + 1 :])
            design = replace(design, elements=elements)
        found: tuple[Finding, ...]
        try:
            made = self.made(replace(stored, design=design))
        except DomainError as error:
            self.preview.show_label(None)
            found = (trouble(error),)
        else:
            self.preview.show_label(made.laid, self.at)
            found = once(made.content.findings)
        self.findings.show_findings(self.desk.workspace.texts, found)

    def made(self, stored: StoredLabel) -> MadeLabel:
        """The label laid out for the candle it is looked at with."""
        desk, candle = self.desk, self.shown_candle
        if stored.caution is not None:
            design = design_for(stored, None)
            return desk.maker.caution(stored.caution, design, desk.shelf, candle)
        settings, texts = desk.workspace.settings, label_texts(desk.workspace)
        values = sample_values(settings, texts)
        if candle is not None:
            subject = LabelSubject(candle_id=candle.id)
            own = label_values(desk.shelf, settings, texts, subject)
            values = {**own, "lot": own["lot"] or values["lot"]}
        return desk.maker.label(stored.design, values)

    def _say_size(self, stored: StoredLabel) -> None:
        texts, design = self.desk.workspace.texts, stored.design
        size = texts(
            N_("{width_mm} × {height_mm}, version {number}"),
            width_mm=design.width_mm,
            height_mm=design.height_mm,
            number=str(stored.number),
        )
        printed = texts(N_("printed: the next change begins a new version"))
        self.size_words.setText(f"{size} · {printed}" if stored.frozen else size)
        sheet = self.desk.sheet
        sides = (design.width_mm, design.height_mm)
        same = sheet is None or sides == (sheet.sticker_w_mm, sheet.sticker_h_mm)
        self.fit.setVisible(not same)

    # -- doing -----------------------------------------------------------------------------------
    def _chosen(self, key: object) -> None:
        if isinstance(key, int) and key != self.label_id and not self._filling:
            self.label_id, self.at = key, None
            self._show()

    def _element_chosen(self, at: object) -> None:
        if isinstance(at, int) and at != self.at and not self._filling:
            self.choose_element(at)

    def choose_element(self, at: int) -> None:
        """Go to an element of the label."""
        self.at = at
        self.elements.go_to(at)
        self.preview.current = at
        self.preview.update()
        self.label_shown.emit()

    def _store(self, name: str, value: object) -> None:
        stored = self.stored
        if stored is None:
            return
        if name == "name":
            labels.rename_label(self.desk.workspace, stored.id, str(value or ""))
            return
        changes: dict[str, Any] = {name: stored_value(stored.design, name, value)}
        labels.change_design(self.desk.workspace, stored.id, changes)

    def duplicate_label(self) -> None:
        """Make a copy of the label and go to it."""
        if self.label_id is not None:
            self.show_label(labels.duplicate_label(self.desk.workspace, self.label_id))

    def remove_label(self) -> None:
        """Remove the label; undo brings it back."""
        if self.label_id is not None:
            labels.remove_label(self.desk.workspace, self.label_id)

    def add_element(self, kind: str, *_: object) -> None:
        """Put something new on the label and go to it."""
        if self.label_id is not None:
            at = label_elements.add_element(self.desk.workspace, self.label_id, kind)
            self.choose_element(at)

    def take_element_off(self) -> None:
        """Take the chosen element off the label."""
        if self.label_id is not None and self.at is not None:
            at, self.at = self.at, None
            label_elements.remove_element(self.desk.workspace, self.label_id, at)

    def _reorder(self, by: int) -> None:
        count = len(self.elements_model.rows)
        if self.label_id is None or self.at is None or not 0 <= self.at + by < count:
            return
        at, self.at = self.at, self.at + by
        label_elements.reorder_element(self.desk.workspace, self.label_id, at, at + by)

    def _nudge(self, right: float, down: float) -> None:
        if self.label_id is not None and self.at is not None:
            by = (right, down)
            label_elements.nudge_element(self.desk.workspace, self.label_id, self.at, by)

    def _fit(self) -> None:
        sheet = self.desk.sheet
        if self.label_id is not None and sheet is not None:
            labels.fit_to_sheet(self.desk.workspace, self.label_id, sheet)


def _row(*widgets: QWidget) -> QHBoxLayout:
    line = QHBoxLayout()
    line.setSpacing(6)
    for one in widgets:
        line.addWidget(one)
    line.addStretch(1)
    return line
