"""In the pseudo-language every sentence stands in ⟦ ⟧: none bypasses the catalogs."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QAbstractTableModel, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QComboBox,
    QGroupBox,
    QLabel,
    QLineEdit,
    QMenu,
    QPlainTextEdit,
    QTabBar,
    QTableView,
    QWidget,
)

from gui.whole_window import fill, stations
from wickbench.app.languages import OWN_NAMES
from wickbench.app.texts import PSEUDO
from wickbench.app.units import Units

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.gui.main_window import MainWindow

TRANSLATED = re.compile(r"⟦[^⟦⟧]*⟧")
OURS = re.compile(r"«[^»]*»|\S*/workshop\.wickbench")
FILE = "workshop"  # the file's name, as the person would have chosen it
UNITS = {
    "g", "kg", "mg", "oz", "lb", "fl", "mL", "L", "mm", "cm", "in", "°C", "°F", "pt", "dpi", "hPa",
    "m", "W",
}  # fmt: skip
KEYS = re.compile(r"\b(Ctrl|Shift|Alt|Del|Esc|F\d+|Return)\b(\+\w+)*")
PAPERS = {"A4", "Letter", "PDF", "Lot", "Batch"}
NAMES_OF_LANGUAGES = set(OWN_NAMES.values())  # each is found by who reads nothing else
LETTERS = re.compile(r"[^\W\d_]{2,}")


@pytest.fixture
def language() -> str:
    return PSEUDO


def bare_words(text: str) -> list[str]:
    """Words that neither went through the catalogs nor are units, keys or the person's own."""
    rest = OURS.sub(" ", KEYS.sub(" ", text))
    while TRANSLATED.search(rest):
        rest = TRANSLATED.sub(" ", rest)
    words = [word for word in LETTERS.findall(rest) if word != FILE]
    return [word for word in words if word not in UNITS | PAPERS | NAMES_OF_LANGUAGES]


def texts_of(widget: QWidget) -> Iterator[str]:
    yield widget.toolTip()
    yield widget.statusTip()
    yield widget.whatsThis()
    yield widget.accessibleName()
    yield widget.accessibleDescription()
    if isinstance(widget, (QLabel, QAbstractButton)):
        yield widget.text()
    if isinstance(widget, (QLineEdit, QPlainTextEdit)):
        yield widget.placeholderText()
    if isinstance(widget, (QGroupBox, QMenu)):
        yield widget.title()
    if isinstance(widget, QComboBox):
        yield from (widget.itemText(at) for at in range(widget.count()))
    if isinstance(widget, QTabBar):
        yield from (widget.tabText(at) for at in range(widget.count()))
    if isinstance(widget, QAbstractItemView):
        yield from cell_texts(widget)


def cell_texts(view: QAbstractItemView) -> Iterator[str]:
    model = view.model()
    if model is None or isinstance(view.parent(), QComboBox):
        return
    columns = model.columnCount() if isinstance(model, QAbstractTableModel) else 1
    for column in range(columns):
        if isinstance(view, QTableView):
            for role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
                yield str(model.headerData(column, Qt.Orientation.Horizontal, role) or "")
        for row in range(min(model.rowCount(), 30)):
            index = model.index(row, column)
            for role in (
                Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole,
                Qt.ItemDataRole.AccessibleTextRole,
            ):  # fmt: skip
                yield str(index.data(role) or "")


def bare_in(window: MainWindow) -> set[str]:
    """Where bare words stand in everything the window holds, seen or not."""
    found: set[str] = set()
    for widget in window.findChildren(QWidget):
        qts_own = isinstance(
            widget.parent(), (QComboBox, QTabBar)
        ) or widget.objectName().startswith("qt_")
        for text in () if qts_own else texts_of(widget):
            if bare_words(text):
                found.add(f"{type(widget).__name__} {widget.objectName()}: {text}")
    for action in window.findChildren(QAction):
        for text in (action.text(), action.toolTip()):
            if bare_words(text.replace("&", "")):
                found.add(f"QAction {action.objectName()}: {text}")
    return found


def test_the_walk_tells_bare_words_from_translated_ones() -> None:
    assert bare_words("Weigh the jar") == ["Weigh", "the", "jar"]
    assert bare_words("⟦Weigh ⟦a⟧ jar⟧ 12.5 g «Weigh me» Ctrl+K") == []
    assert bare_words("⟦Brim⟧ of 5 mL") == ["of"]


def test_no_sentence_is_bare(window: MainWindow) -> None:
    workspace = window.workspace
    assert workspace is not None
    fill(workspace)
    bare = bare_in(window)
    visited = []
    for station in stations(window):
        visited.append(station)
        bare |= bare_in(window)
    assert not bare
    assert "find_anything" in visited


def test_units_are_known_to_the_walk() -> None:
    shown = Units().shown.values()
    parts = {part for pair in shown for unit in pair for part in unit.split()}
    assert parts <= UNITS
