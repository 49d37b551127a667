"""How a caution sticker looks: typefaces, drawings and the smallest sizes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from wickbench.documents.pictograms import LEAST_HEIGHT_MM
from wickbench.documents.surface import BLACK, Colour
from wickbench.documents.text import Typeface
from wickbench.domain.errors import OutOfRange

LEAST_PT: Final = 5.0  # smallest black on white that is read (common practice, no source)
PICTURES: Final = ("none", "beside", "instead")


@dataclass(frozen=True, slots=True)
class CautionDesign:
    """How the caution looks.

    Attributes:
        text_face: typeface of the statements.
        signal_face: bold typeface of the signal word.
        pictures: ``none``, ``beside`` the text, or ``instead`` of the statements they stand for.
        symbol_mm: least height of symbol and drawings in mm; not below 5.
        least_pt: smallest size that counts as legible, in points.
        colour: of text and drawings.
        ground: of what is left free inside the drawings.
    """

    text_face: Typeface
    signal_face: Typeface
    pictures: str = "none"
    symbol_mm: float = LEAST_HEIGHT_MM
    least_pt: float = LEAST_PT
    colour: Colour = BLACK
    ground: Colour = "#ffffff"

    def __post_init__(self) -> None:
        if self.pictures not in PICTURES:
            raise OutOfRange("caution.pictures-unknown", pictures=self.pictures)
