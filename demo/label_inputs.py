"""Sticker sheets, labels and print runs of the demo workshop: all invented measures and words."""

from __future__ import annotations

# Each row: its name, its measures, and what was bought (sheets, paid, freight).
SHEETS = (
    (
        "Kraft sheet, 3 across",
        {
            "page": "Letter",
            "page_w_mm": 215.9,
            "page_h_mm": 279.4,
            "columns": 3,
            "rows": 6,
            "shape": "rounded",
            "corner_mm": 2.5,
            "sticker_w_mm": 63.0,
            "sticker_h_mm": 38.0,
            "left_mm": 9.95,
            "top_mm": 15.7,
            "pitch_x_mm": 66.5,
            "pitch_y_mm": 42.0,
            "surface": "kraft",
        },
        (24, 14.40, 2.00),
    ),
    (
        "White rounds, 24 up",
        {
            "page": "Letter",
            "page_w_mm": 215.9,
            "page_h_mm": 279.4,
            "columns": 4,
            "rows": 6,
            "shape": "circle",
            "sticker_w_mm": 41.0,
            "sticker_h_mm": 41.0,
            "left_mm": 15.45,
            "top_mm": 12.2,
            "pitch_x_mm": 48.0,
            "pitch_y_mm": 42.8,
            "surface": "white matt",
        },
        (20, 9.00, 2.00),
    ),
    (
        "White ovals, 2 across",
        {
            "page": "A4",
            "page_w_mm": 210.0,
            "page_h_mm": 297.0,
            "columns": 2,
            "rows": 4,
            "shape": "oval",
            "sticker_w_mm": 86.0,
            "sticker_h_mm": 58.0,
            "left_mm": 15.0,
            "top_mm": 20.0,
            "pitch_x_mm": 94.0,
            "pitch_y_mm": 66.0,
            "surface": "white gloss",
        },
        (10, 8.50, 2.00),
    ),
)

# name, starting design, sheet
LABELS = (
    ("Jar front, kraft", "hush", "Kraft sheet, 3 across"),
    ("Jar front, bold", "bark", "Kraft sheet, 3 across"),
    ("Oval for bowls", "sill", "White ovals, 2 across"),
    ("Base caution", "caution", "White rounds, 24 up"),
)

# sheet, stickers used already, lines of (label, candle, lot, count)
RUNS = (("Bowls", "White ovals, 2 across", (), (("Oval for bowls", "PB-2", "26-311-A1", 8),)),)

# The run that is printed already.
PRINTED = "Bowls"

# Labels of each candle: its front, its caution sticker.
CANDLE_LABELS = {
    "BS-30": ("Jar front, kraft", "Base caution"),
    "BS-8": ("Jar front, bold", "Base caution"),
    "CP-32": ("Jar front, kraft", "Base caution"),
    "PB-2": ("Oval for bowls", None),
}

# Stickers gone from the sheet in the drawer before the winter fair.
GONE = ("Kraft sheet, 3 across", (0, 1, 2, 3))
