"""The pour plan: candles in, pots and weights out. Everything closes to the milligram."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field, replace
from functools import partial
from typing import TYPE_CHECKING, Self

from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.plan_costs import line_cost
from wickbench.domain.plan_fill import RecipeMix, mix_of_line, recipe_mix
from wickbench.domain.plan_pots import Potted, plan_pots
from wickbench.domain.plan_values import (
    LineMix,
    PlanInputs,
    PlanLine,
    PotFill,
    PotPlan,
    PourPlan,
    WeighLine,
)
from wickbench.domain.recipe_checks import recipe_findings
from wickbench.domain.shortages import LineUse, shortage_finding, shortages

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from wickbench.domain.recipes import Material

__all__ = [
    "LineMix",
    "PlanInputs",
    "PlanLine",
    "PlanMemo",
    "PotFill",
    "PotPlan",
    "PourPlan",
    "WeighLine",
    "plan_pour",
]


@dataclass(frozen=True, slots=True)
class _RecipePart:
    """What one recipe of a plan comes to."""

    potted: Potted = field(default_factory=Potted)
    mixes: Mapping[Hashable, LineMix] = field(default_factory=dict)
    uses: tuple[LineUse, ...] = ()
    findings: tuple[Finding, ...] = ()


class PlanMemo:
    """What each recipe of a plan came to the last time.

    A key pressed in one line changes one recipe: the others are taken from here. The plan is the
    same with a memo as without.
    """

    def __init__(self) -> None:
        self._common: PlanInputs | None = None
        self._parts: dict[Hashable, tuple[object, _RecipePart]] = {}

    def of(self, inputs: PlanInputs) -> Self:
        """Forget everything unless only lines and stock differ from the last time."""
        common = replace(inputs, lines=(), stock={})
        if common != self._common:
            self._common = common
            self._parts = {}
        return self

    def part(
        self, key: Hashable, asked: object, make: Callable[[], _RecipePart], *, quick: bool
    ) -> _RecipePart:
        """What this recipe comes to; made anew unless the same was asked the last time.

        What was hurried serves only where a quick answer is wanted again.
        """
        known = self._parts.get(key)
        if known is None or known[0] != asked or (known[1].potted.hurried and not quick):
            known = self._parts[key] = (asked, make())
        return known[1]


def plan_pour(inputs: PlanInputs, memo: PlanMemo | None = None, *, quick: bool = False) -> PourPlan:
    """Plan a pour.

    Each pot holds one recipe and fills whole vessels; recipes take the fewest pots, evenly
    filled. A line that cannot be planned is left out and its finding says why.

    Args:
        inputs: everything the plan is computed from.
        memo: of the plan before this one, so that only what changed is computed.
        quick: cut long searches for the fewest pots short; the plan says whether it was
            ``hurried``. One that was not is the same as without.
    """
    known = (memo or PlanMemo()).of(inputs)
    findings = list(_equipment_findings(inputs))
    parts: list[_RecipePart] = []
    pots: list[PotPlan] = []
    mixes: dict[Hashable, LineMix] = {}
    uses: list[LineUse] = []
    for index, (recipe_key, lines) in enumerate(_by_recipe(inputs.lines).items()):
        make = partial(_recipe_part, index, lines, inputs, first=len(pots), quick=quick)
        part = known.part(recipe_key, (index, lines, len(pots)), make, quick=quick)
        parts.append(part)
        pots += part.potted.pots
        mixes |= part.mixes
        uses += part.uses
        findings += part.findings
    hurried = any(part.potted.hurried for part in parts)
    findings += _pots_again(pots, inputs)
    if not hurried:
        findings += _maybe_fewer(sum(part.potted.over for part in parts))
    return replace(_joined(inputs, pots, mixes, uses, findings), hurried=hurried)


def _maybe_fewer(over: int) -> list[Finding]:
    """Said when nobody knows whether the plan's pots are the fewest that would do."""
    return [Finding(Rank.NOTE, "plan.maybe-fewer-pots", {"n": over})] if over else []


def _recipe_part(
    index: int, lines: list[PlanLine], inputs: PlanInputs, *, first: int, quick: bool
) -> _RecipePart:
    mix, said = recipe_mix(lines[0].recipe, inputs.facts)
    findings = _about_recipe(lines[0].recipe_key, [*said, *_recipe_says(lines, inputs)])
    if mix is None:
        return _RecipePart(findings=tuple(findings))
    planned = _line_mixes(lines, mix, inputs, findings)
    potted = plan_pots(index, list(planned.values()), mix, inputs, first=first, quick=quick)
    return _RecipePart(
        potted=potted,
        mixes={key: line_mix for key, (_, line_mix) in planned.items()},
        uses=tuple(_use(line, line_mix, mix, inputs) for line, line_mix in planned.values()),
        findings=(*findings, *potted.findings),
    )


def _by_recipe(lines: Iterable[PlanLine]) -> dict[Hashable, list[PlanLine]]:
    grouped: dict[Hashable, list[PlanLine]] = {}
    for line in lines:
        if line.count > 0:
            grouped.setdefault(line.recipe_key, []).append(line)
    return grouped


def _equipment_findings(inputs: PlanInputs) -> list[Finding]:
    if not any(line.count for line in inputs.lines):
        return []
    found = []
    if not inputs.pots:
        found.append(Finding(Rank.STOPS, "plan.no-pot"))
    if not inputs.scales:
        found.append(Finding(Rank.STOPS, "plan.no-scale"))
    return found


def _recipe_says(lines: list[PlanLine], inputs: PlanInputs) -> tuple[Finding, ...]:
    return recipe_findings(lines[0].recipe, inputs.facts)


def _about_recipe(recipe_key: Hashable, findings: Iterable[Finding]) -> list[Finding]:
    return [replace(said, about=("recipe", recipe_key, *said.about)) for said in findings]


def _line_mixes(
    lines: list[PlanLine], mix: RecipeMix, inputs: PlanInputs, findings: list[Finding]
) -> dict[Hashable, tuple[PlanLine, LineMix]]:
    planned: dict[Hashable, tuple[PlanLine, LineMix]] = {}
    for line in lines:
        line_mix, said = mix_of_line(line, mix)
        findings += [replace(one, about=("line", line.key)) for one in said]
        if line_mix is not None:
            cost_e4, unpriced = line_cost(line, line_mix.each_g, mix, inputs.prices)
            planned[line.key] = (line, replace(line_mix, cost_e4=cost_e4, unpriced=unpriced))
    return planned


def _use(line: PlanLine, line_mix: LineMix, mix: RecipeMix, inputs: PlanInputs) -> LineUse:
    """Grams and pieces that one candle less would save."""
    each: defaultdict[Material, float] = defaultdict(float)
    made_g = line_mix.each_g * (1 + inputs.extra_percent / 100)
    for part in mix.parts:
        each[part.material] += made_g * part.share
    for item, pieces in line.items.items():
        each[item] += pieces
    return LineUse(line_key=line.key, name=line.vessel_name, count=line.count, each=each)


def _pots_again(pots: list[PotPlan], inputs: PlanInputs) -> list[Finding]:
    """Pots that are needed again and again within one plan."""
    times: defaultdict[str, int] = defaultdict(int)
    for planned in pots:
        if planned.pot is not None:
            times[planned.pot.name] += 1
    owned = defaultdict(int, {pot.name: 0 for pot in inputs.pots})
    for pot in inputs.pots:
        owned[pot.name] += 1
    return [
        Finding(Rank.NOTE, "plan.pot-again", {"name": name, "times": count})
        for name, count in times.items()
        if count > owned[name]
    ]


def _joined(
    inputs: PlanInputs,
    pots: list[PotPlan],
    mixes: dict[Hashable, LineMix],
    uses: list[LineUse],
    findings: list[Finding],
) -> PourPlan:
    needs = _needs(pots, inputs, mixes)
    grams = {line.material for pot in pots for line in pot.weigh}
    short = shortages(needs, inputs.stock, uses)
    findings += [
        shortage_finding(one, inputs.facts.name(one.material), in_grams=one.material in grams)
        for one in short
    ]
    total_mg, filled_mg = (
        sum(round(getattr(pot, name) * 1000) for pot in pots) for name in ("total_g", "filled_g")
    )
    return PourPlan(
        pots=tuple(pots),
        lines=tuple(mixes[line.key] for line in inputs.lines if line.key in mixes),
        total_g=total_mg / 1000,
        filled_g=filled_mg / 1000,
        leftover_g=(total_mg - filled_mg) / 1000,
        candles=sum(fill.count for pot in pots for fill in pot.fills),
        needs=needs,
        shortages=short,
        findings=sort_findings(_once(findings)),
    )


def _needs(
    pots: list[PotPlan], inputs: PlanInputs, mixes: dict[Hashable, LineMix]
) -> dict[Material, float]:
    weights: defaultdict[Material, list[float]] = defaultdict(list)
    for pot in pots:
        for weighed in pot.weigh:
            weights[weighed.material].append(weighed.weigh_g)
    needs: dict[Material, float] = {key: math.fsum(all_g) for key, all_g in weights.items()}
    for line in inputs.lines:
        if line.key in mixes:
            for item, pieces in line.items.items():
                needs[item] = needs.get(item, 0.0) + pieces * line.count
    return needs


def _once(findings: list[Finding]) -> list[Finding]:
    """A note about one material stands once, however many recipes use it."""
    kept: dict[object, Finding] = {}
    for place, finding in enumerate(findings):
        is_shared = finding.rank is Rank.NOTE and finding.about[:1] == ("recipe",)
        kept.setdefault((finding.key, finding.about[2:]) if is_shared else place, finding)
    return list(kept.values())
