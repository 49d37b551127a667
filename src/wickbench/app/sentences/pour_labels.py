"""Sentences about the labels of a pour: what is missing, what was taken as usual."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "pour-labels.nothing": N_(
        "No candles are in this pour yet. Add them to the plan, then their labels are counted here."
    ),
    "pour-labels.no-day": N_(
        "This plan has no day yet, so lot and day stay open. Give it a day before you print."
    ),
    "pour-labels.no-lot": N_(
        "A pot of this pour has no lot code. Type the lot in the print run before you print."
    ),
    "pour-labels.no-pot": N_(
        "How {candle} is shared out over the pots is not known yet, so its lot stays open. See "
        "what the plan says about it."
    ),
    "pour-labels.no-candle": N_(
        "{count} × {vessel} are poured from a recipe that is no candle yet, so they get no labels. "
        "Make it a candle and choose it in the plan."
    ),
    "pour-labels.pot-open": N_(
        "Pot {number} is not poured out yet: its labels are counted as planned. Update the print "
        "run when it is."
    ),
    "pour-labels.no-jar-label": N_(
        "No label is chosen for {candle}. Choose its jar label with the candle."
    ),
    "pour-labels.no-caution": N_(
        "No caution sticker is chosen for {candle}. Choose it with the candle."
    ),
    "pour-labels.proposed-used": N_("{candle} gets “{label}”, which was used last for it."),
    "pour-labels.proposed-only": N_("{candle} gets “{label}”, the only one of its kind."),
    "pour-labels.no-sheet": N_(
        "No sticker sheet is known for “{label}”, and none has stickers of its size. Choose a "
        "sheet in the print run, or enter one by its measures."
    ),
    "pour-labels.run-left": N_(
        "The print run “{run}” was made for this pour before; nothing of it is wanted now. Remove "
        "it if it is of no use."
    ),
}
