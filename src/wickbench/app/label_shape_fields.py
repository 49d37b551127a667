"""Fields of a label's size and shape, as data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.fields import choices, field
from wickbench.app.texts_marker import N_
from wickbench.domain.wrap_fit import USUAL_OVERLAP_MM

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.domain.labels import LabelDesign

_TABLE: Final = "label_version"
_LONGEST_MM: Final = 1000.0
_WIDEST_MM: Final = 500.0

SHAPE_WORDS: Final[Mapping[str, str]] = {
    "rectangle": N_("rectangle"),
    "rounded": N_("rounded"),
    "circle": N_("circle"),
    "oval": N_("oval"),
    "wrap": N_("wrap, round the vessel"),
}

SHAPE_FIELDS: Final = (
    field(_TABLE, "shape", N_("Shape"), "choice", choices=choices(SHAPE_WORDS)),
    field(_TABLE, "width_mm", N_("Width"), "length", low=1, high=_LONGEST_MM),
    field(_TABLE, "height_mm", N_("Height"), "length", low=1, high=_LONGEST_MM),
    field(_TABLE, "corner_mm", N_("Corner radius"), "length", low=0, high=100),
    field(
        _TABLE,
        "wrap_top_mm",
        N_("Vessel’s diameter at its upper edge"),
        "length",
        low=0,
        high=_WIDEST_MM,
    ),
    field(
        _TABLE,
        "wrap_bottom_mm",
        N_("Vessel’s diameter at its lower edge"),
        "length",
        low=0,
        high=_WIDEST_MM,
        hint=N_("Outer diameters. Where they differ it is printed as a curved piece."),
    ),
    field(
        _TABLE,
        "overlap_mm",
        N_("Overlap at the seam"),
        "length",
        low=0,
        high=100,
        hint=N_("5 to 6 mm are usual; its beginning covers this much of its end."),
    ),
)
_OF_WRAPS: Final = frozenset({"wrap_top_mm", "wrap_bottom_mm", "overlap_mm"})
_OF_ROUNDED: Final = frozenset({"corner_mm"})


def shape_fields_of(design: LabelDesign) -> frozenset[str]:
    """Names of the fields that a label of this shape has."""
    names = frozenset(spec.name for spec in SHAPE_FIELDS) - _OF_WRAPS - _OF_ROUNDED
    if design.shape == "wrap":
        return names | _OF_WRAPS
    return names | _OF_ROUNDED if design.shape == "rounded" else names


def shape_changes(design: LabelDesign, name: str, value: object) -> dict[str, object]:
    """What changes with a field: a label that becomes a wrap gets the usual overlap.

    The overlap is added to its length, so that what is printed stays as long.
    """
    if name == "shape" and value == "wrap" and design.shape != "wrap":
        wide = design.width_mm + USUAL_OVERLAP_MM - design.overlap_mm
        return {name: value, "overlap_mm": USUAL_OVERLAP_MM, "width_mm": wide}
    if name == "shape" and design.shape == "wrap" and value != "wrap":
        wide = design.width_mm - design.overlap_mm
        return {name: value, "overlap_mm": 0.0, "width_mm": wide}
    if name == "overlap_mm" and isinstance(value, int | float):
        return {name: value, "width_mm": design.width_mm + value - design.overlap_mm}
    return {name: value}
