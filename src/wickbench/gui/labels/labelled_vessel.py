"""The drawn vessel with its label on it, turned by buttons, arrow keys or the hand."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget
from typing_extensions import override

from wickbench.app.texts_marker import N_
from wickbench.gui.labels.papers import WHITE
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import button, label
from wickbench.gui.vessels.vessel_drawing import VesselPicture

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QMouseEvent

    from wickbench.app.label_on_vessel import LabelOnVessel
    from wickbench.app.texts import Texts
    from wickbench.app.vessel_drawing import VesselDrawing

STEP_DEG: Final = 30.0
_WHOLE_DEG: Final = 360.0
_DEG_PER_PIXEL: Final = 0.75
_KEYS: Final = {Qt.Key.Key_Left: -STEP_DEG, Qt.Key.Key_Right: STEP_DEG}


class TurningPicture(VesselPicture):
    """A vessel that the arrow keys and the hand turn while a label is on it.

    Signals:
        turned: by so many degrees to the right.
        faced: the front shall be seen again.
    """

    turned = Signal(float)
    faced = Signal()

    def __init__(self, accessible_name: str) -> None:
        super().__init__(accessible_name)
        self._held_at: float | None = None

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = _KEYS.get(Qt.Key(event.key()))
        if self.front is None or (step is None and event.key() != Qt.Key.Key_Home):
            super().keyPressEvent(event)
        elif step is None:
            self.faced.emit()
        else:
            self.turned.emit(step)

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        if self.front is not None and event.button() == Qt.MouseButton.LeftButton:
            self._held_at = event.position().x()
        super().mousePressEvent(event)

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._held_at is not None:
            moved = event.position().x() - self._held_at
            self._held_at = event.position().x()
            self.turned.emit(moved * _DEG_PER_PIXEL)

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._held_at = None
        super().mouseReleaseEvent(event)


class LabelledVessel(QWidget):
    """Picture, buttons that turn it, and in words how far the label goes round.

    Attributes:
        turn_deg: how far the vessel is turned to the right, 0 to 360.
    """

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        self._texts = texts
        self._on: LabelOnVessel | None = None
        self.turn_deg = 0.0
        self.picture = TurningPicture(texts("Vessel with the label on it"))
        self.turn_left = accessible(button("‹"), texts("Turn the vessel to the left"))
        self.turn_right = accessible(button("›"), texts("Turn the vessel to the right"))
        self.face = button(texts("From the front"))
        self.words = label("", "quiet")
        self.picture.setToolTip(texts("Drag it or press the arrow keys to turn the vessel."))
        self._lay_out()
        self.turn_left.clicked.connect(lambda: self.turn_by(-STEP_DEG))
        self.turn_right.clicked.connect(lambda: self.turn_by(STEP_DEG))
        self.face.clicked.connect(self.show_face)
        self.picture.turned.connect(self.turn_by)
        self.picture.faced.connect(self.show_face)
        name_attributes(self)

    def _lay_out(self) -> None:
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        box.addWidget(self.picture)
        line = QHBoxLayout()
        line.setSpacing(8)
        for one in (self.turn_left, self.face, self.turn_right):
            line.addWidget(one)
        line.addStretch(1)
        for one in (self.turn_left, self.turn_right):
            one.setFixedWidth(self.fontMetrics().height() * 2)
        box.addLayout(line)
        box.addWidget(self.words)

    def show_vessel(
        self, drawing: VesselDrawing | None, on: LabelOnVessel | None, paper: str = WHITE
    ) -> None:
        """Show a vessel, and a label on it, on its paper, when there is one."""
        self._on = on
        self.picture.paper = paper
        self.picture.show_drawing(drawing)
        focus = Qt.FocusPolicy.StrongFocus if on is not None else Qt.FocusPolicy.NoFocus
        self.picture.setFocusPolicy(focus)
        hand = Qt.CursorShape.OpenHandCursor if on is not None else Qt.CursorShape.ArrowCursor
        self.picture.setCursor(hand)
        for one in (self.turn_left, self.turn_right, self.face, self.words):
            one.setVisible(on is not None)
        self._show()

    def turn_by(self, degrees: float) -> None:
        """Turn the vessel to the right."""
        self.turn_deg = (self.turn_deg + degrees) % _WHOLE_DEG
        self._show()

    def show_face(self, *_: object) -> None:
        """Show the front again."""
        self.turn_deg = 0.0
        self._show()

    def _show(self) -> None:
        on = self._on
        if on is None:
            self.picture.show_front(None)
            return
        front = on.front(self.turn_deg)
        self.picture.show_front(front, on.foot_mm)
        self.words.setText(on.words(front, self._texts, turned=self.turn_deg != 0.0))
        self.face.setEnabled(self.turn_deg != 0.0)
        described = [self.words.text()]
        if self.turn_deg:
            said = self._texts(N_("Turned by {degrees}°."), degrees=str(round(self.turn_deg)))
            described.insert(0, said)
        self.picture.describe(" ".join(described))
