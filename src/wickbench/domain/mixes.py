"""How heavy a mix is, hot and once set, where that may lie, and what is poured in a second go."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.densities import liquid_density, mix_density, oil_density
from wickbench.domain.recipes import Role
from wickbench.domain.shrinkage import hot_volume_ml, set_share

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickbench.domain.recipe_checks import Facts, OilFacts, WaxFacts
    from wickbench.domain.recipes import Part

FINISHES = ("single", "top_up", "second")
"""One pour; a top-up for the sinkholes; a second pour."""

USUAL_WAX_G_PER_ML = 0.86
USUAL_WAX_RANGE = (0.75, 0.90)
USUAL_SET_G_PER_ML = 0.90
USUAL_SET_RANGE = (0.88, 0.97)
USUAL_OIL_G_PER_ML = 0.97
USUAL_OIL_RANGE = (0.88, 1.10)
"""Between the classes of wax, and for finished oils: defaults, not measurements."""

SET_AT_C = 20.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Density:
    """A density and where it may lie; ``estimate`` when it is not measured."""

    g_per_ml: float
    low: float
    high: float
    estimate: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class MixDensities:
    """A mix while liquid at its pouring temperature, and once set at 20 °C."""

    hot: Density
    set: Density
    pour_c: float

    @property
    def estimate(self) -> bool:
        """Whether either density is an estimate."""
        return self.hot.estimate or self.set.estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class SetFill:
    """A vessel that is full to its line once the wax has set.

    Attributes:
        mass_g: mix in it; ``low_g`` and ``high_g`` where it may lie.
        hot_ml: what that fills poured hot in one go; ``hot_high_ml`` at most.
    """

    mass_g: float
    low_g: float
    high_g: float
    hot_ml: float
    hot_high_ml: float


def mixed(parts: Iterable[tuple[float, Density]]) -> Density:
    """Density of a mix of shares by mass, each keeping its own volume.

    Raises:
        OutOfRange: nothing to mix, or a density that cannot be.
    """
    known = tuple(parts)

    def way(name: str) -> float:
        return mix_density([(getattr(density, name), share) for share, density in known])

    return Density(
        g_per_ml=way("g_per_ml"),
        low=way("low"),
        high=way("high"),
        estimate=any(density.estimate for _, density in known),
    )


def wax_hot(wax: WaxFacts, celsius: float) -> Density:
    """A wax while liquid at a temperature."""
    own = wax.liquid_70_g_per_ml
    usual = USUAL_WAX_G_PER_ML if own is None else own
    span = wax.liquid_range_g_per_ml or (USUAL_WAX_RANGE if own is None else (usual, usual))
    low, middle, high = (liquid_density(one, celsius) for one in (span[0], usual, span[1]))
    estimate = own is None or wax.density_is_estimate
    return Density(g_per_ml=middle, low=low, high=high, estimate=estimate)


def wax_set(wax: WaxFacts) -> Density:
    """A wax once set, pores counted in."""
    own = wax.set_g_per_ml
    usual = USUAL_SET_G_PER_ML if own is None else own
    low, high = wax.set_range_g_per_ml or (USUAL_SET_RANGE if own is None else (usual, usual))
    estimate = own is None or wax.set_is_estimate
    return Density(g_per_ml=usual, low=low, high=high, estimate=estimate)


def oil_at(oil: OilFacts, celsius: float) -> Density:
    """A fragrance oil at a temperature; dissolved in set wax it counts as liquid."""
    own = oil.density_g_per_ml
    span = (USUAL_OIL_RANGE[0], USUAL_OIL_G_PER_ML, USUAL_OIL_RANGE[1])
    low, middle, high = (
        oil_density(one, celsius) for one in (span if own is None else (own, own, own))
    )
    return Density(g_per_ml=middle, low=low, high=high, estimate=own is None)


def hot_density(part: Part, facts: Facts, celsius: float) -> Density:
    """A wax or oil of a mix while it is liquid at a temperature."""
    if part.role is Role.WAX:
        return wax_hot(facts.wax(part.material), celsius)
    return oil_at(facts.oil(part.material), celsius)


def set_density(part: Part, facts: Facts) -> Density:
    """A wax or oil of a mix once it has set."""
    if part.role is Role.WAX:
        return wax_set(facts.wax(part.material))
    return oil_at(facts.oil(part.material), SET_AT_C)


def densities_of(parts: Iterable[Part], facts: Facts, pour_c: float) -> MixDensities:
    """A mix hot and set; dye and additives count with the wax: that changes nothing.

    Raises:
        OutOfRange: no wax, or a density that cannot be.
    """
    dense = [part for part in parts if part.role in {Role.WAX, Role.FRAGRANCE}]
    hot = [(part.share, hot_density(part, facts, pour_c)) for part in dense]
    cold = [(part.share, set_density(part, facts)) for part in dense]
    return MixDensities(hot=mixed(hot), set=mixed(cold), pour_c=pour_c)


def fill_until_set(line_ml: float, mix: MixDensities) -> SetFill:
    """Mix for a vessel so that the set wax meets the line: m = V·ρ_set, hot V·ρ_set/ρ_hot.

    Args:
        line_ml: volume up to the line.
        mix: densities; wax does not grow as it sets, so ranges that overlap are cut there.

    Raises:
        OutOfRange: a negative volume, or set wax lighter than liquid.
    """
    hot, cold = mix.hot, mix.set
    low = max(cold.low, hot.low)
    return SetFill(
        mass_g=line_ml * cold.g_per_ml,
        low_g=line_ml * low,
        high_g=line_ml * cold.high,
        hot_ml=hot_volume_ml(line_ml, hot.g_per_ml, cold.g_per_ml),
        hot_high_ml=line_ml * cold.high / hot.low,
    )


def later_share(mix: MixDensities) -> float:
    """Share of a vessel's mix that is poured once the first pour has set: 1 - ρ_hot/ρ_set.

    The first pour reaches the line hot; what its level drops by is filled again.

    Raises:
        OutOfRange: set wax lighter than liquid.
    """
    return 1.0 - set_share(mix.hot.g_per_ml, mix.set.g_per_ml)


def later_share_range(mix: MixDensities) -> tuple[float, float]:
    """Smallest and largest such share within the ranges of the densities."""
    least = 1.0 - mix.hot.high / mix.set.low
    return max(0.0, least), max(0.0, 1.0 - mix.hot.low / mix.set.high)
