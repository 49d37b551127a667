"""The fragrance load and its basis; "1 oz/lb" says its basis itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

from typing_extensions import override

from wickbench.app import edit, recipe_edit
from wickbench.app.recipe_fields import VERSION_FIELDS
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.form import FieldForm

if TYPE_CHECKING:
    from wickbench.app.fields import FieldSpec
    from wickbench.app.workspace import Workspace

LOAD_FIELDS = tuple(spec for spec in VERSION_FIELDS if spec.name in {"load_percent", "load_basis"})


class LoadForm(FieldForm):
    """Load and basis of a version; a load typed as weight by weight is of wax."""

    def __init__(self, workspace: Workspace) -> None:
        super().__init__(workspace, LOAD_FIELDS)

    @override
    def values(self) -> dict[str, object]:
        current = super().values()
        typed = self.fields["load_percent"]
        if typed.text() != typed.stored and recipe_edit.says_of_wax(typed.text()):
            current["load_basis"] = "wax"
        return current

    @override
    def _commit(self, spec: FieldSpec, typed: str) -> None:
        of_wax = spec.name == "load_percent" and recipe_edit.says_of_wax(typed)
        if of_wax and self.record is not None and self._values.get("load_basis") != "wax":
            self._commit_of_wax(spec, typed, self.record)
        super()._commit(spec, typed)

    def _commit_of_wax(self, spec: FieldSpec, typed: str, record: int) -> None:
        try:
            value = edit.read_field(self.workspace, spec, typed)
        except DomainError:
            return
        if isinstance(value, (int, float)):
            recipe_edit.set_load_of_wax(self.workspace, record, float(value), origin=self)
            self._values["load_basis"] = "wax"
            self.fields["load_basis"].show_stored("wax")
