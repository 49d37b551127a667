"""What a cooling pot allows: jars before it is too cold, the wait for the window, and setting.

Every number here rests on a curve of cooling and, for setting, on estimated heats of the wax.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.heat import Substance, checked_temperature
from wickbench.domain.ranges import within

if TYPE_CHECKING:
    from wickbench.domain.cooling import Cooling

_SLACK = 1e-9
_MOST_JARS = 100_000
_SECONDS_PER_MIN = 60.0
_J_PER_KJ = 1000.0
_G_PER_KG = 1000.0


_USUAL_BELOW_C = 5.0
_HALF_DEGREE = 0.5


def pour_range_c(
    pour_c: float, usual_low_c: float | None, congeals_c: float | None
) -> tuple[float, float]:
    """From where down to where a pot is poured: colder end, hotter end.

    It begins at the temperature that the maker pours at and ends at the colder end of what is usual
    for such a wax, 5 °C lower where the maker pours as cold as that anyway (common practice, no
    source), and in no case below the point where the wax begins to set.

    Raises:
        OutOfRange: ``heat.temperature``.
    """
    checked_temperature(pour_c)
    low_c = pour_c - _USUAL_BELOW_C
    if usual_low_c is not None and usual_low_c < pour_c - _HALF_DEGREE:
        low_c = usual_low_c
    if congeals_c is not None and low_c < congeals_c < pour_c:
        low_c = congeals_c
    return low_c, pour_c


@dataclass(frozen=True, slots=True)
class PourWindow:
    """How long a pot can be poured from, and how many vessels that makes.

    Attributes:
        opens_min: minute at which it has come down to the hotter end.
        closes_min: minute at which it is too cold, if nothing were taken out; the wax begins to
            set there if that is first.
        sure: vessels that are certainly poured in time: the pot loses as much heat nearly empty
            as full.
        at_best: vessels at most: what is left in the pot cools no faster than the full pot.
        too_late: the window had closed before ``from_min``.
    """

    opens_min: float
    closes_min: float
    sure: int
    at_best: int
    too_late: bool


def pour_window(
    cooling: Cooling,
    low_c: float,
    high_c: float,
    *,
    seconds_per_vessel: float,
    from_min: float | None = None,
    pot_g: float | None = None,
    vessel_g: float | None = None,
) -> PourWindow:
    """How many vessels are poured before the pot leaves its temperatures.

    A vessel counts when it is full while the pot is still warm enough. As the pot empties it cools
    faster: k grows as the mass goes down, unless its wall cools less too. What happens lies
    between; without the two masses only the better of them can be told, and both say the same.

    Args:
        cooling: the curve of the full pot.
        low_c: coldest to pour at.
        high_c: hottest to pour at.
        seconds_per_vessel: from one vessel to the next.
        from_min: when pouring can begin; None: as soon as the pot has come down to ``high_c``, not
            before the last reading.
        pot_g: mix in the pot at first.
        vessel_g: mix in one vessel.

    Raises:
        OutOfRange: ``cooling.window`` when the colder end is not below the hotter one,
            ``cooling.seconds``, ``cooling.pot-mass``, or as ``Cooling.minute_of`` for ``high_c``.
    """
    within(seconds_per_vessel, 0.1, 36_000.0, "cooling.seconds")
    if checked_temperature(low_c) >= checked_temperature(high_c):
        raise OutOfRange("cooling.window", low_c=low_c, high_c=high_c)
    if pot_g is not None and vessel_g is not None:
        within(pot_g, 0.001, 1e6, "cooling.pot-mass", unit="g")
        within(vessel_g, 0.001, 1e6, "cooling.pot-mass", unit="g")
    earliest = cooling.last_min if from_min is None else from_min
    begins = max(cooling.minute_of(high_c), earliest)
    closes = _closes(cooling, low_c)
    if begins >= closes:
        return PourWindow(begins, closes, 0, 0, too_late=True)
    each_min = seconds_per_vessel / _SECONDS_PER_MIN
    lasts = closes - begins
    in_pot = _MOST_JARS
    if pot_g is not None and vessel_g is not None:
        in_pot = math.floor(pot_g / vessel_g + _SLACK)
        lasts = _emptying(lasts, pot_g, vessel_g / each_min)
    sure, at_best = (
        min(in_pot, _whole(minutes / each_min)) for minutes in (lasts, closes - begins)
    )
    return PourWindow(begins, closes, sure, at_best, too_late=False)


def _whole(vessels: float) -> int:
    return _MOST_JARS if vessels > _MOST_JARS else math.floor(vessels + _SLACK)


def _closes(cooling: Cooling, low_c: float) -> float:
    coldest_c = max(low_c, cooling.congeals_c)
    return math.inf if coldest_c <= cooling.room_c else cooling.minute_of(coldest_c)


def _emptying(lasts_min: float, pot_g: float, g_per_min: float) -> float:
    """Minutes that the window lasts when k grows as M0/M: (M/M0)^(k·M0/q) is the fall.

    dT/dt = −k·M0/(M0 − q·t)·(T − Ta) gives k·t = −k·M0/q·ln(1 − q·t'/M0), so the full pot's time
    t becomes t' = M0/q·(1 − exp(−q·t/M0)), whatever k is.
    """
    return pot_g / g_per_min * -math.expm1(-g_per_min * lasts_min / pot_g)


@dataclass(frozen=True, slots=True)
class Setting:
    """How long wax takes to set. An estimate, and to be shown as one.

    Attributes:
        liquid_min: minutes until it begins to set.
        plateau_min: minutes at the congealing point while its latent heat goes.
        set_min: minutes from there to the temperature asked for.
    """

    liquid_min: float
    plateau_min: float
    set_min: float

    @property
    def total_min(self) -> float:
        """All of it, from the first reading."""
        return self.liquid_min + self.plateau_min + self.set_min

    @property
    def estimate(self) -> bool:
        """Always true: heats are estimates, and wax that sets no longer moves."""
        return True


def plateau_minutes(cooling: Cooling, wax: Substance) -> float:
    """Minutes at the congealing point: t = (L / c_l) / (k·(Tm − Ta)). An estimate.

    Raises:
        OutOfRange: ``cooling.room-too-warm-to-set`` in a room as warm as the congealing point.
    """
    above_c = cooling.congeals_c - cooling.room_c
    if above_c <= 0:
        raise OutOfRange(
            "cooling.room-too-warm-to-set", room_c=cooling.room_c, congeals_c=cooling.congeals_c
        )
    return wax.latent_kj_per_kg / wax.kj_per_kg_c / (cooling.rate_per_min * above_c)


def setting_time(cooling: Cooling, wax: Substance, down_to_c: float) -> Setting:
    """Minutes until the wax has set and cooled to ``down_to_c``. An estimate.

    The same loss to the room cools solid wax faster by c_l / c_s.

    Raises:
        OutOfRange: ``cooling.room-too-warm-to-set``; ``cooling.below-room``; ``cooling.not-set``
            when ``down_to_c`` is not below the congealing point.
    """
    plateau = plateau_minutes(cooling, wax)
    if down_to_c <= cooling.room_c:
        raise OutOfRange("cooling.below-room", target_c=down_to_c, room_c=cooling.room_c)
    if down_to_c >= cooling.congeals_c:
        raise OutOfRange("cooling.not-set", target_c=down_to_c, congeals_c=cooling.congeals_c)
    solid = wax.kj_per_kg_c if wax.solid_kj_per_kg_c is None else wax.solid_kj_per_kg_c
    rate = cooling.rate_per_min * wax.kj_per_kg_c / solid
    fall = (cooling.congeals_c - cooling.room_c) / (down_to_c - cooling.room_c)
    return Setting(cooling.ends_min - cooling.start_min, plateau, math.log(fall) / rate)


def loss_w_per_c(cooling: Cooling, mass_g: float, kj_per_kg_c: float) -> float:
    """Heat that the pot loses for each degree above the room: hA = k·m·c, in W/°C.

    Raises:
        OutOfRange: ``cooling.pot-mass`` or ``heat.specific``.
    """
    within(mass_g, 0.001, 1e6, "cooling.pot-mass", unit="g")
    within(kj_per_kg_c, 0.1, 10.0, "heat.specific")
    per_s = cooling.rate_per_min / _SECONDS_PER_MIN
    return per_s * mass_g / _G_PER_KG * kj_per_kg_c * _J_PER_KJ


def holding_power_w(cooling: Cooling, mass_g: float, kj_per_kg_c: float, hold_c: float) -> float:
    """Power that just holds a pot at a temperature, W; 0 at or below the room's.

    Raises:
        OutOfRange: as ``loss_w_per_c``, or ``heat.temperature``.
    """
    above_c = checked_temperature(hold_c) - cooling.room_c
    return max(0.0, loss_w_per_c(cooling, mass_g, kj_per_kg_c) * above_c)
