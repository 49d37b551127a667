"""Label designs as frozen values: what stands where on a sticker, in millimetres from its corner.

Text may hold fields in braces, ``{candle}`` or ``{net weight}``; they are filled in at printing.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, fields
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
SYMBOLS: Final = tuple(RULES)
QR_LEVELS: Final = ("L", "M", "Q", "H")

_COLOUR: Final = re.compile(r"#[0-9a-fA-F]{6}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Element:
    """Something on a label: a box turned clockwise about its middle.

    Attributes:
        x_mm: left edge of the box before turning.
        y_mm: top edge of the box before turning.
        w_mm: width of the box.
        h_mm: height of the box.
        turn_deg: turn, clockwise.
        group: elements with the same word are chosen and moved together; empty for none.

    Raises:
        OutOfRange: ``label.measure`` for a measure that is no number or a negative size,
            ``label.colour`` for a colour that is not ``#rrggbb``.
    """

    x_mm: float
    y_mm: float
    w_mm: float
    h_mm: float
    turn_deg: float = 0.0
    group: str = ""

    def __post_init__(self) -> None:
        _check_fields(self)


@dataclass(frozen=True, slots=True, kw_only=True)
class TextElement(Element):
    """Lines of text, shrunk to fit.

    Attributes:
        text: with fields in braces; line breaks as typed.
        family: typeface family.
        style: style of the family.
        file_hash: SHA-256 of the font file when it was chosen; empty when not kept.
        size_pt: type size wanted.
        min_size_pt: smallest size it may shrink to.
        align: left, centre or right.
        vertical: top, middle or bottom.
        colour: of the letters.
        letter_spacing_em: extra space between letters, in ems.
        leading: distance of base lines, times the type size.
        upper: set in capitals.
        wrap: lines may be broken between words.
    """

    text: str
    family: str = "Source Sans Pro"
    style: str = "Regular"
    file_hash: str = ""
    size_pt: float = 10.0
    min_size_pt: float = 6.0
    align: str = "centre"
    vertical: str = "middle"
    colour: str = "#000000"
    letter_spacing_em: float = 0.0
    leading: float = 1.2
    upper: bool = False
    wrap: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureElement(Element):
    """A picture kept in the workshop file.

    Attributes:
        picture: its key (SHA-256 of the file); empty while none is chosen.
        fit: ``contain`` shows all of it, ``cover`` fills the box, ``stretch`` bends it.
    """

    picture: str = ""
    fit: str = "contain"


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameElement(Element):
    """A frame round its box; ``sticker`` follows the sticker's own shape.

    Attributes:
        figure: rectangle, rounded, oval or sticker.
        line_mm: width of the line; 0 draws none.
        colour: of the line.
        fill: colour inside; empty for none.
        inset_mm: from the box inwards to the middle of the line.
        corner_mm: radius of a rounded frame.
        dash_mm: lengths of dashes and gaps; empty for a solid line.
    """

    figure: str = "rectangle"
    line_mm: float = 0.3
    colour: str = "#000000"
    fill: str = ""
    inset_mm: float = 0.0
    corner_mm: float = 2.0
    dash_mm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class LineElement(Element):
    """A straight line from the top left to the bottom right corner of its box.

    Attributes:
        line_mm: width of the line.
        colour: of the line.
        dash_mm: lengths of dashes and gaps; empty for a solid line.
    """

    line_mm: float = 0.3
    colour: str = "#000000"
    dash_mm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeElement(Element):
    """A code to be scanned, with its clear space inside the box.

    Attributes:
        text: what stands in it, with fields in braces; a missing check digit is put on.
        symbol: qr, ean13, upca, ean8 or code128.
        module_mm: width of the narrowest bar, or of a module; 0 takes what the box allows.
        signs: what it says stands below the bars in plain letters.
        level: how much of a QR code may be damaged: L 7 %, M 15 %, Q 25 %, H 30 %.
        ladder: turned by a quarter by itself when it would bend round the vessel too much.
        colour: of bars or modules.
        ground: colour behind it and its clear space; empty for none.
    """

    text: str
    symbol: str = "qr"
    module_mm: float = 0.0
    signs: bool = True
    level: str = "M"
    ladder: bool = True
    colour: str = "#000000"
    ground: str = ""


AnyElement = TextElement | PictureElement | FrameElement | LineElement | CodeElement


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelDesign:
    """One label: its size, shape and elements from back to front.

    Attributes:
        width_mm: width of the sticker it is made for.
        height_mm: height of it.
        shape: rectangle, rounded, circle or oval.
        corner_mm: corner radius of a rounded one.
        safe_mm: text stays this far inside the edge, for the printer feeds a millimetre off.
        bleed_mm: the background runs this far over the edge.
        background: colour under everything, ``#rrggbb``; empty for the sticker's own.
        elements: what stands on it.
        kind: jar, lid, caution or tag.

    Raises:
        OutOfRange: ``label.measure``, ``label.colour`` or ``label.choice``.
    """

    width_mm: float
    height_mm: float
    shape: str = "rectangle"
    corner_mm: float = 0.0
    safe_mm: float = 2.0
    bleed_mm: float = 0.0
    background: str = ""
    elements: tuple[AnyElement, ...] = ()
    kind: str = "jar"

    def __post_init__(self) -> None:
        _check_fields(self)


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
    "shape": _one_of(SHAPES),
    "kind": _one_of(KINDS),
    "colour": _colour,
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


def _check_fields(value: Element | LabelDesign) -> None:
    for one in fields(value):
        check = _CHECKS.get(one.name)
        if check is not None:
            check(getattr(value, one.name))
