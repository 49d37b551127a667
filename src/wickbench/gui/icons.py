"""Own line icons, drawn in the ink of the theme.

Every icon is an SVG in ``resources/icons`` on a 24 px grid with a 1.75 px stroke in
``currentColor``. A widget or action remembers the name of its icon, so that `recolour` can draw
all of them again when the theme changes.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QByteArray, QRectF, QSize, Qt
from PySide6.QtGui import QAction, QIcon, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtWidgets import QAbstractButton, QWidget

from wickbench.app.resources import resource_path

if TYPE_CHECKING:
    from wickbench.gui.theme import Colours

_SIZES: Final = (16, 20, 24, 32, 48)
_NAME: Final = "icon_name"


@lru_cache(64)
def drawing(name: str) -> str:
    """The SVG text of an icon.

    Raises:
        ResourceMissing: there is no icon of that name.
    """
    return resource_path("icons", f"{name}.svg").read_text(encoding="utf-8")


@lru_cache(512)
def icon_pixmap(name: str, colour: str, size: int, ratio: float = 1.0) -> QPixmap:
    """An icon as a picture of ``size`` logical pixels.

    Args:
        name: the file's name without its suffix.
        colour: ``#rrggbb``.
        size: edge in logical pixels.
        ratio: device pixels per logical pixel.
    """
    data = QByteArray(drawing(name).replace("currentColor", colour).encode())
    picture = QPixmap(QSize(size, size) * ratio)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    QSvgRenderer(data).render(painter, QRectF(0, 0, size * ratio, size * ratio))
    painter.end()
    picture.setDevicePixelRatio(ratio)
    return picture


def icon(name: str, colours: Colours) -> QIcon:
    """An icon in quiet ink, in the accent when checked, thinned when disabled."""
    made = QIcon()
    for size in _SIZES:
        for mode in (QIcon.Mode.Normal, QIcon.Mode.Selected):
            made.addPixmap(icon_pixmap(name, colours.ink, size), mode)
        made.addPixmap(icon_pixmap(name, colours.line, size), QIcon.Mode.Disabled)
        for mode in (QIcon.Mode.Normal, QIcon.Mode.Active):
            picture = icon_pixmap(name, colours.accent, size)
            made.addPixmap(picture, mode, QIcon.State.On)
    return made


def set_icon(target: QAction | QAbstractButton, name: str, colours: Colours) -> None:
    """Give an action or button an icon that follows the theme."""
    target.setProperty(_NAME, name)
    target.setIcon(_icon_for(target, name, colours))


def recolour(window: QWidget, colours: Colours) -> None:
    """Draw the icons of everything in a window again, in other colours."""
    targets = (*window.findChildren(QAction), *window.findChildren(QAbstractButton))
    for target in targets:
        name = target.property(_NAME)
        if isinstance(name, str) and isinstance(target, (QAction, QAbstractButton)):
            target.setIcon(_icon_for(target, name, colours))


def _icon_for(target: QAction | QAbstractButton, name: str, colours: Colours) -> QIcon:
    """The icon; white on the one primary button."""
    if isinstance(target, QAbstractButton) and target.property("look") == "primary":
        made = QIcon()
        for size in _SIZES:
            made.addPixmap(icon_pixmap(name, colours.on_accent, size))
            made.addPixmap(icon_pixmap(name, colours.quiet, size), QIcon.Mode.Disabled)
        return made
    return icon(name, colours)
