"""What stands on the shelf: items (materials and vessels), their lots and moves."""

from __future__ import annotations

from sqlalchemy import Column, Integer

from wickbench.storage.schema import detail_key, flag, key, one_of, real, ref, table, text, whole

ITEM_KINDS = (
    "wax",
    "fragrance",
    "wick",
    "dye",
    "additive",
    "lid",
    "sheet",
    "packaging",
    "supplies",
    "vessel",
)


VESSEL_MATERIALS = (
    "glass", "metal", "ceramic", "concrete", "plastic", "silicone", "wood", "other",
)  # fmt: skip
WICK_KINDS = ("cotton", "cotton_paper", "paper", "cored", "hemp", "wooden", "wooden_booster")

# Everything bought and used up, vessels too, so that lots, stock and prices are told in one place.
ITEM = table(
    "item", key(), text("kind", default="supplies"), text("name", default=""), text("supplier"),
    text("code"), text("note"), text("colour"), flag("archived"), whole("lead_days"),
    flag("lead_in_workdays"), one_of("kind", *ITEM_KINDS),
)  # fmt: skip

WAX = table(
    "wax", detail_key(), text("wax_class"), real("liquid_g_per_ml"), flag("liquid_measured"),
    real("set_g_per_ml"), flag("set_measured"), real("melts_from_c"), real("melts_to_c"),
    whole("max_load_ppm"), text("max_load_basis"), real("heat_to_c"), real("add_oil_c"),
    real("pour_c"), whole("cure_days"), real("flash_c"), text("finish"),
    one_of("max_load_basis", "wax", "total"), one_of("finish", "single", "top_up", "second"),
)  # fmt: skip

# How the maker measured a wax of her own: hot to a line, water on set wax, or the drop of a level.
WAX_MEASUREMENT = table(
    "wax_measurement", key(), ref("wax_id", "wax.item_id", part=True), text("way", default="hot"),
    text("measured_on"), ref("vessel_id", "vessel.item_id"), whole("vessel_no"), whole("volume_ul"),
    whole("mass_mg"), real("wax_c"), whole("water_mg"), real("water_c"), whole("hot_um"),
    whole("set_um"),
    ref("scale_id", "scale.id"), flag("left_out"), text("note"),
    one_of("way", "hot", "set", "drop"),
)  # fmt: skip

FRAGRANCE = table(
    "fragrance", detail_key(), real("density_g_per_ml"), real("flash_c"), whole("ifra_12_ppm"),
    text("ifra_amendment"), whole("vanillin_ppm"), text("scent_family"), text("ingredients"),
)  # fmt: skip

WICK = table(
    "wick", detail_key(), text("wick_kind"), text("series"), text("size"),
    whole("diameter_from_um"), whole("diameter_to_um"), whole("trim_um"), whole("neck_um"),
    whole("width_um"), whole("length_um"),
    one_of("wick_kind", *WICK_KINDS),
)  # fmt: skip

DYE = table(
    "dye", detail_key(), text("form"), whole("usual_ppm"), whole("max_ppm"), text("colour_name"),
    one_of("form", "liquid", "chips", "block", "powder"),
)  # fmt: skip

ADDITIVE = table(
    "additive", detail_key(), text("purpose"), real("density_g_per_ml"), whole("usual_ppm"),
    whole("max_ppm"), real("melts_c"),
)  # fmt: skip

LID = table(
    "lid", detail_key(), text("lid_material"), whole("fits_um"), whole("diameter_um"),
    whole("mass_mg"),
)  # fmt: skip

SHEET = table(
    "sheet", detail_key(), text("page"), whole("page_w_um"), whole("page_h_um"), whole("left_um"),
    whole("top_um"), whole("columns"), whole("rows"), whole("pitch_x_um"), whole("pitch_y_um"),
    whole("sticker_w_um"), whole("sticker_h_um"), text("shape"), whole("corner_um"),
    text("surface"), text("readings_json"),
    one_of("shape", "rectangle", "rounded", "circle", "oval"),
    one_of("page", "A4", "Letter", "free"),
)  # fmt: skip

PACKAGING = table(
    "packaging", detail_key(), text("packaging_kind"), whole("holds"), whole("inside_w_um"),
    whole("inside_d_um"), whole("inside_h_um"), whole("mass_mg"),
)  # fmt: skip

SUPPLIES = table("supplies", detail_key(), text("used_for"), text("unit"))

VESSEL = table(
    "vessel", detail_key(), text("vessel_kind"), text("glass"), flag("candle_rated"),
    text("rated_by"), whole("nominal_ul"), text("nominal_text"), whole("height_um"),
    whole("fill_um"), whole("outer_height_um"), whole("outer_top_um"), whole("outer_bottom_um"),
    whole("base_um"), whole("straight_from_um"), whole("straight_to_um"), whole("empty_mg"),
    whole("cells", default=1), text("lid_text"), ref("lid_id", "item.id"),
    whole("base_fillet_um"), whole("push_up_um"),
    one_of("vessel_kind", "jar", "tin", "cup", "mould", "clamshell"),
    one_of("glass", *VESSEL_MATERIALS),
)  # fmt: skip

VESSEL_DIAMETER = table(
    "vessel_diameter", key(), ref("vessel_id", "vessel.item_id", part=True), whole("height_um"),
    whole("diameter_um"),
)  # fmt: skip

WEIGHING = table(
    "weighing", key(), ref("vessel_id", "vessel.item_id", part=True), text("level", default="line"),
    whole("vessel_no"), whole("empty_mg"), whole("filled_mg"), real("water_c"),
    ref("scale_id", "scale.id"), one_of("level", "brim", "line"),
)  # fmt: skip

PLACE = table("place", key(), text("name", default=""))

MATERIAL_LOT = table(
    "material_lot", key(), ref("item_id", "item.id", required=True), text("code"),
    text("bought_on"), whole("quantity"), whole("paid_e4"), whole("freight_e4"), text("currency"),
    whole("currency_paid_e4"), text("supplier"), text("expires_on"), text("note"), booked="1",
    free=("note", "code", "supplier", "expires_on"),
)  # fmt: skip

# quantity: milligrams for what is weighed, pieces for what is counted; signed.
STOCK_MOVE = table(
    "stock_move", key(), ref("item_id", "item.id", required=True), ref("lot_id", "material_lot.id"),
    ref("place_id", "place.id"), text("moved_on"), whole("at_ms"),
    Column("quantity", Integer, nullable=False), text("reason", default="counted"),
    ref("pour_pot_id", "pour_pot.id"), ref("corrects_id", "stock_move.id"), text("note"),
    one_of("reason", "bought", "counted", "used", "corrected", "made", "sold", "moved"), booked="1",
)  # fmt: skip
