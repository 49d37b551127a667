"""The one style sheet: thin warm borders, 4 px corners, nothing that shouts.

A widget asks for a look with the dynamic property ``look``: ``title``, ``heading``, ``quiet``,
``figure``, ``primary`` (the one button of a page), ``flat``, ``card``, ``stops``, ``watch``,
``note``, ``fine``, ``trouble`` (a sentence under a field), ``large`` (a box to tick at the bench).
"""

from __future__ import annotations

from dataclasses import asdict
from string import Template
from typing import TYPE_CHECKING, Any, Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont

from wickbench.app.resources import resource_path

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

_BARS: Final = """
QMainWindow, QDialog { background: $paper; }
QMainWindow::separator { background: $paper; width: 6px; height: 6px; }
QMainWindow::separator:hover { background: $chosen; }
QMenuBar { background: $bar; color: $ink; padding: 2px 8px; }
QMenuBar::item { padding: 4px 10px; border-radius: 4px; background: transparent; }
QMenuBar::item:selected { background: $chosen; }
QMenu { background: $sheet; color: $ink; border: 1px solid $line; padding: 4px; }
QMenu::item { padding: 5px 28px 5px 12px; border-radius: 4px; }
QMenu::item:selected { background: $chosen; }
QMenu::item:disabled { color: $quiet; }
QMenu::separator { height: 1px; background: $line; margin: 4px 8px; }
QMenu::icon { padding-left: 8px; }
QToolBar { background: $bar; border: none; border-bottom: 1px solid $line; padding: 4px 8px 0 8px;
  spacing: 2px; }
QToolBar QToolButton { background: transparent; color: $quiet; border: none;
  border-bottom: 2px solid transparent; padding: 7px 10px 6px 10px; }
QToolBar QToolButton:hover { color: $ink; background: $hover; }
QToolBar QToolButton:checked { color: $accent; border-bottom: 2px solid $accent; font-weight: 600; }
QToolBar QToolButton:focus { border: 1px dotted $accent; border-bottom: 2px solid $accent; }
QToolBar QToolButton[look="find"] { background: $sheet; color: $quiet; border: 1px solid $line;
  border-radius: 4px; padding: 4px 10px; margin-bottom: 4px; }
QToolBar QToolButton[look="find"]:hover { border-color: $quiet; }
QToolBar QToolButton[look="find"]:focus { border: 1px solid $accent; }
QStatusBar { background: $bar; color: $quiet; border-top: 1px solid $line; }
QStatusBar::item { border: none; }
QStatusBar QLabel { color: $quiet; padding: 2px 6px; }
QDockWidget { color: $ink; font-weight: 600; }
QDockWidget::title { background: $bar; padding: 6px 8px; }
QTabBar { background: $bar; qproperty-drawBase: 0; }
QTabBar::tab { background: transparent; color: $quiet; padding: 7px 10px 6px 10px;
  border: none; border-bottom: 2px solid transparent; }
QTabBar::tab:hover { color: $ink; background: $hover; }
QTabBar::tab:selected { color: $ink; border-bottom: 2px solid $accent; }
QTabBar::tab:focus { color: $accent; }
QTabWidget::pane { border: none; border-top: 1px solid $line; }
"""

_FIELDS: Final = """
QLineEdit, QPlainTextEdit, QComboBox, QDateEdit { background: $sheet; color: $ink;
  border: 1px solid $line; border-radius: 4px; padding: 4px 7px;
  selection-background-color: $chosen; selection-color: $ink; }
QLineEdit:hover, QPlainTextEdit:hover, QComboBox:hover { border-color: $quiet; }
QLineEdit:focus, QPlainTextEdit:focus, QComboBox:focus { border: 1px solid $accent; }
QLineEdit:disabled, QPlainTextEdit:disabled, QComboBox:disabled { color: $quiet;
  background: $paper; }
QLineEdit:read-only { background: $paper; }
QLineEdit[look="stops"], QComboBox[look="stops"], QPlainTextEdit[look="stops"] {
  border: 1px solid $stops; }
QComboBox { padding-right: 22px; }
QComboBox::drop-down { border: none; width: 22px; subcontrol-origin: padding;
  subcontrol-position: center right; }
QComboBox::down-arrow { image: url("$arrow"); width: 12px; height: 12px; }
QComboBox QLineEdit { border: none; padding: 0; background: transparent; }
QCheckBox { spacing: 8px; }
QCheckBox::indicator { width: 15px; height: 15px; border: 1px solid $quiet; border-radius: 3px;
  background: $sheet; }
QCheckBox[look="large"]::indicator { width: 21px; height: 21px; border-radius: 4px; }
QCheckBox::indicator:hover { border-color: $accent; }
QCheckBox::indicator:focus { border: 2px solid $accent; }
QCheckBox::indicator:checked { background: $accent; border-color: $accent; image: url("$tick"); }
QCheckBox::indicator:disabled { border-color: $line; }
QCheckBox::indicator:checked:disabled { background: $quiet; border-color: $quiet; }
QComboBox QAbstractItemView { background: $sheet; color: $ink; border: 1px solid $line;
  selection-background-color: $chosen; selection-color: $ink; outline: none; padding: 2px; }
QCheckBox, QRadioButton { color: $ink; spacing: 8px; padding: 2px; border: 1px solid transparent;
  border-radius: 4px; }
QCheckBox:focus, QRadioButton:focus { border: 1px dotted $accent; }
QPushButton { background: $sheet; color: $ink; border: 1px solid $line; border-radius: 4px;
  padding: 5px 12px; }
QPushButton:hover { background: $hover; border-color: $quiet; }
QPushButton:pressed { background: $chosen; }
QPushButton:focus { border: 1px solid $accent; }
QPushButton:disabled { color: $quiet; background: $paper; }
QPushButton:checked { background: $chosen; border-color: $accent; }
QPushButton[look="primary"] { background: $accent; color: $on_accent; border: 1px solid $accent;
  font-weight: 600; padding: 5px 16px; }
QPushButton[look="primary"]:hover { background: $accent_hover; border-color: $accent_hover; }
QPushButton[look="primary"]:focus { border: 2px solid $ink; padding: 4px 15px; }
QPushButton[look="primary"]:disabled { background: $paper; color: $quiet; border-color: $line; }
QPushButton[look="flat"], QToolButton[look="flat"] { background: transparent; color: $accent;
  border: 1px solid transparent; border-radius: 4px; padding: 3px 6px; }
QToolButton[look="section"] { background: transparent; border: 1px solid transparent;
  font-weight: bold; padding: 2px 4px 2px 0; }
QToolButton[look="section"]:hover { background: $hover; }
QToolButton[look="section"]:focus { border: 1px solid $accent; }
QPushButton[look="flat"]:hover, QToolButton[look="flat"]:hover { background: $hover; }
QPushButton[look="flat"]:focus, QToolButton[look="flat"]:focus { border: 1px solid $accent; }
"""

_SHEETS: Final = """
QScrollArea, QScrollArea > QWidget > QWidget[look="ground"] { background: transparent;
  border: none; }
QTableView, QListView, QTreeView { background: $sheet; alternate-background-color: $stripe;
  color: $ink; border: 1px solid $line; border-radius: 4px; gridline-color: transparent;
  selection-background-color: $chosen; selection-color: $ink; outline: none; }
QTableView:focus, QListView:focus { border: 1px solid $accent; }
QTableView::item { padding: 3px 6px; border: none; }
QTableView::item:selected, QListView::item:selected { background: $chosen; color: $ink; }
QTableView::item:focus { border: 1px solid $accent; }
QListView::item { padding: 4px 8px; }
QTableView QLineEdit, QTableView QComboBox { border-radius: 0; padding: 1px 6px; }
QHeaderView { background: $sheet; border: none; }
QHeaderView::section { background: $sheet; color: $quiet; border: none;
  border-bottom: 1px solid $line; padding: 5px 9px; font-weight: 600; }
QTableCornerButton::section { background: $sheet; border: none; }
QFrame[look="card"] { background: $sheet; border: 1px solid $line; border-radius: 6px; }
QLabel { color: $ink; background: transparent; }
QLabel[look="quiet"] { color: $quiet; }
QLabel[look="heading"] { font-weight: 600; }
QLabel[look="stops"] { color: $stops; font-weight: 600; }
QLabel[look="trouble"] { color: $stops; }
QLabel[look="watch"] { color: $watch; font-weight: 600; }
QLabel[look="note"] { color: $quiet; }
QLabel[look="fine"] { color: $fine; }
QToolTip { background: $sheet; color: $ink; border: 1px solid $line; padding: 4px; }
QScrollBar { background: transparent; border: none; margin: 0; }
QScrollBar:vertical { width: 12px; }
QScrollBar:horizontal { height: 12px; }
QScrollBar::handle { background: $line; border-radius: 4px; margin: 2px; }
QScrollBar::handle:vertical { min-height: 32px; }
QScrollBar::handle:horizontal { min-width: 32px; }
QScrollBar::handle:hover { background: $quiet; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QProgressBar { background: $sheet; color: $ink; border: 1px solid $line; border-radius: 4px;
  text-align: center; }
QProgressBar::chunk { background: $accent; border-radius: 3px; }
QSplitter::handle { background: transparent; }
"""


def style_sheet(colours: Any) -> str:  # noqa: ANN401 - Colours lives in theme, which imports this
    """The style sheet of a theme.

    Args:
        colours: a ``theme.Colours``.
    """
    arrow = resource_path("icons", "arrow-down.svg").as_posix()
    dark_ink = colours.on_accent != "#FFFFFF"
    tick = resource_path("marks", f"tick-{'dark' if dark_ink else 'light'}.svg").as_posix()
    template = Template(_BARS + _FIELDS + _SHEETS)
    return template.substitute(asdict(colours), arrow=arrow, tick=tick)


def set_look(widget: QWidget, look: str) -> None:
    """Give a widget one of the looks named above, also after it was shown; its font stays."""
    if widget.property("look") == look:
        return
    widget.setProperty("look", look)
    if widget.testAttribute(Qt.WidgetAttribute.WA_WState_Polished):
        font = QFont(widget.font())
        own = widget.testAttribute(Qt.WidgetAttribute.WA_SetFont)
        widget.style().unpolish(widget)
        widget.style().polish(widget)
        if own:
            widget.setFont(font)
