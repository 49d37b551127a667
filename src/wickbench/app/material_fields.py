"""Fields of the nine kinds of material, as data."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.fields import FieldSpec, choices, field
from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from collections.abc import Mapping

KIND_NAMES: Mapping[str, str] = {
    "wax": N_("Wax"),
    "fragrance": N_("Fragrance oil"),
    "wick": N_("Wick"),
    "dye": N_("Dye"),
    "additive": N_("Additive"),
    "lid": N_("Lid"),
    "sheet": N_("Sticker sheet"),
    "packaging": N_("Packaging"),
    "supplies": N_("Supplies"),
}
KIND_SHORT: Mapping[str, str] = {**KIND_NAMES, "fragrance": N_("Oil"), "sheet": N_("Sheet")}
"""For a column of a list."""
WAX_CLASS_NAMES: Mapping[str, str] = {
    "soy": N_("soy, container"),
    "coconut": N_("coconut blend"),
    "coconut_soy": N_("coconut and soy"),
    "rapeseed": N_("rapeseed, container"),
    "palm": N_("palm"),
    "paraffin": N_("paraffin, container"),
    "paraffin_soy": N_("paraffin and soy"),
    "beeswax": N_("beeswax"),
    "stearin": N_("stearin"),
    "other": N_("another wax"),
}
WICK_KIND_NAMES: Mapping[str, str] = {
    "cotton": N_("cotton"),
    "cotton_paper": N_("cotton with paper"),
    "paper": N_("paper core"),
    "cored": N_("cored, without lead"),
    "hemp": N_("hemp"),
    "wooden": N_("wooden"),
    "wooden_booster": N_("wooden with booster"),
}
FINISH_NAMES: Mapping[str, str] = {
    "single": N_("in one pour"),
    "top_up": N_("topped up once set"),
    "second": N_("with a second pour"),
}
BASIS_NAMES: Mapping[str, str] = {"wax": N_("of wax"), "total": N_("of total")}

_PROPERTIES = N_("Properties")
_WORKING = N_("Working with it")
_SAFETY = N_("From the safety data sheet")
_MEASURES = N_("Measures")
_ORDERING = N_("Ordering")

LEAD_FIELDS: tuple[FieldSpec, ...] = (
    field(
        "item",
        "lead_days",
        N_("Days until it arrives"),
        "days",
        group=_ORDERING,
        low=0,
        high=365,
        hint=N_("From the order until it is on the shelf; the calendar of a plan counts with it."),
    ),
    field(
        "item",
        "lead_in_workdays",
        N_("The supplier counts working days"),
        "yes_no",
        group=_ORDERING,
    ),
)
"""Of everything that is bought, vessels too."""

COMMON_FIELDS: tuple[FieldSpec, ...] = (
    field("item", "name", N_("Name"), "text"),
    field("item", "supplier", N_("Supplier"), "text"),
    field("item", "code", N_("Supplier’s number"), "text"),
)
NOTE_FIELD = field("item", "note", N_("Notes"), "note", group=N_("Notes"))

WAX_FIELDS: tuple[FieldSpec, ...] = (
    field("wax", "wax_class", N_("Class"), "choice", choices=choices(WAX_CLASS_NAMES)),
    field(
        "wax",
        "max_load_percent",
        N_("Most fragrance it holds"),
        "load",
        group=_PROPERTIES,
        low=0,
        high=30,
    ),
    field(
        "wax",
        "max_load_basis",
        N_("Counted as percent"),
        "choice",
        group=_PROPERTIES,
        choices=choices(BASIS_NAMES),
        hint=N_("As its data sheet says it."),
    ),
    field(
        "wax",
        "liquid_g_per_ml",
        N_("Density, liquid at 70 °C"),
        "density",
        group=_PROPERTIES,
        low=0.6,
        high=1.1,
        estimate=True,
    ),
    field(
        "wax", "liquid_measured", N_("I measured the liquid density"), "yes_no", group=_PROPERTIES
    ),
    field(
        "wax",
        "set_g_per_ml",
        N_("Density, set"),
        "density",
        group=_PROPERTIES,
        low=0.6,
        high=1.2,
        estimate=True,
    ),
    field("wax", "set_measured", N_("I measured the set density"), "yes_no", group=_PROPERTIES),
    field(
        "wax",
        "melts_from_c",
        N_("Melts from"),
        "temperature",
        group=_PROPERTIES,
        low=10,
        high=150,
        estimate=True,
    ),
    field(
        "wax",
        "melts_to_c",
        N_("Melts up to"),
        "temperature",
        group=_PROPERTIES,
        low=10,
        high=150,
        estimate=True,
    ),
    field(
        "wax",
        "heat_to_c",
        N_("Heat to"),
        "temperature",
        group=_WORKING,
        low=30,
        high=150,
        estimate=True,
    ),
    field(
        "wax",
        "add_oil_c",
        N_("Add oil at"),
        "temperature",
        group=_WORKING,
        low=30,
        high=150,
        estimate=True,
    ),
    field(
        "wax",
        "pour_c",
        N_("Pour at"),
        "temperature",
        group=_WORKING,
        low=25,
        high=150,
        estimate=True,
    ),
    field(
        "wax", "cure_days", N_("Cure days"), "days", group=_WORKING, low=0, high=365, estimate=True
    ),
    field(
        "wax",
        "finish",
        N_("Finished"),
        "choice",
        group=_WORKING,
        choices=choices(FINISH_NAMES),
        hint=N_("A plan holds back what is poured later."),
    ),
    field(
        "wax",
        "flash_c",
        N_("Flash point"),
        "temperature",
        group=_SAFETY,
        low=60,
        high=400,
        estimate=True,
    ),
)

FRAGRANCE_FIELDS: tuple[FieldSpec, ...] = (
    field(
        "fragrance",
        "density_g_per_ml",
        N_("Density at 20 °C"),
        "density",
        group=_PROPERTIES,
        low=0.7,
        high=1.4,
        estimate=True,
    ),
    field(
        "fragrance",
        "vanillin_percent",
        N_("Vanillin, of the oil"),
        "percent",
        group=_PROPERTIES,
        low=0,
        high=100,
        hint=N_("Above 0 it may turn the wax brown."),
    ),
    field("fragrance", "scent_family", N_("Scent family"), "text", group=_PROPERTIES),
    field(
        "fragrance", "flash_c", N_("Flash point"), "temperature", group=_SAFETY, low=-20, high=250
    ),
    field(
        "fragrance",
        "ifra_12_percent",
        N_("IFRA category 12, most in the candle"),
        "percent",
        group=_SAFETY,
        low=0,
        high=100,
        hint=N_("Percent of total. 100 % on the certificate sets no limit here."),
    ),
    field(
        "fragrance", "ifra_amendment", N_("Certificate made under amendment"), "text", group=_SAFETY
    ),
    field("fragrance", "ingredients", N_("Ingredients to name"), "note", group=_SAFETY),
)

WICK_FIELDS: tuple[FieldSpec, ...] = (
    field("wick", "wick_kind", N_("Kind"), "choice", choices=choices(WICK_KIND_NAMES)),
    field("wick", "series", N_("Series"), "text"),
    field("wick", "size", N_("Size"), "text"),
    field(
        "wick",
        "diameter_from_mm",
        N_("For inner diameters from"),
        "length",
        group=_MEASURES,
        low=5,
        high=300,
    ),
    field("wick", "diameter_to_mm", N_("to"), "length", group=_MEASURES, low=5, high=300),
    field(
        "wick",
        "trim_mm",
        N_("Trim to"),
        "length",
        group=_MEASURES,
        low=1,
        high=20,
        estimate=True,
    ),
    field(
        "wick", "neck_mm", N_("Neck of the sustainer"), "length", group=_MEASURES, low=0, high=30
    ),
    field(
        "wick",
        "width_mm",
        N_("Width"),
        "length",
        group=_MEASURES,
        low=0.5,
        high=60,
        hint=N_("Of a wooden wick."),
    ),
    field(
        "wick", "length_mm", N_("Length as bought"), "length", group=_MEASURES, low=10, high=2000
    ),
)

_FORMS = {
    "liquid": N_("liquid"),
    "chips": N_("chips"),
    "block": N_("block"),
    "powder": N_("powder"),
}
DYE_FIELDS: tuple[FieldSpec, ...] = (
    field("dye", "form", N_("Form"), "choice", choices=choices(_FORMS)),
    field("dye", "colour_name", N_("Colour"), "text"),
    field("dye", "usual_percent", N_("Usual, of wax"), "percent", group=_WORKING, low=0, high=10),
    field("dye", "max_percent", N_("Most, of wax"), "percent", group=_WORKING, low=0, high=10),
)
ADDITIVE_FIELDS: tuple[FieldSpec, ...] = (
    field("additive", "purpose", N_("What for"), "text"),
    field(
        "additive", "usual_percent", N_("Usual, of wax"), "percent", group=_WORKING, low=0, high=50
    ),
    field("additive", "max_percent", N_("Most, of wax"), "percent", group=_WORKING, low=0, high=50),
    field(
        "additive", "density_g_per_ml", N_("Density"), "density", group=_PROPERTIES, low=0.6, high=2
    ),
    field(
        "additive", "melts_c", N_("Melts at"), "temperature", group=_PROPERTIES, low=-20, high=200
    ),
)
LID_FIELDS: tuple[FieldSpec, ...] = (
    field("lid", "lid_material", N_("Made of"), "text"),
    field("lid", "fits_mm", N_("Fits an opening of"), "length", group=_MEASURES, low=10, high=300),
    field(
        "lid", "diameter_mm", N_("Its own diameter"), "length", group=_MEASURES, low=10, high=300
    ),
    field("lid", "mass_g", N_("Weighs"), "mass", group=_MEASURES, low=0, high=5000),
)
PACKAGING_FIELDS: tuple[FieldSpec, ...] = (
    field("packaging", "packaging_kind", N_("Kind"), "text", hint=N_("Box, bag, sleeve, tissue …")),
    field("packaging", "holds", N_("Candles in one"), "count", low=0, high=1000),
    field(
        "packaging", "inside_w_mm", N_("Inside width"), "length", group=_MEASURES, low=1, high=2000
    ),
    field(
        "packaging", "inside_d_mm", N_("Inside depth"), "length", group=_MEASURES, low=1, high=2000
    ),
    field(
        "packaging", "inside_h_mm", N_("Inside height"), "length", group=_MEASURES, low=1, high=2000
    ),
    field("packaging", "mass_g", N_("Weighs"), "mass", group=_MEASURES, low=0, high=20000),
)
SUPPLIES_FIELDS: tuple[FieldSpec, ...] = (
    field("supplies", "used_for", N_("Used for"), "text"),
    field("supplies", "unit", N_("Counted in"), "text", hint=N_("Pieces, rolls, bottles …")),
)

_PAGES = {"A4": N_("A4"), "Letter": N_("Letter"), "free": N_("another size")}
_SHAPES = {
    "rectangle": N_("rectangle"),
    "rounded": N_("rounded rectangle"),
    "circle": N_("circle"),
    "oval": N_("oval"),
}
SHEET_FIELDS: tuple[FieldSpec, ...] = (
    field("sheet", "page", N_("Page"), "choice", choices=choices(_PAGES)),
    field("sheet", "page_w_mm", N_("Page width"), "length", low=20, high=1000),
    field("sheet", "page_h_mm", N_("Page height"), "length", low=20, high=1500),
    field("sheet", "columns", N_("Stickers across"), "count", group=_MEASURES, low=1, high=60),
    field("sheet", "rows", N_("Stickers down"), "count", group=_MEASURES, low=1, high=100),
    field("sheet", "shape", N_("Shape"), "choice", group=_MEASURES, choices=choices(_SHAPES)),
    field(
        "sheet", "sticker_w_mm", N_("Sticker width"), "length", group=_MEASURES, low=3, high=1000
    ),
    field(
        "sheet", "sticker_h_mm", N_("Sticker height"), "length", group=_MEASURES, low=3, high=1500
    ),
    field("sheet", "left_mm", N_("Left margin"), "length", group=_MEASURES, low=0, high=500),
    field("sheet", "top_mm", N_("Top margin"), "length", group=_MEASURES, low=0, high=500),
    field(
        "sheet",
        "pitch_x_mm",
        N_("From one to the next, across"),
        "length",
        group=_MEASURES,
        low=1,
        high=1000,
    ),
    field(
        "sheet",
        "pitch_y_mm",
        N_("From one to the next, down"),
        "length",
        group=_MEASURES,
        low=1,
        high=1500,
    ),
    field("sheet", "corner_mm", N_("Corner radius"), "length", group=_MEASURES, low=0, high=100),
    field("sheet", "surface", N_("Paper"), "text", hint=N_("White matt, kraft, clear …")),
)

DETAIL_FIELDS: Mapping[str, tuple[FieldSpec, ...]] = {
    "wax": WAX_FIELDS,
    "fragrance": FRAGRANCE_FIELDS,
    "wick": WICK_FIELDS,
    "dye": DYE_FIELDS,
    "additive": ADDITIVE_FIELDS,
    "lid": LID_FIELDS,
    "sheet": SHEET_FIELDS,
    "packaging": PACKAGING_FIELDS,
    "supplies": SUPPLIES_FIELDS,
}


def fields_of(kind: str) -> tuple[FieldSpec, ...]:
    """All fields of a kind in the order they are shown."""
    return (*COMMON_FIELDS, *DETAIL_FIELDS[kind], *LEAD_FIELDS, NOTE_FIELD)
