"""The part of the window that belongs to one open workshop: pages, docks and their actions."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QStackedWidget, QWidget

from wickbench.gui.docks import DOCKS
from wickbench.gui.icons import set_icon
from wickbench.gui.stages import PLACES, STAGES

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QMainWindow

    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace
    from wickbench.gui.catalog.catalog_dock import CatalogDock
    from wickbench.gui.docks import DockSpec
    from wickbench.gui.page import Page
    from wickbench.gui.stages import StageSpec
    from wickbench.gui.theme import Colours

DOCK_WIDTH: Final = 310


class Workbench(QObject):
    """Pages and docks of an open workshop inside a main window.

    Attributes:
        docks: by key.
        pages: those visited so far, by key.
        stage_actions: by key, in the order of the work.
        place_actions: by key.
        dock_actions: by key; each brings its dock to the front.

    Signals:
        page_shown: key of the page that is now in front.
    """

    page_shown = Signal(str)

    def __init__(
        self, window: QMainWindow, stack: QStackedWidget, workspace: Workspace, ask: Ask
    ) -> None:
        super().__init__(window)
        self._window = window
        self._stack = stack
        self.workspace = workspace
        self.ask = ask
        self.docks: dict[str, CatalogDock] = {}
        self.pages: dict[str, Page] = {}
        self.stage_actions: dict[str, QAction] = {}
        self.place_actions: dict[str, QAction] = {}
        self.dock_actions: dict[str, QAction] = {}
        self._specs = {spec.key: spec for spec in (*STAGES, *PLACES)}
        self._group = QActionGroup(self)
        self._group.setExclusionPolicy(QActionGroup.ExclusionPolicy.ExclusiveOptional)
        self._folded: list[str] = []
        self._folded_for_page = False
        for dock_spec in DOCKS:
            self._add_dock(dock_spec)

    # -- actions ---------------------------------------------------------------------------------
    def make_actions(self, colours: Colours) -> None:
        """Make the actions of stages, places and docks."""
        for at, spec in enumerate(STAGES, 1):
            action = self._page_action(spec, colours)
            action.setCheckable(True)
            action.setShortcut(QKeySequence(f"Ctrl+{at}"))
            self._group.addAction(action)
            self.stage_actions[spec.key] = action
        for spec in PLACES:
            action = self._page_action(spec, colours)
            action.setShortcut(QKeySequence(spec.shortcut))
            self.place_actions[spec.key] = action
        for at, dock_spec in enumerate(DOCKS, 1):
            action = QAction(self.workspace.texts(dock_spec.title), self)
            action.setObjectName(f"show_{dock_spec.key}")
            action.setShortcut(QKeySequence(f"Ctrl+Alt+{at}"))
            set_icon(action, dock_spec.icon, colours)
            action.triggered.connect(partial(self._front, dock_spec.key))
            self.dock_actions[dock_spec.key] = action

    def _page_action(self, spec: StageSpec, colours: Colours) -> QAction:
        action = QAction(self.workspace.texts(spec.title), self)
        action.setObjectName(f"go_{spec.key}")
        set_icon(action, spec.icon, colours)
        action.triggered.connect(partial(self.show_page, spec.key))
        return action

    # -- pages -----------------------------------------------------------------------------------
    def show_page(self, key: str, *_: object) -> Page | None:
        """Bring a page to the front, building it on the first visit."""
        spec = self._specs.get(key)
        if spec is None:
            return None
        if key not in self.pages:
            page = spec.build(self.workspace, self.ask)
            page.setObjectName(f"{key}_page")
            page.go_requested.connect(self.go)
            self.pages[key] = page
            self._stack.addWidget(page)
        page = self.pages[key]
        self._stack.setCurrentWidget(page)
        if not page.isAncestorOf(self._window.focusWidget()):
            page.setFocus()  # Tab goes on in the page, not where the person was before
        for stage, action in self.stage_actions.items():
            action.setChecked(stage == key)
        self._make_width(needed=page.needs_width)
        self.page_shown.emit(key)
        return page

    def go(self, key: str, record: object = None) -> None:
        """Show a page or dock, and a record in it when one is named.

        Args:
            key: of the page or dock; a part of a page stands after a slash ("equipment/pot").
            record: its number there.
        """
        if key in self.docks:
            self._front(key)
            if isinstance(record, int):
                self.docks[key].show_record(record)
            return
        name, _, part = key.partition("/")
        page = self.show_page(name)
        if page is not None and part:
            page.show_part(part)
        if page is not None and isinstance(record, int):
            page.show_record(record)

    # -- docks -----------------------------------------------------------------------------------
    def _add_dock(self, spec: DockSpec) -> None:
        dock = spec.build(self.workspace, self.ask)
        dock.setObjectName(f"{spec.key}_dock")
        dock.go_requested.connect(self.go)
        dock.topLevelChanged.connect(self._tidy_titles)
        dock.dockLocationChanged.connect(self._tidy_titles)
        self._window.addDockWidget(Qt.DockWidgetArea.LeftDockWidgetArea, dock)
        self.docks[spec.key] = dock

    def place_docks(self, restored: Callable[[], bool]) -> None:
        """Put the docks where they were, or where they start when that is not known."""
        if restored():
            self._tidy_titles()
        else:
            self.reset_docks()

    def reset_docks(self) -> None:
        """Put the docks in one row of tabs at the left, as wide as they start."""
        first: CatalogDock | None = None
        for dock in self.docks.values():
            dock.setFloating(False)
            self._window.addDockWidget(Qt.DockWidgetArea.LeftDockWidgetArea, dock)
            dock.show()
            if first is None:
                first = dock
            else:
                self._window.tabifyDockWidget(first, dock)
        if first is not None:
            first.raise_()
            self._window.resizeDocks([first], [DOCK_WIDTH], Qt.Orientation.Horizontal)
        self._folded = []
        self._tidy_titles()

    def _tidy_titles(self, *_: object) -> None:
        """A dock that has a tab needs no title bar under it."""
        for dock in self.docks.values():
            tabbed = not dock.isFloating() and bool(self._window.tabifiedDockWidgets(dock))
            bar = dock.titleBarWidget()
            if tabbed and bar is None:
                dock.setTitleBarWidget(QWidget())
            elif not tabbed and bar is not None:
                dock.setTitleBarWidget(None)  # type: ignore[arg-type]  # Qt takes null: its own bar
                bar.deleteLater()

    def float_dock(self, key: str, *_: object, loose: bool) -> None:
        """Make a dock a window of its own, or put it back."""
        dock = self.docks[key]
        dock.show()
        dock.setFloating(loose)

    @property
    def folded(self) -> bool:
        """Whether the docks are folded away."""
        return bool(self._folded)

    def fold(self, *, away: bool) -> None:
        """Fold all docks away, or bring back those that were folded."""
        shown = [key for key, dock in self.docks.items() if not dock.isHidden()]
        if away and shown:
            self._folded = shown
            for key in shown:
                self.docks[key].hide()
        else:
            back, self._folded = self._folded or list(self.docks), []
            for key in back:
                self.docks[key].show()

    def _make_width(self, *, needed: bool) -> None:
        if needed and not self._folded:
            self.fold(away=True)
            self._folded_for_page = bool(self._folded)
        elif not needed and self._folded_for_page:
            self.fold(away=False)
            self._folded_for_page = False

    def _front(self, key: str, *_: object) -> None:
        if self._folded:
            self.fold(away=False)
        dock = self.docks[key]
        dock.show()
        dock.raise_()
        dock.focus_search()

    # -- the end ---------------------------------------------------------------------------------
    def recolour(self) -> None:
        """The theme changed: everything that painted pictures does so again."""
        for widget in (*self.docks.values(), *self.pages.values()):
            widget.update()

    def release(self) -> None:
        """Take pages and docks out of the window; the workshop is being closed."""
        for page in self.pages.values():
            page.release()
            self._stack.removeWidget(page)
            page.deleteLater()
        for dock in self.docks.values():
            dock.release()
            self._window.removeDockWidget(dock)
            dock.setParent(None)  # its name must not be found when the next layout is restored
            dock.deleteLater()
        self.deleteLater()
