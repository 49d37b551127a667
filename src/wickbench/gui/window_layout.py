"""Where the window and its docks stood, kept in the settings of the person."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QByteArray, Qt

if TYPE_CHECKING:
    from PySide6.QtWidgets import QMainWindow

    from wickbench.app.user_settings import UserSettings

LAYOUT_VERSION: Final = 1
_FIRST_SIZE: Final = (1280, 860)
_FRAME: Final = 48


def restore_geometry(window: QMainWindow, user: UserSettings) -> None:
    """Size and place as they were; a size that fits the screen the first time."""
    kept = user.text("window_geometry")
    if not (kept and window.restoreGeometry(_bytes(kept))):
        room = window.screen().availableGeometry()
        wide, high = _FIRST_SIZE
        if room.width() < wide + _FRAME or room.height() < high + _FRAME:
            window.setWindowState(Qt.WindowState.WindowMaximized)
        window.resize(min(wide, room.width() - _FRAME), min(high, room.height() - _FRAME))


def keep_geometry(window: QMainWindow, user: UserSettings) -> None:
    """Remember size and place."""
    user.set_text("window_geometry", _text(window.saveGeometry()))


def restore_layout(window: QMainWindow, user: UserSettings) -> bool:
    """Put the docks where they were; false when nothing is known or another version kept it.

    The docks must not be tabbed yet: Qt would leave the tabs of that layout on top of the window.
    """
    kept = user.text("window_state")
    return bool(kept) and window.restoreState(_bytes(kept), LAYOUT_VERSION)


def keep_layout(window: QMainWindow, user: UserSettings) -> None:
    """Remember where the docks are."""
    user.set_text("window_state", _text(window.saveState(LAYOUT_VERSION)))


def _bytes(text: str) -> QByteArray:
    return QByteArray.fromHex(QByteArray(text.encode()))


def _text(state: QByteArray) -> str:
    return bytes(state.toHex().data()).decode()
