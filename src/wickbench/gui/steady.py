"""Words and columns that change without having the whole window laid out again."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QEvent, QRect, QSize, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QLabel, QSizePolicy, QVBoxLayout
from typing_extensions import override

from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent

_TALLEST: Final = 16_000
_BROADEST: Final = 16_000
_HINTED_CHARACTERS: Final = 60
_KEPT_HEIGHTS: Final = 8
_STEP_CHARACTERS: Final = 3


class SteadyLabel(QLabel):
    """Plain words in a label that its layout hears of only when they need another height.

    Qt's own label has the whole window laid out at every change of text, which is far too slow
    for dozens of figures that follow while a person types. This one paints its words itself and
    remembers what height they need; a screen reader reads them as its accessible name.

    Args:
        text: the first words.
        look: as in ``style_sheet``.
        wrap: whether words go on in another line.
    """

    def __init__(self, text: str = "", look: str = "", *, wrap: bool = True) -> None:
        super().__init__()
        self._words = ""
        self._heights: dict[int, int] = {}
        self._wrap = wrap
        self.setTextFormat(Qt.TextFormat.PlainText)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(wrap)
        self.setSizePolicy(policy)
        if look:
            set_look(self, look)
        self.setText(text)

    @override
    def text(self) -> str:
        return self._words

    @override
    def setText(self, text: str) -> None:
        """Show other words; the layout is told when these need another height."""
        if text == self._words:
            return
        before = self._needs()
        self._words = text
        self._heights.clear()
        self.setAccessibleName(text)
        if self._needs() != before:
            self.updateGeometry()
        self.update()

    def _needs(self) -> int:
        """What the layout has to know: the height, or the width of words that do not wrap."""
        return self.heightForWidth(self.width()) if self._wrap else self.words_width

    @property
    def words_width(self) -> int:
        """Width of the words in one line, in pixels."""
        return self._bounds(_BROADEST).width()

    def _flags(self) -> int:
        flags = int(self.alignment())
        return flags | int(Qt.TextFlag.TextWordWrap) if self._wrap else flags

    def _bounds(self, width: int) -> QRect:
        room = QRect(0, 0, width, _TALLEST)
        return self.fontMetrics().boundingRect(room, self._flags(), self._words)

    @override
    def heightForWidth(self, width: int) -> int:
        known = self._heights.get(width)
        if known is None:
            if len(self._heights) >= _KEPT_HEIGHTS:
                self._heights.clear()
            known = self._heights[width] = self._bounds(width).height() if self._words else 0
        return known

    @override
    def sizeHint(self) -> QSize:
        if not self._wrap:
            return QSize(self.words_width, self.heightForWidth(_BROADEST))
        broad = self.fontMetrics().averageCharWidth() * _HINTED_CHARACTERS
        return QSize(broad, self.heightForWidth(max(broad, self.width())))

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(0, self.heightForWidth(_BROADEST)) if self._wrap else self.sizeHint()

    @override
    def changeEvent(self, event: QEvent) -> None:
        if event.type() in {QEvent.Type.FontChange, QEvent.Type.StyleChange}:
            self._heights.clear()
            self.updateGeometry()
        super().changeEvent(event)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        self.style().drawItemText(
            painter, self.rect(), self._flags(), self.palette(), self.isEnabled(), self._words,
            self.foregroundRole(),
        )  # fmt: skip
        painter.end()


class SteadyFigure(QLabel):
    """A figure at the right that can be marked and copied; wider only in coarse steps.

    It keeps its width while another figure fits in it, so that a digit more or less is painted
    and nothing is laid out again.
    """

    def __init__(self) -> None:
        super().__init__()
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)

    def show_figure(self, text: str) -> None:
        """Show another figure."""
        if text == self.text():
            return
        metrics = self.fontMetrics()
        step = metrics.averageCharWidth() * _STEP_CHARACTERS
        steps = -(-(metrics.horizontalAdvance(text) + 2) // step)
        size = QSize(steps * step if text else 0, metrics.height())
        if size != self.minimumSize():
            self.setFixedSize(size)
        self.setText(text)

    @override
    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in {QEvent.Type.FontChange, QEvent.Type.StyleChange}:
            text = self.text()
            self.clear()
            self.show_figure(text)


class SteadyBox(QVBoxLayout):
    """A column that remembers how high it is for every width it was asked about.

    Qt's layouts remember three widths and a scrolled page asks about four, so that each change
    anywhere on it measures everything on it anew. This one measures again only when something
    inside it changed.
    """

    def __init__(self) -> None:
        super().__init__()
        self._heights: dict[int, int] = {}
        self._least: dict[int, int] = {}

    @override
    def invalidate(self) -> None:
        self._heights.clear()
        self._least.clear()
        super().invalidate()

    @override
    def heightForWidth(self, width: int) -> int:
        known = self._heights.get(width)
        if known is None:
            known = self._heights[width] = super().heightForWidth(width)
        return known

    @override
    def minimumHeightForWidth(self, width: int) -> int:
        known = self._least.get(width)
        if known is None:
            known = self._least[width] = super().minimumHeightForWidth(width)
        return known
