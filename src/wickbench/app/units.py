"""Which units the person reads and types, per kind of quantity."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from wickbench.domain.quantities import convert
from wickbench.domain.quantity_format import format_quantity

# Digits that tell a stored integer unit apart, for text that goes back into a field.
_FULL_DIGITS = {
    "g": 3,
    "kg": 6,
    "oz": 4,
    "lb": 5,
    "lb oz": 3,
    "mL": 2,
    "L": 5,
    "fl oz": 3,
    "mm": 2,
    "cm": 3,
    "in": 4,
    "°C": 1,
    "°F": 1,
    "%": 4,
    "g/mL": 4,
}
# Digits for reading: what a maker's eye wants where no scale sets them.
_READ_DIGITS = {
    "g": 1,
    "kg": 3,
    "oz": 2,
    "lb": 3,
    "lb oz": 1,
    "mL": 0,
    "L": 3,
    "fl oz": 2,
    "mm": 1,
    "cm": 1,
    "in": 2,
    "°C": 0,
    "°F": 0,
    "%": 2,
    "g/mL": 3,
}

_TRIMMED = frozenset({"mm", "%"})  # units whose zeros at the end say nothing
_OUNCES = frozenset({"oz", "lb oz"})
_SMALL_G, _SMALL_OUNCE_DIGITS = 1.0, 4  # what a fine scale reads to is no "0.0 oz"
_FEW_G, _FEW_OUNCE_DIGITS = 10.0, 2  # neither is a gram
_SMALL_GRAM_DIGITS = 3  # and a speck of dye is no "0.0 g"
_SMALL_ML = 10  # below this a whole millilitre says too little
# The unit that a bare number has in a field of the kind, when the shown unit is a compound.
_ASSUMED = {"lb oz": "oz"}
GRAMS_PER_KILOGRAM = 1000
_FIXED_UNITS = {"load": "%", "percent": "%", "density": "g/mL", "days": "d", "duration": "min"}
_DEFAULTS: Mapping[str, tuple[str, str]] = {
    "mass": ("g", "lb oz"),
    "volume": ("mL", "fl oz"),
    "length": ("mm", ""),
    "temperature": ("°C", "°F"),
}


@dataclass(frozen=True, slots=True)
class Units:
    """Preferred units: (first, second or "") per kind, locale for numbers, currency.

    ``imperial`` reads pints and fluid ounces as the British ones.
    """

    locale: str = "en_US"
    shown: Mapping[str, tuple[str, str]] = field(default_factory=lambda: dict(_DEFAULTS))
    currency: str = "USD"
    imperial: bool = False

    def first(self, kind: str) -> str:
        """The unit a kind is shown in first; empty for plain numbers."""
        return _FIXED_UNITS.get(kind) or self.shown.get(kind, ("", ""))[0]

    def second(self, kind: str) -> str:
        """The unit shown beside it; empty for none."""
        return self.shown.get(kind, ("", ""))[1]

    def assumed(self, kind: str) -> str | None:
        """The unit of a bare number typed in a field of the kind."""
        unit = self.first(kind)
        return _ASSUMED.get(unit, unit) or None

    def full(self, value: float, kind: str) -> str:
        """Text for a field: all digits that are stored, no more zeros than needed."""
        unit = self.first(kind)
        digits = _FULL_DIGITS.get(unit, 4)
        if kind in {"count", "days"}:
            digits = 0
        return _trim(format_quantity(value, kind, unit, digits=digits, locale=self.locale))

    def read(self, value: float, kind: str, *, step: float | None = None, both: bool = True) -> str:
        """Text for reading, with the second unit when the settings show one.

        ``step`` (in the kind's base unit) gives the digits of the scale that weighs it.
        """
        first = self.one(value, kind, self.first(kind), step=step)
        other = self.second(kind) if both else ""
        if not other:
            return first
        return f"{first} · {self.one(value, kind, other)}"

    def bulk(self, value: float, *, both: bool = True) -> str:
        """A weight on the shelf: kilograms from one kilogram on, no zeros at the end."""
        units = [self.first("mass")]
        if both and self.second("mass"):
            units.append(self.second("mass"))
        return " · ".join(self._bulk(value, unit) for unit in units)

    def span(self, low: float, high: float, kind: str) -> str:
        """From one value to another in the first unit: "74–85 °C"; one value when they agree."""
        unit = self.first(kind)
        upper = self.one(high, kind, unit)
        lower = self.one(low, kind, unit)
        if lower == upper:
            return upper
        return f"{lower.removesuffix(unit).rstrip()}–{upper}"

    def _bulk(self, value: float, unit: str) -> str:
        if unit == "g" and abs(value) >= GRAMS_PER_KILOGRAM:
            unit = "kg"
        return format_quantity(value, "mass", unit, locale=self.locale)

    def one(self, value: float, kind: str, unit: str, *, step: float | None = None) -> str:
        """Text in one unit."""
        if step is not None and unit == "g":
            return format_quantity(value, kind, unit, step=step, locale=self.locale)
        digits = _READ_DIGITS.get(unit, 3)
        heavy = unit == "g" and abs(convert(value, kind, unit)) >= GRAMS_PER_KILOGRAM
        if heavy or kind in {"count", "days"}:
            digits = 0
        if unit == "mL" and abs(value) < _SMALL_ML:
            digits = 1
        speck = kind == "mass" and 0 < abs(value) < _SMALL_G
        if speck:
            digits = {"g": _SMALL_GRAM_DIGITS}.get(unit, digits)
        if unit in _OUNCES and 0 < abs(value) < _FEW_G:
            digits = _SMALL_OUNCE_DIGITS if speck else _FEW_OUNCE_DIGITS
        text = format_quantity(value, kind, unit, digits=digits, locale=self.locale)
        return _trim(text) if unit in _TRIMMED or (speck and unit == "g") else text


def _trim(text: str) -> str:
    """Take needless zeros off the decimals of the one number in a text."""
    for mark in (".", ","):
        head, found, tail = text.rpartition(mark)
        if not found:
            continue
        digits = tail[: len(tail) - len(tail.lstrip("0123456789"))]
        kept = digits.rstrip("0")
        rest = tail[len(digits) :]
        return f"{head}{mark}{kept}{rest}" if kept else f"{head}{rest}"
    return text
