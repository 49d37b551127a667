"""Where a printer puts things: the page to print, the eight distances, and what they say."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QDialog, QGridLayout, QHBoxLayout, QVBoxLayout

from wickbench.app import printing
from wickbench.app.calibrations import (
    CROSSHAIR_NAMES,
    forget_calibration,
    keep_calibration,
    kept_calibration,
    measured_findings,
)
from wickbench.app.edit import read_field
from wickbench.app.fields import field
from wickbench.app.texts_marker import N_
from wickbench.documents.calibration import crosshairs
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.gui.fields.form import readings_of
from wickbench.gui.fields.line_field import QuantityField
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace
    from wickbench.documents.calibration import Point

DISTANCE = field("calibration", "distance_mm", N_("Distance"), "length", low=0, high=1500)


class CalibrationDialog(QDialog):
    """Print the page, measure four crosshairs, keep the correction of a printer and tray."""

    def __init__(
        self,
        workspace: Workspace,
        ask: Ask,
        place: tuple[str, str],
        page_mm: tuple[float, float],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._workspace, self._ask = workspace, ask
        self._printer, self._tray = place
        self._page_mm = page_mm
        texts = workspace.texts
        self.setWindowTitle(texts("Correct the printer’s position"))
        self.page_button = button(texts("Calibration page as PDF…"))
        self.fields = [(self._field(at, 0), self._field(at, 1)) for at in range(4)]
        self.findings = FindingsList()
        self.keep = button(texts("Keep the correction"), "primary")
        self.forget = button(texts("Print without correction"))
        self.close_button = button(texts("Close"))
        self._lay_out()
        self.page_button.clicked.connect(self.write_page)
        self.keep.clicked.connect(self.keep_points)
        self.forget.clicked.connect(self._forget)
        self.close_button.clicked.connect(self.reject)
        self._show_kept()
        name_attributes(self)

    def _field(self, at: int, axis: int) -> QuantityField:
        texts = self._workspace.texts
        side = texts(N_("from the left")) if axis == 0 else texts(N_("from the top"))
        made = QuantityField(f"{texts(CROSSHAIR_NAMES[at])}, {side}")
        made.setObjectName(f"point_{at}_{'xy'[axis]}")
        meant = crosshairs(*self._page_mm)[at][axis]
        made.show_assumed(texts.units.full(meant, "length"))
        made.edited.connect(partial(self._typed, made))
        return made

    def _lay_out(self) -> None:
        texts = self._workspace.texts
        box = QVBoxLayout(self)
        box.setContentsMargins(24, 16, 24, 16)
        box.setSpacing(12)
        name = ", ".join(part for part in (self._printer, self._tray) if part)
        box.addWidget(heading(name or texts("Any printer")))
        steps = N_(
            "Print the page at actual size from this printer and tray. Measure the middle of each "
            "crosshair from the left and the top edge of the paper."
        )
        box.addWidget(label(texts(steps)))
        box.addWidget(self.page_button)
        grid = QGridLayout()
        grid.addWidget(label(texts("from the left"), "quiet"), 0, 1)
        grid.addWidget(label(texts("from the top"), "quiet"), 0, 2)
        for at, pair in enumerate(self.fields):
            grid.addWidget(label(texts(CROSSHAIR_NAMES[at]), wrap=False), at + 1, 0)
            for axis, one in enumerate(pair):
                grid.addWidget(one, at + 1, axis + 1)
        box.addLayout(grid)
        box.addWidget(self.findings)
        line = QHBoxLayout()
        line.addWidget(self.forget)
        line.addStretch(1)
        line.addWidget(self.close_button)
        line.addWidget(self.keep)
        box.addLayout(line)

    def _show_kept(self) -> None:
        kept = kept_calibration(self._workspace, self._printer, self._tray)
        self.forget.setEnabled(kept is not None)
        if kept is None:
            return
        units = self._workspace.texts.units
        for pair, point in zip(self.fields, kept.points, strict=False):
            for one, value in zip(pair, point, strict=True):
                one.show_stored(units.full(value, "length"))
        self._say()

    def _typed(self, made: QuantityField, _typed: str) -> None:
        made.clear_trouble()
        self._say()

    def points(self) -> tuple[Point, ...] | None:
        """The four places as typed; ``None`` while one is missing or cannot be read."""
        found = []
        for pair in self.fields:
            values = [self._read(one) for one in pair]
            if values[0] is None or values[1] is None:
                return None
            found.append((values[0], values[1]))
        return tuple(found)

    def _read(self, made: QuantityField) -> float | None:
        try:
            value = read_field(self._workspace, DISTANCE, made.text())
        except DomainError as error:
            made.show_trouble(self._workspace.texts.say(error), readings_of(error))
            return None
        return float(value) if isinstance(value, int | float) else None

    def _say(self) -> None:
        points = self.points()
        found = measured_findings(self._page_mm, points) if points is not None else ()
        self.findings.show_findings(self._workspace.texts, found)

    def keep_points(self) -> None:
        """Keep the correction, or say what is missing."""
        points = self.points()
        texts = self._workspace.texts
        if points is None:
            missing = Finding(Rank.STOPS, "calibration.point-missing")
            self.findings.show_findings(texts, (missing,))
            return
        found = measured_findings(self._page_mm, points)
        if any(one.rank is Rank.STOPS for one in found):
            self.findings.show_findings(texts, found)
            return
        keep_calibration(self._workspace, self._printer, self._tray, self._page_mm, points)
        self.accept()

    def _forget(self) -> None:
        forget_calibration(self._workspace, self._printer, self._tray)
        self.accept()

    def write_page(self) -> None:
        """Ask where, and write the page with bar and crosshairs."""
        texts = self._workspace.texts
        path = self._ask.save_path(
            texts("Where shall the calibration page be kept?"),
            f"{texts('Calibration page')}.pdf",
            texts("PDF files (*.pdf)"),
        )
        if path is None:
            return
        try:
            printing.write_calibration_page(self._workspace, self._page_mm, path)
        except DomainError as error:
            self._ask.tell(texts.say(error))
