"""Measuring one's own wax: choose a way, follow its steps, and put the density to use."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any, Final

from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from wickbench.app import wax_measures, wax_measuring, wax_measuring_words
from wickbench.app.texts_marker import N_
from wickbench.app.wax_measuring_fields import WAY_ABOUT, WAY_NAMES, fields_of
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.trouble_line import TroubleLine
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.listening import Listener
from wickbench.gui.materials.entry_form import EntryForm
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.texts import Texts
    from wickbench.app.wax_measures import Bench, Measured, WaxMeasures
    from wickbench.app.workspace import Workspace

_KINDS: Final = frozenset({"materials", "vessels", "equipment", "settings"})


class MeasuredDensity(QWidget):
    """One density that was measured, how it came about, and the button that puts it to use."""

    def __init__(self, texts: Texts, which: str) -> None:
        super().__init__()
        self.which = which
        self.said = label()
        self.advice = label("", "quiet")
        self.use = button(texts(N_("Use this density")))
        self.use.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.how = HowComputed(texts)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(4)
        for widget in (self.said, self.advice, self.use, self.how):
            box.addWidget(widget)
        name_attributes(self)

    def show_measures(self, texts: Texts, measures: WaxMeasures) -> None:
        """Show what the measurements give; nothing hides it."""
        lines = wax_measuring_words.result_lines(texts, measures, self.which)
        self.said.setText("\n".join(lines))
        self.advice.setText(wax_measuring_words.advice_text(texts, measures, self.which))
        self.use.setVisible(not measures.in_use(self.which))
        self.how.explain(wax_measuring_words.how_measured(texts, measures, self.which))
        self.setVisible(bool(lines))


class WaxMeasuring(QWidget):
    """The measurements of the wax shown by ``show_item``; hidden for anything else."""

    def __init__(self, workspace: Workspace, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.workspace = workspace
        self.measures: WaxMeasures | None = None
        self.form: EntryForm | None = None
        self._bench: Bench | None = None
        texts = workspace.texts
        self.about = label(
            texts(
                N_("Densities are estimates until you measure yours: half an hour and a scale do.")
            ),
            "quiet",
        )
        self.ways = {way: self._way(way) for way in WAY_NAMES}
        self.model: RowModel[Any] = RowModel(lambda: self.texts, _columns(lambda: self.texts), _key)
        self.rows = TableView(self.model, texts(N_("Measurements")), most_rows=5, fewest_rows=1)
        self.leave_out = button(texts(N_("Leave out")))
        self.remove = button(texts(N_("Remove")))
        self.liquid, self.set = (MeasuredDensity(texts, which) for which in ("liquid", "set"))
        self.findings = FindingsList()
        self.trouble = TroubleLine()
        self._lay_out()
        self._connect()
        name_attributes(self)
        self._listener = Listener(workspace, self, _KINDS, self.refresh)

    def _way(self, way: str) -> Any:  # noqa: ANN401 - the kind of button that the page makes
        made = button(self.texts(N_("{way}…"), way=self.texts(WAY_NAMES[way])))
        made.setToolTip(self.texts(WAY_ABOUT[way]))
        made.setObjectName(f"way_{way}")
        made.clicked.connect(partial(self.begin, way))
        return made

    def _lay_out(self) -> None:
        self._box = QVBoxLayout(self)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(8)
        self._box.addWidget(heading(self.texts(N_("Measure it yourself"))))
        self._box.addWidget(self.about)
        for made in self.ways.values():
            made.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
            self._box.addWidget(made)
        self._form_at = self._box.count()
        self._box.addWidget(self.rows)
        acts = QHBoxLayout()
        acts.setSpacing(8)
        acts.addWidget(self.leave_out)
        acts.addWidget(self.remove)
        acts.addStretch(1)
        self._box.addLayout(acts)
        for widget in (self.liquid, self.set, self.trouble, self.findings):
            self._box.addWidget(widget)
        self.rows.setSelectionMode(TableView.SelectionMode.SingleSelection)

    def _connect(self) -> None:
        self.leave_out.clicked.connect(self._leave_out)
        self.remove.clicked.connect(self._remove)
        self.rows.chosen.connect(self._row_chosen)
        for shown in (self.liquid, self.set):
            shown.use.clicked.connect(partial(self._use, shown.which))

    @property
    def texts(self) -> Texts:
        """Sentences and units as they are now."""
        return self.workspace.texts

    # -- showing ---------------------------------------------------------------------------------
    def show_item(self, item_id: int | None) -> None:
        """Show the measurements of a wax; a half-typed one stays while it is the same wax."""
        if self.measures is not None and self.measures.wax_id != item_id:
            self._close_form()
            self.trouble.clear()
        found = None if item_id is None else wax_measures.load_measures(self.workspace, item_id)
        self.measures = found
        self.setVisible(found is not None)
        if found is not None:
            self._show(found)

    def refresh(self, changes: Changes | None = None) -> None:  # noqa: ARG002 - all is read again
        """Read the measurements of the same wax again."""
        if self.measures is not None:
            self.show_item(self.measures.wax_id)

    def _show(self, measures: WaxMeasures) -> None:
        self.model.set_rows(measures.rows)
        for widget in (self.rows, self.leave_out, self.remove):
            widget.setVisible(bool(measures.rows))
        self.about.setVisible(not measures.rows)
        for shown in (self.liquid, self.set):
            shown.show_measures(self.texts, measures)
        found = wax_measuring_words.odd_findings(self.texts, measures)
        self.findings.show_findings(self.texts, found)
        self.findings.setVisible(bool(found))
        self._row_chosen()

    def _row_chosen(self, *_: object) -> None:
        row = self.chosen
        for act in (self.leave_out, self.remove):
            act.setEnabled(row is not None)
        again = row is not None and row.left_out
        self.leave_out.setText(self.texts(N_("Count again") if again else N_("Leave out")))

    @property
    def chosen(self) -> Measured | None:
        """The measurement that the person is on; the only one when there is one."""
        row: Measured | None = self.model.at(self.rows.currentIndex())
        if row is None and self.measures is not None and len(self.measures.rows) == 1:
            return self.measures.rows[0]
        return row

    # -- measuring -------------------------------------------------------------------------------
    def begin(self, way: str, *_: object) -> None:
        """Open the steps of a way."""
        if self.measures is None:
            return
        self._close_form()
        self._bench = wax_measures.bench_for(self.workspace, self.measures.wax_id)
        if self._bench is None:
            return
        jars = wax_measures.jars_of(self._bench.shelf, self._bench.settings, self.texts)
        title = self.texts(WAY_NAMES[way])
        form = EntryForm(self.workspace, title, fields_of(way, jars), self.texts(N_("Write down")))
        form.setObjectName("form")
        form.given_up.connect(self._close_form)
        form.edited.connect(partial(self._preview, way))
        form.accepted.connect(partial(self._write, way))
        self._box.insertWidget(self._form_at, form)
        self.form = form
        form.focus_first()

    def _preview(self, way: str) -> None:
        """What the readings give, while they are typed."""
        if self.form is None or self._bench is None:
            return
        typed = {name: self.form.readable(name) for name in self.form.fields}
        self.form.say_note(wax_measuring_words.preview_text(self.texts, way, typed, self._bench))

    def _write(self, way: str, values: dict[str, object]) -> None:
        if self.form is None or self.measures is None:
            return
        try:
            wax_measuring.write_down(self.workspace, self.measures.wax_id, way, values)
        except DomainError as error:
            self.form.say_trouble(wax_measuring_words.trouble_text(self.texts, error))
            return
        self._close_form()
        self.refresh()
        self.ways[way].setFocus()

    def _close_form(self) -> None:
        if self.form is not None:
            self.form.hide()
            self.form.deleteLater()
            self.form = None

    # -- changing --------------------------------------------------------------------------------
    def _leave_out(self) -> None:
        row = self.chosen
        if row is not None:
            wax_measuring.leave_out(self.workspace, row.id, left_out=not row.left_out)

    def _remove(self) -> None:
        row = self.chosen
        if row is not None:
            wax_measuring.remove_measurement(self.workspace, row.id)

    def _use(self, which: str, *_: object) -> None:
        if self.measures is None:
            return
        self.trouble.clear()
        try:
            wax_measuring.use_density(self.workspace, self.measures.wax_id, which)
        except DomainError as error:
            self.trouble.say(self.texts.say(error))


def _columns(texts: Callable[[], Texts]) -> tuple[Column[Measured], ...]:
    """Day, way and density of each measurement."""
    return (
        Column(
            key="day", title=N_("Day"), show=lambda row: row.measured_on, look=_look, keeps=True
        ),
        Column(
            key="way",
            title=N_("How"),
            show=lambda row: wax_measuring_words.way_text(texts(), row),
            hint=lambda row: wax_measuring_words.row_about(texts(), row),
            look=_look,
            stretch=True,
        ),
        Column(
            key="density",
            title=N_("Density"),
            show=lambda row: (
                texts()(N_("left out"))
                if row.left_out
                else wax_measuring_words.row_density(texts(), row)
            ),
            hint=lambda row: wax_measuring_words.row_about(texts(), row),
            look=_look,
            numeric=True,
        ),
    )


def _look(row: Measured) -> str:
    if row.trouble is not None:
        return "stops"
    return "quiet" if row.left_out else ""


def _key(row: Measured) -> int:
    return row.id
