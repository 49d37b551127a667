"""Card beside the plan: which leftovers go into it, and what the pots then hold."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

from PySide6.QtWidgets import QFrame, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget
from typing_extensions import override

from wickbench.app import edit, plan_leftovers
from wickbench.app.leftover_recipes import write_mix
from wickbench.app.plan_leftovers import LEFTOVER_MASS, card_view, pots_hold, tried
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.fields.line_field import QuantityField
from wickbench.gui.how_computed import HowComputed
from wickbench.gui.leftovers.words import HOW_WORKED_IN, named_field
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import button, heading, label
from wickbench.gui.plan.panels import PlanPanel
from wickbench.gui.style_sheet import set_look

if TYPE_CHECKING:
    from wickbench.app.plan_leftovers import LeftoverCardView, PlannedShown, PotHolds
    from wickbench.app.plan_view import PlanView
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace

_OWN_KIND: Final = N_(
    "With {names} in it this is another candle than the one that was tested. Write the mix as a "
    "recipe, and test it."
)


class LeftoverCard(PlanPanel):
    """Choose a leftover, how much, for which recipe; see what to weigh new."""

    name_words = N_("Leftovers in this pour")
    open_at_first = False

    def __init__(self, workspace: Workspace) -> None:
        super().__init__(workspace)
        texts = workspace.texts
        self._view: PlanView | None = None
        self._shelf: Shelf | None = None
        self._shown: LeftoverCardView | None = None
        self.card = QFrame()
        set_look(self.card, "card")
        self.planned = QWidget()
        self.pots = QWidget()
        self.which = ChoiceField(texts(N_("Leftover")), [])
        self.recipe = ChoiceField(texts(N_("Into")), [])
        self.mass = QuantityField(texts(LEFTOVER_MASS.label))
        self.mass.show_assumed(texts(N_("as much as fits")))
        self.preview = label("", "quiet")
        self.work_in = button(texts(N_("Work it in")))
        self.to_leftovers = button(texts(N_("All leftovers")), "flat")
        self.how = HowComputed(texts)
        self.how.explain(tuple(texts(step) for step in HOW_WORKED_IN))
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _lay_out(self) -> None:
        texts = self.workspace.texts
        self._rows, self._holds = QVBoxLayout(self.planned), QVBoxLayout(self.pots)
        for box in (self._rows, self._holds):
            box.setContentsMargins(0, 0, 0, 0)
            box.setSpacing(6)
        self.form = QWidget()
        form = QVBoxLayout(self.form)
        form.setContentsMargins(0, 0, 0, 0)
        form.setSpacing(4)
        self.recipe_part = named_field(texts(N_("Into")), self.recipe)
        form.addWidget(named_field(texts(N_("Leftover")), self.which))
        form.addWidget(self.recipe_part)
        form.addWidget(named_field(texts(LEFTOVER_MASS.label), self.mass))
        form.addWidget(self.preview)
        buttons = QHBoxLayout()
        for one in (self.work_in, self.to_leftovers):
            one.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
            buttons.addWidget(one)
        buttons.addStretch(1)
        form.addLayout(buttons)
        inside = QVBoxLayout(self.card)
        inside.setContentsMargins(16, 12, 16, 12)
        inside.setSpacing(12)
        for part in (self.planned, self.pots, self.form):
            inside.addWidget(part)
        for part in (self.card, self.how):
            self.box.addWidget(part)

    def _connect(self) -> None:
        for one in (self.which, self.recipe, self.mass):
            one.edited.connect(self._typed)
        self.mass.line.returnPressed.connect(self.add)
        self.work_in.clicked.connect(self.add)
        self.to_leftovers.clicked.connect(lambda: self.go_requested.emit("leftovers", None))

    # -- showing ---------------------------------------------------------------------------------
    @override
    def show_plan(self, view: PlanView, shelf: Shelf) -> None:
        self._view, self._shelf = view, shelf
        if not shelf.leftovers and not view.plan.leftovers:
            self.setVisible(False)
            return
        shown = card_view(view, shelf, self.workspace.texts)
        open_plan = view.plan.state == "planned"
        there = bool(shown.planned) or (bool(shown.offered) and open_plan)
        self.setVisible(there)
        if not there or shown == self._shown:
            return
        self._shown = shown
        texts = self.workspace.texts
        for choice, pairs in ((self.which, shown.offered), (self.recipe, shown.recipes)):
            choice.set_pairs(pairs)
            if not choice.text() and pairs:
                choice.combo.setCurrentIndex(0)
        self.recipe_part.setVisible(len(shown.recipes) > 1)
        self.form.setVisible(open_plan and bool(shown.offered) and bool(shown.recipes))
        self._refill(self._rows, [self._row(one, open_plan=open_plan) for one in shown.planned])
        self._refill(self._holds, [self._pot(one) for one in shown.pots])
        self.preview.setText(texts(N_("The pots weigh the leftover first, then only what is new.")))

    @staticmethod
    def _refill(box: QVBoxLayout, widgets: list[QWidget]) -> None:
        while (item := box.takeAt(0)) is not None:
            if (old := item.widget()) is not None:
                old.hide()
                old.deleteLater()
        for one in widgets:
            box.addWidget(one)
        holder = box.parentWidget()
        if holder is not None:
            holder.setVisible(bool(widgets))

    def _row(self, one: PlannedShown, *, open_plan: bool) -> QWidget:
        row = QWidget()
        line = QHBoxLayout(row)
        line.setContentsMargins(0, 0, 0, 0)
        line.addWidget(label(one.words), 1)
        if open_plan:
            said = self.workspace.texts(N_("Take out"))
            out = accessible(button(said, "flat"), f"{said}: {one.words}")
            out.setObjectName(f"take_out_{one.id}")
            out.clicked.connect(partial(self.take_out, one.id))
            line.addWidget(out)
        return row

    def _pot(self, one: PotHolds) -> QWidget:
        texts = self.workspace.texts
        part = QWidget()
        box = QVBoxLayout(part)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(2)
        box.addWidget(heading(one.title))
        for words in (one.leftovers, one.new):
            box.addWidget(label(words))
        box.addWidget(label(one.holds, "quiet"))
        if one.foreign:
            box.addWidget(label(texts(_OWN_KIND, names=one.foreign), "watch"))
            write = button(texts(N_("Write this mix as a recipe")))
            write.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
            accessible(write, f"{write.text()}: {one.name}")
            write.setObjectName("write_mix")
            write.clicked.connect(partial(self.write_mix, one))
            box.addWidget(write)
        return part

    # -- typing and doing ------------------------------------------------------------------------
    def _wanted(self) -> tuple[int, int, float | None] | None:
        """What is chosen and typed; ``None`` while something cannot be read."""
        if not self.which.text() or not self.recipe.text():
            return None
        try:
            mass = edit.read_field(self.workspace, LEFTOVER_MASS, self.mass.text())
        except DomainError as error:
            self.mass.show_trouble(self.workspace.texts.say(error))
            return None
        grams = float(mass) if isinstance(mass, (int, float)) else None
        return int(self.which.text()), int(self.recipe.text()), grams

    def _typed(self, *_: object) -> None:
        """What would be weighed follows the typing; nothing is stored."""
        view, shelf, texts = self._view, self._shelf, self.workspace.texts
        self.mass.clear_trouble()
        wanted = self._wanted()
        if view is None or shelf is None or wanted is None:
            return
        result, refusal = tried(view, shelf, *wanted)
        if refusal is not None:
            self.preview.setText(texts.say(refusal))
            return
        pots = pots_hold(result, shelf, texts)
        self.preview.setText("\n".join(f"{one.title}. {one.leftovers}. {one.new}" for one in pots))

    def add(self) -> None:
        """Work the chosen leftover in; what does not fit is said, and nothing is stored."""
        view, shelf, wanted = self._view, self._shelf, self._wanted()
        if view is None or shelf is None or wanted is None:
            return
        try:
            leftover, version, mass_g = wanted
            plan_leftovers.plan_leftover(
                self.workspace, view, shelf, leftover, version, mass_g=mass_g
            )
        except DomainError as error:
            self.preview.setText("")
            self.mass.show_trouble(self.workspace.texts.say(error))
            return
        self.mass.show_draft("", "")
        self.mass.clear_trouble()

    def take_out(self, planned: int, *_: object) -> None:
        """Take a leftover out of the plan."""
        plan_leftovers.take_out(self.workspace, planned)

    def write_mix(self, one: PotHolds, *_: object) -> None:
        """Write the mix as a recipe of its own and go there."""
        recipe = write_mix(self.workspace, one.made, one.name)
        self.go_requested.emit("recipes", recipe)
