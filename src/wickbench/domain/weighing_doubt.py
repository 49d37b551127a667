"""How well something can be weighed: what the step of a scale does to an amount and to a load.

A reading in steps of d is uniform within ±d/2, so u = d/√12; an amount weighed with tare is the
difference of two readings, u = d/√6 (JCGM 100:2008, 4.3.7). Uncorrelated amounts add in squares
(5.1.2); the worst case adds whole steps. That one step may be 3 % of an amount and no more is
common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.domain.equipment import LoadReach, is_too_coarse, load_reach
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.recipes import Role
from wickbench.domain.rounding import half_up

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickbench.domain.plan_values import WeighLine

USUAL_STEPS_G: Final = (1.0, 0.5, 0.1, 0.05, 0.01, 0.001)
"""What scales in the shops read to."""

_STEPS_NEEDED: Final = 34  # the first whole number of steps of which one is below 3 %
_COARSE_FOR_DYE: Final = 0.1
_HAIR: Final = 1e-9


@dataclass(frozen=True, slots=True)
class Reading:
    """An amount as it was or will be weighed.

    Attributes:
        mass_g: the amount, grams.
        step_g: what its scale reads to, grams; 0 for what is known without weighing.
        goes: in how many portions, each with its own tare.
    """

    mass_g: float
    step_g: float
    goes: int = 1

    @property
    def standard_uncertainty_g(self) -> float:
        """Of the whole amount: each go is a difference of two readings."""
        return self.step_g * math.sqrt(self.goes / 6)

    @property
    def worst_g(self) -> float:
        """Furthest off: a whole step for each go."""
        return self.step_g * self.goes


def reading_uncertainty_g(step_g: float, *, tared: bool = True) -> float:
    """Standard uncertainty of a reading in steps, of a difference of two when tared, grams.

    Raises:
        OutOfRange: a step that is not above zero.
    """
    if not math.isfinite(step_g) or step_g <= 0:
        raise OutOfRange("equipment.scale-step", value=step_g)
    return step_g / math.sqrt(6 if tared else 12)


def load_doubt(waxes: Iterable[Reading], oils: Iterable[Reading]) -> LoadReach | None:
    """How far the load of wax may be off when each part was weighed by itself.

    None without oil, or where the wax is no more than what its scales may be off.
    """
    wax, oil = tuple(waxes), tuple(oils)
    wax_g, oil_g = (math.fsum(one.mass_g for one in part) for part in (wax, oil))
    worst_wax, worst_oil = (math.fsum(one.worst_g for one in part) for part in (wax, oil))
    if oil_g <= 0 or wax_g <= worst_wax:
        return None
    worst = load_reach(wax_g, oil_g, worst_wax, worst_oil)
    u_wax, u_oil = (
        math.hypot(*(one.standard_uncertainty_g for one in part)) for part in (wax, oil)
    )
    u_load = oil_g / wax_g * math.hypot(u_oil / oil_g, u_wax / wax_g)
    return LoadReach(100 * u_load, worst.above_percent, worst.below_percent)


def least_weighable_g(step_g: float) -> float:
    """The least amount of which one step is no more than 3 %, in whole steps."""
    return _STEPS_NEEDED * step_g


def step_needed_g(mass_g: float) -> float | None:
    """The coarsest usual step that is no more than 3 % of an amount; None where none is."""
    fits = (step for step in USUAL_STEPS_G if least_weighable_g(step) <= mass_g + _HAIR)
    return next(fits, None)


def coarse_findings(lines: Sequence[WeighLine]) -> list[Finding]:
    """Oil, dye and additive that their scale cannot weigh well enough, with what would help."""
    waxes, oils = (readings(lines, role) for role in (Role.WAX, Role.FRAGRANCE))
    found = []
    for line in lines:
        if line.scale is None or line.exact_g <= 0 or not is_too_coarse(line.scale, line.exact_g):
            continue
        key, more = f"plan.{_word(line, oils)}-too-little-to-weigh", {}
        if line.exact_g < line.step_g:
            key = "plan.less-than-the-step"
        elif line.role is Role.FRAGRANCE:
            more = _load_range(waxes, oils)
        data = {
            "name": line.name,
            "mass_g": line.exact_g,
            "scale": line.scale.name,
            "step_g": line.step_g,
            "off_percent": half_up(100 * line.step_g / line.exact_g, 1),
            "least_g": least_weighable_g(line.step_g),
            "finer_g": step_needed_g(line.exact_g) or USUAL_STEPS_G[-1],
        }
        found.append(Finding(_rank(line), key, data | more, ("material", line.material)))
    return found


def readings(lines: Iterable[WeighLine], role: Role) -> tuple[Reading, ...]:
    """What is weighed of one role."""
    return tuple(
        Reading(line.weigh_g, line.step_g, line.portions) for line in lines if line.role is role
    )


def _word(line: WeighLine, oils: Sequence[Reading]) -> str:
    if line.role is Role.FRAGRANCE:
        return "oil" if len(oils) == 1 else "oil-of-blend"
    return line.role.value


def _load_range(waxes: Sequence[Reading], oils: Sequence[Reading]) -> dict[str, float]:
    """Between which loads of wax the pot may lie, in tenths of a percent."""
    wax_g, oil_g = (math.fsum(one.mass_g for one in part) for part in (waxes, oils))
    worst_wax, worst_oil = (math.fsum(one.worst_g for one in part) for part in (waxes, oils))
    return {
        "low_percent": half_up(100 * max(0.0, oil_g - worst_oil) / (wax_g + worst_wax), 1),
        "high_percent": half_up(100 * (oil_g + worst_oil) / max(wax_g - worst_wax, worst_wax), 1),
    }


def _rank(line: WeighLine) -> Rank:
    """A step too coarse for oil changes the load; a shade of dye is only worth a note."""
    if line.role is Role.FRAGRANCE or line.step_g > _COARSE_FOR_DYE * line.exact_g:
        return Rank.WATCH
    return Rank.NOTE
