"""Which page papers are written on: everything but sticker sheets, which bring their own."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.documents.page import page_size_mm

if TYPE_CHECKING:
    from wickbench.app.settings import Settings

LETTER_COUNTRIES: Final = frozenset(
    (
        "US", "CA", "MX", "PH", "PR", "GT", "SV", "NI", "CR", "PA", "VE", "CO", "CL",
    )
)  # fmt: skip
"""Where Letter is bought in every shop (glibc's LC_PAPER of each country: 279 × 216 mm)."""


def usual_paper(country: str) -> str:
    """The paper of a country by its ISO 3166 code: ``"Letter"`` or ``"A4"``."""
    return "Letter" if country in LETTER_COUNTRIES else "A4"


def paper_size(settings: Settings) -> tuple[float, float]:
    """Width and height of the page in millimetres.

    What the settings name; where they name none, Letter if it is sold in the US first, else A4.
    """
    return page_size_mm(settings.text("paper"))
