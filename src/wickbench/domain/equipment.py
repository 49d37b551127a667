"""Equipment of the bench: scales, pots and what heats them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.rounding import steps

if TYPE_CHECKING:
    from collections.abc import Iterable

_STEPS_IN_MASS_BEFORE_COARSE = 100 / 3
"""Below this many steps one step is more than 3 % of what is weighed."""


def _positive(value: float, key: str) -> None:
    if not math.isfinite(value) or value <= 0:
        raise OutOfRange(key, value=value)


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale.

    Attributes:
        name: what the maker calls it.
        maximum_g: the most it carries, grams.
        reads_to_g: its step, grams.

    Raises:
        OutOfRange: a maximum or step that is not positive, or a step above the maximum.
    """

    name: str
    maximum_g: float
    reads_to_g: float

    def __post_init__(self) -> None:
        _positive(self.maximum_g, "equipment.scale-maximum")
        _positive(self.reads_to_g, "equipment.scale-step")
        if self.reads_to_g > self.maximum_g:
            raise OutOfRange(
                "equipment.scale-step-above-maximum",
                reads_to_g=self.reads_to_g,
                maximum_g=self.maximum_g,
            )

    @property
    def step_mg(self) -> int:
        """The step in whole milligrams, at least one."""
        return max(1, round(self.reads_to_g * 1000))


@dataclass(frozen=True, slots=True)
class Pot:
    """A pitcher or melter in which the oil is added.

    Attributes:
        name: what the maker calls it.
        brim_ml: how much it holds to the brim, millilitres.
        empty_g: its empty mass, grams; 0 when it never stands on a scale.
        safe_fill_percent: how full it may be to be carried and stirred.

    Raises:
        OutOfRange: a size, mass or safe fill that no pot has.
    """

    name: str
    brim_ml: float
    empty_g: float = 0.0
    safe_fill_percent: float = 80.0

    def __post_init__(self) -> None:
        _positive(self.brim_ml, "equipment.pot-brim")
        if not math.isfinite(self.empty_g) or self.empty_g < 0:
            raise OutOfRange("equipment.pot-empty", empty_g=self.empty_g)
        if not 0 < self.safe_fill_percent <= 100:  # noqa: PLR2004 - a whole
            raise OutOfRange("equipment.pot-safe-fill", fill_percent=self.safe_fill_percent)

    @property
    def safe_ml(self) -> float:
        """What may be in it, millilitres."""
        return self.brim_ml * self.safe_fill_percent / 100


@dataclass(frozen=True, slots=True)
class HeatSource:
    """What heats the pots.

    Attributes:
        name: what the maker calls it.
        open_flame: gas or a flame of any kind.
        pot_stays_on: the pot is left on the heat while the oil is in.
    """

    name: str = ""
    open_flame: bool = False
    pot_stays_on: bool = False


@dataclass(frozen=True, slots=True)
class LoadReach:
    """How far a load may be off because scales read in steps.

    Attributes:
        standard_uncertainty_percent: one standard uncertainty, percentage points of wax.
        above_percent: worst case above, percentage points of wax.
        below_percent: worst case below, percentage points of wax.
    """

    standard_uncertainty_percent: float
    above_percent: float
    below_percent: float


def which_scale(scales: Iterable[Scale], mass_g: float, pot_empty_g: float = 0.0) -> Scale | None:
    """The finest scale that carries the mass with the pot on it, or None.

    Of two that read equally fine, the one with the smaller maximum.

    Raises:
        OutOfRange: a negative or non-finite mass.
    """
    if not (math.isfinite(mass_g) and math.isfinite(pot_empty_g)) or min(mass_g, pot_empty_g) < 0:
        raise OutOfRange("equipment.mass", mass_g=mass_g)
    able = [scale for scale in scales if scale.maximum_g >= mass_g + pot_empty_g]
    return min(able, key=lambda scale: (scale.reads_to_g, scale.maximum_g), default=None)


def to_reading_mg(mass_g: float, scale: Scale) -> int:
    """The mass as the scale can show it: a whole number of its steps, half up, in milligrams."""
    return steps(mass_g * 1000, scale.step_mg) * scale.step_mg


def is_too_coarse(scale: Scale, mass_g: float) -> bool:
    """Whether one step of the scale is more than 3 % of the mass (common practice, no source)."""
    return mass_g < scale.reads_to_g * _STEPS_IN_MASS_BEFORE_COARSE


def load_reach(wax_g: float, oil_g: float, wax_step_g: float, oil_step_g: float) -> LoadReach:
    """How far the load *of wax* may be off after weighing both with tare.

    A reading in steps of d is uniform within ±d/2; with tare there are two readings, so
    u = d/√6 (JCGM 100:2008, 4.3.7 and F.2.2.1). Worst case: both off by a whole step.

    Raises:
        OutOfRange: no wax, or less wax than one step.
    """
    if wax_g <= wax_step_g:
        raise OutOfRange("equipment.mass", mass_g=wax_g)
    load = oil_g / wax_g
    u_wax, u_oil = wax_step_g / math.sqrt(6), oil_step_g / math.sqrt(6)
    spread = math.hypot(u_oil / wax_g, load * u_wax / wax_g)
    above = (oil_g + oil_step_g) / (wax_g - wax_step_g) - load
    below = load - max(0.0, oil_g - oil_step_g) / (wax_g + wax_step_g)
    return LoadReach(100 * spread, 100 * above, 100 * below)
