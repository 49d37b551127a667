"""Typefaces of the window: the system's own, and two that always exist."""

from __future__ import annotations

from importlib import resources
from typing import TYPE_CHECKING, Final

from PySide6.QtGui import QFont, QFontDatabase

if TYPE_CHECKING:
    from PySide6.QtWidgets import QApplication, QWidget

_PACKAGES: Final = ("font_source_sans_pro", "font_source_serif_pro")
_FALLBACK: Final = "Source Sans Pro"
_SMALLEST_PT: Final = 8.0


def prepare_fonts(application: QApplication) -> None:
    """Make the shipped typefaces known; use the sans when the machine has no font at all."""
    bare = not QFontDatabase.families()
    for package in _PACKAGES:
        for file in (resources.files(package) / "files").iterdir():
            if file.name.endswith(".ttf"):
                QFontDatabase.addApplicationFontFromData(file.read_bytes())
    if bare:
        application.setFont(QFont(_FALLBACK, 11))


def scaled(widget: QWidget, factor: float, *, bold: bool = False) -> None:
    """Set a widget's text larger or smaller than the window's, never below 8 pt."""
    font = QFont(widget.font())
    points = font.pointSizeF() if font.pointSizeF() > 0 else 11.0
    font.setPointSizeF(max(_SMALLEST_PT, points * factor))
    if bold:
        font.setWeight(QFont.Weight.DemiBold)
    widget.setFont(font)
