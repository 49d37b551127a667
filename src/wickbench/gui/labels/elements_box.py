"""What stands on a label, as a table from back to front, with what can be done with it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QMenu, QSizePolicy, QVBoxLayout, QWidget

from wickbench.app import label_arranging, label_elements
from wickbench.app.label_element_fields import ELEMENT_WORDS, element_words
from wickbench.app.label_store import kind_of
from wickbench.app.texts_marker import N_
from wickbench.domain.labels import AnyElement
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView

if TYPE_CHECKING:
    from wickbench.app.label_store import StoredLabel
    from wickbench.app.workspace import Workspace


@dataclass(frozen=True, slots=True)
class ElementRow:
    """One line of the table."""

    at: int
    element: AnyElement


class ElementsBox(QWidget):
    """Table and buttons of a label's elements.

    Attributes:
        at: place of the chosen element; ``None`` for none.

    Signals:
        chosen: another element is chosen.
    """

    chosen = Signal()

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        self._workspace = workspace
        self._label: int | None = None
        self._filling = False
        self.at: int | None = None
        texts = workspace.texts
        self.model: RowModel[ElementRow] = RowModel(
            lambda: workspace.texts, self._columns(), lambda row: row.at
        )
        self.table = TableView(self.model, texts("On this label"), most_rows=8)
        self.table.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.add = button(texts("Add"))
        self.add.setMenu(self._add_menu())
        self.behind = button(texts("Back"))
        self.before = button(texts("Front"))
        self.take_off = button(texts("Take off"))
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        box.addWidget(self.table)
        box.addLayout(button_row(self.add, self.behind, self.before, self.take_off))
        self._connect()
        name_attributes(self)

    def _columns(self) -> tuple[Column[ElementRow], ...]:
        return (
            Column(
                key="kind",
                title=N_("Element"),
                about=N_("From back to front"),
                keeps=True,
                show=lambda row: self._workspace.texts(ELEMENT_WORDS[kind_of(row.element)]),
            ),
            Column(
                key="text",
                title=N_("What it shows"),
                show=lambda row: element_words(row.element, self._workspace.texts),
                stretch=True,
            ),
        )

    def _add_menu(self) -> QMenu:
        menu = QMenu(self)
        for kind, word in ELEMENT_WORDS.items():
            action = menu.addAction(self._workspace.texts(word))
            action.setObjectName(f"add_{kind}")
            action.triggered.connect(partial(self.add_element, kind))
        return menu

    def _connect(self) -> None:
        self.table.chosen.connect(self._went)
        self.table.remove_requested.connect(self.take_element_off)
        self.behind.clicked.connect(lambda: self._reorder(-1))
        self.before.clicked.connect(lambda: self._reorder(1))
        self.take_off.clicked.connect(self.take_element_off)

    # -- showing ---------------------------------------------------------------------------------
    def show_label(self, stored: StoredLabel) -> None:
        """Show what stands on a label; the chosen element stays chosen on the same label."""
        if stored.id != self._label:
            self._label, self.at = stored.id, None
        rows = [ElementRow(at, one) for at, one in enumerate(stored.design.elements)]
        if self.at is not None and self.at >= len(rows):
            self.at = None
        self._filling = True
        self.model.set_rows(rows)
        if self.at is not None:
            self.table.go_to(self.at)
        else:
            self.table.clearSelection()
        self._filling = False
        self._enable()

    def choose(self, at: int | None) -> None:
        """Go to an element, or to none."""
        self.at = at
        self._filling = True
        # With Ctrl held, as in choosing all by keys, going to a row would add to what is marked.
        self.table.clearSelection()
        if at is not None:
            self.table.go_to(at)
        self._filling = False
        self._enable()
        self.chosen.emit()

    def _enable(self) -> None:
        last = len(self.model.rows) - 1
        self.behind.setEnabled(self.at is not None and self.at > 0)
        self.before.setEnabled(self.at is not None and self.at < last)
        self.take_off.setEnabled(self.at is not None)

    def _went(self, at: object) -> None:
        if isinstance(at, int) and at != self.at and not self._filling:
            self.choose(at)

    # -- doing -----------------------------------------------------------------------------------
    def add_element(self, kind: str, *_: object) -> None:
        """Put something new on the label and go to it."""
        if self._label is not None:
            self.choose(label_elements.add_element(self._workspace, self._label, kind))

    def take_element_off(self, *_: object) -> None:
        """Take the chosen element off the label."""
        if self._label is not None and self.at is not None:
            at, self.at = self.at, None
            label_arranging.remove_elements(self._workspace, self._label, (at,))

    def _reorder(self, by: int) -> None:
        if self._label is None or self.at is None:
            return
        if 0 <= self.at + by < len(self.model.rows):
            at, self.at = self.at, self.at + by
            label_arranging.order_elements(
                self._workspace, self._label, (at,), "forwards" if by > 0 else "backwards"
            )


def button_row(*buttons: QWidget) -> QHBoxLayout:
    """Buttons side by side from the left."""
    line = QHBoxLayout()
    line.setSpacing(6)
    for one in buttons:
        line.addWidget(one)
    line.addStretch(1)
    return line
