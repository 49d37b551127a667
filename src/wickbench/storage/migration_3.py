"""Version 3: begun sheets, findings set aside, wraps, and which labels a candle wears."""

from __future__ import annotations

from typing import Final

from wickbench.storage.migration_2_redrawn import anew

NEW: Final[tuple[str, ...]] = (
    """CREATE TABLE begun_sheet (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    sheet_id INTEGER NOT NULL,
    used_json TEXT,
    note TEXT,
    CONSTRAINT fk_begun_sheet_sheet_id FOREIGN KEY(sheet_id) REFERENCES sheet (item_id) ON
        DELETE CASCADE
)
 STRICT""",
    "CREATE INDEX ix_begun_sheet_sheet_id ON begun_sheet (sheet_id)",
    """CREATE TABLE set_aside (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    label_id INTEGER NOT NULL,
    candle_id INTEGER,
    finding TEXT DEFAULT '' NOT NULL,
    about_json TEXT,
    note TEXT,
    set_on TEXT,
    CONSTRAINT ck_set_aside_set_on_date CHECK (set_on IS NULL OR set_on GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    CONSTRAINT fk_set_aside_label_id FOREIGN KEY(label_id) REFERENCES label (id) ON DELETE
        CASCADE,
    CONSTRAINT fk_set_aside_candle_id FOREIGN KEY(candle_id) REFERENCES candle (id) ON DELETE
        RESTRICT
)
 STRICT""",
    "CREATE INDEX ix_set_aside_candle_id ON set_aside (candle_id)",
    "CREATE INDEX ix_set_aside_label_id ON set_aside (label_id)",
)

# Stickers gone were a print run's own; now they are of a sheet that lies in the drawer.
KEPT: Final = """INSERT INTO begun_sheet (sheet_id, used_json)
    SELECT sheet_id, json_object('version', 1, 'used', json_extract(used_json, '$.sheets[0]'))
    FROM print_run
    WHERE used_json IS NOT NULL AND sheet_id IS NOT NULL
    GROUP BY sheet_id, used_json"""

REDRAWN: Final[tuple[str, ...]] = (
    *anew(
        "label_version",
        "id, label_id, number, frozen, width_um, height_um, shape, corner_um, safe_um, "
        "bleed_um, background, properties_json",
        """CREATE TABLE label_version_new (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    label_id INTEGER NOT NULL,
    number INTEGER DEFAULT '1' NOT NULL,
    frozen INTEGER DEFAULT '0' NOT NULL,
    width_um INTEGER,
    height_um INTEGER,
    shape TEXT DEFAULT 'rectangle' NOT NULL,
    corner_um INTEGER,
    safe_um INTEGER,
    bleed_um INTEGER,
    background TEXT,
    properties_json TEXT,
    wrap_bottom_um INTEGER,
    wrap_top_um INTEGER,
    overlap_um INTEGER,
    CONSTRAINT uq_label_version_label_id UNIQUE (label_id, number),
    CONSTRAINT ck_label_version_shape_known CHECK (shape IS NULL OR shape IN ('rectangle',
        'rounded', 'circle', 'oval', 'wrap')),
    CONSTRAINT ck_label_version_frozen_flag CHECK (frozen IN (0, 1)),
    CONSTRAINT ck_label_version_width_um_not_negative CHECK (width_um >= 0),
    CONSTRAINT ck_label_version_height_um_not_negative CHECK (height_um >= 0),
    CONSTRAINT ck_label_version_corner_um_not_negative CHECK (corner_um >= 0),
    CONSTRAINT ck_label_version_safe_um_not_negative CHECK (safe_um >= 0),
    CONSTRAINT ck_label_version_bleed_um_not_negative CHECK (bleed_um >= 0),
    CONSTRAINT ck_label_version_wrap_bottom_um_not_negative CHECK (wrap_bottom_um >= 0),
    CONSTRAINT ck_label_version_wrap_top_um_not_negative CHECK (wrap_top_um >= 0),
    CONSTRAINT ck_label_version_overlap_um_not_negative CHECK (overlap_um >= 0),
    CONSTRAINT fk_label_version_label_id FOREIGN KEY(label_id) REFERENCES label (id) ON DELETE
        CASCADE
)
 STRICT""",
        "CREATE INDEX ix_label_version_label_id ON label_version (label_id)",
    ),
    *anew(
        "sheet",
        "item_id, page, page_w_um, page_h_um, left_um, top_um, columns, rows, pitch_x_um, "
        "pitch_y_um, sticker_w_um, sticker_h_um, shape, corner_um, surface",
        """CREATE TABLE sheet_new (
    item_id INTEGER NOT NULL,
    page TEXT,
    page_w_um INTEGER,
    page_h_um INTEGER,
    left_um INTEGER,
    top_um INTEGER,
    columns INTEGER,
    rows INTEGER,
    pitch_x_um INTEGER,
    pitch_y_um INTEGER,
    sticker_w_um INTEGER,
    sticker_h_um INTEGER,
    shape TEXT,
    corner_um INTEGER,
    surface TEXT,
    readings_json TEXT,
    CONSTRAINT pk_sheet PRIMARY KEY (item_id),
    CONSTRAINT ck_sheet_shape_known CHECK (shape IS NULL OR shape IN ('rectangle', 'rounded',
        'circle', 'oval')),
    CONSTRAINT ck_sheet_page_known CHECK (page IS NULL OR page IN ('A4', 'Letter', 'free')),
    CONSTRAINT ck_sheet_page_w_um_not_negative CHECK (page_w_um >= 0),
    CONSTRAINT ck_sheet_page_h_um_not_negative CHECK (page_h_um >= 0),
    CONSTRAINT ck_sheet_pitch_x_um_not_negative CHECK (pitch_x_um >= 0),
    CONSTRAINT ck_sheet_pitch_y_um_not_negative CHECK (pitch_y_um >= 0),
    CONSTRAINT ck_sheet_sticker_w_um_not_negative CHECK (sticker_w_um >= 0),
    CONSTRAINT ck_sheet_sticker_h_um_not_negative CHECK (sticker_h_um >= 0),
    CONSTRAINT ck_sheet_corner_um_not_negative CHECK (corner_um >= 0),
    CONSTRAINT fk_sheet_item_id FOREIGN KEY(item_id) REFERENCES item (id) ON DELETE CASCADE
)
 STRICT""",
    ),
    *anew(
        "candle",
        "id, name, code, version_id, vessel_id, lid_id, declared_net_mg, fill_to, identity, "
        "note, price_e4, archived",
        """CREATE TABLE candle_new (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    name TEXT DEFAULT '' NOT NULL,
    code TEXT,
    version_id INTEGER,
    vessel_id INTEGER,
    lid_id INTEGER,
    declared_net_mg INTEGER,
    fill_to TEXT,
    identity TEXT,
    note TEXT,
    price_e4 INTEGER,
    archived INTEGER DEFAULT '0' NOT NULL,
    jar_label_id INTEGER,
    lid_label_id INTEGER,
    caution_label_id INTEGER,
    CONSTRAINT ck_candle_fill_to_known CHECK (fill_to IS NULL OR fill_to IN ('line', 'net',
        'set')),
    CONSTRAINT ck_candle_declared_net_mg_not_negative CHECK (declared_net_mg >= 0),
    CONSTRAINT ck_candle_archived_flag CHECK (archived IN (0, 1)),
    CONSTRAINT fk_candle_version_id FOREIGN KEY(version_id) REFERENCES recipe_version (id) ON
        DELETE RESTRICT,
    CONSTRAINT fk_candle_vessel_id FOREIGN KEY(vessel_id) REFERENCES vessel (item_id) ON DELETE
        RESTRICT,
    CONSTRAINT fk_candle_lid_id FOREIGN KEY(lid_id) REFERENCES item (id) ON DELETE RESTRICT,
    CONSTRAINT fk_candle_jar_label_id FOREIGN KEY(jar_label_id) REFERENCES label (id) ON DELETE
        RESTRICT,
    CONSTRAINT fk_candle_lid_label_id FOREIGN KEY(lid_label_id) REFERENCES label (id) ON DELETE
        RESTRICT,
    CONSTRAINT fk_candle_caution_label_id FOREIGN KEY(caution_label_id) REFERENCES label (id)
        ON DELETE RESTRICT
)
 STRICT""",
        "CREATE INDEX ix_candle_caution_label_id ON candle (caution_label_id)",
        "CREATE INDEX ix_candle_jar_label_id ON candle (jar_label_id)",
        "CREATE INDEX ix_candle_lid_id ON candle (lid_id)",
        "CREATE INDEX ix_candle_lid_label_id ON candle (lid_label_id)",
        "CREATE INDEX ix_candle_version_id ON candle (version_id)",
        "CREATE INDEX ix_candle_vessel_id ON candle (vessel_id)",
    ),
    *anew(
        "label_element",
        "id, version_id, position, kind, x_um, y_um, w_um, h_um, turn_mdeg, properties_json",
        """CREATE TABLE label_element_new (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    version_id INTEGER NOT NULL,
    position INTEGER DEFAULT '0' NOT NULL,
    kind TEXT DEFAULT 'text' NOT NULL,
    x_um INTEGER,
    y_um INTEGER,
    w_um INTEGER,
    h_um INTEGER,
    turn_mdeg INTEGER DEFAULT '0' NOT NULL,
    properties_json TEXT DEFAULT '{}' NOT NULL,
    CONSTRAINT ck_label_element_kind_known CHECK (kind IS NULL OR kind IN ('text', 'picture',
        'frame', 'line', 'code', 'pictogram', 'ornament', 'facts')),
    CONSTRAINT ck_label_element_w_um_not_negative CHECK (w_um >= 0),
    CONSTRAINT ck_label_element_h_um_not_negative CHECK (h_um >= 0),
    CONSTRAINT fk_label_element_version_id FOREIGN KEY(version_id) REFERENCES label_version
        (id) ON DELETE CASCADE
)
 STRICT""",
        "CREATE INDEX ix_label_element_version_id ON label_element (version_id)",
    ),
    *anew(
        "print_run",
        "id, name, sheet_id, printer, tray, note",
        """CREATE TABLE print_run_new (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    name TEXT DEFAULT '' NOT NULL,
    sheet_id INTEGER,
    left_out_json TEXT,
    printer TEXT,
    tray TEXT,
    note TEXT,
    plan_id INTEGER,
    sorted_by TEXT DEFAULT 'line' NOT NULL,
    CONSTRAINT ck_print_run_sorted_by_known CHECK (sorted_by IS NULL OR sorted_by IN ('line',
        'lot', 'set')),
    CONSTRAINT fk_print_run_sheet_id FOREIGN KEY(sheet_id) REFERENCES sheet (item_id) ON DELETE
        RESTRICT,
    CONSTRAINT fk_print_run_plan_id FOREIGN KEY(plan_id) REFERENCES "plan" (id) ON DELETE
        RESTRICT
)
 STRICT""",
        "CREATE INDEX ix_print_run_plan_id ON print_run (plan_id)",
        "CREATE INDEX ix_print_run_sheet_id ON print_run (sheet_id)",
    ),
    *anew(
        "wax_measurement",
        "id, wax_id, way, measured_on, vessel_id, volume_ul, mass_mg, wax_c, water_mg, "
        "water_c, hot_um, set_um, scale_id, left_out, note",
        """CREATE TABLE wax_measurement_new (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    wax_id INTEGER NOT NULL,
    way TEXT DEFAULT 'hot' NOT NULL,
    measured_on TEXT,
    vessel_id INTEGER,
    vessel_no INTEGER,
    volume_ul INTEGER,
    mass_mg INTEGER,
    wax_c REAL,
    water_mg INTEGER,
    water_c REAL,
    hot_um INTEGER,
    set_um INTEGER,
    scale_id INTEGER,
    left_out INTEGER DEFAULT '0' NOT NULL,
    note TEXT,
    CONSTRAINT ck_wax_measurement_way_known CHECK (way IS NULL OR way IN ('hot', 'set',
        'drop')),
    CONSTRAINT ck_wax_measurement_measured_on_date CHECK (measured_on IS NULL OR measured_on
        GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    CONSTRAINT ck_wax_measurement_volume_ul_not_negative CHECK (volume_ul >= 0),
    CONSTRAINT ck_wax_measurement_mass_mg_not_negative CHECK (mass_mg >= 0),
    CONSTRAINT ck_wax_measurement_water_mg_not_negative CHECK (water_mg >= 0),
    CONSTRAINT ck_wax_measurement_hot_um_not_negative CHECK (hot_um >= 0),
    CONSTRAINT ck_wax_measurement_set_um_not_negative CHECK (set_um >= 0),
    CONSTRAINT ck_wax_measurement_left_out_flag CHECK (left_out IN (0, 1)),
    CONSTRAINT fk_wax_measurement_wax_id FOREIGN KEY(wax_id) REFERENCES wax (item_id) ON DELETE
        CASCADE,
    CONSTRAINT fk_wax_measurement_vessel_id FOREIGN KEY(vessel_id) REFERENCES vessel (item_id)
        ON DELETE RESTRICT,
    CONSTRAINT fk_wax_measurement_scale_id FOREIGN KEY(scale_id) REFERENCES scale (id) ON
        DELETE RESTRICT
)
 STRICT""",
        "CREATE INDEX ix_wax_measurement_scale_id ON wax_measurement (scale_id)",
        "CREATE INDEX ix_wax_measurement_vessel_id ON wax_measurement (vessel_id)",
        "CREATE INDEX ix_wax_measurement_wax_id ON wax_measurement (wax_id)",
    ),
    *anew(
        "print_line",
        "id, run_id, position, label_id, candle_id, lot_code, poured_on, count",
        """CREATE TABLE print_line_new (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    run_id INTEGER NOT NULL,
    position INTEGER DEFAULT '0' NOT NULL,
    label_id INTEGER,
    candle_id INTEGER,
    lot_code TEXT,
    poured_on TEXT,
    count INTEGER,
    pour_pot_id INTEGER,
    first_number INTEGER,
    CONSTRAINT ck_print_line_poured_on_date CHECK (poured_on IS NULL OR poured_on GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    CONSTRAINT fk_print_line_run_id FOREIGN KEY(run_id) REFERENCES print_run (id) ON DELETE
        CASCADE,
    CONSTRAINT fk_print_line_label_id FOREIGN KEY(label_id) REFERENCES label (id) ON DELETE
        RESTRICT,
    CONSTRAINT fk_print_line_candle_id FOREIGN KEY(candle_id) REFERENCES candle (id) ON DELETE
        RESTRICT,
    CONSTRAINT fk_print_line_pour_pot_id FOREIGN KEY(pour_pot_id) REFERENCES pour_pot (id) ON
        DELETE RESTRICT
)
 STRICT""",
        "CREATE INDEX ix_print_line_candle_id ON print_line (candle_id)",
        "CREATE INDEX ix_print_line_label_id ON print_line (label_id)",
        "CREATE INDEX ix_print_line_pour_pot_id ON print_line (pour_pot_id)",
        "CREATE INDEX ix_print_line_run_id ON print_line (run_id)",
    ),
)

STEP: Final[tuple[str, ...]] = (*NEW, KEPT, *REDRAWN)
