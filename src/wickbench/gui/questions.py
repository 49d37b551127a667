"""The window's answer to ``app.questions.Ask``: message boxes and file dialogs, in plain text."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QFileDialog, QMessageBox

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget

    from wickbench.app.texts import Texts


class AskInWindow:
    """Questions and messages over the window that is in use."""

    def __init__(self, texts: Callable[[], Texts]) -> None:
        self._texts = texts
        self._folder = Path.home()

    def tell(self, sentence: str) -> None:
        """Say something that needs no answer."""
        texts = self._texts()
        box = self._box(sentence)
        box.addButton(texts("Close"), QMessageBox.ButtonRole.AcceptRole)
        box.exec()

    def confirm(self, question: str, action: str) -> bool:
        """Ask before what cannot be undone; Escape and Enter both keep things as they are."""
        texts = self._texts()
        box = self._box(question)
        act = box.addButton(action, QMessageBox.ButtonRole.DestructiveRole)
        keep = box.addButton(texts("Keep as it is"), QMessageBox.ButtonRole.RejectRole)
        box.setDefaultButton(keep)
        box.setEscapeButton(keep)
        box.exec()
        return box.clickedButton() is act

    def open_path(self, title: str, kinds: str) -> Path | None:
        """A file to read, or ``None``."""
        chosen, _ = QFileDialog.getOpenFileName(_parent(), title, str(self._folder), kinds)
        return self._remember(chosen)

    def save_path(self, title: str, suggested: str, kinds: str) -> Path | None:
        """A file to write, or ``None``."""
        start = str(self._folder / suggested)
        chosen, _ = QFileDialog.getSaveFileName(_parent(), title, start, kinds)
        return self._remember(chosen)

    def folder(self, title: str) -> Path | None:
        """A folder, or ``None``."""
        chosen = QFileDialog.getExistingDirectory(_parent(), title, str(self._folder))
        return Path(chosen) if chosen else None

    def _remember(self, chosen: str) -> Path | None:
        if not chosen:
            return None
        self._folder = Path(chosen).parent
        return Path(chosen)

    @staticmethod
    def _box(sentence: str) -> QMessageBox:
        box = QMessageBox(_parent())
        box.setWindowTitle(QApplication.applicationDisplayName())
        box.setTextFormat(Qt.TextFormat.PlainText)
        box.setText(sentence)
        return box


def _parent() -> QWidget | None:
    return QApplication.activeWindow()
