"""What a pot on the bench has become, and how to bring its load back."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickbench.domain.bench import (
    BenchPot,
    BenchState,
    BenchStep,
    exact_target_g,
    expected_g,
    total_of,
    wax_factor,
    with_pot,
)
from wickbench.domain.errors import OutOfRange
from wickbench.domain.plan_values import PotFill
from wickbench.domain.recipes import Load, Material, Role
from wickbench.domain.rounding import to_step

if TYPE_CHECKING:
    from collections.abc import Iterator

STEPS_TOLD = 0.75
"""Less than this many steps off is rounding to the scale, not a hand that slipped."""

SLACK_G = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """A pot as it stands: weighed values where there are some, targets for the rest.

    Attributes:
        wax_g: all wax.
        oil_g: all fragrance.
        total_g: the whole mix.
        load: oil on wax.
        planned_load: the same as planned.
        oils_percent: each oil in percent of the whole mix.
        filled: vessels that can be filled, in the order of the plan.
        unfilled: vessels for which the mix does not last.
        leftover_g: what stays in the pot.
        done: everything is weighed.
    """

    wax_g: float
    oil_g: float
    total_g: float
    load: Load
    planned_load: Load
    oils_percent: Mapping[Material, float]
    filled: tuple[PotFill, ...]
    unfilled: tuple[PotFill, ...]
    leftover_g: float
    done: bool


def outcome(pot: BenchPot) -> Outcome:
    """What the pot has become, or will when the rest is weighed as shown."""
    wax_g, oil_g = total_of(pot, [Role.WAX]), total_of(pot, [Role.FRAGRANCE])
    total_g = total_of(pot, Role)
    filled, unfilled, leftover_g = _filled(pot.fills, total_g)
    return Outcome(
        wax_g=wax_g,
        oil_g=oil_g,
        total_g=total_g,
        load=_load(oil_g, wax_g),
        planned_load=_load(pot.planned(Role.FRAGRANCE), pot.planned(Role.WAX)),
        oils_percent=_oils_percent(pot, total_g),
        filled=filled,
        unfilled=unfilled,
        leftover_g=leftover_g,
        done=all(step.weighed_g is not None for step in pot.steps),
    )


def _load(oil_g: float, wax_g: float) -> Load:
    return Load(100 * oil_g / wax_g if wax_g else 0.0, "wax")


def _oils_percent(pot: BenchPot, total_g: float) -> dict[Material, float]:
    oils: dict[Material, float] = {}
    for step in pot.steps if total_g else ():
        for oil, part in _oils_of(step):
            oils[oil] = oils.get(oil, 0.0) + 100 * part * expected_g(pot, step) / total_g
    return oils


def _oils_of(step: BenchStep) -> Iterator[tuple[Material, float]]:
    """Each oil of a step with its share of it."""
    if step.leftover is None:
        if step.role is Role.FRAGRANCE:
            yield step.material, 1.0
        return
    for (role, material), share in step.leftover.shares.items():
        if role is Role.FRAGRANCE:
            yield material, share


def _filled(
    fills: tuple[PotFill, ...], total_g: float
) -> tuple[tuple[PotFill, ...], tuple[PotFill, ...], float]:
    """Whole vessels in the order of the plan, for as long as the mix lasts."""
    left_g = total_g
    filled, unfilled = [], []
    for fill in fills:
        count = fill.count
        if fill.each_g > 0:
            count = min(count, math.floor((left_g + SLACK_G) / fill.each_g))
        left_g -= count * fill.each_g
        if count:
            filled.append(replace(fill, count=count))
        if count < fill.count:
            unfilled.append(replace(fill, count=fill.count - count))
    return tuple(filled), tuple(unfilled), max(0.0, left_g)


@dataclass(frozen=True, slots=True, kw_only=True)
class WaxOffer:
    """What to add so that the planned load and blend hold again after too much oil.

    Attributes:
        add: top-up steps: each wax, and dye and additives where the scale can tell.
        wax_g: wax to add in all.
        total_g: the mix then, with the oils that are still to come.
        fits: the pot holds it safely; None when the pot is not known.
    """

    add: tuple[BenchStep, ...]
    wax_g: float
    total_g: float
    fits: bool | None


def wax_offer(pot: BenchPot) -> WaxOffer | None:
    """The wax that brings the load back; None when no oil weighed is beyond its target.

    The most over-poured oil decides: with k the largest of weighed by planned, everything else is
    brought to k times the plan. Offered, never done by itself.
    """
    factor, most = wax_factor(pot), _most_over(pot)
    if most <= factor:
        return None
    add = tuple(_top_ups(pot, most))
    wax_g = math.fsum(step.planned_g for step in add if step.role is Role.WAX)
    if wax_g <= 0:
        return None
    total_g = outcome(_with_top_ups(pot, add)).total_g
    fits = None if pot.holds_g is None else total_g <= pot.holds_g + SLACK_G
    return WaxOffer(add=add, wax_g=wax_g, total_g=total_g, fits=fits)


def _most_over(pot: BenchPot) -> float:
    """Largest factor of an oil beyond its target by more than its scale can tell."""
    over = [
        (step.weighed_g + pot.saved_g(step)) / pot.whole_g(step)
        for step in pot.new
        if step.role is Role.FRAGRANCE
        and step.weighed_g is not None
        and pot.whole_g(step) > 0
        and step.weighed_g > exact_target_g(pot, step) + step.step_g * STEPS_TOLD
    ]
    return max(over, default=0.0)


def _top_ups(pot: BenchPot, factor: float) -> Iterator[BenchStep]:
    """What each wax, dye and additive lacks of ``factor`` times the plan."""
    there: dict[tuple[Role, Material], float] = {}
    for step in pot.new:
        key = (step.role, step.material)
        there[key] = there.get(key, 0.0) + expected_g(pot, step)
    for step in pot.new:
        if step.role is Role.FRAGRANCE or step.top_up or step.weighed_g is None:
            continue
        there_g = there[step.role, step.material] + pot.saved_g(step)
        missing_g = pot.whole_g(step) * factor - there_g
        add_g = to_step(max(0.0, missing_g), step.step_g)
        if add_g > 0:
            yield replace(step, planned_g=add_g, weighed_g=None, top_up=True)


def _with_top_ups(pot: BenchPot, add: tuple[BenchStep, ...]) -> BenchPot:
    """Top-ups stand before what is still to be weighed."""
    place = next(
        (index for index, step in enumerate(pot.steps) if step.weighed_g is None), len(pot.steps)
    )
    return replace(pot, steps=(*pot.steps[:place], *add, *pot.steps[place:]))


def accept_wax(state: BenchState, pot_index: int) -> BenchState:
    """Take the offer: its top-ups become the next steps of the pot.

    Raises:
        OutOfRange: ``bench.nothing-offered`` when the pot needs none, ``bench.no-such-step``.
    """
    if not 0 <= pot_index < len(state.pots):
        raise OutOfRange("bench.no-such-step")
    offer = wax_offer(state.pots[pot_index])
    if offer is None:
        raise OutOfRange("bench.nothing-offered")
    return with_pot(state, pot_index, _with_top_ups(state.pots[pot_index], offer.add))
