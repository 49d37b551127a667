"""Sentences of the Labels page: making labels, print runs and printing."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "label.no-such-element": N_("This is no longer on the label. Choose another line."),
    "label.measure-missing": N_("Type a number here; without it nothing can be drawn."),
    "label.picture-kind": N_(
        "Only PNG, JPEG and SVG pictures go onto labels. Save it as one of them."
    ),
    "label.picture-unreadable": N_("{path} cannot be read. Choose another picture."),
    "print.too-many": N_("A print run has {most} stickers at most. Print it in parts."),
    "print.no-candle": N_(
        "No candle is chosen for a label, so its fields stay empty. Choose it in the print run."
    ),
    "print.net-weight-not-declared": N_(
        "{candle} has no declared net weight yet. Declare it with the candle."
    ),
    "print.not-passed": N_(
        "{candle} has not passed its burn tests. Labels may be printed; do not sell it before."
    ),
    "print.test-again": N_(
        "{candle} is to be tested again, for something changed since it passed. Labels may be "
        "printed; do not sell it before."
    ),
    "print.fields-empty": N_(
        "These fields have no value yet, so their places stay empty: {fields}. Fill them in with "
        "the candle."
    ),
    "print.lot-empty": N_(
        "These fields have no value yet, so their places stay empty: {fields}. Choose the lot and "
        "the day in the print run."
    ),
    "print.business-empty": N_(
        "These fields have no value yet, so their places stay empty: {fields}. Fill them in with "
        "the business details."
    ),
    "print.outside-printable": N_(
        "On sticker {number} text comes into the {edge_mm} that {printer} leaves blank at the "
        "edge. Move it inwards, or leave these stickers free."
    ),
    "print.all-fits": N_("All text fits; the smallest type is {size} pt."),
    "print.not-taken": N_("The printer did not take the sheets. Look at it, then again."),
    "print.nothing": N_("There is nothing to print yet. Choose a sheet and add a label."),
    "print.stopped": N_("First mend what stops the print: {sentence}"),
    "calibration.point-missing": N_(
        "Type both distances of all four crosshairs before the correction is kept."
    ),
}
