"""Ctrl+K: one line that finds records, pages and commands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QEvent, QObject, QPoint, Qt, Signal
from PySide6.QtGui import QAction, QKeyEvent
from PySide6.QtWidgets import (
    QFrame,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QMenu,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from wickbench.app.search import find, matches
from wickbench.gui.icons import icon
from wickbench.gui.naming import accessible, name_attributes, plain_hint
from wickbench.gui.page import label
from wickbench.gui.style_sheet import set_look
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from wickbench.app.workspace import Workspace

_WIDTH: Final = 460
_ROWS: Final = 12
_MOST_COMMANDS: Final = 8
_TARGET: Final = Qt.ItemDataRole.UserRole


@dataclass(frozen=True, slots=True)
class Target:
    """What a found line leads to: an action, or a record in a place."""

    title: str
    detail: str
    icon: str
    place: str = ""
    record: int | None = None
    action: QAction | None = None


class FindAnything(QFrame):
    """A line over a list; the arrows move in the list while the cursor stays in the line.

    Signals:
        go_requested: key of a place and the record to show there.
    """

    go_requested = Signal(str, object)

    def __init__(
        self, workspace: Workspace, commands: Callable[[], Sequence[QAction]], parent: QWidget
    ) -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        self._workspace = workspace
        self._commands = commands
        texts = workspace.texts
        set_look(self, "card")
        self.line = accessible(QLineEdit(), texts("Find anything"))
        self.line.setPlaceholderText(texts("Material, vessel, recipe, candle, label, command…"))
        self.found = accessible(QListWidget(), texts("Found"))
        self.found.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.found.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.found.setTextElideMode(Qt.TextElideMode.ElideMiddle)
        self.nothing = label(texts("Nothing is called that."), "quiet")
        box = QVBoxLayout(self)
        box.setContentsMargins(8, 8, 8, 8)
        box.addWidget(self.line)
        box.addWidget(self.found)
        box.addWidget(self.nothing)
        self.line.textChanged.connect(self._search)
        self.line.installEventFilter(self)
        self.found.itemClicked.connect(self._take)
        name_attributes(self)

    def open_under(self, anchor: QWidget) -> None:
        """Open below a widget, kept on the screen."""
        self.line.clear()
        self._search("")
        corner = anchor.mapToGlobal(QPoint(anchor.width() - _WIDTH, anchor.height() + 2))
        self.setFixedWidth(_WIDTH)
        self.adjustSize()
        self.move(max(corner.x(), self.screen().availableGeometry().left()), corner.y())
        self.show()
        self.line.setFocus(Qt.FocusReason.PopupFocusReason)

    def targets(self, sought: str) -> list[Target]:
        """What the typed words lead to; pages and commands alone when nothing is typed."""
        commands = [
            Target(_bare(action), action.shortcut().toString(), "", action=action)
            for action in self._commands()
            if action.isEnabled() and matches(sought, _words(action))
        ]
        records = [
            Target(hit.title, hit.detail, hit.icon, hit.place, hit.record)
            for hit in find(self._workspace, sought)
        ]
        return records + (commands[:_MOST_COMMANDS] if sought.strip() else commands)

    def _search(self, sought: str) -> None:
        colours = colours_of(self)
        self.found.clear()
        for target in self.targets(sought):
            detail = f"  ·  {target.detail}" if target.detail else ""
            item = QListWidgetItem(f"{target.title}{detail}")
            item.setToolTip(plain_hint(target.title))
            name = target.icon or str((target.action and target.action.property("icon_name")) or "")
            if name:
                item.setIcon(icon(name, colours))
            item.setData(_TARGET, target)
            self.found.addItem(item)
        self.found.setCurrentRow(0)
        count = self.found.count()
        self.nothing.setVisible(not count)
        self.found.setVisible(bool(count))
        row = max(self.found.sizeHintForRow(0), 24)
        self.found.setFixedHeight(row * min(max(count, 1), _ROWS) + 6)
        self.adjustSize()

    def _take(self, item: QListWidgetItem) -> None:
        target = item.data(_TARGET)
        self.close()
        if target.action is not None:
            target.action.trigger()
        else:
            self.go_requested.emit(target.place, target.record)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            return self._key(event.key())
        return super().eventFilter(watched, event)

    def _key(self, key: int) -> bool:
        row, last = self.found.currentRow(), self.found.count() - 1
        if key == Qt.Key.Key_Down:
            self.found.setCurrentRow(min(row + 1, last))
        elif key == Qt.Key.Key_Up:
            self.found.setCurrentRow(max(row - 1, 0))
        elif key in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            item = self.found.currentItem()
            if item is not None:
                self._take(item)
        else:
            return False
        return True


def _words(action: QAction) -> str:
    """What a command is found by: its text and the title of its menu."""
    menu = action.parent()
    return f"{_bare(action)} {menu.title() if isinstance(menu, QMenu) else ''}"


def _bare(action: QAction) -> str:
    """The action's text without its mnemonic."""
    return action.text().replace("&&", "\0").replace("&", "").replace("\0", "&")
