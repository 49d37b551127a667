"""The widget for one row of a table of fields."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.references import reference_choices, reference_name
from wickbench.gui.fields.choice_field import ChoiceField, ReferenceField, YesNoField
from wickbench.gui.fields.line_field import DateField, QuantityField, TextField
from wickbench.gui.fields.note_field import NoteField

if TYPE_CHECKING:
    from wickbench.app.fields import FieldSpec
    from wickbench.app.workspace import Workspace
    from wickbench.gui.fields.field import Field


def made_field(workspace: Workspace, spec: FieldSpec) -> Field:
    """Build the widget that a field's kind asks for, empty."""
    name = workspace.texts(spec.label)
    if spec.kind == "choice":
        return ChoiceField(name, choice_pairs(workspace, spec))
    if spec.kind == "yes_no":
        return YesNoField(name)
    if spec.kind == "reference":
        return ReferenceField(
            name,
            lambda: reference_pairs(workspace, spec),
            lambda number: reference_name(workspace, spec.refers_to, int(number)),
        )
    if spec.kind == "note":
        return NoteField(name)
    if spec.kind == "date":
        return DateField(name)
    return QuantityField(name) if spec.is_quantity else TextField(name)


def choice_pairs(workspace: Workspace, spec: FieldSpec) -> list[tuple[str, str]]:
    """Stored words with labels; an empty choice comes first where no setting has a default."""
    pairs = [(str(choice.value), workspace.texts(choice.label)) for choice in spec.choices]
    if spec.table == "setting" or any(not word for word, _ in pairs):
        return pairs
    return [("", "–"), *pairs]


def reference_pairs(workspace: Workspace, spec: FieldSpec) -> list[tuple[str, str]]:
    """Numbers and names of what can be referred to, *none* first."""
    found = reference_choices(workspace, spec.refers_to)
    return [("", "–"), *((str(number), name) for number, name in found)]
