"""The menu bar as a table: which menu, which action, which key, and what it calls."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu

from wickbench.app.texts_marker import N_
from wickbench.gui.icons import set_icon
from wickbench.gui.naming import plain_action_text

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from PySide6.QtWidgets import QMenuBar

    from wickbench.app.texts import Texts
    from wickbench.gui.theme import Colours

MENUS: Final = (
    ("file", N_("&File")), ("edit", N_("&Edit")), ("view", N_("&View")), ("go", N_("&Go")),
    ("help", N_("&Help")),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class ActionSpec:
    """One action.

    Attributes:
        menu: key of its menu.
        key: its name; the window calls the slot of that name.
        title: msgid.
        shortcut: in portable form.
        icon: name of an icon or empty.
        needs_workshop: greyed while no workshop is open.
        gap: a line stands above it.
        checkable: it is switched on and off.
    """

    menu: str
    key: str
    title: str
    shortcut: str = ""
    icon: str = ""
    needs_workshop: bool = True
    gap: bool = False
    checkable: bool = False


ACTIONS: Final = (
    ActionSpec("file", "new_workshop", N_("New workshop…"), "Ctrl+N", "new", needs_workshop=False),
    ActionSpec("file", "open_file", N_("Open workshop…"), "Ctrl+O", "open", needs_workshop=False),
    ActionSpec("file", "open_demo", N_("Open the demo"), "", "candle", needs_workshop=False),
    ActionSpec("file", "save_copy", N_("Save a copy…"), "Ctrl+Shift+S", "save", gap=True),
    ActionSpec("file", "write_papers", N_("Write all papers as PDF…"), "", "pdf"),
    ActionSpec("file", "close_workshop", N_("Close workshop"), "Ctrl+W"),
    ActionSpec("file", "quit", N_("Quit"), "Ctrl+Q", needs_workshop=False, gap=True),
    ActionSpec("edit", "undo", N_("Undo"), "Ctrl+Z", "undo"),
    ActionSpec("edit", "redo", N_("Redo"), "Ctrl+Shift+Z", "redo"),
    ActionSpec("edit", "find_anything", N_("Find anything"), "Ctrl+K", "search", gap=True),
    ActionSpec("edit", "show_timers", N_("Timers…"), "Ctrl+T", "timer", gap=True),
    ActionSpec("view", "fold_docks", N_("Fold the catalogs away"), "F9", "fold", checkable=True),
    ActionSpec("view", "reset_layout", N_("Reset layout")),
    ActionSpec("help", "about", N_("About Wickbench"), "", "note", needs_workshop=False),
)  # fmt: skip
"""Everything the menus hold besides pages, docks, colours and recent files."""


class Menus:
    """The menus of a window and their actions by key."""

    def __init__(self, bar: QMenuBar, texts: Texts, colours: Colours) -> None:
        self.menus: dict[str, QMenu] = {}
        self.actions: dict[str, QAction] = {}
        self._texts = texts
        for key, title in MENUS:
            menu = bar.addMenu(texts(title))
            menu.setObjectName(f"{key}_menu")
            self.menus[key] = menu
        for spec in ACTIONS:
            self._add(spec, colours)

    def _add(self, spec: ActionSpec, colours: Colours) -> None:
        menu = self.menus[spec.menu]
        if spec.gap:
            menu.addSeparator()
        action = QAction(self._texts(spec.title), menu)
        action.setObjectName(spec.key)
        action.setShortcut(QKeySequence(spec.shortcut))
        action.setCheckable(spec.checkable)
        if spec.icon:
            set_icon(action, spec.icon, colours)
        menu.addAction(action)
        self.actions[spec.key] = action

    def connect(self, slots: Mapping[str, Callable[[], object]]) -> None:
        """Join each action with the slot of its key."""
        for key, action in self.actions.items():
            slot = slots[key]
            action.triggered.connect(lambda _checked=False, slot=slot: slot())

    def enable(self, *, workshop_open: bool) -> None:
        """Grey what needs an open workshop."""
        for spec in ACTIONS:
            self.actions[spec.key].setEnabled(workshop_open or not spec.needs_workshop)

    def name_undo(self, undo: str | None, redo: str | None) -> None:
        """Name the acts that undo and redo would do; ``None`` greys them."""
        for key, bare, named, act in (
            ("undo", N_("Undo"), N_("Undo: {act}"), undo),
            ("redo", N_("Redo"), N_("Redo: {act}"), redo),
        ):
            action = self.actions[key]
            action.setEnabled(act is not None)
            text = self._texts(named, act=act) if act else self._texts(bare)
            action.setText(plain_action_text(text))

    def commands(self) -> list[QAction]:
        """Every action of the menus and of the menus in them; pages and docks come first."""
        order = ("go", *(key for key in self.menus if key != "go"))
        return [action for key in order for action in _actions_in(self.menus[key])]


def _actions_in(menu: QMenu) -> list[QAction]:
    found: list[QAction] = []
    for action in menu.actions():
        inner = action.menu()
        if isinstance(inner, QMenu):
            found += _actions_in(inner)
        elif action.text() and not action.isSeparator():
            found.append(action)
    return found
