"""The grammar of typed numbers and units, exact and without any unit arithmetic.

text     = [sign] part { part }
part     = number [unit]
number   = whole fraction | fraction | decimal        whole and fraction joined by blank or "-"
decimal  = digits with "." or "," and group marks; blank and ' group exactly three digits
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

from wickbench.domain.errors import CannotRead

LONGEST_TEXT = 60

# Decimal marks per language, script and region: Unicode CLDR 48, default numbering system.
# The Arabic mark U+066B is read everywhere; beside it the full stop is the second mark.
_COMMA_LOCALES = (
    "af agq ast az bas be bg blo br bs ca cs cv da de dsb dua dyo el eo es et eu ewo ff fi fo fr"
    " fy gl hr hsb ht hu hy ia id ie is it jgo jv ka kab kea kgp kk kkj kl ksf ku ky lb lij lld ln"
    " lo lt lu lv mgh mk mua nb nl nmg nn nnh no nr pl pt rn ro ru rw sah sc se seh sg shi sk sl"
    " smn sq sr ss su sv tg tk tok tr ts tt tzm uk uz ve vec vi wo yav yrl zgh"
    " ar_DZ ar_LY ar_MA ar_TN en_AT en_BE en_CZ en_DE en_DK en_EE en_ES en_FI en_FR en_GE en_HU"
    " en_ID en_IT en_LT en_LV en_NL en_NO en_PL en_PT en_RO en_SE en_SI en_SK en_UA en_ZA"
    " ms_BN ms_ID qu_BO sw_CD"
)
_STOP_LOCALES = (
    "az_Arab az_Cyrl az_IR de_CH de_LI es_419 es_BR es_BZ es_CU es_DO es_GT es_HN es_MX es_NI"
    " es_PA es_PE es_PR es_SV es_US ff_Adlm it_CH kk_Arab kk_CN uz_AF uz_Arab"
)
_COMMA, _STOP = frozenset(_COMMA_LOCALES.split()), frozenset(_STOP_LOCALES.split())

_AS = {
    "’": "'", "‘": "'", "‛": "'", "“": '"', "”": '"', "„": '"', "〃": '"', "″": '"',
    "−": "-", "–": "-", "‐": "-", "‑": "-", "‒": "-", "﹣": "-", "⁄": "/", "∕": "/",
    "٬": "'", "،": ",", "٪": "%", "μ": "µ", "℃": "°c", "℉": "°f", "\u212a": "k", "º": "°", "˚": "°",
    "³": "3", "⅟": " 1/", "′": "'",
}  # fmt: skip

_NUMBER = r"(?:\d[\d.,]*(?:[ ']\d{3}(?![\d/]))*(?:٫\d+)?[\d.,]*|[.,٫]\d+)"
_UNIT = (
    r"(?:(?:us|uk|imp)\.?\s*)?(?:fl\.?\s*oz\.?|fluid ounces?)|(?:uk|imp)\.?\s*(?:gal|qt|pt)\b\.?"
    r"|deg(?:rees?|\.)?\s*[cf]\b|°\s*[cfk]?(?![a-z])|(?:[cd]?m)3(?!\d)|[a-zµ]+\.?|%|''|\"|'|\#"
)
_PART = re.compile(
    r"\s*(?:(?P<whole>\d+)(?:\s?-\s?|\s)(?P<above>\d+)/(?P<below>\d+)"
    rf"|(?P<only_above>\d+)/(?P<only_below>\d+)|(?P<decimal>{_NUMBER}))\s*(?P<unit>{_UNIT})?",
    re.IGNORECASE,
)
_GROUPED_BY_THIN_MARK = re.compile(r"[1-9]\d{0,2}([ '])\d{3}(?:\1\d{3})*(?:[.,]\d*)?")
_DECIMAL = re.compile(r"\d*(?:[.,]\d+)+|\d+[.,]")
# Groups of three, or of two and a last of three as in India.
_GROUPED = {
    mark: re.compile(rf"[1-9]\d{{0,2}}(?:{mark}\d{{3}})+|[1-9]\d?(?:{mark}\d{{2}})+{mark}\d{{3}}")
    for mark in (",", r"\.")
}
_POWER_OF_TEN = re.compile(r"\d[eE][+-]?\d")


@dataclass(frozen=True, slots=True)
class Part:
    """One number with its unit, as typed.

    Attributes:
        values: all well-formed readings of the number; the first one when only one is meant.
        unit: the unit as typed, None without one.
        number: the number as typed.
    """

    values: tuple[Fraction, ...]
    unit: str | None
    number: str


def decimal_mark(locale: str) -> str:
    """The mark between whole and part in a locale: a comma or a full stop.

    Args:
        locale: for example ``de_CH``, ``sr-Latn-RS``, ``fr_FR.UTF-8``; unknown ones get the stop.
    """
    language, *rest = locale.replace("-", "_").split(".")[0].split("@")[0].split("_")
    for name in [f"{language}_{part}" for part in rest] + [language.lower()]:
        if name in _STOP:
            return "."
        if name in _COMMA:
            return ","
    return "."


def tidy(text: str) -> str:
    """One spelling for digits of any script, blanks, dashes, quotes and vulgar fractions.

    Character by character: normalising the whole text first would turn 2½ into 21⁄2.

    Raises:
        CannotRead: longer than a value can be.
    """
    if len(text) <= 4 * LONGEST_TEXT:
        spelled = " ".join("".join(map(_spell, text)).split())
        if len(spelled) <= LONGEST_TEXT:
            return spelled
    raise CannotRead("quantity.too-long")


def _spell(character: str) -> str:
    if character in _AS:
        return _AS[character]
    if character.isdecimal():
        return str(unicodedata.decimal(character))
    category = unicodedata.category(character)
    if category == "No" and "FRACTION" in unicodedata.name(character, ""):
        value = Fraction(unicodedata.numeric(character)).limit_denominator(320)
        return f" {value.numerator}/{value.denominator} "
    if category == "Cf":  # direction marks around numbers in right-to-left text
        return ""
    if unicodedata.decomposition(character).startswith(("<wide>", "<square>", "<small>")):
        return "".join(_AS.get(c, c) for c in unicodedata.normalize("NFKC", character))
    return character


def split_parts(text: str, mark: str) -> tuple[Part, ...]:
    """Cut tidy text, without a sign, into numbers with units.

    Args:
        text: as ``tidy`` returns it.
        mark: the locale's own decimal mark.

    Raises:
        CannotRead: some of it is neither a number nor a unit.
    """
    if _POWER_OF_TEN.search(text):
        raise CannotRead("quantity.power-of-ten", text=text)
    parts: list[Part] = []
    at = 0
    while at < len(text):
        match = _PART.match(text, at)
        if not match:
            raise _left_over(text[at:].strip(), has_number=bool(parts))
        parts.append(_part(match, mark))
        at = match.end()
    return tuple(parts)


def _left_over(text: str, *, has_number: bool) -> CannotRead:
    if has_number and re.match(r"-\s?\d", text):
        return CannotRead("quantity.range", text=text)
    return CannotRead("quantity.not-a-value", text=text)


def _part(match: re.Match[str], mark: str) -> Part:
    number = match[0][: match.start("unit") - match.start()] if match["unit"] else match[0]
    number = number.strip()
    if match["decimal"]:
        values = readings(match["decimal"], mark)
        if not values:
            example = "1,5; 1 234,5" if mark == "," else "1.5; 1,234.5"
            raise CannotRead("quantity.bad-number", text=number, example=example)
    else:
        values = (_fraction(match, number),)
    return Part(values, match["unit"], number)


def _fraction(match: re.Match[str], text: str) -> Fraction:
    above = int(match["above"] or match["only_above"])
    below = int(match["below"] or match["only_below"])
    if below == 0:
        raise CannotRead("quantity.zero-below-line", text=text)
    if match["whole"] and above >= below:
        raise CannotRead("quantity.fraction-too-large", text=text)
    return int(match["whole"] or 0) + Fraction(above, below)


def readings(number: str, mark: str) -> tuple[Fraction, ...]:
    """All well-formed values of one decimal number, none when it is malformed.

    Written with the locale's own mark it has one reading only.

    Args:
        number: digits with marks, tidy.
        mark: the locale's own decimal mark.
    """
    if "٫" in number:  # is a decimal mark in every locale
        number, mark = number.replace("٫", "."), "."
    if _GROUPED_BY_THIN_MARK.fullmatch(number):
        number = number.replace(" ", "").replace("'", "")
    if number.isdecimal():
        return (Fraction(number),)
    if not _DECIMAL.fullmatch(number):
        return ()
    own = _reading(number, mark)
    if own is not None and mark in number:
        return (own,)
    other = _reading(number, "," if mark == "." else ".")
    return tuple(value for value in (own, other) if value is not None)


def _reading(number: str, mark: str) -> Fraction | None:
    """The value when ``mark`` is the decimal mark and the other one groups digits."""
    group = "," if mark == "." else "."
    grouped = _GROUPED["," if group == "," else r"\."]
    whole, marked, rest = number.partition(mark)
    if group in rest or mark in rest or not (group not in whole or grouped.fullmatch(whole)):
        return None
    if not marked and group not in whole:
        return None
    return Fraction(f"{whole.replace(group, '') or '0'}.{rest or '0'}")
