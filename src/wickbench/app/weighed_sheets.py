"""The weigh sheets of a pour that was begun: what was really weighed beside what was planned."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.load_doubt import load_now
from wickbench.app.plan_pots import celsius, second_weight
from wickbench.app.recipe_words import load_text
from wickbench.app.texts_marker import N_
from wickbench.documents.weigh_sheet import SheetLine
from wickbench.domain.bench import Place, target_g
from wickbench.domain.bench_outcome import outcome

if TYPE_CHECKING:
    from wickbench.app.pour_session import FillRow, Session, SessionPot
    from wickbench.app.texts import Texts
    from wickbench.domain.bench import BenchStep

_HALF: Final = 0.5
_STATES: Final = {"open": N_("at the bench"), "done": N_("poured")}


def weighed_subtitle(session: Session, at: int, texts: Texts) -> str:
    """What is in a pot and how far it is: "3153 g in Tall pitcher · poured"."""
    one = session.pots[at]
    total = texts.quantity(outcome(session.state.pots[at]).total_g, "mass", step=1, both=False)
    if one.pot:
        total = texts(N_("{total} in {pot}"), total=total, pot=one.pot)
    state = texts(_STATES.get(one.state, ""))
    return " · ".join(part for part in (total, state) if part)


def weighed_lines(session: Session, at: int, texts: Texts) -> tuple[SheetLine, ...]:
    """Each thing to weigh: planned, and what the scale showed once it did."""
    return tuple(
        _line(session, Place(at, step), texts) for step in range(len(session.state.pots[at].steps))
    )


def _line(session: Session, place: Place, texts: Texts) -> SheetLine:
    one, step = session.pots[place.pot], session.state.at(place)
    asked_g = step.planned_g if step.weighed_g is not None else target_g(session.state, place)
    weighed = "" if step.weighed_g is None else _mass(step.weighed_g, step, texts)
    when = [one.when[place.step]]
    if step.top_up:
        when.append(texts(N_("Added to bring the load back.")))
    elif abs(asked_g - step.planned_g) >= step.step_g * _HALF:
        planned = _mass(step.planned_g, step, texts)
        when.append(texts(N_("was {mass} in the plan"), mass=planned))
    return SheetLine(
        name=step.name,
        amount=_mass(asked_g, step, texts),
        other=second_weight(texts, asked_g),
        scale=one.scales[place.step],
        when="\n".join(part for part in when if part),
        weighed=weighed,
    )


def _mass(grams: float, step: BenchStep, texts: Texts) -> str:
    return texts.units.one(grams, "mass", texts.units.first("mass"), step=step.step_g)


def weighed_facts(session: Session, at: int, texts: Texts) -> tuple[str, ...]:
    """Load as it is with what was planned, when to pour, what is held back and what is left."""
    one, state = session.pots[at], session.state.pots[at]
    now = outcome(state)
    facts = [
        texts(
            N_("Load {load}; planned {planned}"),
            load=load_now(state, texts),
            planned=load_text(texts, now.planned_load),
        )
    ]
    if not now.planned_load.percent:
        facts = [texts(N_("Load {load}"), load=texts(N_("no fragrance")))]
    if one.pour_c is not None:
        facts.append(_pour_at(one, one.pour_c, texts))
    facts += [one.held] if one.held else []
    left = texts.quantity(now.leftover_g, "mass", both=False)
    facts.append(texts(N_("Left over at the end: {left}"), left=left))
    if one.note:
        facts.append(texts(N_("Note: {note}"), note=one.note))
    return tuple(facts)


def _pour_at(one: SessionPot, pour_c: float, texts: Texts) -> str:
    hot = celsius(texts, pour_c)
    if one.pour_window_c is None:
        return texts(N_("Pour at {hot}"), hot=hot)
    low, high = (celsius(texts, limit) for limit in one.pour_window_c)
    return texts(
        N_("Pour at {hot}; usual for such a wax {low} to {high}"), hot=hot, low=low, high=high
    )


def weighed_fills(session: Session, at: int, texts: Texts) -> tuple[str, ...]:
    """What a pot fills, or filled."""
    return tuple(_fill(one, texts) for one in session.pots[at].fills)


def _fill(fill: FillRow, texts: Texts) -> str:
    each = texts.quantity(fill.each_g, "mass", step=0.1, both=False)
    if fill.poured is None or fill.poured == fill.count:
        return texts(
            N_("{count} × {vessel}, {each} each"), count=fill.count, vessel=fill.vessel, each=each
        )
    return texts(
        N_("{poured} of {count} × {vessel}, {each} each"),
        poured=fill.poured,
        count=fill.count,
        vessel=fill.vessel,
        each=each,
    )
