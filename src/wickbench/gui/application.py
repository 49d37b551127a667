"""What the whole application is given before a window opens: name, fonts, icon, theme."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QLibraryInfo, QTranslator
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


def speak(language: str) -> bool:
    """Have the toolkit's own words, in context menus and file dialogs, in a language too.

    Args:
        language: its code; English needs nothing.

    Returns:
        whether the toolkit brought that language along; else it stays English.
    """
    application = QApplication.instance()
    if application is None:
        raise TypeError("words need an application")
    former = application.findChild(QTranslator, "qt_words")
    if former is not None:
        application.removeTranslator(former)
        former.setParent(None)
    words = QTranslator(application)
    words.setObjectName("qt_words")
    folder = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
    return words.load(f"qtbase_{language}", folder) and application.installTranslator(words)
