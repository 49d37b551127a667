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
    # Seen while it burns
    "burning.flame": N_("A flame is between {lowest_mm} and {highest_mm} high."),
    "burning.pool": N_(
        "The pool is no wider than the vessel: between {lowest_mm} and {highest_mm}."
    ),
    "burning.pool-depth": N_("The pool must be between {lowest_mm} and {highest_mm} deep."),
    "burning.wall": N_("The wall must be between {lowest_c} and {highest_c}."),
    "burning.flame-too-high": N_(
        "The flame is {flame_mm} high, more than {highest_mm}: put the candle out. Trim the wick, "
        "or try a smaller one."
    ),
    "burning.flame-high": N_(
        "The flame is {flame_mm} high; up to {usual_mm} is usual. Trim the wick, or try a smaller "
        "one."
    ),
    "burning.flame-low": N_(
        "The flame is {flame_mm} high; from {usual_mm} is usual. If it stays so or drowns, try a "
        "larger wick."
    ),
    "burning.wall-hot": N_(
        "The vessel is at {wall_c} outside, too hot to touch: put the candle out, and try a "
        "smaller wick."
    ),
    "burning.wall-warm": N_(
        "The vessel is at {wall_c} outside. Keep an eye on it; a smaller wick makes it cooler."
    ),
    "burning.pool-deep": N_(
        "The pool is {depth_mm} deep; up to {usual_mm} is usual. Try a smaller wick."
    ),
    "burning.pool-shallow": N_(
        "The pool is {depth_mm} deep after that time; from {usual_mm} is usual. Try a larger wick "
        "if it stays so."
    ),
    "burning.pool-narrow": N_(
        "{left_mm} of wax are left at the wall; up to {usual_mm} is usual by now. If it is not "
        "melted by the middle of the candle, try a larger wick."
    ),
}
