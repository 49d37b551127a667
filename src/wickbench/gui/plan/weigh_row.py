"""One thing to weigh on a pot's card: tick, name, a large amount, the scale, what to do with it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QRect, QSize, Qt, Signal
from PySide6.QtWidgets import QCheckBox, QSizePolicy, QWidget
from typing_extensions import override

from wickbench.app.texts_marker import N_
from wickbench.gui.fonts import scaled
from wickbench.gui.steady import SteadyLabel
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent
    from PySide6.QtWidgets import QLabel

    from wickbench.app.plan_cards import CardLine
    from wickbench.app.texts import Texts

_LARGE: Final = 1.45
_NARROW_CHARACTERS: Final = 82
_GAP: Final = 12
_EDGE: Final = 3
_NAMES_SHARE, _WHEN_SHARE = 4, 5
_SPARE: Final = 2
_RIGHT: Final = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


@dataclass(frozen=True, slots=True)
class _Widths:
    """What each column of a row has, in pixels."""

    done: int
    names: int
    amount: int
    other: int
    when: int


class WeighRow(QWidget):
    """The parts of a row, placed by hand; what to do stands below the amounts where it is narrow.

    Signals:
        ticked: whether the person ticked it; kept while the page is open, never stored.
    """

    ticked = Signal(bool)

    def __init__(self) -> None:
        super().__init__()
        self.done = QCheckBox(self)
        self.name = SteadyLabel()
        self.scale = SteadyLabel("", "quiet")
        self.amount = SteadyLabel(wrap=False)
        self.other = SteadyLabel("", "quiet", wrap=False)
        self.when = SteadyLabel()
        for part in self.parts:
            part.setParent(self)
        scaled(self.amount, _LARGE, bold=True)
        set_look(self.done, "large")
        for figure in (self.amount, self.other):
            figure.setAlignment(_RIGHT)
        self._columns = (0, 0)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.done.toggled.connect(self._tick)

    @property
    def parts(self) -> tuple[SteadyLabel, ...]:
        """Everything in words."""
        return self.name, self.scale, self.amount, self.other, self.when

    def show_line(self, line: CardLine, texts: Texts, *, done: bool) -> None:
        """Show another line in the same widgets; what was weighed at the bench is ticked."""
        weighed = bool(line.weighed)
        said = (line.name, line.scale, line.weighed or line.amount, line.other, line.when)
        for part, words in zip(self.parts, said, strict=True):
            part.setText(words)
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
        return self.amount.words_width + _SPARE, self.other.words_width + _SPARE

    def set_widths(self, amount: int, other: int) -> None:
        """As wide as the widest of the card, so that figures stand under each other."""
        self._columns = amount, other
        if self._height(self.width()) != self.height():
            self.updateGeometry()
        self._arrange()

    def _tick(self, done: bool) -> None:  # noqa: FBT001 - Qt's signal
        self._fade(done=done)
        self.ticked.emit(done)

    def _fade(self, *, done: bool) -> None:
        for one in (self.name, self.amount, self.when):
            set_look(one, "quiet" if done else "")

    # -- places ----------------------------------------------------------------------------------
    def _is_narrow(self, width: int) -> bool:
        return width < self.fontMetrics().averageCharWidth() * _NARROW_CHARACTERS

    def _shared(self, width: int) -> _Widths:
        """The columns of a row of this width."""
        done = self.done.sizeHint().width()
        amount, other = self._columns
        if self._is_narrow(width):
            names = max(0, width - done - amount - other - 3 * _GAP)
            return _Widths(done, names, amount, other, max(0, width - done - _GAP))
        rest = max(0, width - done - amount - other - 4 * _GAP)
        names = rest * _NAMES_SHARE // (_NAMES_SHARE + _WHEN_SHARE)
        return _Widths(done, names, amount, other, rest - names)

    def _heights(self, shared: _Widths) -> tuple[int, int]:
        """Height of the names and figures, and of what to do with it."""
        names = sum(one.heightForWidth(shared.names) for one in (self.name, self.scale))
        figures = (one.sizeHint().height() for one in (self.done, self.amount, self.other))
        return max(names, *figures), self.when.heightForWidth(shared.when)

    def _height(self, width: int) -> int:
        above, when = self._heights(self._shared(width))
        return 2 * _EDGE + (above + when if self._is_narrow(width) else max(above, when))

    def _arrange(self) -> None:
        """Put every part in its place; one that is there already is not touched by Qt."""
        shared = self._shared(self.width())
        above, below = self._heights(shared)
        narrow = self._is_narrow(self.width())
        high = above if narrow else max(above, below)
        boxes = (shared.done, shared.names, shared.amount, shared.other)
        lefts = [sum(boxes[:at]) + at * _GAP for at in range(len(boxes) + 1)]
        self.done.setGeometry(QRect(lefts[0], _EDGE, shared.done, high))
        self._arrange_names(QRect(lefts[1], _EDGE, shared.names, high))
        self.amount.setGeometry(QRect(lefts[2], _EDGE, shared.amount, high))
        self.other.setGeometry(QRect(lefts[3], _EDGE, shared.other, high))
        left, top, tall = (lefts[1], _EDGE + above, below) if narrow else (lefts[4], _EDGE, high)
        self.when.setGeometry(QRect(left, top, shared.when, tall))

    def _arrange_names(self, room: QRect) -> None:
        """The name above its scale; what is left of the height is shared."""
        name, scale = (one.heightForWidth(room.width()) for one in (self.name, self.scale))
        more = max(0, room.height() - name - scale) // 2 if scale else room.height() - name
        self.name.setGeometry(QRect(room.left(), room.top(), room.width(), name + more))
        rest = QRect(room.left(), room.top() + name + more, room.width(), scale + more)
        self.scale.setGeometry(rest)

    @override
    def heightForWidth(self, width: int) -> int:
        return self._height(width)

    @override
    def sizeHint(self) -> QSize:
        return QSize(self.minimumSizeHint().width(), self._height(self.width()))

    @override
    def minimumSizeHint(self) -> QSize:
        wide = self.done.sizeHint().width() + sum(self._columns) + 3 * _GAP
        return QSize(wide, self.amount.sizeHint().height() + 2 * _EDGE)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()


def put(place: QLabel, words: str) -> None:
    """Change a label only when its words change: laying out again is what takes time."""
    if place.text() != words:
        place.setText(words)
