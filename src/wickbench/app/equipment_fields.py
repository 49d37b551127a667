"""Fields of the equipment, as data."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.fields import FieldSpec, choices, field
from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from collections.abc import Mapping


EQUIPMENT_NAMES: Mapping[str, str] = {
    "scale": N_("Scales"),
    "pot": N_("Pots"),
    "heat_source": N_("Heat sources"),
    "thermometer": N_("Thermometers"),
    "printer": N_("Printers"),
}
_METALS = {
    "aluminium": N_("aluminium"),
    "steel": N_("steel"),
    "glass": N_("glass"),
    "other": N_("something else"),
}
_THERMOMETERS = {
    "probe": N_("probe"),
    "infrared": N_("infrared"),
    "glass": N_("glass"),
    "other": N_("another kind"),
}
HEATERS = {
    "hotplate": N_("hot plate with a water bath"),
    "melter": N_("melter that heats the wax itself"),
}
_NOTE = N_("Notes")

EQUIPMENT_FIELDS: Mapping[str, tuple[FieldSpec, ...]] = {
    "scale": (
        field("scale", "name", N_("Name"), "text"),
        field(
            "scale",
            "maximum_g",
            N_("Maximum"),
            "mass",
            low=1,
            high=1_000_000,
            hint=N_("With the pot on it."),
        ),
        field(
            "scale",
            "step_g",
            N_("Reads to"),
            "mass",
            low=0.001,
            high=1000,
            hint=N_("The smallest step of its display, for example 1 g or 0.1 g."),
        ),
        field("scale", "note", _NOTE, "note"),
    ),
    "pot": (
        field("pot", "name", N_("Name"), "text"),
        field(
            "pot",
            "brim_ml",
            N_("Holds to the brim"),
            "volume",
            low=50,
            high=200_000,
        ),
        field(
            "pot",
            "safe_fill_percent",
            N_("Safe fill"),
            "percent",
            low=10,
            high=95,
            hint=N_("Of the brim; 75–80 % leaves room to stir."),
        ),
        field(
            "pot",
            "empty_g",
            N_("Weighs empty"),
            "mass",
            low=0,
            high=50_000,
            hint=N_("With its spoon or stirrer, if that stays in."),
        ),
        field("pot", "metal", N_("Made of"), "choice", choices=choices(_METALS)),
        field(
            "pot",
            "with_heat",
            N_("Has its own heating"),
            "yes_no",
            hint=N_("It stays on its own heat and is not put on a scale."),
        ),
        field("pot", "note", _NOTE, "note"),
    ),
    "heat_source": (
        field("heat_source", "name", N_("Name"), "text"),
        field(
            "heat_source",
            "open_flame",
            N_("Open flame"),
            "yes_no",
            hint=N_("Gas, spirit or any other flame."),
        ),
        field(
            "heat_source", "left_on_heat", N_("The pot stays on it while the oil goes in"), "yes_no"
        ),
        field("heat_source", "heater", N_("Heats as"), "choice", choices=choices(HEATERS)),
        field(
            "heat_source",
            "power_w",
            N_("Power in watts"),
            "count",
            low=1,
            high=20_000,
            hint=N_("On its rating plate. With it the plan tells how long a pot takes."),
        ),
        field(
            "heat_source",
            "bath_g",
            N_("Water in its bath"),
            "mass",
            low=0,
            high=50_000,
            hint=N_("It is heated along with the wax; a litre weighs 1 kg."),
        ),
        field("heat_source", "note", _NOTE, "note"),
    ),
    "thermometer": (
        field("thermometer", "name", N_("Name"), "text"),
        field(
            "thermometer",
            "thermometer_kind",
            N_("Kind"),
            "choice",
            choices=choices(_THERMOMETERS),
            hint=N_("An infrared one reads shiny tins far too low."),
        ),
        field(
            "thermometer",
            "reads_to_c",
            N_("Reads to, in °C"),
            "number",
            low=0.01,
            high=10,
            hint=N_("The smallest step of its display, for example 0.1."),
        ),
        field("thermometer", "note", _NOTE, "note"),
    ),
    "printer": (
        field("printer", "name", N_("Name"), "text"),
        field(
            "printer",
            "tray",
            N_("Tray"),
            "text",
            hint=N_("One entry for each tray: each feeds a little differently."),
        ),
        field(
            "printer",
            "edge_mm",
            N_("Cannot print within"),
            "length",
            low=0,
            high=30,
            hint=N_("Measured from the page’s edges."),
        ),
        field(
            "printer", "bottom_edge_mm", N_("and at the bottom within"), "length", low=0, high=40
        ),
        field("printer", "note", _NOTE, "note"),
    ),
}
