"""Everything about one candle: what it is made of, how heavy, whether it passed, for how much."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from wickbench.app import candle_state, candles, shelf_edit
from wickbench.app.candle_fields import FIRST_FIELDS, LABEL_FIELDS, NOTE_FIELDS, SOLD_FIELDS
from wickbench.app.candle_labels import proposal_texts
from wickbench.app.candle_shown import passed_text
from wickbench.app.recipe_fields import CANDLE_FIELDS
from wickbench.app.recipe_parts import EXTRAS, extra_lines
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.candles.net_checks_panel import NetChecksPanel
from wickbench.gui.candles.tests_panel import TestsPanel
from wickbench.gui.candles.weight_panel import WeightPanel
from wickbench.gui.candles.wicks_field import WicksField
from wickbench.gui.fields.form import FieldForm
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button
from wickbench.gui.recipes.parts_table import PartsTable
from wickbench.gui.recipes.put_away import PutAwayBanner
from wickbench.gui.vessels.vessel_drawing import VesselPicture

if TYPE_CHECKING:
    from wickbench.app.candles import CandleView
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Candle


class CandleEditor(QWidget):
    """The form of one candle; results follow while the person types.

    Attributes:
        results: drawing, tests, weight and findings; the page puts them where there is room.

    Signals:
        go_requested: key of a place and a record there.
    """

    go_requested = Signal(str, object)

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self._shelf: Shelf | None = None
        self._candle: Candle | None = None
        self.picture = VesselPicture(texts(N_("Drawing to scale")))
        self.put_away = PutAwayBanner(texts)
        self.first = FieldForm(workspace, FIRST_FIELDS)
        self.show_recipe = button(texts(N_("Show the recipe")), "flat")
        self.show_vessel = button(texts(N_("Show the vessel")), "flat")
        self.wicks = WicksField(workspace)
        self.weight = WeightPanel(workspace)
        self.findings = FindingsList()
        self.checks = NetChecksPanel(workspace)
        self.tests = TestsPanel(workspace)
        self.sold = FieldForm(workspace, SOLD_FIELDS)
        self.labels = FieldForm(workspace, LABEL_FIELDS)
        self.extras = PartsTable(workspace, EXTRAS)
        self.notes = FieldForm(workspace, NOTE_FIELDS)
        self.results = QWidget()
        self._lay_out()
        self._lay_out_results()
        self._connect()
        name_attributes(self)

    @property
    def forms(self) -> tuple[FieldForm, ...]:
        """The forms from top to bottom."""
        return (self.first, self.weight.form, self.sold, self.labels, self.notes)

    def _lay_out(self) -> None:
        ways = QHBoxLayout()
        ways.setSpacing(4)
        ways.addWidget(self.show_recipe)
        ways.addWidget(self.show_vessel)
        ways.addStretch(1)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(14)
        box.addWidget(self.put_away)
        box.addWidget(self.first)
        box.addLayout(ways)
        for widget in (self.wicks, self.sold, self.labels, self.extras, self.notes):
            box.addWidget(widget)

    def _lay_out_results(self) -> None:
        row = QHBoxLayout(self.results)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(16)
        columns = ((self.picture, self.tests), (self.weight, self.findings, self.checks))
        for widgets in columns:
            column = QVBoxLayout()
            column.setSpacing(14)
            for widget in widgets:
                column.addWidget(widget)
            column.addStretch(1)
            row.addLayout(column, 1)

    def _connect(self) -> None:
        for form in self.forms:
            form.edited.connect(self._typed)
            form.refused.connect(self._typed)
        self.wicks.committed.connect(self._set_wicks)
        self.weight.take_requested.connect(self._declare)
        self.tests.verdict_given.connect(self._record)
        self.put_away.bring_back_requested.connect(self._bring_back)
        self.show_recipe.clicked.connect(self._go_to_recipe)
        self.show_vessel.clicked.connect(self._go_to_vessel)

    # -- showing ---------------------------------------------------------------------------------
    def show_candle(self, candle: Candle | None, shelf: Shelf) -> None:
        """Show stored values; fields and cells under the person's hands stay as they are."""
        if candle is None or self._candle is None or candle.id != self._candle.id:
            self.tests.fold_up()
        self._shelf, self._candle = shelf, candle
        values = {spec.name: getattr(candle, spec.name, None) for spec in CANDLE_FIELDS}
        for form in self.forms:
            form.show_record(candle.id if candle else None, values)
        if candle is None:
            return
        self.labels.show_assumed(proposal_texts(self.workspace, candle))
        self.put_away.setVisible(candle.archived)
        self.wicks.show_wicks(candle.wick_ids)
        lines = extra_lines(self.workspace, candle, shelf)
        self.extras.show_lines(candle.id, lines, shelf)
        self.checks.show_candle(candle.id, shelf)
        self._typed()

    def focus(self, name: str) -> None:
        """Put the cursor into a field, when there is one of this name."""
        for form in self.forms:
            if name in form.fields:
                form.focus(name)

    def _typed(self, *_: object) -> None:
        """Work out and show what the values say, stored or as they are being typed."""
        if self._candle is None or self._shelf is None:
            return
        typed: dict[str, object] = {}
        for form in self.forms:
            current = form.values()
            typed |= {name: current.get(name) for name in form.fields}
        workspace = self.workspace
        draft = candles.drafted(self._candle, typed)
        self._show(candles.view_candle(draft, self._shelf, workspace.settings, workspace.texts))

    def _show(self, view: CandleView) -> None:
        texts = self.workspace.texts
        self.picture.show_drawing(view.drawing)
        self.wicks.show_passed(passed_text(texts, view.passed_before))
        self.weight.show_view(view)
        self.checks.show_declared(view.candle.declared_net_g)
        self.findings.show_findings(texts, view.findings)
        self.tests.show_view(view)
        self.show_recipe.setVisible(view.version is not None)
        self.show_vessel.setVisible(view.vessel is not None)

    # -- changing --------------------------------------------------------------------------------
    def _set_wicks(self, wicks: list[int]) -> None:
        if self._candle is not None:
            candles.set_wicks(self.workspace, self._candle.id, wicks)

    def _declare(self, mass_mg: int) -> None:
        if self._candle is not None:
            candles.declare(self.workspace, self._candle.id, mass_mg)

    def _bring_back(self) -> None:
        if self._candle is not None:
            shelf_edit.bring_back(self.workspace, "candle", self._candle.id)

    def _record(self, values: dict[str, object]) -> None:
        if self._candle is None or self._shelf is None:
            return
        said = {name: str(value) if value else None for name, value in values.items()}
        try:
            candle_state.record_test(
                self.workspace,
                self._shelf,
                self._candle,
                said["state"] or "in_test",
                tested_by=said["tested_by"],
                tested_on=said["tested_on"],
                note=said["note"],
            )
        except DomainError as error:
            self.tests.refuse(self.workspace.texts.say(error))
            return
        self.tests.entered()

    # -- elsewhere -------------------------------------------------------------------------------
    def _go_to_recipe(self) -> None:
        if self._candle is None or self._shelf is None or self._candle.version_id is None:
            return
        version = self._shelf.versions.get(self._candle.version_id)
        if version is not None:
            self.go_requested.emit("recipes", version.recipe_id)

    def _go_to_vessel(self) -> None:
        if self._candle is not None and self._candle.vessel_id is not None:
            self.go_requested.emit("vessels", self._candle.vessel_id)
