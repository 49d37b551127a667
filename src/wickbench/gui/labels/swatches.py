"""Pictures to choose from, side by side: by mouse, or by arrow keys and Enter."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QIcon, QKeyEvent, QPainter, QPixmap, QResizeEvent
from PySide6.QtWidgets import QFrame, QListView, QListWidget, QListWidgetItem, QSizePolicy
from typing_extensions import override

from wickbench.gui.naming import accessible, plain_hint
from wickbench.gui.painting import ScreenSurface
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from wickbench.documents.label_draws import PathDraw

Draw = Callable[[str, str, str], Sequence["PathDraw"]]
"""From a key, ink and ground to the drawing of its swatch, in a square of `SIDE` units."""

SIDE: Final = 40
_CELL: Final = 50
_THINNEST: Final = 1.0
_KEY: Final = Qt.ItemDataRole.UserRole
_CHOOSING: Final = frozenset({Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space})


class Swatches(QListWidget):
    """A grid of drawn swatches, as high as it needs to be.

    Signals:
        looked_at: the arrow keys stand on a swatch; empty when they went away again.
        picked: a swatch was chosen.
    """

    looked_at = Signal(str)
    picked = Signal(str)

    def __init__(self, accessible_name: str, draw: Draw) -> None:
        super().__init__()
        self._draw = draw
        self._words: dict[str, str] = {}
        self._chosen = ""
        self._filling = False
        self.setViewMode(QListView.ViewMode.IconMode)
        self.setMovement(QListView.Movement.Static)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setIconSize(QSize(SIDE, SIDE))
        self.setGridSize(QSize(_CELL, _CELL))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        accessible(self, accessible_name)
        self.itemClicked.connect(self._pick)
        self.currentItemChanged.connect(self._look)

    def show_words(self, words: dict[str, str]) -> None:
        """Offer these: key to translated name."""
        if words != self._words:
            self._words = dict(words)
            self._fill()

    def show_chosen(self, key: str) -> None:
        """Mark the one that is stored."""
        self._chosen = key
        self._filling = True
        self.setCurrentRow(self._row(key))
        self._filling = False

    def keys(self) -> tuple[str, ...]:
        """Keys of what is offered, in order."""
        return tuple(self._words)

    def _fill(self) -> None:
        self._filling = True
        self.clear()
        for key, word in self._words.items():
            item = QListWidgetItem(self._icon(key), "")
            item.setData(_KEY, key)
            item.setData(Qt.ItemDataRole.AccessibleTextRole, word)
            item.setToolTip(plain_hint(word))
            item.setSizeHint(QSize(_CELL, _CELL))
            self.addItem(item)
        self.setCurrentRow(self._row(self._chosen))
        self._filling = False
        self._take_height()

    def _row(self, key: str) -> int:
        """The row of a key; -1, which is none, when it is not offered."""
        rows = (row for row in range(self.count()) if self.item(row).data(_KEY) == key)
        return next(rows, -1)

    def _icon(self, key: str) -> QIcon:
        """The same picture whether chosen or not; the ground tells which one is."""
        picture = self._picture(key)
        icon = QIcon(picture)
        icon.addPixmap(picture, QIcon.Mode.Selected)
        return icon

    def _picture(self, key: str) -> QPixmap:
        ratio = self.devicePixelRatioF()
        picture = QPixmap(QSize(SIDE, SIDE) * ratio)
        picture.fill(Qt.GlobalColor.transparent)
        painter = QPainter(picture)
        surface = ScreenSurface(painter, ratio, page=None)
        colours = colours_of(self)
        for one in self._draw(key, colours.ink, colours.sheet):
            surface.path(
                one.path,
                fill=one.fill,
                stroke=one.stroke,
                width_mm=max(one.width_mm, _THINNEST),
                even_odd=one.even_odd,
            )
        surface.finish()
        painter.end()
        picture.setDevicePixelRatio(ratio)
        return picture

    def _take_height(self) -> None:
        across = max(1, self.width() // _CELL)
        rows = -(-self.count() // across)
        high = max(1, rows) * _CELL + 2 * self.frameWidth() + 2
        if high != self.height():
            self.setFixedHeight(high)

    def _pick(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self._chosen = str(item.data(_KEY))
            self.picked.emit(self._chosen)

    def _look(self, item: QListWidgetItem | None) -> None:
        if item is not None and not self._filling and self.hasFocus():
            self.looked_at.emit(str(item.data(_KEY)))

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if Qt.Key(event.key()) in _CHOOSING:
            self._pick(self.currentItem())
        elif event.key() == Qt.Key.Key_Escape:
            self._give_up()
        else:
            super().keyPressEvent(event)

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self._give_up()

    def _give_up(self) -> None:
        row = self.currentRow()
        if row >= 0 and self.item(row).data(_KEY) != self._chosen:
            self.show_chosen(self._chosen)
            self.looked_at.emit("")

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._take_height()

    @override
    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and self._words:
            self._fill()
