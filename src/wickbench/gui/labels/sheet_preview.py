"""The sheet with its stickers and rulers in mm, drawn from the same layout as the PDF."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
)
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from wickbench.gui.fonts import scaled
from wickbench.gui.labels.papers import WHITE
from wickbench.gui.labels.sheet_painting import paint_sheet
from wickbench.gui.naming import accessible
from wickbench.gui.theme import Colours, colours_of

if TYPE_CHECKING:
    from wickbench.documents.sheet_layout import SheetPages
    from wickbench.domain.sheets import StickerSheet

_RULER: Final = 30.0
_EDGE: Final = 10.0
_SMALL_EDGE: Final = 3.0
_SMALL: Final = 96
_MM_PER_INCH: Final = 25.4
_TICKS: Final = ((50, 8.0), (10, 5.0))
_LARGEST_SCALE: Final = 8.0
_SMALLEST_SCALE: Final = 0.2


class SheetPreview(QWidget):
    """One sheet of a print run.

    The arrow keys go from sticker to sticker, the space bar marks one as used, Return opens its
    label.

    Signals:
        pressed: number of the sticker that was clicked, from 0.
        chosen: number of the sticker that the person went to.
        toggled: number of the sticker to mark as used, or as free again.
        opened: number of the sticker whose label is to be opened.
    """

    pressed = Signal(int)
    chosen = Signal(int)
    toggled = Signal(int)
    opened = Signal(int)

    def __init__(self, accessible_name: str, *, small: bool = False) -> None:
        """Build it.

        Args:
            accessible_name: translated name of the picture.
            small: without rulers, for a sheet among others.
        """
        super().__init__()
        self.small = small
        self._ruler, self._edge = (_SMALL_EDGE, _SMALL_EDGE) if small else (_RULER, _EDGE)
        self.sheet: StickerSheet | None = None
        self.pages: SheetPages | None = None
        self.sheet_no = 0
        self.used: frozenset[int] = frozenset()
        self.paper = WHITE
        self.current: int | None = None
        self.real_size = False
        self._kept: tuple[object, QPixmap] | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(*self._smallest)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        scaled(self, 0.8)
        accessible(self, accessible_name)

    def show_run(
        self,
        sheet: StickerSheet | None,
        pages: SheetPages | None,
        sheet_no: int,
        used: frozenset[int],
        paper: str = WHITE,
    ) -> None:
        """Show one sheet of a run on its paper; ``used`` are the stickers gone from this sheet."""
        self.paper = paper
        self.sheet, self.pages, self.sheet_no, self.used = sheet, pages, sheet_no, used
        if sheet is None or (self.current is not None and self.current >= sheet.count):
            self.current = None
        self._kept = None
        self._fit_size()
        self.update()

    def show_real_size(self, *, real: bool) -> None:
        """Show the sheet as large as it is on paper, or all of it."""
        self.real_size = real
        self._fit_size()
        self.update()

    def choose(self, index: int | None) -> None:
        """Go to a sticker."""
        self.current = index
        self.update()

    @property
    def _smallest(self) -> tuple[int, int]:
        return (_SMALL, _SMALL) if self.small else (200, 240)

    def _fit_size(self) -> None:
        if self.real_size and self.sheet is not None:
            scale = self.physicalDpiX() / _MM_PER_INCH
            wide = self.sheet.page_w_mm * scale + self._ruler + self._edge
            high = self.sheet.page_h_mm * scale + self._ruler + self._edge
            self.setMinimumSize(int(wide) + 1, int(high) + 1)
        else:
            self.setMinimumSize(*self._smallest)

    # -- where things are ------------------------------------------------------------------------
    @property
    def pixels_per_mm(self) -> float:
        """The scale of the drawing."""
        if self.sheet is None:
            return 1.0
        if self.real_size:
            return self.physicalDpiX() / _MM_PER_INCH
        across = (self.width() - self._ruler - self._edge) / max(self.sheet.page_w_mm, 1.0)
        down = (self.height() - self._ruler - self._edge) / max(self.sheet.page_h_mm, 1.0)
        return max(_SMALLEST_SCALE, min(across, down, _LARGEST_SCALE))

    @property
    def page_rect(self) -> QRectF:
        """Where the page lies in the widget."""
        if self.sheet is None:
            return QRectF()
        wide = self.sheet.page_w_mm * self.pixels_per_mm
        high = self.sheet.page_h_mm * self.pixels_per_mm
        left = self._ruler + max(0.0, (self.width() - self._ruler - self._edge - wide) / 2)
        return QRectF(left, self._ruler, wide, high)

    def sticker_rect(self, index: int) -> QRectF:
        """Where a sticker lies in the widget."""
        if self.sheet is None:
            return QRectF()
        box, page, scale = self.sheet.sticker(index), self.page_rect, self.pixels_per_mm
        left, top = page.left() + box.x_mm * scale, page.top() + box.y_mm * scale
        return QRectF(left, top, box.w_mm * scale, box.h_mm * scale)

    def sticker_at(self, place: QPointF) -> int | None:
        """Number of the sticker under a place of the widget."""
        count = self.sheet.count if self.sheet is not None else 0
        return next((at for at in range(count) if self.sticker_rect(at).contains(place)), None)

    @override
    def sizeHint(self) -> QSize:
        return QSize(_SMALL, _SMALL) if self.small else QSize(520, 640)

    # -- painting --------------------------------------------------------------------------------
    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        if self.sheet is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = colours_of(self)
        page = self.page_rect
        painter.drawPixmap(page.topLeft(), self._paper())
        painter.setPen(QPen(QColor(colours.line), 1))
        painter.drawRect(page)
        if not self.small:
            self._paint_rulers(painter, colours, page)
        if self.current is not None and (self.hasFocus() or not self.small):
            painter.setPen(QPen(QColor(colours.accent), 2.5 if self.hasFocus() else 1.75))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            by = 1 if self.small else 3
            around = self.sticker_rect(self.current).adjusted(-by, -by, by, by)
            painter.drawRoundedRect(around, by + 1, by + 1)
        painter.end()

    def _paper(self) -> QPixmap:
        """The page as a picture, painted once for a size and a run."""
        ratio, scale = self.devicePixelRatioF(), self.pixels_per_mm
        key = (ratio, round(scale, 6), self.sheet, self.sheet_no, self.used, self.paper)
        if self._kept is None or self._kept[0] != key:
            page = self.page_rect
            picture = QPixmap(QSize(int(page.width() * ratio) + 1, int(page.height() * ratio) + 1))
            picture.setDevicePixelRatio(ratio)
            picture.fill(Qt.GlobalColor.white)
            painter = QPainter(picture)
            paint_sheet(
                painter, scale, self.sheet, self.pages, sheet_no=self.sheet_no, used=self.used,
                small=self.small, paper=self.paper,
            )  # fmt: skip
            painter.end()
            self._kept = (key, picture)
        return self._kept[1]

    def _paint_rulers(self, painter: QPainter, colours: Colours, page: QRectF) -> None:
        if self.sheet is None:
            return
        painter.setPen(QPen(QColor(colours.quiet), 1))
        scale = self.pixels_per_mm
        for across, length in ((True, self.sheet.page_w_mm), (False, self.sheet.page_h_mm)):
            for at in range(0, int(length) + 1, 10):
                tick = next(size for every, size in _TICKS if at % every == 0)
                self._paint_tick(painter, page, at * scale, tick, across=across)
                if at % 50 == 0:
                    self._paint_number(painter, page, at, across=across)

    @staticmethod
    def _paint_tick(
        painter: QPainter, page: QRectF, at: float, tick: float, *, across: bool
    ) -> None:
        if across:
            x = page.left() + at
            painter.drawLine(QPointF(x, page.top() - 2 - tick), QPointF(x, page.top() - 2))
        else:
            y = page.top() + at
            painter.drawLine(QPointF(page.left() - 2 - tick, y), QPointF(page.left() - 2, y))

    def _paint_number(self, painter: QPainter, page: QRectF, at: int, *, across: bool) -> None:
        place = at * self.pixels_per_mm
        flags = Qt.AlignmentFlag
        if across:
            room = QRectF(page.left() + place - 20, page.top() - self._ruler, 40, self._ruler - 12)
            painter.drawText(room, flags.AlignHCenter | flags.AlignBottom, str(at))
        else:
            room = QRectF(page.left() - self._ruler - 12, page.top() + place - 8, self._ruler, 16)
            painter.drawText(room, flags.AlignRight | flags.AlignVCenter, str(at))

    # -- mouse and keys --------------------------------------------------------------------------
    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        index = self.sticker_at(event.position())
        if index is not None and event.button() == Qt.MouseButton.LeftButton:
            self.choose(index)
            self.chosen.emit(index)
            self.pressed.emit(index)

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        event.accept()

    @override
    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        self.mousePressEvent(event)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self.sheet is None or not self.sheet.count or not self._key(event.key()):
            super().keyPressEvent(event)

    def _key(self, key: int) -> bool:
        columns = self.sheet.columns if self.sheet is not None else 1
        steps = {
            Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_Up: -columns,
            Qt.Key.Key_Down: columns,
        }  # fmt: skip
        if key in steps:
            self._move(steps[Qt.Key(key)])
        elif self.current is None:
            return False
        elif key == Qt.Key.Key_Space:
            self.toggled.emit(self.current)
        elif key in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.opened.emit(self.current)
        else:
            return False
        return True

    def _move(self, step: int) -> None:
        count = self.sheet.count if self.sheet is not None else 0
        to = 0 if self.current is None else self.current + step
        if 0 <= to < count:
            self.choose(to)
            self.chosen.emit(to)

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        if self.current is None and self.sheet is not None and self.sheet.count:
            self.choose(0)
            self.chosen.emit(0)
        super().focusInEvent(event)
        self.update()
