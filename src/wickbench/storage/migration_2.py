"""Version 2: what the bench notes, leftovers, own measurements of a wax, lead times."""

from __future__ import annotations

from wickbench.storage.migration_2_redrawn import REDRAWN

NEW: tuple[str, ...] = (
    """CREATE TABLE timer (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    name TEXT DEFAULT '' NOT NULL,
    started_ms INTEGER,
    ends_ms INTEGER,
    rang_ms INTEGER
)
 STRICT""",
    """CREATE TABLE wax_measurement (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    wax_id INTEGER NOT NULL,
    way TEXT DEFAULT 'hot' NOT NULL,
    measured_on TEXT,
    vessel_id INTEGER,
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
    CONSTRAINT ck_wax_measurement_measured_on_date CHECK (measured_on IS NULL OR
        measured_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    CONSTRAINT ck_wax_measurement_volume_ul_not_negative CHECK (volume_ul >= 0),
    CONSTRAINT ck_wax_measurement_mass_mg_not_negative CHECK (mass_mg >= 0),
    CONSTRAINT ck_wax_measurement_water_mg_not_negative CHECK (water_mg >= 0),
    CONSTRAINT ck_wax_measurement_hot_um_not_negative CHECK (hot_um >= 0),
    CONSTRAINT ck_wax_measurement_set_um_not_negative CHECK (set_um >= 0),
    CONSTRAINT ck_wax_measurement_left_out_flag CHECK (left_out IN (0, 1)),
    CONSTRAINT fk_wax_measurement_wax_id FOREIGN KEY(wax_id) REFERENCES wax (item_id) ON
        DELETE CASCADE,
    CONSTRAINT fk_wax_measurement_vessel_id FOREIGN KEY(vessel_id) REFERENCES vessel
        (item_id) ON DELETE RESTRICT,
    CONSTRAINT fk_wax_measurement_scale_id FOREIGN KEY(scale_id) REFERENCES scale (id) ON
        DELETE RESTRICT
)
 STRICT""",
    "CREATE INDEX ix_wax_measurement_scale_id ON wax_measurement (scale_id)",
    "CREATE INDEX ix_wax_measurement_vessel_id ON wax_measurement (vessel_id)",
    "CREATE INDEX ix_wax_measurement_wax_id ON wax_measurement (wax_id)",
    """CREATE TABLE heating (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    heat_source_id INTEGER,
    pour_pot_id INTEGER,
    logged_on TEXT,
    heat_j INTEGER,
    power_w INTEGER,
    from_c REAL,
    to_c REAL,
    started_ms INTEGER,
    seconds INTEGER,
    left_out INTEGER DEFAULT '0' NOT NULL,
    note TEXT,
    CONSTRAINT ck_heating_logged_on_date CHECK (logged_on IS NULL OR logged_on GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    CONSTRAINT ck_heating_left_out_flag CHECK (left_out IN (0, 1)),
    CONSTRAINT fk_heating_heat_source_id FOREIGN KEY(heat_source_id) REFERENCES heat_source
        (id) ON DELETE RESTRICT,
    CONSTRAINT fk_heating_pour_pot_id FOREIGN KEY(pour_pot_id) REFERENCES pour_pot (id) ON
        DELETE RESTRICT
)
 STRICT""",
    "CREATE INDEX ix_heating_heat_source_id ON heating (heat_source_id)",
    "CREATE INDEX ix_heating_pour_pot_id ON heating (pour_pot_id)",
    """CREATE TABLE layered (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    name TEXT DEFAULT '' NOT NULL,
    vessel_id INTEGER,
    candle_id INTEGER,
    count INTEGER DEFAULT '1' NOT NULL,
    made_on TEXT,
    note TEXT,
    CONSTRAINT ck_layered_made_on_date CHECK (made_on IS NULL OR made_on GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    CONSTRAINT fk_layered_vessel_id FOREIGN KEY(vessel_id) REFERENCES vessel (item_id) ON
        DELETE RESTRICT,
    CONSTRAINT fk_layered_candle_id FOREIGN KEY(candle_id) REFERENCES candle (id) ON DELETE
        RESTRICT
)
 STRICT""",
    "CREATE INDEX ix_layered_candle_id ON layered (candle_id)",
    "CREATE INDEX ix_layered_vessel_id ON layered (vessel_id)",
    """CREATE TABLE leftover (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    name TEXT DEFAULT '' NOT NULL,
    source TEXT DEFAULT 'pot' NOT NULL,
    version_id INTEGER,
    pour_pot_id INTEGER,
    kept_on TEXT,
    archived INTEGER DEFAULT '0' NOT NULL,
    note TEXT,
    CONSTRAINT ck_leftover_source_known CHECK (source IS NULL OR source IN ('pot',
        'scooped', 'other')),
    CONSTRAINT ck_leftover_kept_on_date CHECK (kept_on IS NULL OR kept_on GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    CONSTRAINT ck_leftover_archived_flag CHECK (archived IN (0, 1)),
    CONSTRAINT fk_leftover_version_id FOREIGN KEY(version_id) REFERENCES recipe_version
        (id) ON DELETE RESTRICT,
    CONSTRAINT fk_leftover_pour_pot_id FOREIGN KEY(pour_pot_id) REFERENCES pour_pot (id) ON
        DELETE RESTRICT
)
 STRICT""",
    "CREATE INDEX ix_leftover_pour_pot_id ON leftover (pour_pot_id)",
    "CREATE INDEX ix_leftover_version_id ON leftover (version_id)",
    """CREATE TABLE net_check (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    candle_id INTEGER NOT NULL,
    checked_on TEXT,
    vessel_no INTEGER,
    empty_mg INTEGER,
    own_tare INTEGER DEFAULT '0' NOT NULL,
    filled_mg INTEGER,
    scale_id INTEGER,
    pour_pot_id INTEGER,
    note TEXT,
    CONSTRAINT ck_net_check_checked_on_date CHECK (checked_on IS NULL OR checked_on GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    CONSTRAINT ck_net_check_empty_mg_not_negative CHECK (empty_mg >= 0),
    CONSTRAINT ck_net_check_own_tare_flag CHECK (own_tare IN (0, 1)),
    CONSTRAINT ck_net_check_filled_mg_not_negative CHECK (filled_mg >= 0),
    CONSTRAINT fk_net_check_candle_id FOREIGN KEY(candle_id) REFERENCES candle (id) ON
        DELETE CASCADE,
    CONSTRAINT fk_net_check_scale_id FOREIGN KEY(scale_id) REFERENCES scale (id) ON DELETE
        RESTRICT,
    CONSTRAINT fk_net_check_pour_pot_id FOREIGN KEY(pour_pot_id) REFERENCES pour_pot (id)
        ON DELETE RESTRICT
)
 STRICT""",
    "CREATE INDEX ix_net_check_candle_id ON net_check (candle_id)",
    "CREATE INDEX ix_net_check_pour_pot_id ON net_check (pour_pot_id)",
    "CREATE INDEX ix_net_check_scale_id ON net_check (scale_id)",
    """CREATE TABLE temperature_reading (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    pour_pot_id INTEGER NOT NULL,
    at_ms INTEGER,
    read_c REAL,
    CONSTRAINT fk_temperature_reading_pour_pot_id FOREIGN KEY(pour_pot_id) REFERENCES
        pour_pot (id) ON DELETE CASCADE
)
 STRICT""",
    "CREATE INDEX ix_temperature_reading_pour_pot_id ON temperature_reading (pour_pot_id)",
    """CREATE TABLE layer (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    layered_id INTEGER NOT NULL,
    position INTEGER DEFAULT '0' NOT NULL,
    leftover_id INTEGER NOT NULL,
    mass_mg INTEGER,
    CONSTRAINT ck_layer_mass_mg_not_negative CHECK (mass_mg >= 0),
    CONSTRAINT fk_layer_layered_id FOREIGN KEY(layered_id) REFERENCES layered (id) ON
        DELETE CASCADE,
    CONSTRAINT fk_layer_leftover_id FOREIGN KEY(leftover_id) REFERENCES leftover (id) ON
        DELETE RESTRICT
)
 STRICT""",
    "CREATE INDEX ix_layer_layered_id ON layer (layered_id)",
    "CREATE INDEX ix_layer_leftover_id ON layer (leftover_id)",
    """CREATE TABLE leftover_part (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    leftover_id INTEGER NOT NULL,
    position INTEGER DEFAULT '0' NOT NULL,
    item_id INTEGER NOT NULL,
    role TEXT DEFAULT 'wax' NOT NULL,
    mass_mg INTEGER,
    CONSTRAINT ck_leftover_part_role_known CHECK (role IS NULL OR role IN ('wax',
        'fragrance', 'dye', 'additive')),
    CONSTRAINT ck_leftover_part_mass_mg_not_negative CHECK (mass_mg >= 0),
    CONSTRAINT fk_leftover_part_leftover_id FOREIGN KEY(leftover_id) REFERENCES leftover
        (id) ON DELETE CASCADE,
    CONSTRAINT fk_leftover_part_item_id FOREIGN KEY(item_id) REFERENCES item (id) ON DELETE
        RESTRICT
)
 STRICT""",
    "CREATE INDEX ix_leftover_part_item_id ON leftover_part (item_id)",
    "CREATE INDEX ix_leftover_part_leftover_id ON leftover_part (leftover_id)",
    """CREATE TABLE plan_leftover (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    plan_id INTEGER NOT NULL,
    position INTEGER DEFAULT '0' NOT NULL,
    leftover_id INTEGER NOT NULL,
    version_id INTEGER,
    mass_mg INTEGER,
    CONSTRAINT ck_plan_leftover_mass_mg_not_negative CHECK (mass_mg >= 0),
    CONSTRAINT fk_plan_leftover_plan_id FOREIGN KEY(plan_id) REFERENCES "plan" (id) ON
        DELETE CASCADE,
    CONSTRAINT fk_plan_leftover_leftover_id FOREIGN KEY(leftover_id) REFERENCES leftover
        (id) ON DELETE RESTRICT,
    CONSTRAINT fk_plan_leftover_version_id FOREIGN KEY(version_id) REFERENCES
        recipe_version (id) ON DELETE RESTRICT
)
 STRICT""",
    "CREATE INDEX ix_plan_leftover_leftover_id ON plan_leftover (leftover_id)",
    "CREATE INDEX ix_plan_leftover_plan_id ON plan_leftover (plan_id)",
    "CREATE INDEX ix_plan_leftover_version_id ON plan_leftover (version_id)",
    """CREATE TABLE pour_leftover (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    pour_pot_id INTEGER NOT NULL,
    position INTEGER DEFAULT '0' NOT NULL,
    leftover_id INTEGER NOT NULL,
    planned_mg INTEGER,
    weighed_mg INTEGER,
    at_ms INTEGER,
    CONSTRAINT ck_pour_leftover_planned_mg_not_negative CHECK (planned_mg >= 0),
    CONSTRAINT ck_pour_leftover_weighed_mg_not_negative CHECK (weighed_mg >= 0),
    CONSTRAINT fk_pour_leftover_pour_pot_id FOREIGN KEY(pour_pot_id) REFERENCES pour_pot
        (id) ON DELETE CASCADE,
    CONSTRAINT fk_pour_leftover_leftover_id FOREIGN KEY(leftover_id) REFERENCES leftover
        (id) ON DELETE RESTRICT
)
 STRICT""",
    "CREATE INDEX ix_pour_leftover_leftover_id ON pour_leftover (leftover_id)",
    "CREATE INDEX ix_pour_leftover_pour_pot_id ON pour_leftover (pour_pot_id)",
)

STEP: tuple[str, ...] = (*REDRAWN, *NEW)
