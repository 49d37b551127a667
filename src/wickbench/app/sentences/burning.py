"""Sentences about how candles burn: weighings, rates, and the wax that can burn."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "burning.hours": N_("Enter hours burnt between {lowest} and {highest}."),
    "burning.mass": N_("The candle must weigh between {lowest_g} and {highest_g}."),
    "burning.too-few-weighings": N_("Weigh the candle before and after it has burnt."),
    "burning.order": N_(
        "Weighing {weighing_no}: it must have burnt longer than at the one before. Check the hours."
    ),
    "burning.gained": N_(
        "Weighing {weighing_no}: the candle weighs more than before ({before_g}, now {after_g}). "
        "Check whether the lid was on, or a digit is wrong."
    ),
    "burning.no-rates": N_("Burn at least one candle, and weigh it before and after."),
    "burning.rate": N_("A candle burns between {lowest} and {highest} grams an hour."),
    "burning.one-candle": N_("Burn at least two candles of each kind to compare the two."),
    "burning.one-test": N_(
        "One test gives a rate, but not how far the next candle differs. Burn two more."
    ),
    "burning.two-tests": N_(
        "Two tests tell almost nothing about the next candle: {mean} grams an hour, give or take "
        "{next}. Burn one or two more."
    ),
    "burning.filled": N_("The wax must weigh between {lowest_g} and {highest_g}."),
    "burning.stop-level": N_(
        "The level at which it is put out must lie inside the vessel: from {lowest_mm} to "
        "{highest_mm}."
    ),
    "burning.nothing-burns": N_(
        "{filled_g} do not reach {stop_mm}: {stays_g} would be needed to stand that high. Fill "
        "more, or let it burn lower."
    ),
    "burning.does-not-burn": N_("A candle that loses no wax gives no burn time. Weigh it again."),
    "burning.heat": N_(
        "Give a heat of combustion between {lowest} and {highest} megajoules for each kilogram."
    ),
    "burning.diameter": N_("The diameter must be between {lowest_mm} and {highest_mm}."),
}
