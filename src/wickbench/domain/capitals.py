"""Capitals on labels: unit symbols keep their case, since "G" is no gram."""

from __future__ import annotations

import re
from typing import Final

# SI symbols after a figure are written as they are (SI Brochure, 5.2); "oz" and "lb" are words.
_SYMBOL: Final = re.compile(r"(?<=\d)(\s?)(mg|g|kg|mL|ml|L|mm|cm|m)\b")


def in_capitals(text: str) -> str:
    """The text in capitals; SI symbols that follow a figure stay."""
    parts: list[str] = []
    at = 0
    for symbol in _SYMBOL.finditer(text):
        parts += [text[at : symbol.start()].upper(), symbol[0]]
        at = symbol.end()
    return "".join([*parts, text[at:].upper()])


def has_small_letters(text: str) -> bool:
    """Whether words are set with small letters; SI symbols after a figure do not count."""
    return text != in_capitals(text)
