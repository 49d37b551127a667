"""What stands on the shelf of the demo workshop: all names and figures are invented."""

from __future__ import annotations

BUSINESS = {
    "business_name": "Mossgate Candle Bench",
    "business_role": "maker",
    "business_street": "7 Ropewalk Yard",
    "business_city": "Fernbury",
    "business_state": "VT",
    "business_postcode": "05000",
    "business_country": "USA",
    "business_phone": "802 555 0142",
    "business_email": "bench@mossgate.example",
    "business_web": "mossgate.example",
    "sold_in_us": 1,
    "currency": "USD",
}

SCALES = (
    {"name": "Bench scale", "maximum_g": 6000.0, "step_g": 1.0},
    {"name": "Oil scale", "maximum_g": 500.0, "step_g": 0.1},
    {"name": "Dye scale", "maximum_g": 50.0, "step_g": 0.01},
)
POTS = (
    {
        "name": "Tall pitcher",
        "brim_ml": 5000.0,
        "safe_fill_percent": 80.0,
        "empty_g": 468.0,
        "metal": "aluminium",
    },
    {
        "name": "Short pitcher",
        "brim_ml": 2500.0,
        "safe_fill_percent": 78.0,
        "empty_g": 296.0,
        "metal": "aluminium",
    },
    {
        "name": "Test jug",
        "brim_ml": 1000.0,
        "safe_fill_percent": 75.0,
        "empty_g": 178.0,
        "metal": "steel",
    },
)
HEAT = (
    {"name": "Electric hotplate, water bath", "open_flame": 0, "power_w": 1500, "left_on_heat": 0},
)
THERMOMETERS = ({"name": "Stick probe", "thermometer_kind": "probe"},)
PRINTERS = ({"name": "Workroom laser", "tray": "hand feed", "edge_mm": 4.5, "bottom_edge_mm": 4.5},)

# name, supplier, colour of the chip, details, (quantity, paid, freight)
WAXES = (
    (
        "Meadow soy",
        "Larkfield Waxes",
        {
            "wax_class": "soy",
            "max_load_percent": 10.0,
            "max_load_basis": "wax",
            "liquid_g_per_ml": 0.872,
            "liquid_measured": 1,
            "set_g_per_ml": 0.903,
            "set_measured": 1,
            "melts_from_c": 47.0,
            "melts_to_c": 52.0,
            "heat_to_c": 82.0,
            "add_oil_c": 77.0,
            "pour_c": 57.0,
            "cure_days": 10,
            "flash_c": 265.0,
        },
        (20000.0, 128.00, 24.50),
    ),
    (
        "Coast coconut",
        "Larkfield Waxes",
        {
            "wax_class": "coconut",
            "max_load_percent": 12.0,
            "max_load_basis": "wax",
            "melts_from_c": 40.0,
            "melts_to_c": 46.0,
            "heat_to_c": 80.0,
            "add_oil_c": 72.0,
            "pour_c": 58.0,
            "cure_days": 10,
            "flash_c": 240.0,
        },
        (10000.0, 104.00, 15.20),
    ),
    (
        "Field rapeseed",
        "Ostrand Supply",
        {
            "wax_class": "rapeseed",
            "max_load_percent": 8.0,
            "max_load_basis": "total",
            "heat_to_c": 80.0,
            "add_oil_c": 75.0,
            "pour_c": 60.0,
            "cure_days": 12,
            "flash_c": 270.0,
        },
        (10000.0, 71.00, 15.20),
    ),
    (
        "Hive beeswax",
        "Ostrand Supply",
        {
            "wax_class": "beeswax",
            "max_load_percent": 4.0,
            "max_load_basis": "wax",
            "heat_to_c": 75.0,
            "add_oil_c": 72.0,
            "pour_c": 70.0,
            "cure_days": 2,
            "flash_c": 204.0,
        },
        (2000.0, 46.00, 6.00),
    ),
    (
        "Melt blend",
        "Larkfield Waxes",
        {
            "wax_class": "paraffin_soy",
            "max_load_percent": 12.0,
            "max_load_basis": "wax",
            "heat_to_c": 85.0,
            "add_oil_c": 80.0,
            "pour_c": 66.0,
            "cure_days": 4,
            "flash_c": 205.0,
        },
        (5000.0, 38.00, 8.40),
    ),
)

_OIL = "Pettigrew Aromatics"
OILS = (
    (
        "Bramble",
        _OIL,
        {
            "density_g_per_ml": 0.974,
            "flash_c": 78.0,
            "ifra_12_percent": 100.0,
            "ifra_amendment": "51",
            "vanillin_percent": 0.4,
            "scent_family": "fruit",
        },
        (1000.0, 41.00, 4.10),
    ),
    (
        "Woodsmoke",
        _OIL,
        {
            "density_g_per_ml": 1.012,
            "flash_c": 88.0,
            "ifra_12_percent": 14.5,
            "ifra_amendment": "51",
            "vanillin_percent": 0.0,
            "scent_family": "wood",
        },
        (500.0, 26.00, 2.60),
    ),
    (
        "Cedar porch",
        _OIL,
        {
            "density_g_per_ml": 0.958,
            "flash_c": 93.0,
            "ifra_12_percent": 100.0,
            "ifra_amendment": "51",
            "vanillin_percent": 0.0,
            "scent_family": "wood",
        },
        (1000.0, 38.00, 4.10),
    ),
    (
        "Sea fennel",
        _OIL,
        {
            "density_g_per_ml": 0.969,
            "flash_c": 71.0,
            "ifra_12_percent": 28.0,
            "ifra_amendment": "50",
            "vanillin_percent": 0.0,
            "scent_family": "green",
        },
        (500.0, 23.50, 2.60),
    ),
    (
        "Baked pear",
        _OIL,
        {
            "density_g_per_ml": 1.031,
            "flash_c": 97.0,
            "ifra_12_percent": 100.0,
            "ifra_amendment": "51",
            "vanillin_percent": 3.2,
            "scent_family": "bakery",
        },
        (1000.0, 44.00, 4.10),
    ),
    (
        "Clover honey",
        "Ostrand Supply",
        {
            "density_g_per_ml": 1.006,
            "flash_c": 95.0,
            "ifra_12_percent": 100.0,
            "ifra_amendment": "51",
            "vanillin_percent": 1.1,
            "scent_family": "bakery",
        },
        (250.0, 14.00, 2.00),
    ),
    (
        "Night orange",
        "Ostrand Supply",
        {
            "density_g_per_ml": 0.882,
            "flash_c": 56.0,
            "ifra_12_percent": 22.0,
            "ifra_amendment": "51",
            "vanillin_percent": 0.0,
            "scent_family": "citrus",
        },
        (500.0, 21.00, 2.00),
    ),
    (
        "Linen line",
        _OIL,
        {
            "flash_c": 82.0,
            "ifra_12_percent": 100.0,
            "ifra_amendment": "51",
            "vanillin_percent": 0.0,
            "scent_family": "fresh",
        },
        (500.0, 22.00, 2.60),
    ),
)

WICKS = (
    (
        "Flat cotton 6",
        {
            "wick_kind": "cotton",
            "series": "flat braid",
            "size": "6",
            "diameter_from_mm": 62.0,
            "diameter_to_mm": 72.0,
            "trim_mm": 6.0,
            "neck_mm": 9.0,
            "length_mm": 150.0,
        },
        (200, 22.00, 3.00),
    ),
    (
        "Flat cotton 8",
        {
            "wick_kind": "cotton",
            "series": "flat braid",
            "size": "8",
            "diameter_from_mm": 70.0,
            "diameter_to_mm": 80.0,
            "trim_mm": 6.0,
            "neck_mm": 9.0,
            "length_mm": 150.0,
        },
        (200, 23.00, 3.00),
    ),
    (
        "Paper-filled 14",
        {
            "wick_kind": "cotton_paper",
            "series": "paper-filled",
            "size": "14",
            "diameter_from_mm": 45.0,
            "diameter_to_mm": 55.0,
            "trim_mm": 6.0,
            "neck_mm": 6.0,
            "length_mm": 100.0,
        },
        (100, 12.50, 2.00),
    ),
    (
        "Maple strip 13",
        {
            "wick_kind": "wooden",
            "series": "single",
            "size": "13 mm",
            "width_mm": 13.0,
            "diameter_from_mm": 70.0,
            "diameter_to_mm": 85.0,
            "trim_mm": 4.0,
            "neck_mm": 6.0,
            "length_mm": 130.0,
        },
        (60, 27.00, 2.50),
    ),
)

DYES = (
    (
        "Plum dye",
        {"form": "liquid", "colour_name": "plum", "usual_percent": 0.1, "max_percent": 0.3},
        (50.0, 9.50, 1.00),
    ),
    (
        "Pear chips",
        {"form": "chips", "colour_name": "pale yellow", "usual_percent": 0.3, "max_percent": 1.0},
        (100.0, 7.20, 1.00),
    ),
)
ADDITIVES = (
    (
        "UV guard",
        {
            "purpose": "keeps colour from fading",
            "usual_percent": 0.3,
            "max_percent": 0.5,
            "melts_c": 95.0,
        },
        (100.0, 11.00, 1.00),
    ),
)
LIDS = (
    (
        "Cork lid 75",
        {"lid_material": "cork", "fits_mm": 74.0, "diameter_mm": 78.0, "mass_g": 11.0},
        (60, 48.00, 5.00),
    ),
    (
        "Tin lid 77",
        {"lid_material": "tinplate", "fits_mm": 77.0, "diameter_mm": 79.0, "mass_g": 14.0},
        (80, 16.00, 2.00),
    ),
)
PACKAGING = (
    (
        "Two-jar carton",
        {
            "packaging_kind": "box",
            "holds": 2,
            "inside_w_mm": 165.0,
            "inside_d_mm": 82.0,
            "inside_h_mm": 98.0,
            "mass_g": 64.0,
        },
        (50, 38.00, 9.00),
    ),
)
SUPPLIES = (
    ("Wick stickers 20 mm", {"used_for": "fixing sustainers", "unit": "pieces"}, (500, 9.00, 0.0)),
)

# What was left at the last count: grams of what is weighed, pieces of anything else.
COUNTED = (
    ("Bramble", 286.0),
    ("Woodsmoke", 310.0),
    ("Meadow soy", 14600.0),
    ("Amber tumbler 30 cl", 46),
)
