"""The layers of a jar, from top to bottom as they stand in it: which leftover, how much."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from wickbench.app import edit
from wickbench.app.fields import field
from wickbench.app.layered_jars import LayerDraft
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import CannotRead, DomainError
from wickbench.gui.fields.trouble_line import TroubleLine
from wickbench.gui.icons import set_icon
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.layered_jars import LayerShown
    from wickbench.app.workspace import Workspace

_MASS: Final = field("layer", "mass_g", N_("In one jar"), "mass", low=0.1, high=1e6)


@dataclass(frozen=True, slots=True)
class _Row:
    """One line: its place in the draft, counted from the bottom, and what is shown of it."""

    place: int
    leftover_id: int | None
    name: str
    mass: str
    share: str
    proposed: bool


class LayersTable(QWidget):
    """A table of layers, the top one first.

    Signals:
        changed: the layers, bottom to top, after something was entered.
        typed: the same while it is typed.
    """

    changed = Signal(tuple)
    typed = Signal(tuple)

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self.draft: tuple[LayerDraft, ...] = ()
        self._pairs: list[tuple[str, str]] = []
        self.title = heading(texts(N_("Layers, as they stand in the jar")))
        self.down = self._tool("arrow-down", texts(N_("Move the layer down")))
        self.remove = self._tool("remove", texts(N_("Take the layer out")))
        self.model: RowModel[_Row] = RowModel(
            lambda: workspace.texts, self._columns(), lambda row: row.place,
            add=self._add, adding=N_("Add a layer on top…"),
        )  # fmt: skip
        self.table = TableView(
            self.model, texts(N_("Layers from top to bottom")), most_rows=8, fewest_rows=2
        )
        self.hint = label(
            texts(N_("Without a mass the layers are made equally high, up to the fill line.")),
            "quiet",
        )
        self.trouble = TroubleLine()
        self._lay_out()
        name_attributes(self)

    def _tool(self, icon: str, name: str) -> QPushButton:
        tool = accessible(button("", "flat"), name)
        tool.setToolTip(name)
        set_icon(tool, icon, colours_of(self))
        return tool

    def _columns(self) -> list[Column[_Row]]:
        return [
            Column(
                key="leftover", title=N_("Leftover"), stretch=True, show=lambda row: row.name,
                edit_text=lambda row: str(row.leftover_id or ""), write=self._choose,
                choices=lambda _row: self._pairs,
            ),
            Column(
                key="mass", title=_MASS.label, numeric=True, show=lambda row: row.mass,
                edit_text=lambda row: "" if row.proposed else row.mass, write=self._weigh,
                look=lambda row: "quiet" if row.proposed else "",
            ),
            Column(
                key="share", title=N_("Of total"), numeric=True, spare=True,
                show=lambda row: row.share, look=lambda _row: "quiet",
            ),
        ]  # fmt: skip

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(2)
        head.addWidget(self.title, 1)
        head.addWidget(self.down)
        head.addWidget(self.remove)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(4)
        box.addLayout(head)
        for part in (self.table, self.trouble, self.hint):
            box.addWidget(part)
        self.down.clicked.connect(self._move_down)
        self.remove.clicked.connect(lambda: self._take_out(self.table.selected_keys()))
        self.table.remove_requested.connect(self._take_out)
        self.model.refused.connect(self.trouble.say)
        self.model.cell_typed.connect(self._typing)

    def offer(self, pairs: Sequence[tuple[str, str]]) -> None:
        """Which leftovers can be chosen: key and name."""
        self._pairs = list(pairs)

    def show_layers(self, draft: tuple[LayerDraft, ...], shown: Sequence[LayerShown]) -> None:
        """Show the layers of a draft with what was worked out for them."""
        self.draft = draft
        names = dict(self._pairs)
        worked = iter(shown)
        rows = []
        for place, one in enumerate(draft):
            name = names.get(str(one.leftover_id), "")
            found = next(worked, None) if one.leftover_id is not None else None
            rows.append(
                _Row(
                    place, one.leftover_id, found.name if found else name,
                    found.mass if found else "",
                    found.share if found else "", one.mass_g is None,
                )
            )  # fmt: skip
        self.model.set_rows(rows[::-1])

    # -- changing --------------------------------------------------------------------------------
    def _key(self, typed: str) -> int:
        """The leftover that was chosen or whose name was typed.

        Raises:
            CannotRead: none, or more than one, is called that.
        """
        text = typed.strip()
        found = [word for word, _ in self._pairs if word == text] or [
            word for word, name in self._pairs if text.casefold() in name.casefold()
        ]
        if len(found) != 1:
            key = "plan.no-such-choice" if not found else "plan.many-choices"
            raise CannotRead(key, typed=text)
        return int(found[0])

    def _with(self, place: int, layer: LayerDraft) -> tuple[LayerDraft, ...]:
        return (*self.draft[:place], layer, *self.draft[place + 1 :])

    def _choose(self, row: _Row, typed: str) -> None:
        layer = replace(self.draft[row.place], leftover_id=self._key(typed))
        self.changed.emit(self._with(row.place, layer))

    def _read(self, typed: str) -> float | None:
        value = edit.read_field(self.workspace, _MASS, typed)
        return float(value) if isinstance(value, (int, float)) else None

    def _weigh(self, row: _Row, typed: str) -> None:
        layer = replace(self.draft[row.place], mass_g=self._read(typed))
        self.changed.emit(self._with(row.place, layer))

    def _typing(self, key: object, column: str, typed: object) -> None:
        if column == "mass" and isinstance(key, int) and isinstance(typed, str):
            try:
                layer = replace(self.draft[key], mass_g=self._read(typed))
            except DomainError:
                return
            self.typed.emit(self._with(key, layer))

    def _add(self, typed: dict[str, str]) -> None:
        if "leftover" in typed:
            self.changed.emit((*self.draft, LayerDraft(leftover_id=self._key(typed["leftover"]))))

    def _take_out(self, places: list[int]) -> None:
        kept = tuple(one for place, one in enumerate(self.draft) if place not in places)
        self.changed.emit(kept)

    def _move_down(self) -> None:
        """The chosen layer changes places with the one below it."""
        places = self.table.selected_keys()
        if len(places) != 1 or places[0] < 1:
            return
        at, order = places[0], list(self.draft)
        order[at], order[at - 1] = order[at - 1], order[at]
        self.changed.emit(tuple(order))
        self.table.go_to(at - 1)
