"""A sheet's measures in words: measured beside entered, and how they came about."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.texts_marker import N_
from wickbench.domain.rounding import half_up

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.sheet_readings import Compared
    from wickbench.app.texts import Texts

_ONE_DIGIT_MM: Final = 0.1
MEASURE_WORDS: Final[Mapping[str, str]] = {
    "left_mm": N_("Left margin"),
    "pitch_x_mm": N_("From one to the next, across"),
    "sticker_w_mm": N_("Sticker width"),
    "top_mm": N_("Top margin"),
    "pitch_y_mm": N_("From one to the next, down"),
    "sticker_h_mm": N_("Sticker height"),
}
_HOW: Final = (
    N_(
        "Each reading is a sum: the first edge is the margin; the last near edge is the margin and "
        "(stickers − 1) times the distance from one to the next; the last far edge is one sticker "
        "more. Readings beyond three are fitted by least squares."
    ),
    N_(
        "A reading is taken to be within 0.5 mm. Doubts add up as the root of the sum of their "
        "squares (JCGM 100, 5.1). The distance from one to the next is the difference of two "
        "readings divided by (stickers − 1), and so is its doubt: many stickers make it sure."
    ),
    N_("Margins and sizes are rounded to 0.1 mm, distances from one to the next to 0.01 mm."),
)


def measured_line(texts: Texts, one: Compared) -> str:
    """One measure with its doubt, and what is entered where that is another."""
    units = texts.units
    value = units.full(one.measured.value_mm, "length")
    digits = 1 if one.measured.doubt_mm >= _ONE_DIGIT_MM else 2
    doubt = units.full(half_up(one.measured.doubt_mm, digits), "length")
    said = texts(
        N_("{name}: {value}, give or take {doubt}"),
        name=texts(MEASURE_WORDS[one.name]), value=value, doubt=doubt,
    )  # fmt: skip
    if not one.differs or one.stored_mm is None:
        return said
    entered = units.full(one.stored_mm, "length")
    return f"{said} · {texts(N_('entered is {entered}'), entered=entered)}"


def how_measured(texts: Texts) -> tuple[str, ...]:
    """How readings become measures, with the source."""
    return tuple(texts(step) for step in _HOW)
