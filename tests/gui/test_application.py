"""What the toolkit itself says."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtWidgets import QApplication, QLineEdit

from wickbench.gui.application import speak

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot


@pytest.fixture(autouse=True)
def english_again(qapp: QApplication) -> Iterator[None]:
    assert qapp is not None
    yield
    speak("en")


def context_menu(qtbot: QtBot) -> str:
    field = QLineEdit("wax")
    qtbot.addWidget(field)
    menu = field.createStandardContextMenu()
    qtbot.addWidget(menu)
    return " ".join(action.text() for action in menu.actions())


def test_the_menu_of_a_field_speaks_the_persons_language(qtbot: QtBot) -> None:
    assert "Copy" in context_menu(qtbot)
    assert speak("de")
    assert "opieren" in context_menu(qtbot)
    speak("en")
    assert "Copy" in context_menu(qtbot)


def test_a_language_the_toolkit_does_not_know_changes_nothing(qtbot: QtBot) -> None:
    assert not speak("xx")
    assert "Copy" in context_menu(qtbot)
