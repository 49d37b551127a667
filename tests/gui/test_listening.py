"""What goes wrong while a page is first shown is told; the window lives on."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from wickbench.gui.listening import Listener

if TYPE_CHECKING:
    import pytest
    from pytestqt.qtbot import QtBot

    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.workspace import Workspace


def test_trouble_in_the_first_refresh_is_told_and_the_page_still_shown(
    workspace: Workspace, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[tuple[type[BaseException], BaseException]] = []
    monkeypatch.setattr(sys, "excepthook", lambda kind, error, _: told.append((kind, error)))
    page = QWidget()
    qtbot.addWidget(page)
    trouble = ValueError("no such candle")
    asked: list[Changes | None] = []

    def refresh(changes: Changes | None) -> None:
        asked.append(changes)
        raise trouble

    Listener(workspace, page, frozenset(), refresh)
    page.show()
    assert told == [(ValueError, trouble)]
    assert page.isVisible()
    page.hide()
    page.show()
    assert asked == [None]
