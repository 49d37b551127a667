"""The one table model: rows are frozen values, columns are objects."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final, Generic, TypeVar

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from typing_extensions import override

from wickbench.domain.errors import DomainError
from wickbench.gui.naming import plain_hint

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Sequence

    from wickbench.app.texts import Texts
    from wickbench.gui.tables.column import Column

Row = TypeVar("Row")
Index = QModelIndex | QPersistentModelIndex
_ROOT: Final = QModelIndex()

LOOK_ROLE: Final = Qt.ItemDataRole.UserRole + 1
"""Look of a cell: "quiet", "stops", "watch", "fine" or empty."""
ICON_ROLE: Final = Qt.ItemDataRole.UserRole + 2
"""Name of the icon of a cell, or empty."""


class RowModel(QAbstractTableModel, Generic[Row]):
    """Rows and columns; typed text that cannot be read stays in its cell with its sentence.

    Signals:
        refused: sentence for text that could not be read; empty when all is well again.
        rows_shown: the rows were replaced.
        cell_typed: key of a row, key of a column, and the text while the person types; the text
            is ``None`` when the cell is closed.
    """

    refused = Signal(str)
    rows_shown = Signal()
    cell_typed = Signal(object, str, object)

    def __init__(
        self,
        texts: Callable[[], Texts],
        columns: Sequence[Column[Row]],
        key: Callable[[Row], Hashable],
        *,
        add: Callable[[dict[str, str]], None] | None = None,
        adding: str = "",
    ) -> None:
        """Build an empty table.

        Args:
            texts: gives the sentences as they are now.
            columns: from left to right.
            key: what a row is known by when rows are replaced.
            add: takes typed texts by column key and makes a new row; raises ``DomainError``. When
                given, a last row invites typing.
            adding: msgid of that invitation, for example "Add a line…".
        """
        super().__init__()
        self._texts = texts
        self.columns = tuple(columns)
        self.key = key
        self.rows: list[Row] = []
        self.add = add
        self._adding = adding
        self._order: tuple[int, Qt.SortOrder] | None = None
        self._waiting: list[Row] | None = None
        self._typed: dict[tuple[Hashable, str], tuple[str, str]] = {}
        self.editing = False

    # -- rows ------------------------------------------------------------------------------------
    def set_rows(self, rows: Sequence[Row]) -> None:
        """Show other rows; waits while a cell is open."""
        if self.editing:
            self._waiting = list(rows)
            return
        self.beginResetModel()
        self.rows = self._sorted(rows)
        keys: set[Hashable] = {self.key(row) for row in self.rows} | {None}
        self._typed = {place: kept for place, kept in self._typed.items() if place[0] in keys}
        self.endResetModel()
        self.rows_shown.emit()

    def editor_opened(self) -> None:
        """A cell is open: keep the rows still."""
        self.editing = True

    def editor_closed(self) -> None:
        """The cell is closed: show the rows that came in meanwhile."""
        self.editing = False
        self.cell_typed.emit(None, "", None)
        if self._waiting is not None:
            rows, self._waiting = self._waiting, None
            self.set_rows(rows)

    def row_of(self, key: Hashable) -> int:
        """Place of the row known by a key; -1 when it is not there."""
        return next((at for at, row in enumerate(self.rows) if self.key(row) == key), -1)

    def at(self, index: Index) -> Row | None:
        """The row under an index; ``None`` for the inviting row and for nowhere."""
        if index.isValid() and index.row() < len(self.rows):
            return self.rows[index.row()]
        return None

    @override
    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:
        self._order = (column, order) if column >= 0 else None
        self.set_rows(self.rows)

    def _sorted(self, rows: Sequence[Row]) -> list[Row]:
        if self._order is None:
            return list(rows)
        column = self.columns[self._order[0]]
        by = column.sort or (lambda row: column.show(row).casefold())
        filled = [row for row in rows if by(row) is not None]
        empty = [row for row in rows if by(row) is None]
        backwards = self._order[1] == Qt.SortOrder.DescendingOrder
        ordered = sorted(filled, key=by, reverse=backwards)  # type: ignore[arg-type]  # one kind per column
        return ordered + empty

    @property
    def invitation(self) -> str:
        """The text of the inviting row."""
        return self._texts()(self._adding)

    # -- what Qt asks ----------------------------------------------------------------------------
    @override
    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self.rows) + (self.add is not None)

    @override
    def columnCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self.columns)

    @override
    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        if orientation == Qt.Orientation.Vertical or section >= len(self.columns):
            return None
        column = self.columns[section]
        if role == Qt.ItemDataRole.DisplayRole:
            return self._texts()(column.title)
        if role == Qt.ItemDataRole.ToolTipRole:
            return self._texts()(column.about or column.title)
        return alignment(column) if role == Qt.ItemDataRole.TextAlignmentRole else None

    @override
    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = super().flags(index)
        if not index.isValid():
            return flags
        column = self.columns[index.column()]
        if index.row() >= len(self.rows) or column.write is not None:
            flags |= Qt.ItemFlag.ItemIsEditable
        return flags

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        column = self.columns[index.column()]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return alignment(column)
        row = self.at(index)
        kept = self._typed.get((self.key(row) if row is not None else None, column.key))
        if kept is not None:
            return self._kept(kept, role)
        if row is None:
            return self._invitation(index.column(), role)
        return _shown(column, row, role)

    @staticmethod
    def _kept(kept: tuple[str, str], role: int) -> object:
        typed, sentence = kept
        return {
            int(Qt.ItemDataRole.DisplayRole): typed, int(Qt.ItemDataRole.EditRole): typed,
            int(Qt.ItemDataRole.ToolTipRole): plain_hint(sentence), int(LOOK_ROLE): "stops",
            int(ICON_ROLE): "stops",
            int(Qt.ItemDataRole.AccessibleDescriptionRole): sentence,
        }.get(int(role))  # fmt: skip

    def _invitation(self, column: int, role: int) -> object:
        """The view paints it over the whole row; a cell says it only to a screen reader."""
        if role == Qt.ItemDataRole.AccessibleTextRole and column == 0:
            return self.invitation
        return "" if role == Qt.ItemDataRole.EditRole else None

    @override
    def setData(self, index: Index, value: Any, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.EditRole or not index.isValid():
            return False
        column, row = self.columns[index.column()], self.at(index)
        if str(value) == str(self.data(index, role) or "") and not self._has_trouble(row, column):
            return False
        return self.take(row, column, str(value))

    def take(self, row: Row | None, column: Column[Row], typed: str) -> bool:
        """Take typed text for a cell; ``row`` is ``None`` for the inviting row."""
        place = (self.key(row) if row is not None else None, column.key)
        self._typed.pop(place, None)
        try:
            if row is not None and column.write is not None:
                column.write(row, typed)
            elif row is None and self.add is not None and typed.strip():
                self.add({column.key: typed})
        except DomainError as error:
            sentence = self._texts().say(error)
            self._typed[place] = (typed, sentence)
            self._repaint()
            self.refused.emit(sentence)
            return False
        self._repaint()
        self.refused.emit("")
        return True

    def take_row(self, typed: dict[str, str]) -> bool:
        """Take a new row of typed texts by column key, as from a spreadsheet."""
        if self.add is None or not any(typed.values()):
            return False
        try:
            self.add(typed)
        except DomainError as error:
            self.refused.emit(self._texts().say(error))
            return False
        self.refused.emit("")
        return True

    def _has_trouble(self, row: Row | None, column: Column[Row]) -> bool:
        return (self.key(row) if row is not None else None, column.key) in self._typed

    def _repaint(self) -> None:
        if self.rowCount():
            last = self.index(self.rowCount() - 1, self.columnCount() - 1)
            self.dataChanged.emit(self.index(0, 0), last)


def alignment(column: Column[Any]) -> Qt.AlignmentFlag:
    """Figures at the right, words at the left; headers like their cells."""
    side = Qt.AlignmentFlag.AlignRight if column.numeric else Qt.AlignmentFlag.AlignLeft
    return side | Qt.AlignmentFlag.AlignVCenter


def _shown(column: Column[Row], row: Row, role: int) -> object:
    if role in {Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole}:
        return column.show(row)
    if role == Qt.ItemDataRole.EditRole:
        return column.edit_text(row) if column.edit_text else column.show(row)
    if role == Qt.ItemDataRole.ToolTipRole:
        return plain_hint(column.hint(row) if column.hint else column.show(row))
    if role == LOOK_ROLE:
        return column.look(row) if column.look else ""
    if role == ICON_ROLE:
        return column.icon(row) if column.icon else ""
    return None
