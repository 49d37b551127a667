"""What stands in the window while no workshop is open: begin, open, or look at the demo."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from wickbench.gui.icons import icon_pixmap, set_icon
from wickbench.gui.naming import accessible, name_attributes, plain_action_text, plain_hint
from wickbench.gui.page import button, heading, label, title_label
from wickbench.gui.style_sheet import set_look
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from wickbench.app.texts import Texts

_WIDTH = 460
_PICTURE = 72


class FirstRun(QScrollArea):
    """Three ways to begin, and the files opened lately.

    Signals:
        new_requested, open_requested, demo_requested: the person's choice.
        recent_requested: a file opened lately.
    """

    new_requested = Signal()
    open_requested = Signal()
    demo_requested = Signal()
    recent_requested = Signal(object)

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        self._texts = texts
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.picture = QLabel()
        self.new = button(texts("Begin a new workshop…"), "primary")
        self.open = button(texts("Open a workshop…"))
        self.demo = button(texts("Look at the demo workshop"))
        for made, icon in ((self.new, "new"), (self.open, "open"), (self.demo, "candle")):
            set_icon(made, icon, colours_of(self))
        self.new.clicked.connect(self.new_requested)
        self.open.clicked.connect(self.open_requested)
        self.demo.clicked.connect(self.demo_requested)
        self.recent = QVBoxLayout()
        self.recent.setSpacing(2)
        self.setWidget(self._ground())
        self.redraw()
        name_attributes(self)

    def _ground(self) -> QWidget:
        ground = QWidget()
        set_look(ground, "ground")
        outer = QVBoxLayout(ground)
        column = QWidget()
        column.setFixedWidth(_WIDTH)
        box = QVBoxLayout(column)
        box.setSpacing(12)
        box.addWidget(self.picture)
        title = title_label(self._texts("Welcome to the bench"))
        box.addWidget(title)
        said = self._texts(
            "A workshop is one file on this computer. It holds your materials, vessels, recipes, "
            "candles and labels; everything you type is stored at once."
        )
        box.addWidget(label(said, "quiet"))
        box.addSpacing(8)
        for made in (self.new, self.open, self.demo):
            made.setMinimumHeight(40)
            box.addWidget(made)
        box.addSpacing(8)
        box.addLayout(self.recent)
        outer.addStretch(2)
        middle = QHBoxLayout()
        middle.addStretch(1)
        middle.addWidget(column)
        middle.addStretch(1)
        outer.addLayout(middle)
        outer.addStretch(3)
        return ground

    def redraw(self) -> None:
        """Draw the picture in the colours of the theme."""
        ratio = self.devicePixelRatioF()
        accent = colours_of(self).accent
        self.picture.setPixmap(icon_pixmap("wickbench", accent, _PICTURE, ratio))

    def show_recent(self, files: Sequence[Path]) -> None:
        """List files opened lately, newest first."""
        while (item := self.recent.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        if files:
            self.recent.addWidget(heading(self._texts("Opened lately")))
        for path in files:
            self.recent.addWidget(self._recent_button(path))

    def _recent_button(self, path: Path) -> QPushButton:
        made = button(plain_action_text(path.stem), "flat")
        made.setStyleSheet("text-align: left;")
        made.setToolTip(plain_hint(str(path)))
        accessible(made, path.stem)
        made.clicked.connect(partial(self.recent_requested.emit, path))
        return made
