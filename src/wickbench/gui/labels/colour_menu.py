"""A menu of inks for what is chosen on a label; any other colour in the system's dialog."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Signal
from PySide6.QtGui import QColor, QIcon, QPainter, QPixmap
from PySide6.QtWidgets import QColorDialog, QMenu, QWidget

from wickbench.app.label_colours import INKS, colours_of_element
from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from wickbench.app.label_colours import Coloured
    from wickbench.app.texts import Texts
    from wickbench.domain.labels import AnyElement

_SIDE: Final = 16
_BLACK: Final = "#000000"
_EDGE: Final = "#8a8178"


class ColourMenu(QMenu):
    """Inks for each colour that the chosen element has.

    Signals:
        chosen: attribute and colour; the colour is empty for none.
    """

    chosen = Signal(str, str)

    def __init__(self, texts: Texts, parent: QWidget) -> None:
        super().__init__(parent)
        self._texts = texts
        self._element: AnyElement | None = None
        self._offered: tuple[Coloured, ...] = ()
        self._parts: list[QMenu] = []

    def show_element(self, element: AnyElement, *, is_drawing: bool) -> bool:
        """Offer an element's colours; says whether it has any."""
        self._element = element
        every = colours_of_element(element, is_drawing=is_drawing)
        if every != self._offered:
            self._offered = every
            self._offer()
        return bool(every)

    def _offer(self) -> None:
        self.clear()
        while self._parts:
            self._parts.pop().deleteLater()
        for one in self._offered:
            menu: QMenu = self
            if len(self._offered) > 1:
                menu = self.addMenu(self._texts(one.label))
                self._parts.append(menu)
            self._fill(menu, one)

    def _fill(self, menu: QMenu, one: Coloured) -> None:
        for colour, word in INKS.items():
            action = menu.addAction(_square(colour), self._texts(word))
            action.setObjectName(f"{one.name}_{colour[1:]}")
            action.triggered.connect(partial(self._choose, one.name, colour))
        menu.addSeparator()
        other = menu.addAction(self._texts(N_("Another colour…")))
        other.setObjectName(f"{one.name}_other")
        other.triggered.connect(partial(self._ask, one))
        if one.without:
            none = menu.addAction(self._texts(one.without))
            none.setObjectName(f"{one.name}_none")
            none.triggered.connect(partial(self._choose, one.name, ""))

    def _choose(self, name: str, colour: str, *_: object) -> None:
        self.chosen.emit(name, colour)

    def _ask(self, one: Coloured, *_: object) -> None:
        now = QColor(str(getattr(self._element, one.name, "") or _BLACK))
        chosen = QColorDialog.getColor(now, self.parentWidget(), self._texts(one.label))
        if chosen.isValid():
            self.chosen.emit(one.name, chosen.name())


def _square(colour: str) -> QIcon:
    picture = QPixmap(_SIDE, _SIDE)
    picture.fill(QColor(_EDGE))
    painter = QPainter(picture)
    painter.fillRect(1, 1, _SIDE - 2, _SIDE - 2, QColor(colour))
    painter.end()
    return QIcon(picture)
