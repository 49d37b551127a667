"""Fields of recipes, their versions and parts, and of candles, as data."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.fields import FieldSpec, choices, field
from wickbench.app.material_fields import BASIS_NAMES
from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from collections.abc import Mapping


STATE_NAMES: Mapping[str, str] = {
    "idea": N_("idea"),
    "testing": N_("testing"),
    "for_sale": N_("for sale"),
    "retired": N_("retired"),
}
TEST_STATE_NAMES: Mapping[str, str] = {
    "untested": N_("untested"),
    "in_test": N_("in test"),
    "passed": N_("passed"),
    "test_again": N_("test again"),
}
FILL_NAMES: Mapping[str, str] = {
    "line": N_("to the fill line"),
    "set": N_("set at the line"),
    "net": N_("to a net weight"),
}
_HEAT = N_("Temperatures and time")

RECIPE_FIELDS: tuple[FieldSpec, ...] = (
    field("recipe", "name", N_("Name"), "text"),
    field("recipe", "scent_words", N_("Scent in words"), "text", hint=N_("For labels and lists.")),
)
RECIPE_NOTE = field("recipe", "note", N_("About the recipe"), "note")

VERSION_FIELDS: tuple[FieldSpec, ...] = (
    field("recipe_version", "state", N_("State"), "choice", choices=choices(STATE_NAMES)),
    field("recipe_version", "load_percent", N_("Fragrance load"), "load", low=0, high=50),
    field(
        "recipe_version",
        "load_basis",
        N_("Counted as percent"),
        "choice",
        choices=choices(BASIS_NAMES),
    ),
    field(
        "recipe_version",
        "heat_to_c",
        N_("Heat to"),
        "temperature",
        group=_HEAT,
        low=30,
        high=150,
        estimate=True,
    ),
    field(
        "recipe_version",
        "add_oil_c",
        N_("Add oil at"),
        "temperature",
        group=_HEAT,
        low=30,
        high=150,
        estimate=True,
    ),
    field(
        "recipe_version", "stir_min", N_("Stir for minutes"), "count", group=_HEAT, low=0, high=60
    ),
    field(
        "recipe_version",
        "pour_c",
        N_("Pour at"),
        "temperature",
        group=_HEAT,
        low=25,
        high=150,
        estimate=True,
    ),
    field(
        "recipe_version",
        "cure_days",
        N_("Cure days"),
        "days",
        group=_HEAT,
        low=0,
        high=365,
        estimate=True,
    ),
    field("recipe_version", "note", N_("About this version"), "note"),
)

PARTS_FIELDS: Mapping[str, tuple[FieldSpec, ...]] = {
    role: (
        field("recipe_part", "item_id", label, "reference", refers_to=role),
        field("recipe_part", amount, amount_label, kind, low=0, high=high),
    )
    for role, label, amount, amount_label, kind, high in (
        ("wax", N_("Wax"), "parts", N_("Parts"), "number", 1_000_000),
        ("fragrance", N_("Fragrance oil"), "parts", N_("Parts"), "number", 1_000_000),
        ("dye", N_("Dye"), "of_wax_percent", N_("Of wax"), "percent", 10),
        ("additive", N_("Additive"), "of_wax_percent", N_("Of wax"), "percent", 50),
    )
}

_LABELS = N_("Labels")

CANDLE_FIELDS: tuple[FieldSpec, ...] = (
    field("candle", "name", N_("Name"), "text"),
    field("candle", "code", N_("Code"), "text", hint=N_("Your own short code.")),
    field("candle", "version_id", N_("Recipe"), "reference", refers_to="version"),
    field("candle", "vessel_id", N_("Vessel"), "reference", refers_to="vessel"),
    field("candle", "lid_id", N_("Lid"), "reference", refers_to="lid"),
    field("candle", "fill_to", N_("Fill"), "choice", choices=choices(FILL_NAMES)),
    field("candle", "declared_net_g", N_("Declared net weight"), "mass", low=0.5, high=25_000),
    field(
        "candle",
        "identity",
        N_("What it is, on the label"),
        "text",
        hint=N_("For example “scented soy candle”."),
    ),
    field("candle", "price_money", N_("Price"), "money", low=0, high=100_000),
    field(
        "candle", "jar_label_id", N_("Jar label"), "reference", refers_to="jar_label", group=_LABELS
    ),
    field(
        "candle", "lid_label_id", N_("Lid label"), "reference", refers_to="lid_label", group=_LABELS
    ),
    field(
        "candle",
        "caution_label_id",
        N_("Caution sticker"),
        "reference",
        refers_to="caution_label",
        group=_LABELS,
    ),
    field("candle", "note", N_("Notes"), "note", group=N_("Notes")),
)
