"""What is made of it: recipes, candles, plans, pots and their weights."""

from __future__ import annotations

from sqlalchemy import Column, Integer, UniqueConstraint

from wickbench.storage.schema import flag, key, one_of, real, ref, table, text, whole

RECIPE = table(
    "recipe", key(), text("name", default=""), text("scent_words"), text("note"), flag("archived"),
)  # fmt: skip

RECIPE_VERSION = table(
    "recipe_version", key(), ref("recipe_id", "recipe.id", part=True), whole("number", default=1),
    text("state", default="idea"), flag("frozen"), whole("load_ppm"), text("load_basis"),
    real("heat_to_c"), real("add_oil_c"), real("pour_c"), whole("stir_min"), whole("cure_days"),
    text("note"), whole("made_ms"), UniqueConstraint("recipe_id", "number"),
    one_of("state", "idea", "testing", "for_sale", "retired"), one_of("load_basis", "wax", "total"),
)  # fmt: skip

# wax and fragrance in parts (thousandths of a part), dye and additive in ppm of the wax.
RECIPE_PART = table(
    "recipe_part", key(), ref("version_id", "recipe_version.id", part=True),
    whole("position", default=0), text("role", default="wax"), ref("item_id", "item.id"),
    whole("parts_milli"), whole("of_wax_ppm"),
    one_of("role", "wax", "fragrance", "dye", "additive"),
)  # fmt: skip

CANDLE = table(
    "candle", key(), text("name", default=""), text("code"), ref("version_id", "recipe_version.id"),
    ref("vessel_id", "vessel.item_id"), ref("lid_id", "item.id"), whole("declared_net_mg"),
    text("fill_to"), text("identity"), text("note"), whole("price_e4"), flag("archived"),
    ref("jar_label_id", "label.id"), ref("lid_label_id", "label.id"),
    ref("caution_label_id", "label.id"),
    one_of("fill_to", "line", "net", "set"),
)  # fmt: skip

CANDLE_WICK = table(
    "candle_wick", key(), ref("candle_id", "candle.id", part=True), whole("position", default=0),
    ref("item_id", "item.id"),
)  # fmt: skip

CANDLE_EXTRA = table(
    "candle_extra", key(), ref("candle_id", "candle.id", part=True), ref("item_id", "item.id"),
    whole("count", default=1),
)  # fmt: skip

# A verdict and what it was given on; when any of these changes the candle is to be tested again.
TEST_RECORD = table(
    "test_record", key(), ref("candle_id", "candle.id", part=True),
    text("state", default="in_test"), text("tested_by"), text("tested_on"), text("note"),
    whole("at_ms"), ref("version_id", "recipe_version.id"), ref("vessel_id", "vessel.item_id"),
    text("made_of_json"), one_of("state", "untested", "in_test", "passed", "test_again"),
)  # fmt: skip

PLAN = table(
    "plan", key(), text("name", default=""), text("pour_on"), text("note"),
    whole("extra_mg", default=0), whole("extra_ppm", default=0),
    ref("heat_source_id", "heat_source.id"), text("state", default="planned"),
    text("recorded_json"), text("needed_on"), whole("spare_days"), real("room_c"),
    whole("vessel_seconds"), one_of("state", "planned", "pouring", "poured"),
)  # fmt: skip

PLAN_LINE = table(
    "plan_line", key(), ref("plan_id", "plan.id", part=True), whole("position", default=0),
    ref("candle_id", "candle.id"), ref("version_id", "recipe_version.id"),
    ref("vessel_id", "vessel.item_id"), ref("wick_id", "item.id"), whole("wick_count"),
    whole("count"), text("fill_to", default="line"), whole("net_mg"),
    one_of("fill_to", "line", "net", "set"),
)  # fmt: skip

PLAN_POT = table(
    "plan_pot", key(), ref("plan_id", "plan.id", part=True), ref("pot_id", "pot.id", part=True),
    whole("position", default=0),
)  # fmt: skip

# A pot that is done is a booked fact, and so is what was weighed into it and filled from it.
POT_IS_DONE = "(SELECT state FROM main.pour_pot WHERE id = {row}.pour_pot_id) = 'done'"

# A pouring session as it goes; what was really weighed stays what it was.
POUR_POT = table(
    "pour_pot", key(), ref("plan_id", "plan.id", required=True), whole("number", default=1),
    ref("version_id", "recipe_version.id"), ref("pot_id", "pot.id"), text("lot_code"),
    text("poured_on"), whole("started_ms"), whole("ended_ms"), text("state", default="open"),
    text("note"), text("plan_json"), real("room_c"), one_of("state", "open", "done", "dropped"),
    booked="{row}.state = 'done'", free=("note", "ended_ms"),
)  # fmt: skip

POUR_AMOUNT = table(
    "pour_amount", key(), ref("pour_pot_id", "pour_pot.id", part=True),
    whole("position", default=0), ref("item_id", "item.id", required=True),
    text("role", default="wax"), whole("planned_mg"), whole("weighed_mg"),
    ref("scale_id", "scale.id"), whole("at_ms"),
    one_of("role", "wax", "fragrance", "dye", "additive"), booked=POT_IS_DONE,
)  # fmt: skip

POUR_FILL = table(
    "pour_fill", key(), ref("pour_pot_id", "pour_pot.id", part=True),
    ref("plan_line_id", "plan_line.id"), ref("candle_id", "candle.id"),
    ref("vessel_id", "vessel.item_id"), Column("count", Integer, nullable=False), whole("each_mg"),
    whole("poured"), booked=POT_IS_DONE,
)  # fmt: skip
