"""Layering a jar from leftovers: vessel, layers from the bottom, and whether it may be sold."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QBoxLayout, QFrame, QHBoxLayout, QVBoxLayout, QWidget
from typing_extensions import override

from wickbench.app import edit
from wickbench.app.fields import field
from wickbench.app.layered_jars import JarDraft, LayerDraft, view_jar
from wickbench.app.layered_making import make_jar
from wickbench.app.leftovers import in_use, name_with_mass
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.made_field import made_field
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.leftovers.jar_picture import JarPicture
from wickbench.gui.leftovers.layers_table import LayersTable
from wickbench.gui.leftovers.words import HOW_LAYERED, named_field
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

    from wickbench.app.layered_jars import JarView
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace

_FIELDS: Final = (
    field("layered", "name", N_("Name"), "text"),
    field("layered", "vessel_id", N_("Vessel"), "reference", refers_to="vessel"),
    field("layered", "wick_id", N_("Wick"), "reference", refers_to="wick"),
    field("layered", "count", N_("How many alike"), "count", low=1, high=1000),
)
_WIDE_CHARACTERS: Final = 96


class JarCard(QFrame):
    """Fields, layers and drawing of a jar that is being put together.

    Signals:
        made: key of the candle that was made.
        given_up: the person wants to make nothing.
    """

    made = Signal(int)
    given_up = Signal()

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self.draft = JarDraft()
        self.view: JarView | None = None
        self._shelf: Shelf | None = None
        set_look(self, "card")
        self.title = heading(texts(N_("Layer a jar")))
        self.fields = {spec.name: made_field(workspace, spec) for spec in _FIELDS}
        self.layers = LayersTable(workspace)
        self.picture = JarPicture(texts(N_("The vessel with its layers")))
        self.verdict = label()
        self.total = label("", "quiet")
        self.how = HowComputed(texts)
        self.how.explain(tuple(texts(step) for step in HOW_LAYERED))
        self.findings = FindingsList()
        self.trouble = label("", "stops")
        self.make = button(texts(N_("Make it")), "primary")
        self.give_up = button(texts(N_("Cancel")))
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _lay_out(self) -> None:
        left, right = QVBoxLayout(), QVBoxLayout()
        for spec in _FIELDS:
            one = self.fields[spec.name]
            one.setObjectName(spec.name)
            left.addWidget(named_field(self.workspace.texts(spec.label), one))
        left.addWidget(self.layers)
        left.addStretch(1)
        for part in (self.picture, self.verdict, self.total, self.how, self.findings):
            right.addWidget(part)
        right.addStretch(1)
        self._halves = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._halves.setSpacing(20)
        for half in (left, right):
            holder = QWidget()
            half.setContentsMargins(0, 0, 0, 0)
            half.setSpacing(8)
            holder.setLayout(half)
            self._halves.addWidget(holder, 1)
        buttons = QHBoxLayout()
        buttons.addWidget(self.make)
        buttons.addWidget(self.give_up)
        buttons.addStretch(1)
        box = QVBoxLayout(self)
        box.setContentsMargins(16, 12, 16, 14)
        box.setSpacing(10)
        box.addWidget(self.title)
        box.addLayout(self._halves)
        box.addWidget(self.trouble)
        box.addLayout(buttons)

    def _connect(self) -> None:
        for one in self.fields.values():
            one.edited.connect(self._typed)
            one.committed.connect(self._typed)
        self.layers.changed.connect(self._layered)
        self.layers.typed.connect(self._layered_typed)
        self.make.clicked.connect(self.make_it)
        self.give_up.clicked.connect(self.given_up)

    # -- showing ---------------------------------------------------------------------------------
    def begin(self, shelf: Shelf) -> None:
        """Begin with every leftover that is there, one layer each, in an empty draft."""
        layers = tuple(LayerDraft(leftover_id=row.id) for row in in_use(shelf)[:4])
        self.draft = JarDraft(layers=layers)
        shown = {"name": "", "vessel_id": "", "wick_id": "", "count": "1"}
        for name, text in shown.items():
            self.fields[name].show_stored(text)
        self.show_shelf(shelf)
        self.fields["name"].editor.setFocus()

    def show_shelf(self, shelf: Shelf) -> None:
        """Show the draft against a fresh shelf."""
        self._shelf = shelf
        there = [row for row in shelf.leftovers.values() if not row.archived]
        pairs = [(str(row.id), name_with_mass(row, self.workspace.texts)) for row in there]
        self.layers.offer(pairs)
        self._show(self.draft)

    def _show(self, draft: JarDraft) -> None:
        if self._shelf is None:
            return
        texts = self.workspace.texts
        view = view_jar(draft, self._shelf, self.workspace.settings, texts)
        self.view = view
        self.layers.show_layers(draft.layers, view.layers)
        self.picture.show_drawing(view.drawing)
        self.verdict.setText(view.verdict)
        set_look(self.verdict, "" if view.for_sale else "stops")
        self.verdict.setVisible(bool(view.verdict))
        self.total.setText(view.total)
        self.findings.show_findings(texts, view.findings)
        self.make.setEnabled(view.can_make)
        self._say("")

    def _say(self, sentence: str) -> None:
        self.trouble.setText(sentence)
        self.trouble.setVisible(bool(sentence))

    # -- typing and doing ------------------------------------------------------------------------
    def _typed(self, *_: object) -> None:
        """The draft follows the typing; a field that cannot be read keeps what was there."""
        values: dict[str, object] = {}
        for spec in _FIELDS:
            one = self.fields[spec.name]
            try:
                values[spec.name] = edit.read_field(self.workspace, spec, one.text())
            except DomainError as error:
                one.show_trouble(self.workspace.texts.say(error))
        if isinstance(values.get("count", 1), int):
            values["count"] = values.get("count") or 1
        if "name" in values:
            values["name"] = values["name"] or ""
        self.draft = replace(self.draft, **values)  # type: ignore[arg-type]
        self._show(self.draft)

    def _layered(self, layers: tuple[LayerDraft, ...]) -> None:
        self.draft = replace(self.draft, layers=layers)
        self._show(self.draft)

    def _layered_typed(self, layers: tuple[LayerDraft, ...]) -> None:
        self._show(replace(self.draft, layers=layers))

    def make_it(self) -> None:
        """Make it: one act; undo takes it back."""
        if self._shelf is None:
            return
        try:
            candle = make_jar(self.workspace, self._shelf, self.draft)
        except DomainError as error:
            self._say(self.workspace.texts.say(error))
            return
        self.made.emit(candle)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        wide = event.size().width() >= self.fontMetrics().averageCharWidth() * _WIDE_CHARACTERS
        direction = QBoxLayout.Direction
        self._halves.setDirection(direction.LeftToRight if wide else direction.TopToBottom)
        super().resizeEvent(event)
