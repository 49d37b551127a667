"""The colours of the window, light and dark, and how they reach Qt.

Green, amber and red stand for states only, always beside an icon and a word; the one accent is
for what can be pressed and what is chosen.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QGuiApplication, QPalette

from wickbench.gui.style_sheet import style_sheet

if TYPE_CHECKING:
    from PySide6.QtWidgets import QApplication, QWidget

GRID: Final = 8
"""The grid of the window in logical pixels."""

_DARK_BELOW: Final = 0.5


@dataclass(frozen=True, slots=True)
class Colours:
    """The colours of one theme as ``#rrggbb``.

    Attributes:
        paper: ground of pages.
        bar: ground of menu, stages and status bar.
        sheet: ground of fields, tables and cards.
        stripe: every second row of a table.
        chosen: ground of a selected row.
        line: thin borders.
        ink: text.
        quiet: text of second rank.
        accent: what is pressed, chosen or drawn as the fill line.
        on_accent: text on the accent.
        wash: the accent thinned, for wax in drawings.
        fine: a state that is well.
        watch: a state to watch.
        stops: a state that stops you.
    """

    paper: str
    bar: str
    sheet: str
    stripe: str
    chosen: str
    line: str
    ink: str
    quiet: str
    accent: str
    on_accent: str
    accent_hover: str
    hover: str
    wash: str
    fine: str
    watch: str
    stops: str


LIGHT: Final = Colours(
    paper="#FBF8F3", bar="#F3EEE6", sheet="#FFFFFF", stripe="#FCFAF6", chosen="#F8EBDB",
    line="#DED3C4", ink="#2B2622", quiet="#6B6058", accent="#A8540F", on_accent="#FFFFFF",
    accent_hover="#8F460A", hover="#F7F1E8", wash="#F6E6D6", fine="#2F6B34", watch="#7A5A00",
    stops="#A3241C",
)  # fmt: skip

DARK: Final = Colours(
    paper="#1F1B18", bar="#282421", sheet="#2C2825", stripe="#312C29", chosen="#4A3420",
    line="#4A443E", ink="#F0EAE2", quiet="#B3A89C", accent="#E9A25B", on_accent="#1F1B18",
    accent_hover="#F2B97E", hover="#38322D", wash="#4A3420", fine="#93C78F", watch="#E5C25A",
    stops="#F2958C",
)  # fmt: skip

THEMES: Final = ("light", "dark", "system")


def chosen_colours(theme: str) -> Colours:
    """The colours of a theme; ``system`` follows the desktop.

    Args:
        theme: one of `THEMES`.
    """
    if theme == "system":
        scheme = QGuiApplication.styleHints().colorScheme()
        return DARK if scheme == Qt.ColorScheme.Dark else LIGHT
    return DARK if theme == "dark" else LIGHT


def colours_of(widget: QWidget) -> Colours:
    """The colours that a widget stands in, for what it paints itself."""
    return DARK if widget.palette().window().color().lightnessF() < _DARK_BELOW else LIGHT


def apply_theme(application: QApplication, theme: str) -> Colours:
    """Give the whole application a theme.

    Args:
        application: the running application.
        theme: one of `THEMES`.

    Returns:
        the colours now in use.
    """
    colours = chosen_colours(theme)
    palette, sheet = qt_palette(colours), style_sheet(colours)
    # Dressing every widget there is takes a quarter of a second and more: not for nothing.
    if application.styleSheet() != sheet or application.palette() != palette:
        application.setStyle("Fusion")
        application.setPalette(palette)
        application.setStyleSheet(sheet)
    return colours


def qt_palette(colours: Colours) -> QPalette:
    """The palette that Fusion draws with."""
    palette = QPalette()
    role = QPalette.ColorRole
    pairs = (
        (role.Window, colours.paper), (role.WindowText, colours.ink),
        (role.Base, colours.sheet), (role.AlternateBase, colours.stripe),
        (role.Text, colours.ink), (role.PlaceholderText, colours.quiet),
        (role.Button, colours.sheet), (role.ButtonText, colours.ink),
        (role.BrightText, colours.stops), (role.Highlight, colours.chosen),
        (role.HighlightedText, colours.ink), (role.Link, colours.accent),
        (role.LinkVisited, colours.accent), (role.ToolTipBase, colours.sheet),
        (role.ToolTipText, colours.ink), (role.Mid, colours.line), (role.Midlight, colours.bar),
        (role.Light, colours.sheet), (role.Dark, colours.line), (role.Shadow, colours.line),
        (role.Accent, colours.accent),
    )  # fmt: skip
    for name, value in pairs:
        palette.setColor(name, QColor(value))
    for name in (role.Text, role.ButtonText, role.WindowText):
        palette.setColor(QPalette.ColorGroup.Disabled, name, QColor(colours.quiet))
    return palette
