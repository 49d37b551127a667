"""Sentences about vessels on the shelf."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    # What does not fit together
    "vessel.line-over-brim": N_(
        "The fill line holds {line_ml} but the brim only {brim_ml}. Look at the weighings again."
    ),
    "vessel.fill-over-brim": N_(
        "The fill line is at {fill_mm}, above the brim at {brim_mm}. Measure both again from the "
        "inside of the base."
    ),
    "vessel.shape-disagrees": N_(
        "The diameters make {drawn_ml}, the water says {measured_ml}: {off_ml} apart, more than "
        "ruler and scale explain (± {doubt_ml}). The water counts; the drawing was scaled to it. "
        "Measure the inside once more."
    ),
    "vessel.shape-holds-more": N_(
        "The diameters make {drawn_ml}, the water says {measured_ml}: {off_ml} less, more than "
        "ruler and scale explain (± {doubt_ml}). The water counts; the drawing was scaled to it. "
        "A rounded or bulging base takes room away: enter it, or measure the inside once more."
    ),
    "vessel.same-height": N_(
        "Two diameters stand at {height_mm}; only {kept_mm} counts. Change or remove one of them."
    ),
    "vessel.diameter-above-brim": N_(
        "A diameter stands at {height_mm}, above the brim at {brim_mm}. Check the two heights: "
        "both count from the inside of the base."
    ),
    "vessel.outside-too-small": N_(
        "Outside it would be narrower than inside. Check the outer diameters: they go over the "
        "walls."
    ),
    "vessel.zone-upside-down": N_(
        "The straight part for labels ends at {to_mm}, below where it begins ({from_mm}). Swap "
        "the two."
    ),
    # Weighings that do not count yet
    "vessel.weighing-without-empty": N_(
        "Weighing {weighing_no} does not count yet: what does the dry vessel weigh? Enter 0 when "
        "the scale was tared with it."
    ),
    "vessel.weighing-without-water": N_(
        "Weighing {weighing_no} does not count yet: what does the vessel weigh with the water in?"
    ),
    "vessel.weighing-without-temperature": N_(
        "Weighing {weighing_no} does not count yet: how warm is the water?"
    ),
    # What is missing
    "vessel.no-inside": N_(
        "Measure the inner diameter and the height to the brim to see the vessel drawn."
    ),
    "vessel.no-diameter": N_(
        "Drawn straight, from what it holds and its height. Measure the inner diameters to see "
        "its shape."
    ),
    "vessel.no-fill-line": N_(
        "Say how high the fill line stands, or weigh the vessel with water to that line."
    ),
    "vessel.nothing-weighed": N_(
        "Nothing was weighed yet: the capacity comes from the ruler, which is often 5 percent "
        "off. Weigh a few vessels dry and with water to the fill line."
    ),
    "vessel.only-the-box": N_(
        "So far only the size on the box is known. Boxes often state the size to the brim, or a "
        "round number. Weigh a few vessels with water to the fill line."
    ),
    # What to watch
    "vessel.not-rated": N_(
        "Nobody is named who rated this vessel for candles. Glass can crack and tins can leak "
        "under a flame: ask its maker before you sell candles in it."
    ),
    "vessel.rated-by-nobody": N_("Say who rated it for candles: its maker, a dealer or a test."),
    "vessel.can-burn": N_(
        "Wood and plastic can burn, melt or leak beside a flame. Use this vessel for candles only "
        "with a liner or a rating that says so."
    ),
    "vessel.little-headspace": N_(
        "Only {room_mm} are left above the hot fill line. Usual are {usual_mm} or more, so that "
        "nothing spills and a lid has room (common practice)."
    ),
    "vessel.two-wicks": N_(
        "At {diameter_mm} inside, two wicks are usual, a third to a half of that apart and at "
        "least {wall_mm} from the wall (common practice). Only a burn test decides."
    ),
    "vessel.three-wicks": N_(
        "At {diameter_mm} inside, three wicks are usual, about half of that apart and at least "
        "{wall_mm} from the wall (common practice). Only a burn test decides."
    ),
    # The mix it holds
    "vessel.mix-unknown": N_(
        "{recipe} is not far enough to tell its weight: give it at least one wax."
    ),
    "vessel.mix-is-estimate": N_(
        "The density of {recipe} is an estimate, so its weight can be {low_g} to {high_g}. "
        "Measure the wax or enter its density to know it better."
    ),
}
