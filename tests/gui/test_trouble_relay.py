from __future__ import annotations

import threading
from typing import TYPE_CHECKING

from wickbench.app.questions import Silent
from wickbench.gui.trouble_relay import TroubleRelay

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot


class Noting(Silent):
    """Notes in which thread it was told, and what happens while a message is open."""

    def __init__(self) -> None:
        super().__init__()
        self.threads: list[threading.Thread] = []
        self.while_open = lambda: None

    def tell(self, sentence: str) -> None:
        super().tell(sentence)
        self.threads.append(threading.current_thread())
        self.while_open()


def test_a_thread_is_heard_in_the_windows_thread(qtbot: QtBot) -> None:
    ask = Noting()
    relay = TroubleRelay(ask)
    worker = threading.Thread(target=relay.tell, args=("Something happened.",))
    worker.start()
    worker.join()
    qtbot.waitUntil(lambda: bool(ask.told))
    assert ask.told == ["Something happened."]
    assert ask.threads == [threading.current_thread()]


def test_troubles_that_arrive_while_one_is_shown_open_no_second_message(qtbot: QtBot) -> None:
    from PySide6.QtCore import QCoreApplication

    ask = Noting()
    relay = TroubleRelay(ask)

    def repaint_fails_again() -> None:
        relay.tell("again")
        QCoreApplication.processEvents()

    ask.while_open = repaint_fails_again
    relay.tell("first")
    qtbot.waitUntil(lambda: bool(ask.told))
    assert ask.told == ["first"]
    ask.while_open = lambda: None
    relay.tell("later")
    qtbot.waitUntil(lambda: len(ask.told) > 1)
    assert ask.told == ["first", "later"]
