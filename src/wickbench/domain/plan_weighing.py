"""What to weigh for one pot, each on the scale that can weigh it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickbench.domain.equipment import LoadReach, Pot, Scale, which_scale
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.leftover_lines import LeftoverLine
from wickbench.domain.plan_values import PlanInputs, WeighLine
from wickbench.domain.recipes import Part, Recipe, Role, mix_parts
from wickbench.domain.rounding import steps
from wickbench.domain.weighing_doubt import Reading, coarse_findings, load_doubt, readings

if TYPE_CHECKING:
    from collections.abc import Sequence

_STEP_WITHOUT_SCALE_MG = 100
_MOST_PORTIONS = 99


@dataclass(frozen=True, slots=True)
class Weighing:
    """What to weigh for a pot and what is worth saying about it."""

    lines: tuple[WeighLine, ...]
    findings: tuple[Finding, ...]
    leftovers: tuple[LeftoverLine, ...] = ()

    @property
    def total_mg(self) -> int:
        """Everything weighed together."""
        old = sum(round(line.weigh_g * 1000) for line in self.leftovers)
        return old + sum(round(line.weigh_g * 1000) for line in self.lines)

    def role_g(self, role: Role) -> float:
        """What is weighed of one role, new or in leftovers."""
        new = (line.weigh_g for line in self.lines if line.role is role)
        old = (line.weigh_g * line.brings.share({role}) for line in self.leftovers)
        return math.fsum((*new, *old))


@dataclass(frozen=True, slots=True)
class Place:
    """Where something is weighed: on which scale, in the pot or a cup, in how many goes."""

    scale: Scale | None
    in_pot: bool
    portions: int = 1

    @property
    def step_mg(self) -> int:
        """What can be told apart there."""
        return self.scale.step_mg if self.scale else _STEP_WITHOUT_SCALE_MG


def weigh_pot(
    recipe: Recipe,
    total_mg: int,
    least_mg: int,
    pot: Pot | None,
    inputs: PlanInputs,
    *,
    new: Sequence[Part] | None = None,
) -> Weighing:
    """Weights for ``total_mg`` of mix, rounded to the scales, never below ``least_mg`` in all.

    Wax is weighed into the pot on the scale; dye, additives and oils in a cup, on the finest
    scale that carries them. What rounding takes away from the vessels is made up with wax.
    ``new`` is what is weighed beside leftovers, as shares of ``total_mg``; all of the recipe
    otherwise.
    """
    findings: list[Finding] = []
    wax_place = pot_place(pot, total_mg / 1000, inputs, findings)
    lines = []
    for part in mix_parts(recipe) if new is None else new:
        exact_g = part.share * total_mg / 1000
        place = wax_place
        if part.role is not Role.WAX:
            place = _in_cup(exact_g, inputs)
        lines.append(_line(part, exact_g, place, inputs))
    lines = _enough(lines, least_mg)
    if new is None:
        findings += coarse_findings(lines)
    return Weighing(tuple(lines), tuple(findings))


def reach_of(weighing: Weighing) -> LoadReach | None:
    """How far the load may be off because the scales read in steps; leftovers count as they are."""
    old = {
        role: Reading(
            math.fsum(line.weigh_g * line.brings.share({role}) for line in weighing.leftovers), 0.0
        )
        for role in (Role.WAX, Role.FRAGRANCE)
    }
    waxes, oils = ((*readings(weighing.lines, role), one) for role, one in old.items())
    return load_doubt(waxes, oils)


def _line(part: Part, exact_g: float, place: Place, inputs: PlanInputs) -> WeighLine:
    step_mg = place.step_mg
    return WeighLine(
        material=part.material,
        name=inputs.facts.name(part.material),
        role=part.role,
        exact_g=exact_g,
        weigh_g=steps(exact_g * 1000, step_mg) * step_mg / 1000,
        step_g=step_mg / 1000,
        scale=place.scale,
        in_pot=place.in_pot,
        portions=place.portions,
    )


def pot_place(pot: Pot | None, mix_g: float, inputs: PlanInputs, findings: list[Finding]) -> Place:
    """The scale for pot and mix together, or the largest one and a bowl, in portions."""
    if not inputs.scales:
        return Place(None, in_pot=pot is not None)
    empty_g = pot.empty_g if pot else inputs.cup_g
    scale = which_scale(inputs.scales, mix_g, empty_g)
    if scale is not None:
        return Place(scale, in_pot=pot is not None)
    place = _in_cup(mix_g, inputs)
    if pot is not None and place.scale is not None:
        largest_g = max(scale.maximum_g for scale in inputs.scales)
        alone = empty_g >= largest_g
        key = "plan.pot-over-scale" if alone else "plan.pot-and-mix-over-scale"
        if place.portions > 1:
            key += "-in-portions"
        data = {
            "name": pot.name,
            "scale": place.scale.name,
            "together_g": empty_g if alone else empty_g + mix_g,
            "maximum_g": largest_g,
            "portions": place.portions,
        }
        findings.append(Finding(Rank.WATCH, key, data))
    return place


def _in_cup(mass_g: float, inputs: PlanInputs) -> Place:
    scale = which_scale(inputs.scales, mass_g, inputs.cup_g)
    if scale is not None or not inputs.scales:
        return Place(scale, in_pot=False)
    largest = max(inputs.scales, key=lambda scale: (scale.maximum_g, -scale.reads_to_g))
    room_g = largest.maximum_g - inputs.cup_g
    portions = math.ceil(mass_g / room_g) if room_g > 0 else _MOST_PORTIONS
    return Place(largest, in_pot=False, portions=min(portions, _MOST_PORTIONS))


def _enough(lines: Sequence[WeighLine], least_mg: int) -> list[WeighLine]:
    """Make up with the chief wax what rounding down has left short."""
    lines = list(lines)
    short_mg = least_mg - sum(round(line.weigh_g * 1000) for line in lines)
    waxes = [place for place, line in enumerate(lines) if line.role is Role.WAX]
    if short_mg > 0:
        chief = max(waxes, key=lambda place: lines[place].exact_g)
        step_mg = round(lines[chief].step_g * 1000)
        weigh_mg = round(lines[chief].weigh_g * 1000) + -(-short_mg // step_mg) * step_mg
        lines[chief] = replace(lines[chief], weigh_g=weigh_mg / 1000)
    return lines
