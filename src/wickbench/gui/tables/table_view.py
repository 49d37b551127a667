"""The one table view: no sideways scrolling, texts elided, one column takes what is left."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from PySide6.QtCore import QEvent, QItemSelectionModel, QModelIndex, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontMetrics,
    QGuiApplication,
    QKeyEvent,
    QKeySequence,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QSizePolicy, QTableView
from typing_extensions import override

from wickbench.gui.naming import accessible
from wickbench.gui.tables.cell_editor import CellEditor
from wickbench.gui.tables.paste import cells_of, text_of
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Hashable, Sequence

    from wickbench.gui.tables.column import Column
    from wickbench.gui.tables.row_model import RowModel

_PADDING: Final = 20
_TEXT_AT: Final = 9
_NARROWEST: Final = 28
_READABLE: Final = 110
_LEAST_FOR_WORDS: Final = 0.3
_SAMPLE_ROWS: Final = 60


class TableView(QTableView):
    """A table of a `RowModel`, as tall as its rows up to a limit.

    Signals:
        chosen: key of the row that the person went to; ``None`` for none.
        opened: key of a row that was double-clicked or entered, in tables that are not edited.
        remove_requested: keys of the selected rows, on the Delete key.
    """

    chosen = Signal(object)
    opened = Signal(object)
    remove_requested = Signal(list)

    def __init__(
        self,
        model: RowModel[Any],
        accessible_name: str,
        *,
        most_rows: int = 12,
        fewest_rows: int = 2,
    ) -> None:
        super().__init__()
        self.rows_model = model
        self._most, self._fewest = most_rows, fewest_rows
        self._current_key: Hashable = None
        self.setModel(model)
        accessible(self, accessible_name)
        self._calm()
        self._set_headers()
        self.setItemDelegate(CellEditor(self))
        model.modelAboutToBeReset.connect(self._remember)
        model.rows_shown.connect(self._shown)
        self.selectionModel().currentRowChanged.connect(self._went)
        self.activated.connect(self._activated)

    def _calm(self) -> None:
        self.setAlternatingRowColors(True)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setTabKeyNavigation(False)
        triggers = QAbstractItemView.EditTrigger
        self.setEditTriggers(
            triggers.DoubleClicked | triggers.EditKeyPressed | triggers.AnyKeyPressed
            | triggers.SelectedClicked
        )  # fmt: skip
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)

    def _set_headers(self) -> None:
        rows = self.verticalHeader()
        rows.hide()
        rows.setDefaultSectionSize(self.fontMetrics().height() + 10)
        rows.setMinimumSectionSize(self.fontMetrics().height() + 6)
        columns = self.horizontalHeader()
        columns.setMinimumSectionSize(24)
        columns.setHighlightSections(False)
        columns.setSectionsClickable(True)
        columns.setTextElideMode(Qt.TextElideMode.ElideRight)
        columns.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)

    def allow_sorting(self) -> None:
        """A click on a header sorts by its column; rows keep their order until then."""
        header = self.horizontalHeader()
        header.setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
        header.setSortIndicatorClearable(True)
        self.setSortingEnabled(True)

    # -- size ------------------------------------------------------------------------------------
    @override
    def sizeHint(self) -> QSize:
        rows = min(max(self.rows_model.rowCount(), self._fewest), self._most)
        return QSize(280, self._height(rows))

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(120, self._height(min(self.sizeHint().height(), self._fewest)))

    def _height(self, rows: int) -> int:
        header = self.horizontalHeader().sizeHint().height()
        return header + rows * self.verticalHeader().defaultSectionSize() + 4

    def fit_columns(self) -> None:
        """Give each column its text's width; figures keep theirs, words share what is left."""
        columns = self.rows_model.columns
        if not columns:
            return
        stretch = next((at for at, column in enumerate(columns) if column.stretch), 0)
        wanted = [self._wanted(at) for at in range(len(columns))]
        room = self.viewport().width()
        hidden = spared(wanted, [at for at, one in enumerate(columns) if one.spare], room, stretch)
        for at in range(len(columns)):
            self.setColumnHidden(at, at in hidden)
            wanted[at] = 0 if at in hidden else wanted[at]
        words = [
            at
            for at, column in enumerate(columns)
            if at == stretch or not (column.numeric or column.keeps)
        ]
        for at, wide in enumerate(shared_widths(wanted, words, stretch, room)):
            if at not in hidden:
                self.setColumnWidth(at, wide)

    def _wanted(self, at: int) -> int:
        model, metrics = self.rows_model, self.fontMetrics()
        title = str(model.headerData(at, Qt.Orientation.Horizontal) or "")
        bold = QFont(self.font())
        bold.setWeight(QFont.Weight.DemiBold)
        header = QFontMetrics(bold).horizontalAdvance(title)
        column = model.columns[at]
        texts = [column.show(row) for row in model.rows[:_SAMPLE_ROWS]]
        widest = max((metrics.horizontalAdvance(text) for text in texts), default=0)
        icon = 22 if column.icon is not None else 0
        return max(header, widest + icon) + _PADDING

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit_columns()

    @override
    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in {QEvent.Type.FontChange, QEvent.Type.StyleChange}:
            self.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + 10)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        model = self.rows_model
        if model.add is None or self.state() == self.State.EditingState:
            return
        first = self.visualRect(model.index(len(model.rows), 0))
        room = first.adjusted(_TEXT_AT, 0, self.viewport().width() - first.width(), 0)
        painter = QPainter(self.viewport())
        painter.setPen(QColor(colours_of(self).quiet))
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, model.invitation)
        painter.end()

    # -- where the person is ---------------------------------------------------------------------
    @property
    def current_key(self) -> Hashable:
        """Key of the row that the person is on; ``None`` for none."""
        row = self.rows_model.at(self.currentIndex())
        return None if row is None else self.rows_model.key(row)

    def go_to(self, key: Hashable) -> bool:
        """Go to the row known by a key; says whether it is there."""
        at = self.rows_model.row_of(key)
        if at < 0:
            return False
        self.setCurrentIndex(self.rows_model.index(at, max(0, self.currentIndex().column())))
        return True

    def selected_keys(self) -> list[Any]:
        """Keys of the selected rows from top to bottom."""
        places = sorted({index.row() for index in self.selectionModel().selectedIndexes()})
        rows = self.rows_model.rows
        return [self.rows_model.key(rows[at]) for at in places if at < len(rows)]

    def _remember(self) -> None:
        self._column = max(0, self.currentIndex().column())
        self._current_key = self.current_key

    def _shown(self) -> None:
        at = self.rows_model.row_of(self._current_key)
        if at >= 0:
            index = self.rows_model.index(at, self._column)
            flags = QItemSelectionModel.SelectionFlag
            self.selectionModel().setCurrentIndex(index, flags.ClearAndSelect | flags.Rows)
        self.fit_columns()
        self.updateGeometry()

    def _went(self, current: QModelIndex) -> None:
        row = self.rows_model.at(current)
        self.chosen.emit(None if row is None else self.rows_model.key(row))

    def _activated(self, index: QModelIndex) -> None:
        row = self.rows_model.at(index)
        editable = Qt.ItemFlag.ItemIsEditable in self.rows_model.flags(index)
        if row is not None and not editable:
            self.opened.emit(self.rows_model.key(row))

    # -- keys ------------------------------------------------------------------------------------
    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.matches(QKeySequence.StandardKey.Paste):
            self.paste(QGuiApplication.clipboard().text())
        elif event.matches(QKeySequence.StandardKey.Copy):
            self.copy()
        elif event.key() == Qt.Key.Key_Delete:
            keys = self.selected_keys()
            if keys:
                self.remove_requested.emit(keys)
        else:
            super().keyPressEvent(event)

    def copy(self) -> None:
        """Put the selected rows on the clipboard."""
        places = sorted({index.row() for index in self.selectionModel().selectedIndexes()})
        model = self.rows_model
        rows = [
            [column.show(model.rows[at]) for column in model.columns]
            for at in places
            if at < len(model.rows)
        ]
        QGuiApplication.clipboard().setText(text_of(rows))

    def paste(self, text: str) -> None:
        """Type cells from a spreadsheet in from the current cell on; more rows are added."""
        model, current = self.rows_model, self.currentIndex()
        first = current.row() if current.isValid() else len(model.rows)
        left = max(0, current.column())
        existing = [model.key(row) for row in model.rows]
        for down, cells in enumerate(cells_of(text)):
            columns = model.columns[left : left + len(cells)]
            at = first + down
            if at < len(existing):
                self._paste_into(existing[at], columns, cells)
            elif model.add is not None:
                model.take_row({c.key: cell for c, cell in zip(columns, cells, strict=False)})

    def _paste_into(
        self, key: Hashable, columns: Sequence[Column[Any]], cells: Sequence[str]
    ) -> None:
        """Each cell is taken by the row as it is after the cell before."""
        model = self.rows_model
        for column, cell in zip(columns, cells, strict=False):
            at = model.row_of(key)
            if column.write is not None and at >= 0:
                model.take(model.rows[at], column, cell)


def spared(wanted: list[int], spare: list[int], room: int, stretch: int) -> set[int]:
    """Which columns to hide, from the right, so that the stretching one keeps a readable width."""
    least = min(wanted[stretch], _READABLE)
    hidden: set[int] = set()
    for at in reversed(spare):
        others = sum(w for i, w in enumerate(wanted) if i != stretch and i not in hidden)
        if others + least > room:
            hidden.add(at)
    return hidden


def shared_widths(wanted: list[int], words: list[int], stretch: int, room: int) -> list[int]:
    """Widths that fill the room exactly.

    Args:
        wanted: what each column would like.
        words: places of the columns that may be cut short first.
        stretch: place of the column that takes what is left.
        room: width to fill.

    Returns:
        one width per column; they sum to ``room`` when there is room for all at their narrowest.
    """
    widths = list(wanted)
    seen = [at for at, wide in enumerate(wanted) if wide]
    figures = [at for at in seen if at not in words]
    words = [at for at in words if at in seen]
    for group, share in ((figures, 1.0 - _LEAST_FOR_WORDS), (words, 1.0)):
        taken = sum(widths[at] for at in figures) if group is words else 0
        most = room * share - taken
        needed = sum(widths[at] for at in group)
        if sum(wanted) > room and group and needed > most:
            for at in group:
                widths[at] = max(_NARROWEST, int(widths[at] * max(most, 0) / needed))
    widths[stretch] += max(0, room - sum(widths))
    for at in sorted(seen, key=lambda at: -widths[at]):
        widths[at] -= min(max(0, sum(widths) - room), widths[at] - _NARROWEST)
    return widths
