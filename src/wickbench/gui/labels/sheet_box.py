"""The sticker sheet of a print run: chosen, or entered right here by its measures."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from wickbench.app import print_runs, shelf_edit
from wickbench.app.fields import field
from wickbench.app.material_estimates import estimate_texts
from wickbench.app.material_fields import SHEET_FIELDS
from wickbench.app.print_run_view import sheet_values
from wickbench.app.sheet_twins import twin_finding, twin_of, use_twin
from wickbench.app.sticker_sheets import sheet_findings
from wickbench.app.texts_marker import N_
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.fields.form import FieldForm
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.labels.elements_box import button_row
from wickbench.gui.labels.ruler_dialog import RulerDialog
from wickbench.gui.labels.sheet_words import sheet_words
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading

if TYPE_CHECKING:
    from wickbench.app.fields import FieldSpec
    from wickbench.app.texts import Texts
    from wickbench.gui.labels.desk import Desk

NAME: Final = field("item", "name", N_("Name of the sheet"), "text")
ACROSS: Final = ("page_w_mm", "columns", "sticker_w_mm", "left_mm", "pitch_x_mm", "shape")
DOWN: Final = ("page_h_mm", "rows", "sticker_h_mm", "top_mm", "pitch_y_mm", "corner_mm")
NEW_SHEET: Final[dict[str, object]] = {"page": "A4", "shape": "rectangle"}


def _without_group(spec: FieldSpec) -> FieldSpec:
    more = {"low": spec.low, "high": spec.high, "choices": spec.choices}
    return field(spec.table, spec.name, spec.label, spec.kind, **more)  # type: ignore[arg-type]  # a row of the same table


class SheetBox(QWidget):
    """Chooser, buttons, and the measures of the chosen sheet folded away until asked for.

    Signals:
        typing: the sheet's measures while they are typed.
        scan_requested: the sheet is to be found in a scan.
    """

    typing = Signal()
    scan_requested = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        workspace, texts = desk.workspace, desk.workspace.texts
        self.sheet = ChoiceField(texts("Sticker sheet"), ())
        self.measures_button = button(texts("Measures"))
        self.measures_button.setCheckable(True)
        self.new_sheet = button(texts("New sheet"))
        self._make_acts(texts)
        specs = {spec.name: _without_group(spec) for spec in SHEET_FIELDS}
        self.name_form = FieldForm(workspace, (NAME, specs["page"]))
        self.across = FieldForm(workspace, [specs[name] for name in ACROSS])
        self.down = FieldForm(workspace, [specs[name] for name in DOWN])
        self.measures = QWidget()
        self.findings = FindingsList(N_("The measures fit the page."))
        self._lay_out(texts("Sticker sheet"))
        self.sheet.committed.connect(self._choose)
        self.new_sheet.clicked.connect(self.begin_sheet)
        self.measures_button.toggled.connect(self.measures.setVisible)
        for form in (self.name_form, self.across, self.down):
            form.edited.connect(self._typed)
            form.committed.connect(self._typed)
        name_attributes(self)

    def _make_acts(self, texts: Texts) -> None:
        """Buttons beside the measures."""
        self.ruler = button(texts("Measure with a ruler…"))
        self.scan = button(texts("Find it in a scan…"))
        self.duplicate = button(texts("Duplicate this sheet"))
        self.use_twin = button(texts("Use that sheet instead"))
        self._twin: int | None = None
        self.ruler.clicked.connect(self.open_ruler)
        self.scan.clicked.connect(self.scan_requested)
        self.duplicate.clicked.connect(self.duplicate_sheet)
        self.use_twin.clicked.connect(self._use_twin)

    def _lay_out(self, title: str) -> None:
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        box.addWidget(heading(title))
        line = QHBoxLayout()
        line.addWidget(self.sheet, 1)
        line.addWidget(self.measures_button)
        line.addWidget(self.new_sheet)
        box.addLayout(line)
        inside = QVBoxLayout(self.measures)
        inside.setContentsMargins(0, 0, 0, 0)
        inside.addWidget(self.name_form)
        inside.addLayout(button_row(self.ruler, self.scan, self.duplicate))
        sides = QHBoxLayout()
        sides.setSpacing(12)
        for form in (self.across, self.down):
            form.prepare_narrow()
            column = QVBoxLayout()
            column.addWidget(form)
            column.addStretch(1)
            sides.addLayout(column, 1)
        inside.addLayout(sides)
        inside.addWidget(self.findings)
        inside.addWidget(self.use_twin, 0, Qt.AlignmentFlag.AlignLeft)
        self.measures.setVisible(False)
        box.addWidget(self.measures)

    def refresh(self) -> None:
        """Show the sheets and the chosen one."""
        self.sheet.set_pairs(self._offered())
        chosen = self._desk.run.sheet_id
        self.sheet.show_stored("" if chosen is None else str(chosen))
        self.measures_button.setEnabled(chosen is not None)
        if chosen is None:
            self.measures_button.setChecked(False)
        values = sheet_values(self._desk.workspace, chosen) if chosen is not None else {}
        for form in (self.name_form, self.across, self.down):
            form.show_record(chosen, values)
        self._assume(values)
        self._show_findings(values)

    def _show_findings(self, values: dict[str, object]) -> None:
        """What stands in the way, and whether the sheet is there already."""
        chosen, texts = self._desk.run.sheet_id, self._desk.workspace.texts
        found = list(sheet_findings(values))
        twin = twin_of(self._desk.shelf, chosen, values) if chosen is not None else None
        self._twin = twin.id if twin is not None else None
        if twin is not None:
            found.append(twin_finding(twin))
        self.findings.show_findings(texts, found)
        self.use_twin.setVisible(twin is not None)

    def begin_sheet(self) -> None:
        """A new sticker sheet, chosen at once, its measures unfolded."""
        workspace = self._desk.workspace
        letter = workspace.settings.regions == ("US",)
        page = {"page": "Letter"} if letter else {}
        key = shelf_edit.new_item(workspace, "sheet", {}, {**NEW_SHEET, **page})
        self._desk.run_id = print_runs.choose_sheet(workspace, self._desk.run_id, key)
        self.measures_button.setChecked(True)
        self.name_form.focus("name")

    def duplicate_sheet(self) -> None:
        """A copy of the chosen sheet as a start for another one, chosen at once."""
        chosen = self._desk.run.sheet_id
        if chosen is None:
            return
        workspace = self._desk.workspace
        key = shelf_edit.duplicate_item(workspace, chosen)
        self._desk.run_id = print_runs.choose_sheet(workspace, self._desk.run_id, key)
        self.measures_button.setChecked(True)
        self.name_form.focus("name")

    def open_ruler(self) -> None:
        """Open the readings of a ruler for the chosen sheet."""
        chosen = self._desk.run.sheet_id
        if chosen is None:
            return
        dialog = RulerDialog(self._desk.workspace, chosen, self)
        dialog.setObjectName("ruler_dialog")
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def _use_twin(self) -> None:
        run_id, chosen = self._desk.run_id, self._desk.run.sheet_id
        if run_id is not None and chosen is not None and self._twin is not None:
            use_twin(self._desk.workspace, run_id, chosen, self._twin)

    def typed_values(self) -> dict[str, object]:
        """The sheet's values with what is being typed in place of what is stored."""
        chosen = self._desk.run.sheet_id
        if chosen is None:
            return {}
        stored = sheet_values(self._desk.workspace, chosen)
        forms = (self.name_form, self.across, self.down)
        typed = {name: one for form in forms for name, one in self._of(form, stored).items()}
        return {**stored, **typed}

    @staticmethod
    def _of(form: FieldForm, stored: dict[str, object]) -> dict[str, object]:
        typed = form.values()
        return {name: typed.get(name, stored.get(name)) for name in form.fields}

    def _offered(self) -> list[tuple[str, str]]:
        texts, shelf = self._desk.workspace.texts, self._desk.shelf
        chosen = self._desk.run.sheet_id
        kept = [
            one
            for one in shelf.materials.values()
            if one.kind == "sheet" and (not one.archived or one.id == chosen)
        ]
        kept.sort(key=lambda one: one.name.casefold())
        pairs = [(str(one.id), sheet_words(texts, one, shelf.on_hand.get(one.id))) for one in kept]
        return [("", texts("Choose a sheet…")), *pairs]

    def _choose(self, typed: str) -> None:
        key = int(typed) if typed else None
        self._desk.run_id = print_runs.choose_sheet(self._desk.workspace, self._desk.run_id, key)

    def _typed(self, *_: object) -> None:
        values = self.typed_values()
        self._assume(values)
        self._show_findings(values)
        self._desk.measures = values
        self._desk.lay_out()
        self.typing.emit()

    def _assume(self, values: dict[str, object]) -> None:
        assumed = estimate_texts(self._desk.workspace.texts, "sheet", values)
        self.across.show_assumed(assumed)
        self.down.show_assumed(assumed)
