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
    "heat.melts-upside-down": N_(
        "The wax melts from {low_c} to {high_c}: the second must not be the colder one."
    ),
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
    # Cooling
    "cooling.minute": N_("The time must be between {lowest} and {highest} minutes."),
    "cooling.too-few-readings": N_(
        "Two readings of the pot are needed, some minutes apart; so far there are {have}."
    ),
    "cooling.order": N_(
        "The reading at minute {minute} comes after the one at minute {before}. Enter the readings "
        "in the order in which they were taken."
    ),
    "cooling.not-cooling": N_(
        "By these readings the pot does not cool. Take it off the heat, wait some minutes and "
        "read again."
    ),
    "cooling.not-colder": N_(
        "{read_c} is not colder than the reading before ({before_c}). Check it; if the pot was "
        "warmed again, begin anew."
    ),
    "cooling.room-not-colder": N_(
        "The room ({room_c}) must be colder than the pot ({read_c}). Read both again."
    ),
    "cooling.read-after-set": N_(
        "At {read_c} this wax has begun to set (at {congeals_c}) and no longer cools evenly. Use "
        "readings above that."
    ),
    "cooling.sets": N_(
        "From {congeals_c} on the wax sets and stays at that temperature for long, so no time can "
        "be told below it. This holds for liquid wax only."
    ),
    "cooling.below-room": N_(
        "The pot never gets colder than the room: {target_c} is not above {room_c}."
    ),
    "cooling.thermometer": N_(
        "What the thermometer reads to must be between {lowest_c} and {highest_c}."
    ),
    "cooling.rate": N_(
        "By these readings the pot would cool in no time, or never. Check the readings."
    ),
    "cooling.points": N_("A curve is drawn with {lowest} to {highest} points."),
    "cooling.window": N_(
        "The coldest temperature to pour at, {low_c}, must be below the hottest, {high_c}."
    ),
    "cooling.seconds": N_(
        "The time for one vessel must be between {lowest} and {highest} seconds."
    ),
    "cooling.pot-mass": N_("The mass must be between {lowest_g} and {highest_g}."),
    "cooling.room-too-warm-to-set": N_(
        "In a room of {room_c} this wax does not set: it needs less than {congeals_c}."
    ),
    "cooling.not-set": N_(
        "At {target_c} the wax is still liquid; it begins to set at {congeals_c}. Ask for a "
        "colder temperature."
    ),
}
