"""Sharing a recipe's vessels out over pots, and what each pot then is."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.equipment import Pot
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.plan_leftovers import Sharing, weigh_with_leftovers
from wickbench.domain.plan_values import LineMix, PlanInputs, PlanLine, PotFill, PotPlan
from wickbench.domain.plan_weighing import Weighing, reach_of
from wickbench.domain.pot_split import Groups, keep_sizes_together
from wickbench.domain.recipes import Load, Role

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickbench.domain.plan_fill import RecipeMix

    Planned = tuple[PlanLine, LineMix]

_BOUNDLESS_MG = 10**12


@dataclass(frozen=True, slots=True)
class Potted:
    """Every pot of one recipe.

    Attributes:
        pots: its fillings, in order.
        findings: what is worth saying about each.
        over: at most so many of the pots are more than needed.
        hurried: fewer or more even pots may be found when there is time.
    """

    pots: tuple[PotPlan, ...] = ()
    findings: tuple[Finding, ...] = ()
    over: int = 0
    hurried: bool = False


@dataclass(frozen=True, slots=True)
class _Room:
    """What the vessels of one pot may take together, and why not more."""

    mg: int
    pot: Pot | None


def plan_pots(
    recipe_index: int,
    planned: Sequence[Planned],
    mix: RecipeMix,
    inputs: PlanInputs,
    *,
    first: int,
    quick: bool = False,
) -> Potted:
    """Every pot of one recipe, with what is worth saying about each.

    Args:
        recipe_index: place of the recipe in the plan, from 0.
        planned: its lines with the mix that each takes.
        mix: the recipe as mixed.
        inputs: equipment, extra and facts.
        first: place of the first of these pots in the plan; findings are about ``("pot", place)``.
        quick: look for the fewest pots only as long as a key press may take.
    """
    if not planned:
        return Potted()
    room = _room(mix, inputs)
    findings = _larger_than_pot(planned, room)
    groups = Groups.of(
        size for line, line_mix in planned for size in [_each_mg(line_mix)] * line.count
    )
    packing = keep_sizes_together(groups, max(room.mg, groups.sizes[0]), quick=quick)
    if room.pot is not None and room.mg <= 0:
        data = {"name": room.pot.name, "extra_g": inputs.extra_g}
        findings.append(Finding(Rank.STOPS, "plan.extra-over-pot", data))
    dealt = _deal(packing.pots, groups, planned)
    pots = []
    sharing = Sharing.of(planned[0][0].recipe_key, inputs)
    for number, fills in enumerate(dealt, start=1):
        numbering = (recipe_index, number, len(dealt))
        pot, said = _pot_plan(fills, mix, inputs, numbering, (planned, sharing))
        pots.append(pot)
        sharing = sharing.after(pot)
        about = ("pot", first + number - 1)
        findings += [Finding(one.rank, one.key, one.data, (*about, *one.about)) for one in said]
    findings += sharing.findings(mix.recipe, pots, inputs)
    return Potted(tuple(pots), tuple(findings), packing.over, packing.hurried)


def _each_mg(line_mix: LineMix) -> int:
    return round(line_mix.each_g * 1000)


def _room(mix: RecipeMix, inputs: PlanInputs) -> _Room:
    """What the largest pot leaves for vessels once the extra is in it.

    A scale rounds each weight by up to half a step, and wax may be rounded up: so much is kept.
    """
    if not inputs.pots:
        return _Room(_BOUNDLESS_MG, None)
    largest = max(inputs.pots, key=lambda pot: pot.safe_ml)
    coarsest_g = max((scale.reads_to_g for scale in inputs.scales), default=0.0)
    holds_g = largest.safe_ml * mix.density_g_per_ml - coarsest_g * len(mix.parts)
    share = 1 + inputs.extra_percent / 100
    return _Room(math.floor((holds_g - inputs.extra_g) / share * 1000), largest)


def _larger_than_pot(planned: Sequence[Planned], room: _Room) -> list[Finding]:
    if room.pot is None or room.mg <= 0:
        return []
    return [
        Finding(
            Rank.STOPS,
            "plan.vessel-over-pot",
            {
                "vessel": line.vessel_name,
                "each_g": line_mix.each_g,
                "name": room.pot.name,
                "most_g": room.mg / 1000,
            },
            ("line", line.key),
        )
        for line, line_mix in planned
        if _each_mg(line_mix) > room.mg
    ]


def _deal(
    split: Iterable[Sequence[int]], groups: Groups, planned: Sequence[Planned]
) -> list[tuple[PotFill, ...]]:
    """Counts of sizes turned into vessels of lines, each line in as few pots as that allows."""
    waiting: dict[int, list[tuple[PlanLine, LineMix, int]]] = {}
    for line, line_mix in planned:
        waiting.setdefault(_each_mg(line_mix), []).append((line, line_mix, line.count))
    dealt = []
    for counts in split:
        fills: list[PotFill] = []
        for size, count in zip(groups.sizes, counts, strict=True):
            fills += _take(waiting[size], count)
        if fills:
            dealt.append(tuple(_in_order(fills, planned)))
    return dealt


def _take(waiting: list[tuple[PlanLine, LineMix, int]], count: int) -> list[PotFill]:
    fills = []
    while count:
        line, line_mix, left = waiting[0]
        taken = min(count, left)
        fills.append(PotFill(line.key, line.vessel_name, taken, line_mix.each_g, line_mix.held_g))
        count -= taken
        if taken == left:
            waiting.pop(0)
        else:
            waiting[0] = (line, line_mix, left - taken)
    return fills


def _in_order(fills: list[PotFill], planned: Sequence[Planned]) -> list[PotFill]:
    places = {line.key: place for place, (line, _) in enumerate(planned)}
    return sorted(fills, key=lambda fill: places[fill.line_key])


def _pot_plan(
    fills: tuple[PotFill, ...],
    mix: RecipeMix,
    inputs: PlanInputs,
    numbering: tuple[int, int, int],
    of_recipe: tuple[Sequence[Planned], Sharing],
) -> tuple[PotPlan, tuple[Finding, ...]]:
    filled_mg = sum(round(fill.each_g * 1000) * fill.count for fill in fills)
    extra_mg = round(inputs.extra_g * 1000 + filled_mg * inputs.extra_percent / 100)
    pot = _smallest_pot((filled_mg + extra_mg) / 1000 / mix.density_g_per_ml, inputs.pots)
    planned, sharing = of_recipe
    weighed = weigh_with_leftovers(mix, (filled_mg + extra_mg, filled_mg), pot, inputs, sharing)
    weighing = weighed.weighing
    total_g = weighing.total_mg / 1000
    volume_ml = total_g / weighed.density_g_per_ml
    index, number, of = numbering
    plan = PotPlan(
        number=number,
        of=of,
        recipe_index=index,
        recipe_key=planned[0][0].recipe_key,
        recipe=mix.recipe,
        pot=pot,
        weigh=weighing.lines,
        fills=fills,
        total_g=total_g,
        filled_g=filled_mg / 1000,
        extra_g=extra_mg / 1000,
        leftover_g=(weighing.total_mg - filled_mg) / 1000,
        volume_ml=volume_ml,
        fill_ratio=volume_ml / pot.safe_ml if pot else None,
        load=_load(weighing),
        oil_percent_of_mix=100 * weighing.role_g(Role.FRAGRANCE) / total_g,
        reach=reach_of(weighing),
        finish=mix.finish,
        leftovers=weighing.leftovers,
        made=weighed.made,
        foreign=weighed.foreign,
    )
    return plan, weighed.findings


def _smallest_pot(volume_ml: float, pots: Sequence[Pot]) -> Pot | None:
    """The smallest pot that holds it safely; the largest when none does."""
    able = [pot for pot in pots if pot.safe_ml >= volume_ml]
    if able:
        return min(able, key=lambda pot: pot.safe_ml)
    return max(pots, key=lambda pot: pot.safe_ml, default=None)


def _load(weighing: Weighing) -> Load:
    wax_g = weighing.role_g(Role.WAX)
    return Load(100 * weighing.role_g(Role.FRAGRANCE) / wax_g if wax_g else 0.0, "wax")
