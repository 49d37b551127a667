"""Sentences about heating a pot and letting it cool."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    # Heating
    "heat.temperature": N_("The temperature must be between {lowest_c} and {highest_c}."),
    "heat.mass": N_("The mass must be between {lowest_g} and {highest_g}."),
    "heat.specific": N_(
        "The heat to warm one kilogram by one degree must be between {lowest} and {highest} "
        "kilojoules; wax has about 2."
    ),
    "heat.latent": N_(
        "The heat to melt one kilogram must be between {lowest} and {highest} kilojoules; wax has "
        "90 to 220."
    ),
    "heat.wax-class": N_("Nothing is known of wax of the class {name}. Choose one from the list."),
    "heat.water-boils": N_(
        "Water in an open bath is between {lowest_c} and {highest_c}: hotter, it boils away. "
        "Check the temperature."
    ),
    "heat.bath-too-cold": N_(
        "A bath of {water_c} does not bring the wax to {to_c}. Make the bath hotter, or heat the "
        "wax without one."
    ),
    "heat.nothing-to-heat": N_("There is nothing in the pot yet. Enter how much goes in."),
    "heat.already-warm": N_("The wax has {to_c} already: nothing is left to heat."),
    "heat.energy": N_("The heat must be between {lowest} and {highest} kilojoules."),
    "heat.power": N_(
        "The power of the heater must be between {lowest} and {highest} watts. It stands on its "
        "rating plate."
    ),
    "heat.efficiency": N_(
        "The part of the power that arrives in the pot must be between {lowest} and {highest}; 1 "
        "would be all of it."
    ),
    "heat.heater": N_("Choose what heats the pot: {name} is not known here."),
    "heat.minutes": N_("The time must be between {lowest} and {highest} minutes."),
    "heat.too-few-pours": N_(
        "Two timed heatings are needed before they tell something; so far there are {have}."
    ),
    "heat.log-impossible": N_(
        "Timed heating {place} cannot be right: of the heater's power {value} times would have "
        "arrived in the pot. Check its time, its weight and the watts."
    ),
}
