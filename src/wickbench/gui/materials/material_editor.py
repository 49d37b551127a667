"""The form of one material: its names, its stock, the fields of its kind, what is worth saying."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from wickbench.app import materials
from wickbench.app.material_fields import (
    COMMON_FIELDS,
    DETAIL_FIELDS,
    KIND_NAMES,
    LEAD_FIELDS,
    NOTE_FIELD,
)
from wickbench.app.texts_marker import N_
from wickbench.domain.findings import Finding, Rank
from wickbench.gui.fields.form import FieldForm
from wickbench.gui.findings_list import RANK_LOOKS, FindingsList
from wickbench.gui.icons import set_icon
from wickbench.gui.materials.sheet_drawing import SheetDrawing
from wickbench.gui.materials.stock_panel import StockPanel
from wickbench.gui.materials.wax_measuring import WaxMeasuring
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.materials import MaterialView
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace


class MaterialEditor(QWidget):
    """Shows one material; the fields of each kind are built when that kind is first shown.

    Signals:
        bring_back_requested: the person wants what was put away back on the shelf.
    """

    bring_back_requested = Signal()

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        self.workspace = workspace
        self.record: int | None = None
        self.details: FieldForm | None = None
        self._forms: dict[str, FieldForm] = {}
        self._stored: Mapping[str, object] = {}
        self.kind = label("", "quiet")
        self.summary = button("", "flat")
        self.summary.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.summary.clicked.connect(self._go_to_findings)
        self.put_away = self._put_away_banner()
        self.names = FieldForm(workspace, COMMON_FIELDS)
        self.stock = StockPanel(workspace)
        self.measuring = WaxMeasuring(workspace)
        self.drawing = SheetDrawing()
        self.findings_heading = heading(workspace.texts(N_("Worth knowing")))
        self.findings = FindingsList()
        self.notes = FieldForm(workspace, (*LEAD_FIELDS, NOTE_FIELD))
        self._lay_out()
        for form in (self.names, self.notes):
            form.edited.connect(self._typed)
        name_attributes(self)

    def _put_away_banner(self) -> QWidget:
        banner = QWidget()
        self.bring_back = button(self.texts(N_("Bring it back")))
        self.bring_back.clicked.connect(self.bring_back_requested)
        row = QHBoxLayout(banner)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(label(self.texts(N_("This is put away.")), "watch"), 1)
        row.addWidget(self.bring_back)
        return banner

    def _lay_out(self) -> None:
        self._kinds = QVBoxLayout()
        self._kinds.setContentsMargins(0, 0, 0, 0)
        top = QHBoxLayout()
        top.addWidget(self.kind, 1)
        top.addWidget(self.summary)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(16)
        box.addLayout(top)
        for widget in (self.put_away, self.names, self.stock, self.drawing):
            box.addWidget(widget)
        box.addLayout(self._kinds)
        for widget in (self.measuring, self.findings_heading, self.findings, self.notes):
            box.addWidget(widget)

    @property
    def texts(self) -> Texts:
        """Sentences and units as they are now."""
        return self.workspace.texts

    def show_record(self, record: int | None) -> MaterialView | None:
        """Show a material's stored values; ``None`` empties the form."""
        self.record = record
        self.stock.show_item(record)
        self.measuring.show_item(record)
        if record is None:
            return None
        self._stored = materials.stored_values(self.workspace, record)
        view = materials.material_view(self.texts, self._stored)
        self._show_form(view.kind)
        self.kind.setText(self.texts(KIND_NAMES[view.kind]))
        for form in self._shown_forms():
            form.show_record(record, view.values)
        self.put_away.setVisible(view.put_away)
        self._show(view)
        return view

    def _shown_forms(self) -> tuple[FieldForm, ...]:
        return tuple(form for form in (self.names, self.details, self.notes) if form is not None)

    def _show_form(self, kind: str) -> None:
        if kind not in self._forms:
            form = FieldForm(self.workspace, DETAIL_FIELDS[kind])
            form.edited.connect(self._typed)
            form.setObjectName(f"{kind}_details")
            self._forms[kind] = form
            self._kinds.addWidget(form)
        for name, form in self._forms.items():
            form.setVisible(name == kind)
        self.details = self._forms[kind]

    def typed_values(self) -> dict[str, object]:
        """Stored values with what is being typed in their place, as far as it can be read."""
        values = dict(self._stored)
        for form in self._shown_forms():
            typed = form.values()
            values |= {name: typed[name] for name in form.fields if name in typed}
        return values

    def _typed(self, *_: object) -> None:
        if self.record is not None:
            self._show(materials.material_view(self.texts, self.typed_values()))

    def _show(self, view: MaterialView) -> None:
        if self.details is not None:
            self.details.show_assumed(view.assumed)
        self.findings.show_findings(self.texts, view.findings)
        self.findings_heading.setVisible(bool(view.findings))
        self._summarise(view.findings)
        if view.kind == "sheet":
            self.drawing.show_values(self.texts, view.values)
        else:
            self.drawing.setVisible(False)

    def _summarise(self, findings: tuple[Finding, ...]) -> None:
        """One line of fixed height at the top, so that nothing jumps while typing."""
        counts = {rank: sum(one.rank == rank for one in findings) for rank in Rank}
        said = [
            self.texts(sentence, n=counts[rank])
            for rank, sentence in _COUNTED.items()
            if counts[rank]
        ]
        worst = max((one.rank for one in findings), default=None)
        look = "fine" if worst is None else RANK_LOOKS[worst]
        self.summary.setText(" · ".join(said) or self.texts(N_("All well")))
        set_icon(self.summary, look, colours_of(self))

    def _go_to_findings(self) -> None:
        area = self.parentWidget()
        while area is not None and not isinstance(area, QScrollArea):
            area = area.parentWidget()
        if isinstance(area, QScrollArea):
            area.ensureWidgetVisible(self.findings, 0, 16)


_COUNTED = {
    Rank.STOPS: N_("{n} stops you"),
    Rank.WATCH: N_("{n} to watch"),
    Rank.NOTE: N_("{n} to note"),
}
