"""A sticker sheet measured with a ruler: what was read, what it gives, and what would help."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtWidgets import QDialog, QGridLayout, QHBoxLayout, QVBoxLayout
from typing_extensions import override

from wickbench.app.fields import field
from wickbench.app.print_run_view import sheet_values
from wickbench.app.sheet_measuring_words import how_measured, measured_line
from wickbench.app.sheet_readings import (
    COUNT_NAMES,
    SIDES,
    MeasuredSheet,
    kept_readings,
    measured_sheet,
    take_measures,
)
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.sheet_measuring import SideReadings
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.labels.measure_fields import MeasureFields
from wickbench.gui.labels.ruler_picture import RulerPicture
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from wickbench.app.workspace import Workspace

READINGS: Final = {
    "first_near_mm": N_("Paper’s edge to the near edge of the first"),
    "last_near_mm": N_("Paper’s edge to the near edge of the last"),
    "last_far_mm": N_("Paper’s edge to the far edge of the last"),
    "size_mm": N_("One sticker"),
}
SIDE_NAMES: Final = {"across": N_("across"), "down": N_("down")}
READING: Final = field("sheet", "reading_mm", N_("Distance"), "length", low=0, high=1500)
COUNT: Final = field("sheet", "columns", N_("Stickers"), "count", low=1, high=100)


class RulerDialog(QDialog):
    """Readings across and down, the measures they give, and the button that takes them."""

    def __init__(self, workspace: Workspace, sheet_id: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._workspace, self._sheet_id = workspace, sheet_id
        self._stored = sheet_values(workspace, sheet_id)
        texts = workspace.texts
        self.setWindowTitle(texts("Measure a sheet with a ruler"))
        self.inputs = MeasureFields(workspace, self)
        self.picture = RulerPicture(texts("What to measure"))
        self.results = label("")
        self.findings = FindingsList()
        self.how = HowComputed(texts)
        self.take = button(texts("Take these measures"), "primary")
        self.close_button = button(texts("Close"))
        self._lay_out()
        self._show_stored()
        self.inputs.typed.connect(self._say)
        self.take.clicked.connect(self.take_measures)
        self.close_button.clicked.connect(self.reject)
        for made in self.inputs.fields.values():
            made.editor.installEventFilter(self)
        self._say()
        name_attributes(self)

    def _lay_out(self) -> None:
        texts = self._workspace.texts
        box = QVBoxLayout(self)
        box.setContentsMargins(24, 16, 24, 16)
        box.setSpacing(12)
        about = N_(
            "Lay the ruler’s zero on the paper’s left edge, then on its top edge, and read to half "
            "a millimetre. Three readings of each side are enough; a fourth makes them surer."
        )
        box.addWidget(label(texts(about)))
        middle = QHBoxLayout()
        middle.setSpacing(24)
        middle.addLayout(self._grid(), 1)
        middle.addWidget(self.picture, 0, Qt.AlignmentFlag.AlignTop)
        box.addLayout(middle)
        box.addWidget(heading(texts("What they give")))
        box.addWidget(self.results)
        box.addWidget(self.how, 0, Qt.AlignmentFlag.AlignLeft)
        box.addWidget(self.findings)
        box.addStretch(1)
        line = QHBoxLayout()
        line.addStretch(1)
        line.addWidget(self.close_button)
        line.addWidget(self.take)
        box.addLayout(line)
        self.setMinimumWidth(self.fontMetrics().averageCharWidth() * 92)

    def _grid(self) -> QGridLayout:
        texts = self._workspace.texts
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(6)
        rows = {"count": N_("Stickers"), **READINGS}
        for column, side in enumerate(SIDES, start=1):
            grid.addWidget(label(texts(SIDE_NAMES[side]), "quiet"), 0, column)
        for row, (name, words) in enumerate(rows.items(), start=1):
            grid.addWidget(label(texts(words)), row, 0)
            for column, side in enumerate(SIDES, start=1):
                spec = COUNT if name == "count" else READING
                said = f"{texts(words)}, {texts(SIDE_NAMES[side])}"
                grid.addWidget(self.inputs.add(f"{side}_{name}", spec, said), row, column)
        grid.setColumnStretch(0, 3)
        grid.setColumnStretch(1, 2)
        grid.setColumnStretch(2, 2)
        return grid

    def _show_stored(self) -> None:
        kept = kept_readings(self._stored)
        shown: dict[str, float | None] = {}
        for side in SIDES:
            count = self._stored.get(COUNT_NAMES[side])
            shown[f"{side}_count"] = float(count) if isinstance(count, int | float) else None
            shown |= {f"{side}_{name}": getattr(kept[side], name) for name in READINGS}
        self.inputs.show_values(shown)

    # -- what they give --------------------------------------------------------------------------
    def counts(self) -> dict[str, int]:
        """Stickers across and down as typed; one where nothing is."""
        typed = self.inputs.values()
        return {COUNT_NAMES[side]: int(typed[f"{side}_count"] or 1) for side in SIDES}

    def readings(self) -> dict[str, SideReadings]:
        """What was read of each side.

        Raises:
            OutOfRange: a reading that cannot be.
        """
        typed = self.inputs.values()
        return {
            side: SideReadings(**{name: typed[f"{side}_{name}"] for name in READINGS})
            for side in SIDES
        }

    def measured(self) -> MeasuredSheet:
        """What the readings give so far."""
        try:
            return measured_sheet({**self._stored, **self.counts()}, self.readings())
        except OutOfRange as error:
            return MeasuredSheet(findings=(Finding(Rank.STOPS, error.key, error.data),))

    def _say(self) -> None:
        texts, found = self._workspace.texts, self.measured()
        lines = [measured_line(texts, one) for one in found.compared]
        nothing = N_("Type at least three readings of a side.")
        self.results.setText("\n".join(lines) or texts(nothing))
        self.findings.show_findings(texts, found.findings)
        self.how.explain(how_measured(texts) if lines else ())
        stopped = any(one.rank is Rank.STOPS for one in found.findings)
        self.take.setEnabled(bool(lines) and not stopped)

    def take_measures(self) -> None:
        """Put the measures into the sheet, or show what cannot be read."""
        trouble = self.inputs.first_trouble()
        if trouble is not None:
            trouble.editor.setFocus()
            return
        values = {**self.counts(), **self.measured().values}
        take_measures(self._workspace, self._sheet_id, values, ruler=self.readings())
        self.accept()

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Draw the distance that the field in hand asks for."""
        if event.type() == QEvent.Type.FocusIn:
            for name, made in self.inputs.fields.items():
                side, _, reading = name.partition("_")
                if made.editor is watched and reading in READINGS:
                    self.picture.show_reading(side, reading)
        return super().eventFilter(watched, event)
