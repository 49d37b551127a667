"""Sentences about recipes: loads, limits, flash points, temperatures."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "recipe.number": N_("Give a number that is zero or more; temperatures may be below zero."),
    "recipe.load-basis": N_("Say whether the fragrance load is of wax or of total."),
    "recipe.load-negative": N_("A fragrance load is zero or more."),
    "recipe.load-whole": N_(
        "Of total, a load stays below 100 percent: the rest is the wax. Did you mean of wax?"
    ),
    "recipe.no-wax": N_("The recipe has no wax yet. Add at least one wax with its parts."),
    "recipe.oil-without-load": N_(
        "There is fragrance oil in the recipe but no load. Say how much of it goes in."
    ),
    "recipe.load-without-oil": N_(
        "There is a load but no fragrance oil. Add the oil, or set the load to zero."
    ),
    "recipe.wax-limit-unknown": N_(
        "No wax of this recipe says how much oil it holds, so the load was not checked. "
        "Its data sheet has the number."
    ),
    "recipe.one-wax-limit-unknown": N_(
        "{name} does not say how much oil it holds, so the load was checked against the other "
        "waxes only. Its data sheet has the number."
    ),
    "recipe.over-wax-limit-of-wax": N_(
        "The load of {load_percent} of wax is more than {name} holds: {limit_percent} of wax. "
        "Too much oil sweats out and smothers the wick."
    ),
    "recipe.over-wax-limit-of-total": N_(
        "The load of {load_percent} of total is more than {name} holds: {limit_percent} of total. "
        "Too much oil sweats out and smothers the wick."
    ),
    "recipe.oil-over-certificate": N_(
        "{name} is {share_percent} of the finished candle; its certificate allows "
        "{limit_percent}. Lower the load or its part in the blend."
    ),
    "recipe.oil-not-allowed": N_(
        "The certificate of {name} allows none of it in candles. Take another oil."
    ),
    "recipe.oil-certificate-unknown": N_(
        "The most of {name} that its certificate allows in a candle is not entered, "
        "so it was not checked. Ask the supplier for the certificate."
    ),
    "recipe.flash-low": N_(
        "{name} can catch fire from {flash_c}. Keep flames and hot plates away from it "
        "and air the room."
    ),
    "recipe.flash-over-flame": N_(
        "{name} gets hotter than its flash point of {flash_c} near an open flame. "
        "Put the flame out before the oil goes in, or use heat without a flame."
    ),
    "recipe.flash-on-heat": N_(
        "{name} gets hotter than its flash point of {flash_c} in a pot that stays on the heat. "
        "Take the pot off the heat before the oil goes in."
    ),
    "recipe.flash-unknown": N_(
        "The flash point of {name} is not entered and you heat with an open flame. "
        "Its safety data sheet has it in section 9."
    ),
    "recipe.heat-over-wax-flash": N_(
        "{heat_to_c} is at or above the flash point of {name}, {flash_c}. "
        "Wax that hot can catch fire: heat it less."
    ),
    "recipe.hotter-than-wax-wants": N_(
        "{heat_to_c} is hotter than {name} wants: {limit_c}. Wax kept too hot yellows."
    ),
    "recipe.heat-below-pour": N_(
        "The wax is heated to {heat_to_c} but poured at {pour_c}, which is hotter. "
        "Check the two temperatures."
    ),
    "recipe.add-above-heat": N_(
        "The oil goes in at {add_c}, but the wax is heated to {heat_to_c} only. "
        "Check the two temperatures."
    ),
}
