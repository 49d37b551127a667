"""Day, name, extra and heat of a plan, the pots it may use, and the scales at hand."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QMenu, QSizePolicy, QVBoxLayout, QWidget
from typing_extensions import override

from wickbench.app import plans
from wickbench.app.plan_fields import PLAN_FIELDS
from wickbench.app.texts_marker import N_
from wickbench.gui.fields.form import FieldForm
from wickbench.gui.fields.line_field import LineField
from wickbench.gui.naming import accessible, name_attributes, plain_action_text
from wickbench.gui.page import button, label

if TYPE_CHECKING:
    from collections.abc import Mapping

    from PySide6.QtGui import QResizeEvent

    from wickbench.app.plans import PlanRow
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace

_ROW: Final = ("pour_on", "name", "extra_g", "extra_percent", "heat_source_id")
_SHARES: Final = {"pour_on": 3, "name": 4, "extra_g": 3, "extra_percent": 3, "heat_source_id": 3}
_NARROW: Final = {
    "pour_on": (0, 6), "name": (0, 6), "extra_g": (1, 4), "extra_percent": (1, 4),
    "heat_source_id": (1, 4),
}  # fmt: skip
"""Row and share of the row, where they do not all fit beside each other."""
_WIDE_CHARACTERS: Final = 108
_SPECS: Final = {spec.name: spec for spec in PLAN_FIELDS}


class PlanSettings(QWidget):
    """A row of fields with their labels above, and under it pots and scales.

    Signals:
        edited: name of a field and its text while it is typed.
        equipment_requested: the person wants to see the equipment.
    """

    edited = Signal(str, str)
    equipment_requested = Signal()

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        self.workspace = workspace
        texts = workspace.texts
        self.forms = {name: FieldForm(workspace, [_SPECS[name]]) for name in _ROW}
        self.note_form = FieldForm(workspace, [_SPECS["note"]])
        self.pots = button("")
        self.pots_menu = QMenu(self)
        self.scales = label("", "quiet")
        self.equipment = button(texts(N_("Equipment…")), "flat")
        self._plan: PlanRow | None = None
        self._wide: bool | None = None
        self._lay_out()
        for form in (*self.forms.values(), self.note_form):
            form.edited.connect(self.edited)
        self.equipment.clicked.connect(self.equipment_requested)
        name_attributes(self)

    def _lay_out(self) -> None:
        day = self.forms["pour_on"].fields["pour_on"]
        if isinstance(day, LineField):
            day.below.setFixedHeight(0)  # the title of the page says the weekday
        self.pots.setMenu(self.pots_menu)
        self.pots.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self._fields = QGridLayout()
        self._fields.setHorizontalSpacing(12)
        self._fields.setVerticalSpacing(8)
        self._place_fields(wide=False)
        tools = QHBoxLayout()
        tools.setSpacing(12)
        tools.addWidget(self.pots)
        tools.addWidget(self.scales, 1)
        tools.addWidget(self.equipment)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        box.addLayout(self._fields)
        box.addLayout(tools)

    def _place_fields(self, *, wide: bool) -> None:
        """All in one row where there is room, else day and name above the rest."""
        if wide == self._wide:
            return
        self._wide = wide
        column = {0: 0, 1: 0}
        for name, form in self.forms.items():
            row, span = (0, _SHARES[name]) if wide else _NARROW[name]
            self._fields.addWidget(form, row, column[row], 1, span)
            column[row] += span
        for at in range(sum(_SHARES.values())):
            self._fields.setColumnStretch(at, 1 if at < max(column.values()) else 0)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        character = self.fontMetrics().averageCharWidth()
        self._place_fields(wide=event.size().width() >= character * _WIDE_CHARACTERS)
        super().resizeEvent(event)

    def show_plan(self, plan: PlanRow, shelf: Shelf) -> None:
        """Show a plan's own fields; a plan that was begun is read only, but for its note."""
        self._plan = plan
        values = {spec.name: getattr(plan, spec.name) for spec in PLAN_FIELDS}
        for name, form in self.forms.items():
            form.show_record(plan.id, values)
            form.setEnabled(plan.state == "planned" or name == "name")
        self.note_form.show_record(plan.id, values)
        self._show_pots(plan, shelf)
        self._show_scales(shelf)

    def _show_pots(self, plan: PlanRow, shelf: Shelf) -> None:
        texts = self.workspace.texts
        names = {int(str(row["id"])): str(row.get("name") or "") for row in shelf.equipment.pots}
        chosen = [name for key, name in names.items() if key in plan.pot_ids]
        said = ", ".join(chosen) if chosen else texts(N_("all"))
        words = texts(N_("Pots: {names}"), names=said) if names else texts(N_("No pot yet"))
        self.pots.setText(plain_action_text(words))
        accessible(self.pots, words)
        self.pots.setEnabled(bool(names) and plan.state == "planned")
        self.pots_menu.clear()
        for key, name in names.items():
            action = self.pots_menu.addAction(plain_action_text(name))
            action.setData(key)
            action.setCheckable(True)
            action.setChecked(key in plan.pot_ids or not plan.pot_ids)
            action.triggered.connect(partial(self._choose_pot, key, list(names)))

    def _choose_pot(self, key: int, known: list[int], *_: object) -> None:
        """Take a pot in or leave it out; with none left out the plan may use all."""
        if self._plan is None:
            return
        used = set(self._plan.pot_ids or known) ^ {key}
        pots = tuple(one for one in known if one in used)
        if pots:
            plans.choose_pots(
                self.workspace, self._plan.id, () if len(pots) == len(known) else pots
            )
        else:
            self._show_again()

    def _show_again(self) -> None:
        """At least one pot stays chosen: the tick of the last one is put back."""
        for action in self.pots_menu.actions():
            if not action.isChecked() and action.data() in (
                self._plan.pot_ids if self._plan else ()
            ):
                action.setChecked(True)

    def _show_scales(self, shelf: Shelf) -> None:
        texts = self.workspace.texts
        scales = [_scale(row, texts) for row in shelf.equipment.scales]
        said = ", ".join(scales) if scales else texts(N_("none yet"))
        self.scales.setText(texts(N_("Scales: {scales}"), scales=said))


def _scale(row: Mapping[str, object], texts: Texts) -> str:
    """A scale with what it carries and reads to: "Bench scale 6 kg / 1 g"."""
    name, maximum, step = str(row.get("name") or ""), row.get("maximum_g"), row.get("step_g")
    if not isinstance(maximum, (int, float)) or not isinstance(step, (int, float)):
        return name
    carries = texts.units.one(maximum, "mass", "g", step=1)
    return f"{name} {carries} / {texts.units.one(step, 'mass', 'g', step=step)}"
