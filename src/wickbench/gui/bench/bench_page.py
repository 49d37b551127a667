"""The bench view of a plan that is being poured."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, Final

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QPlainTextEdit
from typing_extensions import override

from wickbench.app import edit, pouring
from wickbench.app.bench_view import last_weighed, view_bench
from wickbench.app.fields import field
from wickbench.app.plans import load_plans
from wickbench.app.pour_session import Session, load_session
from wickbench.app.texts_marker import N_
from wickbench.domain.bench import target_g
from wickbench.domain.errors import Ambiguous, DomainError
from wickbench.gui.bench.bench_heat import BenchHeat
from wickbench.gui.bench.fills_card import FillsCard
from wickbench.gui.bench.step_card import StepCard
from wickbench.gui.bench.steps_list import StepsList
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.fonts import scaled
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.leftovers.keep_leftover import KeepLeftover
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import Page, button, heading, label
from wickbench.gui.plan.pot_drawing import PotDrawing

if TYPE_CHECKING:
    from PySide6.QtGui import QShowEvent

    from wickbench.app.bench_view import BenchView
    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.questions import Ask
    from wickbench.app.workspace import Workspace

_FULL: Final = 1.0 + 1e-9
WEIGHT: Final = field("pour_amount", "weighed_g", N_("Weighed"), "mass", low=0, high=1_000_000)


class BenchPage(Page):
    """One ingredient at a time: type what was weighed or press the space bar, the rest follows."""

    kinds: ClassVar[frozenset[str]] = frozenset({"pours", "settings", "heatings", "leftovers"})
    needs_width: ClassVar[bool] = True

    def __init__(self, workspace: Workspace, ask: Ask) -> None:
        super().__init__(workspace, ask)
        self.session: Session | None = None
        self.view: BenchView | None = None
        self._asked: tuple[object, object] = (None, None)
        texts = self.texts
        self.progress = label("", "quiet")
        self.step = StepCard(texts)
        self.offer = button("")
        self.offer.setMinimumHeight(56)
        scaled(self.offer, 1.25)
        self.fills = FillsCard(texts)
        self.keep = KeepLeftover(workspace)
        self.findings = FindingsList()
        self.heat = BenchHeat(workspace)
        self.steps = StepsList(texts)
        self.drawing = PotDrawing()
        self.load = label()
        self.how_load = HowComputed(texts)
        self.left_over = label("", "quiet")
        self.note = accessible(QPlainTextEdit(), texts(N_("Notes on this pot")))
        self.to_labels = button(texts(N_("Labels")), "primary")
        self.to_plan = button(texts(N_("Back to the plan")))
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _lay_out(self) -> None:
        self.buttons.addWidget(self.to_plan)
        self.buttons.addWidget(self.to_labels)
        self.to_labels.setVisible(False)
        for part in (
            self.progress, self.step, self.offer, self.findings, self.heat, self.fills, self.keep,
        ):  # fmt: skip
            self.main.addWidget(part)
        self.main.addStretch(1)
        self.note.setMaximumHeight(110)
        self.note_words = heading(self.texts(N_("Notes on this pot")))
        self.result_words = heading(self.texts(N_("What it becomes")))
        parts = (
            self.drawing,
            self.steps,
            self.result_words,
            self.load,
            self.how_load,
            self.left_over,
            self.note_words,
            self.note,
        )
        for side in parts:
            self.side.addWidget(side)
        self.side.addStretch(1)

    def _connect(self) -> None:
        self.step.as_shown.clicked.connect(self.take_as_shown)
        self.step.weight.as_shown_requested.connect(self.take_as_shown)
        self.step.weight.entered.connect(self.take_typed)
        self.step.weight.textEdited.connect(self._understood)
        self.step.back.clicked.connect(self.take_back)
        self.offer.clicked.connect(self.add_wax)
        self.fills.finish.clicked.connect(self.finish_pot)
        self.note.textChanged.connect(self._noted)
        self.to_plan.clicked.connect(self._back_to_plan)
        self.to_labels.clicked.connect(self._show_labels)

    # -- what is shown ---------------------------------------------------------------------------
    @override
    def show_record(self, record: int) -> None:
        """Pour this plan: begin, or go on where it was left."""
        try:
            self._show(pouring.start_pour(self.workspace, record, origin=self))
        except DomainError as error:
            self.ask.tell(self.texts.say(error))

    @override
    def refresh(self, changes: Changes | None) -> None:
        """Show the session as it lies in the file; without one, the plan that is being poured."""
        if self.session is not None:
            self._show(load_session(self.workspace, self.session.plan))
            return
        pouring_now = next(
            (row for row in load_plans(self.workspace) if row.state == "pouring"), None
        )
        self._show(load_session(self.workspace, pouring_now.id) if pouring_now else None)

    def _show(self, session: Session | None) -> None:
        self.session = session
        self.keep.show_session(session)
        here = session is not None
        self.show_side(shown=here)
        for part in (
            self.drawing,
            self.step,
            self.fills,
            self.findings,
            self.offer,
            self.steps,
            self.note,
            self.note_words,
            self.result_words,
        ):
            part.setVisible(here)
        if session is None:
            self.heat.show_pot(None, None)
            self.to_labels.setVisible(False)
            self.view = None
            self.title.setText(self.texts(N_("The bench")))
            self.progress.setText(
                self.texts(N_("Nothing is being poured. Start pouring from a plan."))
            )
            self.load.setText("")
            self.how_load.explain(())
            self.left_over.setText("")
            return
        self.view = view_bench(session, self.texts)
        typing = self.heat.typed_in or self.note.hasFocus()
        self.heat.show_pot(session, self.view.pot, pouring=self.view.phase == "pour")
        self._show_view(self.view)
        if (self.view.pot, self.view.place) != self._asked:
            self._asked = (self.view.pot, self.view.place)
            self._ask_next(typing=typing)

    def _show_view(self, view: BenchView) -> None:
        texts = self.texts
        lot = f" · {view.lot}" if view.lot else ""
        self.title.setText(f"{view.title}{lot}")
        self.progress.setText(view.progress)
        self.step.show_step(view)
        self.step.back.setEnabled(
            self.session is not None and last_weighed(self.session) is not None
        )
        self.fills.show_fills(view, texts)
        self.offer.setText(view.offer)
        self.offer.setVisible(bool(view.offer))
        self.findings.show_findings(texts, view.findings)
        self.steps.show_steps(view, texts)
        self.load.setText(texts(N_("Load {load}"), load=view.load) if view.load else "")
        self.how_load.explain(view.how_load)
        left = texts(N_("Left over: {mass}"), mass=view.leftover) if view.leftover else ""
        self.left_over.setText(left)
        done = view.phase == "done"
        self.to_labels.setVisible(done)
        self.drawing.show_fill(view.fill_ratio, view.title, over=(view.fill_ratio or 0.0) > _FULL)
        for part in (self.drawing, self.steps, self.note, self.note_words, self.result_words):
            part.setVisible(not done)
        if not self.note.hasFocus() and self.note.toPlainText() != view.note:
            self.note.blockSignals(True)  # noqa: FBT003 - Qt's own call
            self.note.setPlainText(view.note)
            self.note.blockSignals(False)  # noqa: FBT003 - Qt's own call

    def _ask_next(self, *, typing: bool) -> None:
        """The line to type in next is empty and ready; who types elsewhere is left alone."""
        self.step.weight.clear()
        self.step.weight.set_echo("")
        if not typing:
            self._take_focus()

    def _take_focus(self) -> None:
        """The keyboard goes to the line for what comes next: a weight, or a temperature."""
        if self.view is not None and self.view.phase == "pour":
            self.heat.cooling.read.setFocus()
        else:
            self.step.weight.setFocus()

    @override
    def showEvent(self, event: QShowEvent) -> None:
        """Hands are waxy: the line for what comes next is ready without a click."""
        super().showEvent(event)
        QTimer.singleShot(0, self, self._take_focus)

    # -- what is done ----------------------------------------------------------------------------
    def take_as_shown(self) -> None:
        """The scale showed what the bench asked for."""
        view, session = self.view, self.session
        if view is not None and session is not None and view.place is not None:
            self._weigh(target_g(session.state, view.place))

    def take_typed(self, typed: str) -> None:
        """The scale showed what was typed; the rest follows."""
        try:
            value = edit.read_field(self.workspace, WEIGHT, typed)
        except DomainError as error:
            self._refuse(error)
            return
        if isinstance(value, (int, float)):
            self._weigh(float(value))

    def _weigh(self, grams: float) -> None:
        view, session = self.view, self.session
        if view is None or session is None or view.place is None:
            return
        try:
            pouring.weigh(self.workspace, session, view.place, grams, origin=self)
        except DomainError as error:
            self._refuse(error)

    def _refuse(self, error: DomainError) -> None:
        sentence = self.texts.say(error)
        if isinstance(error, Ambiguous):
            sentence = f"{sentence} {' / '.join(text for text, _ in error.readings)}"
        self.step.show_trouble(sentence)

    def _understood(self, typed: str) -> None:
        try:
            echo = edit.understood(self.workspace, WEIGHT, typed)
        except DomainError:
            echo = ""
        self.step.weight.set_echo(echo)
        self.step.show_trouble("")

    def take_back(self) -> None:
        """Take the last weight of this pot back."""
        place = last_weighed(self.session) if self.session is not None else None
        if place is not None and self.session is not None:
            pouring.unweigh(self.workspace, self.session, place, origin=self)

    def add_wax(self) -> None:
        """Take the offer of more wax."""
        if self.session is not None and self.view is not None and self.view.pot is not None:
            pouring.add_wax(self.workspace, self.session, self.view.pot, origin=self)

    def finish_pot(self) -> None:
        """The pot is poured out."""
        if self.session is None or self.view is None or self.view.pot is None:
            return
        try:
            counts = self.fills.typed_counts(self.texts.units.locale)
            pouring.finish_pot(self.workspace, self.session, self.view.pot, counts, origin=self)
        except DomainError as error:
            self.fills.show_trouble(self.texts.say(error))

    def _noted(self) -> None:
        if self.session is not None and self.view is not None and self.view.pot is not None:
            note = self.note.toPlainText()
            pouring.set_note(self.workspace, self.session, self.view.pot, note, origin=self)

    @override
    def release(self) -> None:
        self.heat.release()
        super().release()

    def _show_labels(self) -> None:
        if self.session is not None:
            self.go_requested.emit(f"labels/pour-{self.session.plan}", None)

    def _back_to_plan(self) -> None:
        plan = self.session.plan if self.session is not None else None
        self.go_requested.emit("pour_plan", plan)
