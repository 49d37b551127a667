"""The row of stages below the menu, with the way to find anything at its end."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QSizePolicy, QToolBar, QToolButton, QWidget

from wickbench.gui.icons import set_icon
from wickbench.gui.naming import accessible
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from PySide6.QtGui import QAction

    from wickbench.app.texts import Texts

_ICON: Final = 20


class StagesBar(QToolBar):
    """Stages in the order of the work; the one in front is underlined.

    Signals:
        find_requested: the person wants to find anything.
    """

    find_requested = Signal()

    def __init__(self, texts: Texts) -> None:
        super().__init__(texts("Stages"))
        self.setMovable(False)
        self.setIconSize(QSize(_ICON, _ICON))
        self.setFloatable(False)
        self.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.PreventContextMenu)
        self.toggleViewAction().setVisible(False)
        space = QWidget()
        space.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self._end = self.addWidget(space)
        self.find_button = QToolButton()
        self.find_button.setObjectName("find_button")
        self.find_button.setText(texts("Find anything   {key}", key="Ctrl+K"))
        self.find_button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.find_button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.find_button.setProperty("look", "find")
        self.find_button.clicked.connect(self.find_requested)
        set_icon(self.find_button, "search", colours_of(self))
        accessible(self.find_button, texts("Find anything"))
        self.addWidget(self.find_button)

    def show_stages(self, actions: Iterable[QAction]) -> None:
        """Show these stages in place of those before."""
        for old in self.actions():
            if old.isCheckable():
                self.removeAction(old)
        for action in actions:
            self.insertAction(self._end, action)
            widget = self.widgetForAction(action)
            widget.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
            accessible(widget, action.text())
