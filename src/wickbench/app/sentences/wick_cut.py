"""Sentences about the length of a wick."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES = {
    "wick-cut.level": N_("The level of the set wax must be between {lowest_mm} and {highest_mm}."),
    "wick-cut.trim": N_(
        "A wick stands between {lowest_mm} and {highest_mm} above the wax. Enter its trim length "
        "from the wick's data sheet, usually 6 mm."
    ),
    "wick-cut.foot": N_("The wick's foot must stand between {lowest_mm} and {highest_mm}."),
    "wick-cut.foot-above-wax": N_(
        "The wick's foot stands at {foot_mm}, but the set wax reaches only to {level_mm}. Check "
        "the push-up of the base and the fill line."
    ),
}
