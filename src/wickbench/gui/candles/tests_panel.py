"""Whether a candle passed its tests: the state today, why it was reopened, and the history."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from wickbench.app.candle_fields import TEST_FIELDS
from wickbench.app.candle_shown import (
    STATE_ICONS,
    STATE_LOOKS,
    given_on_text,
    state_text,
    verdict_text,
)
from wickbench.app.texts_marker import N_
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.icons import icon_pixmap
from wickbench.gui.materials.entry_form import EntryForm
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.style_sheet import set_look
from wickbench.gui.tables.cell_editor import look_ink
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from wickbench.app.candles import CandleView
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import TestRecord

_ICON = 18


class TestsPanel(QWidget):
    """State with icon and word; *Record a test*; every verdict with what it was given on.

    Signals:
        verdict_given: values of the test's fields by name.
    """

    __test__ = False  # not a test class, whatever a test runner thinks of the name

    verdict_given = Signal(dict)

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self.title = heading(texts(N_("Tests")))
        self.icon = QLabel()
        self.state = label()
        self.given_on = label("", "quiet")
        self.reasons = FindingsList()
        self.record = button(texts(N_("Record a test")))
        self.record.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.form = EntryForm(
            workspace, texts(N_("Record a test")), TEST_FIELDS, texts(N_("Enter it"))
        )
        self.model: RowModel[TestRecord] = RowModel(
            lambda: workspace.texts, self._columns(), lambda record: record.id
        )
        self.history = TableView(self.model, texts(N_("Tests so far")), most_rows=6, fewest_rows=1)
        self.told = label("", "quiet")
        self._lay_out()
        self._connect()
        name_attributes(self)
        self.form.setVisible(False)

    def _columns(self) -> list[Column[TestRecord]]:
        return [
            Column(
                key="verdict", title=N_("So far"), stretch=True,
                show=lambda record: verdict_text(self.workspace.texts, record),
                look=lambda record: STATE_LOOKS[record.state],
                icon=lambda record: STATE_ICONS[record.state],
                hint=self._about,
            )
        ]  # fmt: skip

    def _about(self, record: TestRecord) -> str:
        given_on = given_on_text(self.workspace.texts, record)
        return "\n".join(text for text in (given_on, record.note or "") if text)

    def _lay_out(self) -> None:
        said = QHBoxLayout()
        said.setSpacing(8)
        said.addWidget(self.icon)
        said.addWidget(self.state, 1)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(6)
        box.addWidget(self.title)
        box.addLayout(said)
        for widget in (
            self.given_on,
            self.reasons,
            self.record,
            self.form,
            self.history,
            self.told,
        ):
            box.addWidget(widget)

    def _connect(self) -> None:
        self.record.clicked.connect(self.begin)
        self.form.given_up.connect(self._fold)
        self.form.accepted.connect(self.verdict_given)
        self.history.chosen.connect(self._tell)

    # -- showing ---------------------------------------------------------------------------------
    def show_view(self, view: CandleView) -> None:
        """Show the state and the history, the newest first."""
        texts, found = self.workspace.texts, view.tested
        look = STATE_LOOKS[found.state]
        ink = look_ink(colours_of(self), look).name()
        picture = icon_pixmap(STATE_ICONS[found.state], ink, _ICON, self.devicePixelRatioF())
        self.icon.setPixmap(picture)
        self.state.setText(state_text(texts, found))
        set_look(self.state, look)
        said = given_on_text(texts, found.record) if found.record is not None else ""
        self.given_on.setText(said)
        self.given_on.setVisible(bool(said))
        self.reasons.show_findings(texts, found.reasons)
        newest_first = view.candle.tests[::-1]
        self.model.set_rows(newest_first)
        self.history.setVisible(bool(newest_first))
        self._tell(self.history.current_key)

    def fold_up(self) -> None:
        """Another candle is shown: give up what was not entered."""
        self._fold()

    def _tell(self, key: Any) -> None:  # noqa: ANN401 - as the table's signal
        record = next((one for one in self.model.rows if one.id == key), None)
        said = self._about(record) if record is not None else ""
        self.told.setText(said)
        self.told.setVisible(bool(said))

    # -- recording -------------------------------------------------------------------------------
    def begin(self) -> None:
        """Open the form for a verdict."""
        today = self.workspace.clock.today().isoformat()
        by = self.workspace.settings.text("business_name")
        self.form.fill({"state": "in_test", "tested_on": today, "tested_by": by or None})
        self.form.setVisible(True)
        self.record.setVisible(False)
        self.form.focus_first()

    def refuse(self, sentence: str) -> None:
        """Say over the buttons why the verdict cannot be entered."""
        self.form.say_trouble(sentence)

    def entered(self) -> None:
        """The verdict is stored."""
        self._fold()

    def _fold(self) -> None:
        self.form.setVisible(False)
        self.record.setVisible(True)
