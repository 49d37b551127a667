"""Typed text to numbers with known units: what stands above and below the line, checked for sense.

No arithmetic with units happens here; ``quantities`` does that with what this module read.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, replace
from decimal import Context
from fractions import Fraction
from itertools import pairwise, product
from typing import TYPE_CHECKING

from wickbench.domain.errors import CannotRead
from wickbench.domain.number_text import Part, split_parts
from wickbench.domain.unit_table import BY_NAME, NEXT_SMALLER, UNCLEAR, kind_of, unit_name

if TYPE_CHECKING:
    from collections.abc import Iterator

Numbers = tuple[Fraction, ...]

_RATIO = re.compile(r"(?P<above>.*?[a-zµ]\.?)\s*(?:/|\bper\b)\s*(?P<below>.+)", re.IGNORECASE)
_EXACT = Context(prec=80)
_OFTEN_CONFUSED = {
    ("volume", "oz"): "quantity.oz-is-weight",
    ("mass", "fl oz"): "quantity.fl-oz-is-volume",
}


@dataclass(frozen=True, slots=True)
class Expression:
    """A value as typed; units are the shown names of the table, "" for a plain number.

    Attributes:
        sign: 1 or -1.
        above: the parts of the value, for example 2 lb and 4 oz.
        below: the parts of what it is divided by, empty where there is no line.
    """

    sign: int
    above: tuple[Part, ...]
    below: tuple[Part, ...] = ()

    def choices(self, prefer: str | None) -> Iterator[tuple[Numbers, Numbers]]:
        """Every combination of the readings of its numbers, above and below the line.

        ``prefer`` keeps one reading of each: ``"decimal"`` the smaller, ``"group"`` the larger.
        """
        pick = {"decimal": min, "group": max}.get(prefer or "")
        options = [(pick(p.values),) if pick else p.values for p in self.above + self.below]
        for numbers in product(*options):
            yield numbers[: len(self.above)], numbers[len(self.above) :]

    def spelled(self, numbers: Numbers, mark: str) -> str:
        """The text that has only this reading."""
        words = [
            f"{_plain(n, mark) if len(part.values) > 1 else part.number} {part.unit or ''}".strip()
            for part, n in zip(self.above + self.below, numbers, strict=True)
        ]
        cut = len(self.above)
        line = f"/{' '.join(words[cut:])}" if self.below else ""
        return ("-" if self.sign < 0 else "") + " ".join(words[:cut]) + line


def _plain(number: Fraction, mark: str) -> str:
    exact = _EXACT.divide(number.numerator, number.denominator)
    return f"{exact:f}".replace(".", mark)


def read_expression(
    text: str, kind: str, mark: str, *, assume: str | None = None, imperial: bool = False
) -> Expression:
    """Cut tidy text into numbers with units and check that the units fit the kind.

    Raises:
        CannotRead: see ``quantities.parse``.
    """
    example = kind_of(kind).example
    sign, body = _signed(text, assume if kind == "money" else None, is_money=kind == "money")
    if not body:
        raise CannotRead("quantity.empty", example=example)
    ratio = kind_of(kind).ratio
    divided = _RATIO.fullmatch(body) if ratio else None
    if ratio and divided:
        below = re.sub(r"^(?![\d.,٫])", "1 ", divided["below"])
        above_kind, below_kind = ratio
        return Expression(
            sign,
            _measured(split_parts(divided["above"], mark), above_kind, kind, imperial=imperial),
            _measured(split_parts(below, mark), below_kind, kind, imperial=imperial),
        )
    parts = split_parts(body, mark)
    return Expression(sign, _measured(parts, kind, kind, assume=assume, imperial=imperial))


def check_whole_but_last(parts: tuple[Part, ...], numbers: Numbers, kind: str) -> None:
    """Only the last number of a value in several units may have decimals: 2.5 lb 4 oz is a slip.

    Raises:
        CannotRead: an earlier one has.
    """
    if any(number.denominator != 1 for number in numbers[:-1]):
        raise CannotRead("quantity.one-value", text=_joined(parts), example=kind_of(kind).example)


def _joined(parts: tuple[Part, ...]) -> str:
    return " ".join(f"{part.number} {part.unit or ''}".strip() for part in parts)


def _signed(text: str, currency: str | None, *, is_money: bool) -> tuple[int, str]:
    body = _without_currency(text, currency) if is_money else text
    if body[:1] not in ("-", "+"):
        return 1, body
    rest = body[1:].strip()
    if is_money and body == text:
        rest = _without_currency(rest, currency)
    return (-1 if body[0] == "-" else 1), rest


def _without_currency(text: str, currency: str | None) -> str:
    """Money without the sign or code before or after it; another sign than ours is refused."""
    if currency and text[: len(currency)].lower() == currency.lower():
        return text[len(currency) :].strip()
    if currency and text[-len(currency) :].lower() == currency.lower():
        return text[: -len(currency)].strip()
    if text and unicodedata.category(text[0]) == "Sc":
        sign, rest = text[0], text[1:]
    elif text and unicodedata.category(text[-1]) == "Sc":
        sign, rest = text[-1], text[:-1]
    else:
        return text
    if currency and unicodedata.category(currency[-1]) == "Sc":
        raise CannotRead("quantity.other-currency", text=sign, unit=currency)
    return rest.strip()


def _measured(
    parts: tuple[Part, ...], kind: str, field: str, *, assume: str | None = None, imperial: bool
) -> tuple[Part, ...]:
    """The same parts with the shown names of their units, which measure the kind and fit together.

    ``field`` is the kind of the whole value, for the sentences; another one within a ratio.
    """
    example = kind_of(field).example
    if any(part.unit is None for part in parts[:-1]):
        raise CannotRead("quantity.two-numbers", text=_joined(parts), example=example)
    known = tuple(_known(part, kind, field, imperial=imperial) for part in parts)
    if known[-1].unit is None:
        known = _with_last_unit(known, kind, assume, imperial=imperial)
    for larger, smaller in pairwise(known):
        if NEXT_SMALLER.get(larger.unit or "") != smaller.unit:
            raise CannotRead("quantity.one-value", text=_joined(parts), example=example)
    return known


def _with_last_unit(
    parts: tuple[Part, ...], kind: str, assume: str | None, *, imperial: bool
) -> tuple[Part, ...]:
    """A lone number gets the unit that the field assumes; after other units it must be typed."""
    *before, last = parts
    if before:
        larger = before[-1].unit or ""
        suggestion = f"{_joined(parts)} {NEXT_SMALLER.get(larger, larger)}"
        raise CannotRead("quantity.last-unit", text=_joined(parts), suggestion=suggestion)
    rules = kind_of(kind)
    unit = unit_name(assume, imperial=imperial) if assume and rules.base else rules.bare
    if unit is None:
        raise CannotRead("quantity.no-unit", example=rules.example)
    return (replace(last, unit=unit),)


def _known(part: Part, kind: str, field: str, *, imperial: bool) -> Part:
    typed = part.unit
    if typed is None or (kind == "temperature" and typed.strip() == "°"):
        return replace(part, unit=None)
    example = kind_of(field).example
    if not kind_of(field).base:
        raise CannotRead("quantity.plain-number", unit=typed, example=example)
    name = unit_name(typed, imperial=imperial)
    if name is None:
        unclear = typed.lower().replace(".", "") in UNCLEAR
        key = "quantity.unclear-unit" if unclear else "quantity.unknown-unit"
        raise CannotRead(key, unit=typed, example=example)
    measured = BY_NAME[name].kind
    if measured == kind or (measured == "percent" and kind == "load"):
        return replace(part, unit=name)
    raise CannotRead(_misfit(measured, name, field), unit=name, example=example)


def _misfit(measured: str, name: str, field: str) -> str:
    """The key of the sentence for a unit of another kind than the field's."""
    if field == "load":
        return "quantity.load-without-wax" if measured == "mass" else "quantity.load-not-weight"
    met = field, name.removeprefix("UK ")
    return _OFTEN_CONFUSED.get(met, f"quantity.wants-{field}")
