"""How a cell looks and what opens in it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QAbstractItemModel, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtGui import QColor, QIcon, QPalette
from PySide6.QtWidgets import (
    QComboBox,
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
        editor = self._editor(parent, model, index)
        editor.setAccessibleName(
            str(model.headerData(index.column(), Qt.Orientation.Horizontal) or "")
        )
        if isinstance(model, RowModel):
            model.editor_opened()
        return editor

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
        elif isinstance(editor, QLineEdit):
            editor.setText(text)

    @override
    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        if isinstance(editor, QComboBox):
            value: Any = editor.currentData()
            if value is not None:
                model.setData(index, value)
        elif isinstance(editor, QLineEdit):
            model.setData(index, editor.text())

    @override
    def destroyEditor(self, editor: QWidget, index: Index) -> None:
        model = index.model()
        super().destroyEditor(editor, index)
        if isinstance(model, RowModel):
            model.editor_closed()


def _choices(parent: QWidget, offered: Sequence[tuple[str, str]]) -> QComboBox:
    combo = QComboBox(parent)
    slim(combo)
    for word, shown in offered:
        combo.addItem(shown, word)
    return combo


def look_ink(colours: Colours, look: str) -> QColor:
    """The ink of a look."""
    named = {
        "quiet": colours.quiet, "stops": colours.stops, "watch": colours.watch,
        "fine": colours.fine, "accent": colours.accent,
    }  # fmt: skip
    return QColor(named.get(look, colours.ink))
