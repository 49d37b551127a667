"""Sentences about a version of a recipe in the window."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "recipe-dock.pour-below-melting": N_(
        "It is poured at {pour_c}, but its wax is set below {melts_c}. Pour it hotter, or check "
        "where the wax melts."
    ),
    "recipe-dock.frozen": N_(
        "This version was tested, poured or printed, so it stays as it is. "
        "Begin a new version to change it."
    ),
    "recipe-dock.no-such-material": N_(
        "“{typed}” is not on the shelf. Choose one from the list, or add it to Materials first."
    ),
    "recipe-dock.part-without-material": N_(
        "One line has an amount but no material. Choose the material or take the line out."
    ),
    "recipe-dock.part-without-amount": N_(
        "{name} has no amount yet, so it is left out of the mix."
    ),
    "recipe-dock.material-put-away": N_(
        "{name} was put away. Bring it back in Materials, or choose another."
    ),
    "recipe-dock.over-most": N_(
        "{name} is {given_percent} of the wax; its sheet says {most_percent} at most."
    ),
    "recipe-dock.basis-missing": N_(
        "Say whether the fragrance load is of wax or of total; until then it is left out."
    ),
    "recipe-dock.for-sale-not-passed": N_(
        "This version is for sale, but these candles have not passed their tests: {names}."
    ),
}
