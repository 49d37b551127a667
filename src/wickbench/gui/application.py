"""What the whole application is given before a window opens: name, fonts, icon, theme."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QApplication

from wickbench.gui.fonts import prepare_fonts
from wickbench.gui.icons import icon_pixmap
from wickbench.gui.theme import LIGHT, apply_theme

if TYPE_CHECKING:
    from wickbench.gui.theme import Colours


def prepare_application(theme: str) -> Colours:
    """Prepare the running application; safe to call again.

    Args:
        theme: one of ``theme.THEMES``.

    Returns:
        the colours in use.
    """
    application = QApplication.instance()
    if not isinstance(application, QApplication):
        raise TypeError("a window needs a QApplication")
    application.setApplicationName("wickbench")
    application.setApplicationDisplayName("Wickbench")
    if not application.property("prepared"):
        prepare_fonts(application)
        application.setProperty("prepared", True)  # noqa: FBT003 - Qt's argument
    mark = QIcon()
    for size in (16, 32, 48, 128):
        mark.addPixmap(icon_pixmap("wickbench", LIGHT.accent, size))
    application.setWindowIcon(mark)
    return apply_theme(application, theme)
