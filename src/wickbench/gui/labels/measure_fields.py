"""Fields of measures in a small dialog: read while typed, told when they cannot be read."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from wickbench.app.edit import read_field, understood
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.form import readings_of, without_first
from wickbench.gui.fields.line_field import QuantityField

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.fields import FieldSpec
    from wickbench.app.workspace import Workspace


class MeasureFields(QObject):
    """Some fields by their names; nothing is stored.

    Signals:
        typed: something was typed.
    """

    typed = Signal()

    def __init__(self, workspace: Workspace, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._workspace = workspace
        self._specs: dict[str, FieldSpec] = {}
        self.fields: dict[str, QuantityField] = {}

    def add(self, name: str, spec: FieldSpec, accessible_name: str) -> QuantityField:
        """A new field under a name of its own."""
        made = QuantityField(accessible_name)
        made.setObjectName(name)
        self._specs[name], self.fields[name] = spec, made
        made.edited.connect(partial(self._typed, name))
        made.committed.connect(partial(self._left, name))
        return made

    def show_values(self, values: Mapping[str, float | None]) -> None:
        """Show values in their fields."""
        units = self._workspace.texts.units
        for name, value in values.items():
            text = "" if value is None else units.full(value, self._specs[name].kind)
            self.fields[name].show_draft(text, "")
            self.fields[name].show_stored(text)

    def values(self) -> dict[str, float | None]:
        """What is typed; ``None`` for what is empty or cannot be read."""
        return {name: self._read(name) for name in self.fields}

    def first_trouble(self) -> QuantityField | None:
        """The first field that cannot be read, after saying so in each."""
        for name in self.fields:
            self._left(name)
        return next((one for one in self.fields.values() if one.trouble.sentence), None)

    def _read(self, name: str) -> float | None:
        try:
            value = read_field(self._workspace, self._specs[name], self.fields[name].text())
        except DomainError:
            return None
        return float(value) if isinstance(value, int | float) else None

    def _typed(self, name: str, *_: object) -> None:
        made = self.fields[name]
        try:
            echo = understood(self._workspace, self._specs[name], made.text())
        except DomainError:
            echo = ""
        made.say(without_first(echo, made.text()))
        self.typed.emit()

    def _left(self, name: str, *_: object) -> None:
        made = self.fields[name]
        try:
            read_field(self._workspace, self._specs[name], made.text())
        except DomainError as error:
            made.show_trouble(self._workspace.texts.say(error), readings_of(error))
            return
        made.clear_trouble()
