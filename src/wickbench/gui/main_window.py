"""The one window: menus, stages, docks and pages, and opening and closing workshops."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from importlib import metadata
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QLocale, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QMainWindow, QMenu, QStackedWidget, QTabWidget
from typing_extensions import override

from wickbench.app.first_settings import settings_for
from wickbench.app.this_computer import why_refused
from wickbench.app.user_settings import UserSettings
from wickbench.app.workspace import Workspace
from wickbench.domain.errors import DomainError
from wickbench.gui.application import prepare_application, speak
from wickbench.gui.filled_menus import RecentMenu, ThemeMenu, fill_dock_menu, fill_go_menu
from wickbench.gui.find_anything import FindAnything
from wickbench.gui.first_run import FirstRun
from wickbench.gui.icons import recolour
from wickbench.gui.menus import Menus
from wickbench.gui.paper_writing import write_papers
from wickbench.gui.questions import AskInWindow
from wickbench.gui.stages_bar import StagesBar
from wickbench.gui.status_line import StatusLine
from wickbench.gui.timers.timer_watch import TimerWatch
from wickbench.gui.timers.window_timers import WindowTimers
from wickbench.gui.window_layout import (
    keep_geometry,
    keep_layout,
    restore_geometry,
    restore_layout,
)
from wickbench.gui.workbench import Workbench

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from PySide6.QtGui import QCloseEvent

    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.questions import Ask
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Services

SUFFIX: Final = ".wickbench"


class MainWindow(QMainWindow):
    """Shows the first-run page until a workshop is open, then its docks and pages.

    Args:
        make_services: builds what a workspace needs from texts and questions.
        texts: sentences in the person's language.
        demo_file: gives the path of the demo workshop, building it when needed.
        user: settings of the person; those of this machine's user when absent.
        ask: questions and messages; message boxes over this window when absent.
    """

    def __init__(
        self,
        make_services: Callable[[Texts, Ask], Services],
        texts: Texts,
        demo_file: Callable[[], Path],
        *,
        user: UserSettings | None = None,
        ask: Ask | None = None,
    ) -> None:
        super().__init__()
        self.user = user or UserSettings.of_this_person()
        self._colours = prepare_application(self.user.text("theme"))
        speak(texts.language)
        self._make_services = make_services
        self._demo_file = demo_file
        self._texts = texts
        self.ask: Ask = ask or AskInWindow(lambda: self.texts)
        self.workspace: Workspace | None = None
        self.workbench: Workbench | None = None
        self._build()
        self.menus.connect(self._slots())
        self.user.subscribe(self._user_setting_changed)
        self._close_parts()
        restore_geometry(self, self.user)

    def _build(self) -> None:
        self.setObjectName("main_window")
        self.setDockNestingEnabled(True)
        self.setTabPosition(Qt.DockWidgetArea.AllDockWidgetAreas, QTabWidget.TabPosition.North)
        self.menus = Menus(self.menuBar(), self._texts, self._colours)
        self.stages_bar = StagesBar(self._texts)
        self.stages_bar.setObjectName("stages_bar")
        self.stages_bar.find_requested.connect(self.find_anything)
        self.addToolBar(self.stages_bar)
        self.first_run = FirstRun(self._texts)
        self.first_run.setObjectName("first_run")
        self.first_run.new_requested.connect(self.new_workshop)
        self.first_run.open_requested.connect(self.open_file)
        self.first_run.demo_requested.connect(self.open_demo)
        self.first_run.recent_requested.connect(self.open_workshop)
        self.stack = QStackedWidget()
        self.stack.setObjectName("stack")
        self.stack.addWidget(self.first_run)
        self.timer_watch = TimerWatch(self)
        self.timers = WindowTimers(self, self.timer_watch, self.stack)
        self.setCentralWidget(self.timers.under_banner)
        self.status_line = StatusLine()
        self.status_line.setObjectName("status_line")
        self.setStatusBar(self.status_line)
        self.timers.join(self.status_line.show_timer, self.status_line.timers_requested)
        self.recent_menu = RecentMenu(self._texts, self)
        self.recent_menu.setObjectName("recent_menu")
        self.recent_menu.chosen.connect(self.open_workshop)
        before = self.menus.actions["open_demo"]
        self.menus.menus["file"].insertMenu(before, self.recent_menu)
        self.theme_menu = ThemeMenu(self._texts, self.user.text("theme"), self)
        self.theme_menu.setObjectName("theme_menu")
        self.theme_menu.chosen.connect(self.set_theme)
        self.menus.menus["view"].addMenu(self.theme_menu)
        self.docks_menu = self.menus.menus["view"].addMenu(self._texts("Catalogs"))
        self.docks_menu.setObjectName("docks_menu")
        self.docks_menu.aboutToShow.connect(self._fill_docks_menu)
        self._fill_recent()

    def _fill_docks_menu(self) -> None:
        self.docks_menu.clear()
        if self.workbench is not None:
            fill_dock_menu(self.docks_menu, self.workbench)

    def _slots(self) -> dict[str, Callable[[], object]]:
        return {
            "new_workshop": self.new_workshop, "open_file": self.open_file,
            "open_demo": self.open_demo, "save_copy": self.save_copy,
            "write_papers": self.write_papers,
            "close_workshop": self.close_workshop, "quit": self.close, "undo": self.undo,
            "redo": self.redo, "find_anything": self.find_anything,
            "fold_docks": self.fold_docks, "reset_layout": self.reset_layout,
            "show_timers": self.timers.show_list, "about": self.about,
        }  # fmt: skip

    @property
    def texts(self) -> Texts:
        """Sentences and units as they are now."""
        return self.workspace.texts if self.workspace is not None else self._texts

    # -- opening and closing ---------------------------------------------------------------------
    def new_workshop(self) -> None:
        """Ask where, and begin a new workshop there."""
        path = self.ask.save_path(
            self.texts("Where shall the new workshop be kept?"),
            f"{self.texts('My workshop')}{SUFFIX}",
            self._file_kinds(),
        )
        if path is not None:
            self._open_by(_created, _with_suffix(path))

    def open_file(self) -> None:
        """Ask which, and open a workshop."""
        path = self.ask.open_path(self.texts("Open a workshop"), self._file_kinds())
        if path is not None:
            self.open_workshop(path)

    def open_demo(self) -> None:
        """Open the demo workshop."""
        try:
            path = self._demo_file()
        except DomainError as error:
            self.ask.tell(self.texts.say(error))
            return
        self.open_workshop(path)

    def open_workshop(self, path: Path) -> bool:
        """Open a workshop file in place of the one that is open; says whether it worked."""
        return self._open_by(Workspace.open, path)

    def _open_by(self, opener: Callable[[Path, Services], Workspace], path: Path) -> bool:
        if self.workspace is not None and self.workspace.path == path:
            return True
        services = self._services()
        try:
            workspace = opener(path, services)
        except DomainError as error:
            self.ask.tell(why_refused(error, path, services))
            self._fill_recent()
            return False
        self.close_workshop()
        self._show_workspace(workspace)
        self.user.remember_file(path.absolute())
        self._fill_recent()
        return True

    def _services(self) -> Services:
        """What main builds, with the settings of the person that this window holds."""
        return replace(self._make_services(self._texts, self.ask), user=self.user)

    def _show_workspace(self, workspace: Workspace) -> None:
        self.workspace = workspace
        self.workbench = Workbench(self, self.stack, workspace, self.ask)
        self.workbench.make_actions(self._colours)
        self.workbench.page_shown.connect(self._page_shown)
        fill_go_menu(self.menus.menus["go"], self.workbench)
        self.stages_bar.show_stages(self.workbench.stage_actions.values())
        self.workbench.place_docks(partial(restore_layout, self, self.user))
        self.stages_bar.setVisible(True)
        self._unsubscribe = workspace.subscribe(self._changed)
        self._changed(None)
        self.timer_watch.follow(workspace)
        first = self.user.text("stage")
        stages = list(self.workbench.stage_actions) + list(self.workbench.place_actions)
        if stages:
            self.workbench.show_page(first if first in stages else stages[0])
        self.setWindowTitle(workspace.name)
        self.stack.setFocus()

    def close_workshop(self) -> None:
        """Close the open workshop and show the first-run page."""
        if self.workspace is None or self.workbench is None:
            return
        focused = self.focusWidget()
        if focused is not None:
            focused.clearFocus()
        if self.workbench.folded:
            self.workbench.fold(away=False)
        keep_layout(self, self.user)
        self._unsubscribe()
        self.timer_watch.follow(None)
        self.workbench.release()
        self.workspace.close()
        self.workspace = self.workbench = None
        self._close_parts()

    def _close_parts(self) -> None:
        """The window without a workshop."""
        self.menus.menus["go"].clear()
        self.menus.menus["go"].menuAction().setVisible(False)
        self.menus.enable(workshop_open=False)
        self.menus.name_undo(None, None)
        self.stages_bar.show_stages(())
        self.stages_bar.setVisible(False)
        self.status_line.show_workshop(None)
        self.first_run.show_recent(self.user.recent_files)
        self.stack.setCurrentWidget(self.first_run)
        self.setWindowTitle(QGuiApplication.applicationDisplayName())

    def save_copy(self) -> None:
        """Ask where, and write a copy of the workshop there."""
        if self.workspace is None:
            return
        path = self.ask.save_path(
            self.texts("Where shall the copy go?"),
            f"{self.workspace.name} {self.workspace.clock.today().isoformat()}{SUFFIX}",
            self._file_kinds(),
        )
        if path is not None:
            self._try(partial(self.workspace.save_copy, _with_suffix(path)))

    def write_papers(self) -> None:
        """Write every paper of the workshop into a folder."""
        if self.workspace is not None:
            write_papers(self.workspace, self.ask)

    def _file_kinds(self) -> str:
        return self.texts("Workshops (*{suffix})", suffix=SUFFIX)

    # -- what the menus do -----------------------------------------------------------------------
    def undo(self) -> None:
        """Take the last act back."""
        if self.workspace is not None and self.workspace.may_undo:
            self._try(self.workspace.undo)

    def redo(self) -> None:
        """Do the act again that was taken back."""
        if self.workspace is not None and self.workspace.may_redo:
            self._try(self.workspace.redo)

    def find_anything(self) -> None:
        """Open the line that finds anything."""
        if self.workspace is None or self.workbench is None:
            return
        finder = FindAnything(self.workspace, self.menus.commands, self)
        finder.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        finder.go_requested.connect(self.workbench.go)
        finder.open_under(self.stages_bar.find_button)

    def fold_docks(self) -> None:
        """Fold the docks away, or bring them back."""
        if self.workbench is not None:
            self.workbench.fold(away=not self.workbench.folded)
            self.menus.actions["fold_docks"].setChecked(self.workbench.folded)

    def reset_layout(self) -> None:
        """Put the docks back where they were at first."""
        if self.workbench is not None:
            self.workbench.reset_docks()
            self.menus.actions["fold_docks"].setChecked(False)

    def about(self) -> None:
        """Say what this is."""
        try:
            version = metadata.version("wickbench")
        except metadata.PackageNotFoundError:
            version = "–"
        self.ask.tell(
            self.texts("Wickbench {version}: the bench of a candle workshop.", version=version)
        )

    def set_theme(self, theme: str) -> None:
        """Change the colours of the window and remember them."""
        self.user.set_text("theme", theme)

    def _user_setting_changed(self, name: str) -> None:
        if name != "theme":
            return
        theme = self.user.text("theme")
        self._colours = prepare_application(theme)
        self.theme_menu.show_chosen(theme)
        recolour(self, self._colours)
        self.first_run.redraw()
        if self.workbench is not None:
            self.workbench.recolour()

    def _try(self, act: Callable[[], None]) -> None:
        try:
            act()
        except DomainError as error:
            self.ask.tell(self.texts.say(error))

    @override
    def createPopupMenu(self) -> QMenu | None:
        """The menu at a click with the right button on a dock or tab."""
        if self.workbench is None:
            return None
        menu = QMenu(self)
        fill_dock_menu(menu, self.workbench)
        return menu

    # -- what follows a change -------------------------------------------------------------------
    def _page_shown(self, key: str) -> None:
        self.user.set_text("stage", key)
        folded = self.workbench is not None and self.workbench.folded
        self.menus.actions["fold_docks"].setChecked(folded)

    def _changed(self, changes: Changes | None) -> None:  # noqa: ARG002 - any change counts
        if self.workspace is None:
            return
        workspace = self.workspace
        self.menus.enable(workshop_open=True)
        self.menus.name_undo(
            workspace.undo_label if workspace.may_undo else None,
            workspace.redo_label if workspace.may_redo else None,
        )
        self.status_line.show_workshop(workspace)

    def _fill_recent(self) -> None:
        self.recent_menu.show_files(self.user.recent_files)
        if self.workspace is None:
            self.first_run.show_recent(self.user.recent_files)

    @override
    def closeEvent(self, event: QCloseEvent) -> None:
        keep_geometry(self, self.user)
        self.close_workshop()
        super().closeEvent(event)


def _created(path: Path, services: Services) -> Workspace:
    """A new workshop that starts with the units and the region of this computer."""
    workspace = Workspace.create(path, services)
    workspace.set_settings(settings_for(QLocale.system().name()))
    return workspace


def _with_suffix(path: Path) -> Path:
    return path if path.suffix == SUFFIX else path.with_name(path.name + SUFFIX)
