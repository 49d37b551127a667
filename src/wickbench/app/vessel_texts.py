"""How lengths, levels and capacities of vessels read: no digits that nobody measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.texts_marker import N_
from wickbench.domain.quantity_format import format_quantity
from wickbench.domain.rounding import to_step

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.measures import Levels
    from wickbench.app.texts import Texts
    from wickbench.domain.vessels import Capacity

_HALF_MM = 0.5
_HALF_MG = 0.0005
_INCH_DIGITS = 2
_TENTHS_BELOW_ML = 10.0
_WHOLE_FROM_ML = 2.0
_ESTIMATE_DIGITS = {"g": 0, "oz": 1, "lb oz": 1}


def length(texts: Texts, value_mm: float, *, step_mm: float = _HALF_MM) -> str:
    """A length by the ruler: to half a millimetre, without a needless zero."""
    unit = texts.units.first("length")
    if unit != "mm":
        return texts.units.one(value_mm, "length", unit)
    rounded = to_step(value_mm, step_mm)
    digits = 0 if rounded == int(rounded) else 1
    return format_quantity(rounded, "length", "mm", digits=digits, locale=texts.units.locale)


def length_range(texts: Texts, low_mm: float, high_mm: float) -> str:
    """Two lengths with one unit: "60–64 mm"."""
    unit = texts.units.first("length")
    digits = 0 if unit == "mm" else _INCH_DIGITS
    low, high = (
        format_quantity(value, "length", unit, digits=digits, locale=texts.units.locale)
        for value in (low_mm, high_mm)
    )
    return high if low == high else f"{low.removesuffix(unit).rstrip()}–{high}"


def estimated_mass(texts: Texts, low_g: float, high_g: float, *, both: bool = True) -> str:
    """A weight that nobody measured, as its range: "200–214 g · 7.1–7.5 oz"."""
    units = [texts.units.first("mass")]
    if both and texts.units.second("mass"):
        units.append(texts.units.second("mass"))
    return " · ".join(_mass_span(texts, low_g, high_g, unit) for unit in units)


def _mass_span(texts: Texts, low_g: float, high_g: float, unit: str) -> str:
    """Whole grams, or tenths of an ounce; the unit once where it is the same."""
    digits = _ESTIMATE_DIGITS.get(unit, 2)
    low, high = (
        format_quantity(value, "mass", unit, digits=digits, locale=texts.units.locale)
        for value in (low_g, high_g)
    )
    if low == high:
        return high
    number, *names = low.split()
    return f"{number}–{high}" if names == high.split()[1:] else f"{low} – {high}"


def set_level(texts: Texts, levels: Levels) -> tuple[str, bool]:
    """The level once set as it may be shown, and whether it is an estimate.

    An estimate is a range of whole millimetres, a measured level a whole half millimetre.
    """
    if levels.estimate:
        return length_range(texts, levels.set_low_mm, levels.set_high_mm), True
    return length(texts, levels.set_mm), False


def volume(texts: Texts, value_ml: float, *, both: bool = True) -> str:
    """A volume; below 10 mL with tenths."""
    units = texts.units
    shown = [_one_volume(texts, value_ml, units.first("volume"))]
    if both and units.second("volume"):
        shown.append(_one_volume(texts, value_ml, units.second("volume")))
    return " · ".join(shown)


def _one_volume(texts: Texts, value_ml: float, unit: str) -> str:
    if unit == "mL" and abs(value_ml) < _TENTHS_BELOW_ML:
        return format_quantity(value_ml, "volume", unit, digits=1, locale=texts.units.locale)
    return texts.units.one(value_ml, "volume", unit)


def doubt(texts: Texts, capacity: Capacity) -> str:
    """Half width, as "± 1.4 mL", of the interval that holds the capacity in 95 of 100 cases."""
    return f"± {volume(texts, capacity.expanded_uncertainty_ml, both=False)}"


def next_vessel(texts: Texts, next_ml: float) -> str:
    """What the next vessel may differ by: whole mL from 2 mL on, a tenth at least."""
    if texts.units.first("volume") != "mL":
        return volume(texts, next_ml, both=False)
    digits = 0 if next_ml >= _WHOLE_FROM_ML else 1
    shown = max(next_ml, 0.1)
    return format_quantity(shown, "volume", "mL", digits=digits, locale=texts.units.locale)


def masses(texts: Texts, values_g: Sequence[float | None]) -> tuple[str, ...]:
    """Masses of a column, all with as many decimals of a gram as one of them needs."""
    units = texts.units
    known = [value for value in values_g if value is not None]
    digits = max((_decimals(value) for value in known), default=0)

    def shown(value: float) -> str:
        if units.first("mass") != "g":
            return units.full(value, "mass")
        return format_quantity(value, "mass", "g", digits=digits, locale=units.locale)

    return tuple("" if value is None else shown(value) for value in values_g)


def _decimals(value_g: float) -> int:
    """Decimals of a gram that a value has, at most the three that are stored."""
    return next((n for n in range(3) if abs(round(value_g, n) - value_g) < _HALF_MG), 3)


def estimate_mark(texts: Texts) -> str:
    """What stands beside a figure that nobody measured."""
    return texts(N_("(estimate)"))
