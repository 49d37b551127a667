"""Sentences about measuring vessels, shapes, densities and what wax does as it sets."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    # Water and air
    "water.temperature": N_("Use water between {lowest_c} and {highest_c}."),
    "water.air-temperature": N_("The room must be between {lowest_c} and {highest_c}."),
    "water.air-pressure": N_("Give an air pressure between {lowest} and {highest} hPa."),
    "water.air-humidity": N_("Give a relative humidity between 0 and 100 percent."),
    "water.altitude": N_("Give a height above the sea between {lowest} and {highest} metres."),
    # Weighings
    "vessel.no-weighings": N_(
        "Weigh the vessel dry, fill it with water, weigh it again, and enter both readings."
    ),
    "vessel.empty-mass": N_(
        "Weighing {weighing_no}: the dry vessel must weigh between {lowest_g} and {highest_g}. "
        "If the scale was tared with the vessel on it, enter 0."
    ),
    "vessel.filled-mass": N_(
        "Weighing {weighing_no}: the filled vessel must weigh between {lowest_g} and {highest_g}."
    ),
    "vessel.water-temperature": N_(
        "Weighing {weighing_no}: the water must be between {lowest_c} and {highest_c}."
    ),
    "vessel.number": N_("Weighing {weighing_no}: number the vessels 1, 2, 3 and so on."),
    "vessel.not-heavier": N_(
        "Weighing {weighing_no}: filled with water the vessel must weigh more than dry "
        "({empty_g} dry, {filled_g} filled). Check whether the two were swapped."
    ),
    "vessel.scale-reads-to": N_(
        "Say what the scale reads to: a step between {lowest_g} and {highest_g}."
    ),
    "vessel.scale-error": N_(
        "Say how far the scale may be off: between {lowest_g} and {highest_g}."
    ),
    "vessel.mouth": N_(
        "Give the inner diameter where the water stands: between {lowest_mm} and {highest_mm}."
    ),
    "vessel.water-error": N_("The thermometer may be off by no more than {highest} °C."),
    "vessel.pressure-error": N_("The air pressure may be off by no more than {highest} hPa."),
    "vessel.line-error": N_("The water line may be off by no more than {highest_mm}."),
    "vessel.expansion": N_(
        "Give the growth of the glass as a share for each °C, such as 0.000027."
    ),
    # Advice on a measured capacity
    "vessel.one-weighing": N_(
        "One weighing gives a capacity, but not how well it repeats, and nothing about the next "
        "jar: out of one box they usually differ by 1 to 3 percent, here {usual_low_ml} to "
        "{usual_high_ml} (common practice). Weigh a few more out of the box, each once."
    ),
    "vessel.one-vessel": N_(
        "All {weighings} weighings are of the same jar, so they say nothing about the next one: "
        "out of one box they usually differ by 1 to 3 percent, here {usual_low_ml} to "
        "{usual_high_ml} (common practice). Several jars weighed once tell more than one weighed "
        "several times."
    ),
    "vessel.two-vessels": N_(
        "Two vessels say little about the rest of the box: the next one may differ by "
        "{next_ml}. Weigh one or two more."
    ),
    "vessel.odd-weighing": N_(
        "Weighing {weighing_no}, of jar {vessel_no}, is {off_ml} away from the average, much "
        "further than the others. Check its readings, or weigh that jar again."
    ),
    "vessel.doubt-repeats": N_(
        "The biggest doubt is how well the filling repeats; without it ± {doubt_ml} would be "
        "± {without_ml}. Fill to the same mark each time, with the eye level with the water."
    ),
    "vessel.doubt-vessels": N_(
        "The biggest doubt is how much the jars differ; without it ± {doubt_ml} would be "
        "± {without_ml}. Weigh more of them, each once: the average gets surer, the jars stay as "
        "they are."
    ),
    "vessel.doubt-reading": N_(
        "The biggest doubt is the step the scale reads to; without it ± {doubt_ml} would be "
        "± {without_ml}. A scale that reads finer would help."
    ),
    "vessel.doubt-scale": N_(
        "The biggest doubt is the scale itself; without it ± {doubt_ml} would be ± {without_ml}. "
        "Check it with a known weight, about as heavy as the water."
    ),
    "vessel.doubt-temperature": N_(
        "The biggest doubt is the temperature of the water; without it ± {doubt_ml} would be "
        "± {without_ml}. Measure it in the jar, after the water has stood in the room."
    ),
    "vessel.doubt-pressure": N_(
        "The biggest doubt is the air pressure; without it ± {doubt_ml} would be ± {without_ml}. "
        "Enter the pressure of the day in Settings."
    ),
    "vessel.doubt-line": N_(
        "The biggest doubt is seeing where the water stands over so wide a mouth; without it "
        "± {doubt_ml} would be ± {without_ml}. Read with the eye level with the water, against a "
        "strip of tape, and let the last drops in with a pipette; or weigh to the brim under a "
        "flat plate."
    ),
    "vessel.doubt-brim": N_(
        "The biggest doubt is where the water stands at so wide a brim: it can bulge above it; "
        "without it ± {doubt_ml} would be ± {without_ml}. Slide a flat clear plate over the brim "
        "until no bubble is left, dry the outside, and weigh with the plate both times."
    ),
    # Shapes
    "shape.no-points": N_("Measure the inside: at least one height and the diameter there."),
    "shape.no-height": N_("Measure the inside at one more height: so far it has none."),
    "shape.point-height": N_(
        "Measure {point_no}: the height must be between {lowest_mm} and {highest_mm}."
    ),
    "shape.point-diameter": N_(
        "Measure {point_no}: the inner diameter must be between {lowest_mm} and {highest_mm}."
    ),
    "shape.folded-back": N_(
        "Measure {point_no} is at {height_mm}, not above the one before it ({below_mm}). Enter the "
        "heights from the base upwards."
    ),
    "shape.height": N_("The height must be inside the vessel: from 0 to {top_mm}."),
    "shape.more-than-it-holds": N_(
        "It holds between nothing and {highest_ml} up to its top, not {value_ml}."
    ),
    "shape.base-fillet": N_(
        "The rounding of the base must be between {lowest_mm} and {highest_mm}."
    ),
    "shape.push-up": N_("The base can bulge up by something between {lowest_mm} and {highest_mm}."),
    "shape.base-does-not-fit": N_(
        "The rounding or bulge of the base does not fit inside the walls. Make it smaller, or "
        "check the diameters near the base."
    ),
    "shape.scaled-too-far": N_(
        "By its diameters the vessel holds {drawn_ml} to that height, by water {value_ml}. Check "
        "the diameters, the height and the weighings."
    ),
    "shape.wrap-diameter": N_("The outer diameter must be between {lowest_mm} and {highest_mm}."),
    "shape.wrap-height": N_("The wall must be between {lowest_mm} and {highest_mm} high."),
    "shape.no-taper": N_(
        "The wall is straight, so the label is a plain rectangle. Once round is {length_mm}."
    ),
    "shape.label-length": N_("The label must be between {lowest_mm} and {highest_mm} long."),
    "shape.label-height": N_("The label must be between {lowest_mm} and {highest_mm} high."),
    "shape.wrap-radius": N_("The radius must be between {lowest_mm} and {highest_mm}."),
    "shape.label-rise": N_("The ends may rise by something between {lowest_mm} and {highest_mm}."),
    # Densities
    "density.range": N_("A density must be between {lowest} and {highest} grams per millilitre."),
    "density.mass": N_("A mass in a mix must be between {lowest_g} and {highest_g}."),
    "density.nothing-to-mix": N_("There is nothing in the mix yet. Enter a mass for one part."),
    "density.temperature": N_("The temperature must be between {lowest_c} and {highest_c}."),
    "density.saponification": N_("A saponification value must be between {lowest} and {highest}."),
    "density.iodine": N_("An iodine value must be between {lowest} and {highest}."),
    # Setting
    "shrinkage.set-lighter": N_(
        "Set wax cannot be lighter than liquid wax ({set_g_per_ml} set, {hot_g_per_ml} "
        "liquid). Check whether the two were swapped."
    ),
    "shrinkage.volume": N_("The volume must be between {lowest_ml} and {highest_ml}."),
    "shrinkage.passes-brim": N_(
        "To stand at that line once set, {hot_ml} would have to be poured hot, but the vessel "
        "holds {brim_ml} to the brim. Plan a second pour or a lower line."
    ),
    "shrinkage.range-upside-down": N_(
        "The lower density ({value}) must come first and must not pass the higher ({highest})."
    ),
    # Statistics
    "statistics.probability": N_("A probability here must be between {lowest} and {highest}."),
    "statistics.distance": N_("The values say nothing about how far they lie apart."),
    "statistics.degrees": N_("At least two values are needed to judge a spread."),
}
