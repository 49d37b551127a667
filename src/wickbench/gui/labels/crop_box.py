"""What of a picture is cut off: its edges drawn in by hand over the whole picture.

The same can be typed in the form; this shows it.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from wickbench.documents.label_drawings import draw_path
from wickbench.documents.svg_paths import is_svg, svg_drawing
from wickbench.domain.errors import DomainError
from wickbench.domain.labels import PictureElement
from wickbench.gui.naming import accessible
from wickbench.gui.painting import ScreenSurface, picture_image
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from wickbench.app.texts import Texts
    from wickbench.domain.labels import AnyElement

SIDES: Final = ("left", "top", "right", "bottom")
_HIGH: Final = 150
_INSET: Final = 6.0
_REACH: Final = 10.0
_LEAST: Final = 0.05
"""So much of the width or height stays."""
_SHADE: Final = 150
_LINE: Final = 2.0


class CropBox(QWidget):
    """A picture with the four edges of what is seen of it.

    Signals:
        drafted: the element as the hand has it now.
        cropped: parts cut off by their attribute, when the hand let go.
    """

    drafted = Signal(object)
    cropped = Signal(object)

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        self._element: PictureElement | None = None
        self._data: bytes | None = None
        self._aspect = 1.0
        self._held = ""
        self._now: dict[str, float] = dict.fromkeys(SIDES, 0.0)
        accessible(self, texts("What is cut off the picture"))
        self.setToolTip(texts("Draw an edge inwards to cut off what lies beyond it."))
        self.setMouseTracking(True)
        self.setFixedHeight(_HIGH)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def show_element(self, element: AnyElement, data: bytes | None) -> None:
        """Show a picture element with its file; hidden for anything else or without a file."""
        self._element, self._data = None, None
        if isinstance(element, PictureElement) and data is not None:
            try:
                self._aspect = _aspect(data)
                self._element, self._data = element, data
            except DomainError:
                self._data = None
        self.setVisible(self._element is not None)
        if self._element is not None and not self._held:
            self._now = {side: getattr(self._element, f"crop_{side}") for side in SIDES}
        self.update()

    @property
    def whole(self) -> QRectF:
        """Where the whole picture is drawn."""
        wide, high = self.width() - 2 * _INSET, self.height() - 2 * _INSET
        k = min(wide, high * self._aspect)
        size = QSize(max(1, round(k)), max(1, round(k / self._aspect)))
        return QRectF((self.width() - size.width()) / 2, (self.height() - size.height()) / 2,
                      size.width(), size.height())  # fmt: skip

    @property
    def seen(self) -> QRectF:
        """Where that lies which is not cut off."""
        whole, now = self.whole, self._now
        return whole.adjusted(
            now["left"] * whole.width(),
            now["top"] * whole.height(),
            -now["right"] * whole.width(),
            -now["bottom"] * whole.height(),
        )

    def side_at(self, place: QPointF) -> str:
        """The edge under a place; empty for none."""
        seen = self.seen
        away = {
            "left": abs(place.x() - seen.left()),
            "right": abs(place.x() - seen.right()),
            "top": abs(place.y() - seen.top()),
            "bottom": abs(place.y() - seen.bottom()),
        }
        near = min(away, key=lambda side: away[side])
        grown = seen.adjusted(-_REACH, -_REACH, _REACH, _REACH)
        return near if away[near] <= _REACH and grown.contains(place) else ""

    # -- painting --------------------------------------------------------------------------------
    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        if self._data is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        whole, seen = self.whole, self.seen
        painter.fillRect(whole, QColor("white"))
        self._paint_picture(painter, whole)
        shade = QColor(colours_of(self).paper)
        shade.setAlpha(_SHADE)
        painter.setClipRect(whole)
        for box in _around(whole, seen):
            painter.fillRect(box, shade)
        painter.setClipping(False)
        painter.setPen(QPen(QColor(colours_of(self).accent), _LINE))
        painter.drawRect(seen)
        painter.end()

    def _paint_picture(self, painter: QPainter, whole: QRectF) -> None:
        if self._data is None:
            return
        if not is_svg(self._data):
            painter.drawImage(whole, picture_image(self._data))
            return
        drawing = svg_drawing(self._data)
        k = whole.width() / drawing.width
        surface = ScreenSurface(painter, k, left=whole.left(), top=whole.top(), page=None)
        for draw in drawing.draws:
            draw_path(surface, draw)
        surface.finish()

    # -- by hand ---------------------------------------------------------------------------------
    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            self._held = self.side_at(event.position())

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if not self._held:
            self._show_cursor(self.side_at(event.position()))
            return
        self._now[self._held] = self._part(event.position())
        self.update()
        if self._element is not None:
            self.drafted.emit(replace(self._element, **self._changes()))

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        held, self._held = self._held, ""
        if held and self._element is not None:
            changes = self._changes()
            if any(getattr(self._element, name) != value for name, value in changes.items()):
                self.cropped.emit(changes)

    def _part(self, place: QPointF) -> float:
        """How much is cut off at the held edge with the hand here; something is left."""
        whole = self.whole
        along = {
            "left": (place.x() - whole.left()) / whole.width(),
            "right": (whole.right() - place.x()) / whole.width(),
            "top": (place.y() - whole.top()) / whole.height(),
            "bottom": (whole.bottom() - place.y()) / whole.height(),
        }
        opposite = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
        most = 1.0 - _LEAST - self._now[opposite[self._held]]
        return round(min(max(along[self._held], 0.0), max(most, 0.0)), 3)

    def _changes(self) -> dict[str, Any]:
        return {f"crop_{side}": value for side, value in self._now.items()}

    def _show_cursor(self, side: str) -> None:
        shape = Qt.CursorShape.ArrowCursor
        if side in {"left", "right"}:
            shape = Qt.CursorShape.SizeHorCursor
        elif side:
            shape = Qt.CursorShape.SizeVerCursor
        self.setCursor(shape)


def _aspect(data: bytes) -> float:
    """Width of a picture by its height.

    Raises:
        DomainError: it cannot be read.
    """
    if is_svg(data):
        drawing = svg_drawing(data)
        return drawing.width / drawing.height
    image = picture_image(data)
    return image.width() / max(1, image.height())


def _around(whole: QRectF, seen: QRectF) -> tuple[QRectF, ...]:
    return (
        QRectF(whole.left(), whole.top(), whole.width(), seen.top() - whole.top()),
        QRectF(whole.left(), seen.bottom(), whole.width(), whole.bottom() - seen.bottom()),
        QRectF(whole.left(), seen.top(), seen.left() - whole.left(), seen.height()),
        QRectF(seen.right(), seen.top(), whole.right() - seen.right(), seen.height()),
    )
