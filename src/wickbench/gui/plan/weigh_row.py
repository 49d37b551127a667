"""One thing to weigh on a pot's card: tick, name, a large amount, the scale, what to do with it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QVBoxLayout, QWidget
from typing_extensions import override

from wickbench.app.texts_marker import N_
from wickbench.gui.fonts import scaled
from wickbench.gui.page import label
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent
    from PySide6.QtWidgets import QLabel

    from wickbench.app.plan_cards import CardLine
    from wickbench.app.texts import Texts

_LARGE: Final = 1.45
_NARROW_CHARACTERS: Final = 82
_RIGHT: Final = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class WeighRow(QWidget):
    """The parts of a row; what to do stands below the amounts where it is narrow.

    Signals:
        ticked: whether the person ticked it; kept while the page is open, never stored.
    """

    ticked = Signal(bool)

    def __init__(self) -> None:
        super().__init__()
        self.done = QCheckBox()
        self.name = label()
        self.scale = label("", "quiet")
        self.amount = label("", wrap=False)
        self.other = label("", "quiet", wrap=False)
        self.when = label()
        scaled(self.amount, _LARGE, bold=True)
        set_look(self.done, "large")
        self._narrow: bool | None = None
        self._grid = QGridLayout(self)
        self._lay_out()
        self.done.toggled.connect(self._tick)

    def _lay_out(self) -> None:
        self._grid.setContentsMargins(0, 3, 0, 3)
        self._grid.setHorizontalSpacing(12)
        self._grid.setVerticalSpacing(0)
        names = QVBoxLayout()
        names.setSpacing(0)
        names.addWidget(self.name)
        names.addWidget(self.scale)
        self._grid.addWidget(self.done, 0, 0)
        self._grid.addLayout(names, 0, 1)
        for column, figure in ((2, self.amount), (3, self.other)):
            figure.setAlignment(_RIGHT)
            self._grid.addWidget(figure, 0, column)
        self._grid.setColumnStretch(1, 4)
        self._place(narrow=False)

    def _place(self, *, narrow: bool) -> None:
        if narrow == self._narrow:
            return
        self._narrow = narrow
        if narrow:
            self._grid.addWidget(self.when, 1, 1, 1, 3)
        else:
            self._grid.addWidget(self.when, 0, 4)
        self._grid.setColumnStretch(4, 0 if narrow else 5)

    def show_line(self, line: CardLine, texts: Texts, *, done: bool) -> None:
        """Show another line in the same widgets; what was weighed at the bench is ticked."""
        weighed = bool(line.weighed)
        for place, words in (
            (self.name, line.name), (self.scale, line.scale), (self.other, line.other),
            (self.amount, line.weighed or line.amount), (self.when, line.when),
        ):  # fmt: skip
            put(place, words)
        name = texts(N_("{name} is weighed"), name=line.name)
        if self.done.accessibleName() != name:
            self.done.setAccessibleName(name)
            self.done.setToolTip(name)
        self.done.setEnabled(not weighed)
        self.done.blockSignals(True)  # noqa: FBT003 - Qt's argument
        self.done.setChecked(done or weighed)
        self.done.blockSignals(False)  # noqa: FBT003 - Qt's argument
        self._fade(done=done or weighed)

    @property
    def widths(self) -> tuple[int, int]:
        """What the two figures need, in pixels."""
        return _needed(self.amount), _needed(self.other)

    def set_widths(self, amount: int, other: int) -> None:
        """As wide as the widest of the card, so that figures stand under each other."""
        for figure, wide in ((self.amount, amount), (self.other, other)):
            if figure.minimumWidth() != wide:
                figure.setMinimumWidth(wide)

    def _tick(self, done: bool) -> None:  # noqa: FBT001 - Qt's signal
        self._fade(done=done)
        self.ticked.emit(done)

    def _fade(self, *, done: bool) -> None:
        for one in (self.name, self.amount, self.when):
            set_look(one, "quiet" if done else "")

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        character = self.fontMetrics().averageCharWidth()
        self._place(narrow=event.size().width() < character * _NARROW_CHARACTERS)
        super().resizeEvent(event)


def put(place: QLabel, words: str) -> None:
    """Change a label only when its words change: laying out again is what takes time."""
    if place.text() != words:
        place.setText(words)


def _needed(figure: QLabel) -> int:
    return figure.fontMetrics().horizontalAdvance(figure.text()) + 2
