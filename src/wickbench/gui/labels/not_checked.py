"""What nobody looked at, and how the checks of a label are made."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from wickbench.app.label_told import how_checked, not_checked
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import label

if TYPE_CHECKING:
    from wickbench.app.texts import Texts


class NotChecked(QWidget):
    """The line at the end of findings, with the way to how they came about."""

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        self.words = label(not_checked(texts), "quiet")
        self.how = HowComputed(texts)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(4)
        box.addWidget(self.words)
        box.addWidget(self.how, 0, Qt.AlignmentFlag.AlignLeft)
        self.how.explain(how_checked(texts))  # once it has a parent: else it flashes up as a window
        name_attributes(self)
