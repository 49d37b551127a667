"""Tables that version 2 draws anew, because a column or a check was added."""

from __future__ import annotations


def anew(name: str, columns: str, drawn: str, *indexes: str) -> tuple[str, ...]:
    """Make a table under another name, fill it, put it in place; its counter of keys goes along."""
    return (
        drawn,
        f"INSERT INTO {name}_new ({columns}) SELECT {columns} FROM {name}",  # noqa: S608 - our own names
        *(_counter(name) if "AUTOINCREMENT" in drawn else ()),
        f"DROP TABLE {name}",
        f"ALTER TABLE {name}_new RENAME TO {name}",
        *indexes,
    )


def _counter(name: str) -> tuple[str, ...]:
    kept = f"SELECT '{name}_new', seq FROM sqlite_sequence WHERE name = '{name}'"  # noqa: S608
    return (
        f"DELETE FROM sqlite_sequence WHERE name = '{name}_new'",  # noqa: S608 - our own names
        f"INSERT INTO sqlite_sequence (name, seq) {kept}",
    )


REDRAWN: tuple[str, ...] = (
    *anew(
        "heat_source",
        "id, name, open_flame, power_w, left_on_heat, note",
        """CREATE TABLE heat_source_new (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    name TEXT DEFAULT '' NOT NULL,
    open_flame INTEGER DEFAULT '0' NOT NULL,
    power_w INTEGER,
    left_on_heat INTEGER DEFAULT '0' NOT NULL,
    note TEXT,
    heater TEXT,
    bath_mg INTEGER,
    CONSTRAINT ck_heat_source_heater_known CHECK (heater IS NULL OR heater IN ('hotplate',
        'melter')),
    CONSTRAINT ck_heat_source_open_flame_flag CHECK (open_flame IN (0, 1)),
    CONSTRAINT ck_heat_source_left_on_heat_flag CHECK (left_on_heat IN (0, 1)),
    CONSTRAINT ck_heat_source_bath_mg_not_negative CHECK (bath_mg >= 0)
)
 STRICT""",
    ),
    *anew(
        "item",
        "id, kind, name, supplier, code, note, colour, archived",
        """CREATE TABLE item_new (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    kind TEXT DEFAULT 'supplies' NOT NULL,
    name TEXT DEFAULT '' NOT NULL,
    supplier TEXT,
    code TEXT,
    note TEXT,
    colour TEXT,
    archived INTEGER DEFAULT '0' NOT NULL,
    lead_days INTEGER,
    lead_in_workdays INTEGER DEFAULT '0' NOT NULL,
    CONSTRAINT ck_item_kind_known CHECK (kind IS NULL OR kind IN ('wax', 'fragrance',
        'wick', 'dye', 'additive', 'lid', 'sheet', 'packaging', 'supplies', 'vessel')),
    CONSTRAINT ck_item_archived_flag CHECK (archived IN (0, 1)),
    CONSTRAINT ck_item_lead_in_workdays_flag CHECK (lead_in_workdays IN (0, 1))
)
 STRICT""",
    ),
    *anew(
        "thermometer",
        "id, name, thermometer_kind, note",
        """CREATE TABLE thermometer_new (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    name TEXT DEFAULT '' NOT NULL,
    thermometer_kind TEXT,
    note TEXT,
    reads_to_c REAL
)
 STRICT""",
    ),
    *anew(
        "plan",
        "id, name, pour_on, note, extra_mg, extra_ppm, heat_source_id, state, recorded_json",
        """CREATE TABLE plan_new (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    name TEXT DEFAULT '' NOT NULL,
    pour_on TEXT,
    note TEXT,
    extra_mg INTEGER DEFAULT '0' NOT NULL,
    extra_ppm INTEGER DEFAULT '0' NOT NULL,
    heat_source_id INTEGER,
    state TEXT DEFAULT 'planned' NOT NULL,
    recorded_json TEXT,
    needed_on TEXT,
    spare_days INTEGER,
    room_c REAL,
    vessel_seconds INTEGER,
    CONSTRAINT ck_plan_state_known CHECK (state IS NULL OR state IN ('planned', 'pouring',
        'poured')),
    CONSTRAINT ck_plan_pour_on_date CHECK (pour_on IS NULL OR pour_on GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    CONSTRAINT ck_plan_extra_mg_not_negative CHECK (extra_mg >= 0),
    CONSTRAINT ck_plan_extra_ppm_not_negative CHECK (extra_ppm >= 0),
    CONSTRAINT ck_plan_needed_on_date CHECK (needed_on IS NULL OR needed_on GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    CONSTRAINT fk_plan_heat_source_id FOREIGN KEY(heat_source_id) REFERENCES heat_source
        (id) ON DELETE RESTRICT
)
 STRICT""",
        'CREATE INDEX ix_plan_heat_source_id ON "plan" (heat_source_id)',
    ),
    *anew(
        "vessel",
        (
            "item_id, vessel_kind, glass, candle_rated, rated_by, nominal_ul, nominal_text, "
            "height_um, fill_um, outer_height_um, outer_top_um, outer_bottom_um, base_um, "
            "straight_from_um, straight_to_um, empty_mg, cells, lid_text, lid_id"
        ),
        """CREATE TABLE vessel_new (
    item_id INTEGER NOT NULL,
    vessel_kind TEXT,
    glass TEXT,
    candle_rated INTEGER DEFAULT '0' NOT NULL,
    rated_by TEXT,
    nominal_ul INTEGER,
    nominal_text TEXT,
    height_um INTEGER,
    fill_um INTEGER,
    outer_height_um INTEGER,
    outer_top_um INTEGER,
    outer_bottom_um INTEGER,
    base_um INTEGER,
    straight_from_um INTEGER,
    straight_to_um INTEGER,
    empty_mg INTEGER,
    cells INTEGER DEFAULT '1' NOT NULL,
    lid_text TEXT,
    lid_id INTEGER,
    base_fillet_um INTEGER,
    push_up_um INTEGER,
    CONSTRAINT pk_vessel PRIMARY KEY (item_id),
    CONSTRAINT ck_vessel_vessel_kind_known CHECK (vessel_kind IS NULL OR vessel_kind IN
        ('jar', 'tin', 'cup', 'mould', 'clamshell')),
    CONSTRAINT ck_vessel_glass_known CHECK (glass IS NULL OR glass IN ('glass', 'metal',
        'ceramic', 'concrete', 'plastic', 'silicone', 'wood', 'other')),
    CONSTRAINT ck_vessel_candle_rated_flag CHECK (candle_rated IN (0, 1)),
    CONSTRAINT ck_vessel_nominal_ul_not_negative CHECK (nominal_ul >= 0),
    CONSTRAINT ck_vessel_height_um_not_negative CHECK (height_um >= 0),
    CONSTRAINT ck_vessel_fill_um_not_negative CHECK (fill_um >= 0),
    CONSTRAINT ck_vessel_outer_height_um_not_negative CHECK (outer_height_um >= 0),
    CONSTRAINT ck_vessel_outer_top_um_not_negative CHECK (outer_top_um >= 0),
    CONSTRAINT ck_vessel_outer_bottom_um_not_negative CHECK (outer_bottom_um >= 0),
    CONSTRAINT ck_vessel_base_um_not_negative CHECK (base_um >= 0),
    CONSTRAINT ck_vessel_straight_from_um_not_negative CHECK (straight_from_um >= 0),
    CONSTRAINT ck_vessel_straight_to_um_not_negative CHECK (straight_to_um >= 0),
    CONSTRAINT ck_vessel_empty_mg_not_negative CHECK (empty_mg >= 0),
    CONSTRAINT ck_vessel_base_fillet_um_not_negative CHECK (base_fillet_um >= 0),
    CONSTRAINT ck_vessel_push_up_um_not_negative CHECK (push_up_um >= 0),
    CONSTRAINT fk_vessel_item_id FOREIGN KEY(item_id) REFERENCES item (id) ON DELETE
        CASCADE,
    CONSTRAINT fk_vessel_lid_id FOREIGN KEY(lid_id) REFERENCES item (id) ON DELETE RESTRICT
)
 STRICT""",
        "CREATE INDEX ix_vessel_lid_id ON vessel (lid_id)",
    ),
    *anew(
        "wax",
        (
            "item_id, wax_class, liquid_g_per_ml, liquid_measured, set_g_per_ml, set_measured, "
            "melts_from_c, melts_to_c, max_load_ppm, max_load_basis, heat_to_c, add_oil_c, "
            "pour_c, cure_days, flash_c"
        ),
        """CREATE TABLE wax_new (
    item_id INTEGER NOT NULL,
    wax_class TEXT,
    liquid_g_per_ml REAL,
    liquid_measured INTEGER DEFAULT '0' NOT NULL,
    set_g_per_ml REAL,
    set_measured INTEGER DEFAULT '0' NOT NULL,
    melts_from_c REAL,
    melts_to_c REAL,
    max_load_ppm INTEGER,
    max_load_basis TEXT,
    heat_to_c REAL,
    add_oil_c REAL,
    pour_c REAL,
    cure_days INTEGER,
    flash_c REAL,
    finish TEXT,
    CONSTRAINT pk_wax PRIMARY KEY (item_id),
    CONSTRAINT ck_wax_max_load_basis_known CHECK (max_load_basis IS NULL OR max_load_basis
        IN ('wax', 'total')),
    CONSTRAINT ck_wax_finish_known CHECK (finish IS NULL OR finish IN ('single', 'top_up',
        'second')),
    CONSTRAINT ck_wax_liquid_measured_flag CHECK (liquid_measured IN (0, 1)),
    CONSTRAINT ck_wax_set_measured_flag CHECK (set_measured IN (0, 1)),
    CONSTRAINT ck_wax_max_load_ppm_not_negative CHECK (max_load_ppm >= 0),
    CONSTRAINT fk_wax_item_id FOREIGN KEY(item_id) REFERENCES item (id) ON DELETE CASCADE
)
 STRICT""",
    ),
    *anew(
        "candle",
        (
            "id, name, code, version_id, vessel_id, lid_id, declared_net_mg, fill_to, identity, "
            "note, price_e4, archived"
        ),
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
    CONSTRAINT ck_candle_fill_to_known CHECK (fill_to IS NULL OR fill_to IN ('line', 'net',
        'set')),
    CONSTRAINT ck_candle_declared_net_mg_not_negative CHECK (declared_net_mg >= 0),
    CONSTRAINT ck_candle_archived_flag CHECK (archived IN (0, 1)),
    CONSTRAINT fk_candle_version_id FOREIGN KEY(version_id) REFERENCES recipe_version (id)
        ON DELETE RESTRICT,
    CONSTRAINT fk_candle_vessel_id FOREIGN KEY(vessel_id) REFERENCES vessel (item_id) ON
        DELETE RESTRICT,
    CONSTRAINT fk_candle_lid_id FOREIGN KEY(lid_id) REFERENCES item (id) ON DELETE RESTRICT
)
 STRICT""",
        "CREATE INDEX ix_candle_lid_id ON candle (lid_id)",
        "CREATE INDEX ix_candle_version_id ON candle (version_id)",
        "CREATE INDEX ix_candle_vessel_id ON candle (vessel_id)",
    ),
    *anew(
        "pour_pot",
        (
            "id, plan_id, number, version_id, pot_id, lot_code, poured_on, started_ms, ended_ms, "
            "state, note, plan_json"
        ),
        """CREATE TABLE pour_pot_new (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    plan_id INTEGER NOT NULL,
    number INTEGER DEFAULT '1' NOT NULL,
    version_id INTEGER,
    pot_id INTEGER,
    lot_code TEXT,
    poured_on TEXT,
    started_ms INTEGER,
    ended_ms INTEGER,
    state TEXT DEFAULT 'open' NOT NULL,
    note TEXT,
    plan_json TEXT,
    room_c REAL,
    CONSTRAINT ck_pour_pot_state_known CHECK (state IS NULL OR state IN ('open', 'done',
        'dropped')),
    CONSTRAINT ck_pour_pot_poured_on_date CHECK (poured_on IS NULL OR poured_on GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    CONSTRAINT fk_pour_pot_plan_id FOREIGN KEY(plan_id) REFERENCES "plan" (id) ON DELETE
        RESTRICT,
    CONSTRAINT fk_pour_pot_version_id FOREIGN KEY(version_id) REFERENCES recipe_version
        (id) ON DELETE RESTRICT,
    CONSTRAINT fk_pour_pot_pot_id FOREIGN KEY(pot_id) REFERENCES pot (id) ON DELETE RESTRICT
)
 STRICT""",
        "CREATE INDEX ix_pour_pot_plan_id ON pour_pot (plan_id)",
        "CREATE INDEX ix_pour_pot_pot_id ON pour_pot (pot_id)",
        "CREATE INDEX ix_pour_pot_version_id ON pour_pot (version_id)",
    ),
    *anew(
        "plan_line",
        (
            "id, plan_id, position, candle_id, version_id, vessel_id, wick_id, wick_count, count, "
            "fill_to, net_mg"
        ),
        """CREATE TABLE plan_line_new (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    plan_id INTEGER NOT NULL,
    position INTEGER DEFAULT '0' NOT NULL,
    candle_id INTEGER,
    version_id INTEGER,
    vessel_id INTEGER,
    wick_id INTEGER,
    wick_count INTEGER,
    count INTEGER,
    fill_to TEXT DEFAULT 'line' NOT NULL,
    net_mg INTEGER,
    CONSTRAINT ck_plan_line_fill_to_known CHECK (fill_to IS NULL OR fill_to IN ('line',
        'net', 'set')),
    CONSTRAINT ck_plan_line_net_mg_not_negative CHECK (net_mg >= 0),
    CONSTRAINT fk_plan_line_plan_id FOREIGN KEY(plan_id) REFERENCES "plan" (id) ON DELETE
        CASCADE,
    CONSTRAINT fk_plan_line_candle_id FOREIGN KEY(candle_id) REFERENCES candle (id) ON
        DELETE RESTRICT,
    CONSTRAINT fk_plan_line_version_id FOREIGN KEY(version_id) REFERENCES recipe_version
        (id) ON DELETE RESTRICT,
    CONSTRAINT fk_plan_line_vessel_id FOREIGN KEY(vessel_id) REFERENCES vessel (item_id) ON
        DELETE RESTRICT,
    CONSTRAINT fk_plan_line_wick_id FOREIGN KEY(wick_id) REFERENCES item (id) ON DELETE
        RESTRICT
)
 STRICT""",
        "CREATE INDEX ix_plan_line_candle_id ON plan_line (candle_id)",
        "CREATE INDEX ix_plan_line_plan_id ON plan_line (plan_id)",
        "CREATE INDEX ix_plan_line_version_id ON plan_line (version_id)",
        "CREATE INDEX ix_plan_line_vessel_id ON plan_line (vessel_id)",
        "CREATE INDEX ix_plan_line_wick_id ON plan_line (wick_id)",
    ),
)
