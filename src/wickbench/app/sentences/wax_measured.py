"""Sentences about measuring a wax of one's own."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "measured.mass": N_(
        "The wax must weigh between {lowest_g} and {highest_g}. Tare the jar before you pour."
    ),
    "measured.volume": N_("The volume to the line must be between {lowest_ml} and {highest_ml}."),
    "measured.wax-temperature": N_(
        "The wax must be between {lowest_c} and {highest_c} warm, and all of it liquid."
    ),
    "measured.water-temperature": N_("The water must be between {lowest_c} and {highest_c}."),
    "measured.water": N_("The water must weigh between {lowest_g} and {highest_g}."),
    "measured.only-water": N_(
        "The water alone, {water_ml}, would fill the jar to its line at {volume_ml}: no room is "
        "left for wax. Weigh only the water that you added on the set wax."
    ),
    "measured.height": N_(
        "A level must be between {lowest_mm} and {highest_mm} above the inside of the base."
    ),
    "measured.level-rose": N_(
        "The set wax would stand at {set_mm}, higher than the {hot_mm} while it was hot. Wax sinks "
        "as it sets: check whether the two are swapped."
    ),
    "measured.reads-to": N_("The scale must read to between {lowest_g} and {highest_g}."),
    "measured.density": N_(
        "That would be {value_g_per_ml}; wax is between {lowest_g_per_ml} and {highest_g_per_ml}. "
        "Check the mass, the tare and the volume."
    ),
    "measured.set-lighter": N_(
        "Set wax cannot be lighter than liquid wax ({set_g_per_ml} set, {liquid_g_per_ml} liquid). "
        "Check the readings, or measure once more."
    ),
    "measured.missing": N_("Enter {what} first."),
    "measured.nothing": N_("There is no measurement to use yet."),
    "measured.odd": N_(
        "The measurement of {day} lies far from the others. Look at it again, or leave it out."
    ),
    "measured.doubt-volume": N_(
        "Most of the doubt comes from the volume of the jar, since jars of one box differ. Weigh "
        "the very jar with water that you measure in, and enter its volume."
    ),
    "measured.doubt-line": N_(
        "Most of the doubt comes from seeing where it stands at the line. A narrow jar, or one "
        "filled to the brim, tells more."
    ),
    "measured.doubt-scale": N_(
        "Most of the doubt comes from the scale. A finer scale, or a larger jar, tells more."
    ),
    "measured.doubt-temperature": N_(
        "Most of the doubt comes from the temperature. Stir, and hold the probe in the middle."
    ),
    "measured.doubt-heights": N_(
        "Most of the doubt comes from reading the two levels. A tall, straight jar tells more, and "
        "water on the set wax most."
    ),
    "measured.doubt-liquid": N_(
        "Most of the doubt comes from the density of the liquid wax. Measure it hot to the line."
    ),
    "measured.doubt-repeats": N_(
        "Most of the doubt comes from how far your measurements lie apart. Measure once more, "
        "the same way."
    ),
    "measured.one": N_("One measurement is a beginning; three tell how well you repeat it."),
}
