"""Sentences about how far the shelf reaches."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "shelf.each": N_("Say how much mix one {name} takes: more than nothing, less than a tonne."),
    "shelf.ratio": N_("How many {name} belong to a set is a whole number from 1 upwards."),
    "shelf.no-candles": N_("Choose at least one candle."),
    "shelf.no-limit": N_(
        "Nothing that this takes has been counted, so no number can be told. Count your stock."
    ),
    "shelf.uncounted": N_(
        "Never counted, so without a limit here: {names}. Count them to be sure."
    ),
    "shelf.runs-out-mass": N_("First to run out: {name}. Missing for {more} more: {short_g}."),
    "shelf.runs-out-pieces": N_("First to run out: {name}. Missing for {more} more: {short}."),
    "shelf.not-one-mass": N_("Too little {name} for even {more}: {short_g} are missing."),
    "shelf.not-one-pieces": N_("Too few {name} for even {more}. Missing: {short}."),
    "shelf.buy-mass": N_(
        "The one purchase that frees most: {buy_g} of {name}. Then you can make {more} more, {all} "
        "in all."
    ),
    "shelf.buy-pieces": N_(
        "The one purchase that frees most: {buy} of {name}. Then you can make {more} more, {all} "
        "in all."
    ),
    "shelf.buy-together": N_(
        "These run out together, and buying one alone frees nothing: {names}. With all of them "
        "{more} more can be made."
    ),
    "shelf.buy-no-limit": N_(
        "Beside {names} nothing that was counted sets a limit: buy as much as you want to pour."
    ),
    "shelf.frees-most": N_("Looking at each candle alone, buying {name} frees most: {names}."),
}
