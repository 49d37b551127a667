"""What every page is made of: a main column, and a side column that drops below when narrow."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QBoxLayout,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from wickbench.gui.fonts import scaled
from wickbench.gui.listening import Listener
from wickbench.gui.steady import SteadyBox
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QResizeEvent

    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.questions import Ask
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace

_WIDE_CHARACTERS: Final = 112
_SIDE_CHARACTERS: Final = 36


def label(text: str = "", look: str = "", *, wrap: bool = True) -> QLabel:
    """A label that takes text as it is, never as markup."""
    made = QLabel(text)
    made.setTextFormat(Qt.TextFormat.PlainText)
    made.setWordWrap(wrap)
    if look:
        set_look(made, look)
    return made


def title_label(text: str = "") -> QLabel:
    """The title of a page or of the thing in a dock; gives way when there is no room."""
    made = label(text, "title")
    scaled(made, 1.35, bold=True)
    made.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
    return made


def heading(text: str = "") -> QLabel:
    """A heading above a part of a page."""
    return label(text, "heading")


class Button(QPushButton):
    """A button that Enter presses as well as the space bar, in pages as in dialogs."""

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.click()
        else:
            super().keyPressEvent(event)


def button(text: str, look: str = "") -> QPushButton:
    """A button; ``look="primary"`` for the one that the page is for."""
    made = Button(text)
    made.setAutoDefault(False)
    if look:
        set_look(made, look)
    return made


def card() -> tuple[QFrame, QVBoxLayout]:
    """A white sheet with a thin border, and the layout inside it."""
    frame = QFrame()
    set_look(frame, "card")
    inside = QVBoxLayout(frame)
    inside.setContentsMargins(16, 12, 16, 12)
    inside.setSpacing(8)
    return frame, inside


class Columns(QScrollArea):
    """A scrolling main column with a side column beside or below it, never scrolled sideways."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._ground = QWidget()
        set_look(self._ground, "ground")
        self._box = QBoxLayout(QBoxLayout.Direction.LeftToRight, self._ground)
        self._box.setContentsMargins(24, 16, 24, 16)
        self._box.setSpacing(24)
        self.main_column, self.main = _column()
        self.side_column, self.side = _column()
        self._box.addWidget(self.main_column, 3)
        self._box.addWidget(self.side_column, 1)
        self.side_column.setVisible(False)
        self.wide_characters = _WIDE_CHARACTERS
        self.setWidget(self._ground)

    def show_side(self, *, shown: bool = True) -> None:
        """Show or hide the side column; it starts hidden."""
        self.side_column.setVisible(shown)

    @property
    def side_below(self) -> bool:
        """Whether the side column stands below the main one."""
        return self._box.direction() == QBoxLayout.Direction.TopToBottom

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        character = self.fontMetrics().averageCharWidth()
        wide = event.size().width() >= character * self.wide_characters
        direction = QBoxLayout.Direction.LeftToRight if wide else QBoxLayout.Direction.TopToBottom
        self._box.setDirection(direction)
        self._box.setStretch(0, 3 if wide else 0)
        self.side_column.setMinimumWidth(character * _SIDE_CHARACTERS if wide else 0)
        self.side.setAlignment(Qt.AlignmentFlag.AlignTop)
        super().resizeEvent(event)
        self._ground.setMaximumWidth(event.size().width())


def _column() -> tuple[QWidget, QVBoxLayout]:
    column = QWidget()
    inside = SteadyBox()
    column.setLayout(inside)
    inside.setContentsMargins(0, 0, 0, 0)
    inside.setSpacing(12)
    return column, inside


class Page(Columns):
    """A stage of the work; a subclass fills ``main``, ``side`` and ``buttons``.

    Attributes:
        kinds: kinds of change that the page shows, as in ``Changes.kinds``; empty for all.
        needs_width: whether the docks fold away while this page is open.
        main: layout of the main column.
        side: layout of the side column; call ``show_side()`` when it is used.
        top: layout of the first line: title and buttons.
        buttons: layout at the right of the title.

    Signals:
        go_requested: key of a page, place or dock, and a record to show there or ``None``; a
            part of a page is named after a slash, as in ``"equipment/pot"``.
    """

    go_requested = Signal(str, object)

    kinds: ClassVar[frozenset[str]] = frozenset()
    needs_width: ClassVar[bool] = False

    def __init__(self, workspace: Workspace, ask: Ask) -> None:
        super().__init__()
        self.workspace = workspace
        self.ask = ask
        self.title = title_label()
        self.buttons = QHBoxLayout()
        self.buttons.setSpacing(8)
        self.top = QHBoxLayout()
        self.top.setSpacing(12)
        self.top.addWidget(self.title, 1)
        self.top.addLayout(self.buttons)
        self.main.addLayout(self.top)
        self._listener = Listener(workspace, self, self.kinds, self.refresh)

    @property
    def texts(self) -> Texts:
        """Sentences and units as they are now; never keep a copy, settings replace it."""
        return self.workspace.texts

    def refresh(self, changes: Changes | None) -> None:
        """Show fresh values; called on first show and whenever one of ``kinds`` changed.

        Args:
            changes: what changed and who began it; ``None`` when everything may have.
        """

    def show_record(self, record: int) -> None:
        """Show one record; asked for by *Find anything* and by other pages."""

    def show_part(self, part: str) -> None:
        """Bring a part of the page into view: what stands after "/" in the key asked for."""

    def release(self) -> None:
        """The workshop is being closed: hear nothing any more."""
        self._listener.stop()
