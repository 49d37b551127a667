"""Needed by: the days of a plan from order to label, counted backwards."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any, Final

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget
from typing_extensions import override

from wickbench.app import edit, plans
from wickbench.app.calendar_inputs import USUAL_SPARE_DAYS
from wickbench.app.plan_calendar import HOW_CALENDAR, plan_calendar
from wickbench.app.plan_fields import PLAN_FIELDS
from wickbench.app.plan_words import goal_of
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.form import FieldForm
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.fonts import scaled
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, card, label
from wickbench.gui.plan.calendar_drawing import CalendarDrawing
from wickbench.gui.plan.panels import PlanPanel
from wickbench.gui.plan.weigh_row import put
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.plan_calendar import DayShown, PlanCalendar
    from wickbench.app.plan_view import PlanView
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace

_NAMES: Final = ("needed_on", "spare_days")
_SPECS: Final = {spec.name: spec for spec in PLAN_FIELDS if spec.name in _NAMES}
PAUSE_MS: Final = 150
"""After a key in another part of the plan; a day that is typed here is shown at each key."""
_PDF: Final = N_("PDF files (*.pdf)")
_INVITE: Final = N_(
    "Say by when the candles are needed: the days to pour, to test and to order follow from it."
)
_LEGEND: Final = N_(
    "▲ order   ○ test pour   ● pour   ■ label. Framed: cure. Solid: burn tests. Dashed: today."
)


class DayRow(QWidget):
    """A day, what happens on it, and why then."""

    def __init__(self) -> None:
        super().__init__()
        self.when = label("", "quiet")
        self.title = label()
        self.why = label("", "quiet")
        scaled(self.title, 1.0, bold=True)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(0)
        for part in (self.when, self.title, self.why):
            box.addWidget(part)

    def show_day(self, day: DayShown, texts: Texts) -> None:
        """Show another day; only what differs is touched."""
        when = texts(N_("{day}: gone by"), day=day.when) if day.past else day.when
        put(self.when, when)
        set_look(self.when, "stops" if day.past else "quiet")
        put(self.title, day.title)
        put(self.why, day.why)
        said = f"{when}. {day.title}. {day.why}"
        if self.accessibleName() != said:
            self.setAccessibleName(said)


class CalendarCard(PlanPanel):
    """The field for the day of need, the strip of days, each step, and what to do about it."""

    name_words = N_("Calendar")

    def __init__(self, workspace: Workspace) -> None:
        super().__init__(workspace)
        texts = self.texts
        self._view: PlanView | None = None
        self._shelf: Shelf | None = None
        self._fresh = True
        self.timer = QTimer(self)
        self.timer.setSingleShot(True)
        self.timer.setInterval(PAUSE_MS)
        self.timer.timeout.connect(self.compute)
        self.calendar: PlanCalendar | None = None
        self.rows: list[DayRow] = []
        self.form = FieldForm(workspace, list(_SPECS.values()))
        self.invite = label(texts(_INVITE), "quiet")
        self.drawing = CalendarDrawing(texts)
        self.legend = label(texts(_LEGEND), "quiet")
        self.findings = FindingsList()
        self.pour_then = button("")
        self.need_later = button("")
        self.print_page = button(texts(N_("Print calendar")))
        self.how = HowComputed(texts)
        self.how.explain([texts(step) for step in HOW_CALENDAR])
        self._lay_out()
        self.form.edited.connect(self._typing)
        self.findings.go_requested.connect(self.go_requested)
        self.pour_then.clicked.connect(partial(self._take, "pour_on"))
        self.need_later.clicked.connect(partial(self._take, "needed_on"))
        self.print_page.clicked.connect(self.export_page)
        name_attributes(self)

    def _lay_out(self) -> None:
        frame, inside = card()
        self._days = QVBoxLayout()
        self._days.setSpacing(10)
        self.steps = QWidget()
        self.steps.setLayout(self._days)
        self._days.setContentsMargins(0, 4, 0, 4)
        for one in (self.pour_then, self.need_later, self.print_page):
            one.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        for part in (
            self.form, self.invite, self.findings, self.pour_then, self.need_later, self.drawing,
            self.legend, self.steps, self.print_page, self.how,
        ):  # fmt: skip
            inside.addWidget(part)
        self.box.addWidget(frame)

    @override
    def show_plan(self, view: PlanView, shelf: Shelf) -> None:
        self._view, self._shelf = view, shelf
        planned = view.plan.state == "planned"
        self.setVisible(planned)
        if not planned:
            return
        values = {name: getattr(view.plan, name) for name in _NAMES}
        if values["spare_days"] is None:
            values["spare_days"] = USUAL_SPARE_DAYS
        self.form.show_record(view.plan.id, values)
        if self._fresh:
            self._fresh = False
            self.compute()
        else:
            self.timer.start()

    @override
    def refresh(self) -> None:
        self._fresh = True

    def compute(self) -> None:
        """Show the calendar of the plan as it is."""
        self.timer.stop()
        if self._view is not None:
            self._compute(self._view)

    def _typing(self, name: str, typed: str) -> None:
        """Another day, or another number of days to spare, while it is typed."""
        view = self._view
        if view is None:
            return
        try:
            value: Any = edit.read_field(self.workspace, _SPECS[name], typed)
        except DomainError:
            return
        self.timer.stop()
        self._compute(replace(view, plan=replace(view.plan, **{name: value})))

    def _compute(self, view: PlanView) -> None:
        shelf, texts = self._shelf, self.texts
        if shelf is None:
            return
        today = self.workspace.clock.today()
        shown = plan_calendar(view, shelf, self.workspace.settings, texts, today=today)
        self.calendar = shown
        self.invite.setVisible(shown is None)
        for part in (self.drawing, self.legend):
            part.setVisible(shown is not None and bool(shown.lanes))
        self.drawing.show_calendar(shown)
        self.findings.show_findings(
            texts, shown.findings if shown else (), goal=lambda one: goal_of(one, view, shelf)
        )
        self._show_days(shown.days if shown else ())
        self._show_buttons(shown, view)

    def _show_days(self, days: Sequence[DayShown]) -> None:
        while len(self.rows) < len(days):
            row = DayRow()
            row.setObjectName(f"day_{len(self.rows) + 1}")
            self.rows.append(row)
            self._days.addWidget(row)
        for at, row in enumerate(self.rows):
            if at < len(days):
                row.show_day(days[at], self.texts)
            if row.isHidden() == (at < len(days)):
                row.setVisible(at < len(days))
        self.steps.setVisible(bool(days))
        self.print_page.setVisible(bool(days))

    def _show_buttons(self, shown: PlanCalendar | None, view: PlanView) -> None:
        """Offer the latest day that will do to pour; or, too late, the first that can be met."""
        texts = self.texts
        pour = shown.pour_on if shown else None
        later = shown.earliest_on if shown and shown.days and pour is None else None
        self.pour_then.setVisible(pour is not None and pour.isoformat() != view.plan.pour_on)
        self.need_later.setVisible(later is not None)
        if pour is not None:
            self.pour_then.setText(texts(N_("Pour on {day}"), day=texts.day(pour)))
        if later is not None:
            self.need_later.setText(texts(N_("Plan for {day}"), day=texts.day(later)))

    def _take(self, name: str, *_: object) -> None:
        shown, view = self.calendar, self._view
        if shown is None or view is None:
            return
        day = shown.pour_on if name == "pour_on" else shown.earliest_on
        if day is not None:
            plans.set_day(self.workspace, view.plan.id, name, day)

    def export_page(self) -> None:
        """Ask where, and write the calendar as a page to hang up."""
        # Text shaping and the PDF writer are wanted only now.
        from wickbench.app.calendar_paper import write_calendar  # noqa: PLC0415

        view, texts, ask = self._view, self.texts, self.workspace.ask
        if view is None:
            return
        suggested = texts(N_("Calendar {day}.pdf"), day=view.plan.needed_on or "")
        question = texts(N_("Where shall the calendar be kept?"))
        path = ask.save_path(question, suggested, texts(_PDF))
        if path is None:
            return
        try:
            write_calendar(self.workspace, view.plan.id, path)
        except DomainError as error:
            ask.tell(texts.say(error))
