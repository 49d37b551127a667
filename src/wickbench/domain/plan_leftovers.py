"""Leftovers in a plan: they go into the first pots that have room, what is new comes on top."""

from __future__ import annotations

import math
from collections.abc import Hashable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.leftover_lines import LeftoverIn, LeftoverLine, LeftoverWanted
from wickbench.domain.leftover_room import counts_towards, most_of
from wickbench.domain.leftovers import Amount, Leftover, Reworked, work_in
from wickbench.domain.leftovers_sale import as_recipe
from wickbench.domain.plan_fill import recipe_mix
from wickbench.domain.plan_weighing import Weighing, pot_place, weigh_pot
from wickbench.domain.recipes import Material, Part, Recipe, Role, mix_parts

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickbench.domain.equipment import Pot
    from wickbench.domain.plan_fill import RecipeMix
    from wickbench.domain.plan_values import PlanInputs, PotPlan
    from wickbench.domain.recipe_checks import Facts

_SLACK_MG = 1e-3


@dataclass(frozen=True, slots=True)
class Sharing:
    """Leftovers of one recipe that wait for a pot.

    Attributes:
        wanted: what was asked for, in its order.
        used_g: what earlier pots have taken of each.
    """

    wanted: tuple[LeftoverWanted, ...]
    used_g: Mapping[Hashable, float]

    @classmethod
    def of(cls, recipe_key: Hashable, inputs: PlanInputs) -> Sharing:
        """All of them, none used."""
        return cls(inputs.leftovers.get(recipe_key, ()), {})

    def after(self, pot: PotPlan) -> Sharing:
        """What still waits once a pot has its part."""
        if not pot.leftovers:
            return self
        used = dict(self.used_g)
        for line in pot.leftovers:
            used[line.brings.key] = used.get(line.brings.key, 0.0) + line.weigh_g
        return replace(self, used_g=used)

    def waiting(self) -> Iterator[tuple[LeftoverWanted, float]]:
        """Each with the grams of it that no pot has taken yet."""
        for one in self.wanted:
            there_g = one.leftover.mass_g
            asked_g = there_g if one.mass_g is None else min(one.mass_g, there_g)
            left_g = asked_g - self.used_g.get(one.key, 0.0)
            if left_g > 0:
                yield one, left_g

    def findings(
        self, recipe: Recipe, pots: Sequence[PotPlan], inputs: PlanInputs
    ) -> list[Finding]:
        """What was asked for and has no place in these pots, or is not there."""
        total_g = math.fsum(pot.total_g for pot in pots)
        step_g = max((line.step_g for pot in pots for line in pot.leftovers), default=1.0)
        found = []
        for one in self.wanted:
            used_g, about = self.used_g.get(one.key, 0.0), ("leftover", one.key)
            if one.mass_g is None:
                if one.leftover.mass_g <= 0:
                    found.append(
                        Finding(Rank.WATCH, "leftovers.used-up", {"name": one.name}, about)
                    )
                elif not used_g:
                    found.append(Finding(Rank.WATCH, *_refusal(one, recipe, total_g, inputs.facts)))
                continue
            if one.mass_g > one.leftover.mass_g + step_g / 2:
                data = {"name": one.name, "mass_g": one.mass_g, "left_g": one.leftover.mass_g}
                found.append(Finding(Rank.STOPS, "leftovers.not-so-much-there", data, about))
            elif one.mass_g - used_g > step_g * max(len(pots), 1):
                found.append(Finding(Rank.STOPS, *_refusal(one, recipe, total_g, inputs.facts)))
                data = {"name": one.name, "used_g": used_g}
                found.append(Finding(Rank.NOTE, "leftovers.planned-less", data, about))
        return found


def _refusal(
    one: LeftoverWanted, recipe: Recipe, total_g: float, facts: Facts
) -> tuple[str, Mapping[str, object], tuple[object, ...]]:
    """Why all of it does not go into the batch, with the numbers."""
    mass_g = one.leftover.mass_g if one.mass_g is None else one.mass_g
    about = ("leftover", one.key)
    try:
        work_in([Leftover(one.leftover.recipe, mass_g)], recipe, total_g, facts)
    except OutOfRange as refused:
        return refused.key, refused.data, about
    return "leftovers.no-room-beside", {"name": one.name}, about


@dataclass(frozen=True, slots=True)
class Weighed:
    """What is weighed for a pot.

    Attributes:
        weighing: leftovers and what is new.
        density_g_per_ml: of the mix in the pot at pouring temperature.
        made: what the mix then is; None without leftovers.
        foreign: materials of it that the recipe does not have.
        findings: about this pot.
    """

    weighing: Weighing
    density_g_per_ml: float
    made: Recipe | None
    foreign: tuple[Material, ...]
    findings: tuple[Finding, ...]


def weigh_with_leftovers(
    mix: RecipeMix,
    masses_mg: tuple[int, int],
    pot: Pot | None,
    inputs: PlanInputs,
    sharing: Sharing,
) -> Weighed:
    """Weights of a pot: leftovers first, then the new wax, dye, additives and oil they need.

    Args:
        mix: the recipe as mixed.
        masses_mg: the whole mix, and what the vessels take of it.
        pot: what it is mixed in.
        inputs: equipment and facts.
        sharing: leftovers that wait for a pot.
    """
    total_mg, least_mg = masses_mg
    lines = tuple(_lines(mix.recipe, total_mg / 1000, pot, inputs, sharing))
    if not lines:
        weighing = weigh_pot(mix.recipe, total_mg, least_mg, pot, inputs)
        return Weighed(weighing, mix.density_g_per_ml, None, (), weighing.findings)
    recipes = {one.key: one.leftover.recipe for one in sharing.wanted}
    taken = [Leftover(recipes[line.brings.key], line.weigh_g) for line in lines]
    done = work_in(taken, mix.recipe, total_mg / 1000, inputs.facts)
    old_mg = sum(round(line.weigh_g * 1000) for line in lines)
    new = _new_parts(done, mix.recipe, total_mg)
    weighing = weigh_pot(mix.recipe, total_mg, least_mg - old_mg, pot, inputs, new=new)
    there = tuple(line for line in weighing.lines if line.weigh_g > 0)
    weighing = replace(weighing, lines=there, leftovers=lines)
    made = as_recipe(_holds(weighing), mix.recipe)
    density = recipe_mix(made, inputs.facts)[0] or mix
    said = [one for one in done.findings if done.foreign or one.key.startswith("leftovers.")]
    return Weighed(
        weighing, density.density_g_per_ml, made, done.foreign, (*weighing.findings, *said)
    )


def _lines(
    recipe: Recipe, total_g: float, pot: Pot | None, inputs: PlanInputs, sharing: Sharing
) -> Iterator[LeftoverLine]:
    """As much of each leftover as this pot can take, in whole steps of the scale."""
    beside: list[Leftover] = []
    place = pot_place(pot, total_g, inputs, [])
    for one, left_g in sharing.waiting():
        most_g = min(left_g, most_of(one.leftover.recipe, recipe, total_g, beside))
        steps = math.floor((most_g * 1000 + _SLACK_MG) / place.step_mg)
        if steps <= 0:
            continue
        mass_g = steps * place.step_mg / 1000
        beside.append(Leftover(one.leftover.recipe, mass_g))
        yield LeftoverLine(
            name=one.name,
            weigh_g=mass_g,
            step_g=place.step_mg / 1000,
            brings=brings(one, recipe, inputs.facts),
            scale=place.scale,
            in_pot=place.in_pot,
            portions=place.portions,
        )


def brings(one: LeftoverWanted, recipe: Recipe, facts: Facts) -> LeftoverIn:
    """What a gram of a leftover brings into a pot of a recipe."""
    parts = mix_parts(one.leftover.recipe)
    return LeftoverIn(
        key=one.key,
        shares={(part.role, part.material): part.share for part in parts},
        gives=counts_towards(one.leftover.recipe, recipe),
        names={part.material: facts.name(part.material) for part in parts},
    )


def _new_parts(done: Reworked, recipe: Recipe, total_mg: int) -> list[Part]:
    """What is added, as shares of the whole; the chief wax always, to make up what is short."""
    add = {(one.role, one.material): one for one in done.add}
    chief = max(recipe.wax, key=lambda wax: recipe.wax[wax])
    add.setdefault((Role.WAX, chief), Amount(chief, Role.WAX, 0.0))
    order = [(part.role, part.material) for part in mix_parts(recipe)]
    return [
        Part(add[key].material, add[key].role, add[key].mass_g * 1000 / total_mg)
        for key in order
        if key in add
    ]


def _holds(weighing: Weighing) -> dict[tuple[Role, Material], float]:
    """Everything in the pot as weighed, leftovers counted in."""
    masses: dict[tuple[Role, Material], list[float]] = {}
    for line in weighing.lines:
        masses.setdefault((line.role, line.material), []).append(line.weigh_g)
    for old in weighing.leftovers:
        for key, share in old.brings.shares.items():
            masses.setdefault(key, []).append(old.weigh_g * share)
    return {key: math.fsum(each) for key, each in masses.items()}
