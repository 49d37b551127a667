"""A sticker sheet found in a scan: shown over the picture, corrected, and taken."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QDialog, QGridLayout, QHBoxLayout, QVBoxLayout

from wickbench.app.fields import field
from wickbench.app.print_run_view import sheet_values
from wickbench.app.sheet_measuring_words import measured_line
from wickbench.app.sheet_readings import take_measures
from wickbench.app.sheet_scans import FoundSheet, find_in_scan, kept_scan, scan_sentence
from wickbench.app.sticker_sheets import sheet_findings, sheet_of
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Rank
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.labels.measure_fields import MeasureFields
from wickbench.gui.labels.scan_picture import ScanPicture
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, label

if TYPE_CHECKING:
    from pathlib import Path

    from PySide6.QtWidgets import QWidget

    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace

_PICTURES: Final = N_("Scans (*.png *.jpg *.jpeg *.tif *.tiff *.bmp)")
_ASKED: Final = N_("Which scan shows the empty sheet?")
MEASURES: Final = (
    field("sheet", "columns", N_("Stickers across"), "count", low=1, high=60),
    field("sheet", "rows", N_("Stickers down"), "count", low=1, high=100),
    field("sheet", "sticker_w_mm", N_("Sticker width"), "length", low=3, high=1000),
    field("sheet", "sticker_h_mm", N_("Sticker height"), "length", low=3, high=1500),
    field("sheet", "left_mm", N_("Left margin"), "length", low=0, high=500),
    field("sheet", "top_mm", N_("Top margin"), "length", low=0, high=500),
    field("sheet", "pitch_x_mm", N_("From one to the next, across"), "length", low=1, high=1000),
    field("sheet", "pitch_y_mm", N_("From one to the next, down"), "length", low=1, high=1500),
    field("sheet", "corner_mm", N_("Corner radius"), "length", low=0, high=100),
)


class ScanDialog(QDialog):
    """The scan with what was found, the measures beside it, and the button that takes them."""

    def __init__(
        self,
        workspace: Workspace,
        ask: Ask,
        sheet_id: int,
        found: tuple[FoundSheet, Path],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._workspace, self._ask, self._sheet_id = workspace, ask, sheet_id
        self._stored = sheet_values(workspace, sheet_id)
        texts = workspace.texts
        self.setWindowTitle(texts("Find a sheet in a scan"))
        self.picture = ScanPicture(texts("The scan with the stickers that were found"))
        self.inputs = MeasureFields(workspace, self)
        self.seen = label("")
        self.compared = label("", "quiet")
        self.findings = FindingsList()
        self.another = button(texts("Another scan…"))
        self.close_button = button(texts("Close"))
        self.take = button(texts("Take these measures"), "primary")
        self._lay_out()
        self.inputs.typed.connect(self._draw)
        self.another.clicked.connect(self._choose)
        self.close_button.clicked.connect(self.reject)
        self.take.clicked.connect(self.take_measures)
        self.show_found(*found)
        name_attributes(self)

    def _lay_out(self) -> None:
        texts = self._workspace.texts
        sides = QHBoxLayout(self)
        sides.setContentsMargins(24, 16, 24, 16)
        sides.setSpacing(24)
        sides.addWidget(self.picture, 1)
        column = QVBoxLayout()
        column.setSpacing(8)
        column.addWidget(self.seen)
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(4)
        for at, spec in enumerate(MEASURES):
            words = texts(spec.label)
            row, side = divmod(at, 2)
            grid.addWidget(label(words, "quiet"), 2 * row, side)
            grid.addWidget(self.inputs.add(spec.name, spec, words), 2 * row + 1, side)
        column.addLayout(grid)
        column.addWidget(self.compared)
        column.addWidget(self.findings)
        column.addStretch(1)
        column.addWidget(self.another, 0, Qt.AlignmentFlag.AlignLeft)
        line = QHBoxLayout()
        line.addStretch(1)
        line.addWidget(self.close_button)
        line.addWidget(self.take)
        column.addLayout(line)
        sides.addLayout(column, 1)
        self.setMinimumWidth(self.fontMetrics().averageCharWidth() * 110)

    def show_found(self, found: FoundSheet, path: Path) -> None:
        """Show what a scan gave."""
        self._found, self._path = found, path
        texts = self._workspace.texts
        self.picture.show_page(found.scanned.picture)
        self.seen.setText(scan_sentence(texts, found.scanned))
        differing = [measured_line(texts, one) for one in found.compared if one.differs]
        self.compared.setText("\n".join(differing))
        self.compared.setVisible(bool(differing))
        known = {spec.name: found.values.get(spec.name) for spec in MEASURES}
        self.inputs.show_values(
            {name: float(v) if isinstance(v, int | float) else None for name, v in known.items()}
        )
        self._draw()

    def values(self) -> dict[str, object]:
        """The sheet's fields as they stand in the dialog."""
        typed: dict[str, object] = dict(self.inputs.values())
        counts = {name: int(float(str(typed[name] or 1))) for name in ("columns", "rows")}
        kept = {name: value for name, value in typed.items() if value is not None}
        return {**kept, **counts, "shape": self._found.values["shape"]}

    def _draw(self) -> None:
        values = {**self._stored, **self.values(), "readings": None}
        found = sheet_findings(values)
        self.findings.show_findings(self._workspace.texts, found)
        self.take.setEnabled(not any(one.rank is Rank.STOPS for one in found))
        try:
            self.picture.show_sheet(sheet_of(values))
        except DomainError:
            self.picture.show_sheet(None)

    def _choose(self) -> None:
        chosen = ask_scan(self._workspace, self._ask, self._sheet_id)
        if chosen is not None:
            self.show_found(*chosen)

    def take_measures(self) -> None:
        """Put the measures into the sheet, or show what cannot be read."""
        trouble = self.inputs.first_trouble()
        if trouble is not None:
            trouble.editor.setFocus()
            return
        scan = kept_scan(self._found.scanned, self._path.name)
        take_measures(self._workspace, self._sheet_id, self.values(), scan=scan)
        self.accept()


def ask_scan(workspace: Workspace, ask: Ask, sheet_id: int) -> tuple[FoundSheet, Path] | None:
    """Ask for a scan and find the sheet in it; says so when it cannot."""
    texts = workspace.texts
    path = ask.open_path(texts(_ASKED), texts(_PICTURES))
    if path is None:
        return None
    QApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
    try:
        return find_in_scan(path, sheet_values(workspace, sheet_id)), path
    except DomainError as error:
        sentence = texts.say(error)
    finally:
        QApplication.restoreOverrideCursor()
    ask.tell(sentence)
    return None


def open_scan(workspace: Workspace, ask: Ask, sheet_id: int, parent: QWidget) -> ScanDialog | None:
    """Ask for a scan and show what is found in it; ``None`` when nothing is."""
    chosen = ask_scan(workspace, ask, sheet_id)
    if chosen is None:
        return None
    dialog = ScanDialog(workspace, ask, sheet_id, chosen, parent)
    dialog.setObjectName("scan_dialog")
    dialog.finished.connect(dialog.deleteLater)
    dialog.open()
    return dialog
