"""Sentences about what was printed before and printing it again."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "print-again.not-whole": N_(
        "This print kept only its words, for it was made by an earlier version. Make a new print "
        "run of it."
    ),
    "print-again.typeface": N_(
        "The file of {family} {style} has changed since: letters may stand a little differently. "
        "Look at the sheet before you print."
    ),
    "print-again.picture-gone": N_(
        "A picture of this print is no longer in the workshop; its place stays empty."
    ),
    "print-again.begun": N_(
        "Some of these stickers stood on a sheet that was begun before. Print on a sheet that "
        "still has them, or make a new run."
    ),
    "print-again.position": N_(
        "The printer’s position was measured again since; these sheets are corrected by it."
    ),
}
