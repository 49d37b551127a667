"""What the shelf says of a wax as heat: estimates of its class, its own melting range if known."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.heat import OIL, Portion, Substance, wax_of_class
from wickbench.domain.wax_classes import WAX_CLASSES

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping

    from wickbench.domain.catalog import Wax
    from wickbench.domain.recipes import Material

_UNKNOWN_CLASS = "other"


def _class_of(wax: Wax) -> str:
    known = wax.wax_class or _UNKNOWN_CLASS
    return known if known in WAX_CLASSES else _UNKNOWN_CLASS


def melting_range_c(wax: Wax) -> tuple[float, float]:
    """Where a wax melts: as entered, or as usual for its class.

    Raises:
        OutOfRange: ``heat.melts-upside-down`` when the end of the range lies below its beginning.
    """
    usual_low, usual_high = WAX_CLASSES[_class_of(wax)].melts_c
    low, high = wax.melts_from_c, wax.melts_to_c
    if low is None and high is None:
        return usual_low, usual_high
    if low is None or high is None:
        only = low if high is None else high
        return (only, only) if only is not None else (usual_low, usual_high)
    if high < low:
        raise OutOfRange("heat.melts-upside-down", low_c=low, high_c=high)
    return low, high


def wax_substance(wax: Wax) -> Substance:
    """Heats of a wax, as of its class, melting in the middle of its range.

    Raises:
        OutOfRange: as ``melting_range_c``.
    """
    return wax_of_class(_class_of(wax), melts_c=sum(melting_range_c(wax)) / 2)


def congeals_c(waxes: Iterable[Wax]) -> float:
    """Where a blend begins to set: the hottest end of what its waxes melt at.

    Cautious: a blend of a hard and a soft wax begins to set below that, never above.

    Raises:
        OutOfRange: ``heat.nothing-to-heat`` without a wax; as ``melting_range_c``.
    """
    ends = [melting_range_c(wax)[1] for wax in waxes]
    if not ends:
        raise OutOfRange("heat.nothing-to-heat")
    return max(ends)


def pot_portions(
    masses_g: Mapping[Material, float],
    waxes: Mapping[Material, Wax],
    celsius: float,
    oils: Collection[Material] = (),
) -> tuple[Portion, ...]:
    """What is heated in a pot, each at the temperature of the room.

    Args:
        masses_g: grams of each material of the pot, without the oil, which goes in later.
        waxes: what is known of those that are waxes; dye and additives count as wax of no
            class.
        celsius: how warm all of it is before.
        oils: those that are oil, bound in a leftover that is melted along.

    Raises:
        OutOfRange: ``heat.mass``, ``heat.temperature`` or as ``melting_range_c``.
    """
    return tuple(
        Portion(_substance(key, waxes, oils), mass_g, celsius)
        for key, mass_g in masses_g.items()
        if mass_g > 0
    )


def _substance(
    key: Material, waxes: Mapping[Material, Wax], oils: Collection[Material]
) -> Substance:
    if key in waxes:
        return wax_substance(waxes[key])
    return OIL if key in oils else wax_of_class(_UNKNOWN_CLASS)
