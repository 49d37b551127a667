"""A small form for one entry that is stored as a whole, or not at all."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFormLayout, QFrame, QHBoxLayout, QVBoxLayout
from typing_extensions import override

from wickbench.app import edit
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.form import readings_of, without_first
from wickbench.gui.fields.line_field import LineField
from wickbench.gui.fields.made_field import made_field
from wickbench.gui.fields.trouble_line import TroubleLine
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from PySide6.QtGui import QKeyEvent, QResizeEvent

    from wickbench.app.fields import FieldSpec
    from wickbench.app.workspace import Workspace
    from wickbench.gui.fields.field import Field

_NARROW_CHARACTERS: Final = 64


class EntryForm(QFrame):
    """Fields, a sentence, and two buttons; nothing is stored before *Enter it*.

    Signals:
        accepted: the values by field name, all readable.
        given_up: the person wants to enter nothing.
        edited: something was typed.
    """

    accepted = Signal(dict)
    given_up = Signal()
    edited = Signal()

    def __init__(
        self, workspace: Workspace, title: str, specs: Sequence[FieldSpec], accept_text: str
    ) -> None:
        """Build the form.

        Args:
            workspace: the open workshop.
            title: translated heading.
            specs: its fields, top to bottom.
            accept_text: translated name of the button that stores.
        """
        super().__init__()
        self.workspace = workspace
        self.fields: dict[str, Field] = {}
        self._specs = {spec.name: spec for spec in specs}
        self.rows = QFormLayout()
        self.rows.setHorizontalSpacing(16)
        self.rows.setVerticalSpacing(8)
        self.rows.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapAllRows)
        self.note = label("", "quiet")
        self.note.setVisible(False)
        self.trouble = TroubleLine()
        self.accept = button(accept_text, "primary")
        self.give_up = button(workspace.texts("Cancel"))
        self.accept.clicked.connect(self.submit)
        self.give_up.clicked.connect(self.given_up)
        for spec in specs:
            self._add(spec)
        self._lay_out(title)
        name_attributes(self)

    def _lay_out(self, title: str) -> None:
        set_look(self, "card")
        buttons = QHBoxLayout()
        buttons.setSpacing(8)
        buttons.addWidget(self.accept)
        buttons.addWidget(self.give_up)
        buttons.addStretch(1)
        box = QVBoxLayout(self)
        box.setContentsMargins(12, 10, 12, 12)
        box.setSpacing(8)
        box.addWidget(heading(title))
        box.addLayout(self.rows)
        box.addWidget(self.note)
        box.addWidget(self.trouble)
        box.addLayout(buttons)

    def _add(self, spec: FieldSpec) -> None:
        field = made_field(self.workspace, spec)
        field.setObjectName(spec.name)
        field.edited.connect(partial(self._typed, spec))
        field.committed.connect(partial(self._left, spec))
        if isinstance(field, LineField):
            field.line.returnPressed.connect(self.submit)
        name = label(self.workspace.texts(spec.label), "quiet", wrap=False)
        name.setBuddy(field.editor)
        name.setContentsMargins(0, 5, 0, 0)
        self.fields[spec.name] = field
        if spec.hint:
            self.rows.addRow(label(self.workspace.texts(spec.hint)))
        self.rows.addRow(name, field)

    def fill(self, values: Mapping[str, object]) -> None:
        """Show these values as a beginning; fields without one are empty."""
        self.say_trouble("")
        for name, spec in self._specs.items():
            stored = edit.shown(self.workspace, spec, values.get(name))
            field = self.fields[name]
            field.show_draft(stored, "")
            field.show_stored(stored)
            field.clear_trouble()
            self._echo(spec, stored)

    def values(self) -> dict[str, object] | None:
        """What is typed, or ``None`` after saying in each field what cannot be read."""
        found: dict[str, object] = {}
        first: Field | None = None
        for name, spec in self._specs.items():
            try:
                found[name] = edit.read_field(self.workspace, spec, self.fields[name].text())
            except DomainError as error:
                self._refuse(spec, error)
                first = first or self.fields[name]
        if first is not None:
            first.editor.setFocus()
            return None
        return found

    def readable(self, name: str) -> object:
        """The value of one field as typed; ``None`` while it is empty or cannot be read."""
        try:
            return edit.read_field(self.workspace, self._specs[name], self.fields[name].text())
        except DomainError:
            return None

    def submit(self) -> None:
        """Hand the values over when all can be read."""
        self.say_trouble("")
        values = self.values()
        if values is not None:
            self.accepted.emit(values)

    def say_trouble(self, sentence: str) -> None:
        """Say over the buttons why the entry as a whole cannot be stored; empty for nothing."""
        self.trouble.say(sentence) if sentence else self.trouble.clear()

    def say_note(self, sentence: str) -> None:
        """Say something worth knowing before storing; empty for nothing."""
        self.note.setText(sentence)
        self.note.setVisible(bool(sentence))

    def focus_first(self) -> None:
        """Put the cursor into the first field."""
        next(iter(self.fields.values())).editor.setFocus()

    def _typed(self, spec: FieldSpec, typed: str) -> None:
        self._echo(spec, typed)
        self.edited.emit()

    def _left(self, spec: FieldSpec, typed: str) -> None:
        try:
            edit.read_field(self.workspace, spec, typed)
        except DomainError as error:
            self._refuse(spec, error)
            return
        self.fields[spec.name].clear_trouble()
        self._echo(spec, typed)
        self.edited.emit()

    def _refuse(self, spec: FieldSpec, error: DomainError) -> None:
        sentence = self.workspace.texts.say(error)
        self.fields[spec.name].show_trouble(sentence, readings_of(error))

    def _echo(self, spec: FieldSpec, typed: str) -> None:
        try:
            echo = edit.understood(self.workspace, spec, typed)
        except DomainError:
            echo = ""
        self.fields[spec.name].say(without_first(echo, typed))

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.given_up.emit()
            return
        super().keyPressEvent(event)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        narrow = event.size().width() < self.fontMetrics().averageCharWidth() * _NARROW_CHARACTERS
        policy = QFormLayout.RowWrapPolicy
        self.rows.setRowWrapPolicy(policy.WrapAllRows if narrow else policy.DontWrapRows)
        super().resizeEvent(event)
