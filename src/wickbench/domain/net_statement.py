"""Weights as they are printed on a label: read back from its text, with what stands round them.

Reading is independent of writing (`net_weight`), so that a text typed by hand can be compared with
what the rules give. Fluid ounces are a volume and never read as a weight.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from wickbench.domain.net_weight import GRAM_MG, KILOGRAM_MG, OUNCE_MG, OUNCES_PER_POUND

if TYPE_CHECKING:
    from collections.abc import Iterable

METRIC: Final = "metric"
POUNDS: Final = "pounds"

_UNITS: Final = {
    "kg": (METRIC, Fraction(KILOGRAM_MG)),
    "g": (METRIC, Fraction(GRAM_MG)),
    "lb": (POUNDS, OUNCE_MG * OUNCES_PER_POUND),
    "oz": (POUNDS, OUNCE_MG),
}
_SPELLED: Final = {
    **dict.fromkeys(("kg", "kilogram", "kilograms", "kilogramm", "kilogrammes", "kilo"), "kg"),
    **dict.fromkeys(("g", "gr", "gram", "grams", "gramm", "gramme", "grammes", "gramos"), "g"),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds", "livre", "livres", "libra", "libras"), "lb"),
    **dict.fromkeys(("oz", "ozs", "ounce", "ounces", "unze", "unzen", "once", "onces"), "oz"),
    **dict.fromkeys(("onza", "onzas"), "oz"),
}
_VULGAR: Final = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_NUMBER: Final = (
    rf"(?:(?P<whole>\d+(?:[.,]\d+)?)(?:\s?(?P<sign>[{_VULGAR}])|[\s-]+(?P<over>\d+)\s?[/⁄]\s?(?P<under>\d+))?"
    rf"|(?P<over2>\d+)\s?[/⁄]\s?(?P<under2>\d+)|(?P<sign2>[{_VULGAR}]))"
)
_WEIGHT: Final = re.compile(
    rf"(?<![\d.,/⁄]){_NUMBER}\s?(?P<unit>{'|'.join(sorted(_SPELLED, key=len, reverse=True))})\b",
    re.IGNORECASE,
)
_FLUID: Final = re.compile(r"\b(?:fl\.?|fluid)\s*(?:oz|ounces?)\b", re.IGNORECASE)
_JOINED: Final = re.compile(
    r"[\s.,;:()/·•|=≈–—-]*(?:and|und|et|y|or|oder|ou|o|net|netto|neto)?[\s(]*\Z", re.IGNORECASE
)
_NET: Final = re.compile(
    r"\b(?:nettogewicht|nettofüllmenge|netto|net\s*weight|net\s*wt|net|poids\s*net|peso\s*neto|neto)"
    r"[.:]?\s*(?:(?:wt|weight|contents)[.:]?\s*)?(?:[^\W\d]+\.?\s+){0,2}[^\w(]*\Z",
    re.IGNORECASE,
)
_SAYS_NET: Final = re.compile(r"\b(?:net|netto|neto)\b", re.IGNORECASE)
_AFTER: Final = re.compile(r"\s*(?:\)|net\b|netto\b|neto\b)*", re.IGNORECASE)
_THOUSANDS: Final = 3


@dataclass(frozen=True, slots=True)
class SaidWeight:
    """One figure with its unit, or pounds with their ounces.

    Attributes:
        system: ``metric`` or ``pounds``.
        mass_mg: what it promises.
        start, end: its place in the text.
        decimals: digits after the decimal mark.
        fraction: numerator and denominator of a common fraction as it stands there.
    """

    system: str
    mass_mg: Fraction
    start: int
    end: int
    decimals: int = 0
    fraction: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class NetStatement:
    """Weights that stand together, as "Net Wt 8 oz (226 g)".

    Attributes:
        text: the whole of it.
        start, end: its place in the text it was read from.
        weights: in their order.
        says_net: whether the word "net" stands with them.
    """

    text: str
    start: int
    end: int
    weights: tuple[SaidWeight, ...]
    says_net: bool

    def of(self, system: str) -> SaidWeight | None:
        """The first weight in this system; ``None`` when there is none."""
        return next((one for one in self.weights if one.system == system), None)


def weights_in(text: str) -> tuple[SaidWeight, ...]:
    """Every weight in a text; pounds and the ounces right after them are one."""
    found: list[SaidWeight] = []
    for match in _WEIGHT.finditer(text):
        said = _said(match)
        before = found[-1] if found else None
        if before is not None and _is_rest(text, before, said):
            found[-1] = _with_rest(before, said)
        else:
            found.append(said)
    return tuple(found)


def statements_in(text: str) -> tuple[NetStatement, ...]:
    """Weights that stand together, each group with the word before it."""
    groups: list[list[SaidWeight]] = []
    for said in weights_in(text):
        if groups and _JOINED.match(text[groups[-1][-1].end : said.start]):
            groups[-1].append(said)
        else:
            groups.append([said])
    return tuple(_statement(text, group) for group in groups)


def says_fluid_ounces(text: str) -> bool:
    """Whether a text speaks of fluid ounces: a volume, which a solid candle is not sold by."""
    return _FLUID.search(text) is not None


def words_in(text: str, words: Iterable[str]) -> tuple[str, ...]:
    """Those of the words that stand in a text as whole words, in their order."""
    return tuple(
        word for word in words if re.search(rf"\b{re.escape(word)}\b", text, re.IGNORECASE)
    )


def _statement(text: str, group: list[SaidWeight]) -> NetStatement:
    start, end = group[0].start, group[-1].end
    word = _NET.search(text[:start])
    after = _AFTER.match(text, end)
    end = after.end() if after else end
    says_net = word is not None or _SAYS_NET.search(text, group[0].start, end) is not None
    start = word.start() if word is not None else start
    return NetStatement(text[start:end].strip(), start, end, tuple(group), says_net)


def _said(match: re.Match[str]) -> SaidWeight:
    unit = _SPELLED[match["unit"].lower()]
    system, unit_mg = _UNITS[unit]
    whole, decimals = _decimal(match["whole"] or "0", unit)
    fraction = _fraction(match)
    number = whole + (Fraction(*fraction) if fraction and fraction[1] else 0)
    return SaidWeight(system, number * unit_mg, match.start(), match.end(), decimals, fraction)


def _decimal(written: str, unit: str) -> tuple[Fraction, int]:
    """The number and its decimals; three digits after a mark before grams are thousands."""
    head, mark, tail = written.replace(",", ".").partition(".")
    if mark and unit == "g" and len(tail) == _THOUSANDS:
        return Fraction(head + tail), 0
    return Fraction(f"{head}.{tail}" if mark else head), len(tail)


def _fraction(match: re.Match[str]) -> tuple[int, int] | None:
    sign = match["sign"] or match["sign2"]
    if sign:
        exact = Fraction(unicodedata.numeric(sign)).limit_denominator(10)
        return exact.numerator, exact.denominator
    over, under = match["over"] or match["over2"], match["under"] or match["under2"]
    return (int(over), int(under)) if over and under else None


def _is_rest(text: str, before: SaidWeight, said: SaidWeight) -> bool:
    """Ounces right after pounds are their remainder."""
    pound = OUNCE_MG * OUNCES_PER_POUND
    return (
        before.system == said.system == POUNDS
        and before.mass_mg >= pound > said.mass_mg
        and before.mass_mg % pound == 0
        and text[before.end : said.start].strip(" ,.") == ""
        and "o" in text[said.start : said.end].casefold()
    )


def _with_rest(before: SaidWeight, said: SaidWeight) -> SaidWeight:
    mass_mg = before.mass_mg + said.mass_mg
    decimals, fraction = said.decimals, said.fraction or before.fraction
    return SaidWeight(POUNDS, mass_mg, before.start, said.end, decimals, fraction)
