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
    "candle.tested-in-future": N_("{tested_on} is still to come. Give the day of the test."),
}
