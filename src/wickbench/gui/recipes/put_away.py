"""What was put away instead of removed: seen when asked for, and brought back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from wickbench.app.texts_marker import N_
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, label

if TYPE_CHECKING:
    from wickbench.app.texts import Texts

PUT_AWAY_TOO = N_("Put away too")


class PutAwayBanner(QWidget):
    """Says that the thing in the form was put away, with the way back.

    Signals:
        bring_back_requested: the person wants it back in the list.
    """

    bring_back_requested = Signal()

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        self.bring_back = button(texts(N_("Bring it back")))
        self.bring_back.clicked.connect(self.bring_back_requested)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(label(texts(N_("This is put away.")), "watch"), 1)
        row.addWidget(self.bring_back)
        name_attributes(self)
        self.setVisible(False)
