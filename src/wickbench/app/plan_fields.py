"""Fields of a pour plan and its lines, as data."""

from __future__ import annotations

from wickbench.app.fields import FieldSpec, choices, field
from wickbench.app.recipe_fields import FILL_NAMES
from wickbench.app.texts_marker import N_

PLAN_FIELDS: tuple[FieldSpec, ...] = (
    field("plan", "name", N_("Name"), "text"),
    field("plan", "pour_on", N_("Pour on"), "date"),
    field("plan", "extra_g", N_("Extra per pot"), "mass", low=0, high=20_000),
    field("plan", "extra_percent", N_("and % of the mix"), "percent", low=0, high=50),
    field("plan", "needed_on", N_("Needed by"), "date"),
    field("plan", "spare_days", N_("Ready so many days before"), "days", low=0, high=60),
    field("plan", "heat_source_id", N_("Heat"), "reference", refers_to="heat_source"),
    field("plan", "note", N_("Notes"), "note"),
)

LINE_FIELDS: tuple[FieldSpec, ...] = (
    field("plan_line", "candle_id", N_("Candle"), "reference", refers_to="candle"),
    field("plan_line", "version_id", N_("Recipe"), "reference", refers_to="version"),
    field("plan_line", "vessel_id", N_("Vessel"), "reference", refers_to="vessel"),
    field("plan_line", "wick_id", N_("Wick"), "reference", refers_to="wick"),
    field("plan_line", "wick_count", N_("Wicks"), "count", low=0, high=3),
    field("plan_line", "count", N_("Count"), "count", low=0, high=5000),
    field("plan_line", "fill_to", N_("Fill"), "choice", choices=choices(FILL_NAMES)),
    field("plan_line", "net_g", N_("Net weight"), "mass", low=0.5, high=25_000),
)
