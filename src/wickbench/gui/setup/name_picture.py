"""A picture of a label with the name and place of the business, as black on white as on paper."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from wickbench.gui.theme import colours_of

_PAPER: Final = "#ffffff"
_INK: Final = "#1c1917"
_FAINT: Final = "#6b645c"
_MARGIN: Final = 16
_ROUND: Final = 8
_WIDEST: Final = 380
_FLAGS: Final = int(
    Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop | Qt.TextFlag.TextWordWrap
)


class NamePicture(QWidget):
    """A sticker with lines of text in its middle, the first one bold.

    Args:
        accessible_name: translated.
        nothing: translated sentence for a label without any line.
    """

    def __init__(self, accessible_name: str, nothing: str) -> None:
        super().__init__()
        self.setAccessibleName(accessible_name)
        self._lines: tuple[str, ...] = ()
        self._nothing = nothing
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setMaximumWidth(_WIDEST)

    @property
    def lines(self) -> tuple[str, ...]:
        """The lines on the sticker."""
        return self._lines

    def show_lines(self, lines: tuple[str, ...]) -> None:
        """Show other lines."""
        self._lines = lines
        self.setAccessibleDescription("\n".join(lines) or self._nothing)
        self.updateGeometry()
        self.update()

    @override
    def sizeHint(self) -> QSize:
        return QSize(_WIDEST, self.heightForWidth(_WIDEST))

    @override
    def hasHeightForWidth(self) -> bool:
        return True

    @override
    def heightForWidth(self, width: int) -> int:
        rows = sum(box.height() for box, _, _ in self._rows(width))
        return max(rows + 2 * _MARGIN, 5 * self.fontMetrics().lineSpacing())

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setBrush(QColor(_PAPER))
        painter.setPen(QColor(colours_of(self).line))
        painter.drawRoundedRect(self.rect().adjusted(0, 0, -1, -1), _ROUND, _ROUND)
        rows = self._rows(self.width())
        top = (self.height() - sum(box.height() for box, _, _ in rows)) // 2
        painter.setPen(QColor(_INK if self._lines else _FAINT))
        for box, font, text in rows:
            painter.setFont(font)
            painter.drawText(box.translated(0, top), _FLAGS, text)
        painter.end()

    def _rows(self, width: int) -> list[tuple[QRect, QFont, str]]:
        """Each line with its font and its place below the line before it."""
        found: list[tuple[QRect, QFont, str]] = []
        top, room = 0, max(width - 2 * _MARGIN, 40)
        for at, text in enumerate(self._lines or (self._nothing,)):
            font = QFont(self.font())
            font.setBold(at == 0 and bool(self._lines))
            painter_box = QRect(_MARGIN, 0, room, 10_000)
            needed = QFontMetrics(font).boundingRect(painter_box, _FLAGS, text).height()
            found.append((QRect(_MARGIN, top, room, needed), font, text))
            top += needed
        return found
