"""The one parser for everything typed, and conversion between units, with exact factors.

Values go out in the base unit of their kind (``unit_table.KINDS``): mass in g, volume in mL,
length in mm, temperature in °C, load and percent in percent, density in g/mL, duration in
minutes, days in days; count, money and number as they are.
"""

from __future__ import annotations

import math
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any

from wickbench.domain.errors import Ambiguous, CannotRead, DomainError, OutOfRange
from wickbench.domain.number_text import Part, decimal_mark, tidy
from wickbench.domain.quantity_reading import (
    Expression,
    Numbers,
    check_whole_but_last,
    read_expression,
)
from wickbench.domain.unit_table import BY_NAME, KINDS, UNITS, kind_of

if TYPE_CHECKING:
    from collections.abc import Mapping

ABSOLUTE_ZERO_C = -273.15


def parse(
    text: str,
    kind: str,
    *,
    locale: str = "en_US",
    assume: str | None = None,
    imperial: bool = False,
    prefer: str | None = None,
    allow_negative: bool = False,
) -> float:
    """The value of typed text in the kind's base unit.

    Args:
        text: for example ``2 lb 4 oz``, ``1,02 kg``, ``2⅝ in``, ``180 F``, ``1 oz/lb``.
        kind: a key of ``unit_table.KINDS``.
        locale: decides what "," and "." mean, for example ``de_DE``.
        assume: unit of a number typed without one; for money the sign or code of the currency.
        imperial: read fl oz, pt, qt and gal as the UK's.
        prefer: ``"decimal"`` or ``"group"``, the answer to an earlier question.
        allow_negative: accept a value below zero where the kind alone would refuse it.

    Raises:
        CannotRead: no reading; key and data make a sentence that says what to do.
        Ambiguous: more than one reading, each with a text that has only that one.
        OutOfRange: read, but larger or colder than anything can be.
    """
    mark = decimal_mark(locale)
    typed = read_expression(tidy(text), kind, mark, assume=assume, imperial=imperial)
    if typed.sign < 0 and not (allow_negative or kind_of(kind).signed):
        raise CannotRead("quantity.negative")
    found: dict[float, str] = {}
    refusals: list[DomainError] = []
    for above, below in typed.choices(prefer):
        try:
            value = _value(typed, above, below, kind)
        except DomainError as refusal:
            refusals.append(refusal)
        else:
            found.setdefault(value, typed.spelled(above + below, mark))
    return _only(found, refusals, text.strip())


def units_of(kind: str) -> tuple[str, ...]:
    """The units in which a person can choose to see a kind, the base unit first."""
    return kind_of(kind).shown


def prepare_units() -> None:
    """Work out the factors of all units now, so that the first figure need not wait for them."""
    _factors()


def convert(value: float, kind: str, unit: str) -> float:
    """A value of the kind's base unit in another unit; ``lb oz`` gives ounces.

    Raises:
        OutOfRange: not finite, or the unit does not measure this kind.
    """
    exact = _finite(value)
    scale, offset = _scale(kind, unit)
    return float((exact - offset) / scale)


def to_base(value: float, kind: str, unit: str) -> float:
    """A value of the unit in the kind's base unit; ``lb oz`` takes ounces.

    Raises:
        OutOfRange: not finite, or the unit does not measure this kind.
    """
    exact = _finite(value)
    scale, offset = _scale(kind, unit)
    return float(exact * scale + offset)


def _only(found: dict[float, str], refusals: list[DomainError], text: str) -> float:
    if not found:
        raise refusals[0]
    if len(found) > 1:
        readings = tuple((spelled, value) for value, spelled in sorted(found.items()))
        raise Ambiguous(
            "quantity.ambiguous", readings, text=text, one=readings[0][0], other=readings[-1][0]
        )
    return next(iter(found))


def _value(typed: Expression, above: Numbers, below: Numbers, kind: str) -> float:
    ratio = kind_of(kind).ratio
    if not (ratio and typed.below):
        total = _sum(typed.above, above, kind, typed.sign)
    else:
        divisor = _sum(typed.below, below, ratio[1])
        if not divisor:
            raise CannotRead("quantity.zero-below-line", text=typed.spelled(above + below, "."))
        percent = 100 if kind_of(kind).base == "%" else 1
        total = percent * _sum(typed.above, above, ratio[0], typed.sign) / divisor
    return _checked(total, kind)


def _sum(parts: tuple[Part, ...], numbers: Numbers, kind: str, sign: int = 1) -> Fraction:
    check_whole_but_last(parts, numbers, kind)
    total = Fraction(0)
    for part, number in zip(parts, numbers, strict=True):
        scale, offset = _scale(kind, part.unit or "")
        total += sign * number * scale + offset
    return total


def _checked(value: Fraction, kind: str) -> float:
    rules = kind_of(kind)
    if rules.decimals is not None and (value * 10**rules.decimals).denominator != 1:
        raise CannotRead("quantity.two-decimals" if rules.decimals else "quantity.whole")
    if abs(value) > rules.largest:
        raise OutOfRange("quantity.load-too-large" if kind == "load" else "quantity.too-large")
    if kind == "temperature" and float(value) < ABSOLUTE_ZERO_C:
        raise OutOfRange("quantity.below-absolute-zero")
    return float(value)


def _finite(value: float) -> Fraction:
    if not math.isfinite(value):
        raise OutOfRange("quantity.not-finite")
    return Fraction(value)


@cache
def _scale(kind: str, unit: str) -> tuple[Fraction, Fraction]:
    """Scale and offset from the unit to the kind's base; the base itself needs no registry."""
    rules = kind_of(kind)
    if unit == rules.base:
        return Fraction(1), Fraction(0)
    plain = "oz" if unit == "lb oz" else unit
    if not _measures(plain, kind):
        raise OutOfRange("quantity.wrong-unit", unit=unit, example=rules.example)
    above, line, below = plain.partition("/")
    if not line:
        return _factors()[plain]
    percent = 100 if rules.base == "%" else 1
    return percent * _factors()[above][0] / _factors()[below][0], Fraction(0)


def _measures(unit: str, kind: str) -> bool:
    above, line, below = unit.partition("/")
    if line:
        return kind_of(kind).ratio == (_kind_measured_by(above), _kind_measured_by(below))
    return _kind_measured_by(unit) == kind


def _kind_measured_by(unit: str) -> str | None:
    return BY_NAME[unit].kind if unit in BY_NAME else None


@cache
def _factors() -> Mapping[str, tuple[Fraction, Fraction]]:
    """Scale and offset of every unit to its kind's base; the registry lives only in this call."""
    from pint import UnitRegistry  # noqa: PLC0415 - costs the first window too much

    registry: UnitRegistry[Any] = UnitRegistry(None, non_int_type=Fraction)
    identifiers = {}
    for unit in UNITS:
        registry.define(unit.definition)
        identifiers[unit.name] = unit.definition.split(" ", 1)[0]
    factors = {}
    for unit in UNITS:
        base = identifiers[KINDS[unit.kind].base]
        zero, one = (
            Fraction(registry.Quantity(Fraction(number), identifiers[unit.name]).m_as(base))
            for number in (0, 1)
        )
        factors[unit.name] = (one - zero, zero)
    return factors
