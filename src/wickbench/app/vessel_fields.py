"""Fields of a vessel and of its small tables, as data."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.fields import FieldSpec, choices, field
from wickbench.app.material_fields import LEAD_FIELDS
from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from collections.abc import Mapping

VESSEL_KIND_NAMES: Mapping[str, str] = {
    "jar": N_("jar"),
    "tin": N_("tin"),
    "cup": N_("cup"),
    "mould": N_("mould"),
    "clamshell": N_("clamshell"),
}
GLASS_NAMES: Mapping[str, str] = {
    "glass": N_("glass"),
    "metal": N_("metal"),
    "ceramic": N_("ceramic"),
    "concrete": N_("concrete"),
    "plastic": N_("plastic"),
    "silicone": N_("silicone"),
    "wood": N_("wood"),
    "other": N_("something else"),
}
LEVEL_NAMES: Mapping[str, str] = {"line": N_("fill line"), "brim": N_("brim")}
_INSIDE = N_("Inside, from the base up")
_OUTSIDE = N_("Outside")


VESSEL_FIELDS: tuple[FieldSpec, ...] = (
    field("item", "name", N_("Name"), "text"),
    field("vessel", "vessel_kind", N_("Kind"), "choice", choices=choices(VESSEL_KIND_NAMES)),
    field("vessel", "glass", N_("Made of"), "choice", choices=choices(GLASS_NAMES)),
    field("vessel", "candle_rated", N_("Rated for candles"), "yes_no"),
    field(
        "vessel",
        "rated_by",
        N_("Rated by"),
        "text",
        hint=N_("Who says so: its maker, the dealer, a test report."),
    ),
    field("item", "supplier", N_("Supplier"), "text"),
    field("item", "code", N_("Supplier’s number"), "text"),
    field("vessel", "nominal_ml", N_("Size on the box"), "volume", low=1, high=20000),
    field(
        "vessel", "cells", N_("Cells"), "count", low=1, high=100, hint=N_("More than 1 for melts.")
    ),
    field(
        "vessel", "height_mm", N_("Height to the brim"), "length", group=_INSIDE, low=3, high=1000
    ),
    field("vessel", "fill_mm", N_("Fill line (hot)"), "length", group=_INSIDE, low=1, high=1000),
    field(
        "vessel",
        "base_fillet_mm",
        N_("Rounding at the base"),
        "length",
        group=_INSIDE,
        low=0,
        high=200,
        hint=N_("Radius of the corner between base and wall; empty for a sharp one."),
    ),
    field(
        "vessel",
        "push_up_mm",
        N_("Base bulges up by"),
        "length",
        group=_INSIDE,
        low=0,
        high=200,
        hint=N_("How much higher the middle of the base stands than its edge."),
    ),
    field("vessel", "base_mm", N_("Base diameter"), "length", group=_OUTSIDE, low=5, high=500),
    field("vessel", "outer_height_mm", N_("Height"), "length", group=_OUTSIDE, low=3, high=1000),
    field(
        "vessel",
        "outer_top_mm",
        N_("Diameter at the top"),
        "length",
        group=_OUTSIDE,
        low=5,
        high=500,
    ),
    field(
        "vessel",
        "outer_bottom_mm",
        N_("Diameter at the bottom"),
        "length",
        group=_OUTSIDE,
        low=5,
        high=500,
    ),
    field(
        "vessel",
        "straight_from_mm",
        N_("Straight for labels from"),
        "length",
        group=_OUTSIDE,
        low=0,
        high=1000,
    ),
    field("vessel", "straight_to_mm", N_("to"), "length", group=_OUTSIDE, low=0, high=1000),
    field("vessel", "lid_id", N_("Lid"), "reference", refers_to="lid", group=_OUTSIDE),
    *LEAD_FIELDS,
    field("item", "note", N_("Notes"), "note", group=N_("Notes")),
)

DIAMETER_FIELDS: tuple[FieldSpec, ...] = (
    field("vessel_diameter", "height_mm", N_("At height"), "length", low=0, high=1000),
    field("vessel_diameter", "diameter_mm", N_("Inner diameter"), "length", low=1, high=500),
)

OWN_TARE_NAMES: Mapping[str, str] = {"1": N_("its own"), "0": N_("an average")}

NET_CHECK_FIELDS: tuple[FieldSpec, ...] = (
    field("net_check", "vessel_no", N_("Jar"), "count", low=1, high=9999),
    field(
        "net_check",
        "empty_g",
        N_("Empty"),
        "mass",
        low=0,
        high=50000,
        hint=N_("With its wick; 0 when it was poured on the scale, zeroed with this jar on it."),
    ),
    field(
        "net_check",
        "own_tare",
        N_("That is"),
        "yes_no",
        choices=choices(OWN_TARE_NAMES),
        hint=N_("Whether this very jar was weighed empty, or an average stands for it."),
    ),
    field("net_check", "filled_g", N_("Filled"), "mass", low=0, high=50000),
)

WEIGHING_FIELDS: tuple[FieldSpec, ...] = (
    field("weighing", "level", N_("To the"), "choice", choices=choices(LEVEL_NAMES)),
    field("weighing", "vessel_no", N_("Jar"), "count", low=1, high=999),
    field("weighing", "empty_g", N_("Empty"), "mass", low=0, high=50000),
    field("weighing", "filled_g", N_("With water"), "mass", low=0, high=50000),
    field("weighing", "water_c", N_("Water"), "temperature", low=0, high=40),
    field("weighing", "scale_id", N_("Weighed on"), "reference", refers_to="scale"),
)
