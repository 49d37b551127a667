"""Everything about one vessel: drawing, what it holds, its fields, its small tables, its stock."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from wickbench.app import vessel_parts, vessel_typing, vessels
from wickbench.app.air_pressure import pressure_text
from wickbench.app.texts_marker import N_
from wickbench.app.vessel_fields import VESSEL_FIELDS, WEIGHING_FIELDS
from wickbench.app.vessel_results import (
    box_line,
    capacity_lines,
    contents_lines,
    cut_line,
    how_filled,
    how_measured,
)
from wickbench.app.vessel_tables import BRIM_WEIGHINGS, DIAMETERS, LINE_WEIGHINGS
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.fields.form import FieldForm
from wickbench.gui.fields.made_field import reference_pairs
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.materials.stock_panel import StockPanel
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, label
from wickbench.gui.vessels.measure_table import MeasureTable
from wickbench.gui.vessels.vessel_drawing import VesselPicture

if TYPE_CHECKING:
    from wickbench.app.shelf import Shelf
    from wickbench.app.vessels import VesselView
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import RecipeVersion, Vessel

_FIRST = (
    "name", "vessel_kind", "glass", "candle_rated", "rated_by", "nominal_ml", "cells",
    "height_mm", "fill_mm", "base_fillet_mm", "push_up_mm",
)  # fmt: skip
_LAST = ("supplier", "code", "note")
_SCALE = next(spec for spec in WEIGHING_FIELDS if spec.name == "scale_id")


class VesselEditor(QWidget):
    """The form of a vessel; results follow while the person types.

    Signals:
        card_requested: the person wants the vessel on paper.
    """

    card_requested = Signal()

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self._shelf: Shelf | None = None
        self._vessel: Vessel | None = None
        self._version: RecipeVersion | None = None
        self.picture = VesselPicture(texts(N_("Drawing to scale")))
        self.recipe_name = label(texts(N_("Filled with")), "quiet")
        self.recipe = ChoiceField(texts(N_("Filled with")), [])
        self.holds = label()
        self.cut = label()
        self.box = label("", "quiet")
        self.how_filled = HowComputed(texts)
        self.findings = FindingsList()
        self.first = FieldForm(workspace, [s for s in VESSEL_FIELDS if s.name in _FIRST])
        self._beside: dict[str, str] = {}
        self._add_tables()
        self.card = button(texts(N_("Vessel card as PDF…")))
        self.card.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        used = {*_FIRST, *_LAST}
        self.outside = FieldForm(workspace, [s for s in VESSEL_FIELDS if s.name not in used])
        self.stock = StockPanel(workspace)
        self.last = FieldForm(workspace, [s for s in VESSEL_FIELDS if s.name in _LAST])
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _add_tables(self) -> None:
        workspace, texts = self.workspace, self.workspace.texts
        self.diameters = MeasureTable(workspace, DIAMETERS)
        self.line = MeasureTable(workspace, LINE_WEIGHINGS)
        self.brim = MeasureTable(workspace, BRIM_WEIGHINGS)
        self.scale_name = label(texts(_SCALE.label), "quiet")
        self.scale = ChoiceField(texts(_SCALE.label), [])
        self.air = label("", "quiet")

    @property
    def forms(self) -> tuple[FieldForm, ...]:
        """The three forms from top to bottom."""
        return (self.first, self.outside, self.last)

    @property
    def tables(self) -> tuple[MeasureTable, ...]:
        """The small tables from top to bottom."""
        return (self.diameters, self.line, self.brim)

    def _lay_out(self) -> None:
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(14)
        groups: tuple[tuple[QWidget, ...], ...] = (
            (self.picture,),
            (self.recipe_name, self.recipe, self.holds, self.cut, self.box, self.how_filled),
            (self.findings,),
            (self.first,),
            (self.diameters,),
            (self.line,),
            (self.brim,),
            (self.scale_name, self.scale, self.air),
            (self.card,),
            (self.outside,),
            (self.stock,),
            (self.last,),
        )
        for group in groups:
            inner = QVBoxLayout()
            inner.setSpacing(4)
            for widget in group:
                inner.addWidget(widget)
            box.addLayout(inner)

    def _connect(self) -> None:
        for form in self.forms:
            form.edited.connect(self._typed)
            form.refused.connect(self._typed)
            form.committed.connect(self._typed)
        for table in self.tables:
            table.typed.connect(self._typed)
        self.recipe.committed.connect(self._choose_recipe)
        self.scale.committed.connect(self._choose_scale)
        self.card.clicked.connect(self.card_requested)

    # -- showing ---------------------------------------------------------------------------------
    def show_vessel(self, vessel: Vessel | None, shelf: Shelf) -> None:
        """Show stored values; fields and cells under the person's hands stay as they are."""
        self._shelf, self._vessel = shelf, vessel
        values = {spec.name: _stored(vessel, spec.name) for spec in VESSEL_FIELDS}
        key = vessel.id if vessel else None
        for form in self.forms:
            form.show_record(key, values)
        for table in self.tables:
            table.show_vessel(key)
        self._show_choices(key)
        self.stock.show_item(key)
        self._typed()

    def _show_choices(self, key: int | None) -> None:
        if self._shelf is None or key is None:
            return
        newest = self._shelf.newest_versions()
        texts = self.workspace.texts
        named = [
            (str(v.recipe_id), texts(N_("{name}, version {n}"), name=v.name, n=str(v.number)))
            for v in newest
        ]
        self.recipe.set_pairs([("", texts(N_("nothing"))), *named])
        version = self._version = vessels.remembered_version(self.workspace, self._shelf)
        self.recipe.show_stored(str(version.recipe_id) if version else "")
        self.scale.set_pairs(reference_pairs(self.workspace, _SCALE))
        scale = vessel_parts.scale_of(self.workspace, key)
        self.scale.show_stored("" if scale is None else str(scale))
        self.air.setText(pressure_text(self.workspace.settings, texts))
        for widget in (self.scale_name, self.scale, self.air):
            widget.setVisible(bool(self._vessel and self._vessel.weighings))

    def _typed(self, *_: object) -> None:
        """Work out and show what the values say, stored or as they are being typed."""
        if self._vessel is None or self._shelf is None:
            return
        typed: dict[str, object] = {}
        for form in self.forms:
            values = form.values()
            typed |= {name: values[name] for name in form.fields}
        draft = self._with_cells(vessels.drafted(self._vessel, typed))
        settings, texts = self.workspace.settings, self.workspace.texts
        self._show_view(vessels.view_vessel(draft, self._shelf, settings, texts, self._version))

    def _with_cells(self, draft: Vessel) -> Vessel:
        """The vessel with the cell that is being typed in."""
        for table in self.tables:
            if table.typed_cell is not None:
                rows = vessel_typing.values_with(
                    self.workspace, table.part, table.model.rows, table.typed_cell
                )
                draft = vessel_typing.with_rows(draft, table.part, rows)
        return draft

    def _show_beside(self, view: VesselView) -> None:
        """Say beside a field why its value does not fit; what cannot be read is told already."""
        said = {n: self.workspace.texts.say(f) for n, f in view.beside_fields.items()}
        for name, field in self.first.fields.items():
            before, now = self._beside.get(name, ""), said.get(name, "")
            if field.trouble.sentence not in {"", before}:
                continue
            if now:
                field.show_trouble(now)
            elif before:
                field.clear_trouble()
        self._beside = said

    def _show_view(self, view: VesselView) -> None:
        texts, measures = self.workspace.texts, view.measures
        settings = self.workspace.settings
        self.picture.show_drawing(view.drawing)
        self._show_beside(view)
        holds = contents_lines(view.contents, texts, settings)
        cut = cut_line(view, texts)
        self.cut.setText(cut)
        self.cut.setVisible(bool(cut))
        fillable = measures.line_ml is not None and self.recipe.combo.count() > 1
        for widget in (self.recipe_name, self.recipe):
            widget.setVisible(fillable)
        self.holds.setText("\n".join(holds))
        self.holds.setVisible(bool(holds))
        said = box_line(view, texts)
        self.box.setText(said)
        self.box.setVisible(bool(said))
        self.how_filled.explain(how_filled(view, texts))
        self.findings.show_findings(texts, view.general)
        self.findings.setVisible(bool(view.general))
        self.diameters.show_results((), view.about_shape)
        for table, found in ((self.line, measures.line), (self.brim, measures.brim)):
            about = view.about_weighings(table.part.level)
            how = how_measured(found, texts, settings)
            table.show_results(capacity_lines(found, texts), about, how)

    # -- choosing --------------------------------------------------------------------------------
    def _choose_recipe(self, word: str) -> None:
        vessels.remember_recipe(self.workspace, int(word) if word else None, origin=self)
        if self._shelf is not None:
            self._version = vessels.remembered_version(self.workspace, self._shelf)
        self.recipe.show_stored(word)
        self._typed()

    def _choose_scale(self, word: str) -> None:
        if self._vessel is not None:
            scale = int(word) if word else None
            vessel_parts.set_scale(self.workspace, self._vessel.id, scale, origin=self)


def _stored(vessel: Vessel | None, name: str) -> object:
    value = getattr(vessel, name, None)
    return int(value) if isinstance(value, bool) else value
