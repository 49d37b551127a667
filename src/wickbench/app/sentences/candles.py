"""Sentences about candles: what changed since a test, weights, codes."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "candle.version-changed": N_("The recipe was {was} when it passed; it is {now} now."),
    "candle.load-changed": N_(
        "The fragrance load was {was_percent} of wax when it passed; "
        "it is {now_percent} of wax now."
    ),
    "candle.oil-changed": N_("The fragrance oil was {was} when it passed; it is {now} now."),
    "candle.supplier-changed": N_(
        "{name} came from {was} when the candle passed; it comes from {now} now."
    ),
    "candle.vessel-changed": N_("The vessel was {was} when it passed; it is {now} now."),
    "candle.wicks-changed": N_("The wick was {was} when it passed; it is {now} now."),
    "candle.test-needs-recipe-and-vessel": N_(
        "Choose the recipe and the vessel first: a test is of these."
    ),
    "candle.no-recipe": N_("Choose the recipe: weight, price and label follow from it."),
    "candle.no-vessel": N_("Choose the vessel: weight, label size and wick follow from it."),
    "candle.no-line": N_(
        "The vessel's fill line was not measured yet, so the net weight is not known. "
        "Weigh it filled with water, in Vessels."
    ),
    "candle.mix-unknown": N_(
        "The recipe is not far enough to tell its weight. Give it a wax with its parts."
    ),
    "candle.code-taken": N_("{name} has the code {code} too. Give each candle its own."),
    "candle.recipe-retired": N_("{name} v{number} is retired."),
    "candle.newer-version": N_(
        "It is made to {name} v{number}; v{newest} exists. Choosing it asks for a new test."
    ),
    "candle.no-wick": N_("No wick is chosen. Without one this is a melt, not a candle."),
    "candle.wick-outside": N_(
        "{name} is not meant for an inner diameter of {inner_mm}. A burn test decides."
    ),
    "candle.nothing-declared": N_(
        "No net weight is declared yet. Take the proposed one, or type what the label says."
    ),
    "candle.net-over-line": N_(
        "{declared_g} stands above the fill line, which holds {line_g}. Declare less, or look "
        "whether the flame still has room."
    ),
    "candle.net-over-brim": N_(
        "{declared_g} does not fit: to the brim it holds {brim_g}, to the line {line_g}."
    ),
    "candle.net-is-estimate": N_(
        "By densities that nobody measured it may hold {low_g} to {high_g}. Weigh a few filled "
        "candles before the weight goes on a label."
    ),
    "candle.tested-in-future": N_("{tested_on} is still to come. Give the day of the test."),
}
