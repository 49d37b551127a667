"""What one element of a label looks like, as a form; shown while typing, stored when done."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QMenu, QVBoxLayout, QWidget

from wickbench.app import label_elements, type_styles
from wickbench.app.edit import read_field
from wickbench.app.label_element_fields import (
    ELEMENT_WORDS,
    OTHER_FIELDS,
    facts_fields,
    shown_fields,
    shown_values,
    stored_value,
    text_fields,
)
from wickbench.app.label_making import typeface_shelf
from wickbench.app.label_store import kind_of
from wickbench.app.label_values import FIELD_WORDS
from wickbench.app.texts_marker import N_
from wickbench.documents.svg_paths import is_svg
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.fields.line_field import LineField
from wickbench.gui.fields.note_field import NoteField
from wickbench.gui.labels.colour_menu import ColourMenu
from wickbench.gui.labels.crop_box import CropBox
from wickbench.gui.labels.drawing_chooser import DrawingChooser
from wickbench.gui.labels.facts_list import FactsList
from wickbench.gui.labels.value_form import ValueForm
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label

if TYPE_CHECKING:
    from wickbench.app.fields import FieldSpec
    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace
    from wickbench.domain.labels import AnyElement

_HINT: Final = N_("Choose something on the label to change it.")
_TYPESET: Final = frozenset({"text", "facts"})


class ElementPanel(QWidget):
    """The form of the chosen element.

    Signals:
        drafted: the element as it is being typed.
    """

    drafted = Signal(object)

    def __init__(self, workspace: Workspace, ask: Ask) -> None:
        super().__init__()
        self._workspace, self._ask = workspace, ask
        self.label_id: int | None = None
        self.at: int | None = None
        self.element: AnyElement | None = None
        self.forms: dict[str, ValueForm] = {}
        self._specs: dict[str, tuple[FieldSpec, ...]] = {}
        texts = workspace.texts
        self.heading = heading()
        self.insert = button(texts("Insert a field"))
        self.insert.setMenu(self._field_menu())
        self.type_style = button(texts(N_("Type style")))
        self.type_style.setMenu(self._style_menu())
        self.choose_picture = button(texts("Picture…"))
        self.choose_colour = button(texts(N_("Colour")))
        self.colours = ColourMenu(texts, self)
        self.choose_colour.setMenu(self.colours)
        self.hint = label(texts(_HINT), "quiet")
        self.drawings = DrawingChooser(texts)
        self.facts = FactsList(texts)
        self.crop = CropBox(texts)
        self._is_drawing = False
        self._box = QVBoxLayout(self)
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _lay_out(self) -> None:
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.addWidget(self.heading)
        self._box.addWidget(self.hint)
        # Two lines: all buttons of a text are too wide for a narrow page.
        for pair in ((self.insert, self.type_style), (self.choose_picture, self.choose_colour)):
            line = QHBoxLayout()
            for one in pair:
                line.addWidget(one)
            line.addStretch(1)
            self._box.addLayout(line)
        self._box.addWidget(self.drawings)
        self._box.addWidget(self.facts)
        self._box.addWidget(self.crop)

    def _connect(self) -> None:
        self.choose_picture.clicked.connect(self._picture)
        self.colours.chosen.connect(self._store)
        self.drawings.drafted.connect(self.drafted)
        self.drawings.picked.connect(self._store)
        self.facts.changed.connect(partial(self._store, "facts"))
        self.crop.drafted.connect(self.drafted)
        self.crop.cropped.connect(self._crop)

    def _field_menu(self) -> QMenu:
        menu = QMenu(self)
        for name, word in FIELD_WORDS.items():
            action = menu.addAction(self._workspace.texts(word))
            action.setObjectName(f"insert_{name}")
            action.triggered.connect(partial(self.insert_field, name))
        return menu

    def _style_menu(self) -> QMenu:
        menu = QMenu(self)
        for name, word in type_styles.STYLE_WORDS.items():
            action = menu.addAction(self._workspace.texts(word))
            action.setObjectName(f"style_{name}")
            action.triggered.connect(partial(self.apply_style, name))
        return menu

    def show_element(self, label_id: int, at: int, record: int, element: AnyElement) -> None:
        """Show an element; ``record`` is its row, for typing that cannot be read."""
        self.label_id, self.at, self.element = label_id, at, element
        kind = kind_of(element)
        form = self._form(kind)
        for word, other in self.forms.items():
            other.setVisible(word == kind)
        self.heading.setText(self._workspace.texts(ELEMENT_WORDS[kind]))
        self.insert.setVisible(kind in {"text", "code"})
        self.choose_picture.setVisible(kind == "picture")
        self.type_style.setVisible(kind == "text")
        self.drawings.show_element(element)
        self.facts.show_element(element)
        if kind in _TYPESET:
            self._offer_styles(form, str(getattr(element, "family", "")))
        form.show_record(record, shown_values(element))
        data = label_elements.picture_data(self._workspace, element)
        self._is_drawing = data is not None and is_svg(data)
        self.crop.show_element(element, data)
        has_colours = self.colours.show_element(element, is_drawing=self._is_drawing)
        self.choose_colour.setVisible(has_colours)
        every = frozenset(form.fields)
        form.show_only(shown_fields(element, every, is_drawing=self._is_drawing))
        self.hint.setVisible(False)

    def write_anew(self) -> None:
        """Go to the text of the chosen element, all of it marked, so that typing replaces it."""
        field = self.forms[kind_of(self.element)].fields.get("text") if self.element else None
        if isinstance(field, NoteField):
            field.note.setFocus()
            field.note.selectAll()

    def clear(self, several: int = 0) -> None:
        """Nothing is chosen, or several things at once."""
        self.label_id = self.at = self.element = None
        buttons = (self.insert, self.type_style, self.choose_picture, self.choose_colour)
        for one in (*self.forms.values(), *buttons, self.drawings, self.facts, self.crop):
            one.setVisible(False)
        self.heading.setText("")
        texts = self._workspace.texts
        self.hint.setText(
            texts(N_("{n} things are chosen. Arrange them, or choose one to change it."), n=several)
            if several
            else texts(_HINT)
        )
        self.hint.setVisible(True)

    def _form(self, kind: str) -> ValueForm:
        if kind not in self.forms:
            families = typeface_shelf().families() if kind in _TYPESET else ()
            made = {"text": text_fields, "facts": facts_fields}.get(kind)
            specs = made(families, ()) if made is not None else OTHER_FIELDS[kind]
            form = ValueForm(self._workspace, specs, self._store)
            form.edited.connect(partial(self._typed, kind))
            form.prepare_narrow()
            self._specs[kind] = tuple(specs)
            self.forms[kind] = form
            self._box.addWidget(form)
        return self.forms[kind]

    def _offer_styles(self, form: ValueForm, family: str) -> None:
        chooser = form.fields["style"]
        styles = typeface_shelf().styles(family)
        form.offer("style", styles)
        if isinstance(chooser, ChoiceField):
            chooser.set_pairs([(style, style) for style in styles])

    # -- doing -----------------------------------------------------------------------------------
    def _store(self, name: str, value: object) -> None:
        if self.label_id is None or self.at is None or self.element is None:
            return
        changes: dict[str, Any] = {name: stored_value(self.element, name, value)}
        if name == "family":
            styles = typeface_shelf().styles(str(value))
            changes["style"] = styles[0] if styles else "Regular"
        if name in {"family", "style"}:
            changes["file_hash"] = self._file_hash(changes)
        label_elements.change_element(self._workspace, self.label_id, self.at, changes)

    def _file_hash(self, changes: dict[str, Any]) -> str:
        family = changes.get("family", getattr(self.element, "family", ""))
        style = changes.get("style", getattr(self.element, "style", ""))
        face, exact = typeface_shelf().nearest(family, style)
        return face.file_hash if exact else ""

    def _typed(self, kind: str, name: str, typed: str) -> None:
        """The element as it would be, for the preview; nothing while it cannot be read."""
        spec = next(one for one in self._specs[kind] if one.name == name)
        if self.element is None or spec.kind == "choice":
            return
        try:
            value = stored_value(self.element, name, read_field(self._workspace, spec, typed))
            changes: dict[str, Any] = {name: value}
            self.drafted.emit(replace(self.element, **changes))
        except DomainError:
            return

    def insert_field(self, name: str, *_: object) -> None:
        """Put a field in braces where the cursor stands in the text."""
        if self.element is None:
            return
        field = self.forms[kind_of(self.element)].fields["text"]
        braces = f"{{{name.replace('_', ' ')}}}"
        if isinstance(field, NoteField):
            field.note.insertPlainText(braces)
            field.committed.emit(field.text())
        elif isinstance(field, LineField):
            field.line.insert(braces)
            field.committed.emit(field.text())

    def apply_style(self, name: str, *_: object) -> None:
        """Give the text one of the named styles."""
        if self.label_id is not None and self.at is not None:
            type_styles.apply_style(self._workspace, self.label_id, self.at, name)

    def _picture(self) -> None:
        if self.label_id is None or self.at is None:
            return
        texts = self._workspace.texts
        path = self._ask.open_path(
            texts("Which picture goes onto the label?"),
            texts("Pictures (*.png *.jpg *.jpeg *.svg)"),
        )
        if path is None:
            return
        try:
            label_elements.set_picture(self._workspace, self.label_id, self.at, path)
        except DomainError as error:
            self._ask.tell(texts.say(error))

    def _crop(self, changes: dict[str, float]) -> None:
        """The hand let go of an edge: all four sides are stored as one act."""
        if self.label_id is not None and self.at is not None:
            label_elements.change_element(self._workspace, self.label_id, self.at, changes)
