"""A line for one value at the bench: understood while it is typed, taken with Enter."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget
from typing_extensions import override

from wickbench.app import edit
from wickbench.domain.errors import Ambiguous, DomainError
from wickbench.gui.fields.form import without_first
from wickbench.gui.fields.line_field import EchoLine
from wickbench.gui.naming import accessible
from wickbench.gui.page import label

if TYPE_CHECKING:
    from PySide6.QtGui import QFocusEvent, QKeyEvent

    from wickbench.app.fields import FieldSpec
    from wickbench.app.workspace import Workspace


class ValueLine(EchoLine):
    """A value of a field's kind.

    Signals:
        entered: Enter was pressed.
        left: it was typed in, and left.
    """

    entered = Signal()
    left = Signal()

    def __init__(self, workspace: Workspace, spec: FieldSpec) -> None:
        super().__init__()
        self.workspace = workspace
        self.spec = spec
        accessible(self, workspace.texts(spec.label))
        self.textEdited.connect(self._understood)

    def value(self) -> float | None:
        """What stands here; ``None`` for nothing.

        Raises:
            DomainError: it cannot be read, or makes no sense here.
        """
        read = edit.read_field(self.workspace, self.spec, self.text())
        return float(read) if isinstance(read, (int, float)) else None

    def show_value(self, value: float | None) -> None:
        """Show a stored value, unless somebody types here."""
        if self.hasFocus() and self.isModified():
            return
        shown = edit.shown(self.workspace, self.spec, value)
        if shown != self.text():
            self.setText(shown)
        self.setModified(False)
        self._understood(shown)

    def show_assumed(self, value: float) -> None:
        """Say what is taken while nothing stands here."""
        self.setPlaceholderText(edit.plain(self.workspace, self.spec, value))

    def _understood(self, typed: str) -> None:
        try:
            echo = edit.understood(self.workspace, self.spec, typed)
        except DomainError:
            echo = ""
        self.set_echo(without_first(echo, typed))

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.entered.emit()
        else:
            super().keyPressEvent(event)

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if self.isModified():
            self.left.emit()


def labelled(line: ValueLine) -> QWidget:
    """The line with its name above."""
    holder = QWidget()
    box = QVBoxLayout(holder)
    box.setContentsMargins(0, 0, 0, 0)
    box.setSpacing(2)
    box.addWidget(label(line.workspace.texts(line.spec.label), "quiet", wrap=False))
    box.addWidget(line)
    return holder


def sentence_of(workspace: Workspace, error: DomainError) -> str:
    """The sentence of an error; what it may have meant stands behind it."""
    sentence = workspace.texts.say(error)
    if isinstance(error, Ambiguous):
        return f"{sentence} {' / '.join(text for text, _ in error.readings)}"
    return sentence
