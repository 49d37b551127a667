"""Heat that a pot takes: how much, for how long, and how warm it is once cold things go in.

Energy is counted as heat content: E = m·(h(T) − h(T0)), with h = c_s·T below the melting point and
c_s·Tm + L + c_l·(T − Tm) from there on. The parts of a blend keep their own melting points and
heats, so contents simply add up. Heats of waxes are estimates, and so is every time made of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.ranges import within
from wickbench.domain.wax_classes import WAX_CLASSES

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

LOWEST_C = -30.0
HIGHEST_C = 200.0

_MOST_G = 1e6
_G_PER_KG = 1000.0


def checked_temperature(celsius: float) -> float:
    """Give a temperature back that wax, oil or a workshop can have.

    Raises:
        OutOfRange: ``heat.temperature`` outside -30 to 200 °C.
    """
    return within(celsius, LOWEST_C, HIGHEST_C, "heat.temperature", unit="c")


@dataclass(frozen=True, slots=True, kw_only=True)
class Substance:
    """What takes up heat.

    Attributes:
        kj_per_kg_c: specific heat, of the liquid when it melts.
        solid_kj_per_kg_c: specific heat while solid; None: the same.
        latent_kj_per_kg: heat taken up by melting.
        melts_c: melting point; None: nothing melts here.
        estimate: the heats are usual ones of a class, not of this very material.

    Raises:
        OutOfRange: ``heat.specific``, ``heat.latent`` or ``heat.temperature``.
    """

    kj_per_kg_c: float
    solid_kj_per_kg_c: float | None = None
    latent_kj_per_kg: float = 0.0
    melts_c: float | None = None
    estimate: bool = False

    def __post_init__(self) -> None:
        for heat in (self.kj_per_kg_c, self.solid_kj_per_kg_c):
            if heat is not None:
                within(heat, 0.1, 10.0, "heat.specific")
        within(self.latent_kj_per_kg, 0.0, 500.0, "heat.latent")
        if self.melts_c is not None:
            checked_temperature(self.melts_c)

    def content_kj_per_kg(self, celsius: float, *, melted: bool = True) -> float:
        """Heat content against 0 °C; ``melted`` says which of the two at the melting point."""
        if self.melts_c is None:
            return self.kj_per_kg_c * celsius
        solid = self.kj_per_kg_c if self.solid_kj_per_kg_c is None else self.solid_kj_per_kg_c
        if celsius < self.melts_c or (celsius == self.melts_c and not melted):
            return solid * celsius
        above_c = celsius - self.melts_c
        return solid * self.melts_c + self.latent_kj_per_kg + self.kj_per_kg_c * above_c


WATER = Substance(kj_per_kg_c=4.186)
STEEL = Substance(kj_per_kg_c=0.50)
ALUMINIUM = Substance(kj_per_kg_c=0.90)
GLASS = Substance(kj_per_kg_c=0.83, estimate=True)
"""Glass that stands heat; from memory."""
OIL = Substance(kj_per_kg_c=2.0, estimate=True)
"""Fragrance oils differ little; 2.0 is an estimate."""


def wax_of_class(wax_class: str, *, melts_c: float | None = None) -> Substance:
    """Estimated heats of a class of wax, melting in the middle of its range unless told.

    Raises:
        OutOfRange: ``heat.wax-class`` for a class that is not in the table.
    """
    usual = WAX_CLASSES.get(wax_class)
    if usual is None:
        raise OutOfRange("heat.wax-class", name=wax_class)
    return Substance(
        kj_per_kg_c=usual.liquid_heat_kj_per_kg_c,
        solid_kj_per_kg_c=usual.solid_heat_kj_per_kg_c,
        latent_kj_per_kg=usual.latent_heat_kj_per_kg,
        melts_c=sum(usual.melts_c) / 2 if melts_c is None else melts_c,
        estimate=True,
    )


@dataclass(frozen=True, slots=True)
class Portion:
    """So much of a substance at a temperature.

    Attributes:
        substance: what it is.
        mass_g: grams.
        celsius: its temperature. At its melting point it counts as melted.

    Raises:
        OutOfRange: ``heat.mass`` or ``heat.temperature``.
    """

    substance: Substance
    mass_g: float
    celsius: float

    def __post_init__(self) -> None:
        within(self.mass_g, 0.0, _MOST_G, "heat.mass", unit="g")
        checked_temperature(self.celsius)

    def content_kj(self, celsius: float | None = None, *, melted: bool = True) -> float:
        """Heat content at ``celsius``, at its own temperature when None."""
        at_c = self.celsius if celsius is None else celsius
        return self.mass_g / _G_PER_KG * self.substance.content_kj_per_kg(at_c, melted=melted)


def energy_kj(portions: Iterable[Portion], to_c: float) -> float:
    """Heat that brings every portion to ``to_c``, kJ; negative when it gives heat away.

    Raises:
        OutOfRange: ``heat.temperature``.
    """
    checked_temperature(to_c)
    return fsum(part.content_kj(to_c) - part.content_kj() for part in portions)


@dataclass(frozen=True, slots=True)
class Mixed:
    """What portions become once they have the same temperature.

    Attributes:
        celsius: that temperature.
        unmelted_g: so much of what melts exactly there is still solid.
        solid_below: something in it has a melting point above this temperature.
    """

    celsius: float
    unmelted_g: float
    solid_below: bool


def mixed(portions: Iterable[Portion]) -> Mixed:
    """Temperature after mixing: the heat contents before and after are the same.

    Cold oil cools; cold flakes cool far more, because melting them takes heat. When the heat does
    not suffice to melt them all the mix stands at their melting point, partly solid.

    Raises:
        OutOfRange: ``heat.nothing-to-heat`` when nothing is mixed.
    """
    parts = [part for part in portions if part.mass_g > 0]
    if not parts:
        raise OutOfRange("heat.nothing-to-heat")
    content = fsum(part.content_kj() for part in parts)
    for melts_c in _melting_points(parts):
        solid_kj, melted_kj = (_content(parts, melts_c, melted=state) for state in (False, True))
        if content < solid_kj:
            return Mixed(_along(parts, content, melts_c, melted=False), 0.0, solid_below=True)
        if content < melted_kj:
            unmelted_g = _melting_g(parts, melts_c) * (melted_kj - content) / (melted_kj - solid_kj)
            return Mixed(melts_c, unmelted_g, solid_below=True)
    hottest_c = max(part.celsius for part in parts)
    return Mixed(_along(parts, content, hottest_c, melted=True), 0.0, solid_below=False)


def _melting_points(parts: Sequence[Portion]) -> Iterator[float]:
    found = {part.substance.melts_c for part in parts}
    yield from sorted(celsius for celsius in found if celsius is not None)


def _melting_g(parts: Sequence[Portion], melts_c: float) -> float:
    return fsum(part.mass_g for part in parts if part.substance.melts_c == melts_c)


def _content(parts: Sequence[Portion], celsius: float, *, melted: bool) -> float:
    return fsum(part.content_kj(celsius, melted=melted) for part in parts)


def _along(parts: Sequence[Portion], content: float, from_c: float, *, melted: bool) -> float:
    """Follow the straight piece of the heat content that ends or begins at ``from_c``."""
    at_kj = _content(parts, from_c, melted=melted)
    rise = fsum(_heat_capacity(part, from_c, melted=melted) for part in parts)
    return from_c + (content - at_kj) / rise


def _heat_capacity(part: Portion, celsius: float, *, melted: bool) -> float:
    """Heat in kJ per °C of a portion beside ``celsius``, on the side that ``melted`` tells."""
    what = part.substance
    solid = what.solid_kj_per_kg_c
    below = what.melts_c is not None and (
        celsius < what.melts_c or (celsius == what.melts_c and not melted)
    )
    specific = solid if below and solid is not None else what.kj_per_kg_c
    return part.mass_g / _G_PER_KG * specific


def warm_before(wanted_c: float, pot: Portion, cold: Sequence[Portion]) -> float:
    """How warm melted wax must be so that the mix has ``wanted_c`` once cold things are in.

    Args:
        wanted_c: temperature wanted after mixing, at or above the wax's melting point.
        pot: the wax; its own temperature does not matter.
        cold: oil, or flakes, each at its temperature.

    Raises:
        OutOfRange: ``heat.nothing-to-heat`` without wax; ``heat.temperature`` when no sensible
            temperature would do.
    """
    if pot.mass_g <= 0:
        raise OutOfRange("heat.nothing-to-heat")
    needed_kj = energy_kj(cold, wanted_c)
    capacity = pot.mass_g / _G_PER_KG * pot.substance.kj_per_kg_c
    return checked_temperature(wanted_c + needed_kj / capacity)
