"""Page sizes in millimetres."""

from __future__ import annotations

from typing import Final

A4_MM: Final = (210.0, 297.0)  # ISO 216
LETTER_MM: Final = (215.9, 279.4)  # ANSI/ASME Y14.1 size A: 8 1/2 × 11 in
PAGE_SIZES_MM: Final = {"a4": A4_MM, "letter": LETTER_MM}

_SAME_MM = 0.5


def page_size_mm(name: str) -> tuple[float, float]:
    """Width and height of a named page; A4 for a name that is not known."""
    return PAGE_SIZES_MM.get(name.lower(), A4_MM)


def page_name(width_mm: float, height_mm: float) -> str:
    """``"a4"``, ``"letter"`` or ``"free"`` for a size, upright or on its side."""
    short, long = sorted((width_mm, height_mm))
    for name, (width, height) in PAGE_SIZES_MM.items():
        if abs(short - width) <= _SAME_MM and abs(long - height) <= _SAME_MM:
            return name
    return "free"
