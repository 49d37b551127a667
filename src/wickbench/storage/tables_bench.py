"""What is noted at the bench beside the weights: heatings, temperatures, leftovers, checks."""

from __future__ import annotations

from wickbench.storage.schema import flag, key, one_of, real, ref, table, text, whole
from wickbench.storage.tables_making import POT_IS_DONE

# A heating that was timed; the heat is kept as it was computed then.
HEATING = table(
    "heating", key(), ref("heat_source_id", "heat_source.id"), ref("pour_pot_id", "pour_pot.id"),
    text("logged_on"), whole("heat_j"), whole("power_w"), real("from_c"), real("to_c"),
    whole("started_ms"), whole("seconds"), flag("left_out"), text("note"),
)  # fmt: skip

TEMPERATURE_READING = table(
    "temperature_reading", key(), ref("pour_pot_id", "pour_pot.id", part=True), whole("at_ms"),
    real("read_c"),
)  # fmt: skip

# Mix that was left in a pot or scooped out of vessels, material by material.
LEFTOVER = table(
    "leftover", key(), text("name", default=""), text("source", default="pot"),
    ref("version_id", "recipe_version.id"), ref("pour_pot_id", "pour_pot.id"), text("kept_on"),
    flag("archived"), text("note"), one_of("source", "pot", "scooped", "other"),
)  # fmt: skip

LEFTOVER_PART = table(
    "leftover_part", key(), ref("leftover_id", "leftover.id", part=True),
    whole("position", default=0), ref("item_id", "item.id", required=True),
    text("role", default="wax"), whole("mass_mg"),
    one_of("role", "wax", "fragrance", "dye", "additive"),
)  # fmt: skip

# What a plan means to use of a leftover, in the pots of one recipe version.
PLAN_LEFTOVER = table(
    "plan_leftover", key(), ref("plan_id", "plan.id", part=True), whole("position", default=0),
    ref("leftover_id", "leftover.id", required=True), ref("version_id", "recipe_version.id"),
    whole("mass_mg"),
)  # fmt: skip

POUR_LEFTOVER = table(
    "pour_leftover", key(), ref("pour_pot_id", "pour_pot.id", part=True),
    whole("position", default=0), ref("leftover_id", "leftover.id", required=True),
    whole("planned_mg"), whole("weighed_mg"), whole("at_ms"), booked=POT_IS_DONE,
)  # fmt: skip

# A vessel filled with leftovers, one above the other: a candle of its own kind.
LAYERED = table(
    "layered", key(), text("name", default=""), ref("vessel_id", "vessel.item_id"),
    ref("candle_id", "candle.id"), whole("count", default=1), text("made_on"), text("note"),
)  # fmt: skip

LAYER = table(
    "layer", key(), ref("layered_id", "layered.id", part=True), whole("position", default=0),
    ref("leftover_id", "leftover.id", required=True), whole("mass_mg"),
)  # fmt: skip

# Filled candles weighed against their declared net weight; the tare says whose it is.
NET_CHECK = table(
    "net_check", key(), ref("candle_id", "candle.id", part=True), text("checked_on"),
    whole("vessel_no"), whole("empty_mg"), flag("own_tare"), whole("filled_mg"),
    ref("scale_id", "scale.id"), ref("pour_pot_id", "pour_pot.id"), text("note"),
)  # fmt: skip
