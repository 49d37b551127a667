"""Labels, their versions and elements, print runs and what was printed."""

from __future__ import annotations

from sqlalchemy import Column, Integer, UniqueConstraint

from wickbench.storage.schema import flag, key, one_of, ref, table, text, whole

LABEL = table(
    "label", key(), text("name", default=""), text("kind", default="jar"), text("note"),
    flag("archived"), one_of("kind", "jar", "lid", "caution", "tag"),
)  # fmt: skip

LABEL_VERSION = table(
    "label_version", key(), ref("label_id", "label.id", part=True), whole("number", default=1),
    flag("frozen"), whole("width_um"), whole("height_um"), text("shape", default="rectangle"),
    whole("corner_um"), whole("safe_um"), whole("bleed_um"), text("background"),
    text("properties_json"), whole("wrap_bottom_um"), whole("wrap_top_um"), whole("overlap_um"),
    UniqueConstraint("label_id", "number"),
    one_of("shape", "rectangle", "rounded", "circle", "oval", "wrap"),
)  # fmt: skip

# properties_json carries its own version; pictures refer to blob.sha256 in it.
LABEL_ELEMENT = table(
    "label_element", key(), ref("version_id", "label_version.id", part=True),
    whole("position", default=0), text("kind", default="text"), whole("x_um"), whole("y_um"),
    whole("w_um"), whole("h_um"), whole("turn_mdeg", default=0),
    text("properties_json", default="{}"),
    one_of("kind", "text", "picture", "frame", "line", "code", "pictogram", "ornament", "facts"),
)  # fmt: skip

# A finding that a person has looked at and leaves as it is, with the reason.
SET_ASIDE = table(
    "set_aside", key(), ref("label_id", "label.id", part=True), ref("candle_id", "candle.id"),
    text("finding", default=""), text("about_json"), text("note"), text("set_on"),
)  # fmt: skip

# A sheet with stickers gone; used_json holds their numbers from 0.
BEGUN_SHEET = table(
    "begun_sheet", key(), ref("sheet_id", "sheet.item_id", part=True), text("used_json"),
    text("note"),
)  # fmt: skip

# left_out_json: begun sheets that this run does not take.
PRINT_RUN = table(
    "print_run", key(), text("name", default=""), ref("sheet_id", "sheet.item_id"),
    text("left_out_json"), text("printer"), text("tray"), text("note"), ref("plan_id", "plan.id"),
    text("sorted_by", default="line"), one_of("sorted_by", "line", "lot", "set"),
)  # fmt: skip

PRINT_LINE = table(
    "print_line", key(), ref("run_id", "print_run.id", part=True), whole("position", default=0),
    ref("label_id", "label.id"), ref("candle_id", "candle.id"), text("lot_code"), text("poured_on"),
    whole("count"), ref("pour_pot_id", "pour_pot.id"), whole("first_number"),
)  # fmt: skip

# What went to paper, whole and unchanging: never journalled.
PRINT_RECORD = table(
    "print_record", key(), Column("at_ms", Integer, nullable=False), text("kind", default="labels"),
    text("title"), text("snapshot_json", default="{}"), text("file_name"), text("sha256"),
    journalled=False,
)  # fmt: skip

CALIBRATION = table(
    "calibration", key(), text("machine"), text("printer"), text("tray"), text("measured_on"),
    text("points_json"),
)  # fmt: skip
