"""How a cell looks and what opens in it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QAbstractItemModel, QModelIndex, QPersistentModelIndex, Qt, QTimer
from PySide6.QtGui import QColor, QIcon, QPalette
from PySide6.QtWidgets import (
    QComboBox,
    QCompleter,
    QLineEdit,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)
from typing_extensions import override

from wickbench.gui.fields.choice_field import slim
from wickbench.gui.fields.input_guards import TextGuard
from wickbench.gui.icons import icon_pixmap
from wickbench.gui.tables.row_model import ICON_ROLE, LOOK_ROLE, RowModel
from wickbench.gui.theme import Colours, colours_of

if TYPE_CHECKING:
    from collections.abc import Sequence

Index = QModelIndex | QPersistentModelIndex
_ICON = 16


class CellEditor(QStyledItemDelegate):
    """Opens a line or a list of choices, and tells the model that a cell is open."""

    _open: QWidget | None = None

    @override
    def initStyleOption(self, option: QStyleOptionViewItem, index: Index) -> None:
        super().initStyleOption(option, index)
        widget = option.widget
        if not isinstance(widget, QWidget):
            return
        colours = colours_of(widget)
        look = str(index.data(LOOK_ROLE) or "")
        ink = look_ink(colours, look)
        option.palette.setColor(QPalette.ColorRole.Text, ink)
        option.palette.setColor(QPalette.ColorRole.HighlightedText, ink)
        name = str(index.data(ICON_ROLE) or "")
        if name:
            features = option.features
            option.features = features | QStyleOptionViewItem.ViewItemFeature.HasDecoration
            option.icon = QIcon(icon_pixmap(name, ink.name(), _ICON, widget.devicePixelRatioF()))

    @override
    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        model = index.model()
        editor = self._open = self._editor(parent, model, index)
        editor.setAccessibleName(
            str(model.headerData(index.column(), Qt.Orientation.Horizontal) or "")
        )
        if isinstance(model, RowModel):
            model.editor_opened()
            self._tell_typing(editor, model, index)
        if isinstance(editor, QComboBox):
            editor.activated.connect(partial(self._take, editor))
        return editor

    @staticmethod
    def _tell_typing(editor: QWidget, model: RowModel[Any], index: Index) -> None:
        row = model.at(index)
        if row is not None and isinstance(editor, QLineEdit):
            editor.textEdited.connect(
                partial(model.cell_typed.emit, model.key(row), model.columns[index.column()].key)
            )

    def _take(self, editor: QWidget, *_: object) -> None:
        """What is chosen from a list is taken at once; after Enter Qt itself takes it first."""
        QTimer.singleShot(0, self, partial(self._take_if_open, editor))

    def _take_if_open(self, editor: QWidget) -> None:
        if editor is self._open:
            self.commitData.emit(editor)
            self.closeEditor.emit(editor)

    def _editor(self, parent: QWidget, model: QAbstractItemModel, index: Index) -> QWidget:
        if isinstance(model, RowModel):
            offered = model.columns[index.column()].choices
            if offered is not None:
                return _choices(parent, offered(model.at(index)))
        line = QLineEdit(parent)
        line.setFrame(False)
        line.setAlignment(Qt.AlignmentFlag(index.data(Qt.ItemDataRole.TextAlignmentRole)))
        TextGuard(line)
        return line

    @override
    def setEditorData(self, editor: QWidget, index: Index) -> None:
        text = str(index.data(Qt.ItemDataRole.EditRole) or "")
        if isinstance(editor, QComboBox):
            at = editor.findData(text)
            editor.setCurrentIndex(at if at >= 0 else editor.findText(text))
            line = editor.lineEdit()
            if line is not None:
                length = len(line.text())
                line.setSelection(length, -length)  # all of it, read from its beginning
        elif isinstance(editor, QLineEdit):
            editor.setText(text)

    @override
    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        if isinstance(editor, QComboBox):
            model.setData(index, _found(editor))
        elif isinstance(editor, QLineEdit):
            model.setData(index, editor.text())

    @override
    def destroyEditor(self, editor: QWidget, index: Index) -> None:
        model = index.model()
        completer = editor.completer() if isinstance(editor, QComboBox) else None
        popup = completer.popup() if completer is not None else None
        if popup is not None:
            popup.hide()
        if editor is self._open:
            self._open = None
        super().destroyEditor(editor, index)
        if isinstance(model, RowModel):
            model.editor_closed()


def _choices(parent: QWidget, offered: Sequence[tuple[str, str]]) -> QComboBox:
    """A list to choose from, found by typing any part of a name."""
    combo = QComboBox(parent)
    slim(combo)
    combo.setEditable(True)
    combo.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
    for word, shown in offered:
        combo.addItem(shown, word)
    completer = QCompleter(combo.model(), combo)
    completer.setFilterMode(Qt.MatchFlag.MatchContains)
    completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
    completer.setCompletionMode(QCompleter.CompletionMode.PopupCompletion)
    combo.setCompleter(completer)
    line = combo.lineEdit()
    if line is not None:
        TextGuard(line)
    return combo


def _found(combo: QComboBox) -> str:
    """The word of the name that stands in the line, of the only one that contains it, or the text.

    What cannot be found goes on as it was typed, so that the table can say so.
    """
    typed = combo.currentText().strip().casefold()
    names = [combo.itemText(row).casefold() for row in range(combo.count())]
    close = [row for row, name in enumerate(names) if typed and typed in name]
    exact = [row for row in close if names[row] == typed]
    found = exact or (close if len(close) == 1 else [])
    return str(combo.itemData(found[0]) or "") if found else combo.currentText().strip()


def look_ink(colours: Colours, look: str) -> QColor:
    """The ink of a look."""
    named = {
        "quiet": colours.quiet, "stops": colours.stops, "watch": colours.watch,
        "fine": colours.fine, "accent": colours.accent,
    }  # fmt: skip
    return QColor(named.get(look, colours.ink))
