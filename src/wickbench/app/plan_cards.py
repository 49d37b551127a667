"""Pots as cards: of a plan as it is computed, or of a pour as it stands at the bench."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.app.held_back import held_texts
from wickbench.app.load_doubt import how_planned_load, how_weighed_load, load_now
from wickbench.app.mixes import main_wax
from wickbench.app.plan_pots import celsius, second_weight
from wickbench.app.texts_marker import N_
from wickbench.domain.bench import Place, target_g
from wickbench.domain.bench_outcome import outcome

if TYPE_CHECKING:
    from wickbench.app.plan_pots import PotCard
    from wickbench.app.plan_view import PlanView
    from wickbench.app.pour_session import FillRow, Session
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.domain.catalog import RecipeVersion

_FULL = 1.0 + 1e-9
ESTIMATED = N_("Temperatures are those usual for such a wax (estimate)")


@dataclass(frozen=True, slots=True, kw_only=True)
class CardLine:
    """One thing to weigh; ``weighed`` is what the scale showed, empty until then."""

    name: str
    amount: str
    other: str
    scale: str
    when: str
    weighed: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """One pot in words.

    Attributes:
        title, lot: above.
        state: "planned", "open", "done".
        total: what is in it and how full that makes it.
        fill_ratio: mix by the pot's safe fill; ``None`` where the pot is unknown.
        over: fuller than is safe.
        lines: what to weigh.
        facts: load, when to pour, what is left: short sentences.
        fills: what it fills.
        how: how the load was computed and how sure it is.
    """

    title: str
    lot: str
    state: str
    total: str
    fill_ratio: float | None
    over: bool
    lines: tuple[CardLine, ...]
    facts: tuple[str, ...]
    fills: tuple[str, ...]
    how: tuple[str, ...] = ()

    @property
    def spoken(self) -> str:
        """The card read out."""
        weigh = [
            ", ".join(part for part in (one.name, one.amount, one.scale, one.when) if part)
            for one in self.lines
        ]
        return ". ".join((f"{self.title} {self.lot}", self.total, *weigh, *self.fills, *self.facts))


def planned_cards(view: PlanView, shelf: Shelf, texts: Texts) -> tuple[Card, ...]:
    """The pots of a plan that is not begun."""
    return tuple(planned_card(view, at, shelf, texts) for at in range(len(view.pots)))


def planned_card(view: PlanView, at: int, shelf: Shelf, texts: Texts) -> Card:
    """A pot of a plan that is not begun, by its place in the plan."""
    card = view.pots[at]
    return Card(
        title=card.title,
        lot=card.lot_code,
        state="planned",
        total=card.total,
        fill_ratio=card.fill_ratio,
        over=card.fill_ratio is not None and card.fill_ratio > _FULL,
        lines=tuple(
            CardLine(
                name=one.name, amount=one.amount, other=one.other, scale=one.scale, when=one.when
            )
            for one in card.weigh
        ),
        facts=tuple(_facts(card, shelf, texts)),
        fills=card.fills,
        how=how_planned_load(card.plan, texts),
    )


def _facts(card: PotCard, shelf: Shelf, texts: Texts) -> list[str]:
    facts = [texts(N_("Load {load}"), load=card.load)]
    if card.pour_at:
        facts.append(texts(N_("Pour at {hot}"), hot=card.pour_at))
    facts += held_texts(card.plan, texts)
    facts.append(texts(N_("Left over {mass}"), mass=card.leftover))
    version = shelf.versions.get(int(str(card.plan.recipe_key)))
    if version is not None and estimated_temperatures(version, shelf):
        facts.append(texts(ESTIMATED))
    return facts


def estimated_temperatures(version: RecipeVersion, shelf: Shelf) -> tuple[str, ...]:
    """Which temperatures stand neither in the recipe nor with its main wax."""
    wax = main_wax(version, shelf)
    names = ("heat_to_c", "add_oil_c", "pour_c")
    return tuple(
        name
        for name in names
        if getattr(version, name) is None and (wax is None or getattr(wax, name) is None)
    )


def session_cards(session: Session, texts: Texts) -> tuple[Card, ...]:
    """The pots of a pour: what was weighed, and what follows from it."""
    return tuple(session_card(session, at, texts) for at in range(len(session.pots)))


def session_card(session: Session, at: int, texts: Texts) -> Card:
    """A pot of a pour, by its place: what was weighed, and what follows from it."""
    one, state = session.pots[at], session.state.pots[at]
    now = outcome(state)
    ratio = now.total_g / state.holds_g if state.holds_g else None
    total = texts.quantity(now.total_g, "mass", step=1, both=False)
    facts = [texts(N_("Load {load}"), load=load_now(state, texts))]
    if one.pour_c is not None:
        facts.append(texts(N_("Pour at {hot}"), hot=celsius(texts, one.pour_c)))
    if one.held:
        facts.append(one.held)
    facts += [
        texts(N_("{name}, which came from lot {lot}"), name=name, lot=lot)
        for name, lot in one.lots_in_it
        if lot
    ]
    left = texts.quantity(now.leftover_g, "mass", both=False)
    facts.append(texts(N_("Left over {mass}"), mass=left))
    if one.note:
        facts.append(texts(N_("Note: {note}"), note=one.note))
    return Card(
        title=one.title,
        lot=one.lot_code,
        state=one.state,
        total=total if not one.pot else texts(N_("{total} in {pot}"), total=total, pot=one.pot),
        fill_ratio=ratio,
        over=ratio is not None and ratio > _FULL,
        lines=tuple(_line(session, Place(at, step), texts) for step in range(len(state.steps))),
        facts=tuple(facts),
        fills=tuple(_fill(fill, texts) for fill in one.fills),
        how=how_weighed_load(state, texts),
    )


def _line(session: Session, place: Place, texts: Texts) -> CardLine:
    one, step = session.pots[place.pot], session.state.at(place)
    grams = target_g(session.state, place) if step.weighed_g is None else step.weighed_g
    amount = texts.units.one(grams, "mass", texts.units.first("mass"), step=step.step_g)
    return CardLine(
        name=step.name,
        amount=amount,
        other=second_weight(texts, grams),
        scale=one.scales[place.step],
        when=one.when[place.step],
        weighed="" if step.weighed_g is None else amount,
    )


def _fill(fill: FillRow, texts: Texts) -> str:
    count = fill.count if fill.poured is None else fill.poured
    each = texts.quantity(fill.each_g, "mass", step=0.1, both=False)
    return texts(N_("{count} × {vessel}, {each} each"), count=count, vessel=fill.vessel, each=each)
