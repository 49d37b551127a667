"""Lengths as they are printed on a caution label: inches first in the US, millimetres elsewhere."""

from __future__ import annotations

import math

EIGHTH_INCH_MM = 25.4 / 8
READING_MM = 0.5  # a length given in whole millimetres may be off by this much
CENTIMETRES_FROM_MM = 20.0
DECIMAL_POINT = frozenset({"en"})


def length_text(length_mm: float, region: str, language: str, *, toward: str = "shorter") -> str:
    """A length as the region reads it: ``1/4 in (6 mm)`` in the US, ``6 mm`` elsewhere.

    Inches are eighths, rounded towards the careful side: ``shorter`` for what is trimmed,
    ``longer`` for what is kept. A whole millimetre may be half a millimetre off, so that
    6 mm reads 1/4 in, 3 to 5 mm read 1/8 in and 12 mm of wax reads 1/2 in.
    """
    metric = _metric_text(length_mm, region, language)
    if region != "US":
        return metric
    return f"{_inch_text(length_mm, toward)} in ({metric})"


def trim_text(from_mm: float, to_mm: float | None, region: str, language: str) -> str:
    """The length to trim a wick to, or its range: ``1/8 in (3–5 mm)`` or ``3–5 mm``."""
    if to_mm is None or to_mm == from_mm:
        return length_text(from_mm, region, language)
    low_mm, high_mm = (number_text(end, region, language) for end in (from_mm, to_mm))
    metric = f"{low_mm}–{high_mm} mm"
    if region != "US":
        return metric
    low, high = _inch_text(from_mm, "shorter"), _inch_text(to_mm, "shorter")
    inches = low if low == high else f"{low}–{high}"
    return f"{inches} in ({metric})"


def number_text(value: float, region: str, language: str) -> str:
    """A number to one decimal, with a point in English and on every label for the US."""
    text = f"{value:.1f}".removesuffix(".0")
    return text if region == "US" or language in DECIMAL_POINT else text.replace(".", ",")


def _metric_text(length_mm: float, region: str, language: str) -> str:
    if length_mm >= CENTIMETRES_FROM_MM and math.isclose(length_mm % 10.0, 0.0):
        return f"{number_text(length_mm / 10.0, region, language)} cm"
    return f"{number_text(length_mm, region, language)} mm"


def _inch_text(length_mm: float, toward: str) -> str:
    if toward == "shorter":
        eighths = max(1, math.floor((length_mm + READING_MM) / EIGHTH_INCH_MM))
    else:
        eighths = max(1, math.ceil((length_mm - READING_MM) / EIGHTH_INCH_MM))
    whole, part = divmod(eighths, 8)
    if part == 0:
        return str(whole)
    shared = math.gcd(part, 8)
    fraction = f"{part // shared}/{8 // shared}"
    return f"{whole} {fraction}" if whole else fraction
