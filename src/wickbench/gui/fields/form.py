"""A form built from a table of fields: reads, checks, stores, and keeps what cannot be read."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QFormLayout, QLabel, QScrollArea, QSizePolicy, QWidget
from typing_extensions import override

from wickbench.app import edit
from wickbench.domain.errors import Ambiguous, DomainError
from wickbench.gui.fields.choice_field import YesNoField
from wickbench.gui.fields.made_field import made_field
from wickbench.gui.page import heading, label
from wickbench.storage import state

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from PySide6.QtGui import QResizeEvent

    from wickbench.app.fields import FieldSpec
    from wickbench.app.workspace import Workspace
    from wickbench.gui.fields.field import Field

_NARROW_CHARACTERS: Final = 64
_MARGIN: Final = 40


class FieldForm(QWidget):
    """Fields of one record, each stored as its own undoable act when the person is done with it.

    Signals:
        edited: name of the field and its text while the person types.
        committed: name of the field, after its value was stored.
        refused: name of the field, after its text could not be read and was kept as a draft.
    """

    edited = Signal(str, str)
    committed = Signal(str)
    refused = Signal(str)

    def __init__(
        self, workspace: Workspace, specs: Sequence[FieldSpec], parent: QWidget | None = None
    ) -> None:
        """Build the form.

        Args:
            workspace: the open workshop.
            specs: one row per field; a new ``group`` starts under its heading.
            parent: Qt parent.
        """
        super().__init__(parent)
        self.workspace = workspace
        self.record: int | None = None
        self.fields: dict[str, Field] = {}
        self._specs = {spec.name: spec for spec in specs}
        self._values: dict[str, object] = {}
        # On a scrolling page everything is given its least height first: a form keeps all of its.
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self._rows = QFormLayout(self)
        self._rows.setContentsMargins(0, 0, 0, 0)
        self._rows.setHorizontalSpacing(16)
        self._rows.setVerticalSpacing(8)
        self._rows.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        group = ""
        for spec in specs:
            if spec.group != group:
                group = spec.group
                self._rows.addRow(heading(workspace.texts(group)))
            self._add(spec)
        self.setEnabled(False)

    def _add(self, spec: FieldSpec) -> None:
        field = made_field(self.workspace, spec)
        field.setObjectName(spec.name)
        field.edited.connect(partial(self._typed, spec))
        field.committed.connect(partial(self._commit, spec))
        field.restored.connect(partial(self._restored, spec))
        layout = field.layout()
        if spec.hint and layout is not None:
            layout.addWidget(label(self.workspace.texts(spec.hint), "quiet"))
        self.fields[spec.name] = field
        if isinstance(field, YesNoField):
            self._rows.addRow(field)
            return
        name = QLabel(self.workspace.texts(spec.label).replace("&", "&&"))
        name.setTextFormat(name.textFormat().PlainText)
        name.setBuddy(field.editor)
        name.setContentsMargins(0, 5, 0, 0)
        name.setProperty("look", "quiet")
        self._rows.addRow(name, field)

    def show_record(self, record: int | None, values: Mapping[str, object]) -> None:
        """Show a record's stored values and its drafts; a field being typed in is left alone.

        Args:
            record: number of the record (0 for settings); ``None`` empties and greys the form.
            values: presented values by field name; missing names show empty.
        """
        another = record != self.record
        self.record = record
        self._values = dict(values)
        self.setEnabled(record is not None)
        drafts = {} if record is None else self._drafts(record)
        for name, spec in self._specs.items():
            field = self.fields[name]
            if another:
                field.editor.clearFocus()
            self._show(field, spec, drafts.get(name))

    def _show(self, field: Field, spec: FieldSpec, draft: str | None) -> None:
        stored = edit.shown(self.workspace, spec, self._values.get(spec.name))
        field.show_stored(stored)
        if field.under_edit:
            return
        if draft is not None:
            field.show_draft(draft, *self._trouble(spec, draft))
        else:
            field.say(self._echo(spec, stored))

    def show_assumed(self, assumed: Mapping[str, str]) -> None:
        """Say in empty fields what is taken instead, for example an estimate of the class."""
        for name, field in self.fields.items():
            field.show_assumed(assumed.get(name, ""))

    def show_only(self, names: set[str] | frozenset[str]) -> None:
        """Hide the rows of all other fields."""
        for name, field in self.fields.items():
            self._rows.setRowVisible(field, name in names)

    def values(self) -> dict[str, object]:
        """Stored values, with readable text that is being typed in place of its field's value."""
        current = dict(self._values)
        for name, field in self.fields.items():
            if field.text() != field.stored:
                try:
                    current[name] = edit.read_field(self.workspace, self._specs[name], field.text())
                except DomainError:
                    continue
        return current

    def focus(self, name: str) -> None:
        """Put the cursor into a field and bring it into view, once it has its place."""
        editor = self.fields[name].editor
        editor.setFocus()
        QTimer.singleShot(0, editor, partial(bring_into_view, editor))

    def _drafts(self, record: int) -> dict[str, str]:
        kept: dict[str, str] = {}
        with self.workspace.read() as connection:
            for table in {spec.table for spec in self._specs.values()}:
                drafts = state.drafts(connection, table, record)
                kept |= {
                    name: typed
                    for name, typed in drafts.items()
                    if name in self._specs and self._specs[name].table == table
                }
        return kept

    def _typed(self, spec: FieldSpec, typed: str) -> None:
        field = self.fields[spec.name]
        field.say(self._echo(spec, typed))
        self.edited.emit(spec.name, typed)

    def _restored(self, spec: FieldSpec) -> None:
        if self.record is not None:
            edit.drop_draft(self.workspace, spec, self.record)
        field = self.fields[spec.name]
        field.say(self._echo(spec, field.stored))
        self.edited.emit(spec.name, field.stored)

    def _commit(self, spec: FieldSpec, typed: str) -> None:
        if self.record is None:
            return
        field = self.fields[spec.name]
        try:
            edit.set_field(self.workspace, spec, self.record, typed, origin=self)
            value = edit.read_field(self.workspace, spec, typed)
        except DomainError as error:
            field.show_trouble(self.workspace.texts.say(error), readings_of(error))
            self.refused.emit(spec.name)
            return
        self._values[spec.name] = value
        stored = edit.shown(self.workspace, spec, value)
        field.show_draft(stored, "")
        field.show_stored(stored)
        field.clear_trouble()
        field.say(self._echo(spec, stored))
        self.committed.emit(spec.name)

    def _trouble(self, spec: FieldSpec, typed: str) -> tuple[str, tuple[str, ...]]:
        try:
            edit.read_field(self.workspace, spec, typed)
        except DomainError as error:
            return self.workspace.texts.say(error), readings_of(error)
        return "", ()

    def _echo(self, spec: FieldSpec, typed: str) -> str:
        """What was understood; only the part that the text does not say itself."""
        try:
            echo = edit.understood(self.workspace, spec, typed)
        except DomainError:
            return ""
        return without_first(echo, typed)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        narrow = event.size().width() < self.fontMetrics().averageCharWidth() * _NARROW_CHARACTERS
        policy = QFormLayout.RowWrapPolicy
        self._rows.setRowWrapPolicy(policy.WrapAllRows if narrow else policy.DontWrapRows)
        super().resizeEvent(event)

    def prepare_narrow(self) -> None:
        """Say before the first show that the form will stand in a narrow place.

        A scrolling page asks for its height before the form has its width.
        """
        self._rows.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapAllRows)


def bring_into_view(widget: QWidget) -> None:
    """Scroll whatever it stands in, the inner first, until it can be seen."""
    area = widget.parentWidget()
    while area is not None:
        if isinstance(area, QScrollArea):
            area.ensureWidgetVisible(widget, 0, _MARGIN)
        area = area.parentWidget()


def readings_of(error: DomainError) -> tuple[str, ...]:
    """The texts to choose from when there is more than one reading."""
    if isinstance(error, Ambiguous):
        return tuple(text for text, _ in error.readings)
    return ()


def without_first(echo: str, typed: str) -> str:
    """The second unit alone when the first one says what was typed."""
    first, separator, rest = echo.partition(" · ")
    if first.replace("\u00a0", " ").strip() == typed.replace("\u00a0", " ").strip():
        return rest if separator else ""
    return echo
