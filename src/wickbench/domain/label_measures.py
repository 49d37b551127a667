"""What measures, colours and choices of a label may be."""

from __future__ import annotations

import math
import re
from dataclasses import fields
from functools import partial
from typing import TYPE_CHECKING, Any, Final

from wickbench.domain.codes import RULES
from wickbench.domain.errors import OutOfRange
from wickbench.domain.sheets import SHAPES

if TYPE_CHECKING:
    from collections.abc import Callable

KINDS: Final = ("jar", "lid", "caution", "tag")
ALIGNMENTS: Final = ("left", "centre", "right")
VERTICALS: Final = ("top", "middle", "bottom")
FITS: Final = ("contain", "cover", "stretch")
FRAMES: Final = ("rectangle", "rounded", "oval", "sticker")
CORNERS: Final = ("round", "cut", "hollow", "notched")
LABEL_SHAPES: Final = (*SHAPES, "wrap")
CURVES: Final = ("", "over", "under")
FACTS: Final = (
    "identity", "net_weight", "lot", "poured_on", "burn_time", "ingredients", "wax", "fragrance",
    "code", "price", "business", "business_address", "web",
)  # fmt: skip
"""Fields that a frame of facts may list, in the usual order."""
SYMBOLS: Final = tuple(RULES)
QR_LEVELS: Final = ("L", "M", "Q", "H")

_COLOUR: Final = re.compile(r"#[0-9a-fA-F]{6}")


def _at_least(lowest: float) -> Callable[[Any], None]:
    def check(value: float) -> None:
        if not math.isfinite(value) or value < lowest:
            raise OutOfRange("label.measure", value=str(value))

    return check


def _colour(value: str, *, empty: bool = False) -> None:
    if not (_COLOUR.fullmatch(value) or (empty and not value)):
        raise OutOfRange("label.colour", colour=value)


def _one_of(choices: tuple[str, ...]) -> Callable[[Any], None]:
    def check(value: str) -> None:
        if value not in choices:
            raise OutOfRange("label.choice", value=value)

    return check


def _part(value: float) -> None:
    if not 0.0 <= value < 1.0:
        raise OutOfRange("label.measure", value=str(value))


def _dashes(values: tuple[float, ...]) -> None:
    for value in values:
        _at_least(0.0)(value)


_CHECKS: Final[dict[str, Callable[[Any], None]]] = {
    "x_mm": _at_least(-math.inf),
    "y_mm": _at_least(-math.inf),
    "turn_deg": _at_least(-math.inf),
    "w_mm": _at_least(0.0),
    "h_mm": _at_least(0.0),
    "size_pt": _at_least(0.5),
    "min_size_pt": _at_least(0.5),
    "leading": _at_least(0.5),
    "letter_spacing_em": _at_least(-0.5),
    "align": _one_of(ALIGNMENTS),
    "vertical": _one_of(VERTICALS),
    "fit": _one_of(FITS),
    "figure": _one_of(FRAMES),
    "shape": _one_of(LABEL_SHAPES),
    "curve": _one_of(CURVES),
    "corners": _one_of(CORNERS),
    "second_mm": _at_least(0.0),
    "wrap_bottom_mm": _at_least(0.0),
    "wrap_top_mm": _at_least(0.0),
    "overlap_mm": _at_least(0.0),
    "crop_left": _part,
    "crop_top": _part,
    "crop_right": _part,
    "crop_bottom": _part,
    "kind": _one_of(KINDS),
    "colour": _colour,
    "ink": partial(_colour, empty=True),
    "fill": partial(_colour, empty=True),
    "ground": partial(_colour, empty=True),
    "symbol": _one_of(SYMBOLS),
    "level": _one_of(QR_LEVELS),
    "module_mm": _at_least(0.0),
    "background": partial(_colour, empty=True),
    "line_mm": _at_least(0.0),
    "inset_mm": _at_least(0.0),
    "corner_mm": _at_least(0.0),
    "safe_mm": _at_least(0.0),
    "bleed_mm": _at_least(0.0),
    "width_mm": _at_least(1.0),
    "height_mm": _at_least(1.0),
    "dash_mm": _dashes,
}


def check_fields(value: Any) -> None:  # noqa: ANN401 - any of the label's values
    """Refuse a measure, a colour or a choice that cannot be.

    Args:
        value: an element or a design.

    Raises:
        OutOfRange: ``label.measure``, ``label.colour`` or ``label.choice``.
    """
    for one in fields(value):
        check = _CHECKS.get(one.name)
        if check is not None:
            check(getattr(value, one.name))
