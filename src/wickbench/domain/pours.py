"""Dividing mixes: leftovers worked into a new batch, and vessels shared out over pots."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.pot_split import Groups, even_out, fewest_pots

if TYPE_CHECKING:
    from collections.abc import Iterable

_UNITS_PER_G = 1000
"""Pots are filled in whole milligrams, so that sums are exact."""

_WHOLE_PERCENT = 100.0


def _mass(value: float, name: str) -> float:
    if not math.isfinite(value) or value < 0:
        raise OutOfRange("pour.mass", field=name, mass_g=value)
    return value


def _percent_of_total(value: float, name: str) -> float:
    if not math.isfinite(value) or not 0 <= value < _WHOLE_PERCENT:
        raise OutOfRange("pour.percent-of-total", field=name, load_percent=value)
    return value


def blend_leftover(
    total_g: float,
    target_percent_of_total: float,
    leftover_g: float,
    leftover_percent_of_total: float,
) -> tuple[float, float]:
    """New wax and new oil, in grams, that turn a leftover into a batch of ``total_g``.

    Oil balance: oil = p M - q m, wax = M - m - oil. It holds for one oil at a time; a leftover
    with several oils is followed oil by oil.

    Raises:
        OutOfRange: ``pour.leftover-larger`` when the leftover is more than the batch,
            ``pour.leftover-too-rich`` when it brings more oil than the batch may hold (the data
            say how much of it at most), ``pour.leftover-too-weak`` when the oil that is missing
            is more than what still has room; or a senseless mass or percentage.
    """
    total = _mass(total_g, "total_g")
    leftover = _mass(leftover_g, "leftover_g")
    target = _percent_of_total(target_percent_of_total, "target") / _WHOLE_PERCENT
    held = _percent_of_total(leftover_percent_of_total, "leftover") / _WHOLE_PERCENT
    if leftover > total:
        raise OutOfRange("pour.leftover-larger", leftover_g=leftover, total_g=total)
    oil = target * total - held * leftover
    wax = total - leftover - oil
    slack = 1e-9 * max(total, 1.0)
    if oil < -slack:
        most = target * total / held
        raise OutOfRange("pour.leftover-too-rich", over_g=-oil, most_g=most, leftover_g=leftover)
    if wax < -slack:
        raise OutOfRange("pour.leftover-too-weak", short_g=-wax, leftover_g=leftover)
    return max(wax, 0.0), max(oil, 0.0)


def split_into_pots(masses_g: Iterable[float], pot_g: float) -> tuple[tuple[float, ...], ...]:
    """Share whole vessels out over the fewest pots, then level the pots.

    Args:
        masses_g: mix in each vessel, grams, in any order.
        pot_g: what one pot may hold, grams.

    Returns:
        One tuple of vessel masses for each pot, heaviest vessel first, fullest pot first; every
        given mass is there once. No pot holds more than ``pot_g``.

    Raises:
        OutOfRange: ``pour.vessel-over-pot`` when a vessel takes more than a pot holds, or a
            senseless mass.
    """
    masses = sorted((_mass(mass, "masses_g") for mass in masses_g), reverse=True)
    pot = math.floor(_mass(pot_g, "pot_g") * _UNITS_PER_G + 1e-6)
    units = [math.ceil(mass * _UNITS_PER_G - 1e-6) for mass in masses]
    if units and units[0] > pot:
        raise OutOfRange("pour.vessel-over-pot", vessel_g=masses[0], pot_g=pot_g)
    groups = Groups.of(units)
    pots = even_out(groups, fewest_pots(groups, pot), pot).pots
    return _with_masses(pots, groups, dict(_stacks(units, masses)))


def _stacks(units: list[int], masses: list[float]) -> list[tuple[int, list[float]]]:
    stacks: dict[int, list[float]] = {}
    for unit, mass in zip(units, masses, strict=True):
        stacks.setdefault(unit, []).append(mass)
    return list(stacks.items())


def _with_masses(
    pots: tuple[tuple[int, ...], ...], groups: Groups, stacks: dict[int, list[float]]
) -> tuple[tuple[float, ...], ...]:
    """Counts for each size turned back into the masses that were given."""
    filled: list[tuple[float, ...]] = []
    for counts in sorted(pots, key=groups.load, reverse=True):
        pot: list[float] = []
        for size, count in zip(groups.sizes, counts, strict=True):
            pot += [stacks[size].pop() for _ in range(count)]
        filled.append(tuple(sorted(pot, reverse=True)))
    return tuple(filled)
