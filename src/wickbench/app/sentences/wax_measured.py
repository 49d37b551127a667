"""Sentences about measuring a wax of one's own."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "wax-measured.mass": N_(
        "The wax must weigh between {lowest_g} and {highest_g}. Tare the jar before you pour."
    ),
    "wax-measured.volume": N_(
        "The volume to the line must be between {lowest_ml} and {highest_ml}."
    ),
    "wax-measured.wax-temperature": N_(
        "The wax must be between {lowest_c} and {highest_c} warm, and all of it liquid."
    ),
    "wax-measured.water-temperature": N_("The water must be between {lowest_c} and {highest_c}."),
    "wax-measured.water": N_("The water must weigh between {lowest_g} and {highest_g}."),
    "wax-measured.only-water": N_(
        "The water alone, {water_ml}, would fill the jar to its line at {volume_ml}: no room is "
        "left for wax. Weigh only the water that you added on the set wax."
    ),
    "wax-measured.height": N_(
        "A level must be between {lowest_mm} and {highest_mm} above the inside of the base."
    ),
    "wax-measured.level-rose": N_(
        "The set wax would stand at {set_mm}, higher than the {hot_mm} while it was hot. Wax sinks "
        "as it sets: check whether the two are swapped."
    ),
    "wax-measured.reads-to": N_("The scale must read to between {lowest_g} and {highest_g}."),
    "wax-measured.density": N_(
        "That would be {value_g_per_ml}; wax is between {lowest_g_per_ml} and {highest_g_per_ml}. "
        "Check the mass, the tare and the volume."
    ),
    "wax-measured.set-lighter": N_(
        "Set wax cannot be lighter than liquid wax ({set_g_per_ml} set, {liquid_g_per_ml} liquid). "
        "Check the readings, or measure once more."
    ),
    "wax-measured.missing": N_("Enter {what} first."),
    "wax-measured.nothing": N_("There is no measurement to use yet."),
    "wax-measured.odd": N_(
        "The measurement of {day} lies far from the others. Look at it again, or leave it out."
    ),
    "wax-measured.one": N_("One measurement is a beginning; three tell how well you repeat it."),
}
