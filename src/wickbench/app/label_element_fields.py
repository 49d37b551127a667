"""Fields of what stands on a label, and of the label itself, as data."""

from __future__ import annotations

from dataclasses import fields as dataclass_fields
from typing import TYPE_CHECKING, Final

from wickbench.app.drawing_words import ORNAMENT_WORDS, PICTOGRAM_WORDS
from wickbench.app.fields import FieldSpec, choices, field
from wickbench.app.label_curves import fields_that_act
from wickbench.app.label_values import FIELD_WORDS
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import OutOfRange
from wickbench.domain.labels import (
    CodeElement,
    FactsElement,
    FrameElement,
    LabelDesign,
    OrnamentElement,
    PictogramElement,
    PictureElement,
    TextElement,
)

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickbench.app.texts import Texts
    from wickbench.domain.labels import AnyElement

_TABLE: Final = "label_element"
_LOOK: Final = N_("Look")
_PLACE: Final = N_("Place")
_TYPE: Final = N_("Typeface")
_CROP: Final = N_("Cut off")
_LONGEST_MM: Final = 1000.0

_ALIGN: Final = {"left": N_("left"), "centre": N_("centred"), "right": N_("right")}
_VERTICAL: Final = {"top": N_("at the top"), "middle": N_("in the middle"), "bottom": N_("below")}
_CURVE: Final = {
    "": N_("straight"),
    "over": N_("round the top"),
    "under": N_("round the bottom"),
}
_FIT: Final = {
    "contain": N_("show all of it"),
    "cover": N_("fill the box"),
    "stretch": N_("stretch to the box"),
}
_FIGURE: Final = {
    "sticker": N_("follows the sticker"),
    "rectangle": N_("rectangle"),
    "rounded": N_("rounded"),
    "oval": N_("oval"),
}

_SYMBOL: Final = {
    "qr": N_("QR code"),
    "ean13": N_("EAN-13"),
    "upca": N_("UPC-A"),
    "ean8": N_("EAN-8"),
    "code128": N_("Code 128"),
}
_LEVEL: Final = {
    "L": N_("7 % (low)"),
    "M": N_("15 % (medium)"),
    "Q": N_("25 % (quartile)"),
    "H": N_("30 % (high)"),
}

PLACE_FIELDS: Final = (
    field(_TABLE, "x_mm", N_("From the left"), "length", group=_PLACE),
    field(_TABLE, "y_mm", N_("From the top"), "length", group=_PLACE),
    field(_TABLE, "w_mm", N_("Width"), "length", group=_PLACE, low=0, high=_LONGEST_MM),
    field(_TABLE, "h_mm", N_("Height"), "length", group=_PLACE, low=0, high=_LONGEST_MM),
    field(_TABLE, "turn_deg", N_("Turned by degrees"), "number", group=_PLACE, low=-360, high=360),
)
_COLOUR: Final = field(_TABLE, "colour", N_("Colour"), "text", group=_LOOK)
_LINE: Final = field(_TABLE, "line_mm", N_("Line width"), "length", group=_LOOK, low=0, high=20)


def text_fields(families: Sequence[str], styles: Sequence[str]) -> tuple[FieldSpec, ...]:
    """Fields of a text, with the typefaces that can be chosen."""
    return (
        field(_TABLE, "text", N_("Text"), "note"),
        field(
            _TABLE, "family", N_("Typeface"), "choice", group=_TYPE,
            choices=choices({name: name for name in families}),
        ),
        field(
            _TABLE, "style", N_("Style"), "choice", group=_TYPE,
            choices=choices({name: name for name in styles}),
        ),
        field(_TABLE, "size_pt", N_("Size in points"), "number", group=_TYPE, low=1, high=500),
        field(_TABLE, "min_size_pt", N_("Shrinks to fit, down to"), "number", group=_TYPE,
              low=1, high=500),
        field(_TABLE, "upper", N_("In capitals"), "yes_no", group=_TYPE),
        field(_TABLE, "wrap", N_("May take several lines"), "yes_no", group=_TYPE),
        field(_TABLE, "letter_spacing_em", N_("Space between letters, in ems"), "number",
              group=_TYPE, low=-0.5, high=5),
        field(_TABLE, "leading", N_("Line distance, times the size"), "number", group=_TYPE,
              low=0.5, high=5),
        field(_TABLE, "curve", N_("Lines run"), "choice", group=_LOOK, choices=choices(_CURVE),
              hint=N_("Round the oval in its box; a square box makes it a circle.")),
        field(_TABLE, "align", N_("Lines stand"), "choice", group=_LOOK, choices=choices(_ALIGN)),
        field(_TABLE, "vertical", N_("and in the box"), "choice", group=_LOOK,
              choices=choices(_VERTICAL)),
        _COLOUR,
        *PLACE_FIELDS,
    )  # fmt: skip


_CORNERS: Final = {
    "round": N_("round"),
    "cut": N_("cut off"),
    "hollow": N_("hollow"),
    "notched": N_("notched"),
}


def _crop(name: str, label: str) -> FieldSpec:
    return field(_TABLE, name, label, "percent", group=_CROP, low=0, high=95)


_OWN_FACTS: Final = (
    field(_TABLE, "words", N_("With the word before each value"), "yes_no", group=_LOOK),
    field(_TABLE, "both_systems", N_("Net weight in grams and ounces"), "yes_no", group=_LOOK),
    field(_TABLE, "rules", N_("With lines between"), "yes_no", group=_LOOK),
    field(_TABLE, "align", N_("Values stand"), "choice", group=_LOOK, choices=choices(_ALIGN)),
    _COLOUR,
)


def facts_fields(families: Sequence[str], styles: Sequence[str]) -> tuple[FieldSpec, ...]:
    """Fields of a frame of facts, with the typefaces that can be chosen."""
    names = ("family", "style", "size_pt", "min_size_pt")
    typeface = tuple(one for one in text_fields(families, styles) if one.name in names)
    return (*_OWN_FACTS, *typeface, *PLACE_FIELDS)


OTHER_FIELDS: Final[Mapping[str, tuple[FieldSpec, ...]]] = {
    "picture": (
        field(
            _TABLE, "fit", N_("In its box"), "choice", group=_LOOK, choices=choices(_FIT)
        ),
        field(_TABLE, "ink", N_("All in one colour"), "text", group=_LOOK,
              hint=N_("For a drawing (SVG): #rrggbb; empty keeps its own. White stays white.")),
        _crop("crop_left", N_("Cut off at the left, of the width")),
        _crop("crop_right", N_("Cut off at the right, of the width")),
        _crop("crop_top", N_("Cut off above, of the height")),
        _crop("crop_bottom", N_("Cut off below, of the height")),
        *PLACE_FIELDS,
    ),
    "frame": (
        field(_TABLE, "figure", N_("Shape"), "choice", group=_LOOK, choices=choices(_FIGURE)),
        _LINE,
        _COLOUR,
        field(_TABLE, "fill", N_("Filled with"), "text", group=_LOOK),
        field(_TABLE, "inset_mm", N_("Drawn in by"), "length", group=_LOOK, low=0, high=100),
        field(_TABLE, "corners", N_("Corners of a rounded frame"), "choice", group=_LOOK,
              choices=choices(_CORNERS)),
        field(_TABLE, "corner_mm", N_("Size of the corners"), "length", group=_LOOK,
              low=0, high=100),
        field(_TABLE, "second_mm", N_("Distance of a second, finer line"), "length", group=_LOOK,
              low=0, high=20, hint=N_("0 draws one line only.")),
        *PLACE_FIELDS,
    ),
    "line": (_LINE, _COLOUR, *PLACE_FIELDS),
    "ornament": (_COLOUR, *PLACE_FIELDS),
    "pictogram": (_COLOUR, *PLACE_FIELDS),
    "code": (
        field(_TABLE, "symbol", N_("Kind of code"), "choice", choices=choices(_SYMBOL)),
        field(_TABLE, "text", N_("What it says"), "text",
              hint=N_("Digits, or a field in braces such as {{lot}} or {{web}}.")),
        field(_TABLE, "signs", N_("With plain letters below the bars"), "yes_no", group=_LOOK),
        field(_TABLE, "level", N_("Readable with so much damaged"), "choice", group=_LOOK,
              choices=choices(_LEVEL)),
        field(_TABLE, "module_mm", N_("Narrowest bar or module"), "length", group=_LOOK,
              low=0, high=5, hint=N_("0 makes it as large as its box allows.")),
        field(_TABLE, "ladder", N_("Turn it when the vessel bends it too much"), "yes_no",
              group=_LOOK),
        _COLOUR,
        field(_TABLE, "ground", N_("Ground behind it"), "text", group=_LOOK),
        *PLACE_FIELDS,
    ),
}  # fmt: skip

LABEL_FIELDS: Final = (
    field("label", "name", N_("Name of the label"), "text"),
    field("label", "safe_mm", N_("Text stays from the edge"), "length", low=0, high=30),
    field("label", "background", N_("Ground colour"), "text"),
    field("label", "bleed_mm", N_("Ground runs over the edge"), "length", low=0, high=10),
)

ELEMENT_WORDS: Final[Mapping[str, str]] = {
    "text": N_("Text"),
    "picture": N_("Picture"),
    "frame": N_("Frame"),
    "line": N_("Line"),
    "code": N_("Code to scan"),
    "ornament": N_("Ornament"),
    "pictogram": N_("Caution drawing"),
    "facts": N_("Frame of facts"),
}


_PARTS: Final = frozenset({"crop_left", "crop_right", "crop_top", "crop_bottom"})
_WHOLE: Final = 100.0


def shown_values(value: AnyElement | LabelDesign) -> dict[str, object]:
    """Values of an element or design as a form shows them: yes and no as 1 and 0, parts as %."""
    found = {one.name: getattr(value, one.name) for one in dataclass_fields(value)}
    shown = {name: int(one) if isinstance(one, bool) else one for name, one in found.items()}
    return {name: one * _WHOLE if name in _PARTS else one for name, one in shown.items()}


def stored_value(value: AnyElement | LabelDesign, name: str, typed: object) -> object:
    """A form's value as the element or design keeps it.

    Raises:
        OutOfRange: an empty field that needs a measure.
    """
    now = getattr(value, name)
    if isinstance(now, bool):
        return bool(typed)
    if isinstance(now, str):
        return str(typed or "")
    if name in _PARTS and isinstance(typed, int | float | None):
        return (typed or 0.0) / _WHOLE
    if typed is None:
        raise OutOfRange("label.measure-missing")
    return typed


def element_words(element: AnyElement, texts: Texts) -> str:
    """What an element is, for the list: its text, its drawing, its facts; else nothing."""
    said = ""
    if isinstance(element, TextElement | CodeElement):
        said = " ".join(element.text.split())
    elif isinstance(element, OrnamentElement):
        said = texts(ORNAMENT_WORDS.get(element.ornament, element.ornament))
    elif isinstance(element, PictogramElement):
        said = texts(PICTOGRAM_WORDS.get(element.pictogram, element.pictogram))
    elif isinstance(element, FactsElement):
        said = ", ".join(texts(FIELD_WORDS.get(name, name)) for name in element.facts)
    return said


def shown_fields(
    element: AnyElement, names: frozenset[str], *, is_drawing: bool = False
) -> frozenset[str]:
    """The fields of a form that act on an element as it is now.

    Args:
        element: as it is stored.
        names: of all fields of its form.
        is_drawing: its picture is an SVG, which can be printed in one colour.
    """
    names = fields_that_act(element, names)
    if isinstance(element, PictureElement) and not is_drawing:
        return names - {"ink"}
    if isinstance(element, FrameElement) and element.figure != "rounded":
        return names - {"corners", "corner_mm"}
    return names
