"""The whole window: it fits a small screen, everything has a name, nothing scrolls sideways."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QAbstractScrollArea,
    QApplication,
    QDockWidget,
    QLabel,
    QTabBar,
    QToolBar,
    QWidget,
)

from gui.whole_window import fill, stations

if TYPE_CHECKING:
    from wickbench.gui.main_window import MainWindow

SMALL = (1024, 768)


@pytest.fixture
def full(window: MainWindow) -> MainWindow:
    assert window.workspace is not None
    fill(window.workspace)
    return window


def nameless(window: MainWindow) -> set[str]:
    found = set()
    for widget in window.findChildren(QWidget):
        internal = isinstance(widget, QTabBar) or widget.objectName().startswith("qt_")
        takes_focus = bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus)
        if internal or not takes_focus or not widget.isVisible() or widget.focusProxy():
            continue
        spoken = QAccessible.queryAccessibleInterface(widget)
        if spoken is None or not spoken.text(QAccessible.Text.Name):
            found.add(f"{type(widget).__name__} {widget.objectName()} in {widget.parent()}")
    return found


def sideways(window: MainWindow) -> set[str]:
    return {
        f"{type(area).__name__} {area.objectName()} by {area.horizontalScrollBar().maximum()} px"
        for area in window.findChildren(QAbstractScrollArea)
        if area.isVisible() and area.horizontalScrollBar().maximum() > 0
    }


def cut_off(window: MainWindow) -> set[str]:
    """Labels of one line that are narrower than their text."""
    return {
        f"{label.text()!r} {label.width()} of {label.sizeHint().width()} px"
        for label in window.findChildren(QLabel)
        if label.isVisible()
        and not label.wordWrap()
        and label.text()
        and label.width() < label.sizeHint().width()
    }


def test_every_widget_that_takes_the_focus_has_an_accessible_name(full: MainWindow) -> None:
    found = nameless(full)
    for _ in stations(full):
        found |= nameless(full)
    assert not found


def test_nothing_scrolls_sideways_on_a_small_screen_at_11_pt(full: MainWindow) -> None:
    assert QApplication.font().pointSizeF() == 11
    full.resize(*SMALL)
    QApplication.processEvents()
    troubles: dict[str, set[str]] = {}
    for station in stations(full):
        found = sideways(full) | cut_off(full)
        if (full.width(), full.height()) != SMALL:
            found.add(f"the window grew to {full.width()} × {full.height()}")
        if found:
            troubles[station] = found
    assert not troubles


def test_object_names_are_the_attributes_that_hold_them(full: MainWindow) -> None:
    for _ in stations(full):
        pass
    attributes: dict[QWidget, set[str]] = {}
    for owner in (full, *full.findChildren(QWidget)):
        for attribute, held in getattr(owner, "__dict__", {}).items():
            if isinstance(held, QWidget):
                attributes.setdefault(held, set()).add(attribute.lstrip("_"))
    assert len(attributes) > 20
    wrong = {
        f"{sorted(names)} is named {widget.objectName()}"
        for widget, names in attributes.items()
        if widget.objectName() and not widget.objectName().endswith(tuple(names))
    }
    assert not wrong


def test_docks_and_bars_have_unique_names_for_the_layout(full: MainWindow) -> None:
    kept = [*full.findChildren(QDockWidget), *full.findChildren(QToolBar)]
    names = Counter(one.objectName() for one in kept)
    assert "" not in names
    assert names.most_common(1)[0][1] == 1


def test_a_layout_that_was_kept_leaves_no_second_row_of_tabs(window: MainWindow) -> None:
    assert window.workspace is not None
    path = window.workspace.path
    window.close_workshop()
    QApplication.processEvents()
    assert window.open_workshop(path)
    for _ in range(5):
        QApplication.processEvents()
    bars = window.findChildren(QTabBar, options=Qt.FindChildOption.FindDirectChildrenOnly)
    inside = [bar for bar in bars if bar.isVisible() and window.rect().contains(bar.geometry())]
    assert [bar.count() for bar in inside] == [3]


def test_labels_take_text_as_it_is(full: MainWindow) -> None:
    for _ in stations(full):
        pass
    rich = {
        label.text() for label in full.findChildren(QLabel)
        if label.textFormat() != Qt.TextFormat.PlainText and label.text()
        and not label.objectName().startswith("qt_")
    }  # fmt: skip
    assert not rich
