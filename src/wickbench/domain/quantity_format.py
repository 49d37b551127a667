"""Quantities as text, in a person's unit, with the digits that are known."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from wickbench.domain.errors import OutOfRange
from wickbench.domain.number_text import decimal_mark
from wickbench.domain.quantities import convert
from wickbench.domain.rounding import half_up_decimal, to_step
from wickbench.domain.unit_table import kind_of

if TYPE_CHECKING:
    from decimal import Decimal

OUNCES_PER_POUND: Final = 16
MINUS: Final = "\N{MINUS SIGN}"
MOST_DIGITS: Final = 9
_KEPT: Final = 4096
"""A page shows the same values again with each key: their texts are kept."""

# The most decimals worth showing where nothing says how well a value is known.
_USUAL_DIGITS: dict[str, int] = {
    "g": 1, "kg": 3, "oz": 2, "lb": 3, "lb oz": 1,
    "mL": 1, "L": 3, "fl oz": 2, "UK fl oz": 2,
    "mm": 1, "cm": 2, "in": 3,
    "°C": 1, "°F": 1,
    "%": 2, "oz/lb": 2,
    "g/mL": 4, "kg/m³": 1, "lb/gal": 3,
    "min": 0, "h": 2, "d": 0,
}  # fmt: skip
_USUAL_PLAIN_DIGITS = {"count": 0, "money": 2, "number": 6}


@lru_cache(_KEPT)
def format_quantity(
    value: float,
    kind: str,
    unit: str,
    *,
    digits: int | None = None,
    locale: str = "en_US",
    step: float | None = None,
) -> str:
    """A value as a person reads it: ``3070 g``, ``6 lb 6.9 oz``, ``6,25 %``; never grouped.

    With neither ``digits`` nor ``step``, closing zeros are left away and at most the unit's usual
    digits stand; money always has two.

    Args:
        value: in the kind's base unit.
        kind: a key of ``unit_table.KINDS``.
        unit: one of ``units_of(kind)``; for money the sign or code of the currency; "" for none.
        digits: decimals to show, zeros included; of the ounces for ``lb oz``.
        locale: gives the decimal mark.
        step: what the scale reads to, in the kind's base unit: the value is shown as that scale
            shows it, rounded to whole steps; with ``digits`` as well, rounded to steps first.

    Raises:
        OutOfRange: not finite, the step is not above zero, or the unit does not measure this kind.
    """
    if step is not None:
        value = to_step(value, step)
        digits = step_digits(step, kind, unit) if digits is None else digits
    plain = not kind_of(kind).base
    shown = value if plain else convert(value, kind, unit)
    fixed = digits is not None or kind == "money"
    if digits is None:
        digits = _USUAL_PLAIN_DIGITS[kind] if plain else _USUAL_DIGITS.get(unit, 2)
    number = half_up_decimal(shown, digits)
    sign = MINUS if number < 0 else ""
    mark = decimal_mark(locale)
    if unit == "lb oz":
        return sign + _pounds_and_ounces(abs(number), mark, fixed=fixed)
    return _with_unit(sign, _digits(abs(number), mark, fixed=fixed), unit, kind, mark)


@lru_cache(_KEPT)
def step_digits(step: float, kind: str, unit: str) -> int:
    """Decimals that a scale shows in a unit: 0 for 1 or 5 g, 1 for 0.5 g, 2 for 0.05 oz.

    A step of another unit (1 g seen in ounces, 0.0353) gets the digits that tell two steps apart.

    Args:
        step: in the kind's base unit, above zero.
        kind: a key of ``unit_table.KINDS``.
        unit: one of ``units_of(kind)``.

    Raises:
        OutOfRange: not finite, not above zero, or the unit does not measure this kind.
    """
    if not step > 0:
        raise OutOfRange("quantity.step-not-positive")
    plain = not kind_of(kind).base
    offset = 0.0 if plain else convert(0.0, kind, unit)
    size = step if plain else convert(step, kind, unit) - offset
    needed = max(0, -math.floor(math.log10(size)))
    for digits in range(min(needed + 3, MOST_DIGITS)):
        scaled = size * 10**digits
        if round(scaled) and abs(scaled - round(scaled)) < 1e-6 * scaled:
            return digits
    return min(needed, MOST_DIGITS)


def _digits(number: Decimal, mark: str, *, fixed: bool) -> str:
    text = f"{number:f}"
    if not fixed and "." in text:
        text = text.rstrip("0").rstrip(".")
    return text.replace(".", mark)


def _pounds_and_ounces(ounces: Decimal, mark: str, *, fixed: bool) -> str:
    """Pounds and ounces of ounces already rounded, so that 15.96 oz is 1 lb, never 16.0 oz."""
    pounds, rest = divmod(ounces, OUNCES_PER_POUND)
    shown = _digits(rest, mark, fixed=fixed)
    if not pounds:
        return f"{shown} oz"
    return f"{pounds:f} lb {shown} oz" if fixed or rest else f"{pounds:f} lb"


def _with_unit(sign: str, number: str, unit: str, kind: str, mark: str) -> str:
    if not unit:
        return sign + number
    if kind == "money" and len(unit) == 1 and mark == ".":
        return f"{sign}{unit}{number}"
    return f"{sign}{number} {unit}"
