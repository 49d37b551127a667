"""Menus that are filled while the program runs: files opened lately, colours, and where to go."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Signal
from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu, QWidget

from wickbench.app.texts_marker import N_
from wickbench.gui.naming import plain_action_text, plain_hint

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from wickbench.app.texts import Texts
    from wickbench.gui.workbench import Workbench

THEME_NAMES: Final = (
    ("light", N_("Light")),
    ("dark", N_("Dark")),
    ("system", N_("As the desktop")),
)


class RecentMenu(QMenu):
    """Files opened lately, newest first.

    Signals:
        chosen: the path of a file.
    """

    chosen = Signal(object)

    def __init__(self, texts: Texts, parent: QWidget) -> None:
        super().__init__(texts("Opened lately"), parent)

    def show_files(self, files: Sequence[Path]) -> None:
        """List these files; greyed when there are none."""
        self.clear()
        for path in files:
            action = self.addAction(plain_action_text(path.stem))
            action.setToolTip(plain_hint(str(path)))
            action.triggered.connect(partial(self._choose, path))
        self.setEnabled(bool(files))

    def _choose(self, path: Path, *_: object) -> None:
        self.chosen.emit(path)


class ThemeMenu(QMenu):
    """The colours of the window.

    Signals:
        chosen: one of ``theme.THEMES``.
    """

    chosen = Signal(str)

    def __init__(self, texts: Texts, current: str, parent: QWidget) -> None:
        super().__init__(texts("Colours"), parent)
        self._actions: dict[str, QAction] = {}
        group = QActionGroup(self)
        for theme, title in THEME_NAMES:
            action = self.addAction(texts(title))
            action.setObjectName(f"theme_{theme}")
            action.setCheckable(True)
            action.setChecked(theme == current)
            action.triggered.connect(partial(self._choose, theme))
            group.addAction(action)
            self._actions[theme] = action

    def show_chosen(self, theme: str) -> None:
        """Tick the colours in use."""
        self._actions[theme].setChecked(True)

    def _choose(self, theme: str, *_: object) -> None:
        self.chosen.emit(theme)


def fill_go_menu(menu: QMenu, workbench: Workbench) -> None:
    """List stages, docks and other places, with a line between the groups."""
    menu.menuAction().setVisible(True)
    groups = (workbench.stage_actions, workbench.dock_actions, workbench.place_actions)
    for actions in groups:
        if actions:
            menu.addActions(list(actions.values()))
            menu.addSeparator()


def fill_dock_menu(menu: QMenu, workbench: Workbench) -> None:
    """For each dock whether it is shown, and whether it is a window of its own."""
    texts = workbench.workspace.texts
    menu.addActions([dock.toggleViewAction() for dock in workbench.docks.values()])
    menu.addSeparator()
    for key, dock in workbench.docks.items():
        name = plain_action_text(dock.windowTitle())
        action = menu.addAction(texts("{name} in a window of its own", name=name))
        action.setCheckable(True)
        action.setChecked(dock.isFloating())
        float_or_back = partial(workbench.float_dock, key, loose=not dock.isFloating())
        action.triggered.connect(float_or_back)
