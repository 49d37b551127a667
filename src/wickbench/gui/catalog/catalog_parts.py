"""The two halves of a catalog dock: the list with its search line, and the form with its title."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, ClassVar, Protocol

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLineEdit,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from wickbench.gui.fields.input_guards import TextGuard
from wickbench.gui.icons import set_icon
from wickbench.gui.naming import accessible, name_attributes, plain_hint
from wickbench.gui.page import button, label, title_label
from wickbench.gui.style_sheet import set_look
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.texts import Texts
    from wickbench.gui.tables.column import Column


class Catalog(Protocol):
    """What the two halves ask of their dock."""

    title: ClassVar[str]
    find_text: ClassVar[str]
    empty_text: ClassVar[str]
    new_text: ClassVar[str]

    @property
    def texts(self) -> Texts:
        """Sentences as they are now."""

    def columns(self) -> tuple[Column[Any], ...]:
        """Columns of the list."""

    def key(self, row: Any) -> int:  # noqa: ANN401 - rows are of the dock's type
        """Record number of a row."""


class ListPane(QWidget):
    """Search line, *New*, room for filters, and the list."""

    def __init__(self, dock: Catalog) -> None:
        super().__init__()
        texts = dock.texts
        self.search = accessible(QLineEdit(), texts(dock.find_text))
        self.search.setPlaceholderText(texts(dock.find_text))
        self.search.setClearButtonEnabled(True)
        self.search.setMinimumWidth(80)
        TextGuard(self.search, self._clear_search)
        self.new = button(texts("New"))
        self.filters = QHBoxLayout()
        self.filters.setSpacing(4)
        self.model: RowModel[Any] = RowModel(lambda: dock.texts, dock.columns(), dock.key)
        self.table = TableView(self.model, texts(dock.title), most_rows=40, fewest_rows=3)
        self.table.setSelectionMode(TableView.SelectionMode.SingleSelection)
        self.nothing = label(texts("Nothing here is called that."), "quiet")
        self.nothing.setVisible(False)
        top = QHBoxLayout()
        top.setSpacing(8)
        top.addWidget(self.search, 1)
        top.addWidget(self.new)
        box = QVBoxLayout(self)
        box.setContentsMargins(12, 12, 12, 4)
        box.setSpacing(8)
        box.addLayout(top)
        box.addLayout(self.filters)
        box.addWidget(self.nothing)
        box.addWidget(self.table, 1)
        name_attributes(self)

    def show_rows(self, rows: Sequence[Any], *, searched: bool) -> None:
        """Show these rows; say so when a search found nothing."""
        self.model.set_rows(rows)
        self.nothing.setVisible(searched and not rows)

    def _clear_search(self) -> bool:
        had = bool(self.search.text())
        self.search.clear()
        return had


class EditorPane(QScrollArea):
    """Title, *Duplicate* and *Remove* over the form; a sentence when there is nothing."""

    def __init__(self, dock: Catalog, editor: QWidget) -> None:
        super().__init__()
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        texts = dock.texts
        self.title = title_label()
        self.duplicate = self._tool("duplicate", texts("Duplicate"))
        self.remove = self._tool("remove", texts("Remove"))
        self.empty = label(texts(dock.empty_text), "quiet")
        self.first = button(texts(dock.new_text))
        self.first.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.editor = editor
        self.setWidget(self._ground())
        name_attributes(self)

    def _ground(self) -> QWidget:
        ground = QWidget()
        set_look(ground, "ground")
        box = QVBoxLayout(ground)
        box.setContentsMargins(12, 4, 12, 16)
        box.setSpacing(12)
        head = QHBoxLayout()
        head.setSpacing(4)
        head.addWidget(self.title, 1)
        head.addWidget(self.duplicate)
        head.addWidget(self.remove)
        box.addLayout(head)
        box.addWidget(self.empty)
        box.addWidget(self.first)
        box.addWidget(self.editor)
        box.addStretch(1)
        return ground

    def _tool(self, icon: str, name: str) -> Any:  # noqa: ANN401 - a button, typed by its maker
        tool = accessible(button("", "flat"), name)
        tool.setToolTip(name)
        set_icon(tool, icon, colours_of(self))
        return tool

    def show_title(self, name: str, *, there: bool) -> None:
        """Show the thing's name, or what belongs here when there is nothing."""
        self.title.setText(name)
        self.title.setToolTip(plain_hint(name))
        for widget in (self.title, self.duplicate, self.remove, self.editor):
            widget.setVisible(there)
        self.empty.setVisible(not there)
        self.first.setVisible(not there)

    def focus_first(self) -> None:
        """Put the cursor into the first field of the form."""
        self.ensureVisible(0, 0)
        first = self.editor.nextInFocusChain()
        while first is not None and first is not self.editor:
            if first.focusPolicy() & Qt.FocusPolicy.TabFocus and first.isVisibleTo(self):
                first.setFocus()
                return
            first = first.nextInFocusChain()
