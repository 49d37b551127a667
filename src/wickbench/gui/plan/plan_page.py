"""The pour plan: which candles, what to weigh for them pot by pot, and what it comes to."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any, ClassVar, Final

from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from wickbench.app import edit, plan_lines, plans
from wickbench.app.plan_cards import planned_card, session_card
from wickbench.app.plan_fields import PLAN_FIELDS
from wickbench.app.plan_lines import LineWords
from wickbench.app.plan_view import PlanView, ViewMemo, view_plan
from wickbench.app.plan_words import goal_of, how_planned, plan_title
from wickbench.app.pour_codes import taken_codes
from wickbench.app.pour_session import load_session
from wickbench.app.shelf import load_shelf
from wickbench.app.texts_marker import N_
from wickbench.app.weigh_sheets import CAUTIONS, stops_of, write_weigh_sheets
from wickbench.domain.errors import DomainError
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.idle_turns import IdleTurns
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import Page, button, heading, label
from wickbench.gui.plan.lines_table import LinesTable
from wickbench.gui.plan.panels import build_panels
from wickbench.gui.plan.plan_chooser import PlanChooser
from wickbench.gui.plan.plan_settings import PlanSettings
from wickbench.gui.plan.pot_card import PotCardView
from wickbench.gui.plan.sections import PlanSection
from wickbench.gui.plan.totals_card import TotalsCard
from wickbench.gui.steady import SteadyBox

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.plans import PlanRow
    from wickbench.app.pour_session import Session
    from wickbench.app.questions import Ask
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace

_WIDE_CHARACTERS: Final = 136
"""The lines have seven columns: the side column drops below sooner than on other pages."""
_PAUSE_MS: Final = 120
"""Between two keys of who types fast: a long search begins only after the last of them."""
_PDF: Final = N_("PDF files (*.pdf)")
_SPECS: Final = {spec.name: spec for spec in PLAN_FIELDS}
_START: Final = {
    "planned": N_("Start pouring"), "pouring": N_("Go on pouring"), "poured": N_("Same again"),
}  # fmt: skip
_BEGUN: Final = {
    "planned": "",
    "pouring": N_(
        "This plan is on the bench, as it was when pouring began. Undo takes that back; for "
        "another pour plan the same again."
    ),
    "poured": N_("This plan was poured. Plan the same again for another day."),
}
_NO_RECIPE: Final = N_(
    "There is no candle or recipe to pour yet. Write a recipe first; then choose it here."
)
_EMPTY: Final = N_(
    "A plan says how many of which candle you pour. From it come the weights for each pot, on the "
    "scale that can weigh them, what is left over, what it costs and what is missing."
)


class PlanPage(Page):
    """Lines, pots, what the plan comes to, and what to know before pouring."""

    kinds: ClassVar[frozenset[str]] = frozenset(
        {
            "plans", "pours", "candles", "recipes", "materials", "stock", "vessels", "equipment",
            "settings", "leftovers", "heatings",
        }
    )  # fmt: skip

    def __init__(self, workspace: Workspace, ask: Ask) -> None:
        super().__init__(workspace, ask)
        texts = self.texts
        self.wide_characters = _WIDE_CHARACTERS
        self.record: int | None = None
        self.plan: PlanRow | None = None
        self.view: PlanView | None = None
        self._shelf: Shelf | None = None
        self._words: LineWords | None = None
        self._session: Session | None = None
        self._taken: frozenset[str] = frozenset()
        self._memo = ViewMemo()
        self._make_buttons()
        self.chooser = PlanChooser(texts)
        self.begun = label("", "quiet")
        self.to_recipes = button(texts(N_("Write a recipe")))
        self.lines = LinesTable(workspace)
        self.plan_settings = PlanSettings(workspace)
        self.cards: list[PotCardView] = []
        self.empty = label(texts(_EMPTY), "quiet")
        self.make_first = button(texts(N_("Plan a pour")), "primary")
        self.totals = TotalsCard()
        self.how = HowComputed(texts)
        self.findings = FindingsList(N_("Nothing to watch out for."))
        self.panels = build_panels(workspace)
        self._later = IdleTurns(self)
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _make_buttons(self) -> None:
        self.to_labels = button(self.texts(N_("Labels…")))
        self.print_sheets = button(self.texts(N_("Print weigh sheets")))
        self.start = button(self.texts(_START["planned"]), "primary")

    def _lay_out(self) -> None:
        texts = self.texts
        self.sections = tuple(PlanSection(panel) for panel in self.panels)
        for one in (self.to_labels, self.print_sheets, self.start):
            self.buttons.addWidget(one)
        for one in (self.make_first, self.to_recipes):
            one.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.pots = QWidget()
        self._pots_box = SteadyBox()
        self.pots.setLayout(self._pots_box)
        self._pots_box.setContentsMargins(0, 0, 0, 0)
        self._pots_box.setSpacing(12)
        for part in (
            self.chooser, self.begun, self.to_recipes, self.lines, self.plan_settings, self.pots,
            self.empty, self.make_first,
        ):  # fmt: skip
            self.main.addWidget(part)
        self.main.addStretch(1)
        self.how.explain(how_planned(texts))
        self.cautions = label("\n\n".join(texts(words) for words in CAUTIONS), "quiet")
        for part in (
            heading(texts(N_("What it comes to"))), self.totals, self.how,
            heading(texts(N_("Before you pour"))), self.findings,
            heading(texts(N_("Take care"))), self.cautions, *self.sections,
            self.plan_settings.note_form,
        ):  # fmt: skip
            self.side.addWidget(part)
        self.side.addStretch(1)

    def _connect(self) -> None:
        self.chooser.chosen.connect(self.show_record)
        for made in (self.chooser.new_requested, self.make_first.clicked):
            made.connect(self.make_plan)
        self.chooser.again_requested.connect(self.plan_again)
        self.chooser.remove_requested.connect(self.remove_plan)
        self.lines.candle_requested.connect(partial(self.go_requested.emit, "candles"))
        self.lines.typed.connect(self._typing_line)
        self.plan_settings.edited.connect(self._typing_field)
        self.plan_settings.equipment_requested.connect(self._show_equipment)
        self.to_recipes.clicked.connect(lambda: self.go_requested.emit("recipes", None))
        self.print_sheets.clicked.connect(self.export_sheets)
        self.to_labels.clicked.connect(self._show_labels)
        self.start.clicked.connect(self.begin)
        self.findings.go_requested.connect(self.go_requested)
        for panel in self.panels:
            panel.go_requested.connect(self.go_requested)

    # -- showing ---------------------------------------------------------------------------------
    @override
    def refresh(self, changes: Changes | None) -> None:
        rows = plans.load_plans(self.workspace)
        known = {row.id: row for row in rows}
        if self.record not in known:
            self.record = rows[0].id if rows else None
        self.plan = known[self.record] if self.record is not None else None
        self.chooser.show_plans(rows, self.record, self.texts)
        self._show_parts()
        self._shelf = load_shelf(self.workspace)
        if self.plan is None:
            self.title.setText(self.texts(N_("Pour plan")))
            self.view = None
            return
        self._read(self.plan, self._shelf)
        self._show(self.plan)

    def _show_parts(self) -> None:
        there = self.plan is not None
        self.show_side(shown=there)
        for part in (
            self.chooser, self.lines, self.plan_settings, self.pots, self.start, self.print_sheets,
            self.to_labels,
        ):  # fmt: skip
            part.setVisible(there)
        for part in (self.empty, self.make_first):
            part.setVisible(not there)
        for part in (self.begun, self.to_recipes):
            part.setVisible(False)

    def _read(self, plan: PlanRow, shelf: Shelf) -> None:
        self._words = LineWords(self.workspace, shelf)
        for panel in self.panels:
            panel.refresh()
        self._taken = taken_codes(self.workspace, plan.id)
        begun = plan.state != "planned"
        self._session = load_session(self.workspace, plan.id) if begun else None

    def _show(self, plan: PlanRow) -> None:
        texts, shelf, words = self.texts, self._shelf, self._words
        if shelf is None or words is None:
            return
        self.start.setText(texts(_START[plan.state]))
        bare = not words.what and not plan.lines
        self.begun.setText(texts(_NO_RECIPE if bare else _BEGUN[plan.state]))
        self.begun.setVisible(bool(self.begun.text()))
        self.to_recipes.setVisible(bare)
        self._compute(plan)
        self.lines.show_lines(plan, shelf, words)
        self.plan_settings.show_plan(plan, shelf)

    def _compute(self, plan: PlanRow, *, typing: bool = False) -> None:
        """Compute a plan, stored or with what is being typed in place, and show what follows.

        While the person types, what is in sight follows the key at once and the rest in the turns
        of the event loop after it; the next key drops what is left of that. Where the fewest pots
        would take long to find, a quick answer follows the key and the settled one comes later.
        """
        shelf = self._shelf
        if shelf is None:
            return
        self._show_figures(plan, shelf, quick=typing)
        if not typing:
            self._later.finish()

    def _show_figures(self, plan: PlanRow, shelf: Shelf, *, quick: bool = False) -> None:
        """Show what is in sight; what is not follows later, and so does what was hurried."""
        view = view_plan(
            plan, shelf, self.workspace.settings, self.texts,
            today=self.workspace.clock.today(), taken_codes=self._taken,
            memo=self._memo, quick=quick,
        )  # fmt: skip
        self.view = view
        self.title.setText(plan_title(self.texts, plan))
        self.lines.show_figures(view)
        self.totals.show_totals(view.totals)
        self.print_sheets.setEnabled(bool(view.pots))
        self.start.setEnabled(bool(view.pots) or self._session is not None)
        follows = self._what_follows(view, shelf)
        if view.result.hurried:
            settle = partial(self._show_figures, plan, shelf)
            self._later.replace([settle], after_ms=_PAUSE_MS)
        else:
            self._later.replace(follows)

    def _what_follows(self, view: PlanView, shelf: Shelf) -> list[Callable[[], object]]:
        """Findings, cards out of sight and panels, piece by piece; cards in sight are shown."""
        session, texts = self._session, self.texts
        count = len(session.pots) if session else len(view.pots)
        goal = partial(goal_of, view=view, shelf=shelf)
        pieces: list[Callable[[], object]] = [
            partial(self.findings.show_findings, texts, view.findings, goal=goal)
        ]
        for at, made in enumerate(self.cards):
            made.setVisible(at < count)
        for at in range(count):
            show = partial(self._show_card, at, view, shelf)
            if at < len(self.cards) and not self.cards[at].visibleRegion().isEmpty():
                show()
            else:
                pieces.append(show)
        return pieces + [partial(panel.show_plan, view, shelf) for panel in self.panels]

    def _show_card(self, at: int, view: PlanView, shelf: Shelf) -> None:
        """A pot of the plan; of a pour that was begun as it stands at the bench."""
        session, texts = self._session, self.texts
        card = session_card(session, at, texts) if session else planned_card(view, at, shelf, texts)
        if at == len(self.cards):
            self.cards.append(PotCardView(texts))
            self._pots_box.addWidget(self.cards[at])
        self.cards[at].show_card(card)
        self.cards[at].setVisible(True)

    @override
    def show_record(self, record: int) -> None:
        """Show one plan."""
        self.record = record
        self.refresh(None)

    # -- typing ----------------------------------------------------------------------------------
    def _typing_line(self, line: object, cell: str, typed: object) -> None:
        """Every figure follows while a cell is typed; text that cannot be read changes none."""
        plan, words, shelf = self.plan, self._words, self._shelf
        if plan is None or words is None or shelf is None:
            return
        row = next((one for one in plan.lines if one.id == line), None)
        if row is None or not isinstance(typed, str):
            if self.view is None or self.view.plan is not plan:
                self._compute(plan)
            return
        try:
            values: dict[str, Any] = plan_lines.line_values(
                self.workspace, words, shelf, row, cell, typed
            )
        except DomainError:
            return
        lines = tuple(replace(one, **values) if one is row else one for one in plan.lines)
        self._compute(replace(plan, lines=lines), typing=True)

    def _typing_field(self, name: str, typed: str) -> None:
        plan = self.plan
        if plan is None or name in {"name", "note"}:
            return
        try:
            value: Any = edit.read_field(self.workspace, _SPECS[name], typed)
        except DomainError:
            return
        if name in {"extra_g", "extra_percent"}:
            value = value or 0.0
        self._compute(replace(plan, **{name: value}), typing=True)

    # -- what can be done ------------------------------------------------------------------------
    def make_plan(self) -> None:
        """A new plan for today."""
        self.show_record(plans.new_plan(self.workspace))
        if self._words is not None and self._words.what:
            self.lines.begin_line()

    def plan_again(self) -> None:
        """The same pour for another day."""
        if self.record is not None:
            self.show_record(plans.same_again(self.workspace, self.record))

    def remove_plan(self) -> None:
        """Delete the plan; what was poured stays, and says so."""
        if self.record is None:
            return
        try:
            plans.remove_plan(self.workspace, self.record)
        except DomainError as error:
            self.ask.tell(self.texts.say(error))

    def export_sheets(self) -> None:
        """Ask where, and write the weigh sheets."""
        plan = self.plan
        if plan is None:
            return
        day = plans.pour_day(plan, self.workspace.clock.today()).isoformat()
        suggested = self.texts(N_("Weigh sheets {day}.pdf"), day=day)
        question = self.texts(N_("Where shall the weigh sheets be kept?"))
        path = self.ask.save_path(question, suggested, self.texts(_PDF))
        if path is None:
            return
        try:
            write_weigh_sheets(self.workspace, plan.id, path)
        except DomainError as error:
            self.ask.tell(self.texts.say(error))

    def begin(self) -> None:
        """Go to the bench with this plan; asks first while something stops the pour."""
        self._later.finish()
        plan, view = self.plan, self.view
        if plan is None or view is None:
            return
        if plan.state == "poured":
            self.plan_again()
            return
        if plan.state == "planned" and not self._agreed(view):
            return
        self.go_requested.emit("bench", plan.id)

    def _agreed(self, view: PlanView) -> bool:
        """Whether nothing stops the pour, or the person starts it all the same."""
        stops = [self.texts.say(one) for one in stops_of(view)]
        if not stops:
            return True
        question = self.texts(N_("Something still stands against this pour. Start all the same?"))
        said = "\n".join((question, "", *stops))
        return self.ask.confirm(said, self.texts(_START["planned"]))

    def _show_labels(self) -> None:
        if self.record is not None:
            self.go_requested.emit(f"labels/pour-{self.record}", None)

    def _show_equipment(self) -> None:
        self.go_requested.emit("equipment", None)

    @override
    def release(self) -> None:
        self._later.replace(())
        super().release()
