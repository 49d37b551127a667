"""Filled candles on the scale, beneath the net weight of a candle."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout, QWidget

from wickbench.app import net_checks
from wickbench.app.texts_marker import N_
from wickbench.app.vessel_fields import WEIGHING_FIELDS
from wickbench.app.vessel_tables import NET_CHECKS
from wickbench.app.vessel_typing import values_with
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.fields.made_field import reference_pairs
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import label
from wickbench.gui.tables.column import Column
from wickbench.gui.vessels.measure_table import MeasureTable

if TYPE_CHECKING:
    from wickbench.app.net_checks import NetChecks
    from wickbench.app.shelf import Shelf
    from wickbench.app.vessel_parts import PartRow
    from wickbench.app.workspace import Workspace

_SCALE = next(spec for spec in WEIGHING_FIELDS if spec.name == "scale_id")
_ABOUT = N_(
    "Weigh each jar empty, with its wick, and again filled: then the label says what is in it."
)


class NetChecksPanel(QWidget):
    """A table of jars weighed empty and filled, what it says of the label, and the scale."""

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self._candle: int | None = None
        self._declared_g: float | None = None
        self._shelf: Shelf | None = None
        self._checks: NetChecks | None = None
        net: Column[PartRow] = Column(
            key="net", title=N_("Net"), show=self._net, numeric=True, look=self._look
        )
        self.weighed = MeasureTable(workspace, NET_CHECKS, (net,))
        self.about = label(texts(_ABOUT), "quiet")
        self.scale_name = label(texts(_SCALE.label), "quiet")
        self.scale = ChoiceField(texts(_SCALE.label), [])
        self.scale_name.setBuddy(self.scale.editor)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(6)
        for widget in (self.weighed, self.about, self.scale_name, self.scale):
            box.addWidget(widget)
        self.weighed.typed.connect(self._work_out)
        self.scale.committed.connect(self._choose_scale)
        name_attributes(self)

    def _net(self, row: PartRow) -> str:
        checks = self._checks
        if checks is None or row.values.get("filled_g") is None:
            return ""
        return net_checks.net_text(checks.net_by_row.get(row.id), checks, self.workspace.texts)

    def _look(self, row: PartRow) -> str:
        known = self._checks is not None and self._checks.net_by_row.get(row.id) is not None
        return "" if known else "quiet"

    # -- showing ---------------------------------------------------------------------------------
    def show_candle(self, candle: int | None, shelf: Shelf) -> None:
        """Show the rows of a candle; a cell under the person's hands stays as it is."""
        self._candle, self._shelf = candle, shelf
        if candle is not None:
            self.scale.set_pairs(reference_pairs(self.workspace, _SCALE))
            scale = net_checks.scale_of(self.workspace, candle)
            self.scale.show_stored("" if scale is None else str(scale))
        self.weighed.show_vessel(candle)
        self._work_out()

    def show_declared(self, declared_g: float | None) -> None:
        """Compare with this declared weight, stored or as it is being typed."""
        if declared_g != self._declared_g:
            self._declared_g = declared_g
            self._work_out()

    def _work_out(self) -> None:
        if self._shelf is None:
            return
        rows, typed = self.weighed.model.rows, self.weighed.typed_cell
        values = [{**row.values, "id": row.id} for row in rows]
        if typed is not None:
            values = values_with(self.workspace, NET_CHECKS, rows, typed)
        texts, settings = self.workspace.texts, self.workspace.settings
        checks = net_checks.view_checks(values, self._declared_g, self._shelf, settings)
        self._checks = checks
        lines = net_checks.check_lines(checks, texts)
        self.weighed.show_results(lines, checks.findings, net_checks.how_checked(checks, texts))
        self.weighed.table.viewport().update()
        self.about.setVisible(not rows)
        for widget in (self.scale_name, self.scale):
            widget.setVisible(bool(rows))

    # -- changing --------------------------------------------------------------------------------
    def _choose_scale(self, word: str) -> None:
        if self._candle is not None:
            scale = int(word) if word else None
            net_checks.set_scale(self.workspace, self._candle, scale, origin=self)
