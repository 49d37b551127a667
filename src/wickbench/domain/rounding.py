"""Rounding: half up, to digits or to whole steps of a scale. The only place that rounds.

Fifteen significant digits are all that a float certainly holds. Numbers are cut to them before
rounding, so that 0.285 × 100 (28.499999999999996 as a float) is the 28.5 that was meant.
"""

from __future__ import annotations

import math
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Context, Decimal

from wickbench.domain.errors import OutOfRange

_HOLDS_FIFTEEN_DIGITS_BELOW = 1e14
_QUOTIENT = Context(prec=14)
_WIDE = Context(prec=400)


def half_up(value: float, digits: int = 0) -> float:
    """Round to ``digits`` decimals, a half away from zero.

    Args:
        value: any finite number.
        digits: decimals to keep; negative for tens and hundreds.

    Raises:
        OutOfRange: the value is not finite.
    """
    return float(half_up_decimal(value, digits))


def half_up_decimal(value: float, digits: int = 0) -> Decimal:
    """Round as ``half_up`` and keep the decimals, for showing: 3 with one digit is ``3.0``.

    Raises:
        OutOfRange: the value is not finite.
    """
    exact = _meant(value)
    rounded = exact.quantize(Decimal(1).scaleb(-digits), ROUND_HALF_UP, context=_WIDE)
    return abs(rounded) if rounded.is_zero() else rounded


def steps(value: float, step: float) -> int:
    """The number of whole steps nearest to the value, a half away from zero.

    Args:
        value: a quantity, in any unit.
        step: what the scale reads to, in the same unit, above zero.

    Raises:
        OutOfRange: not finite, or the step is not above zero.
    """
    return int(_quotient(value, step).to_integral_value(ROUND_HALF_UP))


def to_step(value_g: float, step_g: float) -> float:
    """The value as a whole number of steps, a half away from zero.

    Raises:
        OutOfRange: not finite, or the step is not above zero.
    """
    return _times(steps(value_g, step_g), step_g)


def round_down_to(value: float, step: float) -> float:
    """The largest whole number of steps that does not pass the value.

    Raises:
        OutOfRange: not finite, or the step is not above zero.
    """
    return _times(int(_quotient(value, step).to_integral_value(ROUND_FLOOR)), step)


def _meant(value: float) -> Decimal:
    if not math.isfinite(value):
        raise OutOfRange("quantity.not-finite")
    if abs(value) >= _HOLDS_FIFTEEN_DIGITS_BELOW:
        return Decimal(repr(float(value)))
    return Decimal(f"{value:.15g}")


def _quotient(value: float, step: float) -> Decimal:
    """Value by step; cut once more, because two cut numbers were divided."""
    divisor = _meant(step)
    if divisor <= 0:
        raise OutOfRange("quantity.step-not-positive")
    return _QUOTIENT.divide(_meant(value), divisor)


def _times(count: int, step: float) -> float:
    return float(count * Decimal(repr(float(step))))
