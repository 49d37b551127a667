"""Marks: accents and signs that stand on, under or round the letter before them."""

from __future__ import annotations

import unicodedata
from typing import Final

_CATEGORIES: Final = frozenset({"Mn", "Mc", "Me", "Cf"})


def is_mark(text: str) -> bool:
    """Whether a text is nothing but marks and joiners; False when it is empty."""
    return bool(text) and all(unicodedata.category(sign) in _CATEGORIES for sign in text)
