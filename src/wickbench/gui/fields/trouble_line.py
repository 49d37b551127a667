"""The sentence beside a field: what is the matter, what to do, and the readings to choose from."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from wickbench.gui.icons import icon_pixmap
from wickbench.gui.naming import accessible
from wickbench.gui.page import button, label
from wickbench.gui.theme import colours_of

_ICON = 16


class TroubleLine(QWidget):
    """Hidden until there is something to say.

    Signals:
        reading_chosen: the text of the reading that the person meant.
    """

    reading_chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._icon = QLabel()
        self._sentence = label("", "trouble")
        self._sentence.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._readings = QHBoxLayout()
        self._readings.setSpacing(8)
        row = QHBoxLayout()
        row.setContentsMargins(0, 2, 0, 0)
        row.setSpacing(6)
        row.addWidget(self._icon, 0, Qt.AlignmentFlag.AlignTop)
        row.addWidget(self._sentence, 1)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(4)
        box.addLayout(row)
        box.addLayout(self._readings)
        self.setVisible(False)

    @property
    def sentence(self) -> str:
        """What is said now; empty for nothing."""
        return self._sentence.text()

    def say(self, sentence: str, readings: tuple[str, ...] = ()) -> None:
        """Show a sentence, and one button per possible reading."""
        self._clear_readings()
        colours = colours_of(self)
        name = "how" if readings else "stops"
        self._icon.setPixmap(icon_pixmap(name, colours.stops, _ICON, self.devicePixelRatioF()))
        self._sentence.setText(sentence)
        for text in readings:
            choose = accessible(button(text), text)
            choose.clicked.connect(partial(self.reading_chosen.emit, text))
            self._readings.addWidget(choose)
        if readings:
            self._readings.addStretch(1)
        self.setVisible(bool(sentence))

    def clear(self) -> None:
        """Nothing is the matter any more."""
        self._clear_readings()
        self._sentence.setText("")
        self.setVisible(False)

    def _clear_readings(self) -> None:
        while (item := self._readings.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
