"""Fields to choose in: one of a few words, yes or no, another record."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QCompleter,
    QSizePolicy,
    QStyle,
    QStyleOptionComboBox,
    QStylePainter,
)
from typing_extensions import override

from wickbench.gui.fields.field import Field
from wickbench.gui.fields.input_guards import TextGuard, WheelGuard

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtGui import QPaintEvent

_CHARACTERS: Final = 8
_ROWS: Final = 16
_INSET: Final = 10
_NOT_CHOSEN: Final = "–"


class ElidingCombo(QComboBox):
    """A box to choose from that ends a name it has no room for with an ellipsis."""

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QStylePainter(self)
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        style = self.style()
        painter.drawComplexControl(QStyle.ComplexControl.CC_ComboBox, option)
        part = QStyle.SubControl.SC_ComboBoxEditField
        room = style.subControlRect(QStyle.ComplexControl.CC_ComboBox, option, part, self).width()
        mode = Qt.TextElideMode.ElideRight
        text = self.fontMetrics().elidedText(option.currentText, mode, max(0, room - _INSET))
        option.currentText = text
        painter.drawControl(QStyle.ControlElement.CE_ComboBoxLabel, option)


class ChoiceField(Field):
    """One of a few words."""

    def __init__(self, accessible_name: str, pairs: Sequence[tuple[str, str]]) -> None:
        """Build it.

        Args:
            accessible_name: translated name of the field.
            pairs: stored word and translated label, in order; the word ``""`` is *not chosen*.
        """
        self.combo = ElidingCombo()
        self._assumed = _NOT_CHOSEN
        slim(self.combo)
        super().__init__(self.combo, accessible_name)
        WheelGuard(self.combo)
        self.set_pairs(pairs)
        self.combo.activated.connect(self._chosen)

    def set_pairs(self, pairs: Sequence[tuple[str, str]]) -> None:
        """Offer other words; what is chosen stays chosen."""
        kept = self.text()
        self.combo.clear()
        for word, shown in pairs:
            self.combo.addItem(shown, word)
        self._put(kept)

    @override
    def show_assumed(self, text: str) -> None:
        at = self.combo.findData("")
        if at >= 0 and self.combo.itemText(at) in {_NOT_CHOSEN, self._assumed}:
            self._assumed = text or _NOT_CHOSEN
            self.combo.setItemText(at, self._assumed)

    @override
    def text(self) -> str:
        return str(self.combo.currentData() or "")

    @override
    def _put(self, text: str) -> None:
        self.combo.setCurrentIndex(self.combo.findData(text))

    def _chosen(self) -> None:
        self.edited.emit(self.text())
        if self.text() != self._stored:
            self.committed.emit(self.text())


class YesNoField(Field):
    """A box to tick; the label is part of it."""

    def __init__(self, label: str) -> None:
        self.box = QCheckBox(label)
        super().__init__(self.box, label)
        self.box.clicked.connect(self._clicked)

    @override
    def text(self) -> str:
        return "1" if self.box.isChecked() else "0"

    @override
    def _put(self, text: str) -> None:
        self.box.setChecked(text == "1")

    @override
    def show_stored(self, text: str) -> None:
        super().show_stored("1" if text == "1" else "0")

    def _clicked(self) -> None:
        self.edited.emit(self.text())
        self.committed.emit(self.text())


class ReferenceField(Field):
    """Another record, found by typing any part of its name."""

    def __init__(
        self,
        accessible_name: str,
        offered: Callable[[], Sequence[tuple[str, str]]],
        name_of: Callable[[str], str] | None = None,
    ) -> None:
        """Build it.

        Args:
            accessible_name: translated name of the field.
            offered: gives record number and name of what can be chosen, asked on each refresh;
                the number ``""`` is *none*.
            name_of: name of a record that is stored here but not offered any more, such as one
                that was put away; without it the field would seem empty.
        """
        self.combo = QComboBox()
        self._name_of = name_of
        slim(self.combo)
        self.combo.setEditable(True)
        self.combo.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        super().__init__(self.combo, accessible_name)
        self._offered = offered
        self._set_up_search(accessible_name)
        WheelGuard(self.combo)
        self.combo.activated.connect(self._chosen)
        self.reload()

    def _set_up_search(self, accessible_name: str) -> None:
        completer = QCompleter(self.combo.model(), self.combo)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setCompletionMode(QCompleter.CompletionMode.PopupCompletion)
        self.combo.setCompleter(completer)
        line = self.combo.lineEdit()
        if line is not None:
            line.setAccessibleName(accessible_name)
            line.editingFinished.connect(self._left)
            TextGuard(line, self.restore)

    def reload(self) -> None:
        """Ask again what can be chosen; what is chosen stays chosen."""
        kept = self._stored
        self.combo.blockSignals(True)  # noqa: FBT003 - Qt's argument
        self.combo.clear()
        for number, name in self._offered():
            self.combo.addItem(name, number)
        if kept and self._name_of is not None and self.combo.findData(kept) < 0:
            self.combo.addItem(self._name_of(kept), kept)
        self._put(kept)
        self.combo.blockSignals(False)  # noqa: FBT003 - Qt's argument

    @property
    @override
    def under_edit(self) -> bool:
        shown = self.combo.currentText() if self.text() else ""
        line = self.combo.lineEdit()
        return line is not None and line.text() != shown and self.combo.hasFocus()

    @override
    def show_stored(self, text: str) -> None:
        editing = self.under_edit
        self._stored = text
        if not editing:
            self.clear_trouble()
            self.reload()

    @override
    def text(self) -> str:
        return str(self.combo.currentData() or "")

    @override
    def show_assumed(self, text: str) -> None:
        line = self.combo.lineEdit()
        if line is not None:
            line.setPlaceholderText(text)

    @override
    def _put(self, text: str) -> None:
        index = self.combo.findData(text)
        self.combo.setCurrentIndex(index)
        self.combo.setEditText(self.combo.itemText(index) if index >= 0 and text else "")
        line = self.combo.lineEdit()
        if line is not None and not line.hasFocus():
            line.setCursorPosition(0)  # a long name is read from its beginning

    def _chosen(self) -> None:
        self.edited.emit(self.text())
        if self.text() != self._stored:
            self.committed.emit(self.text())

    def _left(self) -> None:
        """Take a name typed in full, or the only one that contains what was typed."""
        typed = self.combo.currentText().strip().casefold()
        names = [self.combo.itemText(row).casefold() for row in range(self.combo.count())]
        close = [row for row, name in enumerate(names) if typed and typed in name]
        exact = [row for row in close if names[row] == typed]
        found = exact or (close if len(close) == 1 else [])
        if found:
            self.combo.setCurrentIndex(found[0])
        elif not typed:
            self.combo.setCurrentIndex(self.combo.findData(""))
        self._put(self.text())
        self._chosen()


def slim(combo: QComboBox) -> None:
    """A combo box that gives way in a narrow dock and shows many rows when open."""
    combo.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    combo.setMinimumContentsLength(_CHARACTERS)
    combo.setMaxVisibleItems(_ROWS)
    combo.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
