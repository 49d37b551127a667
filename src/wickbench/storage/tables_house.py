"""The workshop itself: its identity, equipment, settings, counters, drafts and attachments."""

from __future__ import annotations

from sqlalchemy import Column, Integer, LargeBinary, PrimaryKeyConstraint, Text, UniqueConstraint

from wickbench.storage.schema import flag, key, one_of, real, ref, table, text, whole

WORKSHOP = table(
    "workshop", key(), Column("file_id", Text, nullable=False), whole("made_ms"), text("made_by"),
    journalled=False,
)  # fmt: skip

SETTING = table(
    "setting", Column("name", Text, primary_key=True), text("value_json", default="null"),
    journalled=False,
)  # fmt: skip

# Numbers that leave the file (lots, prints, purchases) are never given twice, undo or not.
COUNTER = table(
    "counter", Column("name", Text, primary_key=True), Column("next", Integer, nullable=False),
    journalled=False,
)  # fmt: skip

# Text that did not parse, kept with its field until it is mended.
DRAFT = table(
    "draft", Column("kind", Text, nullable=False), Column("record", Integer, nullable=False),
    Column("field", Text, nullable=False), Column("typed", Text, nullable=False), whole("at_ms"),
    PrimaryKeyConstraint("kind", "record", "field"), journalled=False,
)  # fmt: skip

SCALE = table(
    "scale", key(), text("name", default=""), whole("maximum_mg"), whole("step_mg"), text("note"),
)  # fmt: skip

POT = table(
    "pot", key(), text("name", default=""), whole("brim_ul"), whole("empty_mg"),
    whole("safe_fill_ppm", default=800000), text("metal"), flag("with_heat"), text("note"),
)  # fmt: skip

HEAT_SOURCE = table(
    "heat_source", key(), text("name", default=""), flag("open_flame"), whole("power_w"),
    flag("left_on_heat"), text("note"), text("heater"), whole("bath_mg"),
    one_of("heater", "hotplate", "melter"),
)  # fmt: skip

THERMOMETER = table(
    "thermometer", key(), text("name", default=""), text("thermometer_kind"), text("note"),
    real("reads_to_c"),
)  # fmt: skip

# A timer rings whatever is undone, and goes on while the window is closed.
TIMER = table(
    "timer", key(), text("name", default=""), whole("started_ms"), whole("ends_ms"),
    whole("rang_ms"), journalled=False,
)  # fmt: skip

PRINTER = table(
    "printer", key(), text("name", default=""), text("tray"), whole("edge_um"),
    whole("bottom_edge_um"), text("note"),
)  # fmt: skip

BLOB = table(
    "blob", key(), Column("sha256", Text, nullable=False), text("media_type"),
    Column("data", LargeBinary, nullable=False), UniqueConstraint("sha256"), journalled=False,
)  # fmt: skip

ATTACHMENT = table(
    "attachment", key(), text("owner_kind"), whole("owner"), text("name"),
    ref("blob_id", "blob.id", required=True), text("note"),
)  # fmt: skip
