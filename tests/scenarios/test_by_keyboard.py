"""Pages are reached and begun without a mouse, and what has the focus can be seen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QScrollArea, QWidget

if TYPE_CHECKING:
    from scenarios.hands import Hands

PAGES = ("pour_plan", "labels", "candles", "equipment", "business", "settings")


def in_view(widget: QWidget, area: QScrollArea) -> bool:
    """Whether the middle of a widget lies in what is shown of its page."""
    view = area.viewport()
    return view.rect().contains(widget.mapTo(view, widget.rect().center()))


def test_tab_goes_on_in_the_page_that_was_gone_to(hands: Hands) -> None:
    dock = hands.dock("materials")
    hands.new(dock, "Wax")
    hands.activate()
    for key in PAGES:
        hands.dock("materials")
        dock.material_editor.names.focus("name")
        page = hands.page(key)
        QTest.keyClick(hands.window, Qt.Key.Key_Tab)
        focused = QApplication.focusWidget()
        assert focused is not None, key
        assert page.isAncestorOf(focused), key


def test_the_name_of_a_new_candle_can_be_seen_while_it_is_typed(hands: Hands) -> None:
    page = hands.page("candles")
    hands.activate()
    hands.press(page.make_first)
    for _ in range(11):  # a long list stands above the form on a small screen
        page.verticalScrollBar().setValue(0)
        hands.press(page.new)
    QTest.qWait(1)  # the page takes its new height first
    name = page.editor.first.fields["name"].editor
    assert name.hasFocus()
    assert in_view(name, page)
    QTest.keyClicks(name, "Fig")
    assert in_view(name, page)
