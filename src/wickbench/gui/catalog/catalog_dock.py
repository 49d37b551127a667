"""The base of the docked catalogs: a searchable list over the scrolling form of what is chosen."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any, ClassVar

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDockWidget, QMenu, QSplitter, QWidget

from wickbench.app.search import matches
from wickbench.domain.errors import DomainError
from wickbench.gui.catalog.catalog_parts import EditorPane, ListPane
from wickbench.gui.listening import Listener

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.questions import Ask
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.gui.tables.column import Column


class CatalogDock(QDockWidget):
    """A dock with a list and the form of the chosen thing; a subclass says what and how.

    Content is built on first show. The list keeps its place when rows change; the form is never
    stamped on under the person's hands (`FieldForm` sees to that).

    Attributes:
        title: msgid of the tab.
        kinds: kinds of change that it shows, as in ``Changes.kinds``.
        find_text: msgid in the empty search line, for example "Find a vessel".
        empty_text: msgid: what belongs here and what to do next.
        new_text: msgid of the button that makes the first thing, shown in the empty view.

    Signals:
        go_requested: key of a page or place and a record, or ``None``.
    """

    title: ClassVar[str] = ""
    kinds: ClassVar[frozenset[str]] = frozenset()
    find_text: ClassVar[str] = ""
    empty_text: ClassVar[str] = ""
    new_text: ClassVar[str] = ""
    go_requested = Signal(str, object)

    def __init__(self, workspace: Workspace, ask: Ask) -> None:
        super().__init__()
        self.workspace = workspace
        self.ask = ask
        self.record: int | None = None
        self.list_pane: ListPane | None = None
        self.editor_pane: EditorPane | None = None
        self._rows: list[Any] = []
        self._built = False
        self.setWindowTitle(self.texts(self.title))
        self._listener = Listener(workspace, self, self.kinds, self._refresh)
        # Later: docks are shown one by one before they get their tabs.
        self.visibilityChanged.connect(self._come_into_sight, Qt.ConnectionType.QueuedConnection)

    # -- what a subclass gives -------------------------------------------------------------------
    def columns(self) -> tuple[Column[Any], ...]:
        """Columns of the list; few, they stand in 310 pixels."""
        raise NotImplementedError

    def rows(self) -> Sequence[Any]:
        """Rows of the list in their order."""
        raise NotImplementedError

    def key(self, row: Any) -> int:  # noqa: ANN401 - rows are of the subclass's type
        """Record number of a row."""
        return int(row.id)

    def words(self, row: Any) -> str:  # noqa: ANN401 - rows are of the subclass's type
        """What the search looks through; the text of the columns when not overridden."""
        return " ".join(column.show(row) for column in self.columns())

    def build_editor(self) -> QWidget:
        """The form of the chosen thing, built once."""
        raise NotImplementedError

    def show_in_editor(self, record: int | None) -> str:
        """Fill the form with a record's fresh values.

        Returns:
            the title over the form: the thing's name.
        """
        raise NotImplementedError

    def new_kinds(self) -> Sequence[tuple[str, str, str]]:
        """Word, msgid and icon of each kind that can be made; empty when there is only one."""
        return ()

    def new_record(self, kind: str) -> int:
        """Make an empty record in a step; ``kind`` is empty when there is only one."""
        raise NotImplementedError

    def duplicate_record(self, record: int) -> int:
        """Copy a record in a step."""
        raise NotImplementedError

    def remove_record(self, record: int) -> None:
        """Remove a record in a step; raises ``DomainError`` when it is in use."""
        raise NotImplementedError

    # -- what everybody uses ---------------------------------------------------------------------
    @property
    def texts(self) -> Texts:
        """Sentences and units as they are now."""
        return self.workspace.texts

    def show_record(self, record: int) -> None:
        """Bring the dock to the front and a record into its form."""
        self.setVisible(True)
        self.raise_()
        self._build()
        if self.list_pane is not None:
            self.list_pane.search.clear()
            self._fill_list()
            self.list_pane.table.go_to(record)
        self._choose(record)

    def focus_search(self) -> None:
        """Put the cursor into the search line."""
        self.show()
        self.raise_()
        self._build()
        if self.list_pane is not None:
            self.list_pane.search.setFocus()

    def release(self) -> None:
        """The workshop is being closed."""
        self._listener.stop()

    # -- inside ----------------------------------------------------------------------------------
    def _come_into_sight(self, *_: object) -> None:
        """Build when it is looked at: a dock behind another's tab is visible, but out of sight."""
        if self.isVisible() and not self.visibleRegion().isEmpty():
            self._build()

    def _build(self) -> None:
        if self._built:
            return
        self._built = True
        self.list_pane = ListPane(self)
        self.editor_pane = EditorPane(self, self.build_editor())
        self._connect(self.list_pane, self.editor_pane)
        splitter = QSplitter(Qt.Orientation.Vertical)
        splitter.setObjectName("splitter")
        splitter.setChildrenCollapsible(False)
        splitter.addWidget(self.list_pane)
        splitter.addWidget(self.editor_pane)
        splitter.setStretchFactor(0, 1)
        splitter.setStretchFactor(1, 3)
        splitter.setSizes([220, 460])
        splitter.setAccessibleName(self.texts(self.title))
        self.setWidget(splitter)
        self._refresh(None)

    def _connect(self, list_pane: ListPane, editor_pane: EditorPane) -> None:
        list_pane.search.textChanged.connect(self._fill_list)
        list_pane.table.chosen.connect(self._choose)
        list_pane.table.remove_requested.connect(self._remove)
        editor_pane.duplicate.clicked.connect(self._duplicate)
        editor_pane.remove.clicked.connect(self._remove)
        kinds = self.new_kinds()
        for new in (list_pane.new, editor_pane.first):
            if not kinds:
                new.clicked.connect(partial(self._new, ""))
                continue
            menu = QMenu(new)
            for word, title, icon in kinds:
                action = menu.addAction(self.texts(title))
                action.setProperty("icon_name", icon)
                action.triggered.connect(partial(self._new, word))
            new.setMenu(menu)

    def _refresh(self, changes: Changes | None) -> None:  # noqa: ARG002 - all is read again
        if not self._built:
            return  # built when it comes into sight, and filled then
        self._rows = list(self.rows())
        self._fill_list()
        keys = [self.key(row) for row in self._rows]
        if self.record not in keys:
            self.record = keys[0] if keys else None
            if self.list_pane is not None and self.record is not None:
                self.list_pane.table.go_to(self.record)
        self._fill_editor()

    def _fill_list(self) -> None:
        if self.list_pane is not None:
            sought = self.list_pane.search.text()
            found = [row for row in self._rows if matches(sought, self.words(row))]
            self.list_pane.show_rows(found, searched=bool(sought.strip()) and bool(self._rows))

    def _fill_editor(self) -> None:
        if self.editor_pane is not None:
            name = self.show_in_editor(self.record)
            self.editor_pane.show_title(name, there=self.record is not None)

    def _choose(self, record: int | None) -> None:
        if record is not None and record != self.record:
            self.record = record
            self._fill_editor()

    def _new(self, kind: str, *_: object) -> None:
        record = self.new_record(kind)
        self.record = record
        self.show_record(record)
        self._fill_editor()
        self.focus_first_field()

    def focus_first_field(self) -> None:
        """Put the cursor where a new thing is named; a subclass may know better."""
        if self.editor_pane is not None:
            self.editor_pane.focus_first()

    def _duplicate(self) -> None:
        if self.record is not None:
            self.show_record(self.duplicate_record(self.record))

    def _remove(self, *_: object) -> None:
        if self.record is None:
            return
        try:
            self.remove_record(self.record)
        except DomainError as error:
            self.ask.tell(self.texts.say(error))
