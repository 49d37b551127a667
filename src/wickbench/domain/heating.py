"""Heating a pot: what wax, water bath and metal take up, and how long a heater needs for it."""

from __future__ import annotations

from dataclasses import dataclass

from wickbench.domain.errors import OutOfRange
from wickbench.domain.heat import (
    STEEL,
    WATER,
    Portion,
    Substance,
    checked_temperature,
    energy_kj,
)
from wickbench.domain.ranges import within

WATER_BOILS_C = 100.0
_W_MIN_PER_KJ = 1000.0 / 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Heating:
    """A pot to be heated.

    Attributes:
        waxes: what is in it, each with its own temperature.
        to_c: wanted temperature.
        water_g: water of the water bath; 0 without one.
        water_from_c: its temperature before.
        water_to_c: and after; it must be hotter than the wax gets.
        metal_g: mass of the metal pot.
        metal: what it is made of.
        metal_from_c: its temperature before.
        metal_to_c: and after; None: as hot as the water, or as the wax without a bath.

    Raises:
        OutOfRange: ``heat.water-boils`` for water above 100 °C, ``heat.bath-too-cold`` for a bath
            that is not hotter than the wax is to be, ``heat.nothing-to-heat``,
            ``heat.already-warm`` when nothing has to be heated, or a senseless number.
    """

    waxes: tuple[Portion, ...]
    to_c: float
    water_g: float = 0.0
    water_from_c: float = 20.0
    water_to_c: float = 95.0
    metal_g: float = 0.0
    metal: Substance = STEEL
    metal_from_c: float = 20.0
    metal_to_c: float | None = None

    def __post_init__(self) -> None:
        checked_temperature(self.to_c)
        if not any(wax.mass_g for wax in self.waxes):
            raise OutOfRange("heat.nothing-to-heat")
        if all(wax.celsius >= self.to_c for wax in self.waxes):
            raise OutOfRange("heat.already-warm", to_c=self.to_c)
        if self.water_g:
            within(self.water_from_c, 0.0, WATER_BOILS_C, "heat.water-boils", unit="c")
            within(self.water_to_c, 0.0, WATER_BOILS_C, "heat.water-boils", unit="c")
            if self.water_to_c <= self.to_c:
                raise OutOfRange("heat.bath-too-cold", water_c=self.water_to_c, to_c=self.to_c)

    @property
    def wax_kj(self) -> float:
        """Heat for the wax alone."""
        return energy_kj(self.waxes, self.to_c)

    @property
    def water_kj(self) -> float:
        """Heat for the water bath; a bath that is hot already takes none."""
        bath = Portion(WATER, self.water_g, self.water_from_c)
        return max(0.0, energy_kj([bath], self.water_to_c))

    @property
    def metal_kj(self) -> float:
        """Heat for the metal of the pot."""
        around_c = self.water_to_c if self.water_g else self.to_c
        to_c = around_c if self.metal_to_c is None else self.metal_to_c
        pot = Portion(self.metal, self.metal_g, self.metal_from_c)
        return max(0.0, energy_kj([pot], to_c))

    @property
    def energy_kj(self) -> float:
        """All of it."""
        return self.wax_kj + self.water_kj + self.metal_kj


def heating_minutes(heat_kj: float, power_w: float, efficiency: float) -> float:
    """Minutes until a heater has put the heat in: t = E / (η·P).

    Args:
        heat_kj: what is to be put in.
        power_w: what the heater draws.
        efficiency: the part of it that arrives, above 0 to 1 (a learned one may pass 1 a little,
            because the heats it was learned with are estimates).

    Raises:
        OutOfRange: ``heat.energy``, ``heat.power`` or ``heat.efficiency``.
    """
    within(heat_kj, 0.0, 1e7, "heat.energy")
    within(power_w, 1.0, 1e5, "heat.power")
    within(efficiency, 0.01, 2.0, "heat.efficiency")
    return heat_kj / (efficiency * power_w) * _W_MIN_PER_KJ
