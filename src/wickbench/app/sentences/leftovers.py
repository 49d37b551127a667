"""Sentences about working leftovers in."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "leftovers.too-much": N_(
        "The leftover brings {over_g} more of {name} than this batch takes. Use at most {most_g} "
        "of it, or make at least {least_g}."
    ),
    "leftovers.other-oil": N_(
        "The leftover brings {over_g} more oil of other scents than this batch takes in all. Use "
        "at most {most_g} of it, or make at least {least_g}."
    ),
    "leftovers.other-wax": N_(
        "The leftover brings {over_g} more of other waxes than this batch takes in all. Use at "
        "most {most_g} of it, or make at least {least_g}."
    ),
    "leftovers.no-place": N_(
        "The leftover brings something that this recipe has no place for, in whatever amount. "
        "Work it into a scented recipe that it fits, or keep it for yourself."
    ),
    "leftovers.own-kind": N_(
        "With {names} from the leftover this is no longer {name} but a candle of its own: burn "
        "tests of the recipe do not hold for it. Give it a name and test it."
    ),
    "leftovers.oil-over": N_(
        "Not for sale: {name} is {share_percent} of it, and its certificate allows {limit_percent}."
    ),
    "leftovers.oil-not-allowed": N_(
        "Not for sale: the certificate of {name} allows none of it in candles."
    ),
    "leftovers.oil-unknown": N_(
        "Not for sale: the most of {name} that its certificate allows in a candle is not entered. "
        "Ask the supplier for the certificate."
    ),
    "leftovers.layer-over": N_(
        "Layer {layer} by itself has {share_percent} of {name}, more than the {limit_percent} of "
        "its certificate; the whole candle has less. Ask who assesses your candles."
    ),
    "leftovers.layers-untested": N_(
        "Layers make a candle of its own: burn tests of their recipes do not hold for it."
    ),
    "leftovers.no-layer": N_("There is nothing in the vessel yet. Enter the first layer."),
    "leftovers.not-so-much-there": N_(
        "{mass_g} of “{name}” is planned, and {left_g} of it is left. Plan less, or correct what "
        "was kept."
    ),
    "leftovers.planned-less": N_(
        "The pots are planned with {used_g} of “{name}”: more of it does not fit."
    ),
    "leftovers.no-room-beside": N_(
        "“{name}” has no place beside the other leftovers in these pots. Use less of them."
    ),
    "leftovers.used-up": N_("Nothing is left of “{name}”. Take it out of this pour."),
    "leftovers.no-mass": N_("Enter how much there is of it, more than 0 g."),
    "leftovers.more-than-pot": N_(
        "{mass_g} is more than what went into this pot. At most {most_g} can be left of it."
    ),
    "leftovers.pot-not-weighed": N_("Nothing was weighed into this pot yet."),
    "leftovers.no-recipe": N_(
        "{name} has no recipe yet, so nobody can tell what is in it. Give the candle its recipe "
        "first."
    ),
    "leftovers.no-room": N_("Measure the vessel first, or enter its volume up to the fill line."),
    "leftovers.used-more-than-kept": N_(
        "{used_g} of it was weighed out, and {kept_g} was kept: scales, or wax that stuck to a "
        "pot. Nothing to do."
    ),
    "leftovers.all-used": N_("All of it is used up. Put it away when it is in your way here."),
    "leftovers.no-wax-in-it": N_(
        "No wax is known in it, so it cannot be worked in. Keep it anew by its recipe."
    ),
    "leftovers.choose-vessel": N_("Choose the vessel that the layers go into."),
    "leftovers.vessel-unknown": N_(
        "Nobody knows what this vessel holds, so the layers cannot be proposed. Measure it, or "
        "enter the mass of each layer."
    ),
    "leftovers.layers-over-brim": N_(
        "The layers are {over_ml} more than the vessel holds to its brim. Take less."
    ),
    "leftovers.layers-over-line": N_("The layers stand {over_ml} above the fill line."),
    "leftovers.heights-estimated": N_(
        "The heights are estimates: they follow from usual densities of set wax."
    ),
    "leftovers.choose-pot": N_("Choose the pot that it was left in."),
    "leftovers.choose-candle": N_("Choose the candle that it was scooped out of."),
    "leftovers.choose-recipe": N_("Choose the recipe that it was mixed by."),
}
