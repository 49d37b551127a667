"""Sentences of the pour plan page, the bench view and the weigh sheet."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "plan.line-no-recipe": N_("A line has no recipe yet. Choose a candle or a recipe."),
    "plan.line-no-vessel": N_("A line has no vessel yet. Choose a candle or a vessel."),
    "plan.line-no-count": N_("Say how many of each candle you pour."),
    "plan.line-no-candle": N_(
        "The line for {vessel} names no candle: pour it as a test, not for sale."
    ),
    "plan.candle-untested": N_("{candle} has no burn test: pour it as a test, not for sale."),
    "plan.candle-in_test": N_(
        "{candle} has not passed its burn test: pour it as a test, not for sale."
    ),
    "plan.candle-test_again": N_(
        "{candle} changed since it passed and is to be tested again: not for sale until then."
    ),
    "plan.fill-from-nominal": N_(
        "{vessel} was never weighed: the size on its box is used. Weigh a few with water."
    ),
    "plan.fill-from-shape": N_(
        "{vessel} was never weighed: its volume is computed from its diameters. "
        "Weigh a few with water."
    ),
    "plan.pot-no-brim": N_(
        "{name} is left out: say under Equipment how much it holds to the brim."
    ),
    "plan.scale-unknown": N_(
        "{name} is left out: say under Equipment how much it carries and what it reads to."
    ),
    "plan.unpriced": N_("{name} has no price yet: the cost leaves it out."),
    "plan.no-such-choice": N_(
        "Nothing here is called “{typed}”. Choose from the list, or enter it first."
    ),
    "plan.many-choices": N_("More than one is called “{typed}”. Choose from the list."),
    "plan.which-number": N_("This can be read in two ways. Write {readings}."),
    "weigh.nothing": N_("There is nothing to weigh yet: add a line with a count."),
    "pour.nothing": N_("There is nothing to pour yet: add a line with a count."),
    "pour.not-weighed": N_("Something is still to be weighed into this pot."),
}
