"""A form whose values are stored by an operation instead of by a table's column."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from typing_extensions import override

from wickbench.app import edit
from wickbench.app.fields import choices
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.form import FieldForm, readings_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QWidget

    from wickbench.app.fields import FieldSpec
    from wickbench.app.workspace import Workspace

Store = Callable[[str, object], None]
"""Takes a field's name and its value; raises ``DomainError`` when it cannot be."""


class ValueForm(FieldForm):
    """As `FieldForm`; each value goes to ``store``."""

    def __init__(
        self,
        workspace: Workspace,
        specs: Sequence[FieldSpec],
        store: Store,
        parent: QWidget | None = None,
    ) -> None:
        self._store = store
        super().__init__(workspace, specs, parent)

    def offer(self, name: str, words: Sequence[str]) -> None:
        """Let a field of choices take these words."""
        offered = choices({word: word for word in words})
        self._specs[name] = replace(self._specs[name], choices=offered)

    @override
    def _commit(self, spec: FieldSpec, typed: str) -> None:
        if self.record is None:
            return
        field = self.fields[spec.name]
        spec = self._specs[spec.name]
        try:
            value = edit.read_field(self.workspace, spec, typed)
            self._store(spec.name, value)
        except DomainError as error:
            edit.keep_draft(self.workspace, spec, self.record, typed)
            field.show_trouble(self.workspace.texts.say(error), readings_of(error))
            self.refused.emit(spec.name)
            return
        edit.drop_draft(self.workspace, spec, self.record)
        self._values[spec.name] = value
        stored = edit.shown(self.workspace, spec, value)
        field.show_draft(stored, "")
        field.show_stored(stored)
        field.clear_trouble()
        self.committed.emit(spec.name)
