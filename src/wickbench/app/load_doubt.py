"""How a load came about and how sure it is: the scales, their steps, and the formula."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wickbench.app.recipe_words import both_bases, percent
from wickbench.app.texts_marker import N_
from wickbench.domain.bench import expected_g
from wickbench.domain.bench_outcome import outcome
from wickbench.domain.recipes import Role
from wickbench.domain.weighing_doubt import Reading, load_doubt

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.app.texts import Texts
    from wickbench.domain.bench import BenchPot, BenchStep
    from wickbench.domain.equipment import LoadReach
    from wickbench.domain.plan_values import PotPlan, WeighLine

_WEIGHED = (Role.WAX, Role.FRAGRANCE)


def how_planned_load(pot: PotPlan, texts: Texts) -> tuple[str, ...]:
    """Why each scale was chosen, and what their steps do to the load of a planned pot."""
    said = [_why(line, texts) for line in pot.weigh]
    if pot.reach is None or not pot.load.percent:
        return tuple(said)
    wax_g, oil_g = (_sum(pot, role) for role in _WEIGHED)
    return (*_how(wax_g, oil_g, pot.reach, texts), *said)


def how_weighed_load(pot: BenchPot, texts: Texts) -> tuple[str, ...]:
    """What the steps of the scales do to the load of a pot at the bench."""
    reach = weighed_doubt(pot)
    if reach is None:
        return ()
    waxes, oils = (_readings(pot, role) for role in _WEIGHED)
    wax_g, oil_g = (math.fsum(one.mass_g for one in part) for part in (waxes, oils))
    return tuple(_how(wax_g, oil_g, reach, texts))


def weighed_doubt(pot: BenchPot) -> LoadReach | None:
    """How far the load of a pot at the bench may be off; None without oil."""
    waxes, oils = (_readings(pot, role) for role in _WEIGHED)
    return load_doubt(waxes, oils)


def load_now(pot: BenchPot, texts: Texts) -> str:
    """The load of a pot at the bench both ways, and how far it may be off; "–" without oil."""
    said = both_bases(texts, outcome(pot).load)
    reach = weighed_doubt(pot)
    if not said or reach is None:
        return said or "–"
    most = percent(texts, max(reach.above_percent, reach.below_percent))
    return texts(N_("{load}, give or take {reach} of wax by the scales"), load=said, reach=most)


def _sum(pot: PotPlan, role: Role) -> float:
    new = (line.weigh_g for line in pot.weigh if line.role is role)
    old = (line.weigh_g * line.brings.share({role}) for line in pot.leftovers)
    return math.fsum((*new, *old))


def _readings(pot: BenchPot, role: Role) -> list[Reading]:
    return [found for step in pot.steps if (found := _reading(pot, step, role)) is not None]


def _reading(pot: BenchPot, step: BenchStep, role: Role) -> Reading | None:
    """What a step brings of a role; a leftover brings some of each, as it was weighed once."""
    share = step.of({role})
    if not share:
        return None
    return Reading(expected_g(pot, step) * share, 0.0 if step.leftover else step.step_g)


def _how(wax_g: float, oil_g: float, reach: LoadReach, texts: Texts) -> Iterator[str]:
    load = 100 * oil_g / wax_g
    yield texts(
        N_("Load = oil ÷ wax = {oil} ÷ {wax} = {load} of wax."),
        oil=texts.quantity(oil_g, "mass", both=False),
        wax=texts.quantity(wax_g, "mass", both=False),
        load=percent(texts, load),
    )
    yield texts(
        N_(
            "A scale that reads in steps of d is right to ± d ÷ 2, every value between as likely "
            "as another: u = d ÷ √12, and d ÷ √6 with tare, which is a reading of its own "
            "(JCGM 100:2008, 4.3.7)."
        )
    )
    yield texts(
        N_(
            "u(load) = load × √((u oil ÷ oil)² + (u wax ÷ wax)²) = {u} of wax (JCGM 100:2008, "
            "5.1.2). At worst each is a whole step off: (oil ± d) ÷ (wax ∓ d), {low} to {high} "
            "of wax."
        ),
        u=_fine(texts, reach.standard_uncertainty_percent),
        low=percent(texts, load - reach.below_percent),
        high=percent(texts, load + reach.above_percent),
    )


def _fine(texts: Texts, value: float) -> str:
    """A small percentage with three decimals."""
    return f"{texts.number(value, 3)}\u00a0%"


def _why(line: WeighLine, texts: Texts) -> str:
    """Why something is weighed where it is."""
    if line.scale is None:
        words = N_("{name}: no scale is entered that carries it.")
    elif line.portions > 1:
        words = N_("{name}: {scale} carries most, and it takes {n} goes, each with its own tare.")
    elif line.in_pot:
        words = N_("{name}: {scale} is the finest that carries the pot with its whole mix.")
    elif line.role is Role.WAX:
        words = N_("{name}: {scale} is the finest that carries it in a bowl, without the pot.")
    else:
        words = N_("{name}: {scale} is the finest that carries it in a cup.")
    scale = line.scale.name if line.scale is not None else ""
    return texts(words, name=line.name, scale=scale, n=str(line.portions))
