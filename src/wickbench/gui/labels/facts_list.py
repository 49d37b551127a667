"""Which facts a frame shows, and in which order: ticked, dragged, or moved by keys."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from wickbench.app.label_values import FIELD_WORDS
from wickbench.app.texts_marker import N_
from wickbench.domain.label_measures import FACTS
from wickbench.domain.labels import FactsElement
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import button, label

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

    from wickbench.app.texts import Texts
    from wickbench.domain.labels import AnyElement

_NAME: Final = Qt.ItemDataRole.UserRole
_MARGIN: Final = 8
_UP, _DOWN = Qt.Key.Key_Up, Qt.Key.Key_Down


class _OrderedList(QListWidget):
    """A list whose lines Alt with an arrow key moves.

    Signals:
        shifted: the chosen line shall go up (-1) or down (1).
    """

    shifted = Signal(int)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        held = event.modifiers() & Qt.KeyboardModifier.AltModifier
        by = {_UP: -1, _DOWN: 1}.get(Qt.Key(event.key()), 0)
        if held and by:
            self.shifted.emit(by)
        else:
            super().keyPressEvent(event)


class FactsList(QWidget):
    """A ticked list of facts in their order.

    Signals:
        changed: the ticked facts, in order.
    """

    changed = Signal(object)

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        self._texts = texts
        self._filling = False
        self.list = accessible(_OrderedList(), texts(N_("Facts in their order")))
        self.list.setDragDropMode(QAbstractItemView.DragDropMode.InternalMove)
        self.list.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.earlier = button(texts(N_("Earlier")))
        self.later = button(texts(N_("Later")))
        self.hint = label(texts(N_("Tick what it shows; drag a line, or press Alt and an arrow.")),
                          "quiet")  # fmt: skip
        line = QHBoxLayout()
        for one in (self.earlier, self.later):
            line.addWidget(one)
        line.addStretch(1)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(6)
        box.addWidget(self.list)
        box.addLayout(line)
        box.addWidget(self.hint)
        self._connect()
        name_attributes(self)

    def _connect(self) -> None:
        self.list.itemChanged.connect(self._tell)
        self.list.model().rowsMoved.connect(self._tell)
        self.list.shifted.connect(self.move_line)
        self.list.currentRowChanged.connect(self._enable)
        self.earlier.clicked.connect(lambda: self.move_line(-1))
        self.later.clicked.connect(lambda: self.move_line(1))

    def show_element(self, element: AnyElement) -> None:
        """Show the facts of a frame; hidden for anything else."""
        is_facts = isinstance(element, FactsElement)
        self.setVisible(is_facts)
        if isinstance(element, FactsElement) and element.facts != self.facts():
            self._fill(element.facts)
        self._enable()

    def facts(self) -> tuple[str, ...]:
        """The ticked facts in their order."""
        every = (self.list.item(row) for row in range(self.list.count()))
        return tuple(
            str(one.data(_NAME)) for one in every if one.checkState() == Qt.CheckState.Checked
        )

    def move_line(self, by: int) -> None:
        """Put the chosen line earlier or later."""
        row = self.list.currentRow()
        if not 0 <= row + by < self.list.count() or row < 0:
            return
        self._filling = True
        item = self.list.takeItem(row)
        self.list.insertItem(row + by, item)
        self.list.setCurrentItem(item)
        self._filling = False
        self._tell()

    def _fill(self, facts: tuple[str, ...]) -> None:
        self._filling = True
        row = self.list.currentRow()
        self.list.clear()
        for name in (*facts, *(one for one in FACTS if one not in facts)):
            word = FIELD_WORDS.get(name, "")
            item = QListWidgetItem(self._texts(word) if word else name)
            item.setData(_NAME, name)
            ticked = Qt.CheckState.Checked if name in facts else Qt.CheckState.Unchecked
            item.setCheckState(ticked)
            item.setFlags(item.flags() & ~Qt.ItemFlag.ItemIsDropEnabled)
            self.list.addItem(item)
        self.list.setCurrentRow(max(0, row))
        self._filling = False
        self._take_height()

    def _take_height(self) -> None:
        line = max(self.list.sizeHintForRow(0), self.fontMetrics().height())
        high = line * self.list.count() + 2 * self.list.frameWidth() + _MARGIN
        self.list.setFixedHeight(high)

    def _enable(self, *_: object) -> None:
        row = self.list.currentRow()
        self.earlier.setEnabled(row > 0)
        self.later.setEnabled(0 <= row < self.list.count() - 1)

    def _tell(self, *_: object) -> None:
        if not self._filling:
            self._enable()
            self.changed.emit(self.facts())

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(0, super().minimumSizeHint().height())
