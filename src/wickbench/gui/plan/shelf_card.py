"""What can I pour? How far the shelf reaches for the plan, and for each candle alone."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget
from typing_extensions import override

from wickbench.app import plan_shelf
from wickbench.app.plan_shelf import HOW_SHELF, CandleReach
from wickbench.app.plan_words import goal_of
from wickbench.app.texts_marker import N_
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.fonts import scaled
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import button, card, label
from wickbench.gui.plan.panels import PlanPanel
from wickbench.gui.plan.weigh_row import put
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtGui import QShowEvent

    from wickbench.app.plan_shelf import ShelfAnswer
    from wickbench.app.plan_view import PlanView
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.domain.findings import Finding

    Goal = tuple[str, object]

PAUSE_MS: Final = 250
"""After the last key: packing pots for hundreds of candles is nothing to wait for at each one."""
_OF_PLAN: Final = N_("The lines of this plan, in their ratio")
_OF_CHOSEN: Final = N_("The marked candles, as many of each")
_NO_LINES: Final = N_("The plan has no line that can be poured yet. Choose candles below.")
_ALONE: Final = N_("Each candle alone")
_HINT: Final = N_(
    "As if the whole shelf were for it. Mark one or more to see how many of them the shelf makes "
    "beside the rest of the plan."
)
_NONE: Final = N_("No candle is for sale yet: its recipe says so.")


class AnswerView(QWidget):
    """How far the shelf reaches, with a button that takes it over into the plan.

    Signals:
        go_requested: where something is mended.
        wanted: the person wants the plan to be so.
    """

    go_requested = Signal(str, object)
    wanted = Signal()

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        self.answer: ShelfAnswer | None = None
        self.about = label("", "quiet")
        self.headline = label()
        self.makes = label("", "quiet")
        self.findings = FindingsList()
        self.plan_these = button(texts(N_("Plan these")))
        self.plan_these.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        scaled(self.headline, 1.15, bold=True)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(4)
        for part in (self.about, self.headline, self.makes, self.findings, self.plan_these):
            box.addWidget(part)
        self.findings.go_requested.connect(self.go_requested)
        self.plan_these.clicked.connect(self.wanted)
        name_attributes(self)

    def show_answer(
        self,
        texts: Texts,
        about: str,
        answer: ShelfAnswer | None,
        goal: Callable[[Finding], Goal | None],
    ) -> None:
        """Show an answer; ``None`` shows only what it is about."""
        self.answer = answer
        put(self.about, about)
        put(self.headline, answer.headline if answer else "")
        put(self.makes, "\n".join(answer.makes) if answer else "")
        self.headline.setVisible(answer is not None)
        self.makes.setVisible(bool(answer and answer.makes))
        self.findings.show_findings(texts, answer.findings if answer else (), goal=goal)
        self.plan_these.setVisible(bool(answer and answer.counts))
        if answer is not None:
            said = ", ".join(answer.makes) or answer.headline
            accessible(self.plan_these, f"{texts(N_('Plan these'))}: {said}")


class ShelfCard(PlanPanel):
    """The answer for the plan; on demand a table of candles, and the answer for marked ones."""

    name_words = N_("What can I pour?")

    def __init__(self, workspace: Workspace) -> None:
        super().__init__(workspace)
        texts = self.texts
        self._view: PlanView | None = None
        self._shelf: Shelf | None = None
        self._asked: tuple[object, ...] = ()
        self.timer = QTimer(self)
        self.timer.setSingleShot(True)
        self.timer.setInterval(PAUSE_MS)
        self.of_plan = AnswerView(texts)
        self.of_chosen = AnswerView(texts)
        self.alone = button(texts(_ALONE))
        self.alone.setCheckable(True)
        self.hint = label(texts(_HINT), "quiet")
        self.model: RowModel[CandleReach] = RowModel(
            lambda: self.texts, self._columns(), lambda row: row.id
        )
        self.table = TableView(self.model, texts(_ALONE), most_rows=10)
        self.table.allow_sorting()
        self.best = FindingsList()
        self.how = HowComputed(texts)
        self.how.explain([texts(step) for step in HOW_SHELF])
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _columns(self) -> tuple[Column[CandleReach], ...]:
        return (
            Column(key="name", title=N_("Candle"), show=lambda row: row.name, stretch=True),
            Column(
                key="makes",
                title=N_("Makes"),
                show=lambda row: "–" if row.makes is None else str(row.makes),
                sort=lambda row: row.makes,
                numeric=True,
            ),
            Column(
                key="first", title=N_("First to run out"), show=lambda row: row.runs_out, spare=True
            ),
        )

    def _lay_out(self) -> None:
        frame, inside = card()
        self.alone.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        for part in (
            self.of_plan, self.alone, self.hint, self.table, self.best, self.of_chosen, self.how,
        ):  # fmt: skip
            inside.addWidget(part)
        self.box.addWidget(frame)
        self._open(shown=False)

    def _connect(self) -> None:
        self.timer.timeout.connect(self.compute)
        self.alone.toggled.connect(self._toggled)
        for view in (self.of_plan, self.of_chosen):
            view.go_requested.connect(self.go_requested)
        self.best.go_requested.connect(self.go_requested)
        self.of_plan.wanted.connect(lambda: self._take(self.of_plan))
        self.of_chosen.wanted.connect(lambda: self._take(self.of_chosen))
        self.table.selectionModel().selectionChanged.connect(self._marked)

    # -- showing ---------------------------------------------------------------------------------
    @override
    def show_plan(self, view: PlanView, shelf: Shelf) -> None:
        planned = view.plan.state == "planned"
        self._view, self._shelf = view, shelf
        if self.isHidden() == planned:
            self.setVisible(planned)
        if planned:
            self.timer.start()

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._view is not None:
            self.timer.start()

    def compute(self) -> None:
        """Ask the shelf, unless it was asked the same before."""
        view, shelf = self._view, self._shelf
        if view is None or shelf is None or not self.isVisible():
            return
        asked = (view.plan, shelf, self.alone.isChecked(), self.texts)
        if self._asked and all(a is b for a, b in zip(asked, self._asked, strict=True)):
            return
        self._asked = asked
        settings, texts = self.workspace.settings, self.texts
        answer = plan_shelf.plan_reach(view.plan, shelf, settings, texts)
        about = texts(_OF_PLAN if answer else _NO_LINES)
        self.of_plan.show_answer(texts, about, answer, self._goal)
        if self.alone.isChecked():
            rows, best = plan_shelf.candles_alone(view.plan, shelf, settings, texts)
            self.model.set_rows(rows)
            self.best.show_findings(texts, best, goal=self._goal)
            put(self.hint, texts(_HINT if rows else _NONE))
            self.table.setVisible(bool(rows))
            self._marked()

    def _goal(self, finding: Finding) -> Goal | None:
        view, shelf = self._view, self._shelf
        return None if view is None or shelf is None else goal_of(finding, view, shelf)

    def _toggled(self, shown: bool) -> None:  # noqa: FBT001 - Qt's signal
        self._open(shown=shown)
        self.compute()

    def _open(self, *, shown: bool) -> None:
        for part in (self.hint, self.table, self.best):
            part.setVisible(shown)
        self.of_chosen.setVisible(shown and bool(self.table.selected_keys()))

    def _marked(self, *_: object) -> None:
        """The answer for the candles that are marked in the table."""
        view, shelf = self._view, self._shelf
        chosen = self.table.selected_keys() if self.alone.isChecked() else []
        self.of_chosen.setVisible(bool(chosen))
        if not chosen or view is None or shelf is None:
            return
        texts = self.texts
        answer = plan_shelf.chosen_reach(chosen, view.plan, shelf, self.workspace.settings, texts)
        self.of_chosen.show_answer(texts, texts(_OF_CHOSEN), answer, self._goal)

    def _take(self, shown: AnswerView) -> None:
        view, shelf, answer = self._view, self._shelf, shown.answer
        if view is not None and shelf is not None and answer is not None:
            plan_shelf.plan_these(self.workspace, view.plan, shelf, answer.counts)
