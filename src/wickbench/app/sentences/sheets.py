"""Sentences about sticker sheets, print runs and the printer's calibration."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "sheet.measure": N_("A measure of a sheet must be a number, not below zero."),
    "sheet.grid": N_("Columns and rows are whole numbers, for example 3 and 7."),
    "sheet.shape": N_("A sticker is a rectangle, rounded, a circle or an oval."),
    "sheet.no-such-sticker": N_("This sheet has {count} stickers; there is no number {number}."),
    "sheet.no-page-w": N_("Type how wide the page is."),
    "sheet.no-page-h": N_("Type how high the page is."),
    "sheet.no-sticker-w": N_("Type how wide one sticker is."),
    "sheet.no-sticker-h": N_("Type how high one sticker is."),
    "sheet.no-stickers": N_(
        "There is nothing to print on: give the sheet at least one column and one row, and "
        "the print run at least one label."
    ),
    "sheet.run-count": N_("The number of labels must be a whole number, not below zero."),
    "sheet.sorting": N_("Stickers follow each other line by line, lot by lot or candle by candle."),
    "sheet.circle-not-round": N_(
        "A circle is as wide as it is high, but the sticker is {width_mm} × {height_mm}. Type"
        " the same measure twice, or choose oval."
    ),
    "sheet.corner-too-large": N_(
        "Corners of {corner_mm} are more than half of the sticker; {most_mm} is the most. "
        "Measure the corner’s radius again."
    ),
    "sheet.columns-overlap": N_(
        "The stickers are {size_mm} wide but only {pitch_mm} from one to the next: they "
        "overlap. Measure from left edge to left edge."
    ),
    "sheet.rows-overlap": N_(
        "The stickers are {size_mm} high but only {pitch_mm} from one to the next: they "
        "overlap. Measure from top edge to top edge."
    ),
    "sheet.past-right-edge": N_(
        "The last column runs {over_mm} over the right edge of the page. Check the left "
        "margin and the number of columns."
    ),
    "sheet.past-bottom-edge": N_(
        "The last row runs {over_mm} over the bottom edge of the page. Check the top margin "
        "and the number of rows."
    ),
    "sheet.near-left-edge": N_(
        "The first column is {distance_mm} from the left edge. Many printers leave {least_mm}"
        " blank there: keep text and colour away from it."
    ),
    "sheet.near-right-edge": N_(
        "The last column is {distance_mm} from the right edge. Many printers leave {least_mm}"
        " blank there: keep text and colour away from it."
    ),
    "sheet.near-top-edge": N_(
        "The first row is {distance_mm} from the top edge. Many printers leave {least_mm} "
        "blank there: keep text and colour away from it."
    ),
    "sheet.near-bottom-edge": N_(
        "The last row is {distance_mm} from the bottom edge. Some printers leave {least_mm} "
        "blank there: keep text and colour away from it."
    ),
    "sheet.partly-used": N_(
        "A partly used sheet goes through the printer. Feed it by hand: stickers can peel off"
        " in a laser printer."
    ),
    "sheet.actual-size": N_(
        "Choose “actual size” in the print dialog; any other choice moves the labels."
    ),
    "calibration.points": N_(
        "Four crosshairs are needed, each with a distance from the left and from the top "
        "edge; {count} were given."
    ),
    "calibration.in-line": N_(
        "The four places lie on one line. Measure each crosshair from the left and from the "
        "top edge of the paper again."
    ),
    "calibration.fit-to-page": N_(
        "The print came out at {scale_percent} of its size: “fit to page” is on. Choose "
        "“actual size” in the print dialog and print the page again."
    ),
    "calibration.large-shift": N_(
        "Everything lies {shift_mm} off. Check that each crosshair has its own two distances,"
        " measured from the left and the top edge."
    ),
    "calibration.measure-again": N_(
        "The four places do not agree with each other by {residual_mm}. Measure them again."
    ),
    "calibration.old": N_(
        "Where this printer puts things was measured on {measured_on}, more than half a year ago. "
        "Print the calibration page again and compare."
    ),
    "calibration.other-tray": N_(
        "The tray “{tray}” of this printer is corrected and this one is not. Trays feed "
        "differently: measure this one too."
    ),
    "affine.flat": N_(
        "This correction would squash the page to a line. Measure the crosshairs again."
    ),
}
