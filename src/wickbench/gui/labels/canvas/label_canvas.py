"""The label drawn from the layout that is printed, to be worked on with the mouse or by keys."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, QSize, QSizeF, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from wickbench.app.label_arranging import whole_groups
from wickbench.domain.arranging import is_in
from wickbench.gui.labels.canvas import marks
from wickbench.gui.labels.canvas.gestures import Banding, Gesture, Held, begun
from wickbench.gui.labels.canvas.guide_hand import (
    GuideHand,
    paint_guide_marks,
    paint_laid_guides,
)
from wickbench.gui.labels.canvas.keys import moved_by_key
from wickbench.gui.labels.canvas.label_painting import paint_label
from wickbench.gui.labels.canvas.scale import Scale
from wickbench.gui.labels.papers import WHITE
from wickbench.gui.naming import accessible
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.documents.label_layout import LaidOutLabel
    from wickbench.domain.guides import Guide
    from wickbench.domain.labels import AnyElement

_DRAG_PIXELS: Final = 4.0
_REACH_PIXELS: Final = 6.0
_GRAB_PIXELS: Final = 7.0
_WHEEL: Final = 1.0015
_CURSORS: Final = {
    "nw": Qt.CursorShape.SizeFDiagCursor, "se": Qt.CursorShape.SizeFDiagCursor,
    "ne": Qt.CursorShape.SizeBDiagCursor, "sw": Qt.CursorShape.SizeBDiagCursor,
    "n": Qt.CursorShape.SizeVerCursor, "s": Qt.CursorShape.SizeVerCursor,
    "e": Qt.CursorShape.SizeHorCursor, "w": Qt.CursorShape.SizeHorCursor,
    "turn": Qt.CursorShape.PointingHandCursor, "move": Qt.CursorShape.SizeAllCursor,
}  # fmt: skip


class LabelCanvas(QWidget):
    """A label on the desk.

    Attributes:
        chosen: places of what is chosen in the design, from back to front.
        editable: things can be chosen and moved; a caution sticker is only looked at.
        paper: colour of the paper it is seen on.

    Signals:
        chosen_changed: something else is chosen.
        drafted: the elements as the hand has them now, by place; empty when it let go.
        placed: elements to be stored by place, what undo calls it, and what merges with it.
        menu_requested: the acts are wanted at a place on the screen.
        write_requested: the text of what is chosen is to be written.
        guides_laid: the guides as the hand left them.
    """

    chosen_changed = Signal()
    drafted = Signal(object)
    placed = Signal(object, str, object)
    menu_requested = Signal(object)
    write_requested = Signal()
    guides_laid = Signal(object)

    def __init__(self, accessible_name: str) -> None:
        super().__init__()
        self.laid: LaidOutLabel | None = None
        self.chosen: tuple[int, ...] = ()
        self.editable = True
        self.paper = WHITE
        self.scale = Scale()
        self.guide_hand = GuideHand()
        self._gesture: Gesture | None = None
        self._band: Banding | None = None
        self._pressed: QPointF | None = None
        self._panning: QPointF | None = None
        self._draft: Mapping[int, AnyElement] = {}
        self.setMinimumSize(160, 140)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        accessible(self, accessible_name)

    # -- showing ---------------------------------------------------------------------------------
    def show_label(self, laid: LaidOutLabel | None) -> None:
        """Show a label; what is chosen stays so while it is there."""
        other_size = (
            laid is None or self.laid is None or self._size_of(laid) != self._size_of(self.laid)
        )
        self.laid = laid
        count = len(laid.design.elements) if laid is not None else 0
        self.chosen = tuple(at for at in self.chosen if at < count)
        texts = laid.texts if laid is not None else ()
        self.setAccessibleDescription("; ".join(one.text for one in texts if one.text))
        if other_size or self.scale.fitted:
            self.fit()
        self.update()

    def show_guides(self, guides: tuple[Guide, ...]) -> None:
        """Show the guides laid on the label."""
        self.guide_hand.guides = guides
        self.update()

    def choose(self, chosen: tuple[int, ...]) -> None:
        """Choose other things, without telling anybody."""
        chosen = tuple(at for at in chosen if at < len(self.elements))
        if chosen != self.chosen:
            self.chosen = chosen
            self.update()

    @staticmethod
    def _size_of(laid: LaidOutLabel) -> tuple[float, float]:
        return laid.design.width_mm, laid.design.height_mm

    @property
    def _label_mm(self) -> QSizeF:
        return QSizeF(*self._size_of(self.laid)) if self.laid is not None else QSizeF(1.0, 1.0)

    @property
    def elements(self) -> tuple[AnyElement, ...]:
        """Everything on the label, from back to front."""
        return self.laid.design.elements if self.laid is not None else ()

    def fit(self) -> None:
        """Show the whole label as large as there is room."""
        self.scale.fit(QSizeF(self.size()), self._label_mm)
        self.update()

    def zoom_to(self, per_mm: float, about: QPointF | None = None) -> None:
        """Another size; the middle stays, or what lies under a place."""
        place = about if about is not None else QPointF(self.rect().center())
        self.scale.zoom(per_mm, place, QSizeF(self.size()), self._label_mm)
        self.update()

    def real_size(self) -> None:
        """Show it as large as it is printed, by what the screen says of itself."""
        self.zoom_to(self.physicalDpiX() / 25.4)

    @override
    def sizeHint(self) -> QSize:
        return QSize(420, 300)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self.scale.fitted:
            self.fit()
        else:
            self.scale.keep_seen(QSizeF(self.size()), self._label_mm)

    # -- painting --------------------------------------------------------------------------------
    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self.laid is not None:
            paint_label(painter, self.scale, self.laid, self.paper)
            self._paint_marks(painter)
        marks.paint_rulers(painter, self.scale, (self.width(), self.height()), colours_of(self))
        paint_guide_marks(painter, self.scale, self.guide_hand, colours_of(self))
        painter.end()

    def _paint_marks(self, painter: QPainter) -> None:
        colours, size = colours_of(self), (float(self.width()), float(self.height()))
        paint_laid_guides(painter, self.scale, self.guide_hand, size, colours)
        now = tuple(self._draft.get(at, self.elements[at]) for at in self.chosen)
        marks.paint_chosen(painter, self.scale, now, colours, focus=self.hasFocus())
        if self._gesture is not None:
            marks.paint_guides(painter, self.scale, self._gesture.snap, size, colours)
            if len(now) == 1:
                marks.paint_readout(painter, self.scale, _numbers(now[0]), now[0], colours)
        if self._band is not None:
            marks.paint_band(painter, self.scale, self._band.box, colours)

    # -- by hand ---------------------------------------------------------------------------------
    def element_at(self, place: QPointF) -> int | None:
        """The smallest element under a place: a frame round everything hides nothing."""
        x, y = self.scale.to_label(place)
        slack = 0.5 + _DRAG_PIXELS / 2 / self.scale.per_mm
        under = [
            (one.w_mm * one.h_mm, -at, at)
            for at, one in enumerate(self.elements)
            if is_in(one, x, y, slack)
        ]
        return min(under)[2] if under else None

    def grip_at(self, place: QPointF) -> str:
        """Handle under a place: a corner or side by the compass, "turn", or nothing."""
        if len(self.chosen) != 1:
            return ""
        one = self.elements[self.chosen[0]]
        if _near(place, marks.turn_handle(self.scale, one)):
            return "turn"
        handles = marks.handles_of(one, self.scale).items()
        return next((name for name, spot in handles if _near(place, spot)), "")

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        place = event.position()
        if event.button() == Qt.MouseButton.MiddleButton:
            self._panning = place
            return
        if self.laid is None or event.button() != Qt.MouseButton.LeftButton or not self.editable:
            return
        if self.guide_hand.take(place, self.scale):
            return
        self._pressed = place
        if self.grip_at(place):
            return
        self._choose_at(place, several=bool(event.modifiers() & _SEVERAL))

    def _choose_at(self, place: QPointF, *, several: bool) -> None:
        at = self.element_at(place)
        if at is None or self.laid is None:
            if not several:
                self._set_chosen(())
            point = self.scale.to_label(place)
            self._band = Banding(point, point)
            return
        whole = set(whole_groups(self.laid.design, (at,)))
        if several:
            self._set_chosen(tuple(sorted(set(self.chosen) ^ whole)))
        elif at not in self.chosen:
            self._set_chosen(tuple(sorted(whole)))

    @override
    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        self.mousePressEvent(event)
        if self.editable and len(self.chosen) == 1:
            self._let_go()
            self.write_requested.emit()

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        place = event.position()
        if self._panning is not None:
            self.scale.pan(place - self._panning, QSizeF(self.size()), self._label_mm)
            self._panning = place
            self.update()
        elif self.guide_hand.busy:
            free = bool(event.modifiers() & Qt.KeyboardModifier.AltModifier)
            self.guide_hand.draw(place, self.scale, free=free)
            self.update()
        elif self._band is not None:
            self._band.end = self.scale.to_label(place)
            self.update()
        elif self._pressed is not None:
            self._drag(place, event)
        else:
            self._show_cursor(place)

    def _drag(self, place: QPointF, event: QMouseEvent) -> None:
        if self._pressed is None or self.laid is None:
            return
        if self._gesture is None:
            if (place - self._pressed).manhattanLength() < _DRAG_PIXELS or not self.chosen:
                return
            self._gesture = begun(
                self.laid.design,
                self.chosen,
                self.grip_at(self._pressed),
                self.scale.to_label(self._pressed),
                reach_mm=_REACH_PIXELS / self.scale.per_mm,
                guides=self.guide_hand.guides,
            )
        keys = event.modifiers()
        held = Held(
            straight=bool(keys & Qt.KeyboardModifier.ShiftModifier),
            free=bool(keys & Qt.KeyboardModifier.AltModifier),
        )
        self._draft = self._gesture.to(self.scale.to_label(place), held)
        self.drafted.emit(self._draft)
        self.update()

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        band, gesture, draft = self._band, self._gesture, self._draft
        if self.guide_hand.busy:
            guides = self.guide_hand.let_go()
            if set(guides) != set(self.guide_hand.guides):
                self.guides_laid.emit(guides)
        self._let_go()
        if band is not None and self.laid is not None:
            if (event.position() - self.scale.to_widget(*band.start)).manhattanLength() > 1:
                found = whole_groups(self.laid.design, band.chosen(self.laid.design))
                self._set_chosen(tuple(sorted({*self.chosen, *found})))
        elif gesture is not None and draft:
            self.placed.emit(draft, gesture.words, None)

    def _let_go(self) -> None:
        self._band = self._gesture = self._pressed = self._panning = None
        self._draft = {}
        self.update()

    def _set_chosen(self, chosen: tuple[int, ...]) -> None:
        if chosen != self.chosen:
            self.chosen = chosen
            self.update()
            self.chosen_changed.emit()

    def _show_cursor(self, place: QPointF) -> None:
        grip = self.grip_at(place) if self.editable else ""
        over = self.element_at(place) if self.editable and not grip else None
        grip = grip or ("move" if over is not None and over in self.chosen else "")
        self.setCursor(_CURSORS.get(grip, Qt.CursorShape.ArrowCursor))

    @override
    def wheelEvent(self, event: QWheelEvent) -> None:
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            factor = _WHEEL ** event.angleDelta().y()
            self.zoom_to(self.scale.per_mm * factor, event.position())
        elif not self.scale.fitted:
            self.scale.pan(QPointF(event.angleDelta()) / 4, QSizeF(self.size()), self._label_mm)
            self.update()
        else:
            event.ignore()
            return
        event.accept()

    @override
    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if not self.editable:
            return
        place = QPointF(event.pos())
        at = self.element_at(place)
        by_mouse = event.reason() == QContextMenuEvent.Reason.Mouse
        if by_mouse and at is not None and at not in self.chosen:
            self._choose_at(place, several=False)
        self.menu_requested.emit(event.globalPos())

    # -- by keys ---------------------------------------------------------------------------------
    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and (self._gesture or self._band or self.chosen):
            self._cancel()
            return
        if not self.editable or self.laid is None or not self._took(event):
            super().keyPressEvent(event)

    def _took(self, event: QKeyEvent) -> bool:
        """Keys that choose or move; everything else is an act of the menu."""
        beside = {Qt.Key.Key_PageDown: 1, Qt.Key.Key_PageUp: -1}.get(Qt.Key(event.key()))
        if beside is not None and self.elements:
            self.choose_beside(beside)
            return True
        if event.key() in _WRITE and len(self.chosen) == 1:
            self.write_requested.emit()
            return True
        changed = moved_by_key(event, self.elements, self.chosen)
        if changed is None:
            return False
        placed, words = changed
        self.placed.emit(placed, words, ("canvas", words, self.chosen))
        return True

    def choose_beside(self, by: int) -> None:
        """Choose the next or the former thing, from back to front and round."""
        if self.laid is None or not self.elements:
            return
        last = len(self.elements)
        at = (self.chosen[-1] + by) % last if self.chosen else (0 if by > 0 else last - 1)
        self._set_chosen(whole_groups(self.laid.design, (at,)))

    def _cancel(self) -> None:
        if self._gesture is not None or self._band is not None:
            self._let_go()
            self.drafted.emit({})
        else:
            self._set_chosen(())


_WRITE: Final = frozenset({Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_F2})
_SEVERAL: Final = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.ControlModifier


def _near(place: QPointF, spot: QPointF) -> bool:
    away = place - spot
    return abs(away.x()) <= _GRAB_PIXELS and abs(away.y()) <= _GRAB_PIXELS


def _numbers(one: AnyElement) -> str:
    turn = f" · {one.turn_deg:g}°" if one.turn_deg else ""
    return f"{one.x_mm:.1f}, {one.y_mm:.1f} · {one.w_mm:.1f} × {one.h_mm:.1f} mm{turn}"
