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
    "shelf.runs-out": N_("{count} can be made. First to run out: {names}."),
    "shelf.not-one": N_("Not one can be made: too little of {names}."),
    "shelf.buy-mass": N_("With {buy_g} more of {name}, {more} more can be made."),
    "shelf.buy-pieces": N_("With {buy} more of {name}, {more} more can be made."),
    "shelf.buy-together": N_(
        "These run out together, and buying one alone frees nothing: {names}. With all of them "
        "{more} more can be made."
    ),
    "shelf.buy-no-limit": N_(
        "Beside {names} nothing that was counted sets a limit: buy as much as you want to pour."
    ),
}
