"""Label designs as frozen values: what stands where on a sticker, in millimetres from its corner.

Text may hold fields in braces, ``{candle}`` or ``{net weight}``; they are filled in at printing.
"""

from __future__ import annotations

from dataclasses import dataclass

from typing_extensions import override

from wickbench.domain.errors import OutOfRange
from wickbench.domain.label_measures import check_fields


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
        check_fields(self)


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
        curve: empty for straight lines; ``over`` runs clockwise along the top of the oval in the
            box, ``under`` along its bottom from left to right, with heads inwards.
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
    curve: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureElement(Element):
    """A picture kept in the workshop file.

    Attributes:
        picture: its key (SHA-256 of the file); empty while none is chosen.
        fit: ``contain`` shows all of it, ``cover`` fills the box, ``stretch`` bends it.
        crop_left, crop_top, crop_right, crop_bottom: part of the width or height cut off at each
            side, 0 to less than 1; opposite sides leave something.
        ink: a drawing of lines and areas (SVG) all in this one colour; empty keeps its own.
    """

    picture: str = ""
    fit: str = "contain"
    crop_left: float = 0.0
    crop_top: float = 0.0
    crop_right: float = 0.0
    crop_bottom: float = 0.0
    ink: str = ""

    @override
    def __post_init__(self) -> None:
        check_fields(self)
        across, down = self.crop_left + self.crop_right, self.crop_top + self.crop_bottom
        if max(across, down) >= 1.0:
            raise OutOfRange("label.measure", value=str(max(across, down)))


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
        corners: of a rounded frame: round, cut straight, hollow (a quarter circle inwards) or
            notched (a square inwards).
        second_mm: distance to a second, thinner line inside; 0 for none.
    """

    figure: str = "rectangle"
    line_mm: float = 0.3
    colour: str = "#000000"
    fill: str = ""
    inset_mm: float = 0.0
    corner_mm: float = 2.0
    dash_mm: tuple[float, ...] = ()
    corners: str = "round"
    second_mm: float = 0.0


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


@dataclass(frozen=True, slots=True, kw_only=True)
class OrnamentElement(Element):
    """One of our own ornaments, drawn as large as its box allows, its shape kept.

    Attributes:
        ornament: which one; an unknown word draws nothing and is told.
        colour: of all of it.
    """

    ornament: str = "sprig"
    colour: str = "#000000"


@dataclass(frozen=True, slots=True, kw_only=True)
class PictogramElement(Element):
    """A caution pictogram, as on caution stickers, as large as its box allows.

    Attributes:
        pictogram: key of its statement; an unknown one draws nothing and is told.
        colour: of its lines.
    """

    pictogram: str = "never-unattended"
    colour: str = "#000000"


@dataclass(frozen=True, slots=True, kw_only=True)
class FactsElement(Element):
    """A list of facts that change from candle to candle: a word and its value on each line.

    A line whose field is empty is left out, and told. Type shrinks until all lines fit.

    Attributes:
        facts: fields in their order.
        words: print the word before each value.
        both_systems: net weight in grams and ounces, whatever the region prints.
        family: typeface family.
        style: style of the values; the words are in the family's regular style.
        file_hash: SHA-256 of the font file when it was chosen; empty when not kept.
        size_pt: type size wanted.
        min_size_pt: smallest size it may shrink to.
        colour: of letters and lines.
        rules: a thin line between the facts.
        align: left, centre or right.
    """

    facts: tuple[str, ...] = ("net_weight", "lot", "poured_on", "burn_time", "ingredients")
    words: bool = True
    both_systems: bool = True
    family: str = "Source Sans Pro"
    style: str = "Semibold"
    file_hash: str = ""
    size_pt: float = 7.0
    min_size_pt: float = 5.0
    colour: str = "#000000"
    rules: bool = True
    align: str = "left"


AnyElement = (
    TextElement
    | PictureElement
    | FrameElement
    | LineElement
    | CodeElement
    | OrnamentElement
    | PictogramElement
    | FactsElement
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelDesign:
    """One label: its size, shape and elements from back to front.

    Attributes:
        width_mm: width of the sticker it is made for.
        height_mm: height of it.
        shape: rectangle, rounded, circle, oval, or wrap: as long as the way round the vessel.
        corner_mm: corner radius of a rounded one.
        safe_mm: text stays this far inside the edge, for the printer feeds a millimetre off.
        bleed_mm: the background runs this far over the edge.
        background: colour under everything, ``#rrggbb``; empty for the sticker's own.
        elements: what stands on it.
        kind: jar, lid, caution or tag.
        wrap_bottom_mm: of a wrap: outer diameter of the vessel at the label's lower edge.
        wrap_top_mm: at its upper edge; another than below makes it a piece of a ring, of which
            width is measured along the middle line and height along the wall.
        overlap_mm: of a wrap: how far its beginning covers its end; nothing is printed there.

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
    wrap_bottom_mm: float = 0.0
    wrap_top_mm: float = 0.0
    overlap_mm: float = 0.0

    def __post_init__(self) -> None:
        check_fields(self)
