"""Sentences about the materials on the shelf."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    # Wax
    "material.wax-no-class": N_(
        "Choose the class of this wax: until you measure it, its densities and temperatures are "
        "estimated from the class."
    ),
    "material.wax-set-lighter": N_(
        "Set wax cannot be lighter than liquid wax ({set_g_per_ml} set, {liquid_g_per_ml} "
        "liquid). Check whether the two are swapped."
    ),
    "material.wax-measured-without-value": N_(
        "A density is ticked as measured, but none is entered. Type it, or take the tick away."
    ),
    "material.wax-density-unusual": N_(
        "{own_g_per_ml} is unusual for this class (from {low_g_per_ml} to {high_g_per_ml}). "
        "Check the value."
    ),
    "material.wax-no-load": N_(
        "The most fragrance this wax holds is not entered, so loads cannot be checked against it. "
        "Its data sheet has the number."
    ),
    "material.wax-load-without-basis": N_(
        "{load_percent} of what? Choose “of wax” or “of total”, as the data sheet says it; "
        "without it the load is not checked."
    ),
    "material.wax-melts-backwards": N_(
        "It melts from {from_c} to {to_c}: the second is the lower one. Swap the two."
    ),
    "material.wax-melts-above-flash": N_(
        "It would melt at {melts_c}, at or above its flash point of {flash_c}. "
        "One of the two is wrong: look at the safety data sheet."
    ),
    "material.wax-heat-above-flash": N_(
        "Heating to {heat_to_c} reaches the flash point of {flash_c}: wax that hot can catch fire. "
        "Heat it less."
    ),
    "material.wax-heat-near-flash": N_(
        "Heating to {heat_to_c} comes too close to the flash point of {flash_c}. "
        "Stay at or below {most_c}."
    ),
    "material.wax-oil-above-heat": N_(
        "The oil goes in at {add_oil_c}, but the wax is heated to {heat_to_c} only. "
        "Check the two temperatures."
    ),
    "material.wax-pour-above-heat": N_(
        "It is poured at {pour_c}, but heated to {heat_to_c} only. Check the two temperatures."
    ),
    "material.wax-heat-below-melting": N_(
        "Heated to {heat_to_c} it is not all melted: it melts up to {melts_c}."
    ),
    "material.wax-oil-below-melting": N_(
        "The oil goes in at {add_oil_c}, but the wax is set below {melts_c}. Add it hotter, or "
        "check where the wax melts."
    ),
    "material.wax-pour-below-melting": N_(
        "It is poured at {pour_c}, but set below {melts_c}. Pour it hotter, or check where it "
        "melts."
    ),
    # Fragrance oil
    "material.oil-no-certificate": N_(
        "The most that its IFRA certificate allows in a candle is not entered, so it is not "
        "checked. Ask the supplier for the certificate, category 12."
    ),
    "material.oil-no-limit": N_(
        "100 % on the certificate sets no limit here: it is not a limit that was met. "
        "What the wax holds decides."
    ),
    "material.oil-not-allowed": N_(
        "0 % on the certificate: not allowed in candles. Take another oil, or check the number."
    ),
    "material.oil-limit": N_(
        "The certificate allows at most {total_percent} of total in the finished candle; "
        "that is {wax_percent} of wax."
    ),
    "material.oil-no-flash": N_(
        "The flash point is not entered. Section 9 of the safety data sheet has it."
    ),
    "material.oil-flash": N_(
        "Flash point {flash_c}: it matters for storing and shipping, and near a flame. "
        "The scent does not burn off there."
    ),
    "material.oil-flash-low": N_(
        "Its vapour can catch fire from {flash_c}. Keep flames and hot plates away, air the room, "
        "and ask the carrier before shipping it: up to 60 °C it counts as a flammable liquid."
    ),
    "material.oil-vanillin": N_(
        "With {vanillin_percent} vanillin in the oil it may turn the wax brown in some weeks. "
        "Pour one and wait before you choose a dye."
    ),
    "material.oil-density-unusual": N_(
        "{own_g_per_ml} is unusual for a fragrance oil (from {low_g_per_ml} to {high_g_per_ml}). "
        "Check the value."
    ),
    # Wick
    "material.wick-no-kind": N_(
        "Choose the kind of this wick: cotton and wood are trimmed differently."
    ),
    "material.wick-diameters-backwards": N_(
        "It suits inner diameters from {from_mm} to {to_mm}: the second is the smaller one. "
        "Swap the two."
    ),
    "material.wick-trim-wooden": N_(
        "Wooden wicks are usually trimmed to 3–5 mm; {trim_mm} is out of that. "
        "A long wooden wick burns high and sooty, a short one goes out."
    ),
    "material.wick-trim-cotton": N_(
        "Cotton and paper wicks are usually trimmed to about 6 mm; {trim_mm} is out of that. "
        "A long wick burns high and sooty, a short one drowns."
    ),
    "material.wick-shorter-than-trim": N_(
        "The wick is {length_mm} long but trimmed to {trim_mm}. Check the two lengths."
    ),
    "material.wick-neck-low": N_(
        "The neck of the sustainer is {neck_mm}; from {least_mm} on it puts the flame out before "
        "the last wax gets too hot."
    ),
    "material.wick-lead": N_(
        "Have the supplier confirm that the core holds no lead: in the US a metal core with more "
        "than 0.06 % lead is banned (16 CFR 1500.17(a)(13))."
    ),
    # The rest
    "material.most-below-usual": N_(
        "The most is {most_percent} of wax, less than the usual {usual_percent} of wax. Swap the "
        "two."
    ),
    "material.lid-too-small": N_(
        "The lid is {diameter_mm} wide, less than the opening of {fits_mm} that it fits. "
        "Measure both again."
    ),
    # On the shelf
    "material.put-away": N_(
        "{name} is still named by something, so it was put away instead of removed. "
        "Tick “Put away too” to see it and bring it back."
    ),
    "material.removed": N_("{name} was removed. Undo brings it back."),
}
