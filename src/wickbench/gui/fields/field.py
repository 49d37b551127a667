"""What every field of a form can do."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from wickbench.gui.fields.trouble_line import TroubleLine
from wickbench.gui.naming import accessible
from wickbench.gui.style_sheet import set_look


class Field(QWidget):
    """A widget to type or choose in, with room for a sentence under it.

    Text goes in and out in the form that ``app.edit`` reads: digits and units for quantities,
    the stored word for a choice, ``"1"``/``"0"`` for yes and no, the record's number for a
    reference, and an empty text for *not filled in*.

    Signals:
        edited: the text as it is while the person types.
        committed: the text when the person is done with the field.
        restored: the person gave the typing up.
    """

    edited = Signal(str)
    committed = Signal(str)
    restored = Signal()

    def __init__(self, editor: QWidget, accessible_name: str) -> None:
        super().__init__()
        self.editor = accessible(editor, accessible_name)
        self.trouble = TroubleLine()
        self.trouble.reading_chosen.connect(self._take_reading)
        self._stored = ""
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(2)
        box.addWidget(editor)
        box.addWidget(self.trouble)
        self.setFocusProxy(editor)

    def text(self) -> str:
        """What stands in the field now."""
        raise NotImplementedError

    def _put(self, text: str) -> None:
        raise NotImplementedError

    @property
    def stored(self) -> str:
        """The text of the value that is stored."""
        return self._stored

    @property
    def under_edit(self) -> bool:
        """Whether the person has typed something here that is not stored yet."""
        return self.text() != self._stored and self.editor.hasFocus()

    def show_stored(self, text: str) -> None:
        """Show a stored value, unless the person is typing here."""
        editing = self.under_edit
        self._stored = text
        if not editing:
            self.clear_trouble()
            self._put(text)

    def show_draft(self, text: str, sentence: str, readings: tuple[str, ...] = ()) -> None:
        """Show text that could not be read, with the sentence that says why."""
        self._put(text)
        self.show_trouble(sentence, readings)

    def show_trouble(self, sentence: str, readings: tuple[str, ...] = ()) -> None:
        """Say under the field what to do, with an icon; the text in the field stays."""
        set_look(self.editor, "stops")
        self.editor.setAccessibleDescription(sentence)
        self.trouble.say(sentence, readings)

    def clear_trouble(self) -> None:
        """The field is fine."""
        set_look(self.editor, "")
        self.editor.setAccessibleDescription("")
        self.trouble.clear()

    def show_assumed(self, text: str) -> None:
        """Say in an empty field what is taken instead; fields without such a place ignore it."""

    def say(self, echo: str) -> None:
        """Show beside the typing what was understood; only fields for text do."""

    def restore(self) -> bool:
        """Put the stored text back; says whether anything was given up."""
        if self.text() == self._stored and not self.trouble.sentence:
            return False
        self._put(self._stored)
        self.clear_trouble()
        self.restored.emit()
        return True

    def _take_reading(self, text: str) -> None:
        self._put(text)
        self.committed.emit(text)
