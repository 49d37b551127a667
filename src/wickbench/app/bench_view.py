"""The bench as it is shown: what to do now, large; what was done and what follows, small."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.app.load_doubt import how_weighed_load, load_now
from wickbench.app.plan_pots import celsius, second_weight
from wickbench.app.pour_session import FillRow
from wickbench.app.texts_marker import N_
from wickbench.domain.bench import Place, next_place, target_g
from wickbench.domain.bench_findings import bench_findings
from wickbench.domain.bench_outcome import outcome, wax_offer
from wickbench.domain.findings import Finding

if TYPE_CHECKING:
    from wickbench.app.pour_session import Session
    from wickbench.app.texts import Texts

_HALF = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class StepShown:
    """One ingredient in the list beside: its name, what was or will be weighed, and its state.

    ``state`` is "done", "now" or "later".
    """

    name: str
    amount: str
    state: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchView:
    """Everything the bench shows.

    Attributes:
        phase: "weigh" (something goes into the pot), "pour" (all is in), "done" (pots are empty).
        pot: which pot; ``None`` when done.
        place: the step to weigh; ``None`` while pouring.
        title, lot, progress: the lines above.
        name, amount, other: what to weigh, large, and in the second unit.
        how: scale and temperature, in words.
        follows: that the amount was changed by what was weighed before; empty when it was not.
        steps: the ingredients of this pot.
        fills: what the pot fills.
        load: the load as it stands, in both bases, and how far it may be off.
        how_load: how it was computed.
        leftover: what will be left.
        fill_ratio: what is in the pot by its safe fill; ``None`` where the pot is unknown.
        offer: sentence of the offer to add wax; empty for none.
        findings: about this pot.
    """

    phase: str
    pot: int | None
    place: Place | None
    title: str
    lot: str
    progress: str
    name: str
    amount: str
    other: str
    how: str
    follows: str
    steps: tuple[StepShown, ...]
    fills: tuple[FillRow, ...]
    load: str
    leftover: str
    fill_ratio: float | None
    offer: str
    note: str
    findings: tuple[Finding, ...]
    how_load: tuple[str, ...] = ()


def view_bench(session: Session, texts: Texts) -> BenchView:
    """Put a session into words."""
    pot = session.open_pot
    if pot is None:
        return _finished(session, texts)
    place = next_place(session.state)
    here = place if place is not None and place.pot == pot else None
    one, state = session.pots[pot], session.state.pots[pot]
    now = outcome(state)
    return BenchView(
        phase="weigh" if here else "pour",
        pot=pot,
        place=here,
        title=one.title,
        lot=one.lot_code,
        progress=_progress(session, pot, here, texts),
        **_now(session, pot, here, texts),
        steps=_steps(session, pot, here, texts),
        fills=one.fills,
        load=load_now(state, texts) if now.load.percent else "",
        how_load=how_weighed_load(state, texts),
        leftover=texts.quantity(now.leftover_g, "mass", both=False),
        fill_ratio=_fill_ratio(session, pot),
        offer=_offer(session, pot, texts),
        note=one.note,
        findings=tuple(
            finding for finding in bench_findings(session.state) if _is_about(finding, pot)
        ),
    )


def _fill_ratio(session: Session, pot: int) -> float | None:
    """How full the pot is by now."""
    state = session.state.pots[pot]
    if not state.holds_g:
        return None
    return sum(step.weighed_g or 0.0 for step in state.steps) / state.holds_g


def _is_about(finding: Finding, pot: int) -> bool:
    """Findings of the bench say the place of their pot, or nothing."""
    return len(finding.about) < 2 or finding.about[1] == pot  # noqa: PLR2004 - ("pot", place)


def _finished(session: Session, texts: Texts) -> BenchView:
    count = sum(
        fill.count if fill.poured is None else fill.poured
        for pot in session.pots
        for fill in pot.fills
    )
    return BenchView(
        phase="done",
        pot=None,
        place=None,
        title=texts(N_("All pots are poured")),
        lot="",
        progress=texts.plural("{n} candle poured", "{n} candles poured", count),
        name="",
        amount="",
        other="",
        how=texts(N_("Let them set and cure. What was used has left the shelf.")),
        follows="",
        steps=(),
        fills=(),
        load="",
        leftover="",
        fill_ratio=None,
        offer="",
        note="",
        findings=(),
    )


def _progress(session: Session, pot: int, place: Place | None, texts: Texts) -> str:
    pots = texts(N_("Pot {n} of {all} of this pour"), n=pot + 1, all=len(session.pots))
    if place is None:
        return texts(N_("{pots}, ready to pour"), pots=pots)
    steps = len(session.state.pots[pot].steps)
    return texts(N_("{pots}, step {n} of {all}"), pots=pots, n=place.step + 1, all=steps)


def _now(session: Session, pot: int, place: Place | None, texts: Texts) -> dict[str, str]:
    one = session.pots[pot]
    if place is None:
        hot = "" if one.pour_c is None else celsius(texts, one.pour_c)
        usual = ""
        if one.pour_window_c is not None:
            low, high = (celsius(texts, limit) for limit in one.pour_window_c)
            usual = texts(N_("Usual for such a wax: {low} to {high}."), low=low, high=high)
        care = texts(N_("Stir, let the bubbles rise, pour slowly. Hot wax burns."))
        return {
            "name": texts(N_("Pour at")) if hot else texts(N_("Pour")),
            "amount": hot,
            "other": usual,
            "how": " ".join(said for said in (one.held, care) if said),
            "follows": "",
        }
    step = session.state.at(place)
    grams = target_g(session.state, place)
    follows = ""
    if abs(grams - step.planned_g) >= step.step_g * _HALF and not step.top_up:
        planned = texts.units.one(step.planned_g, "mass", "g", step=step.step_g)
        follows = texts(N_("Follows what was weighed before; planned was {mass}."), mass=planned)
    if step.top_up:
        follows = texts(N_("Added to bring the load back."))
    how = (one.when[place.step], one.scales[place.step])
    return {
        "name": step.name,
        "amount": texts.units.one(grams, "mass", texts.units.first("mass"), step=step.step_g),
        "other": second_weight(texts, grams),
        "how": " · ".join(words for words in how if words),
        "follows": follows,
    }


def _steps(session: Session, pot: int, place: Place | None, texts: Texts) -> tuple[StepShown, ...]:
    shown = []
    for index, step in enumerate(session.state.pots[pot].steps):
        at = Place(pot, index)
        grams = target_g(session.state, at) if step.weighed_g is None else step.weighed_g
        state = "done" if step.weighed_g is not None else "now" if at == place else "later"
        amount = texts.units.one(grams, "mass", texts.units.first("mass"), step=step.step_g)
        shown.append(StepShown(name=step.name, amount=amount, state=state))
    return tuple(shown)


def _offer(session: Session, pot: int, texts: Texts) -> str:
    offer = wax_offer(session.state.pots[pot])
    if offer is None or not offer.add:
        return ""
    if offer.fits is False:
        return ""
    return texts(
        N_("Add {wax} of wax to bring the load back"),
        wax=texts.quantity(offer.wax_g, "mass", both=False),
    )


def last_weighed(session: Session) -> Place | None:
    """The step that was weighed last in the open pot, to be taken back."""
    pot = session.open_pot
    if pot is None:
        return None
    steps = session.state.pots[pot].steps
    done = [index for index, step in enumerate(steps) if step.weighed_g is not None]
    return Place(pot, done[-1]) if done else None
